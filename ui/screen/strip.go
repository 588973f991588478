package screen

import (
	"slices"
	"strconv"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/widget"
)

// Strip is the key of a strip test: it is out, then it is blue.
func Strip(v engine.View) Do { return Do{answer.StripKey(v.State, v.Now)} }

// StripPress is the key that goes on, while a strip is watched.
var StripPress = Do{day.StripBlue{Pressed: true}}

// Watched tells whether a strip of the day in hand is watched.
func Watched(env Env) bool {
	v, ok := env.Day()
	_, on := v.State.Watched(v.Now)
	return ok && on
}

// StripFigure is how long the strip has stayed yellow.
func StripFigure(v engine.View) widget.Figure {
	out, _ := v.State.Watched(v.Now)
	return widget.Figure{Number: widget.Countdown(out), Note: "the strip is yellow: t when it turns blue", Tone: widget.Now, Key: "t"}
}

// Judged is the way that a figure chooses where the call asks whether the vat is ready; false for any other key.
func Judged(k Key, v engine.View, act day.Act) (day.Command, bool) {
	ways, at := v.State.Ways(), int(k.Rune-'1')
	if choices := v.State.Choices(); act.Kind == day.ActAsk && at >= 0 && at < len(choices) {
		return day.Record{Body: choices[at].Body}, true
	}
	if !act.Judging() || at < 0 || at >= len(ways) {
		return nil, false
	}
	return day.Judge{Ready: true, By: ways[at]}, true
}

// AnswersOf are the words of such a call that name keys: "1 strip", "2 swatch".
func AnswersOf(v engine.View) []string {
	var out []string
	for i, way := range v.State.Ways() {
		if way == day.ByEye {
			way = "your eye"
		}
		out = append(out, strconv.Itoa(i+1)+" "+way)
	}
	return append(out, "y ready", "n not yet")
}

// Along moves a choice among pieces; past either end none is chosen.
func Along(pieces []day.Piece, chosen string, by int) string {
	n := len(pieces) + 1
	at := 1 + slices.IndexFunc(pieces, func(p day.Piece) bool { return p.Tag == chosen }) // 0: none
	if at = (at + by + n) % n; at == 0 {
		return ""
	}
	return pieces[at-1].Tag
}
