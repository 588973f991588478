package cue

import (
	"encoding/binary"
	"fmt"
	"math"
	"time"
)

// The form of the sound: 16-bit mono. 22.05 kHz holds everything below 11 kHz, and the highest partial here is 2.5 kHz.
const (
	rate     = 22050 // samples a second
	headSize = 44    // bytes of a RIFF head with one plain fmt block

	// The fundamental lies between 500 and 1000 Hz and no partial above 2.5 kHz: small speakers carry it and older ears
	// hear it (ISO 24500, from memory).
	lowest, highest = 500.0, 1000.0
	topPartial      = 2500.0

	// peak is the same for every cue and level, with headroom for players that resample.
	peak = 0.8

	lead = 60 * time.Millisecond  // silence before: a sleeping sound card swallows the first moments
	tail = 120 * time.Millisecond // silence after: some players cut the end off
)

// partials are the strengths of the fundamental and its overtones. The overtones let a laptop's speaker carry the note;
// the fundamental stays the strongest, so the pitch is clear.
var partials = []float64{1, 0.5, 0.3, 0.15}

// A note begins `at` after the first one, sounds for `long` at `pitch` Hz and swells and fades over `soft`.
type note struct {
	at, long, soft time.Duration
	pitch          float64
}

const ms = time.Millisecond

// outRhythm has, for each level of Out, how many notes are called in about two and a half seconds and how long each
// is. Only this changes with the level: pitch and loudness stay. (Rhythm as the bearer of urgency is the idea of
// IEC 60601-1-8; none of its melodies are used.)
var outRhythm = [Top + 1]struct {
	groups, notes     int           // groups of notes, and notes in each
	step, long, group time.Duration // from note to note, a note, from group to group
}{
	{1, 2, 500 * ms, 220 * ms, 0},
	{2, 2, 340 * ms, 180 * ms, 1200 * ms},
	{2, 4, 220 * ms, 130 * ms, 1200 * ms},
	{3, 5, 130 * ms, 90 * ms, 850 * ms},
}

// score writes out the notes of a cue.
func score(c Cue, level int) []note {
	switch c {
	case Out:
		var notes []note
		r := outRhythm[level]
		for g := range r.groups {
			for i := range r.notes {
				notes = append(notes, note{time.Duration(g)*r.group + time.Duration(i)*r.step, r.long, 12 * ms, 740})
			}
		}
		return notes
	case In: // two long notes that fall and fade in slowly: there is time
		return []note{{0, 420 * ms, 90 * ms, 784}, {460 * ms, 620 * ms, 120 * ms, 587}}
	case Turn: // over and back, like the paddle
		return []note{{0, 160 * ms, 25 * ms, 587}, {190 * ms, 160 * ms, 25 * ms, 740}, {380 * ms, 240 * ms, 25 * ms, 587}}
	case Ready: // an open fifth, twice
		return []note{
			{0, 260 * ms, 40 * ms, 554}, {280 * ms, 480 * ms, 60 * ms, 831},
			{1100 * ms, 260 * ms, 40 * ms, 554}, {1380 * ms, 480 * ms, 60 * ms, 831},
		}
	case Count: // one short tick for each second to go, a long one at zero
		var notes []note
		for i := range level {
			notes = append(notes, note{time.Duration(i) * time.Second, 70 * ms, 10 * ms, 659})
		}
		return append(notes, note{time.Duration(level) * time.Second, 450 * ms, 20 * ms, 880})
	case Soon: // one soft note: nothing is to be done yet
		return []note{{0, 500 * ms, 160 * ms, 587}}
	case Done: // three that climb, the last one long
		return []note{{0, 200 * ms, 30 * ms, 554}, {230 * ms, 200 * ms, 30 * ms, 698}, {460 * ms, 700 * ms, 60 * ms, 831}}
	case Trouble: // quick and slow by turns, down and down again
		return []note{
			{0, 120 * ms, 15 * ms, 698}, {160 * ms, 420 * ms, 30 * ms, 523},
			{900 * ms, 120 * ms, 15 * ms, 698}, {1060 * ms, 420 * ms, 30 * ms, 523},
			{1800 * ms, 120 * ms, 15 * ms, 698}, {1960 * ms, 420 * ms, 30 * ms, 523},
		}
	case Check: // four even notes, up and down
		return []note{{0, 260 * ms, 30 * ms, 554}, {350 * ms, 260 * ms, 30 * ms, 659}, {700 * ms, 260 * ms, 30 * ms, 740}, {1050 * ms, 260 * ms, 30 * ms, 554}}
	case Next: // one soft tick, lower than that of a press
		return []note{{0, 140 * ms, 30 * ms, 698}}
	case Taken: // one tick
		return []note{{0, 80 * ms, 10 * ms, 880}}
	case NotTaken: // two low ones
		return []note{{0, 110 * ms, 10 * ms, 523}, {170 * ms, 110 * ms, 10 * ms, 523}}
	case Ask: // a tick that rises
		return []note{{0, 80 * ms, 10 * ms, 659}, {120 * ms, 120 * ms, 10 * ms, 988}}
	default: // Overdue: long, three short, long
		return []note{
			{0, 500 * ms, 40 * ms, 622}, {650 * ms, 110 * ms, 15 * ms, 622}, {830 * ms, 110 * ms, 15 * ms, 622},
			{1010 * ms, 110 * ms, 15 * ms, 622}, {1270 * ms, 500 * ms, 40 * ms, 622},
		}
	}
}

// fit brings a level into the range that the cue has, so that equal sounds share one name and one file.
func fit(c Cue, level int) int {
	switch {
	case c == Out:
		return min(max(level, 0), Top)
	case c == Count && level <= 0:
		return 5
	case c == Count:
		return min(level, 5)
	default:
		return 0
	}
}

// fileName is the name under which the sound of a call is kept.
func fileName(c Cue, level int) string { return fmt.Sprintf("%s-%d.wav", c, fit(c, level)) }

// Wave gives the cue as a whole WAV file. The same cue and level give the same bytes.
func Wave(c Cue, level int) []byte { return wav(play(score(c, fit(c, level)))) }

func samples(d time.Duration) int { return int(d.Seconds() * rate) }

// play turns notes into samples between -peak and peak. Notes of one cue never overlap, so nothing adds up.
func play(notes []note) []float64 {
	var end time.Duration
	for _, n := range notes {
		end = max(end, n.at+n.long)
	}
	out := make([]float64, samples(lead+end+tail))
	for _, n := range notes {
		first, count := samples(lead+n.at), samples(n.long)
		for i := range count {
			out[first+i] = peak * swell(i, count, samples(n.soft)) * tone(n.pitch, float64(i)/rate)
		}
	}
	return out
}

// swell is the loudness from 0 to 1 of sample i of n: half a cosine up at the start and down at the end, since a hard
// edge would click.
func swell(i, n, soft int) float64 {
	edge := min(i, n-1-i)
	if edge >= soft {
		return 1
	}
	return 0.5 - 0.5*math.Cos(math.Pi*float64(edge)/float64(soft))
}

// tone is the note of the given pitch at t seconds, between -1 and 1.
func tone(pitch, t float64) float64 {
	var sum, all float64
	for i, strength := range partials {
		f := pitch * float64(i+1)
		if f > topPartial {
			break
		}
		sum += strength * math.Sin(2*math.Pi*f*t)
		all += strength
	}
	return sum / all // the sum of the strengths bounds the sum of the sines: no clipping
}

// wav puts samples into a RIFF file of 16-bit mono PCM.
func wav(in []float64) []byte {
	size := 2 * len(in)
	le := binary.LittleEndian
	b := make([]byte, 0, headSize+size)
	b = append(b, "RIFF"...)
	b = le.AppendUint32(b, uint32(headSize-8+size))
	b = append(b, "WAVEfmt "...)
	b = le.AppendUint32(b, 16)     // bytes of the fmt block
	b = le.AppendUint16(b, 1)      // PCM
	b = le.AppendUint16(b, 1)      // channels
	b = le.AppendUint32(b, rate)   // samples a second
	b = le.AppendUint32(b, 2*rate) // bytes a second
	b = le.AppendUint16(b, 2)      // bytes a sample
	b = le.AppendUint16(b, 16)     // bits a sample
	b = append(b, "data"...)
	b = le.AppendUint32(b, uint32(size))
	for _, s := range in {
		b = le.AppendUint16(b, uint16(int16(math.Round(s*math.MaxInt16))))
	}
	return b
}
