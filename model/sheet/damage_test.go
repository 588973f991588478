package sheet_test

import (
	"slices"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/sheet"
)

// The days that are not whole stand in front, those that are do not.
func TestDamage(t *testing.T) {
	whole := tended(t, "2026-05-10", morning, nil, day.Note{Text: "clear"})
	damage := tended(t, "2026-05-11", morning, nil, day.Note{Text: "clear"})
	damage.Damage = "event 5 is missing before line 40"
	s := sheet.OfDay(whole, morning)
	if got := s.WithDamage(whole); len(got.Blocks) != len(s.Blocks) {
		t.Errorf("%v", got.Blocks[0])
	}
	want := sheet.Paragraph{Text: damage.State.Head.Vat + "/2026-05-11 is not whole: event 5 is missing before line 40; see vatside book verify."}
	if got := s.WithDamage(whole, damage); len(got.Blocks) != len(s.Blocks)+1 || got.Blocks[0] != sheet.Block(want) || !slices.Equal(kindsOf(got)[1:], kindsOf(s)) {
		t.Errorf("%v", got.Blocks[0])
	}
}

func kindsOf(s sheet.Sheet) []string {
	var out []string
	for _, b := range s.Blocks {
		out = append(out, b.Kind())
	}
	return out
}
