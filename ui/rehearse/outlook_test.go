package rehearse_test

import (
	"math"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/testdata/long"
	"example.org/vatside/testdata/longday"
	"example.org/vatside/ui/rehearse"
)

// A whole invented day of every family: at each event the outlook is sound, the same when asked twice, and moves on a day
// that has no events as smoothly as its physics.
func TestTheOutlookOfEveryFamily(t *testing.T) {
	for _, r := range recipes.Builtin() {
		t.Run(r.ID, func(t *testing.T) {
			s, seen, corrected := rehearsed(t, r.ID, func(s day.State, now time.Time, o outlook.Outlook) {
				sound(t, o, s)
				if !long.Runs() && s.Seq%10 > 0 {
					return
				}
				if again := outlook.Of(s, now); again.Heat.Now != o.Heat.Now || again.PH.Now != o.PH.Now || again.Reducer.Left != o.Reducer.Left {
					t.Fatalf("asked twice it says %+v and %+v", o, again)
				}
			})
			if !s.Closed || seen < 30 {
				t.Errorf("the day came to %d events", seen)
			}
			if r.ID == "soda" && !corrected {
				t.Error("no reading of the rehearsed day corrects its forecast")
			}
		})
	}
}

// rehearsed plays the invented day; corrected tells whether a reading changed how fast the vat is taken to cool.
func rehearsed(t *testing.T, id string, see func(day.State, time.Time, outlook.Outlook)) (s day.State, seen int, corrected bool) {
	t.Helper()
	r, _ := recipes.Find(id)
	return rehearsedOf(t, rehearse.Head(r, morning), see)
}

// rehearsedOf is that of a day that is set up.
func rehearsedOf(t *testing.T, head day.Head, see func(day.State, time.Time, outlook.Outlook)) (s day.State, seen int, corrected bool) {
	t.Helper()
	now := morning
	s, err := day.Begin(head)
	if err != nil {
		t.Fatal(err)
	}
	happen := func(bodies ...day.Body) {
		for _, b := range bodies {
			s, _ = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b})
			seen++
			o := outlook.Of(s, now)
			see(s, now, o)
			if f := o.Heat.Fitted; f.Pairs > 0 && math.Abs(f.Factor-1) > 0.05 {
				corrected = true
			}
		}
	}
	happen(day.Opened{How: "build"})
	for range 3000 {
		if s.Closed {
			return s, seen, corrected
		}
		after, c, ok := rehearse.Dyer(s, now)
		now = now.Add(max(after, time.Second))
		if !ok {
			late := now.Add(day.GoOnAfter)
			if c, assumes := day.Assume(s, late, time.Time{}, nil); assumes {
				now = late
				if bodies, err := day.Decide(s, c, now); err == nil {
					happen(bodies...)
					continue
				}
			}
			if due, runs := longday.NextDue(s, now); runs && due.At.After(now) {
				now = due.At
			}
			continue
		}
		if bodies, err := day.Decide(s, c, now); err == nil {
			happen(bodies...)
		}
	}
	return s, seen, corrected
}

// sound holds an outlook to what cannot be otherwise.
func sound(t *testing.T, o outlook.Outlook, s day.State) {
	t.Helper()
	finite := func(what string, values ...float64) {
		for _, v := range values {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("#%d: %s is %v", len(s.Log), what, v)
			}
		}
	}
	h := o.Heat
	finite("°C", h.Now.Celsius(), h.Fitted.Factor)
	if h.Known != outlook.Unknown && (h.Now < 5 || h.Now > 90) {
		t.Errorf("#%d: the vat has %v", len(s.Log), h.Now)
	}
	for _, c := range h.Coming {
		if !c.Temp.Valid() {
			t.Fatalf("#%d: a forecast out of order: %+v", len(s.Log), c)
		}
	}
	if o.PH.Known != outlook.Unknown {
		finite("pH", float64(o.PH.Now.Likely))
		if !o.PH.Now.Valid() || o.PH.Now.Low < 7 || o.PH.Now.High > 13.5 {
			t.Errorf("#%d: pH %+v", len(s.Log), o.PH.Now)
		}
	}
	if !o.Reducer.Left.Valid() || !o.Reducer.Rest.Valid() || !o.Reducer.Work.Valid() || !o.Indigo.Left.Valid() {
		t.Errorf("#%d: reducer %+v, indigo %+v", len(s.Log), o.Reducer, o.Indigo.Left)
	}
	for _, m := range []quantity.Mass{o.Reducer.Left.Low, o.Indigo.Left.Low} {
		if m < 0 {
			t.Errorf("#%d: less than nothing is left", len(s.Log))
		}
	}
}
