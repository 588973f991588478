package bench_test

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/bench"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

var noon = time.Date(2026, 3, 28, 12, 0, 0, 0, time.UTC)

// at is a bench under test: every command that the screen asks for is carried out.
type at struct {
	t    *testing.T
	s    day.State
	now  time.Time
	scr  screen.Screen
	w, h int
	word string // the last refusal
}

// benched is a vat whose pieces, one a fibre, come out of their only dip.
func benched(t *testing.T, id string, change func(*day.Head), fibres ...string) *at {
	t.Helper()
	r, ok := recipes.Find(id)
	if !ok {
		t.Fatal(id)
	}
	h := rehearse.Head(r, noon)
	h.Opening = day.Opening{Number: 2, Built: true}
	if change != nil {
		change(&h)
	}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	v := &at{t: t, s: s, now: noon, w: 80, h: 24}
	v.happen(day.Opened{How: "tend"}, day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: "warm"}, day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true})
	for i, f := range fibres {
		of := day.OfPiece{Tag: fmt.Sprintf("A%d", i+1)}
		v.happen(day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{What: "runner", Fibre: f, Dry: quantity.Grams(420), Dips: 1}}, day.WettedOut{OfPiece: of},
			day.DipBegun{OfPiece: of, Dip: 1, For: quantity.Minutes(5)})
	}
	v.wait(5 * time.Minute)
	for i := range fibres {
		v.happen(day.DipEnded{OfPiece: day.OfPiece{Tag: fmt.Sprintf("A%d", i+1)}, Dip: 1, Air: quantity.Minutes(30)})
	}
	v.scr = bench.New(v.env())
	return v
}

func (v *at) wait(d time.Duration) { v.now = v.now.Add(d) }

func (v *at) env() screen.Env {
	return screen.Env{Now: v.now, Width: v.w, Height: v.h, Style: style.New(style.Options{}), ID: "bin/d",
		Days: engine.Snapshot{Days: []engine.View{engine.View{ID: "bin/d", State: v.s, Now: v.now}.At(v.now)}}}
}

func (v *at) happen(bodies ...day.Body) {
	v.t.Helper()
	for _, b := range bodies {
		var err error
		if v.s, err = day.Apply(v.s, day.Event{Seq: len(v.s.Log) + 1, At: v.now, Body: b}); err != nil {
			v.t.Fatal(err)
		}
	}
}

// press presses keys and carries out what is asked; it tells whether the screen was left.
func (v *at) press(keys ...string) (left bool) {
	v.t.Helper()
	for i := 0; i < len(keys); i++ {
		scr, wants := screentest.Press(v.scr, v.env(), keys[i])
		if len(wants) == 1 {
			if n := slices.Index(keys[i:], "enter"); n > 0 && reflect.TypeOf(wants[0]) == reflect.TypeFor[screen.Ask]() { // its line is typed to its end
				scr, wants = screentest.Press(v.scr, v.env(), keys[i:i+n+1]...)
				i += n
			}
		}
		v.scr = scr
		v.word = ""
		for _, w := range wants {
			switch w := w.(type) {
			case screen.Do:
				bodies, err := day.Decide(v.s, w.Command, v.now)
				if err != nil {
					v.word = err.Error()
					continue
				}
				v.happen(bodies...)
			case screen.Say:
				v.word = w.Word
			case screen.Leave:
				left = true
			}
		}
	}
	return left
}

// kind is the last event.
func (v *at) kind() string { return v.s.Log[len(v.s.Log)-1].Body.Kind() }

// whole draws the screen in every window: nothing is too wide, and what is done, the caution, what is typed and the foot are there in
// full.
func (v *at) whole() {
	v.t.Helper()
	for _, size := range screentest.Sizes {
		v.w, v.h = size[0], size[1]
		e := v.env()
		sheet := v.scr.View(e)
		text := screentest.Shown(v.t, v.scr, e)
		var words string
		switch {
		case sheet.Caution != nil: // it takes the room
			words = sheet.Caution.Text
		case len(sheet.Body) > 0:
			words = strings.Join(sheet.Body, " ")
		default:
			words = sheet.Figure.Note + " " + sheet.How[0]
		}
		for _, w := range strings.Fields(words) {
			if size[0] == 60 && sheet.Caution == nil && len(sheet.Body) == 0 { // only its first rows have room
				break
			}
			if !strings.Contains(text, w) {
				v.t.Errorf("%v: %q is lost:\n%s", size, w, text)
				break
			}
		}
		if strings.Contains(text, "(S") || !strings.Contains(text, sheet.Foot[0]) {
			v.t.Errorf("%v: a source is told, or the foot is cut:\n%s", size, text)
		}
	}
	v.w, v.h = 80, 24
}

func (v *at) says(words string) {
	v.t.Helper()
	if text := screentest.Shown(v.t, v.scr, v.env()); !strings.Contains(strings.Join(strings.Fields(text), " "), words) {
		v.t.Errorf("no %q in\n%s", words, text)
	}
}

func (v *at) calls(words string) {
	v.t.Helper()
	if act := v.scr.View(v.env()).Act; act != words {
		v.t.Errorf("the call is %q, not %q", act, words)
	}
}

// hangs tells that a piece hangs on the line, or lies in the bath, with these words under it.
func (v *at) hangs(words string) {
	v.t.Helper()
	var all []string
	for _, of := range v.scr.View(v.env()).Stage.Cloths {
		in := ""
		if of.In {
			in = "in, "
		}
		all = append(all, of.Tag+" "+in+of.Says+" "+of.Dips)
	}
	if !slices.Contains(all, words) {
		v.t.Errorf("no %q on the line: %q", words, all)
	}
}

// Trade practice, 32 to 37: the last airing, two rinses, the sour through its gate, soap, drying, rubbing, the look. The
// amounts are those of 420 g: 8.4 L (20 L a kilogram, C), 12.6 g of citric acid (1.5 g a litre, C), 8.4 g of soap (M).
func TestOnePieceFromItsAiringToItsLook(t *testing.T) {
	v := benched(t, "soda", nil, "linen")
	v.says("Air A1")
	v.press("space")
	if !strings.Contains(v.word, "A1 airs 30:00 more") {
		t.Errorf("it says %q", v.word)
	}
	v.whole()
	v.wait(31 * time.Minute)
	v.says("no green left?")
	v.whole()
	v.press("space")
	for i := range 2 {
		v.says(fmt.Sprintf("Rinse A1, %d of 2", i+1))
		v.says("plain water at 20 °C, 5 min")
		v.whole()
		v.press("space")
		v.says("Take A1 out of the rinse")
		v.hangs("A1 in, 5:00 rinse")
		v.whole()
		v.press("space")
		if !strings.Contains(v.word, "2:00 more at least") {
			t.Errorf("it says %q", v.word)
		}
		v.wait(4*time.Minute + 50*time.Second)
		v.whole()
		v.wait(20 * time.Second)
		v.says("over since")
		v.press("space")
	}
	v.says("CAUTION")
	v.whole()
	v.press("space", "space")
	if v.kind() != "caution answered" {
		t.Errorf("two presses at once give %q", v.kind())
	}
	v.wait(time.Second)
	v.says("citric acid, or 126 mL of 5 % vinegar, in 8.4 L at 20 °C, 15 min Sour A1")
	v.whole()
	v.press("space")
	if v.kind() != "bath begun" {
		t.Errorf("after its caution it gives %q", v.kind())
	}
	v.says("a choking smell: leave it, into fresh air")
	v.whole()
	v.wait(16 * time.Minute)
	v.press("space")
	v.whole()
	v.press("space")
	v.wait(2 * time.Second)
	v.press("space")
	v.wait(16 * time.Minute)
	v.press("space")
	v.says("Dry A1 in the shade")
	v.whole()
	v.press("space")
	v.says("Rub A1 on white cotton")
	v.whole()
	v.press("4")
	v.whole()
	v.press("backspace", "9", " ", "1", "enter")
	v.says(`"9" is no grade`)
	v.whole()
	v.press("backspace", "backspace", "backspace", "4", " ", "2", ".", "5", "enter")
	if b, ok := v.s.Log[len(v.s.Log)-1].Body.(day.CrockTested); !ok || b.Dry != 4 || b.Wet != 2.5 {
		t.Errorf("the test is %+v", v.s.Log[len(v.s.Log)-1].Body)
	}
	v.says("Judge A1 dry")
	v.whole()
	v.press("space", "d", "a", "r", "k", "enter")
	if b, ok := v.s.Log[len(v.s.Log)-1].Body.(day.LookedAt); !ok || b.Looks != "dark" || b.Wet || !b.Rinsed {
		t.Errorf("the look is %+v", v.s.Log[len(v.s.Log)-1].Body)
	}
	v.says("All is rinsed, dry and judged")
	v.whole()
	if !v.press("space") {
		t.Error("with nothing left the bench is not left")
	}
}

// No acid before its gate (S20), whatever is pressed; the reason stands where the act would be, and each way through has
// its key. A bath of the goods outdoors leaves the vat in its room.
func TestTheGateHasNoOverride(t *testing.T) {
	v := benched(t, "soda", func(h *day.Head) { h.Setup.Place = day.ClosedRoom }, "cotton")
	v.wait(time.Hour)
	v.press("space", "space")
	v.wait(6 * time.Minute)
	v.press("space", "space")
	v.wait(6 * time.Minute)
	v.press("space")
	v.says("Not yet: sour A1")
	v.says("go outdoors or into a cross-draught")
	v.whole()
	before := len(v.s.Log)
	v.press("space")
	v.wait(time.Minute)
	v.press("space")
	if len(v.s.Log) != before || !strings.Contains(v.word, "no acid yet") {
		t.Errorf("the gate gave way to %s: %q", v.kind(), v.word)
	}
	v.press(append(strings.Split("Ooutdoors", ""), "enter")...)
	v.calls("SOUR A1")
	if v.s.Place() != day.ClosedRoom || v.s.BenchPlace() != day.Outdoors {
		t.Errorf("the vat stands %s, the goods %s", v.s.Place(), v.s.BenchPlace())
	}
	v.press("i")
	v.says("children are at the vat")
	v.whole()
	v.press("i", "s")
	if v.kind() != "left out" {
		t.Errorf("souring cotton of a soda vat is as one likes, and s gives %s", v.kind())
	}
	v.press("PgUp")
}

// What may not be left out wants a reason, what may is left out at once; PgUp takes it back; a rinse more is one key.
func TestLeftOutAndTakenBack(t *testing.T) {
	v := benched(t, "madder-bran", func(h *day.Head) { ph := 8.8; h.Opening.PH = &ph }, "wool")
	v.wait(time.Hour)
	v.press("space")
	before := len(v.s.Log)
	if v.press("a", "o"); len(v.s.Log) != before { // on the clock a asks, and o is a note: here they must not open the gate for acid
		t.Errorf("a and o write %s", v.kind())
	}
	for range 2 {
		v.wait(2 * time.Minute)
		v.press("A")
	}
	if p, _ := v.s.Piece("A1"); p.Finishing.Rinses != 2 {
		t.Errorf("%d rinses", p.Finishing.Rinses)
	}
	before = len(v.s.Log)
	v.press("s", "enter")
	if len(v.s.Log) != before || !strings.Contains(v.word, "say why") {
		t.Errorf("wool goes on without its sour: %q", v.word)
	}
	v.press("s", "n", "o", "enter")
	if v.kind() != "left out" {
		t.Errorf("it gives %s", v.kind())
	}
	v.press("pgup")
	v.calls("SOUR A1")
}

// Of several pieces what presses most is in hand, a choice keeps another one, and all of them stand below.
func TestSeveralPieces(t *testing.T) {
	v := benched(t, "iron-lime", nil, "cotton", "linen", "hemp")
	v.wait(time.Hour)
	v.press("space", "space", "space")
	v.says("Rinse A1, 1 of 2")
	v.press("space")
	v.says("Rinse A2, 1 of 2")
	v.hangs("A1 in, 5:00 rinse")
	v.hangs("A3 rinse to do")
	v.press("down", "down", "down", "space")
	if p, _ := v.s.Piece("A3"); p.Finishing.Bath != "rinse" {
		t.Errorf("of the chosen one it says %+v, %q", p.Finishing, v.word)
	}
	v.says("Rinse A2, 1 of 2")
	v.press("+")
	if v.word != "no time runs for A2" {
		t.Errorf("it says %q", v.word)
	}
	v.wait(6 * time.Minute)
	v.says("Take A1 out of the rinse")
	v.press("down", "+")
	if v.kind() != "timer stretched" {
		t.Errorf("+ gives %s", v.kind())
	}
	v.whole()
	for range 60 { // to the end, as it comes
		v.wait(25 * time.Minute)
		switch v.press("space"); {
		case screen.Capturing(v.scr) && strings.Contains(v.scr.View(v.env()).Act, "RUB"):
			v.press("4", " ", "3", "enter")
		case screen.Capturing(v.scr):
			v.press("m", "i", "d", "enter")
		}
		v.whole()
	}
	v.says("All is rinsed, dry and judged")
	for _, p := range v.s.Pieces {
		if want := []string{"sour", "citric", "soap", "dry", "crock", "look"}; !reflect.DeepEqual(p.Finishing.Behind, want) {
			t.Errorf("%s went through %v", p.Tag, p.Finishing.Behind)
		}
	}
}

// A piece of yesterday, with its dips and its rinses behind it, goes on here.
func TestAPieceOfYesterday(t *testing.T) {
	v := benched(t, "soda", func(h *day.Head) {
		h.Opening.Pieces = []day.CarriedPiece{{OfPiece: day.OfPiece{Tag: "Y1"}, PieceSpec: day.PieceSpec{Fibre: "silk", Dry: 90, Dips: 2, Had: 2}, Finished: true,
			Rinses: 2, Behind: "sour"}}
	})
	v.says("Soap Y1")
	v.says("neutral soap, in 1.8 L at 35 °C, 15 min")
	v.whole()
	e := v.env()
	e.Tag = "Y1"
	v.scr = bench.New(e)
	v.says("Soap Y1")
	empty := benched(t, "soda", nil)
	empty.says("Nothing is on the bench yet")
	empty.whole()
	for _, k := range []string{"tab"} {
		if !empty.press(k) {
			t.Errorf("%s does not go back", k)
		}
	}
}

// The big key names the call that was seen where the bench asks for it, and the piece where another one was chosen.
func TestThePressNamesTheCall(t *testing.T) {
	v := benched(t, "iron-lime", nil, "cotton", "linen")
	v.wait(time.Hour)
	wants := func(want day.Command, keys ...string) {
		t.Helper()
		for i, key := range keys {
			next, asked := screentest.Press(v.scr, v.env(), key)
			if v.scr = next; i < len(keys)-1 {
				continue
			}
			if len(asked) != 1 || asked[0] != (screen.Request(screen.Do{Command: want})) {
				t.Errorf("%s wants %v, not %v", key, asked, want)
			}
		}
	}
	wants(day.Done{Call: "finish A1 1"}, "space")
	wants(day.Done{Call: "finish A1 1"}, "pgdown")
	v.press("space", "space")
	wants(day.Done{Call: "rinse A1 1.1"}, "enter")
	wants(day.Bench{Tag: "A2"}, "down", "down", "space")
}

// Each piece has its own blue: A1 after twelve dips is darker than A11 after two.
func TestPiecesWithLikeTags(t *testing.T) {
	v := benched(t, "soda", nil)
	for tag, had := range map[string]int{"A1": 11, "A11": 1} {
		of := day.OfPiece{Tag: tag}
		v.happen(day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: quantity.Grams(100), Dips: had + 1, Had: had}}, day.WettedOut{OfPiece: of},
			day.DipBegun{OfPiece: of, Dip: had + 1, For: quantity.Minutes(5)}, day.DipEnded{OfPiece: of, Dip: had + 1, Air: quantity.Minutes(30)})
	}
	e := v.env()
	blue := outlook.Blues(v.s, outlook.Of(v.s, v.now), v.now)
	e.Days.Days[0].Blue = &blue
	light := map[string]float64{}
	for _, c := range v.scr.View(e).Stage.Cloths {
		light[c.Tag], _, _ = c.Blue.Colour.Lab()
	}
	if len(light) != 2 || light["A1"] >= light["A11"] {
		t.Errorf("their lightness is %v", light)
	}
}
