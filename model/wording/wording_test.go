package wording

import (
	"errors"
	"slices"
	"strconv"
	"testing"
)

func TestWords(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Upper("look at it"), "Look at it"}, {Upper("pH 9.4 is low"), "pH 9.4 is low"}, {Upper("a1: it stays"), "a1: it stays"}, {Upper(""), ""}, {Upper("écru"), "Écru"}, {Upper("\xff"), "\xff"},
		{Lower("Stir, slowly"), "stir, slowly"}, {Lower(""), ""},
		{Counted(1, "dip"), "1 dip"}, {Counted(0, "dip"), "0 dips"}, {Counted(12, "dip"), "12 dips"},
		{Joined(" · ", "bin", "", " ", "60 L "), "bin · 60 L"}, {Joined(", "), ""},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

func TestLists(t *testing.T) {
	words, even := []string{"dip", "air", "dip"}, func(n int) bool { return n%2 == 0 }
	half := func(n int) (string, bool) { return strconv.Itoa(n / 2), even(n) }
	if got := Some([]int{4, 5, 10}, half); !slices.Equal(got, []string{"2", "5"}) {
		t.Errorf("some: %q", got)
	}
	if got := Once(words); !slices.Equal(got, []string{"dip", "air"}) {
		t.Errorf("once: %q", got)
	}
	if got := Count([]int{1, 2, 4}, even); got != 2 {
		t.Errorf("count: %d", got)
	}
	size := func(s string) int { return len(s) }
	if sum, most := Sum(words, size), Most([]string{"a", "four", "two"}, size); sum != 9 || most != 4 {
		t.Errorf("sum %d, most %d", sum, most)
	}
	if most := Most([]int{-3}, func(n int) int { return n }); most != 0 {
		t.Errorf("most of what lies below 0: %d", most)
	}
	if got := Either(true, "one", "two") + Either(false, "one", "two"); got != "onetwo" {
		t.Errorf("either: %q", got)
	}
	if got := Of(nil) + Of(errors.New("torn")) + OneLine(nil); got != "torn" {
		t.Errorf("of an error: %q", got)
	}
}

type size int

// A value that its list does not have is told by its number: a screen says it instead of failing.
func TestNamedOutsideItsNames(t *testing.T) {
	for value, want := range map[size]string{0: "small", 1: "large", 2: "size(2)", -1: "size(-1)"} {
		if got := Named(value, "small", "large"); got != want {
			t.Errorf("%d is %q, not %q", int(value), got, want)
		}
	}
}
