package history

import (
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Fact is one thing that is known of a vat, in words.
type Fact struct{ Name, Words string }

// enough are the depths for which it is said how much goods the indigo is enough.
var enough = []string{"pale", "mid", "dark"}

// Facts say how the vat stands, each with the mark of how it is known: what is left of the indigo and for how much goods,
// the level, the sediment, the last readings. What is not known is left out.
func (s Status) Facts(now time.Time, sys quantity.System) []Fact {
	var out []Fact
	put := func(name, words string) {
		if words != "" {
			out = append(out, Fact{name, words})
		}
	}
	if i := s.Indigo; i.Known != outlook.Unknown {
		words := fmt.Sprintf("%s left, %s", i.Left.Likely.Format(sys), i.Known.String())
		switch {
		case s.Feeding.Now: // a share of what can be used that is gone would gainsay what it is still enough for
			words += ", feed it before more goods"
		case s.In > 0 && s.Used > 0:
			words += fmt.Sprintf(", %.0f %% of what can be used is gone", s.Used.Percent())
		}
		put("indigo", words)
		var goods []string
		for _, name := range enough {
			for _, c := range i.Capacity {
				if c.Depth.Name == name && c.KgLeft.Likely > 0 {
					goods = append(goods, quantity.TwoFigures(c.KgLeft.Likely).Format(sys)+" "+name)
				}
			}
		}
		if len(goods) > 0 {
			put("enough for", strings.Join(goods, ", or ")+", "+outlook.Guessed.String())
		}
	}
	if l := s.Level; l.Known != outlook.Unknown {
		words := "full, " + l.Known.String()
		if l.Lost.Likely >= quantity.Litres(0.1) {
			words = fmt.Sprintf("%s under full, %s", l.Lost.Likely.Format(sys), l.Known.String())
			if l.Known != outlook.Measured {
				words = l.width(sys) + " under full, " + l.Known.String()
			}
		}
		put("level", words)
	}
	if g := s.Sludge; g.Known != outlook.Unknown {
		words := "above a third of the depth"
		if g.Height > 0 {
			words = fmt.Sprintf("%s of %s", g.Height.Format(sys), g.Depth.Format(sys))
			words += wording.If(g.Deep, ", above a third")
		}
		put("sediment", words+", "+g.Known.String())
	}
	if t := s.Temp; t.Known != outlook.Unknown {
		put("warmth", t.Temp.Format(sys)+", "+t.Known.String()+", "+ago(t.At, now))
	}
	if p := s.PH; p.Known != outlook.Unknown {
		put("pH", fmt.Sprintf("%.1f, %s, %s", float64(p.PH), p.Known.String(), ago(p.At, now)))
	}
	if t := s.Strip; t.Known != outlook.Unknown {
		put("strip", t.Stayed.String()+", "+t.Known.String()+", "+ago(t.At, now))
	}
	return out
}

// ago is when something was read: "at 9:12", "yesterday", "on 3 May".
func ago(at, now time.Time) string {
	at = at.In(now.Location())
	switch wording.Nights(at, now) {
	case 0:
		return "at " + day.Clock(at)
	case 1:
		return "yesterday"
	}
	if at.Year() != now.Year() {
		return "on " + at.Format("2 Jan 2006")
	}
	return "on " + at.Format("2 Jan")
}

// Status is the state of a vat over its whole life, at one instant.
type Status struct {
	Indigo  outlook.Indigo // what is left, and for what goods
	In      quantity.Mass  // pure indigo put in since it was built; 0 where nothing is known of it
	Used    quantity.Share // of what a vat as strong as the recipe can give
	Feeding Feeding
	Level   Level
	Sludge  Sludge
	Temp    Temps
	PH      PHs
	Strip   Strips
}

// Feeding is whether it wants indigo. Nothing is said of it while a vat rests, and until it is revived.
type Feeding = liquor.Feeding

// Stand reckons how a vat stands at an instant that is not before its last event. The zero Status for a vat of no days.
func (l *Life) Stand(now time.Time) Status {
	last, ok := l.Last()
	if !ok {
		return Status{}
	}
	end := wording.Either(last.State.Closed || now.Before(last.State.At), last.State.At, now)
	out := Status{Indigo: outlook.Of(last.State, end).Indigo, Temp: l.past.Temp, PH: l.past.PH, Strip: l.past.Strip}
	if f := out.Indigo.Feeding; out.Indigo.Known != outlook.Unknown {
		if out.In, out.Used = l.past.In, f.Used; !l.asleep(now) {
			out.Feeding = f
		}
	}
	if !last.State.Ended {
		out.Level, out.Sludge = l.Level(now), l.Sludge()
	}
	return out
}
