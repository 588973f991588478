package outlook_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
)

// What is told as read at a time is what was read then: water that came in since makes a reckoned figure of it, which bears no
// reading's time.
func TestAReckonedFigureHasNoReadingsTime(t *testing.T) {
	v := open(t, "sugar-lime", func(h *day.Head) { h.Setup.Vessel = "" })
	v.reads(39)
	v.after(60)
	if h := v.sight().Heat; !h.AsRead || h.Now != 39 || h.Known != outlook.Reckoned {
		t.Errorf("an hour after 39 °C was read: %v, as read %v", h.Now, h.AsRead)
	}
	v.put(day.ToppedUp{Water: 10, Temp: quantity.Celsius(10)})
	v.after(5)
	if h := v.sight().Heat; h.AsRead || h.Now > 37 || h.Now < 30 {
		t.Errorf("after 10 L of 10 °C: %v, as read %v", h.Now, h.AsRead)
	}
	v.reads(36)
	v.after(60)
	if h := v.sight().Heat; !h.AsRead || h.Now != 36 {
		t.Errorf("read again: %v, as read %v", h.Now, h.AsRead)
	}
}

// The forecast of a ferment goes to the end of its wait: wrapped it falls too cold after more than half a day, which is told with
// its date, also once the day is closed; a thermostat keeps it.
func TestTheForecastGoesToTheEndOfTheWait(t *testing.T) {
	far := map[string]time.Duration{}
	for _, kept := range []string{"", day.KeptWrapped, day.KeptByHeater} {
		v := brewing(t, kept, 18, nine)
		v.reads(36)
		heat := v.sight().Heat
		if heat.Far < 48*time.Hour {
			t.Errorf("%q: it is told for %v only", kept, heat.Far)
		}
		if kept == day.KeptByHeater {
			if !heat.Below.IsZero() || !strings.Contains(heat.Holds(quantity.Metric), "thermostat") {
				t.Errorf("kept by a heater it falls at %v, %s", heat.Below, heat.Holds(quantity.Metric))
			}
			continue
		}
		far[kept] = heat.Below.Sub(v.now)
		v.put(day.Closed{})
		if closed := v.sight().Heat; closed.Below.Sub(heat.Below).Abs() > time.Hour {
			t.Errorf("%q: once the day is closed it falls at %v, not %v", kept, closed.Below, heat.Below)
		}
	}
	if far[day.KeptWrapped] <= far[""] || far[day.KeptWrapped] < 12*time.Hour {
		t.Errorf("wrapped it stays warm for %v, unwrapped %v", far[day.KeptWrapped], far[""])
	}
}

// brewing is a ferment in its long wait since an instant, kept so in air of so many °C.
func brewing(t *testing.T, kept string, air quantity.Temperature, since time.Time) *vat {
	t.Helper()
	h := day.Head{Recipe: built(t, "madder-bran"), Setup: day.Setup{Fill: 60, Vessel: "frustum 36 cm 44 cm 62 cm", Material: "HDPE", Place: day.Outdoors,
		Kept: kept, Gear: day.Gear{Air: &air}}}
	plan, err := day.Plan(h)
	if err != nil {
		t.Fatal(err)
	}
	for _, st := range plan {
		if st.Waits() && st.For.Duration() > day.LongWait {
			h.Opening = day.Opening{Number: 2, Step: st.No, Since: &since, Cover: true, Brewing: day.Brewing{Brews: &since}}
		}
	}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	v := &vat{t, s, nine}
	v.put(day.Opened{How: "tend"})
	return v
}

// How sure it is that a slow vat gets too cold, by a thermometer's degree and the width of the air: of a yard at 5 °C it is, by a later
// hour than the likely one; of a room at 22 °C, which may be 25, it is not within the wait; a vat that waits no night says nothing of it.
func TestHowSureTheColdIs(t *testing.T) {
	words := func(v *vat) (outlook.Heat, string) {
		o := v.sight()
		return o.Heat, strings.Join(o.Sentences(quantity.Metric), " ")
	}
	v := brewing(t, day.KeptWrapped, 5, nine)
	v.reads(34)
	yard, said := words(v)
	if !yard.Surely.After(yard.Below) || yard.Below.IsZero() || !strings.Contains(said, ", sure by ") {
		t.Errorf("at 5 °C it is too cold at %v, surely at %v: %s", yard.Below, yard.Surely, said)
	}
	for at, want := range map[time.Time]string{yard.Below.Add(-time.Hour): ", sure by " + day.DateOf(yard.Surely, yard.Below.Add(-time.Hour)), yard.Below.Add(time.Minute): ", likely", yard.Surely: ", sure"} {
		if got := yard.HowSure(yard.Below, at); got != want {
			t.Errorf("at %v it says %q, not %q", at, got, want)
		}
	}
	v.reads(24.5) // a degree and more below the mark, whatever the thermometer
	if cold, _ := words(v); cold.HowSure(v.now, v.now) != ", sure" {
		t.Errorf("read 24.5 °C: %q", cold.HowSure(v.now, v.now))
	}
	v.reads(25.5)
	if near, _ := words(v); near.HowSure(v.now, v.now) != ", likely" {
		t.Errorf("read 25.5 °C: %q", near.HowSure(v.now, v.now))
	}
	for air, want := range map[quantity.Temperature]string{24: "above 26 °C for 3 days, likely", 33: "above 26 °C for 3 days, sure"} {
		v = brewing(t, day.KeptWrapped, air, nine)
		v.reads(34)
		if _, said := words(v); !strings.Contains(said, want) {
			t.Errorf("at %v: %s", air, said)
		}
	}
	v = brewing(t, day.KeptWrapped, 22, nine)
	v.reads(34)
	if room, said := words(v); room.Below.IsZero() || !room.Surely.IsZero() || !strings.Contains(said, ", likely") {
		t.Errorf("at 22 °C it is too cold at %v, surely at %v: %s", room.Below, room.Surely, said)
	}
	v = open(t, "soda", nil)
	v.reads(34)
	if short, _ := words(v); short.HowSure(v.now.Add(time.Hour), v.now) != "" {
		t.Error("a vat that waits no night says how sure its cold is")
	}
}
