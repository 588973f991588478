package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/testdata/bench/days"
	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/testdata/bench/internal/tty"
	"example.org/vatside/ui/terminal/emulator"
)

// The invented day is played once, then moved to this date: the pictures are the same on every day. Its clock is its own.
const (
	vat  = "garden-bin"
	date = "2026-05-09"
	zone = "UTC"
)

// invented is the played day.
type invented struct {
	work, program string
	lines         string // an event each, as rehearse --plain tells them
	text          []byte
	homes         int
}

// command is the program in a home.
func (v *invented) command(home string, args ...string) *exec.Cmd {
	cmd := exec.Command(v.program, append(args, "--home", home)...)
	cmd.Env, cmd.Dir = apart.Env(v.work, zone), v.work
	return cmd
}

// play builds the program and has it play the day.
func play(work string) (*invented, error) {
	v := &invented{work: work}
	var err error
	if v.program, err = apart.Build(filepath.Join(work, "vatside"), "example.org/vatside"); err != nil {
		return nil, err
	}
	home := filepath.Join(work, "played")
	lines, err := v.command(home, "rehearse", "--plain", "--speed", "max").CombinedOutput()
	v.lines = string(lines)
	if err != nil {
		return nil, fmt.Errorf("rehearse: %w\n%s", err, lines)
	}
	files, err := filepath.Glob(filepath.Join(home, "vats", vat, "*.toml"))
	if err != nil || len(files) != 1 {
		return nil, fmt.Errorf("%d days were played: %w", len(files), err)
	}
	text, err := os.ReadFile(files[0])
	if err != nil {
		return nil, err
	}
	d := days.Parse(text)
	last, err := d.Last()
	if err != nil {
		return nil, err
	}
	on, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return nil, err
	}
	last = last.UTC()
	if _, err := d.EndAt(on.Add(last.Sub(last.Truncate(24 * time.Hour)))); err != nil {
		return nil, err
	}
	v.text = d.Text()
	return v, nil
}

var number = regexp.MustCompile(`#(\d+) `)

// upto is the day up to the first event whose line has these words.
func (v *invented) upto(words string) ([]byte, error) {
	for line := range strings.Lines(v.lines) {
		if n := number.FindStringSubmatch(line); n != nil && strings.Contains(line, words) {
			seq, err := strconv.Atoi(n[1])
			d := days.Parse(v.text)
			if err != nil || seq >= len(d.Blocks) {
				return nil, fmt.Errorf("the day has no event %s", n[1])
			}
			d.Blocks, d.Seqs, d.Sums = d.Blocks[:seq+1], d.Seqs[:seq+1], d.Sums[:seq+1] // block 0 is the head
			return d.Text(), nil
		}
	}
	return nil, fmt.Errorf("the invented day has no event %q", words)
}

// home is a new home, in which the day stands as a scene has it.
func (v *invented) home(s scene) (string, error) {
	v.homes++
	home := filepath.Join(v.work, "home-"+strconv.Itoa(v.homes))
	file := filepath.Join(home, "vats", vat, date+".toml")
	day, err := v.upto(s.until)
	if err != nil {
		return "", err
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		return "", err
	}
	settings := fmt.Sprintf("theme = %q\n\n[sound]\nbell = false\ntone = false\nspeech = false\n", s.theme)
	if err := os.WriteFile(filepath.Join(home, "settings.toml"), []byte(settings), 0o644); err != nil {
		return "", err
	}
	if err := os.WriteFile(file, day, 0o644); err != nil {
		return "", err
	}
	for _, w := range s.says {
		if out, err := v.command(home, "say", vat, w.words, "--at", w.at).CombinedOutput(); err != nil {
			return "", fmt.Errorf("say %q: %w: %s", w.words, err, out)
		}
	}
	return home, nil
}

// patience is how long a screen may take on a busy machine; stillness, how long it must not change to be whole. The clock of the
// day goes on meanwhile, a second in a second.
const (
	patience  = 20 * time.Second
	stillness = 400 * time.Millisecond
)

// show leads the program to a scene and shows its screen.
func (v *invented) show(s scene, cols, rows int, look func(*emulator.Screen) error) error {
	home, err := v.home(s)
	if err != nil {
		return err
	}
	session, err := tty.StartIn(v.command(home, "rehearse", "--speed", "1"), cols, rows, tty.Manner{Answers: tty.Xterm})
	if err != nil {
		return err
	}
	defer session.Kill()
	for _, p := range append(s.keys, press{after: s.shows}) {
		if !session.Await(patience, func() bool { return strings.Contains(session.Text(), p.after) }) {
			return fmt.Errorf("%q was not shown, but:\n%s", p.after, session.Text())
		}
		session.Type(p.keys)
	}
	seen, since := "", time.Now()
	session.Await(patience, func() bool {
		if now := session.Text(); now != seen {
			seen, since = now, time.Now()
		}
		return time.Since(since) > stillness
	})
	session.See(func(screen *emulator.Screen) { err = look(screen) })
	return err
}
