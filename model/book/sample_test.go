package book

import (
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// sampleRecipe has what could go wrong when it is copied: comments, brackets in texts and in lists over several lines.
const sampleRecipe = `# Grandmother's card, [kept] as she wrote it.
format = 1
id = "soda"
name = "Soda vat [plain]"
family = "dithionite-soda"
fibres = [
  "cotton", # [not a table]
  "linen",
]
source = "common practice, no source"

[liquor]  # the bath
build = "38 °C"
low = "30 °C"
aim = "35 °C"
high = "40 °C"
ph = [10.0, 11.5]
ph_fresh = 11.0
ready = "30 min"
recheck = "15 min"
sediment = "5 cm"

[[powder]]
id = "indigo"
material = "pre-reduced indigo grains"
role = "indigo"
form = "pre-reduced"
strength = 0.60
dose = "1.5 g/L"
hydrate = "20 mL/g"

[[powder]]
id = "soda"
material = "soda ash"
role = "alkali"
dose = "6 g/L"

[[powder]]
id = "reducer"
material = "sodium dithionite"
role = "reducer"
dose = "2 g/L"

[[step]]
do = "weigh"
powder = "indigo"
[[step]]
do = "hydrate"
powder = "indigo"
[[step]]
do = "weigh"
powder = "soda"
[[step]]
do = "dissolve"
powder = "soda"
water = "10 mL/g"
[[step]]
do = "fill"
to = "38 °C"
[[ step ]]
do = "add"
powder = "soda"
[[step]]
do = "add"
powder = "indigo"
[[step]]
do = "stir"
for = "2 min"
[[step]]
do = "weigh"
powder = "reducer"
caution = "mask, goggles, gloves; never water onto this powder"
[[step]]
do = "sprinkle"
powder = "reducer"
at_most = "50 °C"
caution = "mask, goggles, gloves; no heap, no acid"
[[step]]
do = "cover"
cover = true
[[step]]
do = "wait"
for = "30 min"
cover = true
why = """
# end is a word, [step] is another"""
[[step]]
do = "check"
`

// ptr is a pointer to a copy.
func ptr[T any](v T) *T { return &v }

// morning is when the sample day opens.
var morning = time.Date(2026, 11, 25, 9, 0, 0, 0, time.FixedZone("", 3600))

func parseSample() (recipe.Recipe, recipe.Faults) {
	return recipe.Parse("sample", []byte(sampleRecipe))
}

// sampleHead is a vat that is dyed in on its second day.
func sampleHead(t testing.TB) day.Head {
	t.Helper()
	r, faults := parseSample()
	if len(faults) > 0 {
		t.Fatal(faults.Err())
	}
	return day.Head{
		Vat: "garden-bin", Day: "2026-11-25", Zone: "Europe/Berlin",
		Setup: day.Setup{Name: "Garden bin!", Fill: 60, Vessel: "frustum 25 cm 30 cm 37 cm", Material: "PP", Place: day.Outdoors, Units: "metric"},
		Opening: day.Opening{Number: 2, Built: true, Sulfur: true, Since: ptr(morning.Add(-20 * time.Hour)), Temp: ptr(quantity.Temperature(21.5)), PH: ptr(10.8),
			Pieces: []day.CarriedPiece{
				{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{What: `runner "long"`, Fibre: "linen", Dry: 420, Depth: "dark", Had: 3}},
				{OfPiece: day.OfPiece{Tag: "A2"}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 80, Dips: 4}},
			}},
		Recipe: r,
	}
}

// sampleEvents are a short morning: twelve events with every sort of value in them.
func sampleEvents() []day.Event {
	bodies := []day.Body{
		day.Opened{How: "tend"},
		day.Reading{Temp: ptr(quantity.Temperature(33.5)), PH: ptr(11.0), PHTemp: ptr(quantity.Temperature(25)), With: "glass [old]"},
		day.PowderWeighed{OfStep: day.OfStep{Step: 3}, Powder: "soda", Material: "soda ash", Mass: 120.5},
		day.PowderWeighed{OfStep: day.OfStep{Step: 3}, Powder: "soda", Material: "soda ash", Mass: -0.5},
		day.StripTest{Stayed: quantity.Seconds(45), Colour: "yellow-green"},
		day.VatJudged{Ready: false, Seen: "cloudy"},
		day.Note{Text: "# end 7 00000000\n[[event]]\nsun \"on\" the bin \\ \t\u00a0 藍"},
		day.DipBegun{OfPiece: day.OfPiece{Tag: "A1"}, Dip: 4, For: quantity.Minutes(8), CountIn: quantity.Seconds(5)},
		day.DipEnded{OfPiece: day.OfPiece{Tag: "A1"}, Dip: 4, Air: quantity.Minutes(12), Assumption: day.Assumption{Assumed: true}},
		day.ClockStepped{By: -quantity.Hours(1)},
		day.Corrected{Of: 9, Way: "moved", To: ptr(morning.Add(31 * time.Minute))},
		day.Closed{Why: "dusk"},
	}
	var events []day.Event
	for i, b := range bodies {
		e := day.Event{Seq: i + 1, At: morning.Add(time.Duration(i) * 4 * time.Minute), Body: b}
		if i%4 != 3 {
			e.Boot, e.Up = "0f3a9c21", 812.25+float64(i)*240
		}
		events = append(events, e)
	}
	return events
}

// sampleFile is the day as it stands on disk, and where each block ends in it, the head first.
func sampleFile(t testing.TB) (data []byte, ends []int) {
	t.Helper()
	data, err := EncodeHead(sampleHead(t))
	if err != nil {
		t.Fatal(err)
	}
	ends = []int{len(data)}
	for _, e := range sampleEvents() {
		block, err := EncodeEvent(e)
		if err != nil {
			t.Fatal(err)
		}
		data = append(append(data, '\n'), block...)
		ends = append(ends, len(data))
	}
	return data, ends
}

// sameEvent compares events; times are the same instant with the same offset.
func sameEvent(t *testing.T, got, want day.Event) {
	t.Helper()
	a, err := EncodeEvent(got)
	if err != nil {
		t.Fatal(err)
	}
	b, err := EncodeEvent(want)
	if err != nil {
		t.Fatal(err)
	}
	if string(a) != string(b) {
		t.Errorf("read\n%s\nwant\n%s", a, b)
	}
}
