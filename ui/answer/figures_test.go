package answer

import (
	"math"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// What is typed is read whole or not at all: half a figure taken for a whole one would be a wrong dose or a wrong time.
func TestTypedFiguresAreReadWhole(t *testing.T) {
	for text, want := range map[string]float64{"10.5": 10.5, "10,5": 10.5, " 9 ": 9, "0": 0, "14": 14} {
		if got, err := PH(text); err != nil || got != want {
			t.Errorf("pH %q is read as %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "10.5x", "15", "-1", "NaN", "1,0,5", "Inf"} {
		if got, err := PH(text); err == nil {
			t.Errorf("pH %q is read as %v", text, got)
		}
	}
	now := time.Date(2026, 3, 28, 12, 0, 0, 0, time.UTC)
	for text, want := range map[string]time.Time{
		"10:42": now.Add(-78 * time.Minute), "9.05": now.Add(-175 * time.Minute), "11h30": now.Add(-30 * time.Minute), "23:00": now.Add(-13 * time.Hour),
	} {
		if got, err := Hour(text, now); err != nil || !got.Equal(want) {
			t.Errorf("%q is read as %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "10", "10:42x", "25:00", "10:60", "10:42:30"} {
		if got, err := Hour(text, now); err == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}

// A pH carries the °C at which it was read, and whether it was a strip or a meter.
func TestAReadingOfPHIsReadWhole(t *testing.T) {
	for text, want := range map[string]struct {
		ph, at float64
		with   string
	}{
		"10.4": {10.4, 0, "paper strip"}, "10,4 25": {10.4, 25, "paper strip"}, "10.4 at 25 °C": {10.4, 25, "paper strip"},
		"10.42 meter": {10.42, 0, "meter"}, "10.42 20 Meter": {10.42, 20, "meter"}, "9 77F": {9, 25, "paper strip"},
	} {
		r, err := PHReading(text, quantity.Metric)
		if err != nil || *r.PH != want.ph || r.With != want.with || (r.PHTemp != nil) != (want.at != 0) || r.PHTemp != nil && math.Abs(r.PHTemp.Celsius()-want.at) > 1e-9 {
			t.Errorf("%q is read as %+v, %v", text, r, err)
		}
	}
	for _, text := range []string{"", "meter", "strong", "10.4 warm", "10.4 25 g", "10.4 25 30"} {
		if r, err := PHReading(text, quantity.Metric); err == nil {
			t.Errorf("%q is read as %+v", text, r)
		}
	}
}

// How full it is: bare figures are the way down from the rim, litres are what is in it; without measures litres alone.
func TestHowFullIsReadAsTheVesselAllows(t *testing.T) {
	view := func(form string) day.State {
		return day.State{Head: day.Head{Setup: day.Setup{Vessel: form, Material: "HDPE"}}}
	}
	read := func(form, text string) day.Reading {
		t.Helper()
		r, err := Level(view(form), text)
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		return r
	}
	bin := "frustum 36 cm 44 cm 62 cm"
	if r := read(bin, "40"); r.BelowRim == nil || math.Abs(r.BelowRim.Centimetres()-40) > 1e-9 {
		t.Errorf("40 is %+v", r)
	}
	if r := read(bin, "28 L"); r.Holds == nil || *r.Holds != 28 {
		t.Errorf("28 L is %+v", r)
	}
	if r := read("", "28"); r.Holds == nil || *r.Holds != 28 {
		t.Errorf("28 in a vessel without measures is %+v", r)
	}
	if _, err := Level(view(bin), "deep"); err == nil {
		t.Error("deep is read")
	}
}
