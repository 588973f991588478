package answer

import (
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
)

// Notice is what an act is answered with where PageUp takes it back, or where it took something back, of a piece whose person does not stay
// for its dips, of one that the vat harms, and of a place where its reducer does not go in: "resting · PgUp takes back", "taken back:
// heater on (#12)". It is empty for all else. The state is the one after it.
func Notice(s day.State, made []day.Event) string {
	var back, more []string
	for _, e := range made {
		says, one := "", len(made) == 1
		switch b := e.Body.(type) {
		case day.PieceAdded, day.PieceChanged, day.PlaceChanged, day.Reading:
			if words := s.Amiss(e); words != "" {
				return words
			}
		case day.Corrected:
			of, _ := s.Event(b.Of)
			if _, airing := of.Body.(day.AiringEnded); b.Way == "undone" && !airing { // which comes along with the dip after it
				back, more = append(back, s.Tell(b)), append(more, s.Amiss(e))
			}
		case day.Rested:
			says = wording.If(b.Step == 0 && one, "resting")
		case day.SoundChecked, day.Talking:
			says = b.Sentence(s.Head.Setup.System())
		case day.VatCovered:
			says = wording.If(b.Step == 0, "lid on")
		case day.VatUncovered:
			says = wording.If(b.Step == 0, "lid off")
		case day.VatJudged: // beside a dip nothing else on the day shows it
			says = wording.If(b.Step == 0, b.Sentence(s.Head.Setup.System()))
		case day.Stirred:
			says = wording.If(b.Step == 0 && one, b.Sentence(s.Head.Setup.System()))
		case day.StepSkipped:
			says = "left out: " + b.What
		case day.LeftOut:
			says = "left out: " + b.What + " of " + b.Tag
		case day.StripBegun:
			says = "strip out"
		}
		if says != "" {
			return says + takesBack
		}
	}
	if len(back) == 0 {
		return ""
	}
	words := "taken back: " + strings.ReplaceAll(strings.Join(back, ", "), "taken back: ", "")
	return wording.Joined("; ", append([]string{words}, more...)...)
}

const takesBack = " · PgUp takes back"

// Hint is what can be said to an act besides the press, in words that are understood; empty where nothing more is to be said.
func Hint(s day.State, a day.Act) string {
	tag := a.Piece.Tag
	switch {
	case a.Caution != "":
		return ""
	case a.Kind == day.ActAsk:
		return "Type the figure or the words."
	case a.Kind == day.ActDecide:
		says := a.Piece.LookSays()
		last := len(says) - 1
		return "Type: " + strings.Join(says[:last], ", ") + " or " + says[last] + "; rung 4 says what it is like."
	case a.Kind == day.ActReady && len(s.Pieces) > 1:
		return "Type: all " + wording.Either(a.Do == day.ToScour, "scoured", "soak") + ", for each piece at once."
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
