package follow_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/recipes"
	"example.org/vatside/testdata/long"
	"example.org/vatside/testdata/longday"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/follow"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

var morning = time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)

// played walks the invented day and hands every state in which the steps are open to see.
func played(t *testing.T, id string, see func(day.State, time.Time)) {
	t.Helper()
	r, ok := recipes.Find(id)
	if !ok {
		t.Fatal(id)
	}
	s, err := day.Begin(rehearse.Head(r, morning))
	if err != nil {
		t.Fatal(err)
	}
	now, seq, seen := morning, 1, 0
	s, _ = day.Apply(s, day.Event{Seq: seq, At: now, Body: day.Opened{How: "build"}})
	for range 2000 {
		if _, open := s.Open(); !open {
			return
		}
		if n := len(s.Log); n != seen {
			seen = n
			see(s, now)
		}
		after, c, ok := rehearse.Dyer(s, now)
		now = now.Add(max(after, time.Second))
		if !ok {
			if due, runs := longday.NextDue(s, now); runs {
				now = due.At
			}
			continue
		}
		bodies, err := day.Decide(s, c, now)
		if err != nil {
			continue
		}
		for _, b := range bodies {
			seq++
			s, _ = day.Apply(s, day.Event{Seq: seq, At: now, Body: b})
		}
	}
	t.Errorf("%s never came to the end of its steps", id)
}

func env(s day.State, now time.Time, w, h int, st style.Style) screen.Env {
	return screen.Env{
		Now: now, Width: w, Height: h, Style: st, ID: "garden-bin/d",
		Days: engine.Snapshot{Days: []engine.View{engine.View{ID: "garden-bin/d", State: s, Now: now}.At(now)}},
	}
}

// Every step of every family fits every window: call, figure, liquor and keys keep their rows, which only a caution takes from the
// figure, the caution is whole, and no sentence is cut within.
func TestEveryStepFits(t *testing.T) {
	st := style.New(style.Options{})
	for _, r := range recipes.Builtin() {
		t.Run(r.ID, func(t *testing.T) {
			stood := map[[2]int][3]int{}
			played(t, r.ID, func(s day.State, now time.Time) {
				e := env(s, now, 0, 0, st)
				o := outlook.Of(s, now)
				e.Days.Days[0].Outlook = &o
				for i, size := range screentest.Sizes {
					if i > 0 && (s.Seq+i)%long.Of(1, 3) > 0 { // the smallest window always
						continue
					}
					e.Width, e.Height = size[0], size[1]
					sheet := follow.New(e).View(e)
					out := screentest.ShownAs(t, sheet, e)
					sheet.Keys = []widget.Key{{Key: "?", Desc: "keys"}}
					call, figure, liquor, keys := widget.Lay(sheet, size[0], size[1], st).Rows()
					at, seen := stood[size]
					if stands := [3]int{call, liquor, keys}; seen && (stands[0] != at[0] || stands[2] != at[2] || stands[1] != at[1] && (sheet.Caution == nil || size[1] > 20)) {
						t.Errorf("step %d at %v: call, liquor and keys stand on the rows %v and not on %v:\n%s", s.Step, size, stands, at, out)
					} else if !seen && stands[1] >= 0 {
						stood[size] = stands
					}
					if figure >= 0 && figure != call+map[int]int{20: 5, 24: 5, 40: 8, 60: 12}[size[1]] {
						t.Errorf("step %d at %v: the figure stands on row %d:\n%s", s.Step, size, figure, out)
					}
					if strings.Contains(out, "…") {
						t.Errorf("step %d at %v: a sentence is cut:\n%s", s.Step, size, out)
					}
					if sheet.Caution == nil {
						continue
					}
					for _, word := range strings.Fields(sheet.Caution.Text) {
						if !strings.Contains(out, word) {
							t.Fatalf("step %d at %v: the caution lost %q:\n%s", s.Step, size, word, out)
						}
					}
				}
			})
		})
	}
}

// Figures typed with gloves are a scoop, and only Enter or space sends them.
func TestFiguresAreAScoop(t *testing.T) {
	st := style.New(style.Options{})
	tried := false
	played(t, "soda", func(s day.State, now time.Time) {
		open, _ := s.Open()
		if tried || open.Do != "weigh" || s.Answered.IsZero() {
			return
		}
		tried = true
		e := env(s, now, 80, 24, st)
		scr := follow.New(e)
		for _, r := range "54,5" {
			var wants []screen.Request
			if scr, wants = scr.Update(screen.Key{Rune: r}, e); len(wants) != 0 {
				t.Fatalf("%c already asked for %v", r, wants)
			}
		}
		_, wants := scr.Update(screen.Key{Name: "space", Rune: ' '}, e)
		if len(wants) != 1 {
			t.Fatalf("space asked for %v", wants)
		}
		do, ok := wants[0].(screen.Do)
		if !ok {
			t.Fatalf("space asked for %T", wants[0])
		}
		if c, ok := do.Command.(day.PutScoop); !ok || c.Mass.Grams() != 54.5 {
			t.Errorf("the scoop is %v, not 54.5 g", do.Command)
		}
	})
	if !tried {
		t.Error("no weighing came")
	}
}

// A wait of days is told in days: nobody reads 167:59:12 across a yard.
func TestALongWaitIsInDays(t *testing.T) {
	st := style.New(style.Options{})
	seen := false
	played(t, "madder-bran", func(s day.State, now time.Time) {
		open, _ := s.Open()
		if seen || open.Do != "wait" || open.For.Duration() < 72*time.Hour {
			return
		}
		seen = true
		for _, c := range []struct {
			after        time.Duration
			number, note string
		}{
			{time.Hour, fmt.Sprint(int(open.For.Duration()/(24*time.Hour)) - 1), "and 23 h, till "},
			{open.For.Duration() + 75*time.Hour, "3", "over since "},
		} {
			e := env(s, s.StepSince.Add(c.after), 80, 24, st)
			got := follow.New(e).View(e).Figure
			if got.Number != c.number || got.Unit != "days" || !strings.HasPrefix(got.Note, c.note) {
				t.Errorf("%s after its beginning it shows %q %q, %q", c.after, got.Number, got.Unit, got.Note)
			}
		}
	})
	if !seen {
		t.Error("no wait of days came")
	}
}

// The end of a wait that is not today has its date: a sugar vat's day ends tomorrow, and is over since yesterday.
func TestAWaitTillTomorrowHasItsDate(t *testing.T) {
	st := style.New(style.Options{})
	seen := false
	played(t, "sugar-lime", func(s day.State, now time.Time) {
		open, _ := s.Open()
		if seen || open.Do != "wait" || open.For.Duration() < 20*time.Hour || open.For.Duration() > 47*time.Hour {
			return
		}
		seen = true
		end := s.StepSince.Add(open.For.Duration())
		for at, want := range map[time.Time]string{now: "till " + day.DateOf(end, now), end.Add(-time.Minute): "till " + day.Clock(end), end.Add(25 * time.Hour): "over since " + day.DateOf(end, end.Add(25*time.Hour))} {
			e := env(s, at, 80, 24, st)
			if got := follow.New(e).View(e).Figure.Note; !strings.HasPrefix(got, want) {
				t.Errorf("at %v it says %q, not %q", at, got, want)
			}
		}
		if !strings.Contains(day.DateOf(end, now), "Mar") {
			t.Errorf("the wait ends today, at %v", end)
		}
	})
	if !seen {
		t.Error("no wait of a day came")
	}
}

// Pieces of yesterday are finished while today's vat is warmed: the bench is a key away, and told of where there is one.
func TestTheBenchBesideTheSteps(t *testing.T) {
	soda, _ := recipes.Find("soda")
	for _, brought := range []bool{true, false} {
		h := rehearse.Head(soda, morning)
		h.Opening = day.Opening{Number: 2, Built: true}
		if brought {
			h.Opening.Pieces = []day.CarriedPiece{{OfPiece: day.OfPiece{Tag: "Y1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 420, Had: 2, Dips: 2}, Finished: true}}
		}
		s, err := day.Begin(h)
		if err != nil {
			t.Fatal(err)
		}
		e := env(s, morning, 80, 24, style.New(style.Options{}))
		_, r := screentest.Press(follow.New(e), e, "tab")
		if len(r) != 1 || r[0] != (screen.Request(screen.Go{To: screen.AtBench, Day: e.ID})) {
			t.Errorf("tab wants %v", r)
		}
		told := false
		for _, b := range follow.New(e).Keys(e) {
			told = told || b.Key == "tab"
		}
		if told != brought {
			t.Errorf("with a piece of yesterday %v the key is told: %v", brought, told)
		}
	}
}

// The big key names the call that was seen.
func TestThePressNamesTheCall(t *testing.T) {
	played(t, "soda", func(s day.State, now time.Time) {
		e := env(s, now, 80, 24, style.New(style.Options{}))
		want := screen.Request(screen.Do{Command: day.Done{Call: day.CallOf(s, now).ID}})
		for _, key := range []string{"space", "enter", "pgdown"} {
			if _, wants := follow.New(e).Update(screen.Key{Name: key}, e); len(wants) != 1 || wants[0] != want {
				t.Errorf("%s wants %v, not %v", key, wants, want)
			}
		}
	})
}
