package clock

import (
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// decide takes a figure as the answer to the look that is asked for; false where none is.
func decide(v engine.View, no int) ([]screen.Request, bool) {
	look, ok := v.Look()
	switch {
	case !ok:
		return nil, false
	case no > len(look.Act.Piece.LookSays()):
		return []screen.Request{screen.Say{Word: strings.Join(answers(look.Act.Piece), ", ") + "; for a rung type : rung 4"}}, true
	}
	return []screen.Request{screen.Do{Command: day.Decided{Tag: look.Act.Piece.Tag, Say: day.LookSays[no-1], Call: look.ID}}}, true
}

// lifting tells whether a lift is in its last minute or over: figures are the lift's then.
func lifting(v engine.View) bool {
	a := v.Call().Act
	left, _ := a.Left(v.Now)
	return a.Kind == day.ActLift && left <= day.LastMinute
}

// lookKeys are the figures of the look that is asked for.
func lookKeys(v engine.View) []widget.Key {
	var keys []widget.Key
	if look, ok := v.Look(); ok {
		for i, say := range look.Act.Piece.LookSays() {
			keys = append(keys, screen.Bound(fmt.Sprint(i+1), say))
		}
	}
	return keys
}

// answers are those to a look, behind their keys: "1 stop".
func answers(p day.Piece) []string {
	var out []string
	for i, say := range p.LookSays() {
		out = append(out, fmt.Sprint(i+1, " ", say))
	}
	return out
}

// look puts the look that decides onto the sheet: where it is the call, the wish, the piece wet and dry, and one dip more, side by
// side; where it stands second, in a sentence.
func (s Screen) look(sheet *widget.Sheet, v engine.View, env screen.Env) {
	look, ok := v.Look()
	if !ok {
		return
	}
	p := look.Act.Piece
	keyed := answers(p)
	sheet.Answers = append(sheet.Answers, keyed...)
	cloths := s.blues.looks.Of(v, compared{p.Tag, p.Spec.Depth, p.Dips}, func() []widget.Patch { return s.compare(v, p) })
	dry, more := "", ""
	for _, c := range cloths {
		switch c.Says[0] {
		case driesTo:
			dry = c.Says[1]
		case oneMore:
			more = c.Says[1]
		}
	}
	if v.Call().ID != look.ID {
		sheet.How = append(sheet.How, fmt.Sprintf("%s: enough? %s. Dry it is %s; with a dip more %s.", p.Tag, strings.Join(keyed, ", "), dry, more))
		return
	}
	left, _ := look.Act.Left(v.Now)
	sheet.Act, sheet.ActBig, sheet.Stage, sheet.Figure, sheet.Foot = look.Short, true, nil, widget.Figure{}, nil
	asks, silence := fmt.Sprintf("%s: %s      %s: %d", keyed[0], wording.Counted(p.Dips, "dip"), keyed[1], p.Dips+1), "no more dips"
	if more := p.Want() - p.Dips; more > 0 {
		asks, silence = asks+fmt.Sprintf("      %s: %d, %d more", keyed[2], p.Want(), more), "as planned"
	}
	asks = strings.ReplaceAll(asks, " ", "\u00a0")
	if style.Width(asks) > widget.Columns(env.Width) {
		asks = strings.ReplaceAll(asks, "\u00a0\u00a0\u00a0\u00a0\u00a0", "\u00a0")
	}
	others := slices.DeleteFunc(slices.Clone(sheet.How), func(words string) bool { return strings.Contains(words, "enough?") })
	if words := s.likely(v, p, true); words != "" {
		others = append([]string{words}, others...)
	}
	sheet.How = append([]string{asks, "No answer in " + widget.Countdown(left) + ": " + silence + ". For a rung type : rung 4"}, others...)
	bare := *sheet
	bare.Why, bare.Next, bare.How = "", "", sheet.How[:2]
	columns, rows := env.Room(bare)
	said := len(widget.Patches(cloths, columns, 1, env.Style).Lines) - 1
	apart := 0 // the answers, where there is no air left
	if env.Height >= widget.LowestYard && env.Height < airy {
		apart = 1
	}
	sheet.Body = append(widget.Patches(cloths, columns, max(1, min(rows-said, env.Height*3/10)-apart), env.Style).Lines, make([]string, apart)...)
}

// likely is how many dips the wish of a piece takes; "" without a wish, and where that is a guess, if it is not asked for.
func (s Screen) likely(v engine.View, p day.Piece, guess bool) string {
	c, known := s.coming(v, p)
	if !known || c.Wish == nil || !guess && screen.IsGuess(c.Claim) {
		return ""
	}
	return "Dips for " + c.Wish.String() + ": " + c.Answer.Words() + "."
}

// compare gives the cloths that are compared: the piece wet, the piece dry, after one dip more, and the wish. Where nothing is known
// of the vat they are the usual blues of so many dips.
func (s Screen) compare(v engine.View, p day.Piece) []widget.Patch {
	c, known := s.coming(v, p)
	at := func(name string, n int, step *shade.Step) widget.Patch {
		cloth := s.cloth(v, p, n)
		out := widget.Patch{Cloth: cloth, Says: []string{name, named(cloth)}}
		if known {
			out.Says = append(out.Says, fmt.Sprintf("L* %.0f", screen.LabAfter(c, n).L))
		}
		if step != nil && c.Wish != nil {
			out.Says = append(out.Says, fmt.Sprintf("wish met %.0f %%", 100*step.Chance))
		}
		return out
	}
	of := func(name string, lab colour.Lab) widget.Patch {
		cloth := style.Dyed(lab)
		return widget.Patch{Cloth: cloth, Says: []string{name, named(cloth), fmt.Sprintf("L* %.0f", lab.L)}}
	}
	var out []widget.Patch
	var next *shade.Step
	if lab, ok := c.Wet(); known && ok {
		out = append(out, of("now, wet", lab))
		next = &c.Steps[0]
	}
	out = append(out, at(driesTo, p.Dips, c.Now), at(oneMore, p.Dips+1, next))
	switch {
	case known && c.Wished != nil:
		out = append(out, of("the wish", *c.Wished))
	case p.Spec.Depth != "":
		f, _ := style.DepthFraction(p.Spec.Depth)
		out = append(out, widget.Patch{Cloth: style.Cloth(f), Says: []string{"the wish", p.Spec.Depth}})
	}
	return out
}

// airy is from how many rows on a window has air over the answers to a look.
const airy = 30

// What two of the cloths are called.
const driesTo, oneMore = "dry, forecast", "one dip more"

// longName is the longest name of a blue that fits below one of four cloths in a small window.
const longName = 10

// named is the name of a cloth; of a range of names, "pale to medium", the one in three that its colour has.
func named(cloth style.Shade) string {
	if style.Width(cloth.Name) > longName {
		l, a, b := cloth.Colour.Lab()
		return screen.CoarseName(style.Dyed(colour.Lab{L: 100 * l, A: 100 * a, B: 100 * b}))
	}
	return cloth.Name
}
