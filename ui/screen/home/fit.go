package home

import (
	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// marked is what stands beside the words of a row of the list, in columns: its mark and the gap.
const marked = 5

// fitted is the list with its running times whole in so many columns: where there is no room for the line of a vat its call stands
// there in short, else the time alone. vats are those of the list.
func fitted(list []widget.Choice, vats []screen.Vat, columns int, env screen.Env) []widget.Choice {
	wide := wording.Most(list, func(c widget.Choice) int { return style.Width(c.Text) })
	fits := func(aside string) bool { return wide+style.Width(aside)+marked <= columns }
	for i, v := range vats {
		d, ok := env.Days.Day(v.ID())
		if !ok || fits(list[i].Aside) {
			continue
		}
		call := d.Call()
		if call.Due == nil {
			continue
		}
		if list[i].Aside = call.Row(d.Now); !fits(list[i].Aside) {
			left := call.Due.At.Sub(d.Now)
			list[i].Aside = day.Countdown(left.Abs())
			list[i].Aside += wording.If(left < 0 && fits(list[i].Aside+" over"), " over")
		}
	}
	return list
}
