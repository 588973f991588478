package sheet_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/sheet"
)

var morning = time.Date(2026, 5, 9, 9, 0, 0, 0, time.UTC)

func builtIn(t testing.TB, id string) recipe.Recipe {
	t.Helper()
	name := filepath.Join("..", "..", "recipes", id+".toml")
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	r, faults := recipe.Parse(name, text)
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	return r
}

// tended is a day at a living soda vat with these things done, ten minutes apart.
func tended(t *testing.T, name string, at time.Time, pieces []day.CarriedPiece, bodies ...day.Body) sheet.Day {
	t.Helper()
	h := day.Head{Vat: "bin", Day: name, Setup: day.Setup{Name: "Garden bin", Fill: 60}, Recipe: builtIn(t, "soda"),
		Opening: day.Opening{Number: 2, Built: true, Pieces: pieces}}
	var events []day.Event
	for i, b := range append([]day.Body{day.Opened{How: "tend"}}, bodies...) {
		events = append(events, day.Event{Seq: i + 1, At: at.Add(time.Duration(i) * 10 * time.Minute), Body: b})
	}
	s, errs := day.Replay(h, events)
	if len(errs) > 0 {
		t.Fatal(errs)
	}
	return sheet.Day{Name: name, State: s}
}

// part is the table under a heading; nil where it is not there.
func part(s sheet.Sheet, head string) *sheet.Table {
	for i, b := range s.Blocks {
		if h, ok := b.(sheet.Heading); ok && h.Text == head && i+1 < len(s.Blocks) {
			if t, ok := s.Blocks[i+1].(sheet.Table); ok {
				return &t
			}
		}
	}
	return nil
}

func rowOf(cells []sheet.Cell) []string {
	out := make([]string, len(cells))
	for i, c := range cells {
		if out[i] = c.Text; c.Swatch != nil {
			out[i] = c.Swatch.Name + " " + c.Swatch.Note
		}
	}
	return out
}

func piece(tag string, s day.PieceSpec) day.PieceAdded {
	return day.PieceAdded{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: s}
}

func dip(tag string, no int) []day.Body {
	of := day.OfPiece{Tag: tag}
	return []day.Body{day.DipBegun{OfPiece: of, Dip: no, For: quantity.Minutes(8)}, day.DipEnded{OfPiece: of, Dip: no, Air: quantity.Minutes(10)}}
}

// Every caution of every step of every recipe stands on its sheet, in the step that brings it, and so does each amount.
func TestEveryStepOfEveryRecipe(t *testing.T) {
	for _, id := range []string{"soda", "lye", "sugar-lime", "iron-lime", "thiourea", "madder-bran", "mild-soda"} {
		r := builtIn(t, id)
		setup := day.Setup{Fill: 40, Cold: 12, Hot: 60}
		plan, err := day.Plan(day.Head{Recipe: r, Setup: setup})
		if err != nil {
			t.Fatal(err)
		}
		s, err := sheet.OfRecipe(r, setup, nil, load.Plan{})
		if err != nil {
			t.Fatal(err)
		}
		var ticks []sheet.Tick
		var cautions []string
		for _, b := range s.Blocks {
			switch b := b.(type) {
			case sheet.Ticks:
				ticks = b.List
			case sheet.Cautions:
				cautions = b.List
			}
		}
		am, _ := recipe.Scale(r, 40, recipe.Options{})
		if !slices.Equal(cautions, am.Cautions) {
			t.Errorf("%s: the cautions are not those of the amounts", id)
		}
		if len(ticks) != len(plan) {
			t.Fatalf("%s: %d boxes for %d steps", id, len(ticks), len(plan))
		}
		for i, k := range ticks {
			if k.Caution != plan[i].Caution || k.Title != plan[i].Title || plan[i].Mass > 0 && !strings.Contains(k.Figure, plan[i].Mass.Scale(quantity.Metric)) {
				t.Errorf("%s, step %d: %+v", id, i+1, k)
			}
			if m := plan[i].AtMost; m != nil && !strings.Contains(k.Figure, "at most "+m.String()) {
				t.Errorf("%s, step %d: no limit in %q", id, i+1, k.Figure)
			}
			if plan[i].Waits() && !slices.Equal(k.Write, []string{"from", "to"}) || len(k.Write) == 0 {
				t.Errorf("%s, step %d: nothing to write the time on: %v", id, i+1, k.Write)
			}
		}
		if got := part(s, "To weigh"); got == nil || len(got.Rows) != len(r.Powders) {
			t.Errorf("%s: not every powder is weighed", id)
		}
	}
	if _, err := sheet.OfRecipe(builtIn(t, "soda"), day.Setup{}, nil, load.Plan{}); err == nil {
		t.Error("a vat of no litres has a sheet")
	}
}

func TestUnits(t *testing.T) {
	s, err := sheet.OfRecipe(builtIn(t, "soda"), day.Setup{Fill: 60, Units: "us"}, nil, load.Plan{})
	if err != nil {
		t.Fatal(err)
	}
	if row := rowOf(part(s, "To weigh").Rows[0]); !strings.Contains(row[0], "oz") || !strings.Contains(s.Subtitle, "gal") {
		t.Errorf("%v %q", row, s.Subtitle)
	}
}

// A dose has the last strip before it that day, and the first one after it; yesterday's strip is none of today's.
func TestStripsBesideADose(t *testing.T) {
	strip := func(s float64) day.Body { return day.StripTest{Stayed: quantity.Seconds(s)} }
	dose := day.PowderAdded{Powder: "reducer", Material: "sodium dithionite", Mass: 30, Why: "weak"}
	first := tended(t, "2026-05-10", morning, nil, strip(12), dose, strip(44), strip(50))
	second := tended(t, "2026-05-11", morning.Add(24*time.Hour), nil, dose)
	got := part(sheet.OfVat([]sheet.Day{first, second}, morning.Add(48*time.Hour), false), "Given")
	if got == nil || len(got.Rows) != 2 {
		t.Fatalf("%+v", got)
	}
	if row := rowOf(got.Rows[0]); !slices.Equal(row, []string{"9 May 09:20", "30.0 g sodium dithionite", "weak", "12 s", "44 s"}) {
		t.Errorf("%q", row)
	}
	if row := rowOf(got.Rows[1]); row[3] != "" || row[4] != "" {
		t.Errorf("%q", row)
	}
}

// The acid of a vat's end mends nothing: it has no strips beside it.
func TestNoStripsBesideTheAcidOfAnEnd(t *testing.T) {
	strip := func(s float64) day.Body { return day.StripTest{Stayed: quantity.Seconds(s)} }
	acid := day.PowderAdded{Powder: "citric acid", Material: "citric acid", Mass: 30, Why: "to a mild pH, before it goes"}
	d := tended(t, "2026-05-10", morning, nil, strip(0), acid, strip(5))
	got := part(sheet.OfVat([]sheet.Day{d}, morning.Add(48*time.Hour), false), "Given")
	if got == nil || len(got.Rows) != 1 {
		t.Fatalf("%+v", got)
	}
	if row := rowOf(got.Rows[0]); row[1] != "30.0 g citric acid" || row[3] != "" || row[4] != "" {
		t.Errorf("%q", row)
	}
}

// A piece that was carried over stands once in the vat's history, on its last day; a new one of the same tag stands beside
// it. A look counts before a wish, and a wish is no look of a piece that is not finished.
func TestPiecesOfAVat(t *testing.T) {
	of := day.OfPiece{Tag: "A1"}
	spec := day.PieceSpec{What: "runner", Fibre: "linen", Dry: 420, Depth: "dark"}
	first := tended(t, "2026-05-10", morning, nil, slices.Concat(
		[]day.Body{piece("A1", spec)}, dip("A1", 1), []day.Body{day.CarriedOver{OfPiece: of, Dips: 1}, day.Closed{}})...)
	had := spec
	had.Had = 1
	second := tended(t, "2026-05-11", morning.Add(24*time.Hour), []day.CarriedPiece{{OfPiece: of, PieceSpec: had}}, slices.Concat(
		dip("A1", 2), []day.Body{day.Finished{OfPiece: of, Dips: 2}, day.LookedAt{OfPiece: of, Looks: "sky", Rinsed: true}, day.Closed{}})...)
	third := tended(t, "2026-05-12", morning.Add(48*time.Hour), nil, slices.Concat([]day.Body{piece("A1", spec)}, dip("A1", 1))...)

	early := part(sheet.OfDay(first, morning), "Pieces")
	if row := rowOf(early.Rows[0]); strings.Contains(row[5], "wished") || row[7] != "carried over" {
		t.Errorf("a piece after one dip of seven looks %q", row)
	}
	got := part(sheet.OfVat([]sheet.Day{first, second, third}, morning.Add(72*time.Hour), false), "Pieces and their blues")
	if got == nil || len(got.Rows) != 2 {
		t.Fatalf("%+v", got)
	}
	if row := rowOf(got.Rows[0]); row[0] != "2026-05-11" || row[5] != "2 × 10 min" || row[6] != "sky as seen" {
		t.Errorf("%q", row)
	}
	if row := rowOf(got.Rows[1]); row[0] != "2026-05-12" {
		t.Errorf("%q", row)
	}
	if s := sheet.OfVat(nil, morning, false); len(s.Blocks) != 0 || s.Title == "" {
		t.Errorf("%+v", s)
	}
}

// An open day says what the hands do now, and when each dip to come is due.
func TestAnOpenDay(t *testing.T) {
	d := tended(t, "2026-05-10", morning, nil, slices.Concat([]day.Body{
		day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: "warm", Reason: "warm already"}, day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true},
		piece("A1", day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3}), day.WettedOut{OfPiece: day.OfPiece{Tag: "A1"}}}, dip("A1", 1))...)
	s := sheet.OfDay(d, d.State.At.Add(time.Minute))
	var now, coming bool
	for i, b := range s.Blocks {
		switch h, _ := b.(sheet.Heading); h.Text {
		case "Now":
			k := s.Blocks[i+1].(sheet.Ticks).List
			now = strings.Contains(k[0].Title, "A1 airing after dip 1 of 3")
		case "Dips to come":
			rows := s.Blocks[i+1].(sheet.Timetable).Rows
			coming = len(rows) == 2 && rows[0].Words == "A1, dip 2" && rows[0].Box
		}
	}
	if !now || !coming {
		t.Errorf("now %v, to come %v: %+v", now, coming, s.Blocks)
	}
	if row := rowOf(part(s, "Steps").Rows[0]); row[3] != "09:10" || row[4] != "left out: warm already" {
		t.Errorf("%q", row)
	}
}

// A day that goes past midnight has the date beside each time of the next day, and beside none of its own.
func TestADayPastMidnight(t *testing.T) {
	late := time.Date(2026, 5, 10, 23, 45, 0, 0, time.UTC)
	d := tended(t, "2026-05-10", late, nil, day.Note{Text: "late"}, day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: "warm", Reason: "warm already"},
		day.Note{Text: "later"}, day.StripTest{Stayed: quantity.Seconds(40)}, day.Closed{})
	s := sheet.OfDay(d, d.State.At)
	if row := rowOf(part(s, "Steps").Rows[0]); row[3] != "Mon 11 May 00:05" {
		t.Errorf("a step of the next day: %q", row)
	}
	notes := part(s, "Notes")
	if notes == nil || rowOf(notes.Rows[0])[0] != "23:55" || rowOf(notes.Rows[1])[0] != "Mon 11 May 00:15" {
		t.Errorf("the notes: %+v", notes)
	}
	if text := fmt.Sprintf("%+v", s); !strings.Contains(text, "23:45 to Mon 11 May 00:35") || !strings.Contains(text, "40 s at Mon 11 May 00:25") {
		t.Errorf("its head or its strip: %s", text)
	}
}

// The safety sheet tells of the recipe's substances and of what comes after the vat; a card number only where one is known.
func TestSafety(t *testing.T) {
	names := func(id string) string {
		var out []string
		for _, r := range part(sheet.Safety(ptr(builtIn(t, id)), "112", quantity.Metric), "The substances").Rows {
			out = append(out, r[0].Text)
		}
		return strings.Join(out, "\n")
	}
	if s := names("soda"); !strings.Contains(s, "sodium dithionite, Danger, ICSC 1717") || !strings.Contains(s, "sulfur dioxide") || strings.Contains(s, "hydroxide") {
		t.Errorf("soda: %s", s)
	}
	if s := names("iron-lime"); strings.Contains(s, "sulfur dioxide") || !strings.Contains(s, "iron(II) sulfate heptahydrate, Warning, H302") {
		t.Errorf("iron-lime: %s", s)
	}
	all := sheet.Safety(nil, "", quantity.Metric)
	if got := part(all, "The substances"); len(got.Rows) != len(practice.Chemicals()) {
		t.Errorf("%d substances", len(got.Rows))
	}
	if got := part(all, "What scalds"); rowOf(got.Rows[0])[0] != "49 °C" || len(got.Rows) != 6 { // S27
		t.Errorf("%+v", got)
	}
	if f := all.Blocks[0].(sheet.Facts).List[0]; f.Name != "emergency" || f.Value != "" {
		t.Errorf("%+v", f)
	}
}

func ptr[T any](v T) *T { return &v }

func TestTagsOfADay(t *testing.T) {
	d := tended(t, "2026-05-10", morning, nil, slices.Concat([]day.Body{
		piece("A1", day.PieceSpec{What: "runner", Fibre: "linen", Dry: 420, Dips: 3, Who: "Mo"}),
		piece("B1", day.PieceSpec{Fibre: "cotton", Dry: 90, Dips: 1}), day.PieceDropped{OfPiece: day.OfPiece{Tag: "B1"}}}, dip("A1", 1))...)
	got := sheet.TagsOfDay(d.State).List
	if want := []sheet.Tag{{Tag: "A1", Who: "Mo", Words: "420 g linen runner, 3 dips", Boxes: 3, Done: 1}}; !slices.Equal(got, want) {
		t.Errorf("%+v", got)
	}
}

// The vat's sum and the work on its pieces stand apart and together; what has no price is no price of nought.
func TestCostOnPaper(t *testing.T) {
	v := cost.Vat{Total: 1250, Powders: []cost.Powder{{Material: "indigo", Mass: 90, Priced: 90, Cost: 1250}, {Material: "soda ash", Mass: 360}},
		Heat: quantity.Joules(2 * 3.6e6), Pieces: []cost.Piece{{Day: "2026-03-28", Tag: "A1", Dry: 420, Dips: 4, Powders: 500, Work: 300, Total: 800, Per100g: 190}}}
	var cells []string
	for _, b := range sheet.OfCost("bin", v, quantity.Metric).Blocks {
		if table, ok := b.(sheet.Table); ok {
			for _, row := range table.Rows {
				for _, c := range row {
					cells = append(cells, c.Text)
				}
			}
		}
	}
	got := strings.Join(cells, " | ")
	for _, want := range []string{"soda ash | 360 g | ?", "heat | 2.0 kWh | ?", "the vat |  | 12.50", "work on its pieces |  | 3.00", "in all |  | 15.50", "A1 | 420 g | 5.00 | 3.00 | 8.00 | 1.90"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is missing in %s", want, got)
		}
	}
}
