package day_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// What the hands are told once: tight cloth stays in longer at its first dip, a plunge comes after it, and in a vat of lime a rinse
// comes after each second dip; bound goods are not plunged.
func TestTheTradeBetweenDips(t *testing.T) {
	how := func(p *played) string { return day.Next(p.s, p.now).How }
	for _, c := range []struct {
		id, form string
		plunge   bool
		rinse    bool
	}{{"soda", "", true, false}, {"soda", "bound", false, false}, {"sugar-lime", "skein", true, true}, {"iron-lime", "", true, true}} {
		p := dyeing(t, 0, func(h *day.Head) { h.Recipe = built(t, c.id) })
		p.happen(day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 200, Dips: 4, Depth: "dark", Form: c.form}},
			day.WettedOut{OfPiece: day.OfPiece{Tag: "A1"}})
		for dip := 1; dip <= 3; dip++ {
			p.happen(day.FrothSkimmed{})
			if got := strings.Contains(how(p), "Tight cloth: 12 to 16 min this first time."); got != (dip == 1 && c.form == "") {
				t.Errorf("%s %q, dip %d in: %s", c.id, c.form, dip, how(p))
			}
			p.do(day.Lower{Tag: "A1"})
			p.wait(8 * time.Minute)
			if got := strings.Contains(how(p), "30 to 60 s in clear water"); got != (dip == 1 && c.plunge) {
				t.Errorf("%s %q, dip %d out: %s", c.id, c.form, dip, how(p))
			}
			p.do(day.Done{})
			if got := strings.Contains(how(p), "rinse it in plain water"); got != (dip == 2 && c.rinse) {
				t.Errorf("%s %q, dip %d airs: %s", c.id, c.form, dip, how(p))
			}
			p.wait(30 * time.Minute)
		}
	}
}

// In a mild vat pH is read before wool, and again after three hours.
func TestTheMildVatIsReadEachThreeHours(t *testing.T) {
	p := dyeing(t, 0, func(h *day.Head) { h.Recipe = built(t, "mild-soda") })
	p.happen(day.PieceAdded{OfPiece: day.OfPiece{Tag: "W1"}, PieceSpec: day.PieceSpec{Fibre: "wool", Dry: 200, Dips: 4}},
		day.WettedOut{OfPiece: day.OfPiece{Tag: "W1"}}, day.FrothSkimmed{})
	asks := func() bool { return strings.Contains(day.Next(p.s, p.now).How, "Read pH before it goes in (h)") }
	if !asks() {
		t.Error("nobody asks for a pH that was never read")
	}
	ph, warm := 9.3, quantity.Celsius(42)
	p.happen(day.Reading{PH: &ph, PHTemp: &warm})
	if asks() {
		t.Error("pH was read just now")
	}
	if p.wait(2*time.Hour + 59*time.Minute); asks() {
		t.Error("pH was read less than three hours ago")
	}
	if p.wait(2 * time.Minute); !asks() {
		t.Error("pH was read three hours ago")
	}
}

// Reducer that is given by hand to a mild vat has its soda ash in its caution, as long as its build is over; so has the evening's.
func TestTheMildVatsReducerNamesItsAsh(t *testing.T) {
	give := day.Dose{Powders: []day.Amount{{Powder: "reducer", Mass: 30}}, Wait: quantity.Minutes(30), Why: "weak"}
	for id, want := range map[string]bool{"mild-soda": true, "soda": false} {
		p := dyeing(t, 0, func(h *day.Head) { h.Recipe = built(t, id) })
		if got := day.CautionOf(p.s, give, p.now); strings.Contains(got, "36.0 g of soda ash goes in before it") != want || got == "" {
			t.Errorf("%s: %q", id, got)
		}
		if got := p.s.Evening(); strings.Contains(got, "36 g of soda ash, then 30 g of sodium dithionite") != want || !strings.Contains(got, "30 g of sodium dithionite") {
			t.Errorf("%s, the evening: %q", id, got)
		}
	}
}

// A second dose lengthens the rest of the first, and never shortens it.
func TestASecondDoseKeepsTheRest(t *testing.T) {
	p := dyeing(t, 1)
	give := func(powder string, wait quantity.Span) time.Time {
		p.do(day.Answered{Command: day.Dose{Powders: []day.Amount{{Powder: powder, Mass: 20}}, Wait: wait}})
		return p.s.RestUntil
	}
	first := give("reducer", quantity.Minutes(30))
	if p.wait(time.Minute); !give("soda", quantity.Minutes(15)).Equal(first) {
		t.Errorf("a shorter wait ends the rest at %s, not %s", p.s.RestUntil, first)
	}
	if p.wait(time.Minute); !give("soda", quantity.Minutes(45)).Equal(p.now.Add(45 * time.Minute)) {
		t.Errorf("a longer wait ends it at %s", p.s.RestUntil)
	}
}
