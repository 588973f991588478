package follow_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/follow"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

// after is the last day of a vat that settles on its way to the end, with these at its close.
func after(t *testing.T, bodies ...day.Body) day.State {
	t.Helper()
	r, _ := recipes.Find("soda")
	head := rehearse.Head(r, morning)
	head.Opening, head.Setup.Ending = day.Opening{Number: 4, Built: true, Step: 5, Since: &morning}, true
	s, err := day.Begin(head)
	if err != nil {
		t.Fatal(err)
	}
	for i, b := range append([]day.Body{day.Opened{How: "end"}}, bodies...) {
		if s, err = day.Apply(s, day.Event{Seq: i + 1, At: morning.Add(time.Duration(i) * time.Hour), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

// The last screen of an ended vat says so, in its foot too, and where the liquor went; there is the log and the way home, and
// nothing is read any more.
func TestTheLastScreenOfAVat(t *testing.T) {
	ph := 8.4
	s := after(t, day.VatEnded{Why: "used up", Liquor: 54, PH: &ph, Route: "the foul sewer"})
	for _, size := range screentest.Sizes {
		e := env(s, s.At, size[0], size[1], style.New(style.Options{}))
		now := follow.New(e)
		sheet := now.View(e)
		if sheet.Act != "VAT ENDED" || strings.Join(sheet.Foot, "|") != "ended" {
			t.Errorf("%q over %q", sheet.Act, sheet.Foot)
		}
		text := screentest.Shown(t, now, e)
		flat := strings.Join(strings.Fields(text), " ")
		for _, gone := range []string{"to come", "empty", "step ", "next day", " pH ", "°C"} {
			if strings.Contains(strings.ReplaceAll(flat, "54 L, pH 8.4", ""), gone) {
				t.Errorf("%v says %q:\n%s", size, gone, text)
			}
		}
		if !strings.Contains(flat, "Used up, 54 L, pH 8.4, to the foul sewer.") {
			t.Errorf("%v does not say where it went:\n%s", size, text)
		}
		var keys []string
		for _, k := range now.Keys(e) {
			keys = append(keys, k.Key+" "+k.Desc)
		}
		if strings.Join(keys, ", ") != "l log, esc home" {
			t.Errorf("the keys are %q", keys)
		}
		for _, k := range []string{"r", "h", "x", "5", "pgup"} {
			after, r := screentest.Press(now, e, k)
			if _, says := r[0].(screen.Say); len(r) != 1 || !says || screen.Capturing(after) {
				t.Errorf("%s asks for %v", k, r)
			}
		}
		for k, want := range map[string]screen.Request{"l": screen.Go{To: screen.AtLog, Day: e.ID}, "esc": screen.Leave{}, "space": screen.Leave{}} {
			if _, r := screentest.Press(now, e, k); len(r) != 1 || r[0] != want {
				t.Errorf("%s asks for %v", k, r)
			}
		}
	}
}

// A day that is closed amid its steps leads home, and counts no steps.
func TestAClosedDayAmidItsSteps(t *testing.T) {
	s := after(t, day.Closed{})
	e := env(s, s.At, 80, 24, style.New(style.Options{}))
	if _, r := screentest.Press(follow.New(e), e, "space"); len(r) != 1 || r[0] != (screen.Leave{}) {
		t.Errorf("space asks for %v", r)
	}
	if text := screentest.Shown(t, follow.New(e), e); strings.Contains(text, "step 0") || !strings.Contains(text, "enter: home") {
		t.Errorf("%s", text)
	}
}
