package prepare_test

import (
	"os"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/prepare"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/vessel"
	"pgregory.net/rapid"
)

var night = time.Date(2026, 11, 24, 18, 0, 0, 0, time.UTC)
var ten = time.Date(2026, 11, 25, 10, 0, 0, 0, time.UTC)

// head is a bin of 60 L outdoors, its first day, with one of the built-in recipes.
func head(t testing.TB, id string) day.Head {
	t.Helper()
	name := "../../recipes/" + id + ".toml"
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	r, faults := recipe.Parse(name, text)
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	return day.Head{Vat: "bin", Day: "2026-05-09", Setup: day.Setup{Fill: 60, Place: day.Outdoors, Units: "metric"}, Recipe: r}
}

func lot(t testing.TB, s string) prepare.Lot {
	t.Helper()
	l, err := prepare.ParseLot(s, quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func of(r prepare.Schedule, kind string) []prepare.Task {
	var out []prepare.Task
	for _, a := range r.Tasks {
		if a.Kind == kind {
			out = append(out, a)
		}
	}
	return out
}

func TestParseLot(t *testing.T) {
	for said, want := range map[string]prepare.Lot{
		"420 g linen":             {Goods: vessel.Goods{Fibre: fibre.Linen, Dry: 420}},
		"420 g greige linen":      {Goods: vessel.Goods{Fibre: fibre.Linen, Dry: 420}, State: practice.Greige},
		"1.2 kg Cotton, PFD":      {Goods: vessel.Goods{Fibre: fibre.Cotton, Dry: 1200}, State: practice.Prepared},
		"300 g silk in gum":       {Goods: vessel.Goods{Fibre: fibre.Silk, Dry: 300}, State: practice.InGum},
		"300 g greasy wool":       {Goods: vessel.Goods{Fibre: fibre.Wool, Dry: 300}, State: practice.Greasy},
		"300 g pasted cotton":     {Goods: vessel.Goods{Fibre: fibre.Cotton, Dry: 300}, Scoured: true, Pasted: true},
		"300 g scoured wool yarn": {Goods: vessel.Goods{Fibre: fibre.Wool, Dry: 300}, State: practice.Yarn, Scoured: true},
	} {
		if got, err := prepare.ParseLot(said, quantity.Metric); err != nil || got != want {
			t.Errorf("%q: %+v, %v", said, got, err)
		}
	}
	for _, said := range []string{"420 g linen", "420 g greige linen", "300 g silk in gum", "300 g scoured yarn wool"} {
		if got := lot(t, said).Name(quantity.Metric); got != said {
			t.Errorf("%q is spoken of as %q", said, got)
		}
	}
	for said, says := range map[string]string{
		"":                      "write the dry weight and the fibre",
		"linen":                 "write the dry weight and the fibre",
		"420 g":                 "the fibre is missing",
		"420 g mouldy linen":    `"mouldy" is no state of goods known here; known are raw, greige`,
		"420 g tweed":           "tweed is not a fibre known here",
		"0 g linen":             "weighs nothing",
		"-3 g linen":            "negative",
		"2000 kg linen":         "more than is reckoned here",
		"420 g greige wool":     `wool is scoured as yarn or greasy, not as "greige"`,
		"420 g raw greige wool": "not both",
	} {
		if _, err := prepare.ParseLot(said, quantity.Metric); err == nil || !strings.Contains(err.Error(), says) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: %v, want %q", said, err, says)
		}
	}
	lots, err := prepare.ParseLots("420 g linen, 1,5 kg cotton,300 g silk, in gum and 90 g wool", quantity.Metric)
	if err != nil || len(lots) != 4 || lots[1].Dry != 1500 || lots[2].State != practice.InGum || lots[3].Fibre != fibre.Wool {
		t.Errorf("%+v, %v", lots, err)
	}
}

// 420 g of linen for 10:00, in a soda vat of 60 L. Amounts by scour.csv: detergent 2 %, soda 4.5 % of 4 to 5, 25 L/kg; wet
// out an hour. Two baths of 90 min, each with 30 min of heating, 20 of cooling and 10 of rinsing (M), make five hours, and the
// build wants the same hands from 8:37 on: at 3:37 it would begin, so it is laid into the evening before.
func TestBeforeADayOfLinen(t *testing.T) {
	r, err := prepare.Before(head(t, "soda"), []prepare.Lot{lot(t, "420 g linen")}, night.Add(-6*time.Hour), ten)
	if err != nil {
		t.Fatal(err)
	}
	p := r.Lots[0]
	if p.Scour.Detergent.Likely.Grams() != 8.4 || p.Scour.Alkali.Likely.Grams() < 18.8 || p.Scour.Alkali.Likely.Grams() > 19 || p.Scour.Water.Likely != 10.5 || p.State != practice.Greige {
		t.Errorf("%+v", p.Scour)
	}
	scour, wet, build := of(r, prepare.ToScour), of(r, prepare.ToWet), of(r, prepare.ToBuild)
	if len(scour) != 2 || len(wet) != 1 || len(build) != 1 || len(of(r, prepare.ToHeat)) != 0 {
		t.Fatalf("%+v", r.Tasks)
	}
	if got := scour[1].End(); got.Hour() != 21 || got.Day() != 24 || scour[0].At.Hour() != 16 {
		t.Errorf("scoured from %v to %v", scour[0].At, got)
	}
	if wet[0].At.Hour() != 9 || build[0].End() != ten || build[0].At.After(ten.Add(-time.Hour)) || r.Tasks[len(r.Tasks)-1].Kind != prepare.ToDye {
		t.Errorf("%+v", r.Tasks)
	}
	if !strings.Contains(scour[1].Check, "pale as tea") || scour[0].Check != "" || !strings.Contains(scour[0].How, "8.4 g of neutral detergent and 18.9 g of soda ash in 10.5 L at 90 °C") {
		t.Errorf("%+v", scour)
	}
	// Asked at six it begins at once and is over before midnight; asked at eight, it is reckoned back through the night; asked
	// in the morning, it says by how much it is late.
	soon, _ := prepare.Before(head(t, "soda"), []prepare.Lot{lot(t, "420 g linen")}, night, ten)
	if got := of(soon, prepare.ToScour)[0].At; !got.Equal(night.Add(time.Minute)) {
		t.Errorf("it begins at %v", got)
	}
	late, _ := prepare.Before(head(t, "soda"), []prepare.Lot{lot(t, "420 g linen")}, night.Add(2*time.Hour), ten)
	if got := of(late, prepare.ToScour)[0].At; got.Hour() != 3 || got.Day() != 25 ||
		!strings.Contains(strings.Join(late.Warnings, " "), "begins at 03:37, in the night: scour the day before and let the goods dry, or begin it at 6:00 and dye at 12:22") {
		t.Errorf("it begins at %v, %v", got, late.Warnings)
	}
	if late.Late(night) != 0 {
		t.Error("it is late")
	}
	morning, _ := prepare.Before(head(t, "soda"), []prepare.Lot{lot(t, "420 g linen")}, ten.Add(-3*time.Hour), ten)
	if !strings.Contains(strings.Join(morning.Warnings, " "), "begun now the first piece goes in at 13:22") {
		t.Errorf("%v", morning.Warnings)
	}
	// A stove of 2 kW heats 10.5 L from 15 to 90 °C in 55 min of all its power (K: 3.29 MJ), some more with its losses.
	h := head(t, "soda")
	h.Setup.Stove = 2000
	with, _ := prepare.Before(h, []prepare.Lot{lot(t, "420 g linen")}, night.Add(-12*time.Hour), ten)
	if got := of(with, prepare.ToScour)[0].For; got < quantity.Minutes(120+27) || got > quantity.Minutes(120+55) {
		t.Errorf("a bath takes %v", got)
	}
	if len(of(with, prepare.ToHeat)) != 1 || !strings.Contains(of(with, prepare.ToHeat)[0].How, "on the stove") {
		t.Errorf("%+v", with.Tasks)
	}
}

// Goods that bear a paste are neither scoured nor soaked; wool goes into its soak three quarters of an hour before, at the vat's heat.
func TestPastedGoodsAndWool(t *testing.T) {
	r, err := prepare.Before(head(t, "madder-bran"), []prepare.Lot{lot(t, "300 g pasted cotton"), lot(t, "200 g scoured wool")}, night, ten)
	if err != nil {
		t.Fatal(err)
	}
	wet := of(r, prepare.ToWet)
	if len(of(r, prepare.ToScour)) != 0 || len(wet) != 1 || !wet[0].At.Equal(ten.Add(-45*time.Minute)) || !strings.Contains(wet[0].How, "30–40 °C") ||
		!strings.Contains(strings.Join(r.Notes, " "), "never soaked") {
		t.Errorf("%+v, %v", r.Tasks, r.Notes)
	}
}

// Asked at eight in the evening for each day at ten, there is a day without a night's work: the next but one. Goods that were
// scoured are spoken of as that.
func TestBeforeFromSparesTheNight(t *testing.T) {
	r, err := prepare.BeforeFrom(head(t, "soda"), []prepare.Lot{lot(t, "420 g linen"), lot(t, "3 kg scoured cotton")}, night.Add(2*time.Hour), ten)
	if err != nil || r.Ready != ten.AddDate(0, 0, 1) || len(of(r, prepare.ToScour)) != 2 || of(r, prepare.ToScour)[1].End().Hour() != 21 {
		t.Errorf("%v, %+v, %v", r.Ready, r.Tasks, err)
	}
	if got := r.Lots[1].Name(quantity.Metric); got != "3 kg scoured cotton" {
		t.Error(got)
	}
	if !strings.Contains(strings.Join(r.Notes, " "), "scoured the day before, the goods dry again") {
		t.Error(r.Notes)
	}
}

// More than one evening holds is begun in the morning, or the day before that, and never in the night.
func TestBeforeManyBaths(t *testing.T) {
	lots := []prepare.Lot{lot(t, "1.5 kg linen"), lot(t, "1.4 kg cotton"), lot(t, "1.5 kg hemp"), lot(t, "1.5 kg ramie")}
	r, err := prepare.Before(head(t, "soda"), lots, night.AddDate(0, 0, -7), ten)
	if err != nil {
		t.Fatal(err)
	}
	scour := of(r, prepare.ToScour)
	if len(scour) < 7 || scour[0].At.Day() == 24 {
		t.Fatalf("%+v", scour)
	}
	for _, a := range scour {
		if a.At.Hour() < 6 || a.End().After(time.Date(a.At.Year(), a.At.Month(), a.At.Day(), 21, 0, 0, 0, time.UTC)) {
			t.Errorf("%v to %v", a.At, a.End())
		}
	}
}

// A ferment vat is built over a week: its scouring goes into that wait, told in days, and is still none of the night's.
func TestBeforeALongBuild(t *testing.T) {
	r, err := prepare.Before(head(t, "madder-bran"), []prepare.Lot{lot(t, "150 g linen")}, night.AddDate(0, 0, -30), ten)
	if err != nil {
		t.Fatal(err)
	}
	b, scour := of(r, prepare.ToBuild)[0], of(r, prepare.ToScour)
	if !strings.HasPrefix(prepare.Lasting(b.For.Duration()), "7 days ") || scour[0].At.Day() != 24 || scour[0].At.Before(b.At) || !strings.Contains(strings.Join(r.Notes, " "), "in a wait of the build") {
		t.Errorf("%v, %+v, %v", b.For, scour, r.Notes)
	}
	for d, want := range map[time.Duration]string{47 * time.Hour: "47 h", 48 * time.Hour: "2 days", 170*time.Hour + 40*time.Minute: "7 days 3 h"} {
		if got := prepare.Lasting(d); got != want {
			t.Errorf("%v: %q, want %q", d, got, want)
		}
	}
}

// 20 L take 667 g at 30 L a kilogram and 1 kg at 20 (C), and in a day 40 g a litre of a dithionite vat (C/M): 800 g.
func TestBeforeHeavyGoods(t *testing.T) {
	of := func(fill float64, lots ...prepare.Lot) string {
		h := head(t, "soda")
		h.Setup.Fill = quantity.Litres(fill)
		r, err := prepare.Before(h, lots, night, ten)
		if err != nil {
			t.Fatal(err)
		}
		return strings.Join(r.Warnings, "\n")
	}
	heavy := of(20, lot(t, "3 kg scoured cotton"))
	for _, want := range []string{"667 g at once, 1 kg at the very most", "so in 5 lots", "more than this vat dyes in a day, about 800 g"} {
		if !strings.Contains(heavy, want) {
			t.Errorf("no %q in %s", want, heavy)
		}
	}
	if got := of(20, lot(t, "500 g scoured cotton"), lot(t, "500 g scoured linen")); strings.Contains(got, "at once") || !strings.Contains(got, "1 kg of goods is more than this vat dyes in a day") {
		t.Error(got)
	}
	if got := of(60, lot(t, "1.5 kg scoured cotton")); got != "" {
		t.Error(got)
	}
}

// C: with children about not dithionite or iron; a sugar–lime or a ferment vat.
func TestWithChildren(t *testing.T) {
	for id, want := range map[string]string{"soda": "dithionite", "lye": "dithionite and lye", "iron-lime": "iron", "thiourea": "thiourea dioxide", "sugar-lime": "", "madder-bran": ""} {
		if got := prepare.WithChildren(head(t, id), []prepare.Lot{lot(t, "300 g wool")}); want != "" && (!strings.Contains(got, "take a ferment vat") || strings.Contains(got, "lime vat,")) {
			t.Errorf("%s, wool: %q", id, got)
		}
		if got := prepare.WithChildren(head(t, id), nil); (got == "") != (want == "") || !strings.Contains(got, want) || want != "" && !strings.Contains(got, "sugar–lime") {
			t.Errorf("%s: %q", id, got)
		}
	}
}

// A resist of paste softens in a warm vat, and a vat of lime and food is no place for it.
func TestPastedGoodsAreWarnedOfTheVat(t *testing.T) {
	for id, want := range map[string]string{"soda": "30 °C and no warmer", "mild-soda": "30 °C and no warmer", "lye": "25 °C, not above 30 °C", "sugar-lime": "needs cold iron–lime", "madder-bran": "needs cold iron–lime", "iron-lime": ""} {
		l := lot(t, "420 g scoured linen")
		l.Pasted = true
		r, err := prepare.Before(head(t, id), []prepare.Lot{l}, night, ten)
		if got := strings.Join(r.Unfit, "; "); err != nil || (got == "") != (want == "") || !strings.Contains(got, want) {
			t.Errorf("%s: %q, %v", id, got, err)
		}
	}
}

// A living vat is not built: it is warmed by its heater, 60 L from 20 to 35 °C with a kilowatt in 66 min (K), and looked at.
func TestBeforeADayOnALivingVat(t *testing.T) {
	h := head(t, "soda")
	h.Opening.Built, h.Setup.Heater = true, quantity.Watts(1000)
	r, err := prepare.Before(h, []prepare.Lot{lot(t, "420 g scoured linen")}, night, ten)
	if err != nil {
		t.Fatal(err)
	}
	warm := of(r, prepare.ToWarm)
	if len(warm) != 1 || warm[0].For < quantity.Minutes(60) || warm[0].For > quantity.Minutes(75) || len(of(r, prepare.ToLook)) != 1 || len(of(r, prepare.ToBuild))+len(of(r, prepare.ToScour)) != 0 {
		t.Errorf("%+v", r.Tasks)
	}
	c := prepare.Around(h, []prepare.Lot{lot(t, "420 g linen")})
	if !c.Built || c.Heater != 1000 || c.Pieces != 1 || c.Fibres[0] != fibre.Linen {
		t.Errorf("%+v", c)
	}
	// Half built, only the rest of the build is ahead; without goods and vat, only the first piece.
	h.Opening.Built, h.Opening.Step = false, len(h.Recipe.Steps)
	if rest, _ := prepare.Before(h, nil, night, ten); len(of(rest, prepare.ToBuild)) != 1 || !strings.Contains(of(rest, prepare.ToBuild)[0].How, "1 step") {
		t.Errorf("%+v", rest.Tasks)
	}
	if none, err := prepare.Before(day.Head{}, nil, night, ten); err != nil || len(none.Tasks) != 1 || none.Begin() != ten {
		t.Errorf("%+v, %v", none, err)
	}
	soda, err := prepare.Before(head(t, "soda"), []prepare.Lot{lot(t, "300 g wool")}, night, ten)
	if err != nil || len(soda.Unfit) != 1 || !strings.Contains(soda.Unfit[0], "wool bears pH 9.5") {
		t.Errorf("wool in a soda vat: %v, %v", soda.Unfit, err)
	}
}

// Whatever the goods and the vat: all lies in order and is over by the wished start; nothing is scoured twice at a time, and
// all of it is over before its goods are wetted out; wool has no soda and no bath above 60 °C (S1).
func TestBeforeAlways(t *testing.T) {
	heads := []day.Head{head(t, "soda"), {}}
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.SampledFrom(heads).Draw(t, "head")
		h.Setup.Stove = quantity.Watts(rapid.SampledFrom([]float64{0, 1000, 3500}).Draw(t, "stove"))
		h.Opening.Built = rapid.Bool().Draw(t, "built") && h.Recipe.Family != ""
		var lots []prepare.Lot
		for range rapid.IntRange(0, 5).Draw(t, "lots") {
			f := rapid.SampledFrom(fibre.All()).Draw(t, "fibre")
			lots = append(lots, prepare.Lot{Goods: vessel.Goods{Fibre: f, Dry: quantity.Grams(rapid.Float64Range(5, 20000).Draw(t, "dry"))},
				State: rapid.SampledFrom(append(practice.StatesOf(f), "")).Draw(t, "state"), Scoured: rapid.Bool().Draw(t, "scoured")})
		}
		now := night.Add(-time.Duration(rapid.IntRange(0, 48).Draw(t, "hours")) * time.Hour)
		r, err := prepare.Before(h, lots, now, ten)
		if err != nil {
			t.Fatal(err)
		}
		wets := map[string]time.Time{}
		for _, a := range of(r, prepare.ToWet) {
			wets[strings.TrimPrefix(a.What, "wet out the ")] = a.At
		}
		var last time.Time
		for i, a := range r.Tasks {
			if a.End().After(ten) || a.At.Before(now) && r.Late(now) == 0 || a.For < 0 || a.What == "" || a.How == "" || i > 0 && a.At.Before(r.Tasks[i-1].At) {
				t.Fatalf("%+v", a)
			}
			if a.Kind != prepare.ToScour {
				continue
			}
			for _, b := range append(of(r, prepare.ToHeat), of(r, prepare.ToBuild)...) { // its one wait, of half an hour, is too short for a bath
				if b.At.Before(a.End()) && a.At.Before(b.End()) {
					t.Fatalf("%s from %v to %v, and %s from %v to %v", a.What, a.At, a.End(), b.What, b.At, b.End())
				}
			}
			of, _, _ := strings.Cut(strings.TrimPrefix(a.What, "scour the "), ",")
			if a.At.Before(last) || a.End().After(wets[of]) {
				t.Fatalf("%s from %v to %v; another till %v, wetted out at %v", a.What, a.At, a.End(), last, wets[of])
			}
			if of == "wool" && (strings.Contains(a.How, "of soda") || strings.Contains(a.How, "at 6") && !strings.Contains(a.How, "at 60 °C")) {
				t.Fatalf("%s", a.How)
			}
			last = a.End()
		}
		for _, p := range r.Lots {
			if (p.Scour == nil) != p.Scoured || p.Fibre == fibre.Wool && p.Scour != nil && (p.Scour.Alkali.High > 0 || p.Scour.Temp.High > 60) {
				t.Fatalf("%+v", p)
			}
		}
	})
}

// All families lay out, and their build ends at the wished start, with its wait in it.
func TestBeforeEveryFamily(t *testing.T) {
	for _, id := range []string{"soda", "lye", "sugar-lime", "iron-lime", "thiourea", "madder-bran", "mild-soda"} {
		h := head(t, id)
		r, err := prepare.Before(h, nil, night.AddDate(0, 0, -30), ten)
		if err != nil {
			t.Fatal(err)
		}
		b := of(r, prepare.ToBuild)
		if len(b) != 1 || b[0].For < h.Recipe.Liquor.Ready || b[0].End() != ten {
			t.Errorf("%s: %+v", id, b)
		}
	}
}

// Reckoned back from ten o'clock, the morning begins early enough for heating, filling, hydrating, reducing and soaking.
func TestBackwards(t *testing.T) {
	h := head(t, "soda")
	ready := time.Date(2026, 5, 9, 10, 0, 0, 0, time.UTC)
	slots, err := prepare.Backwards(h, ready, quantity.Minutes(50))
	if err != nil {
		t.Fatal(err)
	}
	var whats []string
	end := map[string]time.Time{}
	for _, s := range slots {
		whats = append(whats, s.What)
		end[s.What] = s.At.Add(s.For.Duration())
	}
	for _, want := range []string{"heat the water", "fill the vat", "wet the pre-reduced indigo grains", "wait while it reduces", "wet the goods out"} {
		if _, ok := end[want]; !ok {
			t.Errorf("%q is not in %v", want, whats)
		}
	}
	for i, s := range slots {
		if e := s.At.Add(s.For.Duration()); e.After(ready) {
			t.Errorf("%s ends at %v", s.What, e)
		}
		if i > 0 && s.At.Before(slots[i-1].At) {
			t.Errorf("%s is out of order", s.What)
		}
	}
	if !end["wet the goods out"].Equal(ready) {
		t.Error("the goods are not wet at ten")
	}
}
