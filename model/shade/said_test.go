package shade

import (
	"math"
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
)

func TestAnswersInWords(t *testing.T) {
	for _, c := range []struct {
		a           Answer
		long, short string
	}{
		{Answer{Likely: 9, Low: 7, High: 11}, "likely 9, 7 to 11 eight times in ten", "9 dips, 7 to 11"},
		{Answer{Likely: 1, Low: 1, High: 1}, "likely 1, eight times in ten", "1 dip"},
		{Answer{Likely: 12, Low: 8, High: 30}, "likely 12, 8 to 30 or more eight times in ten", "12 dips, 8 or more"},
		{Answer{Likely: 30, Low: 20, High: 30}, "likely 30 or more, from 20 eight times in ten", "30 dips or more"},
		{Answer{Likely: 30, Low: 30, High: 30}, "30 or more, eight times in ten", "30 dips or more"},
	} {
		if got := c.a.Words(); got != c.long {
			t.Errorf("%+v: %q", c.a, got)
		}
		if got := c.a.Short(); got != c.short {
			t.Errorf("%+v: %q", c.a, got)
		}
	}
	a := shared.Seen(ladder(1, 2, 4, 8)).Dips(Piece{}, usual, quantity.Minutes(5), nil, WishKS(8))
	if !(a.Less > a.More && a.More > 0.5) || !strings.HasPrefix(a.Beside(), "a dip") {
		t.Errorf("%+v: %q", a, a.Beside())
	}
	if (Answer{Likely: 30}).Beside() != "" {
		t.Error("beside a blue that is not reached")
	}
	three := shared.Seen(ladder(1, 2, 4))
	for _, c := range []struct {
		w    Weighted
		a    Answer
		want string
	}{
		{three, Answer{Likely: 8, Near: 0.9}, ""},
		{three, Answer{Likely: 8, Near: 0.71}, "8 is right or one off 7 times in ten, and one strip of 8 would settle it"},
		{three, Answer{Likely: 9, Near: 0.9}, "the swatches end at 4 dips, and so far beyond them the range may hold only 7 times in ten"},
		{shared.Seen(ladder(1)), Answer{Likely: 3, Near: 0.9}, "the swatches end at 1 dip, and so far beyond them the range may hold only 5 times in ten"},
		{shared.Seen(ladder(8)), Answer{Likely: 12, Near: 0.52}, "12 is right or one off 5 times in ten"},
		{shared.Seen(nil), Answer{Likely: 9, Near: 0.3}, ""},
	} {
		if got := c.w.Unsure(c.a); got != c.want {
			t.Errorf("%+v: %q, not %q", c.a, got, c.want)
		}
	}
}

// What a strip would teach is told by how narrow the range truly gets: the lesson's figure against the range after such swatches.
func TestTheStripThatTeachesMost(t *testing.T) {
	five := quantity.Minutes(5)
	wish := WishKS(14)
	ask := func(w Weighted, time quantity.Span) (Lesson, bool) {
		return w.Teach(Piece{Dry: 300}, usual, five, nil, wish, Piece{Dry: 10}, five, quantity.Minutes(2), time)
	}
	before := shared.Seen(nil)
	long, ok := ask(before, 0)
	if !ok || long.Dips < 2 || long.Narrows > 0.6 || !strings.Contains(long.Words(), "beside the other work") {
		t.Fatalf("nothing seen: %+v %v %q", long, ok, long.Words())
	}
	short, ok := ask(before, quantity.Minutes(13))
	if !ok || short.Dips > 2 || short.Takes > quantity.Minutes(13) {
		t.Errorf("in 13 min: %+v %v", short, ok)
	}
	if l, ok := ask(before, quantity.Minutes(4)); ok {
		t.Errorf("in 4 min: %+v", l)
	}
	all := shared.Seen(append(append(ladder(1, 2, 4, 8), ladder(1, 2, 4, 8)...), ladder(1, 2, 4, 8)...))
	if l, ok := ask(all, 0); ok && l.Narrows < long.Narrows {
		t.Errorf("twelve swatches seen, and %+v", l)
	}
	wide := func(w Weighted) float64 {
		needs := w.needs(Piece{Dry: 300}, usual, five, nil, wish)
		at := make([]float64, len(w.vats))
		for j := range at {
			at[j] = needs.dips(j, 0)
		}
		return w.spreadBy(w.weights, at)
	}
	came := wide(shared.Seen(ladder(long.Rungs...))) / wide(before)
	if math.Abs(came-long.Narrows) > 0.1 {
		t.Errorf("said to leave %.2f, leaves %.2f", long.Narrows, came)
	}
	t.Logf("%s (%.2f, came %.2f); %s", long.Words(), long.Narrows, came, short.Words())
}
