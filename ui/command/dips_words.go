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
func percent(chance float64) string { return fmt.Sprintf("%.0f %%", 100*chance) }

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

type answered struct {
	Likely int     `json:"likely"`
	Low    int     `json:"low"`
	High   int     `json:"high"`
	Chance float64 `json:"chance"`
	Near   float64 `json:"chance_within_one"` // that the right number is likely or one off
	Words  string  `json:"words"`
}

func answerOf(a shade.Answer) answered {
	return answered{a.Likely, a.Low, a.High, tidy(a.Chance), tidy(a.Near), a.Words()}
}

// nextSwatch is a strip that would help, in the keys of --json.
type nextSwatch struct {
	Dips    int     `json:"dips"`
	Rungs   []int   `json:"rungs"`
	Leaves  float64 `json:"leaves"` // of the range, 0 to 1
	TakesMn float64 `json:"takes_min"`
	Words   string  `json:"words"`
}

func nextSwatchOf(l shade.Lesson, ok bool) *nextSwatch {
	if !ok {
		return nil
	}
	return &nextSwatch{l.Dips, l.Rungs, tidy(l.Narrows), tidy(l.Takes.Minutes()), l.Words()}
}

// advice are the sentences of an answer: before any swatch the swatch, then what a dip more or less looks like, and what would help.
func advice(a shade.Answer, seen shade.Weighted, next *nextSwatch) (out []string) {
	if !seen.Seen() {
		out = append(out, shade.SwatchFirst)
	}
	for _, words := range []string{a.Beside(), seen.Unsure(a)} {
		if words != "" {
			out = append(out, words)
		}
	}
	if next != nil {
		out = append(out, next.Words)
	}
	return out
}
