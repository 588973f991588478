package day

import (
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// Figure is the number of a call as it is drawn, in the dyer's units, with a line under it. It is what is still to do; a limit
// says that it is one.
type Figure struct{ Number, Unit, Note string }

// FigureOf is the figure of a call, but for the time that runs for it.
func FigureOf(s State, c Call) Figure {
	sys, a := s.Head.Setup.System(), c.Act
	if a.Kind == ActBench && a.Due == nil && !a.Shut {
		f := Figure{}
		if f.Number, f.Unit, f.Note = a.Bench.Figure(sys); f.Number == "" && a.Bench.Time.Likely > 0 {
			f.Note = a.Bench.Time.Likely.Format(sys)
		}
		return f
	}
	if a.Kind != ActStep {
		return Figure{}
	}
	st := a.Step
	number, unit := st.Figure(sys)
	f := Figure{Number: number, Unit: unit}
	filling, fills := s.Filling()
	switch limit := s.limited(st); {
	case c.Verb == "read" && a.Entry == TempEntry && (limit.AtMost != nil || limit.AtLeast != nil):
		return limitFigure(limit, sys)
	case fills && filling.Have > 0, st.Do == recipe.Fill && st.Hot+st.Cold > 0:
		return pourFigure(st, sys)
	case st.Do == recipe.Weigh && s.Weighed(st.No) != 0:
		return s.scaled(st)
	case (st.Do == recipe.Add || st.Do == recipe.Sprinkle) && st.Powder != "":
		f.Number, f.Unit = s.toAdd(st).Figure(sys)
	case st.Do == DoAcid && number != "":
		f.Note = "one lot of " + st.Material
	}
	return f
}

// limitFigure is what the liquor must read before a step.
func limitFigure(st Step, sys quantity.System) Figure {
	f := Figure{}
	switch {
	case st.AtLeast == nil:
		f.Number, f.Unit = st.AtMost.Figure(sys)
		f.Number = "UNDER " + f.Number
	case st.AtMost == nil:
		f.Number, f.Unit = st.AtLeast.Figure(sys)
		f.Number = "OVER " + f.Number
	default:
		low, _ := st.AtLeast.Figure(sys)
		f.Number, f.Unit = st.AtMost.Figure(sys)
		f.Number = low + "–" + f.Number
	}
	return f
}

// scaled is how far a weighing is: what is still to go, or to be taken off again; no number where all of it is there.
func (s State) scaled(st Step) Figure {
	sys, got := s.Head.Setup.System(), s.Weighed(st.No)
	left, word := roundMass(st.Mass-got), " MORE"
	if left < 0 {
		left, word = -left, " OFF"
	}
	if left == 0 {
		return Figure{Note: s.OnScale(st)}
	}
	on, _, _ := strings.Cut(s.OnScale(st), ",")
	f := Figure{Note: on + " of " + st.Mass.Format(sys)}
	f.Number, f.Unit = left.Figure(sys)
	f.Unit += word
	return f
}

// pourFigure is what is still to pour of cold and hot, as a sum where both are.
func pourFigure(st Step, sys quantity.System) Figure {
	cold, coldUnit := st.Cold.Figure(sys)
	hot, hotUnit := st.Hot.Figure(sys)
	f := Figure{Number: hot, Unit: hotUnit, Note: "hot"}
	switch {
	case st.Cold < smallPour && st.Hot < smallPour:
		return Figure{Note: "nothing more to pour"}
	case st.Hot < smallPour:
		f = Figure{Number: cold, Unit: coldUnit, Note: "cold"}
	case st.Cold < smallPour:
	case coldUnit == hotUnit:
		f = Figure{Number: cold + " + " + hot, Unit: hotUnit, Note: "cold first, then hot"}
	default:
		f.Note = "hot, after " + st.Cold.Format(sys) + " cold"
	}
	if st.To != nil {
		f.Note += ": " + st.To.Format(sys) + " when stirred"
	}
	return f
}

// Line is the figure in a row of text: "148 g more"; empty without a number.
func (f Figure) Line() string {
	unit := f.Unit
	for _, word := range []string{" MORE", " OFF"} {
		if rest, is := strings.CutSuffix(unit, word); is {
			unit = rest + strings.ToLower(word)
		}
	}
	return strings.TrimSpace(strings.ToLower(f.Number) + " " + unit)
}
