package plain

import (
	"errors"
	"fmt"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/engine"
)

// vat says how the liquor stands and where it goes.
func (t *Terminal) vat(v engine.View) {
	for _, s := range outlook.Of(v.State, v.Now).Sentences(v.State.Head.Setup.System()) {
		t.say("  %s", s)
	}
}

// wants says the one next thing that the vat wants, and how it is typed once it is done.
func (t *Terminal) wants(v engine.View) {
	a, sys := outlook.Advise(v.State, outlook.Of(v.State, v.Now), v.Now, nil), v.State.Head.Setup.System()
	sentence := func(s string) string { return strings.ToUpper(s[:1]) + s[1:] + "." }
	t.say("  %s", sentence(a.Sentence))
	for _, c := range a.Cautions {
		t.say("  Caution: %s.", c)
	}
	for _, s := range append([]string{a.How, a.Why}, a.Warnings...) {
		if s != "" {
			t.say("  %s", sentence(s))
		}
	}
	if a.Mass > 0 {
		line := fmt.Sprintf("give %s %s", a.Powder, a.Mass.Format(sys))
		for _, w := range a.With {
			line += fmt.Sprintf(" and %s %s", w.Powder, w.Mass.Format(sys))
		}
		t.say("  When it is in, type: %s", line)
	}
	if a.Recheck != "" {
		t.say("  Then wait %s and %s.", a.Wait, a.Recheck)
	}
}

// give reads a dose that went in: POWDER MASS, and more of them after "and".
func give(s day.State, rest string) (day.Command, error) {
	c := day.Dose{Why: "by the dyer"}
	for _, part := range strings.Split(rest, " and ") {
		id, amount, ok := strings.Cut(strings.TrimSpace(part), " ")
		if !ok {
			return nil, errors.New("type the powder and how much of it: give reducer 20 g")
		}
		m, err := quantity.ParseMass(bare(strings.TrimSpace(amount), "g"), s.Head.Setup.System())
		if err != nil {
			return nil, err
		}
		c.Powders = append(c.Powders, day.Amount{Powder: id, Mass: m})
		c.Wait = max(c.Wait, liquor.DoseWait(s.Head.Recipe, id))
	}
	return c, nil
}

// level reads how full the vat is: 40 cm below the rim, or 28 L in it.
func level(s string, sys quantity.System) (day.Command, error) {
	if l, err := quantity.ParseLength(s, sys); err == nil {
		return day.Record{Body: day.Reading{BelowRim: &l}}, nil
	}
	v, err := quantity.ParseVolume(s, sys)
	if err != nil {
		return nil, errors.New("type how far the liquor is below the rim, or how much is in it: d 40 cm, d 28 L")
	}
	return day.Record{Body: day.Reading{Holds: &v}}, nil
}

// strip reads how long a strip stayed yellow.
func strip(s string, sys quantity.System) (day.Command, error) {
	stayed, err := quantity.ParseSpan(bare(s, "s"), sys)
	return day.Record{Body: day.StripTest{Stayed: stayed}}, err
}

// turned is the lid or the heater the other way round.
func turned(s day.State, what string) day.Command {
	switch {
	case what == "heater" && s.Vat.Heater:
		return day.Record{Body: day.HeaterOff{}}
	case what == "heater":
		return day.Record{Body: day.HeaterOn{Power: s.Head.Setup.Heater}}
	case s.Vat.Covered:
		return day.Record{Body: day.VatUncovered{}}
	}
	return day.Record{Body: day.VatCovered{}}
}

// spoke tells whether an event is a word of the vat's, after which its outlook is another.
func spoke(b day.Body) bool {
	switch b.(type) {
	case day.Reading, day.StripTest:
		return true
	}
	return false
}
