package answer

import (
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/rehearse"
)

var nine = time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)

// a day on which things happen a minute apart.
type played struct {
	day.State
	now time.Time
}

func begun(t *testing.T, built bool, bodies ...day.Body) *played {
	t.Helper()
	soda, _ := recipes.Find("soda")
	h := rehearse.Head(soda, nine)
	if built {
		h.Opening = day.Opening{Number: 2, Built: true, Sulfur: true}
	}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	p := &played{s, nine}
	p.happen(t, append([]day.Body{day.Opened{How: "tend"}}, bodies...)...)
	return p
}

func (p *played) happen(t *testing.T, bodies ...day.Body) {
	t.Helper()
	for _, b := range bodies {
		p.now = p.now.Add(time.Minute)
		var err error
		if p.State, err = day.Apply(p.State, day.Event{Seq: len(p.Log) + 1, At: p.now, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
}

// ready is a vat that is dyed in, with A1 and "big B1" dry on the list.
func ready(t *testing.T, bodies ...day.Body) *played {
	of := day.OfStep{Step: 1}
	return begun(t, true, append([]day.Body{
		day.StepSkipped{OfStep: of, Do: "warm"}, day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true},
		day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 420, Dips: 2}},
		day.PieceAdded{OfPiece: day.OfPiece{Tag: "big B1"}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 90, Dips: 2}},
	}, bodies...)...)
}

var (
	a1  = day.OfPiece{Tag: "A1"}
	wet = day.WettedOut{OfPiece: a1}
	in  = day.DipBegun{OfPiece: a1, Dip: 1, For: quantity.Minutes(5)}
	out = day.DipEnded{OfPiece: a1, Dip: 1, Air: quantity.Minutes(10)}
)

// looking is such a vat with A1 after its first dip of 2, aired.
func looking(t *testing.T) *played {
	p := ready(t, day.PieceDropped{OfPiece: day.OfPiece{Tag: "big B1"}}, wet, in, out)
	p.now = p.now.Add(10 * time.Minute)
	return p
}

// weighing is a build that stands at a weighing, with its caution answered.
func weighing(t *testing.T) *played {
	p := begun(t, false)
	for {
		st, _ := p.Open()
		if st.Do == recipe.Weigh {
			p.happen(t, day.CautionAnswered{OfStep: day.OfStep{Step: st.No}, Caution: st.Caution})
			return p
		}
		p.happen(t, day.StepDone{OfStep: day.OfStep{Step: st.No}})
	}
}

// filling is a build that stands where a temperature is read.
func filling(t *testing.T) *played {
	p := begun(t, false)
	for {
		st, _ := p.Open()
		if st.Do == recipe.Fill && st.Into == recipe.IntoVat {
			p.happen(t, day.CautionAnswered{OfStep: day.OfStep{Step: st.No}, Caution: st.Caution})
			return p
		}
		p.happen(t, day.StepDone{OfStep: day.OfStep{Step: st.No}})
	}
}

func TestLines(t *testing.T) {
	scale, fill, at, swims, looked := weighing(t), filling(t), ready(t, wet), ready(t, wet, in), looking(t)
	dip, _ := lately(swims.State, func(b day.Body) bool { _, is := b.(day.DipBegun); return is })
	c, warm, cold, down, holds, ph := quantity.Celsius(35), quantity.Celsius(36), quantity.Celsius(25), quantity.Centimetres(40), quantity.Litres(28), 10.4
	r := func(b day.Body) day.Command { return day.Record{Body: b} }
	for _, w := range []struct {
		of   *played
		line string
		want day.Command
	}{
		{scale, "", day.Done{}},
		{scale, "done", day.Done{}},
		{scale, "  Done ", day.Done{}},
		{swims, "all but A1", day.Done{Without: "A1"}},
		{scale, "y", day.Judge{Ready: true}},
		{scale, "ready", day.Judge{Ready: true}},
		{scale, "ready by film and froth", day.Judge{Ready: true, By: day.ByFilm}},
		{scale, "ready by my eye, coppery", day.Judge{Ready: true, By: day.ByEye, Seen: "coppery"}},
		{scale, "ready by the sun", day.Judge{Ready: true, Seen: "by the sun"}},
		{scale, "not yet still cloudy", day.Judge{Seen: "still cloudy"}},
		{scale, "n", day.Judge{}},
		{scale, "not yet", day.Judge{}},
		{scale, "back", day.Back{}},
		{scale, "take back 12", day.Undo{Seq: 12}},
		{scale, "54", day.PutScoop{Mass: 54}},
		{scale, "1,5 kg", day.PutScoop{Mass: 1500}},
		{scale, "-4 g", day.PutScoop{Mass: -4}},
		{scale, "−4", day.PutScoop{Mass: -4}},
		{fill, "35", r(day.Reading{Temp: &c})},
		{fill, "35 g", day.PutScoop{Mass: 35}}, // which the day refuses
		{scale, "r 35 °C", r(day.Reading{Temp: &c})},
		{scale, "36 C", r(day.Reading{Temp: &warm})},
		{at, "36 C", r(day.Reading{Temp: &warm})},
		{at, "ph 10.4", r(day.Reading{PH: &ph, With: "paper strip"})},
		{at, "ph 10,4 25", r(day.Reading{PH: &ph, PHTemp: &cold, With: "paper strip"})},
		{at, "pH 10.4 at 25 °C meter", r(day.Reading{PH: &ph, PHTemp: &cold, With: "meter"})},
		{scale, "s spilt it", day.Skip{Reason: "spilt it"}},
		{scale, "skip spilt it", day.Skip{Reason: "spilt it"}},
		{at, "p A1 linen 420 g dark", day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 420, Depth: "dark"}}},
		{at, "piece D1 linen 420 g dark", day.AddPiece{Tag: "D1", Spec: day.PieceSpec{Fibre: "linen", Dry: 420, Depth: "dark"}}},
		{at, "p A1 linen 420g 5", day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 420, Dips: 5}}},
		{at, "piece D1 Linen 1.2 kg 5 dips", day.AddPiece{Tag: "D1", Spec: day.PieceSpec{Fibre: "linen", Dry: 1200, Dips: 5}}},
		{at, "piece D1 linen 420 g rung 5", day.AddPiece{Tag: "D1", Spec: day.PieceSpec{Fibre: "linen", Dry: 420, Rung: 5}}},
		{at, "change A1 linen 400 g 3", r(day.PieceChanged{OfPiece: a1, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 400, Dips: 3}})},
		{at, "drop A1", r(day.PieceDropped{OfPiece: a1})},
		{at, "drop a1 torn", r(day.PieceDropped{OfPiece: a1, Reason: "torn"})},
		{at, "A1 in", day.Lower{Tag: "A1"}},
		{at, "a1 in 2 min ago", day.Lower{Tag: "A1", When: at.now.Add(-2 * time.Minute)}},
		{at, "big B1 wet", r(day.WettedOut{OfPiece: day.OfPiece{Tag: "big B1"}})},
		{swims, "next", day.Take{Call: day.CallOf(swims.State, swims.now).Meanwhile(swims.State, swims.now)[0].ID}},
		{swims, "A1 out", day.Lift{Tag: "A1"}},
		{swims, "out A1", day.Lift{Tag: "A1"}},
		{swims, "A1 out 2 min ago", day.Lift{Tag: "A1", When: swims.now.Add(-2 * time.Minute)}},
		{swims, "A1 out at 9:01", day.Lift{Tag: "A1", When: nine.Add(time.Minute)}},
		{swims, "A1 in at 9:01", day.Move{Seq: dip.Seq, To: nine.Add(time.Minute)}},
		{swims, "more", day.Stretch{Timer: "dip A1", By: quantity.Minutes(1)}},
		{swims, "less 30 s", day.Stretch{Timer: "dip A1", By: -quantity.Seconds(30)}},
		{swims, "later A1 2 min", day.Stretch{Timer: "dip A1", By: quantity.Minutes(2)}},
		{at, "f A1", day.Finish{Tag: "A1"}},
		{at, "A1 done", day.Finish{Tag: "A1"}},
		{at, "A1 aired", r(day.AiringEnded{OfPiece: a1})},
		{at, "carry over A1 to the madder vat", r(day.CarriedOver{OfPiece: a1, To: "the madder vat"})},
		{at, "d 40 cm", r(day.Reading{BelowRim: &down})},
		{at, "level 40", r(day.Reading{BelowRim: &down})},
		{at, "d 28 L", r(day.Reading{Holds: &holds})},
		{at, "strip 45", r(day.StripTest{Stayed: quantity.Seconds(45)})},
		{at, "strip 0", r(day.StripTest{})},
		{at, "strip 1 min", r(day.StripTest{Stayed: quantity.Minutes(1)})},
		{at, "lid", r(day.VatCovered{})},
		{at, "lid on", r(day.VatCovered{})},
		{at, "lid off", r(day.VatUncovered{})},
		{at, "heater", r(day.HeaterOn{Power: 1000})},
		{at, "heater off", r(day.HeaterOff{})},
		{at, "top up 2 L at 12 C", r(day.ToppedUp{Water: 2, Temp: 12})},
		{at, "topped up 2", r(day.ToppedUp{Water: 2})},
		{at, "decanted 5 L for the plants", r(day.Decanted{Liquor: 5, Why: "for the plants"})},
		{at, "drew off 3 L", r(day.DrawnOff{Liquor: 3})},
		{at, "fed wheat bran 200 g", r(day.Fed{Powder: "wheat bran", Mass: 200})},
		{at, "stock 1 L", r(day.StockDrawn{Stock: 1})},
		{at, "A1 soured", r(day.Soured{OfPiece: a1})},
		{at, "dried A1", r(day.Dried{OfPiece: a1})},
		{at, "stirred 2 min", r(day.Stirred{For: quantity.Minutes(2)})},
		{at, "skimmed", r(day.FrothSkimmed{})},
		{at, "rest 20 min", day.RestVat{For: quantity.Minutes(20)}},
		{at, "rest 20", day.RestVat{For: quantity.Minutes(20)}},
		{at, "rest", day.RestVat{For: quantity.Minutes(60)}},
		{at, "give reducer 20 g", day.Dose{Powders: []day.Amount{{Powder: "reducer", Mass: 20}}, Wait: quantity.Minutes(30), Why: "by the dyer"}},
		{at, "give soda 5 g and reducer 7.5", day.Dose{Powders: []day.Amount{{Powder: "soda", Mass: 5}, {Powder: "reducer", Mass: 7.5}}, Wait: quantity.Minutes(30), Why: "by the dyer"}},
		{looked, "stop", day.Decided{Tag: "A1", Say: day.LookStop}},
		{looked, "enough", day.Decided{Tag: "A1", Say: day.LookStop}},
		{looked, "A1 enough", day.Decided{Tag: "A1", Say: day.LookStop}},
		{looked, "one more", day.Decided{Tag: "A1", Say: day.LookMore}},
		{looked, "one more A1", day.Decided{Tag: "A1", Say: day.LookMore}},
		{at, "A1 as planned", day.Decided{Tag: "A1", Say: day.LookPlanned}}, // which the day refuses
		{looked, "rung 4", r(day.LookedAt{OfPiece: a1, Looks: "rung 4", Wet: true})},
		{looked, "rung 4 big B1", r(day.LookedAt{OfPiece: day.OfPiece{Tag: "big B1"}, Looks: "rung 4", Wet: true})},
		{looked, "A1 rung 4", r(day.LookedAt{OfPiece: a1, Looks: "rung 4", Wet: true})},
		{looked, "more", day.Stretch{Timer: "air A1", By: quantity.Minutes(1)}},
		{at, "look A1 wet rung 4", r(day.LookedAt{OfPiece: a1, Looks: "rung 4", Wet: true})},
		{at, "look A1 dark", r(day.LookedAt{OfPiece: a1, Looks: "dark"})}, // no rinse was told of
		{at, "A1 looks like rinsed dark", r(day.LookedAt{OfPiece: a1, Looks: "dark", Rinsed: true})},
		{at, "cut L1 3 lab 62 -7 -21", r(day.SwatchJudged{Swatch: "L1", Dips: 3, Looks: "lab 62 -7 -21"})},
		{at, "signs cloudy", r(day.SignSeen{Sign: "cloudy"})},
		{at, "bench A1", day.Bench{Tag: "A1"}},
		{at, "rinsed A1", r(day.Rinsed{OfPiece: a1})},
		{at, "later A1", day.Stretch{Timer: "bath A1", By: quantity.Minutes(1)}},
		{at, "soon A1", day.Stretch{Timer: "bath A1", By: -quantity.Minutes(1)}},
		{at, "crock A1 4 2.5", r(day.CrockTested{OfPiece: a1, Dry: 4, Wet: 2.5})},
		{at, "crock A1 trace, much", r(day.CrockTested{OfPiece: a1, Dry: 4, Wet: 2})},
		{at, "leave A1 no soap left", day.LeaveOut{Tag: "A1", Reason: "no soap left"}},
		{at, "leave A1", day.LeaveOut{Tag: "A1"}},
		{at, "place outdoors", r(day.PlaceChanged{Place: day.Outdoors})},
		{at, "place cross-draught", r(day.PlaceChanged{Place: day.CrossDraught})},
		{at, "place in a closed room", r(day.PlaceChanged{Place: day.ClosedRoom})},
		{at, "goods outdoors", r(day.PlaceChanged{Place: day.Outdoors, Of: day.OfGoods})},
		{at, "children", r(day.HelperChanged{Who: "children", Children: true})},
		{at, "adults", r(day.HelperChanged{Who: "adults alone"})},
		{at, "material hdpe", r(day.VesselTold{Material: "hdpe"})},
		{at, "you alone", r(day.HelperChanged{Who: "one adult"})},
		{at, "better", r(day.Rechecked{Answer: "better"})},
		{at, "same", r(day.Rechecked{Answer: "the same"})},
		{at, "worse", r(day.Rechecked{Answer: "worse"})},
		{at, "hot a hot strike", r(day.HotWork{Reason: "a hot strike"})},
		{at, "went to the foul sewer", r(day.VatEnded{Why: "used up", Route: "to the foul sewer"})},
		{at, "note done at last", r(day.Note{Text: "done at last"})},
		{at, "close", day.Close{}},
		{at, "close the day", day.Close{}},
		{at, "close the day, for the winter", day.Close{Why: "for the winter"}},
		{at, "close for the winter", day.Close{Why: "for the winter"}},
		{at, "stop", nil},
		{looked, "stop now", nil},
		{looked, "rung", nil},
		{looked, "rung A1", nil},
		{at, "crock A1 9 9", nil},
		{at, "crock", nil},
		{at, "leave", nil},
		{at, "place cellar", nil},
		{at, "went", nil},
		{at, "look A1", nil},
		{at, "cut L1 lab", nil},
		{at, "give reducer", nil},
		{at, "d deep", nil},
		{at, "strip long", nil},
		{at, "strip -1", nil},
		{at, "54", nil},
		{at, "2 L", nil},
		{at, "20 min", nil},
		{at, "what", nil},
		{at, "A1", nil},
		{at, "A1 up", nil},
		{at, "Z9 out", nil},
		{at, "A1 out whenever", nil},
		{at, "y 35", nil},
		{at, "ready 35", nil},
		{at, "b 35", nil},
		{at, "more", nil},
		{at, "piece A1", nil},
		{at, "ph strong", nil},
		{at, "ph 15", nil},
		{at, "take back what", nil},
		{at, "note \x1b[2J", nil},
	} {
		_, _, got, err := Take(w.of.State, w.of.now, w.line)
		if w.want == nil {
			if err == nil {
				t.Errorf("%q is taken as %#v", w.line, got)
			}
			continue
		}
		if err != nil || len(got) != 1 || !reflect.DeepEqual(got[0], w.want) {
			t.Errorf("%q: %#v, %v; want %#v", w.line, got, err, w.want)
		}
	}
}

// What is told late of an act that was taken as planned corrects that act.
func TestWordsOnAnAssumedLiftAreOfIt(t *testing.T) {
	late := out
	late.Assumed = true
	p := ready(t, wet, in, late)
	last := p.Log[len(p.Log)-1].Seq
	for line, want := range map[string]day.Command{
		"A1 out": day.Confirm{Seq: last}, "A1 out 1 min ago": day.Move{Seq: last, To: p.now.Add(-time.Minute)}, "confirm": day.Confirm{Seq: last}, "k": day.Confirm{Seq: last}, "T 9:07": day.Move{Seq: last, To: nine.Add(7 * time.Minute)},
		"move 2 min ago": day.Move{Seq: last, To: p.now.Add(-2 * time.Minute)},
		"it was 9:07":    day.Move{Seq: last, To: nine.Add(7 * time.Minute)},
	} {
		if _, _, got, err := Take(p.State, p.now, line); err != nil || !reflect.DeepEqual(got, []day.Command{want}) {
			t.Errorf("%q: %#v, %v; want %#v", line, got, err, want)
		}
	}
}

func TestSeveralPiecesInOneLine(t *testing.T) {
	p := ready(t)
	for _, line := range []string{"A1 big B1 wet", "A1, big B1 wet", "A1 and Big B1 wet", "wet A1 and big B1"} {
		_, _, got, err := Take(p.State, p.now, line)
		want := []day.Command{day.Record{Body: wet}, day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "big B1"}}}}
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%q: %#v, %v", line, got, err)
		}
	}
}

// A piece that is tagged as a verb is takes the verb from no other piece.
func TestATagThatIsAVerb(t *testing.T) {
	p := ready(t, wet, day.PieceAdded{OfPiece: day.OfPiece{Tag: "in"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 90, Depth: "mid"}})
	if _, _, got, err := Take(p.State, p.now, "A1 in"); err != nil || !reflect.DeepEqual(got, []day.Command{day.Lower{Tag: "A1"}}) {
		t.Errorf("%#v, %v", got, err)
	}
	if _, _, got, err := Take(p.State, p.now, "in wet"); err != nil || !reflect.DeepEqual(got, []day.Command{day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "in"}}}}) {
		t.Errorf("%#v, %v", got, err)
	}
}

// A dose that is typed rests the vat as long as its powder takes, the slowest of them: the table's wait, not the recipe's
// recheck (lime 1 h, C; in a ferment vat 2 h, S6; iron 4 h, S7).
func TestATypedDoseWaitsByItsPowder(t *testing.T) {
	for _, w := range []struct {
		id, line string
		hours    float64
	}{
		{"madder-bran", "give lime 18 g", 2}, {"sugar-lime", "give lime 24 g", 1}, {"iron-lime", "give lime 20 g", 1},
		{"iron-lime", "give iron 30 g and lime 30 g", 4}, {"iron-lime", "give lime 30 g and iron 30 g", 4}, {"madder-bran", "give bran 60 g", 24},
		{"soda", "give soda 60 g", 0.25}, {"soda", "give reducer 30 g", 0.5},
	} {
		r, _ := recipes.Find(w.id)
		_, _, got, err := Take(day.State{Head: day.Head{Recipe: r}}, nine, w.line)
		if err != nil || len(got) != 1 || got[0].(day.Dose).Wait != quantity.Hours(w.hours) {
			t.Errorf("%s, %s: %+v, %v", w.id, w.line, got, err)
		}
	}
}

// While a line is typed it is said what it will be taken for, and what the day would say to it.
func TestReadings(t *testing.T) {
	swims := ready(t, wet, in)
	swims.now = swims.now.Add(3 * time.Minute)
	for line, want := range map[string]string{
		"A1 out 1 min ago": "taken as: A1 came out at 09:09",
		"A1 out":           "taken as: A1 came out at 09:10",
		"A1 in 1 min ago":  "taken as: A1 went in at 09:09",
		"back":             "taken as: taken back: A1 went in at 09:07",
		"36 C":             "taken as: the vat reads 36 °C",
		"lid on":           "taken as: covered",
		"g":                "asks for: how the vat stands and where it goes",
		"A1 in":            "A1 is in the vat since 09:07",
		"big B1 in":        "big B1 is dry: wet it out first",
		"A1 wet 5 min ago": `say what of A1: in, out, wet, done; not "wet 5 min ago"`,
		"A1 o":             `say what of A1: in, out, wet, done; not "o"`,
		"top":              `"top" is not understood; go on: top up 2 L [at 12 C]`,
		"Z9 out":           `no piece is tagged "Z9"`,
		"A1 stop":          "A1 is in the vat since 09:07: lift it first",
		"2 L":              "say what of it: top up 2 L, level 2 L",
		"note":             "the note is empty",
		"big B1 wet":       "taken as: big B1 is wet through",
	} {
		r := Read(swims.State, swims.now, line)
		if got := r.String(); got != want {
			t.Errorf("%q: %s; want %s", line, got, want)
		}
		if (r.Err == nil && !r.Row.Asks()) != (len(r.Commands) > 0) {
			t.Errorf("%q: %v and %v", line, r.Err, r.Commands)
		}
	}
}

// What stands before the act is told with it.
func TestALookIsReadAsItsAnswer(t *testing.T) {
	p := looking(t)
	for line, want := range map[string]string{
		"stop": "taken as: A1 looked at: enough after 1 dip", "one more": "taken as: A1 looked at after 1 dip: one more",
		"": "taken as: A1 looked at after 1 dip: as planned", "rung 3": "taken as: A1 looks like rung 3 (wet)",
	} {
		if got := Read(p.State, p.now, line).String(); got != want {
			t.Errorf("%q: %s; want %s", line, got, want)
		}
	}
}

func TestAReadingNamesTheCaution(t *testing.T) {
	p := ready(t)
	r := Read(p.State, p.now, "give reducer 20 g")
	if r.Err != nil || !strings.Contains(r.Caution, "sodium dithionite") || r.Words != "20 g of sodium dithionite went into the vat; rest of the vat, 30 min" || !strings.Contains(r.String(), ". First: ") {
		t.Errorf("%s\n%+v", r, r.Err)
	}
}

// Each row is what its example names, each ID is there once, and the first word that is shown is understood.
func TestTheTable(t *testing.T) {
	p := ready(t, wet, in, day.DipEnded{OfPiece: a1, Dip: 1, Air: quantity.Minutes(10), Assumption: day.Assumption{Assumed: true}})
	ids, words, verbs := map[string]bool{}, map[string]string{}, map[string]string{}
	for _, r := range Rows() {
		if ids[r.ID] || r.ID == "" || r.Does == "" {
			t.Errorf("%q is there twice, or says nothing", r.ID)
		}
		ids[r.ID] = true
		for _, w := range r.Words {
			if old := words[w]; old != "" {
				t.Errorf("%q is %s and %s", w, old, r.ID)
			}
			words[w] = r.ID
		}
		for _, w := range r.Verbs {
			if old := verbs[w]; old != "" {
				t.Errorf("TAG %q is %s and %s", w, old, r.ID)
			}
			verbs[w] = r.ID
		}
		of := p
		if r.ID == "scoop" {
			of = weighing(t)
		}
		got, _, _, err := Take(of.State, of.now, r.Example)
		if r.Example != "" && (got.ID != r.ID || err != nil && r.ID != "treat" && r.ID != "next") {
			t.Errorf("%s: its example %q is %q, %v", r.ID, r.Example, got.ID, err)
		}
		if r.Example == "" && len(r.Words) > 0 {
			t.Errorf("%s has no example", r.ID)
		}
	}
}

// No key has two meanings.
func TestAKeyHasOneMeaning(t *testing.T) {
	of := map[string]string{}
	for _, r := range Rows() {
		if old := of[r.Key]; old != "" && r.Key != "" {
			t.Errorf("%s is %s and %s", r.Key, old, r.ID)
		}
		of[r.Key] = r.ID
	}
}

// The list begins with what the act asks for, and has no row twice.
func TestTheListBeginsWithTheAct(t *testing.T) {
	due := ready(t, wet, in)
	due.now = due.now.Add(5 * time.Minute)
	for _, w := range []struct {
		of    *played
		first string
		never string
	}{
		{weighing(t), "scoop", "in"}, {filling(t), "temp", "top up"}, {due, "out", "scoop"}, {looking(t), "stop", "skip"}, {looking(t), "rung", "scoop"}, {ready(t), "wet", "went"},
	} {
		list := List(w.of.State, w.of.now)
		seen := map[string]bool{}
		for _, s := range list {
			for _, r := range s.Rows {
				if seen[r.ID] {
					t.Errorf("%s is listed twice", r.ID)
				}
				seen[r.ID] = true
			}
		}
		if list[0].Title != "Now" || !slices.ContainsFunc(list[0].Rows, func(r Row) bool { return r.ID == w.first }) {
			t.Errorf("%s is not in the first section, %s", w.first, list[0].Title)
		}
		if seen[w.never] {
			t.Errorf("%s is listed though it cannot be", w.never)
		}
	}
}

// After its last planned dip a piece has enough as planned: the hint has the two answers that differ, as the screens have.
func TestTheHintOfTheLastLook(t *testing.T) {
	p := day.Piece{Spec: day.PieceSpec{Dips: 2}}
	for dips, want := range map[int]string{1: "Type: stop, one more or as planned; rung 4", 2: "Type: stop or one more; rung 4"} {
		p.Dips = dips
		if got := Hint(day.State{}, day.Act{Kind: day.ActDecide, Piece: p}); !strings.HasPrefix(got, want) {
			t.Errorf("after dip %d of 2: %q", dips, got)
		}
	}
}

// What an act says can be typed is understood.
func TestHintsAreUnderstood(t *testing.T) {
	hot := quantity.Celsius(52)
	p := ready(t, day.Reading{Temp: &hot})
	finished := ready(t, day.PieceDropped{OfPiece: day.OfPiece{Tag: "big B1"}}, wet, in, out, day.Finished{OfPiece: a1, Dips: 1}, day.PlaceChanged{Place: day.ClosedRoom}, day.Rinsed{OfPiece: a1}, day.Rinsed{OfPiece: a1})
	finished.now = finished.now.Add(time.Hour)
	treated := ready(t, day.Treated{Cause: "cold", Do: "warm it", Wait: quantity.Minutes(1)})
	treated.now = treated.now.Add(time.Hour)
	for _, w := range []struct {
		of   *played
		says []string
	}{
		{p, []string{"r 40", "hot a strike"}}, {finished, []string{"goods outdoors", "place cross-draught", "leave A1"}}, {treated, []string{"better", "same", "worse"}},
		{looking(t), []string{"stop", "one more", "as planned", "rung 4"}},
	} {
		hint := Hint(w.of.State, day.Next(w.of.State, w.of.now))
		for _, line := range w.says {
			word, _, _ := strings.Cut(line, " ")
			if !strings.Contains(hint, word) {
				t.Errorf("%q is not in %q", word, hint)
			}
			if _, _, _, err := Take(w.of.State, w.of.now, line); err != nil {
				t.Errorf("%q: %v", line, err)
			}
		}
	}
	if _, ok := signs.Find("cloudy"); !ok {
		t.Error("the sign of the examples is unknown")
	}
}

// Of an hour that comes twice the last that is not after now is meant; one that no clock showed is no time.
func TestHoursOverAChangeOfTheClocks(t *testing.T) {
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Skip(err)
	}
	for _, w := range []struct{ now, text, want string }{
		{"2026-10-25T00:50:00Z", "02:45", "2026-10-25T02:45:00+02:00"},
		{"2026-10-25T01:50:00Z", "02:45", "2026-10-25T02:45:00+01:00"},
		{"2026-10-25T01:40:00Z", "02:45", "2026-10-25T02:45:00+02:00"},
		{"2026-10-25T10:00:00Z", "23:10", "2026-10-24T23:10:00+02:00"},
		{"2026-03-29T01:10:00Z", "02:50", ""},
		{"2026-03-29T01:10:00Z", "01:50", "2026-03-29T01:50:00+01:00"},
	} {
		now, _ := time.Parse(time.RFC3339, w.now)
		got, err := Hour(w.text, now.In(berlin))
		if err == nil && got.Format(time.RFC3339) != w.want || (err != nil) != (w.want == "") {
			t.Errorf("%s at %s is %s, %v", w.text, w.now, got, err)
		}
	}
}

// What is said of all pieces is written down of each that it can be said of; a word that wants a tag takes no "all".
func TestWhatIsSaidOfAll(t *testing.T) {
	p := ready(t, day.PieceAdded{OfPiece: day.OfPiece{Tag: "C1"}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 90, Dips: 2, Form: day.Pasted}},
		day.Readied{OfPiece: a1, What: day.ToScour})
	for line, want := range map[string][]string{"all scoured": {"big B1", "C1"}, "All soak": {"A1", "big B1"}, "all in": nil, "all": nil} {
		_, _, commands, err := Take(p.State, p.now, line)
		var got []string
		for _, c := range commands {
			got = append(got, c.(day.Record).Body.(day.Readied).Tag)
		}
		if !slices.Equal(got, want) || (err == nil) != (want != nil) {
			t.Errorf("%s is said of %v, %v", line, got, err)
		}
	}
}

// A piece that the vat harms is told of when it is listed, typed and after its key; one that the vat bears is not.
func TestAPieceThatTheVatHarms(t *testing.T) {
	p := ready(t)
	for line, want := range map[string]string{
		"piece W1 wool 200 g dark":  "W1 is listed, but stays out of this vat: wool bears pH 9.5",
		"piece S1 silk 40 g pale":   "S1: silk is at its best up to pH 10.0",
		"piece L1 linen 200 g dark": "",
	} {
		r := Read(p.State, p.now, line)
		if r.Err != nil || r.Caution != "" || !strings.Contains(r.Words, want) || want == "" && strings.Contains(r.Words, "pH") {
			t.Errorf("%s: %v", line, r)
		}
		bodies, err := day.Decide(p.State, r.Commands[0], p.now)
		if err != nil {
			t.Fatal(err)
		}
		if got := Notice(p.State, []day.Event{{Body: bodies[0]}}); !strings.HasPrefix(got, want) || want == "" && got != "" {
			t.Errorf("%s: noticed %q", line, got)
		}
	}
}

// Where the dips of a piece take longer than its person stays, the line says so before it is taken, and its notice after.
func TestAPieceOfWhoLeavesTooSoon(t *testing.T) {
	p := ready(t)
	r := Read(p.State, p.now, "piece L1 linen 200 g 9 dips for Mo till "+day.Clock(p.now.Add(20*time.Minute)))
	if r.Err != nil || !strings.Contains(r.Words, "; L1 has its last dip till") {
		t.Fatalf("typed it is %v", r)
	}
	bodies, err := day.Decide(p.State, r.Commands[0], p.now)
	if err != nil {
		t.Fatal(err)
	}
	if got := Notice(p.State, []day.Event{{At: p.now, Body: bodies[0]}}); !strings.HasPrefix(got, "L1 has its last dip till") {
		t.Errorf("noticed %q", got)
	}
}

// That the children are gone is said in more than one way.
func TestTheChildrenAreGone(t *testing.T) {
	p := ready(t, childrenCame)
	for _, line := range []string{"adults", "children gone", "no children", "Children are gone", "children off", "i"} {
		if r := Read(p.State, p.now, line); r.Err != nil || !reflect.DeepEqual(r.Commands, []day.Command{day.Record{Body: childrenWent}}) {
			t.Errorf("%s: %v, %#v", line, r, r.Commands)
		}
	}
}
