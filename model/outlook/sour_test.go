package outlook_test

import (
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
)

// tomorrow is the next day of a vat.
func (v *vat) tomorrow() *vat {
	v.t.Helper()
	v.put(day.Closed{})
	h, err := outlook.Next(v.s, false)
	if err != nil {
		v.t.Fatal(err)
	}
	s, err := day.Begin(h)
	if err != nil {
		v.t.Fatal(err)
	}
	next := &vat{v.t, s, v.now}
	next.after(14 * 60).put(day.Opened{How: "next"})
	return next
}

// Acid that was read in a vat with a sulfur reducer is not forgotten: not over night, nor by soda that went in all the same. A new
// reading alone takes it back.
func TestAcidIsNotForgotten(t *testing.T) {
	for _, id := range []string{"soda", "lye", "thiourea", "mild-soda"} {
		sour, well := 6.0, 9.5
		asks := func(v *vat) (liquor.Advice, fibre.Verdict) {
			o := outlook.Of(v.s, v.now)
			a := outlook.Advise(v.s, o, v.now, nil)
			verdict, _ := v.s.Bears(fibre.Cotton)
			return a, verdict
		}
		v := open(t, id, nil)
		v.after(60).put(day.Reading{PH: &sour})
		for what, later := range map[string]func() *vat{
			"a day later":      func() *vat { return v.tomorrow() },
			"after soda":       func() *vat { v.put(day.PowderAdded{Powder: "soda", Mass: 30}); return v.after(60) },
			"13 h later, read": func() *vat { return v.after(13 * 60) },
		} {
			if a, gate := asks(later()); a.Cause != "acid-in-vat" || gate != fibre.Refused {
				t.Errorf("%s, %s: %s; goods %v", id, what, a.Sentence, gate)
			}
		}
		v = v.tomorrow()
		v.put(day.Reading{PH: &well})
		if a, gate := asks(v); a.Cause == "acid-in-vat" || gate == fibre.Refused {
			t.Errorf("%s, read again: %s; goods %v", id, a.Sentence, gate)
		}
	}
}

// Where nobody has read since, the gate knows the alkali that went in after the reading, and that of earlier days.
func TestTheGateCountsWhatWentInSinceTheReading(t *testing.T) {
	low, warm := 9.2, quantity.Celsius(40)
	v := open(t, "mild-soda", nil)
	v.after(60).put(day.Reading{PH: &low, Temp: &warm, With: "meter"})
	if verdict, words := v.s.Bears(fibre.Wool); verdict != fibre.Fine {
		t.Errorf("as read: %s", words)
	}
	v.put(day.PowderAdded{Powder: "soda", Mass: 240})
	if verdict, words := v.s.Bears(fibre.Wool); verdict == fibre.Fine || !strings.Contains(words, "reckoned") {
		t.Errorf("after 4 g/L of soda ash: %v %s", verdict, words)
	}
	v = v.tomorrow()
	v.put(day.Reading{Temp: &warm})
	if verdict, words := v.s.Bears(fibre.Wool); verdict == fibre.Fine || !strings.Contains(words, "reckoned") {
		t.Errorf("on the next day: %v %s", verdict, words)
	}
}
