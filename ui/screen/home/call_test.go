package home

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
)

// Of an open day home says what the call is: what is so while a dip runs, what to do in its last minute.
func TestHomeSaysTheCall(t *testing.T) {
	soda, _ := recipes.Find("soda")
	head := rehearse.Head(soda, noon)
	head.Opening = day.Opening{Number: 2, Built: true}
	s, err := day.Begin(head)
	if err != nil {
		t.Fatal(err)
	}
	of := day.OfPiece{Tag: "A1"}
	for _, b := range []day.Body{day.Opened{How: "tend"}, day.StepDone{OfStep: day.OfStep{Step: 1}, Do: "warm"}, day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true},
		day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 420, Dips: 2}}, day.WettedOut{OfPiece: of}, day.DipBegun{OfPiece: of, Dip: 1, For: quantity.Minutes(8)}} {
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: noon, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	for after, want := range map[time.Duration]string{
		time.Minute:                    "A1 in the vat, dip 1 of 2, 7:00 left",
		7*time.Minute + 20*time.Second: "lift A1 out, dip 1 of 2, 0:40 left",
		8*time.Minute + 20*time.Second: "lift A1 out, dip 1 of 2, 0:20 over",
	} {
		large := map[time.Duration]string{time.Minute: "A1 IN 7:00", 7*time.Minute + 20*time.Second: "LIFT A1 0:40", 8*time.Minute + 20*time.Second: "LIFT A1 +0:20"}[after]
		now := noon.Add(after)
		for _, size := range screentest.Sizes {
			e := env(size[0], size[1], screen.Vat{Vat: "bin", Name: "garden bin", Day: "2026-11-25", Open: true, Line: "older"})
			e.Days = engine.Snapshot{Days: []engine.View{engine.View{ID: "bin/2026-11-25", State: s, Now: now}.At(now)}}
			text := screentest.Shown(t, New(e), e)
			if s := New(e).View(e); !strings.HasPrefix(s.Act, large) || !s.ActBig || !strings.Contains(text, "garden bin · "+want) {
				t.Errorf("%v: large stands %q:\n%s", size, s.Act, text)
			}
			if words := day.CallOf(s, now).Words[1:]; !strings.Contains(text, want) || !strings.Contains(text, words) {
				t.Errorf("%v: %q or %q is missing:\n%s", size, want, words, text)
			}
		}
	}
}

// Where no day is open the vat that wants the hands first has the large letters with what to do; where nothing is due, that is said.
func TestHomeSaysWhatIsDue(t *testing.T) {
	for do, want := range map[string]string{"Look at it, and pull a strip": "LOOK", "Warm and stir it": "WARM AND STIR", "Do the evening round": "EVENING ROUND", "": "NOTHING DUE"} {
		late, rests := screen.Vat{Vat: "b", Name: "lime crock", Day: "2026-11-01"}, screen.Vat{Vat: "a", Name: "a pot", Day: "2026-11-01"}
		if do != "" {
			late.Care = []history.Due{{ID: "look", Do: do, At: noon.Add(-72 * time.Hour), Past: quantity.Days(3)}}
		}
		e := env(120, 40, rests, late)
		if s := New(e).View(e); s.Act != want || do != "" && s.How[0] != "lime crock · overdue by 3 days: "+wording.Lower(do) {
			t.Errorf("%q: large stands %q, under it %q", do, s.Act, s.How)
		}
	}
	standing := screen.Vat{Vat: "b", Name: "lime crock", Day: "2026-11-01", Due: []day.Standing{{Words: "look: is it ready?", At: noon.Add(-time.Hour)}}}
	e := env(120, 40, standing, screen.Vat{Vat: "c", Day: "2026-11-01", Open: true, Short: "WEIGH SODA ASH", Line: "step 2"})
	if s := New(e).View(e); s.Act != "WEIGH SODA ASH" {
		t.Errorf("large stands %q", s.Act)
	}
	if e = env(120, 40, standing); New(e).View(e).Act != "LOOK" {
		t.Errorf("large stands %q", New(e).View(e).Act)
	}
}
