package day

import (
	"fmt"
	"strings"

	"example.org/vatside/model/fibre"
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

// takenBack says what is to be seen to once a correction has taken an event back: a heater that was said to be on, a °C that counts
// again; empty where there is nothing.
func (s State) takenBack(c Corrected) string {
	e, _ := s.Event(c.Of)
	_, heater := e.Body.(HeaterOn)
	b, _ := e.Body.(Reading)
	switch {
	case c.Way != "undone":
	case heater && !s.Vat.Heater:
		return "see that it is off and unplugged"
	case b.Temp == nil || b.Of != "" || s.Vat.TempAt.After(e.At):
	case s.Vat.Temp == nil:
		return "no " + s.degrees() + " is read now: read it again"
	default:
		return s.says(s.Vat.Temp) + " counts again" + wording.If(!s.Vat.TempAt.IsZero(), ", read "+DateOf(s.Vat.TempAt, s.At)) + ": read it again"
	}
	return ""
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

// Amiss says of a piece that an event lists, or gives other words to, that its fibre does not bear the liquor, or not quite, and that
// its dips take too long; of one that goes in that its fibre does not quite bear it; of a reading that what hangs in the vat does
// not bear it; of a closed room that no sulfur reducer goes in there; and of what was taken back what is to be seen to; empty for all
// else. A piece may stay on the list for a milder liquor or another vat: where it does not bear it, it is refused when it would go in.
func (s State) Amiss(e Event) string {
	var p Piece
	switch b := e.Body.(type) {
	case PieceAdded:
		p = Piece{Tag: b.Tag, Spec: b.PieceSpec, Dips: b.Had}
	case PieceChanged:
		p, _ = s.Piece(b.Tag)
		p.Spec = b.PieceSpec
	case DipBegun:
		p, _ = s.Piece(b.Tag)
		v, words := s.bears(p)
		return wording.If(v == fibre.Warned, p.Tag+": "+words)
	case PlaceChanged:
		return wording.If(b.Place == ClosedRoom && b.Of == "" && !s.ending() && s.Head.Recipe.Family.SulfurReducer(), errClosedRoom.Error())
	case Corrected:
		return s.takenBack(b)
	case Reading:
		if b.Of != "" {
			return ""
		}
		return wording.Joined("; ", wording.Some(s.InVat(), func(p Piece) (string, bool) {
			v, words := s.bears(p)
			return "lift " + p.Tag + ": " + words, v == fibre.Refused
		})...)
	default:
		return ""
	}
	v, words := s.bears(p)
	switch v {
	case fibre.Refused:
		words = p.Tag + " is listed, but stays out of this vat: " + words
	case fibre.Warned:
		words = p.Tag + ": " + words
	default:
		words = ""
	}
	return wording.Joined("; ", words, p.TooLong(e.At))
}
