package practice

import (
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// FinishStep is one step after the last dip. What it has no figure for is zero.
type FinishStep struct {
	ID       string // stable: air, rinse, sour, soap, citric, crock, dry
	Name     string
	Do       string
	Times    quantity.Range[int] // how often
	Water    quantity.Volume     // each time
	Temp     quantity.Range[quantity.Temperature]
	Time     quantity.Range[quantity.Span]
	Vinegar  quantity.Range[quantity.Volume] // of 5 %; where Citric stands as well, one or the other
	Citric   quantity.Range[quantity.Mass]
	Soap     quantity.Mass
	Gated    bool // acid: only when Acid.Gate lets it
	Optional bool
	Check    string
	Cautions []string
	Evidence string
}

// Finish is what is to be finished.
type Finish struct {
	Fibre  fibre.Fibre
	Family recipe.Family
	Dry    quantity.Mass
	Thick  bool // thick goods, or bound
}

// FinishPlan is the steps after the last dip, in their order: final airing, rinses, souring through the acid gate (wool,
// silk and goods from vats of lime always; others if the dyer likes), soaping, for cellulose from an iron vat a hot citric
// soak against greyed whites, the crock test, drying. 20 L of water a kilogram of dry goods (C). Errors are those of
// ScourFor.
func FinishPlan(f Finish) ([]FinishStep, error) {
	if !(f.Dry > 0) || f.Dry > quantity.Kilograms(1000) {
		return nil, &ScourError{"weigh the dry goods first"}
	}
	if f.Fibre.Class() == fibre.NoClass {
		return nil, &ScourError{"say the fibre first"}
	}
	water := quantity.Litres(20 * f.Dry.Kilograms())
	protein := f.Fibre.Class() == fibre.Protein
	lime := f.Family == recipe.SugarLime || f.Family == recipe.IronLime
	steps := []FinishStep{f.airing(), rinsing(water, protein), souring(water, protein, !protein && !lime)}
	if f.Family == recipe.IronLime && !protein {
		steps = append(steps, FinishStep{ID: "citric", Name: "clear the whites", Do: "a hot citric soak if the whites are greyed, then rinse",
			Times: quantity.Exactly(1), Water: water, Temp: degrees(50, 60, 60), Time: spans(10, 15, 20), Citric: masses(water, 1, 1.5, 2),
			Gated: true, Optional: true, Check: "the whites in daylight",
			Cautions: append(sourCautions(), "scald: hands out of the hot bath"), Evidence: "C; °C M"})
	}
	return append(steps, f.soaping(water, lime),
		FinishStep{ID: "dry", Name: "dry", Do: "dry in the shade, flat or on a line, turned", Times: quantity.Exactly(1),
			Check: "judge the shade dry: it is 10 to 20 % lighter", Evidence: "C"},
		FinishStep{ID: "crock", Name: "crock test", Do: Rubbing, Times: quantity.Exactly(1),
			Check: "the white beside the grey scale for staining, 5 none to 1 heavy, in halves; natural indigo on cotton failed wet rubbing in " +
				"a study (S18): say so on the label", Evidence: rubbingEvidence}), nil
}

// Figure is the one number of a step: the acid or the soap that goes in, else the water. note is the rest of the bath: what
// it is, how much water, how warm, how long. All are empty for a step that is no bath.
func (s FinishStep) Figure(sys quantity.System) (number, unit, note string) {
	bath := " at " + s.Temp.Likely.Format(sys) + ", " + s.Time.Likely.Format(sys)
	switch {
	case s.Water <= 0:
		return "", "", ""
	case s.Citric.Likely > 0:
		number, unit = s.Citric.Likely.Figure(sys)
		note = "citric acid"
		note += wording.If(s.Vinegar.Likely > 0, ", or "+s.Vinegar.Likely.Format(sys)+" of 5 % vinegar")
		return number, unit, note + ", in " + s.Water.Format(sys) + bath
	case s.Soap > 0:
		number, unit = s.Soap.Figure(sys)
		return number, unit, "neutral soap, in " + s.Water.Format(sys) + bath
	}
	number, unit = s.Water.Figure(sys)
	return number, unit, "plain water" + bath
}

func rinsing(water quantity.Volume, protein bool) FinishStep {
	return FinishStep{ID: "rinse", Name: "rinse", Do: "rinse in plain water, moved and opened, fresh water each time",
		Times: quantity.Range[int]{Low: 2, Likely: 2, High: 3}, Water: water, Temp: coolWater(protein), Time: spans(2, 5, 10),
		Check: "the last water stays clear and is not slimy", Cautions: []string{"gloves: the first water is alkaline"},
		Evidence: "C; two at least before any acid"}
}

func souring(water quantity.Volume, protein, optional bool) FinishStep {
	return FinishStep{ID: "sour", Name: "neutralise", Do: "a weak sour of vinegar or citric acid in a bath of its own, moved; then rinse",
		Times: quantity.Exactly(1), Water: water, Temp: coolWater(protein), Time: spans(10, 15, 20),
		Vinegar: volumes(water, 10, 15, 20), Citric: masses(water, 1, 1.5, 2), Gated: true, Optional: optional,
		Check: "pH 5 to 7 on the wet goods", Cautions: sourCautions(), Evidence: "C: wool and silk always, vats of lime always"}
}

// soaping is 1 g of soap a litre (M): cotton from 60 °C to a simmer, wool and silk at most 40 °C (C), viscose and jute at
// most 60 (M).
func (f Finish) soaping(water quantity.Volume, lime bool) FinishStep {
	s := FinishStep{ID: "soap", Name: "soap", Do: "neutral soap until the water stays clear, then rinse", Times: quantity.Range[int]{Low: 1,
		Likely: 1, High: 3},
		Water: water, Temp: degrees(60, 80, 95), Time: spans(10, 15, 20), Soap: quantity.GramsPerLitre(1).Of(water), Check: "clear water",
		Cautions: []string{"scald: simmer under a lid, let it cool before it is lifted"}, Evidence: "C; the grams M"}
	switch {
	case f.Fibre.Class() == fibre.Protein:
		s.Temp, s.Cautions = degrees(30, 35, 40), []string{"no rubbing, no sudden change of warmth"}
		return s
	case f.Fibre == fibre.Viscose || f.Fibre == fibre.Jute:
		s.Temp, s.Cautions = degrees(40, 50, 60), []string{"no wringing; hands out of the hot bath"}
	}
	if lime {
		s.Do = "a mild alkaline soap, as goods from vats of lime rub off more, until the water stays clear; then rinse"
	}
	return s
}

// airing is the last one: silk and wool 20 to 30 min, cellulose 30 to 60, thick or bound goods 2 to 24 h. C
func (f Finish) airing() FinishStep {
	s := FinishStep{ID: "air", Name: "final airing", Do: "air it, opened and turned", Times: quantity.Exactly(1),
		Time: spans(30, 45, 60), Check: "no green in any fold", Evidence: "C"}
	switch {
	case f.Thick:
		s.Time = spans(120, 240, 1440)
	case f.Fibre.Class() == fibre.Protein:
		s.Time = spans(20, 25, 30)
	}
	return s
}

func sourCautions() []string {
	return []string{"two rinses and full airing first, outdoors or in a cross-draught: acid frees a choking gas from what is left " +
		"of a sulfur reducer",
		"never acid into a vat, a stock jar, skimmings or their bucket", "glasses; anyone with asthma stays away"}
}

func coolWater(protein bool) quantity.Range[quantity.Temperature] {
	if protein {
		return degrees(20, 25, 40)
	}
	return degrees(10, 20, 40)
}
