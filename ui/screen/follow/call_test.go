package follow_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/screen/follow"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

// Of every step of every family the call stands in large letters, in a second size where it is of two words, with its sentence under
// it; the figure is what is still to do.
func TestTheStepIsTheCall(t *testing.T) {
	st := style.New(style.Options{})
	large, limits, more := 0, 0, 0
	for _, r := range recipes.Builtin() {
		played(t, r.ID, func(s day.State, now time.Time) {
			call := day.CallOf(s, now)
			for _, size := range screentest.Sizes[1:2] {
				e := env(s, now, size[0], size[1], st)
				sheet := follow.New(e).View(e)
				big := call.Large()
				if said := strings.Join(sheet.How, " ") + sheet.Why; sheet.Act != big || call.Sentence() != "" && !strings.Contains(said, call.Words) {
					t.Errorf("%s, step %d: %q in large letters, and %q", r.ID, s.Step, sheet.Act, sheet.How)
				}
				if large++; strings.HasSuffix(big, "~") {
					t.Errorf("%s, step %d: the call is cut to %q", r.ID, s.Step, big)
				}
				if f := day.FigureOf(s, call); call.Due == nil && (sheet.Figure.Number != f.Number || sheet.Figure.Unit != f.Unit) {
					t.Errorf("%s, step %d: the figure is %q %q, not %+v", r.ID, s.Step, sheet.Figure.Number, sheet.Figure.Unit, f)
				}
				if call.Verb == "read" && call.Act.Entry == day.TempEntry {
					if limits++; !strings.HasPrefix(sheet.Figure.Number, "UNDER ") && !strings.HasPrefix(sheet.Figure.Number, "OVER ") {
						t.Errorf("%s, step %d: the limit reads %q %q", r.ID, s.Step, sheet.Figure.Number, sheet.Figure.Unit)
					}
				}
				if strings.HasSuffix(sheet.Figure.Unit, " MORE") {
					more++
				}
			}
		})
	}
	if large == 0 || limits == 0 || more == 0 {
		t.Errorf("%d large letters, %d limits, %d weighings half done", large, limits, more)
	}
}

// While a vat reduces, what can be done for the goods stands under the time, in one row with its end.
func TestMeanwhileInAWait(t *testing.T) {
	st := style.New(style.Options{})
	seen := false
	played(t, "soda", func(s day.State, now time.Time) {
		if open, _ := s.Open(); seen || open.Do != "wait" {
			return
		}
		seen = true
		s = apply(t, s, now, day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 420, Dips: 2, Dip: quantity.Minutes(8)}})
		for _, size := range screentest.Sizes {
			e := env(s, now, size[0], size[1], st)
			text := strings.Join(strings.Fields(screentest.Shown(t, follow.New(e), e)), " ")
			if want := "till " + day.Clock(day.Dues(s)[0].At) + " · meanwhile: is A1 wet through?"; !strings.Contains(text, want) {
				t.Errorf("%v: no %q:\n%s", size, want, screentest.Shown(t, follow.New(e), e))
			}
		}
	})
	if !seen {
		t.Error("no wait came")
	}
}

// A step that children keep from being done says so whole in every window, and no key offers it.
func TestChildrenKeepAStepShut(t *testing.T) {
	st, shut := style.New(style.Options{}), 0
	played(t, "soda", func(s day.State, now time.Time) {
		s.Children = true
		call := day.CallOf(s, now)
		if !call.Act.Shut {
			return
		}
		shut++
		_, err := day.Decide(s, day.Done{}, now)
		for _, size := range screentest.Sizes {
			e := env(s, now, size[0], size[1], st)
			scr := follow.New(e)
			text := strings.Join(strings.Fields(screentest.Shown(t, scr, e)), " ")
			words := strings.Join(strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ▐▌▝▜▛▘·░▒▓█▀▄", r) }), " ")
			if err == nil || !strings.Contains(words, strings.Join(strings.Fields(err.Error()), " ")[1:]) {
				t.Errorf("%q, %v: not %v, but\n%s", call.Short, size, err, text)
			}
			if keys := scr.Keys(e); keys[0].Key != "i" || keys[0].Desc != "the children are gone" {
				t.Errorf("%q: the keys are %v", call.Short, keys)
			}
		}
	})
	if shut < 5 {
		t.Errorf("only %d steps are shut", shut)
	}
}
