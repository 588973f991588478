package history_test

import (
	"slices"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
)

// wintered is a sugar vat that ran pale, closed for the winter, and the next day on it, opened half a year later, with
// these things done.
func wintered(t *testing.T, words string, did ...after) (history.Vat, time.Time) {
	t.Helper()
	was := tendedWith(t, "sugar-lime", first, day.Opening{Number: 2, Built: true, Cover: true,
		Held: day.Held{IndigoLow: 2, Indigo: 4, IndigoHigh: 6, Until: &first}}, after{minute, strip(8)}, after{8 * time.Hour, day.Closed{Why: words}})
	o := outlook.Carry(was.State)
	spring := first.Add(185 * daily)
	return history.Vat{was, tendedWith(t, "sugar-lime", spring, o, did...)}, spring
}

func dues(v history.Vat, now time.Time) []string { return ids(history.LifeOf(v).Care(now), false) }

// A day that is opened and on which nothing is done ends no rest, open or closed.
func TestAnIdleDayEndsNoRest(t *testing.T) {
	piece := after{minute, day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 100, Dips: 2}}}
	note := after{2 * minute, day.Note{Text: "the lid is dusty"}}
	for _, words := range []string{"for the winter", ""} {
		for name, did := range map[string][]after{"opened": nil, "planned": {piece, note}, "closed": {{minute, day.Closed{}}}} {
			v, spring := wintered(t, words, did...)
			care := history.LifeOf(v).Care(spring.Add(10 * minute))
			if len(care) != 1 || care[0].ID != "revive" || care[0].Coming != (words != "") {
				t.Errorf("%q, %s: %+v", words, name, care)
			}
			if since, said, rests := history.LifeOf(v).Resting(spring.Add(10 * minute)); !rests || said != (words != "") || !since.Equal(v[0].State.At) {
				t.Errorf("%q, %s: since %v, said %v, rests %v", words, name, since, said, rests)
			}
		}
	}
}

// Once something is done to it, its revival is the first thing due and no indigo is fed, until it was judged ready or a strip
// of it was good; then its clock begins anew.
func TestARestedVatIsRevivedFirst(t *testing.T) {
	temp := quantity.Celsius(24)
	for name, b := range map[string]day.Body{
		"read": day.Reading{Temp: &temp}, "weak": strip(8), "fed": gave("lime", "calcium hydroxide (slaked lime)", 24), "heated": day.HeaterOn{Power: 1000}, "stirred": day.Stirred{},
	} {
		v, spring := wintered(t, "for the winter", after{minute, b})
		due := dues(v, spring.Add(time.Hour))
		if len(due) == 0 || due[0] != "revive" || slices.Contains(due, "swatch") || slices.Contains(due, "feed-indigo") {
			t.Errorf("%s: %v", name, due)
		}
		if slices.Contains(due, "weak") != (name == "weak") {
			t.Errorf("%s: a strip of before the winter speaks, or one of today does not: %v", name, due)
		}
		if s := history.LifeOf(v).Stand(spring.Add(time.Hour)); s.Feeding != (history.Feeding{}) {
			t.Errorf("%s: %+v", name, s.Feeding)
		}
	}
	for name, b := range map[string]day.Body{"judged": day.VatJudged{Ready: true}, "a good strip": strip(40)} {
		v, spring := wintered(t, "", after{minute, day.Stirred{}}, after{2 * minute, b})
		care := history.LifeOf(v).Care(spring.Add(time.Hour))
		if due := ids(care, false); slices.Contains(due, "revive") || !slices.Contains(due, "feed-indigo") {
			t.Errorf("%s: %v", name, due)
		}
		d, ok := find(care, "swatch")
		if want := spring.Add(7*daily + minute); !ok || !d.Coming || !d.At.Equal(want) {
			t.Errorf("%s: the next swatch: %+v, want it at %v", name, d, want)
		}
	}
	// A vat that is closed again before it was revived is still to be revived.
	v, spring := wintered(t, "", after{minute, day.Stirred{}}, after{time.Hour, day.Closed{}})
	if due := dues(v, spring.Add(2*daily)); len(due) == 0 || due[0] != "revive" {
		t.Errorf("closed: %v", due)
	}
}
