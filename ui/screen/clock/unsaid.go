package clock

import (
	"fmt"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/widget"
)

// unsaid says what runs beside the call: a strip that is watched, and what was taken as planned and waits for a word.
func unsaid(sheet *widget.Sheet, v engine.View, act day.Act) {
	if out, on := v.State.Watched(v.Now); on && act.Kind != day.ActStrip {
		sheet.How = append([]string{fmt.Sprintf("The strip is yellow, %s: t when it turns blue.", widget.Countdown(out))}, sheet.How...)
		sheet.Answers = append(sheet.Answers, "t when it turns blue")
	}
	n := v.State.Unconfirmed()
	said := taken(v.State)
	switch {
	case n > 1 && (said != "" || day.Pause(v.State, v.Now)):
		words := wording.Counted(n, "act") + " unconfirmed, all as planned?"
		sheet.How, sheet.Why = append([]string{words + " k: look at them."}, sheet.How...), ""
		sheet.Answers = append(sheet.Answers, "k: look at them")
	case n == 1 && said != "":
		sheet.How, sheet.Why = append([]string{said, "k: confirm. T: tell when it really came out."}, sheet.How...), ""
		sheet.Answers = append(sheet.Answers, "k: confirm", "T: tell when it really came out")
	}
}

// confirms is what the key of confirming does.
func confirms(v engine.View) (string, bool) {
	if v.State.Unconfirmed() > 1 {
		return "all as planned?", true
	}
	return "confirm", taken(v.State) != ""
}
