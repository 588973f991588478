package command

import (
	"fmt"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the zones of the tests

	"example.org/vatside/model/water"
)

func zone(t *testing.T, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

// Begin is the next such time of day, less the heating; across midnight and where the clocks are put forward or back.
func TestReadyBy(t *testing.T) {
	berlin, lordHowe := zone(t, "Europe/Berlin"), zone(t, "Australia/Lord_Howe")
	in := func(z *time.Location, y int, mo time.Month, d, h, m, s int) time.Time {
		return time.Date(y, mo, d, h, m, s, 0, z)
	}
	for _, c := range []struct {
		name  string
		now   time.Time
		by    string
		ready string // without the heating
	}{
		{"the same morning", in(berlin, 2026, 11, 26, 7, 0, 0), "10:00", "2026-11-26T10:00:00+01:00"},
		{"one figure for the hour", in(berlin, 2026, 11, 26, 7, 0, 0), "9:30", "2026-11-26T09:30:00+01:00"},
		{"across midnight", in(berlin, 2026, 11, 26, 22, 0, 0), "0:10", "2026-11-27T00:10:00+01:00"},
		{"across the year", in(berlin, 2026, 12, 31, 23, 0, 0), "10:00", "2027-01-01T10:00:00+01:00"},
		{"a second after", in(berlin, 2026, 11, 26, 10, 0, 1), "10:00", "2026-11-27T10:00:00+01:00"},
		{"at the moment itself", in(berlin, 2026, 11, 26, 10, 0, 0), "10:00", "2026-11-27T10:00:00+01:00"},
		{"a second before", in(berlin, 2026, 11, 26, 9, 59, 59), "10:00", "2026-11-26T10:00:00+01:00"},
		{"the night before the clocks go forward", in(berlin, 2026, 3, 28, 20, 0, 0), "10:00", "2026-03-29T10:00:00+02:00"},
		{"a time that the clocks skip", in(berlin, 2026, 3, 29, 1, 0, 0), "2:30", "2026-03-30T02:30:00+02:00"},
		{"the night before the clocks go back", in(berlin, 2026, 10, 24, 20, 0, 0), "10:00", "2026-10-25T10:00:00+01:00"},
		{"a time that is there twice, the first", in(berlin, 2026, 10, 25, 1, 0, 0), "2:30", "2026-10-25T02:30:00+02:00"},
		{"and the second", in(berlin, 2026, 10, 25, 1, 0, 0).Add(100 * time.Minute), "2:30", "2026-10-25T02:30:00+01:00"},
		{"clocks that go by half an hour", in(lordHowe, 2026, 4, 5, 1, 0, 0).Add(50 * time.Minute), "1:45", "2026-04-05T01:45:00+10:30"},
		{"a clock with parts of a second", in(berlin, 2026, 11, 26, 9, 59, 59).Add(999 * time.Millisecond), "10:00", "2026-11-26T10:00:00+01:00"},
	} {
		ready, err := time.Parse(time.RFC3339, c.ready)
		if err != nil {
			t.Fatal(err)
		}
		for _, extra := range []string{"", " --stove 1800W", " --stove 1801W --by gas", " --pot 8L --stove 1800W --by induction", " --have 3L --at 15C --stove 700W"} {
			out, errs, code := runAt(t, c.now, words(mixing+" --aim 40C --ready-by "+c.by+extra)...)
			if code != 0 || errs != "" || !strings.Contains(out, "begin, on ") {
				t.Fatalf("%s: %d %s", c.name, code, errs)
			}
			m := answerAt(t, c.now, mixing+" --aim 40C --ready-by "+c.by+extra)
			begin, err := time.Parse(time.RFC3339, m["begin_at"].(string))
			if err != nil {
				t.Fatal(err)
			}
			heat := time.Duration(0)
			if min, ok := m["heat_min"].(float64); ok {
				heat = time.Duration(min * float64(time.Minute))
			}
			if early := ready.Add(-heat).Sub(begin); early < 0 || early > time.Second || !begin.Equal(begin.Truncate(time.Second)) {
				t.Errorf("%s%s: begins %v, wanted %v less %v", c.name, extra, begin, ready, heat)
			}
			if _, offset := begin.Zone(); offset != func() int { _, o := begin.In(c.now.Location()).Zone(); return o }() {
				t.Errorf("%s: %v is not in the local zone", c.name, m["begin_at"])
			}
			if late := begin.Before(c.now); late != (len(m["warnings"].([]any)) > 0) {
				t.Errorf("%s%s: begun %v, and the warnings are %v", c.name, extra, begin, m["warnings"])
			}
		}
	}
	// Without a clock of its own the machine's is taken.
	out, _, code := run(t, t.TempDir(), words(mixing+" --aim 40C --stove 1800W --ready-by 10:00")...)
	if code != 0 || !strings.Contains(out, "begin, on ") {
		t.Errorf("%d %s", code, out)
	}
}

// A recipe's steps lie before the time at which the first piece goes in, in order, the goods wetted out an hour before.
func TestReadyByARecipe(t *testing.T) {
	for _, id := range []string{"soda", "lye", "thiourea"} {
		m := answer(t, mixing+" --aim 38C --pot 8L --stove 1800W --ready-by 20:00 --recipe "+id)
		steps := m["steps"].([]any)
		last := m["begin_at"].(string)
		if len(steps) < 8 || steps[0].(map[string]any)["at"] != last || last >= "2026-11-26T19" {
			t.Fatalf("%s: %v", id, m)
		}
		for _, s := range steps {
			at := s.(map[string]any)["at"].(string)
			if at < last || at > "2026-11-26T20:00:00+01:00" {
				t.Errorf("%s: %v after %s", id, s, last)
			}
			last = at
		}
		if what := fmt.Sprint(steps); !strings.Contains(what, "heat the water") || !strings.Contains(what, "2026-11-26T19:00:00+01:00 minutes:60 what:wet the goods out") {
			t.Errorf("%s: %s", id, what)
		}
	}
}

// The stove: heat of IAPWS-95 (water.csv) over power and part; a timed pot corrects the part.
func TestStove(t *testing.T) {
	minutes := func(extra string) float64 {
		return of(t, answer(t, mixing+" --aim 40C --stove 1800W"+extra), "heat_min")
	}
	// 8.8311 L of 60 °C weigh 8.6829 kg; from 12 to 60 °C they take up 200.64 kJ/kg (251.25 − 50.51 at 0.1 MPa).
	all := 8.8311 * 0.98320 * (251.25 - 50.51) / 1.8 / 60
	for by, stove := range map[string]water.Stove{"gas": water.Gas, "electric": water.Electric, "induction": water.Induction, "immersion": water.Immersion} {
		want := all / stove.Reaches().Fraction()
		if got := minutes(" --by " + by); got < want*0.998 || got > want*1.002 {
			t.Errorf("%s: %v min, want %v", by, got, want)
		}
	}
	if minutes("") != minutes(" --by electric") {
		t.Error("electric is not what is taken if nothing is said")
	}
	// One pot of 8 L took 20 min: then 8.83 L hot, which are 8.686 L cold, take 20 · 8.686 / 8.
	if got, want := minutes(" --pot 8L --timed 20min"), 20*(8.8311*0.98320/0.99950)/8; got < want*0.998 || got > want*1.002 {
		t.Errorf("timed: %v min, want %v", got, want)
	}
	if got := of(t, answer(t, mixing+" --aim 12C --stove 1800W"), "heat_min"); got != 0 {
		t.Errorf("nothing is hot: %v", got)
	}
	m := answer(t, mixing+" --aim 40C --pot 8L")
	if of(t, m, "pots") != 2 || of(t, m, "pot_l") < 4.41 || of(t, m, "pot_l") > 4.42 {
		t.Errorf("%v", m)
	}
}

// What is in the vessel counts: 5 L at 13 °C and what comes make 15 L at 40 °C, or the answer says why not.
func TestCorrections(t *testing.T) {
	for _, c := range []struct {
		have    string
		reaches float64
		warns   string
	}{
		{" --have 0L --at 13C", 40, ""},
		{" --have 5L --at 13C", 40, ""},
		{" --have 15L --at 40C", 40, ""},
		{" --have 14L --at 13C", 16.1, "too cold"},
		{" --have 14L --at 58C", 55, "too warm"},
		{" --have 16L --at 20C", 20, "more than the fill"},
	} {
		m := answer(t, mixing+" --aim 40C"+c.have)
		if got := of(t, m, "reaches_c"); got < c.reaches-0.2 || got > c.reaches+0.2 {
			t.Errorf("%s: %v", c.have, m)
		}
		if w := fmt.Sprint(m["warnings"]); (c.warns == "") != (w == "[]") || !strings.Contains(w, c.warns) {
			t.Errorf("%s: %s", c.have, w)
		}
	}
	a, b := answer(t, mixing+" --aim 40C"), answer(t, mixing+" --aim 40C --have 6.2035L --at 12C")
	if d := of(t, a, "hot_l") - of(t, b, "hot_l"); d > 0.001 || d < -0.001 || of(t, b, "cold_l") > 0.001 {
		t.Errorf("with the cold in, the hot is missing: %v %v", a, b)
	}
}
