package day

import (
	"time"

	"example.org/vatside/model/wording"
)

// The sound check: once a day, while the first times run and before the first piece goes in, the dyer says whether the calls are
// heard. It holds nothing up: it stands beside the call, and is what the press says only where that would else say nothing.

// pressHeard is what the big key says then.
const pressHeard = "I hear the calls"

// AsksSound tells whether the sound check of the day is asked for: a time runs, or a piece is to go in, the first of its dips, so
// that who has no hand free afterwards can answer it; dips are still to come, and nobody answered it.
func AsksSound(s State) bool {
	if s.Closed || !s.Sound.At.IsZero() || s.Head.Setup.Ending {
		return false
	}
	_, open := s.Open()
	return (open || s.LiveAny()) && len(Dues(s)) > 0 || Next(s, s.At).Kind == ActEnter
}

func soundAct() Act {
	return Act{Kind: ActSound, Words: "Do you hear the calls?", Press: pressHeard,
		How: "Four even notes, and words where speech is on. Listen where you will stand, in gloves and wind.",
		Why: "Nothing is taken as planned that nobody can hear."}
}

// SoundPrompt is what is spoken of it while a call stands: the big key may belong to that call, and the check then has its own.
func (s State) SoundPrompt(c Call) string {
	if c.Press == pressHeard {
		return "Sound check. If you hear this, press"
	}
	return "Sound check. If you hear this, press the letter E"
}

// Soon is what is said a minute before a deadline: "one minute, then A1 out".
func Soon(s State, d Due, now time.Time) string {
	words := s.saysShort(d, d.At)
	switch c := CallOf(s, now); {
	case d.Kind == DueLift && c.Of(d):
		words = c.spoken(s, now)
	case words == s.Says(d, d.At): // a sentence; the others begin with a tag
		words = wording.Lower(words)
	}
	return soonWords + words
}

const soonWords = "one minute, then "

// hears tells whether a press of the big key at an act answers the sound check: while its time runs there is nothing else to press.
func (s State) hears(a Act, now time.Time) bool {
	left, _ := a.Left(now)
	return a.Press == "" && left > 0 && AsksSound(s)
}
