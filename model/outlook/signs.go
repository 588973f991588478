package outlook

import (
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
)

// Asked is what the signs are asked at an instant: what was seen since something was last done to the vat, what was read of
// it and still speaks for it, what was tried today; and the state of its liquor.
func Asked(s day.State, o Outlook, now time.Time, fed *quantity.Span) (signs.Seen, signs.Vat) {
	vat := StateOf(s, o, now, fed)
	seen := signs.Seen{Temp: vat.Temp, PH: vat.PH, PHError: vat.PHError, Strip: vat.Strip, Tried: s.Tried()}
	for _, x := range s.Seen() {
		if not := map[string]string{"clear": "milky", "milky": "clear"}[x.ID]; not != "" { // it is clear again, or milky again
			seen.Signs = slices.DeleteFunc(seen.Signs, func(y signs.Sign) bool { return y.ID == not })
		}
		seen.Signs = append(seen.Signs, x)
	}
	return seen, vat
}

// Treatment is what a cause asks for, as it is written down.
func Treatment(c signs.Cause) day.Treat {
	t := day.Treat{Cause: c.ID, Do: c.Do, Wait: c.Wait}
	for _, d := range c.Doses {
		t.Powders = append(t.Powders, day.Amount{Powder: d.Powder, Mass: d.Mass})
	}
	return t
}

// Answer is what two strips say of the treatment whose recheck has come: the last one before it and the last one since.
// NotSaid where one of them was not pulled.
func Answer(s day.State) signs.Answer {
	if s.Treating == nil {
		return signs.NotSaid
	}
	before, after := s.Treating.Strips()
	return signs.Judge(wording.Told(before, -1), wording.Told(after, -1))
}
