package practice

import (
	"cmp"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// CareTask is what a kept vat asks for again and again.
type CareTask struct {
	ID       string        // stable
	Every    quantity.Span // 0: not by the clock, but When
	When     string        // what brings it about, where the clock does not
	What     string
	Why      string
	Evidence string
}

// Care is the rhythm of a family, the most frequent first: dithionite weekly, sugar each second to third day and weekly
// once it is settled, iron weekly, ferment daily with a warm stir (C). Not of a family that is none.
func Care(f recipe.Family) []CareTask {
	look := "note °C, pH, film, smell, colour and a strip"
	var tasks []CareTask
	clock := func(id string, every quantity.Span, what, why, evidence string) {
		tasks = append(tasks, CareTask{ID: id, Every: every, What: what, Why: why, Evidence: evidence})
	}
	when := func(id, at, what, why, evidence string) {
		tasks = append(tasks, CareTask{ID: id, When: at, What: what, Why: why, Evidence: evidence})
	}
	night := ""
	switch f {
	case recipe.DithioniteSoda, recipe.DithioniteLye, recipe.ThioureaDioxideSoda:
		clock("look", quantity.Days(7), look, "air at the surface uses up the reducer, and that uses up alkali (K)", "C")
		clock("swatch", quantity.Days(7), "dip a fixed two-minute swatch beside the first day's", "paler by a step means feed it", "C")
		night = "the reducer for the night, as strip and day's limit allow"
	case recipe.SugarLime:
		clock("look", quantity.Days(2.5), look, "sugar acids use up the lime: keep pH at 10.5 or above", "C: each 2 to 3 days, "+
			"weekly once it is settled")
		clock("swatch", quantity.Days(7), "dip a fixed two-minute swatch beside the first day's", "paler by a step means feed it", "C")
		night = "lime and sugar for the night, as strip and day's limit allow"
	case recipe.IronLime:
		clock("look", quantity.Days(7), look, "a cold vat changes slowly", "C")
		clock("swatch", quantity.Days(7), "dip a fixed two-minute swatch beside the first day's", "paler by a step means feed it", "C")
		night = "nothing, unless the signs ask for it; let it settle"
	case recipe.Ferment:
		clock("stir", quantity.Days(1), "warm it to its aim and stir slowly to the floor; lid back, never airtight", "the bacteria need warmth and food moved to them", "C")
		clock("look", quantity.Days(1), look+"; smell it first", "a foul smell is caught early or not at all", "C, S6")
		when("feed", "no froth and a flat smell", "bran, within a day's limits, three days after the last at the soonest", "fed by the date alone it runs away", "M")
		clock("warm", quantity.Days(8), "if it was left cold: warm it through",
			"old vats were reheated each 8 to 10 days (S6); cold may kill a ferment (C)", "S6, C")
		night = "bran only by the sign: no froth and a flat smell"
	default:
		return nil
	}
	spends, runs := "the night uses up reducer too", "the reducer runs down with the loads"
	if f == recipe.Ferment {
		runs = "the reduction runs down with the loads"
		spends = "the night cools it, and air gets in"
	}
	lid := wording.Either(f == recipe.Ferment, "lid on, never airtight: gas must get out", "a sheet or film on the liquor, lid on")
	when("evening", "end of a day's dyeing", "froth back; "+night+"; one stir; "+lid+"; note °C, pH and colour", spends, "C, S1")
	when("rest", "3 h of work", "rest it for 1 h", "work takes in air and stirs the sediment", "S1")
	when("strip", "5 to 8 loads", "pull a strip", runs, "S1")
	topUp := "warm water at the vat's pH" + wording.If(f.SulfurReducer(), ", with 0.05 g of reducer a litre")
	when("top-up", "the level has sunk", topUp, "water leaves, and fresh water brings air", "C, K")
	if f == recipe.SugarLime || f == recipe.IronLime || f == recipe.Ferment {
		when("decant", "sediment above a third of the depth", "decant the clear liquor and remove the sludge", "no room is left for goods", "C")
	}
	switch f {
	case recipe.SugarLime:
		when("revive", "after a winter", "warm it to 32 °C, stir, let it settle; then by its signs, within a day's limits: "+
			"lime 0.4 to 0.8 and fructose 0.6 to 1 g a litre; a test dip", "it survives cold", "C")
	case recipe.IronLime:
		when("revive", "after a winter", "let it come to its aim, stir, let it settle; then by its signs", "it survives cold", "C")
	}
	return tasks
}

// CareOf is the rhythm of a recipe: its family's, and of a vat with baking soda a reading of pH.
func CareOf(r recipe.Recipe) []CareTask {
	tasks := Care(r.Family)
	if liquor.Creeps(r) {
		tasks = append(tasks, CareTask{ID: "ph", When: "wool or silk is to go in, and every three hours", Evidence: "K",
			What: "read pH; where it has crept above what they bear, baking soda, 2 g a litre at most, and read again",
			Why:  "kept warm it gives off carbon dioxide, and pH creeps up"})
	}
	return tasks
}

// CareDue is a task of the clock with how long it is past its time; below 0 is still to come.
type CareDue struct {
	CareTask
	Past quantity.Span
}

// DueCare is what is due of a family's tasks by the clock, when each was last done so long ago. A task that since does not
// have was never done, and counts from when the vat was built, age. Only what is due now, the longest past first.
func DueCare(f recipe.Family, age quantity.Span, since map[string]quantity.Span) []CareDue {
	var out []CareDue
	for _, t := range Care(f) {
		last, ok := since[t.ID]
		if !ok {
			last = age
		}
		if past := last - t.Every; t.Every > 0 && past >= 0 {
			out = append(out, CareDue{t, past})
		}
	}
	sorted.By(out, func(a, b CareDue) int { return cmp.Compare(b.Past, a.Past) })
	return out
}
