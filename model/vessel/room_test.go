package vessel

import (
	"math"
	"testing"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"pgregory.net/rapid"
)

// A worked case: 600 g of cotton and two forearms in the pail. Fibre 0.390 L, carried water 0.6 to 0.9 L, forearms 3 to 4 L:
// 5.29 L at the most, and 2 cm of froth on top.
func TestStopBelowRim(t *testing.T) {
	load := Load{[]Goods{{fibre.Cotton, quantity.Grams(600)}}, 2}
	rise := load.Rise()
	if math.Abs(rise.Low.Litres()-3.98961) > 1e-4 || math.Abs(rise.High.Litres()-5.28961) > 1e-4 || !rise.Valid() {
		t.Errorf("rise %v", rise)
	}
	want := 0.368 - pail.Shape.Depth(pail.Volume(0.348)-rise.High).Metres()
	if got := pail.StopBelowRim(load).Metres(); math.Abs(got-want) > 1e-12 || got < 0.099 || got > 0.103 {
		t.Errorf("stop %v below the rim, want %v", got, want)
	}
	// Small goods need less than 8 cm: then it is 8 cm, not the sum.
	small := Load{[]Goods{{fibre.Silk, quantity.Grams(100)}}, 0}
	if got := pail.StopBelowRim(small); got != Freeboard {
		t.Errorf("stop %v below the rim", got)
	}
	if got := pail.StopBelowRim(Load{}); got != Freeboard {
		t.Errorf("stop %v below the rim", got)
	}
	if got := pail.MaxFill(Load{}); math.Abs((got - pail.Volume(0.288)).Litres()) > 1e-9 {
		t.Errorf("at most %v", got)
	}
	// More than the vessel holds: stop at the floor, and fill nothing.
	heavy := Load{[]Goods{{fibre.Wool, quantity.Kilograms(20)}}, 0}
	if pail.StopBelowRim(heavy) != pail.Rim() || pail.MaxFill(heavy) != 0 {
		t.Errorf("stop %v below the rim", pail.StopBelowRim(heavy))
	}
}

// Filled to the stop, the load and its froth do not run over; and the stop is never below 8 cm.
func TestNothingRunsOver(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := Vessel{Shape: drawShape(t)}
		load := Load{Forearms: rapid.IntRange(0, 4).Draw(t, "forearms")}
		for range rapid.IntRange(0, 3).Draw(t, "kinds") {
			load.Goods = append(load.Goods, Goods{rapid.SampledFrom(fibre.All()).Draw(t, "fibre"), quantity.Grams(rapid.Float64Range(0, 5000).Draw(t, "dry"))})
		}
		stop, fill := v.StopBelowRim(load), v.MaxFill(load)
		if stop < min(Freeboard, v.Rim()) || stop > v.Rim() || fill < 0 {
			t.Fatalf("stop %v", stop)
		}
		if fill > 0 {
			if over := fill + load.Rise().High - v.Volume(v.Rim()-Froth); over.Litres() > 1e-9*v.Brim().Litres() {
				t.Fatalf("%v too much in %v", over, v)
			}
		}
	})
}

func TestHangZone(t *testing.T) {
	for _, tt := range []struct{ depth, sediment, floor, ceiling, tall float64 }{
		{0.30, 0.05, 0.05, 0.27, 0.22}, // a pail of soda vat
		{0.60, 0.05, 0.05, 0.57, 0.52}, // not deeper than 60 cm
		{0.70, 0.05, 0.30, 0.50, 0.20}, // deeper: 30 off the floor, 20 under
		{0.90, 0.35, 0.35, 0.70, 0.35}, // sediment above 30 cm
		{0.07, 0.05, 0.05, 0.04, 0},    // nowhere
	} {
		h := HangZone(quantity.Metres(tt.depth), quantity.Metres(tt.sediment))
		if math.Abs(h.Floor.Metres()-tt.floor) > 1e-12 || math.Abs(h.Ceiling.Metres()-tt.ceiling) > 1e-12 || math.Abs(h.Tall().Metres()-tt.tall) > 1e-12 {
			t.Errorf("%v: %v", tt, h)
		}
	}
}

func TestWarnings(t *testing.T) {
	cotton := func(g float64) Load { return Load{Goods: []Goods{{fibre.Cotton, quantity.Grams(g)}}} }
	for _, tt := range []struct {
		name string
		v    Vessel
		p    Plan
		want []string
	}{
		{"all well", pail, Plan{Fill: 15, Sediment: 0.05, Load: cotton(500), Hottest: 50, Alkali: true}, nil},
		{"over the brim", pail, Plan{Fill: 30}, []string{"30 L is above the brim; this vessel holds 22.1 L"}},
		{"over the brim, in gallons", pail, Plan{Fill: 30, System: quantity.US}, []string{"7.93 gal is above the brim; this vessel holds 5.85 gal"}},
		{"too full", pail, Plan{Fill: 20}, []string{"20 L leaves 3.1 cm below the rim; stop 8 cm below it, at 16.7 L"}},
		{"too full for hands", pail, Plan{Fill: 16.5, Load: Load{[]Goods{{fibre.Cotton, 600}}, 2}},
			[]string{"16.5 L leaves 8.3 cm below the rim; with these goods in, stop 9.9 cm below it, at 15.5 L"}},
		{"crowded", pail, Plan{Fill: 15, Sediment: 0.05, Load: cotton(1000)},
			[]string{"1 kg of dry goods in 15 L is a liquor ratio of 15:1; 30:1 lets goods move and 20:1 is the least, so put in at most 750 g at once"}},
		{"just crowded", pail, Plan{Fill: 15, Sediment: 0.05, Load: cotton(751)},
			[]string{"751 g of dry goods in 15 L is a liquor ratio of 19.9:1; 30:1 lets goods move and 20:1 is the least, so put in at most 750 g at once"}},
		{"shallow", Vessel{Box{0.6, 0.4, 0.3}, Stainless}, Plan{Fill: 16.8, Sediment: 0.05, Load: cotton(100)},
			[]string{"goods have no place between the sediment and the surface in 7 cm of liquor; fill more, or take a narrower vessel"}},
		{"aluminium", Vessel{pail.Shape, Aluminium}, Plan{Fill: 15, Alkali: true},
			[]string{"aluminium dissolves in alkali and gives off hydrogen, which burns: take stainless, enamel, PE, PP or wood"}},
		{"plastic", Vessel{pail.Shape, LDPE}, Plan{Fill: 15, Hottest: 50},
			[]string{"LDPE bears 49 °C at most, and 50 °C is wanted: cold water first, or another vessel"}},
		{"unstated", Vessel{Shape: pail.Shape}, Plan{Fill: 15},
			[]string{"what the vessel is made of is not said; aluminium, galvanised and oak will not do, and plastic has a top temperature"}},
		{"not a number", pail, Plan{Fill: quantity.Volume(math.NaN())}, []string{"? L is no fill"}},
	} {
		r := tt.v.RoomFor(tt.p)
		var got []string
		for _, w := range r.Warnings {
			got = append(got, w.String())
		}
		if len(got) != len(tt.want) {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
			continue
		}
		for i := range got {
			if got[i] != tt.want[i] {
				t.Errorf("%s:\n got %s\nwant %s", tt.name, got[i], tt.want[i])
			}
		}
	}
	r := pail.RoomFor(Plan{Fill: 15, Load: cotton(500)})
	if math.Abs(r.Depth.Metres()+r.BelowRim.Metres()-0.368) > 1e-12 || r.Ratio != 30 || r.Surface != pail.Surface(r.Depth) {
		t.Errorf("%+v", r)
	}
}

func TestMaterials(t *testing.T) {
	for _, m := range Materials() {
		back, err := ParseMaterial(m.String())
		if err != nil || back != m {
			t.Errorf("%s: %v, %v", m, back, err)
		}
		alkali, none := m.Refusal(true) != "", m.Refusal(false) != ""
		if wantAlkali := m == Aluminium || m == Galvanised || m == Oak; alkali != wantAlkali || none != (m == Oak) {
			t.Errorf("%s: refused with alkali %v, without %v", m, alkali, none)
		}
	}
	for m, want := range map[Material]quantity.Temperature{PE: 49, LDPE: 49, HDPE: 63, PP: 74} {
		if top, ok := m.Top(); !ok || top != want || m.TooHot(want, quantity.Metric) != "" || m.TooHot(want+0.1, quantity.Metric) == "" {
			t.Errorf("%s: %v", m, top)
		}
	}
	if _, ok := Stainless.Top(); ok {
		t.Error("stainless")
	}
	usual, most := AtOnce(15)
	if usual != 500 || most != 750 {
		t.Errorf("%v, %v", usual, most)
	}
}
