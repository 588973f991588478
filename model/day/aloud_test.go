package day_test

import (
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// What is said once an act has changed the call has the amount, the caution, the time that runs, and what can be done meanwhile.
func TestWhatIsSaidAfterAnAct(t *testing.T) {
	p := begin(t, head(t, "soda"))
	says := func(want string) {
		t.Helper()
		if got := p.call().Said(p.s, p.now); got != want && (!strings.HasSuffix(want, "…") || !strings.HasPrefix(got, strings.TrimSuffix(want, "…"))) {
			t.Errorf("it says %q, not %q", got, want)
		}
	}
	says("Weigh the pre-reduced indigo grains. Caution: dust mask, gloves, glasses…")
	p.do(day.Done{})
	p.wait(2 * sec)
	says("Weigh the pre-reduced indigo grains, 90 g")
	p.do(day.PutScoop{Mass: 50})
	says("Weigh the pre-reduced indigo grains, 40.0 g more")
	p.do(day.PutScoop{Mass: 40})
	says("Weigh the pre-reduced indigo grains, on the scale 90 g, all of it")
	p.do(day.Done{})
	says("Wet the pre-reduced indigo grains. Caution: gloves and glasses…")
	p.do(day.Done{})
	p.wait(2 * sec)
	p.do(day.Done{})
	says("Weigh the soda ash. Caution: gloves and glasses; no aluminium; it hurts the eyes, froths with acid and warms when wetted") // and no source
	p.until(recipe.Stir, "")
	says("Stir, slowly, press to begin")
	p.do(day.Done{})
	says("Stir, slowly, 2 min")

	p = dyeing(t, 2)
	says("Skim the froth aside")
	p.do(day.Done{})
	says("A1 in")
	p.do(day.Done{})
	says("A1 is in, 8 min; meanwhile: A2 in")
	p.do(day.Lower{Tag: "A2"})
	says("A1, A2 are in, 8 min")
	p.wait(8 * minute)
	says("A1, A2 out")
	p.do(day.Done{})
	says("A1 airs, 12 min; meanwhile: skim the froth aside")
	soon := func(want string) {
		t.Helper()
		if got := strings.Join(day.Together(p.s, day.Dues(p.s), p.now, day.Soon), "; then "); got != want {
			t.Errorf("a minute before it is said %q, not %q", got, want)
		}
	}
	soon("one minute, then look at A1, A2: enough?") // once, of both
	p.wait(11 * minute)
	p.do(day.Record{Body: day.FrothSkimmed{}})
	p.wait(minute)
	says("Look at A1: enough? Meanwhile: look at A2: enough?")
	p.do(day.Decided{Tag: "A2", Say: day.LookPlanned})
	p.do(day.Done{})
	says("A1 in, peg 1") // where it hangs: before the first dip it hung nowhere
}

// Of what goes into a bath or a soak is said how much, of cold and hot water which first; of a question what can be answered.
func TestHowMuchIsSaid(t *testing.T) {
	p := begin(t, head(t, "soda"))
	says := func(want string) {
		t.Helper()
		if got := p.call().Said(p.s, p.now); got != want {
			t.Errorf("it says %q, not %q", got, want)
		}
	}
	for _, at := range []struct {
		do     recipe.Do
		powder string
		want   string
	}{{recipe.Hydrate, "indigo", "Wet the pre-reduced indigo grains, 1.8 L of water"}, {recipe.Dissolve, "soda", "Dissolve the soda ash, 3.6 L of water"}, {recipe.Fill, "", "Fill the vat, 26.1 L cold, then 27.7 L hot: 38 °C when stirred"}} {
		p.until(at.do, at.powder)
		if c := p.call(); c.Caution != "" {
			p.do(day.Done{})
			p.wait(2 * sec)
		}
		says(at.want)
	}
	p = begin(t, head(t, "lye")) // millilitres cold, litres hot
	p.until(recipe.Fill, "")
	p.do(day.Done{})
	p.wait(2 * sec)
	if got := p.call().Said(p.s, p.now); !strings.HasPrefix(got, "Fill the stock jar, ") || !strings.Contains(got, " mL cold, then 1.") || !strings.HasSuffix(got, " L hot: 50 °C when stirred") {
		t.Errorf("it says %q", got)
	}
}

// What is said of a deadline that is not the call's gives no order: an airing is a least time.
func TestAnAiringBesideADipGivesNoOrder(t *testing.T) {
	p := dyeing(t, 2, func(h *day.Head) { h.Setup.NoLook = true })
	p.do(day.Lower{Tag: "A1"})
	p.wait(8 * minute)
	p.do(day.Lift{Tag: "A1"})
	p.wait(8 * minute)
	p.do(day.Lower{Tag: "A2"})
	p.wait(3 * minute)
	for _, d := range day.Dues(p.s) {
		if d.Kind == day.DueEnter && day.Soon(p.s, d, p.now) != "one minute, then A1 has aired and may go in" {
			t.Errorf("a minute before it is said %q", day.Soon(p.s, d, p.now))
		}
	}
	p.wait(minute)
	for _, d := range day.Dues(p.s) {
		if got := day.Spoken(p.s, d, p.now); d.Kind == day.DueEnter && got != "A1 has aired and may go in" {
			t.Errorf("while A2 is in it is said %q", got)
		}
	}
	p.do(day.Stretch{Timer: "dip A2", By: -quantity.Minutes(2)})
	p.wait(2 * minute)
	for _, d := range day.Dues(p.s) {
		if got := day.Spoken(p.s, d, p.now); d.Kind == day.DueLift && got != "A2 out, then A1 in, peg 1" {
			t.Errorf("of the lift is said %q", got)
		}
	}
}
