package tty

import (
	"bytes"
	"sync/atomic"
	"time"
)

// Manner is how a terminal behaves.
type Manner struct {
	Answers []Answer // to what it is asked; none: it is silent
	// Heard, if there is one, is told of each piece of output when the screen has it: when it was read, its bytes, and what is
	// shown now. The screen waits for it, and it must not ask the session anything.
	Heard func(at time.Time, n int, text func() string)
	Pace  int // from the start: see Session.Pace
}

// Answer is what a terminal answers when a program asks it something.
type Answer struct{ Asks, Says string }

// Xterm answers as a dark xterm of 80×24 does.
var Xterm = []Answer{
	{"\x1b]10;?", "\x1b]10;rgb:e0e0/e0e0/e0e0\x1b\\"}, // OSC 10: colour of the text
	{"\x1b]11;?", "\x1b]11;rgb:1010/1010/1818\x1b\\"}, // OSC 11: colour of the ground
	{"\x1b[c", "\x1b[?62;22c"},                        // DA1: device attributes
	{"\x1b[0c", "\x1b[?62;22c"},                       // DA1, written out
	{"\x1b[>c", "\x1b[>41;370;0c"},                    // DA2
	{"\x1b[6n", "\x1b[1;1R"},                          // CPR: cursor position
	{"\x1b[5n", "\x1b[0n"},                            // status
	{"\x1b[?2026$p", "\x1b[?2026;2$y"},                // DECRPM of synchronised output: known, off
	{"\x1b[18t", "\x1b[8;24;80t"},                     // size in cells
}

// answer is what is said to the last n bytes of an output.
func (m Manner) answer(out []byte, n int) (says string) {
	for _, a := range m.Answers {
		from := max(0, len(out)-n-len(a.Asks)+1) // a question may come in pieces
		for range bytes.Count(out[from:], []byte(a.Asks)) {
			says += a.Says
		}
	}
	return says
}

// Stopped is the pace of a terminal that reads nothing.
const Stopped = -1

// pace is how many bytes a second a terminal reads; 0: as many as come.
type pace struct{ bytes atomic.Int64 }

// Pace sets how many bytes a second the terminal reads: 0 for as many as come, or Stopped. The next piece may still come whole.
func (s *Session) Pace(bytes int) { s.pace.bytes.Store(int64(bytes)) }

// before waits until the terminal reads again, and gives how many bytes it then takes at once.
func (p *pace) before(most int) int {
	const breath = 20 * time.Millisecond
	for {
		switch b := int(p.bytes.Load()); {
		case b == 0:
			return most
		case b > 0:
			time.Sleep(breath)
			return min(most, max(1, b*int(breath)/int(time.Second)))
		}
		time.Sleep(breath / 4)
	}
}
