package command

import (
	"bytes"
	"encoding/json"
	"slices"
	"testing"
	"time"

	"example.org/vatside/model/colour"
	"example.org/vatside/ui/library"
)

// pieced is an output that keeps how long the longest piece of what was written was.
type pieced struct {
	bytes.Buffer
	longest int
}

func (p *pieced) Write(b []byte) (int, error) {
	p.longest = max(p.longest, len(b))
	return p.Buffer.Write(b)
}

// The events are printed as they are read, and are one list all the same, laid out as ever.
func TestBookAsJSONStreams(t *testing.T) {
	home := playedHome(t)
	var out pieced
	var errs bytes.Buffer
	code := Main([]string{"book", "--json"}, World{Out: &out, Err: &errs, Getenv: func(k string) string {
		return map[string]string{"VATSIDE_HOME": home}[k]
	}})
	if code != 0 || errs.Len() > 0 {
		t.Fatal(code, errs.String())
	}
	if out.longest > 8192 || out.Len() < 4*8192 {
		t.Errorf("%d of %d bytes came at once", out.longest, out.Len())
	}
	var list []json.RawMessage
	if err := json.Unmarshal(out.Bytes(), &list); err != nil || len(list) != 188 {
		t.Fatalf("%d events: %v", len(list), err)
	}
	var laid bytes.Buffer
	if err := json.Indent(&laid, out.Bytes(), "", "  "); err != nil || laid.String() != out.String() {
		t.Errorf("it is laid out otherwise: %v", err)
	}
	if got, errs, code := run(t, t.TempDir(), "book", "--json"); got != "[]\n" || errs != "" || code != 0 {
		t.Errorf("an empty book: %q %s %d", got, errs, code)
	}
}

// The nearest found vat by vat are those of all vats together: of two that are as near the newer, of two of one instant that of the
// first vat.
func TestNearestVatByVat(t *testing.T) {
	piece := func(vat, tag string, l float64, on int) library.Piece {
		return library.Piece{Vat: vat, Tag: tag, At: time.Date(2026, 5, on, 18, 0, 0, 0, time.UTC), Lab: colour.Lab{L: l, A: -3, B: -20}}
	}
	vats := [][]library.Piece{
		{piece("a", "A1", 31, 9), piece("a", "A2", 40, 8), piece("a", "A3", 33, 7), piece("a", "A4", 31, 2)},
		{piece("b", "B1", 33, 10), piece("b", "B2", 31, 9), piece("b", "B3", 60, 1)},
		{piece("c", "C1", 31, 12), piece("c", "C2", 32, 3)},
	}
	want := []string{"C1", "A1", "B2", "A4", "C2", "B1", "A3", "A2", "B3"}
	for most := 1; most <= len(want)+1; most++ {
		w := liking{lab: colour.Lab{L: 31, A: -3, B: -20}, most: most}
		var found []library.Piece
		for _, v := range vats {
			found = w.nearest(append(found, v...))
		}
		var got []string
		for _, b := range found {
			got = append(got, b.Tag)
		}
		if !slices.Equal(got, want[:min(most, len(want))]) {
			t.Errorf("the nearest %d: %v", most, got)
		}
	}
}
