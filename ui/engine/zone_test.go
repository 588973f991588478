package engine_test

import (
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
)

// What a day takes over is the same instant, told by the day's own clock; a head without it stays as it is.
func TestAHeadInItsZone(t *testing.T) {
	since := time.Date(2026, 5, 29, 11, 51, 0, 0, time.FixedZone("", 3600))
	until := since.Add(time.Hour)
	h := engine.InZone(day.Head{Zone: "-05:00", Opening: day.Opening{Since: &since, Held: day.Held{Until: &until}}})
	for got, want := range map[*time.Time]string{h.Opening.Since: "2026-05-29T05:51:00-05:00", h.Opening.Until: "2026-05-29T06:51:00-05:00"} {
		if got.Format(time.RFC3339) != want {
			t.Errorf("%v, want %s", got, want)
		}
	}
	if since.Format("15:04") != "11:51" {
		t.Error("the head that was given is changed")
	}
	if h := engine.InZone(day.Head{Zone: "UTC"}); h.Opening.Since != nil || h.Opening.Until != nil {
		t.Errorf("%+v", h.Opening)
	}
}

// The start of an open day asks for its zone several times: the platform is asked once.
func TestAZoneIsLoadedOnce(t *testing.T) {
	h := day.Head{Zone: "Europe/Berlin"}
	z := engine.Zone(h)
	if z.String() != h.Zone || engine.Zone(h) != z {
		t.Errorf("%v, and then another one", z)
	}
	if z := engine.Zone(day.Head{Zone: "Nowhere/Else"}); z != time.Local {
		t.Errorf("a zone that is not known is %v", z)
	}
}
