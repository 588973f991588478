package clock

import (
	"fmt"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// soon is how long before its end a time calls the eye.
const soon = 15 * time.Second

// early is the warning that a chosen piece's time is not over.
func early(v engine.View, tag string) string {
	for _, d := range v.Dues() {
		if left := d.At.Sub(v.Now); d.Tag == tag && left > 0 {
			return ", " + widget.Countdown(left) + " too soon"
		}
	}
	return ""
}

// wanted tells whether the act is for the hands now, not at the end of a time.
func wanted(act day.Act, v engine.View) bool {
	left, _ := act.Left(v.Now)
	return left <= soon
}

// warmFirst says before a piece goes in that the vat has grown too cold; empty while it has not, or while goods
// hang in it.
func warmFirst(v engine.View) string {
	h := screen.Outlook(v).Heat
	if h.Known == outlook.Unknown || h.Known == outlook.Guessed || h.Now >= h.Low || v.State.Vat.Heater || len(v.State.InVat()) > 0 {
		return ""
	}
	sys := v.State.Head.Setup.System()
	now, low := screen.HeatNow(h, sys).Format(sys), h.Low.Format(sys)
	if now == low { // by less than a reading tells
		return ""
	}
	words := fmt.Sprintf("First warm it: %s, and it needs %s.", now, low)
	if h.Heater > 0 && h.Back > 0 {
		return words + fmt.Sprintf(" e: heater on, %.0f min, hands and goods out.", h.Back.Minutes())
	}
	return words + " Stand hot jars in it, lid on."
}

// taken says which lift was recorded as planned last and has no word on it yet; empty when there is none.
func taken(s day.State) (says string) {
	seq := 0
	for _, p := range s.Pieces {
		for _, d := range p.Past {
			if d.Assumed && d.EndSeq > seq {
				seq, says = d.EndSeq, fmt.Sprintf("Nobody answered: %s taken as out at %s.", p.Tag, day.Clock(d.Ended))
			}
		}
	}
	return says
}
