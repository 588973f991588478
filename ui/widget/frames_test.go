package widget_test

import (
	"reflect"
	"slices"
	"testing"

	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// counting is a clock with all that a sheet may have.
func counting() widget.Sheet {
	return widget.Sheet{
		Head: widget.Head{Left: "Bin · 60 L", Right: "10:42"}, Banner: "not yet on disk", Act: "A1 IN", ActBig: true, Aside: "runner · dip 2 of 5",
		Figure: widget.Figure{Number: "4:10", Unit: "g", Note: "meanwhile: wet B1"}, Big: true,
		Body: []string{"A1 runner  in the vat, out in 4:10", "B1 scarf  airing, ready in 2:30"}, Spots: []widget.Spot{{Line: 1}},
		How: []string{"Out: squeeze at the surface."}, HowTop: true, Why: "Air eats the reducer.", Next: "then: air A1",
		Foot: []string{"35 °C   pH 10.8"}, Keys: []widget.Key{{Key: "space", Desc: "out"}},
		Answers: []string{"space: on"},
	}
}

// Whatever changes between two frames, the second is drawn as if it were the first.
func TestFramesAreDrawnAsAlone(t *testing.T) {
	changes := []func(s *widget.Sheet){
		func(s *widget.Sheet) { s.Figure.Number = "4:09" },
		func(s *widget.Sheet) { s.Figure.Number = "14:09" },
		func(s *widget.Sheet) { s.Figure.Number = "" },
		func(s *widget.Sheet) { s.Body = []string{s.Body[0], "B1 scarf  airing, ready in 2:29"} },
		func(s *widget.Sheet) { s.Body = []string{s.Body[0], "B1\nscarf  airing"} },
		func(s *widget.Sheet) { s.Body = s.Body[:1] },
		func(s *widget.Sheet) { s.Call = widget.CallRow{Words: "A1 IN, out in 1:55"} },
		func(s *widget.Sheet) { s.Call = widget.CallRow{Words: "A1 IN, out in 0:55", Big: "OUT 0:55"} },
		func(s *widget.Sheet) { s.Caution = &widget.Caution{Text: "mask on", Key: "space: on"} },
	}
	for _, says := range []string{"4:09", "4:08", "14:08"} { // on a stage
		changes = append(changes, func(s *widget.Sheet) {
			s.Figure.Number, s.Body, s.Banner = says, nil, ""
			s.Stage = &widget.Stage{Cloths: []widget.Cloth{{Tag: "A1", Peg: 1, Blue: style.Cloth(0.5), In: true, Says: says}}, Vessel: widget.Vessel{Top: 1, Floor: 1, Fill: 0.7, Liquor: style.Liquor(style.Green)}}
		})
	}
	changes = append(changes, func(s *widget.Sheet) { s.Stage = &widget.Stage{} }, func(s *widget.Sheet) { s.Stage, s.Figure.Number = &widget.Stage{}, "4:09" })
	running := len(changes)
	of := reflect.TypeFor[widget.Sheet]()
	for i := range of.NumField() { // each field without anything in it
		changes = append(changes, func(s *widget.Sheet) { f := reflect.ValueOf(s).Elem().Field(i); f.SetZero() })
	}
	for _, o := range []style.Options{{Profile: style.TrueColour}, {Profile: style.NoColour, ASCII: true}} {
		st := style.New(o)
		for _, size := range [][2]int{{80, 24}, {120, 60}, {20, 3}} {
			for a, first := range changes[:running] {
				for b, second := range changes {
					var frames widget.Frames
					one, two := counting(), counting()
					first(&one)
					second(&two)
					for i, s := range []widget.Sheet{one, two, counting()} {
						if got, want := frames.Draw(s, size[0], size[1], st), widget.Lay(s, size[0], size[1], st).Lines(); !slices.Equal(got, want) {
							t.Fatalf("%v, changes %d and %d, frame %d:\n%q\nand not\n%q", size, a, b, i+1, got, want)
						}
					}
				}
			}
		}
	}
}

// What was given stays as it was.
func TestAFrameStays(t *testing.T) {
	var frames widget.Frames
	st, s := style.New(style.Options{}), counting()
	was := frames.Draw(s, 80, 24, st)
	kept := slices.Clone(was)
	s.Figure.Number = "4:09"
	if now := frames.Draw(s, 80, 24, st); slices.Equal(now, kept) || !slices.Equal(was, kept) {
		t.Error("the frame of the second before is drawn over, or the new one is the same")
	}
}
