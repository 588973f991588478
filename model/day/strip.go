package day

import (
	"time"

	"example.org/vatside/model/quantity"
)

// StripBlue says that the strip that is watched turned blue: its seconds are written down.
type StripBlue struct{}

func (StripBlue) command() {}

// longestStrip is longer than any strip stays yellow: one that is watched for longer was forgotten.
const longestStrip = time.Hour

// Watched is for how long a strip is out of the vat and not blue yet; false while none is watched.
func (s State) Watched(now time.Time) (time.Duration, bool) {
	if s.Vat.Pulled.IsZero() || s.Closed {
		return 0, false
	}
	return max(now.Sub(s.Vat.Pulled), 0), true
}

// stripAct is a strip that is watched, where it is what the hands are at: during a step that neither waits nor looks it only runs
// along.
func (s State) stripAct(now time.Time) (Act, bool) {
	out, watched := s.Watched(now)
	st, open := s.Open()
	if !watched || open && !st.Judges() && !st.Waits() {
		return Act{}, false
	}
	a := Act{Kind: ActStrip, Step: st, Words: "Strip out: is it blue?", How: "In the air, in the light; no yellow left anywhere on it.",
		Why: "The longer it stays yellow, the more reducer there is: about 45 s is good.", Press: "it is blue"}
	if out > longestStrip {
		a.How, a.Press = "It is watched for more than an hour: it was forgotten.", "leave this strip"
	}
	return a, true
}

// pull begins to watch a strip.
func (s State) pull(now time.Time) ([]Body, error) {
	if out, watched := s.Watched(now); watched && out <= longestStrip {
		return refuse("a strip is watched since %s: say when it is blue", Clock(s.Vat.Pulled))
	}
	return []Body{StripBegun{}}, nil
}

// blue ends the watching of a strip. One that was forgotten tells nothing, and is taken back.
func (s State) blue(now time.Time) ([]Body, error) {
	out, watched := s.Watched(now)
	switch {
	case !watched:
		return refuse("no strip is watched: pull one first")
	case out < cautionLeast: // a key that bounced
		return nil, ErrTooSoon
	case out > longestStrip:
		return s.correct(s.pulled, "undone", nil, now)
	}
	return []Body{StripTest{Stayed: quantity.Span(out.Round(time.Second))}}, nil
}
