package day

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/published"
)

// A vat with a sulfur reducer that was read as acid is not warmed, dipped in or worked: the call is to stop, till it is read again,
// also on the next day. Goods that are in are lifted first.
func TestAcidIsTheCall(t *testing.T) {
	at := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	for _, id := range []string{"soda", "lye", "thiourea", "mild-soda"} {
		sour, well, n := 6.4, 10.0, 0
		s, err := Begin(Head{Vat: "bin", Day: "2026-03-28", Zone: "UTC", Recipe: published.Recipe(t, id), Setup: Setup{Fill: 60, Place: Outdoors}, Opening: Opening{Built: true}})
		if err != nil {
			t.Fatal(err)
		}
		put := func(b Body) {
			n++
			if s, err = Apply(s, Event{Seq: n, At: at, Body: b}); err != nil {
				t.Fatal(err)
			}
		}
		cold := quantity.Celsius(14)
		put(Opened{How: "next"})
		put(Reading{Temp: &cold})
		put(Reading{PH: &sour})
		for _, s := range []State{s, mustBegin(t, s)} {
			if c := CallOf(s, at.Add(20*time.Hour)); !strings.HasPrefix(c.Words, "Stop") || c.Press != "" || !strings.Contains(c.How, "upwind") {
				t.Errorf("%s: %q, press %q", id, c.Words, c.Press)
			}
			if _, err := Decide(s, Done{}, at.Add(20*time.Hour)); err == nil {
				t.Errorf("%s: the press warms an acid vat", id)
			}
		}
		for what, c := range map[string]Command{"heat": Record{Body: HeaterOn{Power: 1000}}, "soda": Record{Body: PowderAdded{Powder: "soda", Mass: 20}}, "stock": Record{Body: StockDrawn{Stock: 1}}} {
			if _, err := Decide(s, c, at); err == nil || !strings.Contains(err.Error(), "acid got in") {
				t.Errorf("%s, %s: %v", id, what, err)
			}
		}
		put(Reading{PH: &well})
		if c := CallOf(s, at); strings.HasPrefix(c.Words, "Stop") {
			t.Errorf("%s, read again: %q", id, c.Words)
		}
	}
}

func mustBegin(t *testing.T, s State) State {
	h := s.Head
	h.Opening = Carry(s)
	next, err := Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	return next
}
