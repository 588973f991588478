package day_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// dueOf is the running time of a piece in the vat.
func (p *played) dueOf(timer string) day.Due {
	p.t.Helper()
	for _, d := range day.Dues(p.s) {
		if d.Timer == timer {
			return d
		}
	}
	p.t.Fatalf("no time runs under %q", timer)
	return day.Due{}
}

// A minute more, or less, is of that dip and of that airing alone.
func TestAMinuteMoreIsOfOneDip(t *testing.T) {
	p := dyeing(t, 1)
	for _, by := range []quantity.Span{quantity.Minutes(1), quantity.Minutes(-2), 0} {
		p.do(day.Lower{Tag: "A1"})
		if d := p.dueOf("dip A1"); d.At.Sub(p.now) != 8*minute {
			t.Fatalf("the dip is lifted after %s", d.At.Sub(p.now))
		}
		if by != 0 {
			p.do(day.Stretch{Timer: "dip A1", By: by})
		}
		p.wait(8*minute + by.Duration())
		p.do(day.Lift{Tag: "A1"})
		want := 12 * minute
		if by == 0 {
			want = 30 * minute // the last
		}
		if d := p.dueOf("air A1"); d.At.Sub(p.now) != want {
			t.Fatalf("it airs %s, not %s", d.At.Sub(p.now), want)
		}
		if by != 0 {
			p.do(day.Stretch{Timer: "air A1", By: by})
		}
		p.wait(want + by.Duration())
	}
}

// So it is of one bath: the second rinse takes as long as it should, whatever the first was given.
func TestAMinuteMoreIsOfOneBath(t *testing.T) {
	p := finished(t, "soda", "linen")
	var each []time.Duration
	for range 2 {
		p.do(day.Bench{Tag: "A1"})
		d := p.dueOf("bath A1")
		each = append(each, d.At.Sub(p.now))
		p.do(day.Stretch{Timer: "bath A1", By: quantity.Minutes(3)})
		p.wait(each[len(each)-1] + 3*minute)
		p.do(day.Bench{Tag: "A1"})
	}
	if each[0] != each[1] || each[0] <= 0 {
		t.Errorf("the rinses take %v", each)
	}
}

// A state that was given away stays as it was: neither a lift, nor what is told of it later, changes the dips in it.
func TestAPastDipIsNotChangedInPlace(t *testing.T) {
	p := dyeing(t, 1)
	p.do(day.Lower{Tag: "A1"})
	in := p.s
	p.wait(8 * minute)
	p.do(day.Lift{Tag: "A1"})
	if d := in.Pieces[len(in.Pieces)-1].Past[0]; !d.Ended.IsZero() || d.EndSeq != 0 {
		t.Errorf("before the lift the dip is %+v", d)
	}
	out, lift := p.s, p.s.Log[len(p.s.Log)-1].Seq
	ended := p.now
	p.wait(minute)
	p.do(day.Move{Seq: lift, To: p.now.Add(-3 * minute)})
	if d := out.Pieces[len(out.Pieces)-1].Past[0]; !d.Ended.Equal(ended) {
		t.Errorf("before it was put right the dip ended %s, not %s", d.Ended, ended)
	}
	p.wait(12 * minute)
	p.do(day.Lower{Tag: "A1"})
	if n := len(out.Pieces[len(out.Pieces)-1].Past); n != 1 {
		t.Errorf("before the second dip there are %d", n)
	}
}

// A dry piece is not lowered, neither by the key nor told afterwards; wet it is.
func TestADryPieceIsNotLowered(t *testing.T) {
	p := dyeing(t, 0)
	p.do(day.AddPiece{Tag: "D1", Spec: day.PieceSpec{Fibre: "linen", Dry: 100, Dips: 1}})
	p.wait(minute)
	for _, c := range []day.Command{day.Lower{Tag: "D1"}, day.Lower{Tag: "D1", When: p.now.Add(-10 * sec)}, day.Answered{Command: day.Lower{Tag: "D1"}}} {
		p.refuses(c, "D1 is dry: wet it out first")
	}
	p.do(day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "D1"}}})
	p.do(day.Lower{Tag: "D1"})
}

// Silk and wool air 5 min at least after a dip, and 20 after the last; cellulose 10 and 30, bound goods 20 and 120. Common practice,
// no published table: an airing as long as the dip is Mairet 1938, 10 min of cotton, 5 of thin silk and wool, 20 of bound goods are
// practice; so are 20–30 min after the last dip of silk and wool, 30–60 of cotton, 2–24 h of bound goods.
func TestAirings(t *testing.T) {
	for _, c := range []struct {
		fibre, form string
		air, last   float64
	}{{"silk", "", 5, 20}, {"wool", "", 5, 20}, {"cotton", "", 10, 30}, {"linen", "bound", 20, 120}, {"silk", "bound", 20, 120}} {
		p := day.Piece{Spec: day.PieceSpec{Fibre: c.fibre, Form: c.form, Dip: quantity.Minutes(1)}}
		if air, last := p.AirTime(false), p.AirTime(true); air != quantity.Minutes(c.air) || last != quantity.Minutes(c.last) {
			t.Errorf("%s %s airs %s, and %s after the last dip; want %g and %g min", c.fibre, c.form, air, last, c.air, c.last)
		}
	}
}

// Liquor that is not taken as it is goes at pH 8.5 at most; at 8 at least where a sulfur reducer was, which below 7 takes nothing
// more, else at 6. Common practice, no source; what the local authority says goes before it.
func TestTheDrainTakesAMildPH(t *testing.T) {
	for _, c := range []struct {
		recipe string
		ph     float64
		makes  string // or is refused with
	}{
		{"soda", 8.51, "powder added"}, {"soda", 8.5, "step done"}, {"soda", 8, "step done"}, {"soda", 7.99, "too acid"}, {"soda", 7, "too sour"},
		{"soda", 6.99, "nothing goes in"}, {"sugar-lime", 8.51, "powder added"}, {"sugar-lime", 6, "step done"}, {"sugar-lime", 5.99, "too acid"},
	} {
		h := head(t, c.recipe)
		h.Setup.Ending, h.Opening = true, day.Opening{Number: 3, Built: true, Step: 7, Sulfur: c.recipe == "soda"}
		p := begin(t, h)
		p.do(day.Done{})
		p.wait(2 * sec)
		p.refuses(day.Skip{Reason: "taken as it is"}, "read its pH first")
		p.do(day.Record{Body: day.Reading{PH: &c.ph}})
		if strings.Contains("too sour, nothing goes in", c.makes) {
			p.refuses(day.Done{}, c.makes)
			if c.makes == "nothing goes in" {
				p.refuses(day.Dose{Powders: []day.Amount{{Powder: "soda", Mass: 10}}}, "being ended")
			}
		} else if got := p.do(day.Done{}); got != c.makes {
			t.Errorf("%s at pH %g it makes %s, want %s", c.recipe, c.ph, got, c.makes)
		}
		if c.makes == "too acid" { // taken as it is, with its pH in the book: no powder for that
			p.do(day.Skip{Reason: "taken as it is"})
			if st, _ := p.s.Open(); st.Do != day.DoEnd {
				t.Errorf("left out, the step is %s", st.Do)
			}
		}
	}
}

// The acid that a vat's end takes in all is told before the first lot, with a width: 6 g/L of soda ash are 57 mmol/L, whose first
// equivalent alone, down to pH 8.5, is 3.6 g/L of citric acid. The strip is no proof of the sulfite.
func TestAcidInAllIsTold(t *testing.T) {
	for id, want := range map[string][]string{
		"soda":       {"taken as it is", "In all about", "Never below 8", "not the sulfite"},
		"lye":        {"taken as it is", "In all about", "Never below 8"},
		"sugar-lime": {"taken as it is", "In all 180 g at most", "From 6 to 8.5"},
		"thiourea":   {"taken as it is", "In all about", "Never below 8"},
	} {
		h := head(t, id)
		h.Setup.Ending, h.Opening = true, day.Opening{Number: 3, Built: true}
		steps, err := day.Plan(h)
		if err != nil {
			t.Fatal(err)
		}
		for _, st := range steps {
			said := st.How + st.Why
			for _, w := range want {
				if st.Do == day.DoAcid && !strings.Contains(said, w) {
					t.Errorf("%s: %q does not say %q", id, said, w)
				}
			}
			if st.Do == day.DoAcid {
				t.Logf("%s: %s", id, st.How)
			}
			if tells := strings.Contains(said, "may hold thiourea"); st.Do == day.DoEnd && tells != (id == "thiourea") {
				t.Errorf("%s: %q", id, said)
			}
		}
	}
}

// Ready is ready, whatever it was judged by; the book says which.
func TestWaysOfJudging(t *testing.T) {
	for _, by := range append([]string{""}, day.Ways...) {
		p := begin(t, head(t, "soda"))
		p.until(recipe.Check, "")
		p.do(day.Judge{By: by, Seen: "green"})
		p.do(day.Judge{Ready: true, By: by})
		b, ok := p.s.Log[len(p.s.Log)-1].Body.(day.VatJudged)
		if by == "" {
			by = day.ByStrip // the usual way of a soda vat
		}
		if !ok || b.By != by || !p.s.Vat.Ready {
			t.Errorf("by %q it is %+v", by, b)
		}
		if words := b.Sentence(quantity.Metric); words != "the vat is ready by "+by {
			t.Errorf("it says %q", words)
		}
	}
	p := dyeing(t, 0)
	p.refuses(day.Judge{Ready: true, By: "moon"}, "strip, swatch, film and froth, eye")
	q := begin(t, head(t, "soda"))
	q.until(recipe.Wait, "")
	if q.do(day.Judge{Ready: true, By: day.BySwatch}); q.s.Log[len(q.s.Log)-1].Body.(day.VatJudged).By != day.BySwatch {
		t.Error("ready already, it loses its way")
	}
}

// °C outside the recipe's working range bars neither ready nor a dip.
func TestTheWorkingRangeBarsNothing(t *testing.T) {
	for _, c := range []float64{12, 24, 41, 44.5} { // soda: 30 to 40 °C
		p := begin(t, head(t, "soda"))
		p.until(recipe.Check, "")
		p.do(reading(c))
		p.do(day.Judge{Ready: true})
		q := dyeing(t, 1)
		q.do(reading(c))
		q.do(day.Judge{Ready: true, By: day.ByEye})
		q.do(day.Lower{Tag: "A1"})
	}
}

// A lowering is the word that no green was left.
func TestALoweringEndsTheAiring(t *testing.T) {
	p := dyeing(t, 1)
	p.do(day.Lower{Tag: "A1"})
	p.wait(8 * minute)
	p.do(day.Lift{Tag: "A1"})
	p.wait(12 * minute)
	if got := p.do(day.Lower{Tag: "A1"}); got != "airing ended, dip begun" {
		t.Errorf("it makes %s", got)
	}
}

// A check of the °C that was left out opens no step after it: its limit stays.
func TestASkippedCheckOpensNoGate(t *testing.T) {
	h := head(t, "soda")
	steps := h.Recipe.Steps
	var with []recipe.Step
	for _, st := range steps { // the limit of the sprinkling stands in a check of its own
		if st.Do == recipe.Sprinkle {
			with = append(with, recipe.Step{Do: recipe.Check, AtMost: st.AtMost})
			st.AtMost = nil
		}
		with = append(with, st)
	}
	h.Recipe.Steps = with
	p := begin(t, h)
	p.until(recipe.Check, "")
	p.do(day.Skip{Reason: "no thermometer"})
	p.until(recipe.Sprinkle, "reducer")
	if a := day.Next(p.s, p.now); !strings.Contains(a.Caution, "acid") {
		t.Fatalf("the act is %q", a.Words)
	}
	p.do(day.Done{})
	p.wait(2 * sec)
	p.refuses(day.Done{}, "at most 50 °C")
	p.refuses(day.Answered{Command: day.Done{}}, "at most 50 °C")
	if f := day.FigureOf(p.s, p.call()); f.Line() != "under 50 °C" {
		t.Errorf("the figure is %q", f.Line())
	}
	p.do(reading(51))
	p.refuses(day.Done{}, "let it cool to 50 °C")
	p.do(reading(49))
	p.do(day.Done{})
}

// A press that leaves a piece out, and comes just after the lift of all was assumed, is no word on that piece.
func TestAPressJustAfterAnAssumedLiftSparesWhatItLeftOut(t *testing.T) {
	p := dyeing(t, 2)
	p.do(day.Lower{Tag: "A1"})
	p.do(day.Lower{Tag: "A2"})
	p.wait(8*minute + day.GoOnAfter)
	seen := p.call().ID
	c, _ := day.Assume(p.s, p.now, morning, nil)
	p.do(c)
	p.wait(time.Second)
	p.do(day.Done{Call: seen, Without: "A2"})
	left := p.s.Unsaid()
	if len(left) != 1 || left[0].Body.(day.DipEnded).Tag != "A2" {
		t.Errorf("unconfirmed is %v", left)
	}
}

// A lift that is taken back, pressed or assumed, is not assumed again: the piece is said to be in. That of its next dip is.
func TestALiftTakenBackIsNotAssumedAgain(t *testing.T) {
	p := dyeing(t, 1)
	p.do(day.Lower{Tag: "A1"})
	p.wait(9 * minute)
	c, _ := day.Assume(p.s, p.now, morning, nil)
	p.do(c)
	p.do(day.Back{})
	p.wait(minute)
	if c, ok := day.Assume(p.s, p.now, morning, nil); ok {
		t.Errorf("it assumes %#v again", c)
	}
	p.do(day.Lift{Tag: "A1"})
	p.wait(12 * minute)
	p.do(day.Lower{Tag: "A1"})
	p.wait(9 * minute)
	if _, ok := day.Assume(p.s, p.now, morning, nil); !ok {
		t.Error("the lift of the next dip is not assumed")
	}
}
