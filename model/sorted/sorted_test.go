package sorted

import (
	"cmp"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// It sorts as slices.SortStableFunc does.
func TestBy(t *testing.T) {
	type card struct{ rank, place int }
	rapid.Check(t, func(t *rapid.T) {
		var list []card
		for i, rank := range rapid.SliceOfN(rapid.IntRange(0, 9), 0, 80).Draw(t, "ranks") {
			list = append(list, card{rank, i})
		}
		want := slices.Clone(list)
		byRank := func(a, b card) int { return cmp.Compare(a.rank, b.rank) }
		slices.SortStableFunc(want, byRank)
		if By(list, byRank); !slices.Equal(list, want) {
			t.Fatalf("%v, not %v", list, want)
		}
	})
}
