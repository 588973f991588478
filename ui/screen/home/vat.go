package home

import (
	"cmp"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
)

// aim is what matters most of a vat that is left to itself: what is overdue, what it waits for, what comes next.
func aim(v screen.Vat, env screen.Env) string {
	d, is := wants(v)
	switch {
	case is && (d.Overdue() || len(v.Due) == 0):
		return care(d, v, env)
	case len(v.Due) > 0:
		return due(v.Due[0], env)
	}
	if d, wants := wording.First(v.Care, func(d history.Due) bool { return d.ID != history.Wait && !comes(d, v) }); wants {
		return care(d, v, env)
	}
	return v.Line
}

// comes tells of a care that it comes on a day which a rehearsed vat has not.
func comes(d history.Due, v screen.Vat) bool { return d.Coming && v.Rehearsed }

// saidOfCare is how much of what a vat wants is said on home; its own screen has the rest.
const saidOfCare = 3

// about is all that is to be said of the chosen vat.
func (h home) about(v screen.Vat, env screen.Env) []string {
	d, held := env.Days.Day(v.ID())
	now, ok := live(v, env)
	lines := wording.Filled(wording.If(held && !d.Looking, d.Trouble), v.Trouble, wording.Either(ok, now, v.Line))
	lines = append(lines, wording.Each(v.Due, func(d day.Standing) string { return due(d, env) })...)
	said, next := 0, false
	for _, d := range v.Care {
		if d.ID == history.Wait || comes(d, v) || next || said == saidOfCare {
			continue
		}
		said, next = said+1, d.Coming
		lines = append(lines, care(d, v, env))
	}
	switch {
	case v.Elsewhere && behind(v, env.Home.Vats) != "":
		lines = append(lines, "to look at only until "+behind(v, env.Home.Vats)+" is closed")
	case v.Elsewhere:
		lines = append(lines, "open in another program: to look at only")
	case v.Free:
		lines = append(lines, "the other program has left it: its day can be taken over")
	}
	return append(lines, wording.Filled(wording.If(v.Rehearsed, "a rehearsed day: invented, on its own clock"))...)
}

// behind is the day of a vat that this program writes, for which another open day of it can only be looked at.
func behind(v screen.Vat, vats []screen.Vat) string {
	open := func(o screen.Vat) bool { return o.Vat == v.Vat && o.Day != v.Day && o.Open && !o.Elsewhere && !o.Free }
	other, _ := wording.First(vats, open)
	return other.Day
}

// live is the present moment of a day that the engine holds.
func live(v screen.Vat, env screen.Env) (string, bool) {
	d, ok := env.Days.Day(v.ID())
	if !ok || !v.Open {
		return "", false
	}
	return d.Line(), true
}

func name(v screen.Vat) string {
	return cmp.Or(v.Name, v.Vat)
}
