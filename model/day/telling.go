package day

import (
	"fmt"
	"strings"

	"example.org/vatside/model/wording"
)

// Tell is what an event says, as its Sentence does; of a correction it also says what was taken back, confirmed or moved.
func (s State) Tell(b Body) string {
	sys := s.Head.Setup.System()
	c, ok := b.(Corrected)
	if !ok {
		return b.Sentence(sys)
	}
	if e, ok := s.Event(c.Of); ok {
		words, no := s.briefly(e.Body), fmt.Sprintf(" (#%d)", c.Of)
		switch c.Way {
		case "undone":
			return "taken back: " + words + no
		case "moved":
			return "corrected: " + words + no + " was" + strings.TrimPrefix(toldAt(c.To), ",")
		}
		return "confirmed: " + words + no
	}
	return b.Sentence(sys)
}

// countsAgain says which °C of the vat counts once a correction has taken the last one back; empty where it did not.
func (s State) countsAgain(c Corrected) string {
	e, _ := s.Event(c.Of)
	switch b, is := e.Body.(Reading); {
	case !is || c.Way != "undone" || b.Temp == nil || b.Of != "" || s.Vat.TempAt.After(e.At):
		return ""
	case s.Vat.Temp == nil:
		return "no °C is read now: read it again"
	case s.Vat.TempAt.IsZero():
		return s.says(s.Vat.Temp) + " counts again, of the day before: read it again"
	}
	return s.says(s.Vat.Temp) + " counts again, read " + DateOf(s.Vat.TempAt, s.At) + ": read it again"
}

// Event is the event of the log that has a number, as it was written.
func (s State) Event(seq int) (Event, bool) {
	if i := seq - 1; i >= 0 && i < len(s.Log) && s.Log[i].Seq == seq { // where none is missing
		return s.Log[i], true
	}
	return wording.First(s.Log, func(e Event) bool { return e.Seq == seq && seq > 0 })
}

// briefly is an event in the words of a correction of it.
func (s State) briefly(b Body) string {
	switch b := b.(type) {
	case Corrected:
		switch b.Way {
		case "undone":
			return fmt.Sprintf("the taking back of #%d", b.Of)
		case "moved":
			return fmt.Sprintf("the other time of #%d", b.Of)
		}
		return fmt.Sprintf("the confirmation of #%d", b.Of)
	case HeaterOn:
		return "heater on"
	case HeaterOff:
		return "heater off"
	case VatCovered:
		return "lid on"
	case VatUncovered:
		return "lid off"
	case DipBegun, DipEnded, FrothSkimmed, Stirred: // without that nobody confirmed it
		return amend(b, Corrected{}).Sentence(s.Head.Setup.System())
	case CautionAnswered:
		return "the answer to the caution"
	}
	return strings.TrimSuffix(b.Sentence(s.Head.Setup.System()), ".")
}
