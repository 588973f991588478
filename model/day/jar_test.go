package day_test

import (
	"strings"
	"testing"

	"example.org/vatside/model/day"
)

// A stock jar that was read as acid takes nothing more, and nothing goes from it into the vat, till it is read again; the vat's own pH
// is not its.
func TestASourJarTakesNothing(t *testing.T) {
	sour, good := 6.2, 12.5
	p := begin(t, head(t, "lye"))
	for st, ok := p.s.Open(); ok && !(st.Into == "stock" && st.Powder == "lye"); st, ok = p.s.Open() {
		p.happen(day.StepDone{OfStep: day.OfStep{Step: st.No}, Do: string(st.Do)})
	}
	p.do(day.Record{Body: day.Reading{PH: &sour, Of: "stock"}})
	if p.s.Vat.PH != nil || !p.s.SourJar() {
		t.Fatalf("the jar's pH is taken as the vat's: %v", p.s.Vat.PH)
	}
	if a := day.Next(p.s, p.now); !strings.Contains(a.Words, "acid got into the stock jar") || a.Press != "" || !strings.Contains(a.How, "upwind") {
		t.Errorf("the call is %q, %q", a.Words, a.How)
	}
	p.refuses(day.Done{}, "acid got in")
	p.do(day.Record{Body: day.Reading{PH: &good, Of: "stock"}})
	if a := day.Next(p.s, p.now); strings.Contains(a.Words, "acid") {
		t.Errorf("read again, the call is %q", a.Words)
	}

	p = begin(t, head(t, "lye"))
	for st, ok := p.s.Open(); ok; st, ok = p.s.Open() {
		p.happen(day.StepDone{OfStep: day.OfStep{Step: st.No}, Do: string(st.Do)})
	}
	p.do(day.Record{Body: day.Reading{PH: &sour, Of: "stock"}})
	p.refuses(day.Record{Body: day.PowderAdded{Powder: "reducer", Mass: 5, Into: "stock"}}, "stock jar")
	p.refuses(day.Record{Body: day.StockDrawn{Stock: 1}}, "stock jar")
}

// The end of a vat says how much sulfite no strip shows, and reckons the acid with it: a vat that was fed for months has more.
func TestTheEndKnowsItsSulfite(t *testing.T) {
	acid := func(change func(*day.Opening)) day.Step {
		h := head(t, "soda")
		h.Setup.Ending, h.Opening = true, day.Opening{Number: 3, Built: true, Sulfur: true}
		change(&h.Opening)
		steps, err := day.Plan(h)
		if err != nil {
			t.Fatal(err)
		}
		for _, st := range steps {
			if st.Do == day.DoAcid {
				return st
			}
		}
		t.Fatal("no acid")
		return day.Step{}
	}
	young := acid(func(*day.Opening) {})
	if want := "not the sulfite, 43 g to 87 g by reckoning, which frees"; !strings.Contains(young.Why, want) {
		t.Errorf("%q does not say %q", young.Why, want)
	}
	old := acid(func(o *day.Opening) { o.Spent, o.Alkali = 60, 100 })
	if old.How == young.How || old.Why == young.Why {
		t.Errorf("a vat fed for months takes as much: %q", old.How)
	}
	t.Log(young.How, young.Why, old.How, old.Why)
}
