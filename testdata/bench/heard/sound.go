package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"time"

	"example.org/vatside/ui/cue"
)

// The form of the sound: that of cue.Wave, which is espeak-ng's as well, 16-bit mono.
const (
	rate     = 22050
	headSize = 44
)

func silence(d time.Duration) []byte { return make([]byte, 2*int(d.Seconds()*rate)) }

// sound writes what is heard of the chosen part of the day into a file.
func (o options) sound(calls []call) error {
	voice, err := exec.LookPath("espeak-ng")
	if err != nil {
		fmt.Fprintln(os.Stderr, "heard: espeak-ng is not installed: the tones alone")
	}
	var pcm []byte
	ends := time.Time{}
	for _, c := range calls {
		if !o.within(c.at) {
			continue
		}
		if quiet := c.at.Sub(ends); !ends.IsZero() && quiet > 0 {
			pcm = append(pcm, silence(min(quiet, o.gap))...)
		}
		said := samples(cue.Wave(c.Cue, c.Level))
		if voice != "" && c.Words.String() != "" {
			words, err := speaks(voice, c.Words.String())
			if err != nil {
				return err
			}
			said = append(append(append([]byte(nil), said...), silence(200*time.Millisecond)...), words...)
		}
		pcm = append(pcm, said...)
		ends = c.at.Add(time.Duration(len(said)/2) * time.Second / rate)
	}
	if len(pcm) == 0 {
		return errors.New("nothing is heard in that part of the day")
	}
	return os.WriteFile(o.wav, wav(pcm), 0o644)
}

// samples are those of a wave file with a head of one fmt block.
func samples(wave []byte) []byte { return wave[min(headSize, len(wave)):] }

// speaks has words spoken into memory.
func speaks(voice, words string) ([]byte, error) {
	cmd := exec.Command(voice, "-v", "en", "--stdout", strings.TrimLeft(words, "- "))
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		return nil, fmt.Errorf("espeak-ng: %w %s", err, errs.String())
	}
	b := out.Bytes()
	if len(b) < headSize || binary.LittleEndian.Uint32(b[24:]) != rate {
		return nil, fmt.Errorf("espeak-ng speaks in another form than %d samples a second", rate)
	}
	return samples(b), nil
}

// wav is a whole file of samples, with the head of the program's own waves.
func wav(pcm []byte) []byte {
	head := append([]byte(nil), cue.Wave(cue.Soon, 0)[:headSize]...)
	binary.LittleEndian.PutUint32(head[4:], uint32(headSize-8+len(pcm)))
	binary.LittleEndian.PutUint32(head[40:], uint32(len(pcm)))
	return append(head, pcm...)
}
