package outlook_test

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/signs"
)

func ofCause(c signs.Cause) said {
	s := said{who: "signs", stop: c.Act == signs.Stop, ready: c.ID == "ready", words: c.ID + ", " + c.Do}
	if len(c.Doses) > 0 {
		s.powder, s.grams = c.Doses[0].Powder, c.Doses[0].Mass.Grams()
	}
	return s
}

func ofAdvice(a liquor.Advice) said {
	return said{who: "dose", stop: a.Do == liquor.DoStop, ready: a.Do == liquor.DoNothing && a.Sentence == "nothing to add", powder: a.Powder, grams: a.Mass.Grams(), words: a.Do + ", " + a.Sentence}
}

func bySigns(f facts) said { return ofCause(signs.Causes(f.seen, f.vat)[0]) }

func byDose(f facts) said {
	return ofAdvice(signs.Advise(f.seen, f.vat))
}

// dayOf is the vat as a day's book has it: built yesterday, read and looked at now.
func dayOf(t *testing.T, f facts) (day.State, time.Time) {
	h := day.Head{Vat: "bin", Day: "2026-03-28", Zone: "UTC", Recipe: f.vat.Recipe, Setup: day.Setup{Fill: f.vat.Fill, Place: day.Outdoors, Cold: 12, Hot: 60}}
	h.Opening.Built = true
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	v := &vat{t, s, nine}
	v.put(day.Opened{How: "build"})
	for id, m := range f.vat.GivenToday {
		v.put(day.PowderAdded{Powder: id, Mass: m})
	}
	v.after(60 * 24 * 8)
	for _, g := range f.vat.Goods {
		v.put(day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: g.String(), Dry: 100, Dips: 2}})
	}
	if f.seen.Temp != nil {
		v.put(day.Reading{Temp: f.seen.Temp})
	}
	if f.seen.PH != nil {
		p := float64(*f.seen.PH)
		with := "paper"
		if f.seen.PHError < 0.2 {
			with = "meter"
		}
		v.put(day.Reading{PH: &p, With: with})
	}
	for _, x := range f.seen.Signs {
		v.put(day.SignSeen{Sign: x.ID})
	}
	if f.seen.Strip != nil {
		v.put(day.StripTest{Stayed: *f.seen.Strip})
	}
	return v.s, v.now
}

func byDay(t *testing.T, f facts) []said {
	s, now := dayOf(t, f)
	o := outlook.Of(s, now)
	seen, asked := outlook.Asked(s, o, now, f.vat.SinceFood)
	a, b := ofCause(signs.Causes(seen, asked)[0]), ofAdvice(outlook.Advise(s, o, now, f.vat.SinceFood))
	a.who, b.who = "signs of the day", "dose of the day"
	return []said{a, b}
}

// acidities is the pH that each asker takes the liquor to have.
func acidities(t *testing.T, f facts, inDay bool) map[string]float64 {
	if f.seen.PH != nil {
		return nil
	}
	n := f.vat
	n.Temp = f.seen.Temp
	out := map[string]float64{"dips": float64(n.Acidity().Likely)}
	if inDay && !liquor.Creeps(f.vat.Recipe) { // that one has crept up in the week that dayOf lets go by
		s, now := dayOf(t, f)
		if o := outlook.Of(s, now); o.PH.Known != outlook.Unknown {
			out["the day"] = float64(o.PH.Now.Likely)
		}
	}
	return out
}

// refuses are the words of a refusal of goods.
var refuses = regexp.MustCompile("harms it|acid got in|the alkali that this vat needs")

// gates tells for the goods who refuses them.
func gates(t *testing.T, f facts) map[string]bool {
	if len(f.vat.Goods) == 0 {
		return nil
	}
	g := f.vat.Goods[0]
	n := f.vat
	n.PH, n.Temp = f.seen.PH, f.seen.Temp
	v, _ := n.Bears(g)
	a := liquor.Advise(n)
	out := map[string]bool{"dose": a.Refused || a.Cause == "acid-in-vat", "load": v == fibre.Refused,
		"dips": refuses.MatchString(strings.Join(shade.Cautions(shade.Piece{Fibre: g}, n, quantity.Minutes(5)), " "))}
	s, now := dayOf(t, f)
	d := &vat{t, s, now}
	d.put(day.WettedOut{OfPiece: day.OfPiece{Tag: "A1"}})
	for st, open := d.s.Open(); open; st, open = d.s.Open() {
		d.put(day.StepSkipped{OfStep: day.OfStep{Step: st.No}})
	}
	_, err := day.Decide(d.s, day.Lower{Tag: "A1"}, now)
	if shut := err != nil && refuses.MatchString(err.Error()); shut || err == nil { // what is refused for another reason says nothing of this
		out["day"] = shut
	}
	return out
}
