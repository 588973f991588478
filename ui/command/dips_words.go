package command

import (
	"fmt"
	"math"
	"strconv"

	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
)

// notWithin is what an Answer says of a blue that so many dips do not reach.
const notWithin = 30

// reach is how many dips, in words: "7 dips", "30 dips or more".
func reach(n int) string {
	if n >= notWithin {
		return fmt.Sprintf("%d dips or more", notWithin)
	}
	return wording.Counted(n, "dip")
}

// giving is what so many dips do.
func giving(n int) string {
	if n == 1 {
		return "1 dip gives it"
	}
	return wording.Counted(n, "dip") + " give it"
}

// inAll is the 80 % range of the number of dips.
func inAll(a answered) string {
	switch {
	case a.Low == a.High && a.High < notWithin:
		return fmt.Sprintf("just %d, 8 times in 10", a.Low)
	case a.Low >= notWithin:
		return fmt.Sprintf("%d or more, 8 times in 10", notWithin)
	case a.High >= notWithin:
		return fmt.Sprintf("%d to %d or more, 8 times in 10", a.Low, notWithin)
	}
	return fmt.Sprintf("%d to %d, 8 times in 10", a.Low, a.High)
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
}

func answerOf(a shade.Answer) answered { return answered{a.Likely, a.Low, a.High, tidy(a.Chance)} }
