package day

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/shade"
)

// What a look says of its error, and a place between two rungs, is read as it is written.
func TestLooksCarryTheirError(t *testing.T) {
	lab := colour.Lab{L: 31, A: -3, B: -20}
	for _, c := range []struct {
		typed, written string
		want           Look
	}{
		{"rung 4", "rung 4", Look{How: shade.ByRung, Rung: 4}},
		{"Rung 4.3 ±0.6", "rung 4.3 ±0.6", Look{How: shade.ByRung, Rung: 4, Place: 4.3, Error: 0.6}},
		{"photo 31 -3 -20 +-2.5", "photo 31.0 -3.0 -20.0 ±2.5", Look{How: shade.ByPhoto, Lab: lab, Error: 2.5}},
		{"photo 31 -3 -20", "photo 31.0 -3.0 -20.0", Look{How: shade.ByPhoto, Lab: lab}},
		{"lab 31 -3 -20 ±1", "lab 31.0 -3.0 -20.0 ±1", Look{How: shade.ByMeter, Lab: lab, Error: 1}},
		{"dark", "dark", Look{How: shade.ByEye, Name: "dark"}},
		{"ks 9", "ks 9", Look{How: shade.ByMeter, KS: 9}},
	} {
		got, err := ParseLook(c.typed)
		if err != nil || got != c.want || typed(got) != c.written {
			t.Errorf("%q: %+v (%q), %v", c.typed, got, typed(got), err)
		}
		if again, err := ParseLook(typed(got)); err != nil || again != got {
			t.Errorf("%q does not come back: %+v, %v", typed(got), again, err)
		}
	}
	for _, bad := range []string{"rung nan", "rung 0.5", "rung 31", "photo", "photo 31 -3", "rung 4 ±0", "rung 4 ±much", "dark ±2", "photo 31 -3 -20 ±51"} {
		if l, err := ParseLook(bad); err == nil {
			t.Errorf("%q is read as %+v", bad, l)
		}
	}
}

// typed is the look as ParseLook reads it.
func typed(l Look) string {
	tenths := func(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10+0, 'f', -1, 64) }
	sure := ""
	if l.Error > 0 {
		sure = " ±" + tenths(max(l.Error, 0.1))
	}
	switch {
	case l.Place > 0:
		return "rung " + tenths(l.Place) + sure
	case l.Rung > 0:
		return fmt.Sprintf("rung %d%s", l.Rung, sure)
	case l.Name != "":
		return l.Name
	case l.KS > 0:
		return "ks " + tenths(float64(l.KS))
	case l.How == shade.ByPhoto:
		return "photo" + strings.TrimPrefix(l.Lab.String(), "lab") + sure
	case l.Observer != colour.D65At2:
		return "lab@" + l.Observer.String() + strings.TrimPrefix(l.Lab.String(), "lab") + sure
	}
	return l.Lab.String() + sure
}
