package answer

import (
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// A piece's form is said behind its wish, so that pasted and tight goods can be told without a screen too.
func TestTheFormOfAPieceIsSaid(t *testing.T) {
	for line, want := range map[string]day.PieceSpec{
		"A1 linen 420 g dark tight":                                          {Fibre: "linen", Dry: 420, Depth: "dark", Form: day.Tight},
		"A1 linen 420 g dark":                                                {Fibre: "linen", Dry: 420, Depth: "dark"},
		"A1 silk about 90 g 5 dips pasted":                                   {Fibre: "silk", Dry: 90, About: true, Dips: 5, Form: day.Pasted},
		"A1 cotton 1 kg 3 for Ines till 15:00":                               {Fibre: "cotton", Dry: 1000, Dips: 3, Who: "Ines", Till: "15:00"},
		"A1 cotton 1 kg dark till 15:00":                                     {Fibre: "cotton", Dry: 1000, Depth: "dark", Till: "15:00"},
		"A1 cotton 1 kg dark for Ines from Braga from 10:30 till 15:00 demo": {Fibre: "cotton", Dry: 1000, Depth: "dark", Who: "Ines from Braga", From: "10:30", Till: "15:00", Demo: true},
		"A1 cotton 1 kg dark demo":                                           {Fibre: "cotton", Dry: 1000, Depth: "dark", Demo: true},
		"A1 cotton 1 kg dark for Ines till 15:00 from 10:30":                 {Fibre: "cotton", Dry: 1000, Depth: "dark", Who: "Ines", From: "10:30", Till: "15:00"},
		"A1 cotton 1 kg dark for Ines from Braga till 3 pm":                  {Fibre: "cotton", Dry: 1000, Depth: "dark", Who: "Ines from Braga", Till: "3 pm"},
		"A1 cotton 1 kg dark for Ines till 15:00 tomorrow":                   {Fibre: "cotton", Dry: 1000, Depth: "dark", Who: "Ines", Till: "15:00 tomorrow"}, // refused as no time of day
		"A1 cotton 1 kg dark for Ines demo till 15:00":                       {Fibre: "cotton", Dry: 1000, Depth: "dark", Who: "Ines", Till: "15:00", Demo: true},
		"A1 cotton 1 kg dark till 15:00 demo for Ines":                       {Fibre: "cotton", Dry: 1000, Depth: "dark", Who: "Ines", Till: "15:00", Demo: true},
		"A1 cotton 1 kg rung 5 Skein for Ines":                               {Fibre: "cotton", Dry: 1000, Rung: 5, Form: "skein", Who: "Ines"},
		"A1 cotton 1 kg blue-black bound":                                    {Fibre: "cotton", Dry: 1000, Depth: "blue-black", Form: "bound"},
	} {
		if tag, got, err := Piece(line, quantity.Metric); err != nil || tag != "A1" || got != want {
			t.Errorf("%q: %+v, %v", line, got, err)
		}
	}
	if _, got, err := Piece("A1 linen 420 g tight", quantity.Metric); err == nil && got.Form != "" { // a wish comes first
		t.Errorf("without a wish: %+v", got)
	}
}
