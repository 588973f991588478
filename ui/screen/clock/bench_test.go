package clock_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/clock"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

// done takes A1 through its only dip and its airing.
func done() []any {
	return append([]any{piece("A1", "runner", 1)}, append(through("A1", 1), time.Hour, day.Finish{Tag: "A1"})...)
}

// A bath is an act among the others: its digits while nothing is in the vat, its time under its cloth where
// something is, its caution before it, and what is in the way of it.
func TestABathOnTheClock(t *testing.T) {
	st := style.New(style.Options{})
	bench, rinsed := day.Bench{Tag: "A1"}, day.Record{Body: day.Rinsed{OfPiece: day.OfPiece{Tag: "A1"}}}
	const half = 30 * time.Minute
	for _, c := range []struct {
		name  string
		then  []any
		act   string
		shown []string
	}{
		{"to rinse", nil, "RINSE A1", []string{"Rinse A1, 1 of 2", "plain water at 20 °C, 5 min", "|rinse to do|"}},
		{"in the rinse", []any{bench, 110 * time.Second}, "A1 SOAKS", []string{"|3:10 rinse|"}},
		{"over", []any{bench, 6 * time.Minute}, "OUT A1", []string{"|out rinse|"}},
		{"to sour", []any{half, rinsed, half, rinsed}, "SOUR A1", []string{"CAUTION", "asthma", "space: on"}},
		{"too soon", []any{half, rinsed}, "RINSE A1", []string{"Rinse A1, 2 of 2"}},
		{"in a room", []any{half, rinsed, half, rinsed, day.Record{Body: day.PlaceChanged{Place: day.ClosedRoom}}}, "A1 WAITS", []string{"outdoors or", "tab: the bench"}},
		{"to rub", []any{half, rinsed, half, rinsed, day.LeaveOut{Tag: "A1"}, day.LeaveOut{Tag: "A1", Reason: "x"}, bench}, "RUB A1", []string{"Rub A1 on white cotton", "tab: the bench"}},
		{"beside a dip", []any{bench, piece("B1", "scarf", 2), day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "B1"}}}, day.Record{Body: day.FrothSkimmed{}},
			day.Lower{Tag: "B1"}, 110 * time.Second}, "B1 IN", []string{"|3:10 rinse|"}},
		{"after a dip", []any{piece("B1", "scarf", 2), day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "B1"}}}, day.Record{Body: day.FrothSkimmed{}},
			day.Lower{Tag: "B1"}, 6 * time.Minute, bench, 110 * time.Second}, "LIFT B1", []string{"|3:10 rinse|"}},
		{"in the rest", []any{day.RestVat{For: quantity.Hours(1)}, bench, time.Minute}, "A1 SOAKS", nil},
	} {
		s, now := vat(t, append(done(), c.then...)...)
		for _, size := range screentest.Sizes {
			e := env(s, now, size[0], size[1], st)
			scr := clock.New(e)
			sheet := scr.View(e)
			text := screentest.Shown(t, scr, e)
			if sheet.Act != c.act || !strings.Contains(text, sheet.Foot[0]) {
				t.Errorf("%s, %v: the act is %q, or the foot is cut:\n%s", c.name, size, sheet.Act, text)
			}
			flat := strings.Join(strings.Fields(text), " ")
			for _, hung := range sheet.Stage.Cloths {
				if hung.Tag == "A1" {
					flat += "|" + hung.Says + " " + hung.Dips + "|"
				}
			}
			for _, want := range c.shown {
				if !strings.Contains(flat, want) {
					t.Errorf("%s, %v: no %q:\n%s", c.name, size, want, text)
				}
			}
			if strings.Contains(text, "(S") {
				t.Errorf("%s: a source is told:\n%s", c.name, text)
			}
			named := map[string]bool{}
			for _, k := range scr.Keys(e) {
				if named[k.Key] {
					t.Errorf("%s: %s is named twice: %v", c.name, k.Key, scr.Keys(e))
				}
				named[k.Key] = true
			}
		}
	}
}

// The look after a treatment is one, too; its answer is a key away, and so is the bench.
func TestTheLookAfterATreatmentOnTheClock(t *testing.T) {
	st := style.New(style.Options{})
	s, now := vat(t, append(done(), day.Treat{Cause: "tired", Do: "stir", Wait: quantity.Minutes(20)}, 21*time.Minute)...)
	for _, size := range screentest.Sizes {
		e := env(s, now, size[0], size[1], st)
		scr := clock.New(e)
		if text := screentest.Shown(t, scr, e); scr.View(e).Act != "LOOK AGAIN" || size[0] > 60 && !strings.Contains(strings.Join(strings.Fields(text), " "), "better, the same or worse: u") || scr.View(e).Figure.Number != "+1:00" {
			t.Errorf("%v:\n%s", size, text)
		}
	}
	e := env(s, now, 80, 24, st)
	if keys := clock.New(e).Keys(e); keys[0].Key != "u" {
		t.Errorf("the first key is %s", keys[0].Key)
	}
	for _, k := range []string{"tab"} {
		if _, r := screentest.Press(clock.New(e), e, k); len(r) != 1 || r[0] != (screen.Request(screen.Go{To: screen.AtBench, Day: e.ID})) {
			t.Errorf("%s wants %v", k, r)
		}
	}
}
