package command

import (
	"fmt"
	"math"
	"strconv"

	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
)

// giving is what so many dips do.
func giving(n int) string {
	if n == 1 {
		return "1 dip gives it"
	}
	return wording.Counted(n, "dip") + " give it"
}

// percent is a chance as it is said.
func percent(chance float64) string { return fmt.Sprintf("%.0f %%", 100*tidy(chance)) }

// depthFigure is a K/S as coarse as it is known.
func depthFigure(ks float64) string {
	switch {
	case ks >= 9.95:
		return strconv.FormatFloat(ks, 'f', 0, 64)
	case ks >= 0.095:
		return strconv.FormatFloat(ks, 'f', 1, 64)
	}
	return strconv.FormatFloat(math.Max(0, ks), 'f', 2, 64)
}

// answered are the keys of an answer in --json; chance_within_one is that the right number is likely or one off.
func answered(a shade.Answer) object {
	return object{{"likely", a.Likely}, {"low", a.Low}, {"high", a.High}, {"chance", tidy(a.Chance)}, {"chance_within_one", tidy(a.Near)}, {"words", a.Words()}}
}

// nextSwatch are the keys of a strip that would help, null where none would, and its words. leaves is of the range, 0 to 1.
func nextSwatch(l shade.Lesson, helps bool) (keys object, words string) {
	if !helps {
		return nil, ""
	}
	words = l.Words()
	return object{{"dips", l.Dips}, {"rungs", l.Rungs}, {"leaves", tidy(l.Narrows)}, {"takes_min", tidy(l.Takes.Minutes())}, {"words", words}}, words
}

// advice are the sentences of an answer: before any swatch the swatch, then what a dip more or less looks like, and what would help.
func advice(a shade.Answer, seen shade.Weighted, helps string) []string {
	out := wording.Filled(a.Beside(), seen.Unsure(a), helps)
	if !seen.Seen() {
		out = append([]string{shade.SwatchFirst}, out...)
	}
	return out
}
