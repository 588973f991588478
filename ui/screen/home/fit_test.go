package home

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
)

// In the narrowest window the list cuts no running time, however long a vat's name is.
func TestTheListCutsNoTime(t *testing.T) {
	soda, _ := recipes.Find("soda")
	head := day.Head{Vat: "bin", Day: "2026-11-25", Zone: "UTC", Recipe: soda, Opening: day.Opening{Number: 2, Built: true}, Setup: day.Setup{Fill: 60}}
	s, err := day.Begin(head)
	if err != nil {
		t.Fatal(err)
	}
	for i, b := range []day.Body{
		day.Opened{How: "tend"}, day.StepSkipped{OfStep: day.OfStep{Step: 1}}, day.VatJudged{Ready: true},
		day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 100, Dips: 2, Dip: 300e9}},
		day.WettedOut{OfPiece: day.OfPiece{Tag: "A1"}}, day.DipBegun{OfPiece: day.OfPiece{Tag: "A1"}, Dip: 1, For: 300e9},
	} {
		s, _ = day.Apply(s, day.Event{Seq: i + 1, At: noon, Body: b})
	}
	for name, wants := range map[string][2]string{
		"garden bin":                      {"A1 IN, out in 4:40", "LIFT A1 0:10 over"},
		"the long garden bin by the wall": {"day open   4:40", "day open   0:10"},
	} {
		for i, after := range []time.Duration{20 * time.Second, 310 * time.Second} {
			e := env(60, 20, screen.Vat{Vat: "bin", Name: name, Day: "2026-11-25", Open: true}, screen.Vat{Vat: "tub", Name: "tub", Line: "day closed"})
			e.Days = engine.Snapshot{Days: []engine.View{engine.View{ID: "bin/2026-11-25", State: s, Now: noon.Add(after)}.At(noon.Add(after))}}
			text := screentest.Shown(t, New(e), e)
			row := ""
			for _, l := range strings.Split(text, "\n") {
				if strings.Contains(l, name) {
					row = l
				}
			}
			if !strings.Contains(row, wants[i]) || strings.Contains(row, "…") {
				t.Errorf("%v after, the row of %s is %q, without %q:\n%s", after, name, row, wants[i], text)
			}
		}
	}
}
