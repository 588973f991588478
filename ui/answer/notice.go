package answer

import (
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
)

// Notice is what an act is answered with where PageUp takes it back, or where it took something back, of a piece whose person does
// not stay for its dips, and of one that the vat harms: "resting · PageUp takes back", "taken back: heater on (#12)". It is empty
// for all else. The state is the one after it.
func Notice(s day.State, made []day.Event) string {
	var back []string
	var counts string
	for _, e := range made {
		switch b := e.Body.(type) {
		case day.PieceAdded, day.PieceChanged:
			if words := s.Amiss(e); words != "" {
				return words
			}
		case day.Corrected:
			if b.Way == "undone" && !ofAiring(s, b.Of) {
				back = append(back, s.Tell(b))
				counts = wording.Joined("; ", counts, s.Amiss(e))
			}
		case day.Rested:
			if b.Step == 0 && len(made) == 1 {
				return "resting" + takesBack
			}
		case day.SoundChecked, day.Talking:
			return b.Sentence(s.Head.Setup.System()) + takesBack
		case day.VatCovered:
			if b.Step == 0 {
				return "lid on" + takesBack
			}
		case day.VatUncovered:
			if b.Step == 0 {
				return "lid off" + takesBack
			}
		case day.VatJudged:
			if b.Step == 0 { // beside a dip nothing else on the day shows it
				return b.Sentence(s.Head.Setup.System()) + takesBack
			}
		case day.Stirred:
			if b.Step == 0 && len(made) == 1 {
				return b.Sentence(s.Head.Setup.System()) + takesBack
			}
		case day.StepSkipped:
			return "left out: " + b.What + takesBack
		case day.LeftOut:
			return "left out: " + b.What + " of " + b.Tag + takesBack
		case day.StripBegun:
			return "strip out" + takesBack
		}
	}
	if len(back) == 0 {
		return ""
	}
	words := "taken back: " + strings.ReplaceAll(strings.Join(back, ", "), "taken back: ", "")
	words += wording.If(heaterBack(s, made), "; see that it is off and unplugged")
	return wording.Joined("; ", words, counts)
}

const takesBack = " · PageUp takes back"

// ofAiring tells whether a correction is of the end of an airing, which comes along with the dip after it.
func ofAiring(s day.State, seq int) bool {
	e, _ := s.Event(seq)
	_, is := e.Body.(day.AiringEnded)
	return is
}

// heaterBack tells whether a heater that was said to be on is off by a correction alone.
func heaterBack(s day.State, made []day.Event) bool {
	for _, e := range made {
		if c, ok := e.Body.(day.Corrected); ok && c.Way == "undone" {
			of, _ := s.Event(c.Of)
			if _, on := of.Body.(day.HeaterOn); on && !s.Vat.Heater {
				return true
			}
		}
	}
	return false
}

// Hint is what can be said to an act besides the press, in words that are understood; empty where nothing more is to be said.
func Hint(s day.State, a day.Act) string {
	tag := a.Piece.Tag
	switch {
	case a.Caution != "":
		return ""
	case a.Kind == day.ActAsk:
		return "Type the figure or the words."
	case a.Kind == day.ActDecide:
		return "Type: stop, one more or as planned; rung 4 says what it is like."
	case a.Kind == day.ActLook:
		return "Type: better, same or worse."
	case a.Shut && s.Children:
		return "Type: adults, once the children are gone."
	case a.Kind == day.ActIdle && tag != "" && s.Vat.Temp != nil && *s.Vat.Temp > day.HandsMost:
		return "Type: r and the new temperature; or hot WHY, for sticks or tongs."
	case a.Kind == day.ActStep && a.Step.Do == day.DoSpent:
		return "Type: strip 0 where it shows no yellow, then y; else n."
	case a.Kind == day.ActStep && a.Step.Do == day.DoAcid:
		if a.Press != "" {
			return ""
		}
		return "Type: ph 8.2, as it reads."
	case a.Kind == day.ActStep && a.Step.Do == day.DoEnd:
		return "Type: went WHERE."
	case a.Kind != day.ActBench || a.Due != nil:
		return ""
	case a.Shut:
		return "Type: goods outdoors, place cross-draught, or leave " + tag + "."
	case a.Bench.ID == day.Crock:
		return "Type the two grades, dry and wet (" + day.CrockWords + "): crock " + tag + " 4 2.5; or leave " + tag + "."
	case a.Bench.ID == day.Looked:
		return "Type: look " + tag + " dark, look " + tag + " rung 4; or leave " + tag + "."
	case a.Bench.Optional:
		return "Or: leave " + tag + "."
	}
	return ""
}
