package home

import (
	"example.org/vatside/model/history"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
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
	for _, d := range v.Care {
		if d.ID != history.Wait {
			return care(d, v, env)
		}
	}
	return v.Line
}

// saidOfCare is how much of what a vat wants is said on home; its own screen has the rest.
const saidOfCare = 3

// about is all that is to be said of the chosen vat.
func (h home) about(v screen.Vat, env screen.Env) []string {
	var lines []string
	d, held := env.Days.Day(v.ID())
	if now, ok := live(v, env); ok {
		lines = append(lines, now)
	} else if v.Line != "" {
		lines = append(lines, v.Line)
	}
	for _, d := range v.Due {
		lines = append(lines, due(d, env))
	}
	said, next := 0, false
	for _, d := range v.Care {
		if d.ID == history.Wait || next || said == saidOfCare {
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
	if v.Rehearsed {
		lines = append(lines, "a rehearsed day: invented, on its own clock")
	}
	if held && !d.Looking && d.Trouble != "" {
		lines = append(lines, d.Trouble)
	}
	if v.Trouble != "" {
		lines = append(lines, v.Trouble)
	}
	return lines
}

// behind is the day of a vat that this program writes, for which another open day of it can only be looked at.
func behind(v screen.Vat, vats []screen.Vat) string {
	for _, o := range vats {
		if o.Vat == v.Vat && o.Day != v.Day && o.Open && !o.Elsewhere && !o.Free {
			return o.Day
		}
	}
	return ""
}

// live is the present moment of a day that the engine holds.
func live(v screen.Vat, env screen.Env) (string, bool) {
	d, ok := env.Days.Day(v.ID())
	if !ok || !v.Open {
		return "", false
	}
	return d.Line(), true
}

// cloth is how dark the darkest piece in hand is so far.
func cloth(v screen.Vat, env screen.Env) style.Shade {
	darkest := style.Cloth(0)
	d, ok := env.Days.Day(v.ID())
	if !ok {
		return darkest
	}
	for _, p := range d.State.Pieces {
		want, known := style.DepthFraction(p.Spec.Depth)
		if !known {
			want = 0.6
		}
		if p.Live() && p.Want() > 0 {
			if s := style.Cloth(want * min(1, float64(p.Dips)/float64(p.Want()))); s.Density >= darkest.Density {
				darkest = s
			}
		}
	}
	return darkest
}

func liquor(v screen.Vat, env screen.Env) style.Shade {
	if d, ok := env.Days.Day(v.ID()); ok && !d.State.Vat.Ready && !d.State.Head.Opening.Built {
		return style.Liquor(style.Green)
	}
	return style.Liquor(style.YellowGreen)
}

func name(v screen.Vat) string {
	if v.Name != "" {
		return v.Name
	}
	return v.Vat
}
