package cue

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"testing"
	"time"
)

// every calls f for each cue at each level it has.
func every(t *testing.T, f func(t *testing.T, c Cue, level int)) {
	t.Helper()
	levels := map[Cue][]int{Out: {1, 2, 3}, Count: {1, 2, 3, 4}}
	for _, c := range Cues() {
		for _, level := range append([]int{0}, levels[c]...) {
			t.Run(fileName(c, level), func(t *testing.T) { f(t, c, level) })
		}
	}
}

// pcm reads the samples back out of a wave, between -1 and 1.
func pcm(w []byte) []float64 {
	var out []float64
	for i := headSize; i+1 < len(w); i += 2 {
		out = append(out, float64(int16(binary.LittleEndian.Uint16(w[i:])))/math.MaxInt16)
	}
	return out
}

// sounding finds the stretches that sound, as [first, end) samples: apart by at least 10 ms of near silence.
func sounding(in []float64) [][2]int {
	const near, gap = 0.02, rate / 100
	var out [][2]int
	last := -gap - 1
	for i, s := range in {
		if math.Abs(s) < near {
			continue
		}
		if i-last > gap {
			out = append(out, [2]int{i, i})
		}
		out[len(out)-1][1] = i + 1
		last = i
	}
	return out
}

// middle is the middle of a note, at most 93 ms of it: long enough to tell 500 Hz from 480, short enough that a step of
// 5 Hz cannot pass over a frequency.
func middle(note []float64) []float64 {
	const most = 2048
	if over := len(note) - most; over > 0 {
		return note[over/2 : over/2+most]
	}
	return note
}

// windowed is a stretch under a Hann window, which keeps the frequencies beside each other apart.
func windowed(in []float64) []float64 {
	out := make([]float64, len(in))
	for i, s := range in {
		out[i] = s * (1 - math.Cos(2*math.Pi*float64(i)/float64(len(in))))
	}
	return out
}

// strength is the amplitude of one frequency in a windowed stretch: its discrete Fourier sum, by Goertzel's recurrence.
func strength(in []float64, f float64) float64 {
	k := 2 * math.Cos(2*math.Pi*f/rate)
	var last, before float64
	for _, s := range in {
		last, before = s+k*last-before, last
	}
	return 2 * math.Sqrt(last*last+before*before-k*last*before) / float64(len(in))
}

func TestWaveHead(t *testing.T) {
	every(t, func(t *testing.T, c Cue, level int) {
		w := Wave(c, level)
		le := binary.LittleEndian
		if string(w[:4]) != "RIFF" || string(w[8:16]) != "WAVEfmt " || string(w[36:40]) != "data" {
			t.Fatalf("the marks are %q", w[:40])
		}
		for _, f := range []struct {
			what      string
			got, want int
		}{
			{"RIFF size", int(le.Uint32(w[4:])), len(w) - 8},
			{"fmt size", int(le.Uint32(w[16:])), 16},
			{"PCM", int(le.Uint16(w[20:])), 1},
			{"channels", int(le.Uint16(w[22:])), 1},
			{"samples a second", int(le.Uint32(w[24:])), 22050},
			{"bytes a second", int(le.Uint32(w[28:])), 44100},
			{"bytes a sample", int(le.Uint16(w[32:])), 2},
			{"bits a sample", int(le.Uint16(w[34:])), 16},
			{"data size", int(le.Uint32(w[40:])), len(w) - 44},
		} {
			if f.got != f.want {
				t.Errorf("%s is %d, want %d", f.what, f.got, f.want)
			}
		}
	})
}

// No sample near full scale, none too faint to hear, and silence at both ends: no click, no clipping.
func TestWaveLoudness(t *testing.T) {
	every(t, func(t *testing.T, c Cue, level int) {
		in := pcm(Wave(c, level))
		top := 0.0
		for _, s := range in {
			top = max(top, math.Abs(s))
		}
		if top < 0.5 || top > peak {
			t.Errorf("loudest sample %.3f, want 0.5 to %.1f of full scale", top, peak)
		}
		if in[0] != 0 || in[len(in)-1] != 0 {
			t.Errorf("it begins at %.3f and ends at %.3f, want silence", in[0], in[len(in)-1])
		}
		for _, s := range sounding(in) {
			if first := math.Abs(in[s[0]]); first > 0.1 {
				t.Errorf("a note begins at %.3f of full scale: a click", first)
			}
		}
	})
}

// The strongest frequency of every note lies between 500 and 1000 Hz, with overtones above it and nothing below.
func TestWaveFundamental(t *testing.T) {
	every(t, func(t *testing.T, c Cue, level int) {
		in := pcm(Wave(c, level))
		for n, s := range sounding(in) {
			note := windowed(middle(in[s[0]:s[1]]))
			best, at := 0.0, 0.0
			for f := 100.0; f <= 4000; f += 5 {
				if a := strength(note, f); a > best {
					best, at = a, f
				}
			}
			if at < lowest || at > highest {
				t.Errorf("note %d is strongest at %.0f Hz", n, at)
			}
			if over := strength(note, 2*at); over < 0.2*best {
				t.Errorf("note %d at %.0f Hz has an overtone of only %.2f of it", n, at, over/best)
			}
			for f := 100.0; f < lowest-100; f += 20 {
				if low := strength(note, f); low > 0.1*best {
					t.Errorf("note %d has %.2f of its strength at %.0f Hz", n, low/best, f)
				}
			}
		}
	})
}

// A more urgent Out has more and denser notes; it is neither louder nor higher.
func TestOutRisesByRhythm(t *testing.T) {
	density := func(in []float64) float64 {
		notes := sounding(in)
		return float64(len(notes)) * rate / float64(notes[len(notes)-1][1]-notes[0][0])
	}
	loudest := func(in []float64) (top float64) {
		for _, s := range in {
			top = max(top, math.Abs(s))
		}
		return top
	}
	for level := 1; level <= Top; level++ {
		low, high := pcm(Wave(Out, level-1)), pcm(Wave(Out, level))
		if a, b := len(sounding(low)), len(sounding(high)); a >= b {
			t.Errorf("level %d has %d notes, level %d has %d", level-1, a, level, b)
		}
		if a, b := density(low), density(high); level > 1 && a >= b {
			t.Errorf("level %d has %.1f notes a second, level %d has %.1f", level-1, a, level, b)
		}
		if a, b := loudest(low), loudest(high); math.Abs(a-b) > 0.01 {
			t.Errorf("level %d is %.2f loud, level %d %.2f", level-1, a, level, b)
		}
	}
}

// In never rises, and no level changes a cue that has none.
func TestOnlyOutAndCountHaveLevels(t *testing.T) {
	for _, c := range Cues() {
		if same := bytes.Equal(Wave(c, 1), Wave(c, 3)); same != (c != Out && c != Count) {
			t.Errorf("%v at 1 and 3: same is %v", c, same)
		}
	}
	for _, out := range [][2]int{{-1, 0}, {4, 3}, {99, 3}} {
		if !bytes.Equal(Wave(Out, out[0]), Wave(Out, out[1])) {
			t.Errorf("Out %d is not Out %d", out[0], out[1])
		}
	}
}

// Count has one tick a second for each second to go and its long note at zero, to a hundredth of a second.
func TestCountKeepsTime(t *testing.T) {
	for to := 1; to <= 5; to++ {
		notes := sounding(pcm(Wave(Count, to)))
		if len(notes) != to+1 {
			t.Fatalf("%d seconds to go: %d notes", to, len(notes))
		}
		for i, n := range notes {
			at := time.Duration(float64(n[0]-notes[0][0]) / rate * float64(time.Second))
			if off := at - time.Duration(i)*time.Second; off.Abs() > 10*time.Millisecond {
				t.Errorf("%d seconds to go: note %d is %v off", to, i, off)
			}
		}
		if last := notes[to]; last[1]-last[0] < samples(300*time.Millisecond) {
			t.Errorf("%d seconds to go: the note at zero is short", to)
		}
	}
}

// The cues can be told apart, and each is the same whenever it is made.
func TestWavesDifferAndAreStable(t *testing.T) {
	seen := map[string]string{}
	every(t, func(t *testing.T, c Cue, level int) {
		w := Wave(c, level)
		if again := wav(play(score(c, fit(c, level)))); !bytes.Equal(w, again) {
			t.Error("made again it differs")
		}
		name := fileName(c, level)
		if other, ok := seen[string(w)]; ok && other != name {
			t.Errorf("it sounds like %s", other)
		}
		seen[string(w)] = name
		if long := float64(len(w)-headSize) / 2 / rate; long > 6 {
			t.Errorf("it lasts %.1f s", long)
		}
	})
}

// rhythm is what is heard of a cue across a yard, without its pitch: where each note begins and how long it is, in steps of 60 ms.
func rhythm(c Cue, level int) string {
	const step = 6 * rate / 100
	text := ""
	notes := sounding(pcm(Wave(c, level)))
	for _, n := range notes {
		text += fmt.Sprintf("%d+%d ", (n[0]-notes[0][0]+step/2)/step, (n[1]-n[0]+step/2)/step)
	}
	return text
}

// The calls are told apart by their rhythm alone, and those for the hands last from half a second to three.
func TestRhythmsDiffer(t *testing.T) {
	type of struct {
		cue   Cue
		level int
	}
	seen := map[string]of{}
	for _, c := range []of{{Out, 0}, {Out, 1}, {Out, 2}, {Out, 3}, {In, 0}, {Turn, 0}, {Ready, 0}, {Overdue, 0}, {Soon, 0}, {Done, 0}, {Trouble, 0}, {Check, 0}} {
		r := rhythm(c.cue, c.level)
		if o, ok := seen[r]; ok {
			t.Errorf("%s %d has the rhythm of %s %d: %s", c.cue, c.level, o.cue, o.level, r)
		}
		seen[r] = c
		notes := sounding(pcm(Wave(c.cue, c.level)))
		if long := float64(notes[len(notes)-1][1]-notes[0][0]) / rate; long < 0.35 || long > 3 {
			t.Errorf("%s %d lasts %.2f s", c.cue, c.level, long)
		}
	}
}

// A small speaker carries a cue: at least nine tenths of its power lie from 500 to 4000 Hz, and a note's mean is no more than 14 dB
// under full scale.
func TestSmallSpeakersCarryIt(t *testing.T) {
	every(t, func(t *testing.T, c Cue, level int) {
		in := pcm(Wave(c, level))
		for n, s := range sounding(in) {
			note := middle(in[s[0]:s[1]])
			mean := 0.0
			for _, x := range note {
				mean += x * x
			}
			if db := 10 * math.Log10(mean/float64(len(note))); db < -14 {
				t.Errorf("note %d is %.1f dB under full scale", n, -db)
			}
			carried, all, shaped := 0.0, 0.0, windowed(note)
			for f := 20.0; f < 10_000; f += 20 {
				a := strength(shaped, f)
				if all += a * a; f >= lowest-20 && f <= 4000 {
					carried += a * a
				}
			}
			if carried < 0.9*all {
				t.Errorf("note %d has %.0f %% of its power where a small speaker carries", n, 100*carried/all)
			}
		}
	})
}

func BenchmarkWave(b *testing.B) {
	for b.Loop() {
		wav(play(score(Out, Top)))
	}
}

// Cues lists all cues.
func Cues() []Cue {
	return []Cue{Out, In, Turn, Ready, Count, Overdue, Soon, Done, Trouble, Check, Next, Taken, NotTaken, Ask}
}
