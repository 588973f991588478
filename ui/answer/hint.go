package answer

import "example.org/vatside/model/day"

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
	case a.Shut && s.Children:
		return "Type: adults, once the children are gone."
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
