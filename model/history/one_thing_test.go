package history_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/quantity"
)

// A ferment without froth whose pH was read low gets lime, and no bran beside it; read right again, it is fed.
func TestAFermentIsNotFedBesideItsLime(t *testing.T) {
	b := &brewer{t: t, now: time.Date(2026, 5, 1, 9, 0, 0, 0, time.UTC)}
	b.open(day.Head{Recipe: builtIn(t, "madder-bran"), Opening: day.Opening{Number: 2, Built: true}, Setup: day.Setup{Name: "Crock", Fill: 20, Place: day.Outdoors}})
	due := func() (ids string) {
		for _, d := range history.LifeOf(history.Vat{{Name: "2026-05-01", State: b.s}}).Care(b.now) {
			if !d.Coming && (d.ID == "weak" || d.ID == "feed") {
				ids += d.ID + " " + d.How + ";"
			}
		}
		return ids
	}
	warm, low, well := quantity.Celsius(35), 8.8, 10.2
	b.apply(day.Reading{Temp: &warm})
	b.apply(day.Reading{PH: &low})
	b.apply(day.SignSeen{Sign: "no-froth"})
	if got := due(); !strings.Contains(got, "hydroxide") || strings.Contains(got, "feed") {
		t.Errorf("pH 8.8, no froth: %s", got)
	}
	b.apply(day.Reading{PH: &well})
	if got := due(); !strings.HasPrefix(got, "feed") {
		t.Errorf("pH 10.2, no froth: %s", got)
	}
}

// What was read as acid in a vat with a sulfur reducer stands in the care of the vat, whatever went in against it.
func TestCareKeepsTheAcid(t *testing.T) {
	b := &brewer{t: t, now: time.Date(2026, 5, 1, 9, 0, 0, 0, time.UTC)}
	b.open(day.Head{Recipe: builtIn(t, "soda"), Opening: day.Opening{Number: 2, Built: true}, Setup: day.Setup{Name: "Crock", Fill: 20, Place: day.Outdoors}})
	sour := 6.2
	b.apply(day.Reading{PH: &sour})
	b.now = b.now.Add(time.Minute)
	b.apply(day.PowderAdded{Powder: "soda", Mass: 20})
	list := history.LifeOf(history.Vat{{Name: "2026-05-01", State: b.s}}).Care(b.now)
	if len(list) == 0 || list[0].ID != "weak" || !strings.Contains(list[0].How, "upwind") {
		t.Errorf("%+v", list)
	}
}
