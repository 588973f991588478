package clock_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/clock"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// At each kind of call the large letters are its short form, in each window, with its sentence where the letters say less; what
// can be done meanwhile stands under the time.
func TestTheLargeLettersAreTheCall(t *testing.T) {
	st := style.New(style.Options{})
	wet, skim := day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "B1"}}}, day.Record{Body: day.FrothSkimmed{}}
	a1, b1 := piece("A1", "runner", 1), piece("B1", "scarf", 2)
	in := []any{b1, wet, skim, day.Lower{Tag: "B1"}}
	then := func(first []any, more ...any) []any { return append(slices.Clone(first), more...) }
	for _, c := range []struct {
		then     []any
		short    string
		shown    string
		meanwhil string
	}{
		{nil, "ADD A PIECE", "No piece is waiting.", ""},
		{[]any{b1}, "B1 WET?", "Is B1 wet through?", ""},
		{[]any{b1, wet}, "SKIM", "Skim the froth aside.", ""},
		{[]any{b1, wet, skim}, "LOWER B1", "In for 8:00. Scarf, dip 1 of 2.", ""},
		{then(in, time.Minute), "B1 IN", "dip 1 of 2", "Meanwhile: do you hear the calls?"},
		{then(in, time.Minute, a1), "B1 IN", "dip 1 of 2", "Meanwhile: is A1 wet through?"},
		{then(in, 7*time.Minute+time.Second, a1), "LIFT B1", "dip 1 of 2", "Meanwhile: is A1 wet through?"},
		{then(in, 9*time.Minute, a1), "LIFT B1", "In the vat since", ""},
		{then(in, 8*time.Minute, day.Done{}), "B1 AIRS", "till 12:18", "Meanwhile: do you hear the calls?"},
		{then(in, 8*time.Minute, day.Done{}, day.RestVat{For: quantity.Hours(1)}), "REST", "Lid on", "Meanwhile: do you hear the calls?"},
		{append([]any{a1}, through("A1", 1)...), "A1 AIRS", "after dip 1 of 1", "Meanwhile: do you hear the calls?"},
		{append(append([]any{a1}, through("A1", 1)...), 2*time.Hour), "A1 BLUE?", "Look at A1: no green left?", ""},
		{done(), "RINSE A1", "Rinse A1, 1 of 2.", ""},
		{append(done(), day.Bench{Tag: "A1"}), "A1 SOAKS", "Take A1 out of the rinse.", ""},
		{append(done(), day.Bench{Tag: "A1"}, time.Hour), "OUT A1", "Take A1 out of the rinse.", ""},
	} {
		s, now := vat(t, c.then...)
		call := day.CallOf(s, now)
		if call.Short != c.short {
			t.Errorf("the call is %q, not %q", call.Short, c.short)
		}
		for _, size := range screentest.Sizes {
			e := env(s, now, size[0], size[1], st)
			scr := clock.New(e)
			sheet := scr.View(e)
			text := strings.Join(strings.Fields(screentest.Shown(t, scr, e)), " ")
			if sheet.Act != call.Short || !strings.Contains(text, c.shown) {
				t.Errorf("%q, %v: the large letters are %q; %q stands in:\n%s", c.short, size, sheet.Act, c.shown, screentest.Shown(t, scr, e))
			}
			if has := strings.Contains(text, "Meanwhile:"); has != (c.meanwhil != "") || !strings.Contains(text, c.meanwhil) {
				t.Errorf("%q, %v: not %q, or more, in:\n%s", c.short, size, c.meanwhil, screentest.Shown(t, scr, e))
			}
		}
	}
}

// When the last minute of a dip begins the words change, and nothing moves: time, sentences and table keep their rows.
func TestTheLastMinuteMovesNothing(t *testing.T) {
	s, now := vat(t, piece("A1", "runner", 7), piece("B1", "scarf", 2), day.Done{}, day.Done{}, day.Done{}, 6*time.Minute)
	till := day.Dues(s)[0].At
	for _, st := range []style.Style{style.New(style.Options{}), style.New(style.Options{Profile: style.NoColour})} {
		for _, size := range screentest.Sizes {
			var was []string
			for _, left := range []time.Duration{61 * time.Second, time.Minute} {
				at := till.Add(-left)
				e := env(s, at, size[0], size[1], st)
				sheet := clock.New(e).View(e)
				if want := map[time.Duration]string{61 * time.Second: "A1 IN", time.Minute: "LIFT A1"}[left]; sheet.Act != want {
					t.Fatalf("%v before its end it says %q, at %v", left, sheet.Act, now)
				}
				sheet.Aside, sheet.Head, sheet.Figure.Number = "", widget.Head{Left: "x"}, "1:00"
				rows := strings.Split(widget.Render(sheet, size[0], size[1], st), "\n")
				if was == nil {
					was = rows
					continue
				}
				differ, first := 0, 0
				for i := range rows {
					if rows[i] != was[i] {
						if differ++; differ == 1 {
							first = i
						}
					}
				}
				if differ > size[1]/4 || first > size[1]/3 {
					t.Errorf("%v: %d rows from %d on move:\n%s\n%s", size, differ, first, strings.Join(was, "\n"), strings.Join(rows, "\n"))
				}
			}
		}
	}
}

// The figure of a row leaves that piece out of what comes out or goes in together, and takes it in again; the press names what is
// left out. It holds for that call only.
func TestAFigureLeavesAPieceOut(t *testing.T) {
	st := style.New(style.Options{})
	wetted := func(tag string) []any {
		return []any{piece(tag, "", 3), day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: tag}}}}
	}
	all := slices.Concat(wetted("A1"), wetted("B1"), wetted("C1"), []any{day.Record{Body: day.FrothSkimmed{}}})
	lowered := append(slices.Clone(all), day.Lower{Tag: "A1"}, day.Lower{Tag: "B1"}, day.Lower{Tag: "C1"})
	s, now := vat(t, append(lowered, 7*time.Minute+30*time.Second)...)
	goes, at := vat(t, slices.Concat(wetted("D1"), all, []any{day.Lower{Tag: "D1"}, 8 * time.Minute})...)
	goes = goes.Advised([]string{"A1"}, [][]string{{"A1", "B1", "C1"}}, at)
	for _, c := range []day.Command{day.Lift{Tag: "D1"}, day.Record{Body: day.FrothSkimmed{}}} {
		bodies, err := day.Decide(goes, c, at)
		if err != nil {
			t.Fatal(err)
		}
		if goes, err = day.Apply(goes, day.Event{Seq: len(goes.Log) + 1, At: at, Body: bodies[0]}); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		s     day.State
		now   time.Time
		whole string
	}{{s, now, "LIFT 3"}, {goes, at, "LOWER 3"}} {
		e := env(c.s, c.now, 80, 24, st)
		id := day.CallOf(c.s, c.now).ID
		if got := clock.New(e).View(e); got.Act != c.whole || !strings.Contains(strings.Join(got.How, " "), "a peg's number leaves it out") {
			t.Fatalf("it says %q, %q", got.Act, got.How)
		}
		first := 0 // the peg before that of A1
		if c.whole == "LOWER 3" {
			first = 1
		}
		for keys, want := range map[string]string{"2": "B1", "23": "B1\tC1", "22": "", "231": "B1\tC1", "29": "B1"} {
			keys = strings.Map(func(r rune) rune { return r + rune(first)*min(1, '9'-r) }, keys)
			scr, wants := screentest.Press(clock.New(e), e, strings.Split(keys, "")...)
			if len(wants) != 0 {
				t.Fatalf("%s wants %v", keys, wants)
			}
			act, out := scr.View(e).Act, []string(nil)
			for _, hung := range scr.View(e).Stage.Cloths {
				if hung.Says+" "+hung.Dips == "left out" {
					out = append(out, hung.Tag)
				}
			}
			if strings.Join(out, "\t") != want {
				t.Errorf("after %s the line says that %v are left out", keys, out)
			}
			_, wants = screentest.Press(scr, e, "space")
			if len(wants) != 1 || wants[0] != (screen.Request(screen.Do{Command: day.Done{Call: id, Without: want}})) {
				t.Errorf("%s and space want %v", keys, wants)
			}
			if (act == c.whole) != (want == "") {
				t.Errorf("after %s it says %q", keys, act)
			}
		}
	}
	e := env(s, now, 80, 24, st)
	scr, _ := screentest.Press(clock.New(e), e, "2")
	after, then := vat(t, append(lowered, 8*time.Minute, day.Done{Without: "B1"})...)
	e = env(after, then, 80, 24, st)
	if _, wants := screentest.Press(scr, e, "space"); len(wants) != 1 || wants[0] != (screen.Request(screen.Do{Command: day.Done{Call: "lift B1 1"}})) {
		t.Errorf("the next press wants %v", wants)
	}
	early, soon := vat(t, append(lowered, time.Minute)...)
	e = env(early, soon, 80, 24, st)
	scr, _ = screentest.Press(clock.New(e), e, "2")
	if got := scr.View(e).Act; got != "3 IN" {
		t.Errorf("long before its end a figure makes it %q", got)
	}
}
