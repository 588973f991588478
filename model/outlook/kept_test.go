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
		air, since := quantity.Celsius(18), nine
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
