package command

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/shelf"
)

// By typed lines alone: what is seen, what to do about it, its cautions first, and that it was done.
func TestPlainTellsWhatAilsAVat(t *testing.T) {
	home := t.TempDir()
	soda, _ := recipes.Find("soda")
	w, err := shelf.Open(home).NewDay(day.Head{Vat: "bin", Day: "2026-03-28", Zone: "UTC", Recipe: soda,
		Setup: day.Setup{Name: "Bin", Fill: 60, Place: day.Outdoors, Units: "metric"}, Opening: day.Opening{Number: 2, Built: true}})
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Append(day.Event{Seq: 1, At: time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC), Body: day.Opened{How: "tend"}}); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	out, errs, code := typed(t, home, "signs blue and purple\nt 35\nstrip 4\nsigns blue-green\ntreat\ntreat\nq\n", "--plain")
	if code != 0 {
		t.Fatal(errs)
	}
	for _, w := range []string{
		"Not done. ", "Do: ", "30.0 g of sodium dithionite", "Caution: ", "Once that is so, Enter",
		"30 g of sodium dithionite went into the vat",
	} {
		if !strings.Contains(out, w) {
			t.Errorf("%q is missing:\n%s", w, out)
		}
	}
	if n := strings.Count(out, "went into the vat"); n != 1 {
		t.Errorf("%d doses", n)
	}

	// What is typed without a cause has its caution, too, and so has closing; another line between takes it back.
	out, _, _ = typed(t, home, "give soda 10 g\nnote rain\ngive soda 10 g\ngive soda 10 g\nclose dusk\nclose dusk\n", "--plain")
	for w, n := range map[string]int{"Caution: Soda ash: glasses, gloves": 2, "10 g of soda ash went into the vat": 1, "Caution: This closes the day": 1, "Day closed: dusk": 1} {
		if strings.Count(out, w) != n {
			t.Errorf("%q stands %d times, not %d:\n%s", w, strings.Count(out, w), n, out)
		}
	}
}
