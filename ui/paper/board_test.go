package paper_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	_ "example.org/vatside/testdata/long" // collects garbage less often
	"example.org/vatside/ui/paper"
)

// A board is one page that fetches and runs nothing, in which what was typed is text, and which reads itself again; whatever the
// number of its rows, they fill no more than the screen.
func TestABoardIsAPageThatReadsItselfAgain(t *testing.T) {
	fetches := regexp.MustCompile(`(?i)(https?:|//|url\(|@import|<script|<link|<img|<iframe|javascript:| on[a-z]+=)`)
	const bad = `<script src="//x">&'</td>`
	for _, rows := range []int{0, 1, 4, 16, 40, 300} {
		b := paper.Board{Vat: bad, Call: "Lift A1 out" + bad, At: "10:42", Notes: []string{bad}, Done: "16:10"}
		for i := range rows {
			b.Turns = append(b.Turns, paper.BoardTurn{Who: bad + fmt.Sprint(i), Piece: bad, When: "in 10:50", Dip: "2 of 4", Ends: "done 12:00", In: i == 0})
		}
		page := b.Page("10:40").String()
		elements, text := parsed(t, page)
		found := strings.Join(elements, "\n")
		if got := strings.Count(found, "\ntr"); got != rows || !strings.Contains(found, "meta http-equiv=refresh content=10") {
			t.Errorf("%d rows of %d: %s", got, rows, found)
		}
		if what := fetches.FindString(strings.Join(elements, " ")); what != "" || strings.Contains(found, "script") {
			t.Errorf("it fetches or runs something: %q", what)
		}
		if want := 2*rows + 4; strings.Count(text, bad) != want { // the vat's name stands in its title too
			t.Errorf("what was typed stands %d times in the text, not %d", strings.Count(text, bad), want)
		}
		for _, words := range []string{"Lift A1 out", "10:42", "as of 10:40", "All done 16:10"} {
			if !strings.Contains(text, words) {
				t.Errorf("%q is not on it", words)
			}
		}
		if !strings.HasPrefix(page, paper.BoardMark) {
			t.Error("it does not begin with its mark")
		}
		tall := 0
		if _, err := fmt.Sscanf(page[strings.Index(page, "font: min("):], "font: min(%dvh", &tall); err != nil || tall*(rows+4) > 100 && tall > 2 {
			t.Errorf("%d rows of %d%% of the screen's height: %v", rows, tall, err)
		}
	}
}
