package bench

import (
	"fmt"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// soon is how long before its end a time calls the eye.
const soon = 15 * time.Second

// View draws the act, with the pieces on their line over the bath.
func (s Screen) View(env screen.Env) widget.Sheet {
	v, _ := env.Day()
	pieces := v.State.OnBench()
	a, wants := s.now(v)
	sheet := widget.Sheet{Head: screen.HeadOf(v, "the bench"), Foot: screen.Foot(v, env), Stage: s.stage(pieces, a, v, env)}
	switch {
	case len(pieces) == 0:
		sheet.Act = "NONE YET"
		sheet.How = []string{"Nothing is on the bench yet.", "A piece comes here after its last dip: airing, rinses, sour, soap, drying."}
	case !wants && a.Piece.Tag != "":
		sheet.Act = a.Piece.Tag + " DONE"
		sheet.How = []string{a.Piece.Tag + " is done, its record is complete. The log has it."}
	case !wants:
		sheet.Act = "ALL DONE"
		sheet.How = []string{"All is rinsed, dry and judged.", "The record of each piece is complete."}
	default:
		s.act(&sheet, a, v)
	}
	if s.typing.On() {
		sheet.Caution = nil
		sheet.Body = s.typing.Lines(env)
		return sheet
	}
	if then := v.State.BenchThen(a.Piece); wants && then != "" {
		sheet.Next = "then: " + then
	}
	return sheet
}

// act is what the hands do, with its figure or its time.
func (s Screen) act(sheet *widget.Sheet, a day.Act, v engine.View) {
	call := v.State.CallFor(a, v.Now)
	sheet.Act, sheet.Why = call.Short, screen.Unsourced(call.Why)
	left, over := a.Left(v.Now)
	switch {
	case a.Shut:
		sheet.ActTone = widget.Trouble
	case a.Kind == day.ActFinish && over > 0:
		sheet.Figure = widget.Figure{Number: widget.Over(over), Note: "aired long enough"}
	case a.Due != nil && (left == 0 || over > 0):
		sheet.Figure = widget.Figure{Number: widget.Over(over), Note: "over since " + day.DateOf(a.Due.At, v.Now), Tone: widget.Now}
	case a.Due != nil:
		sheet.Figure = widget.Figure{Number: widget.Countdown(left), Note: "till " + day.DateOf(a.Due.At, v.Now)}
		if left <= soon {
			sheet.Figure.Tone = widget.Now
		}
	case a.Kind == day.ActBench:
		f := day.FigureOf(v.State, call)
		sheet.Figure = widget.Figure{Number: f.Number, Unit: f.Unit, Note: f.Note}
	}
	sheet.How = wording.Filled(screen.Sentence(call.Words), screen.Unsourced(call.How))
	if a.Kind == day.ActBench && a.Due != nil && left > 0 { // how it is done, and what it warns of, before what comes
		slices.Reverse(sheet.How)
	}
	if a.Bench.Optional && a.Due == nil && a.Kind == day.ActBench {
		sheet.How = append(sheet.How, "It may be left out: s.")
	}
	if call.Caution != "" {
		sheet.Caution = &widget.Caution{Text: screen.Unsourced(call.Caution), Key: "enter: on"}
	}
}

// stage is the line with the pieces on the bench, over a pail of water in which those lie that are in a bath. Where there are more than
// the line has room for, it shows those from the one in hand on.
func (s Screen) stage(pieces []day.Piece, a day.Act, v engine.View, env screen.Env) *widget.Stage {
	out := &widget.Stage{Vessel: widget.Vessel{Top: 1, Floor: 0.85, Fill: 0.75, Liquor: style.Liquor(style.Water)}}
	from, pegs := 0, max(1, widget.Pegs(env.Width, env.Height))
	if at := slices.IndexFunc(pieces, func(p day.Piece) bool { return p.Tag == a.Piece.Tag }); at >= pegs {
		from = min(at, len(pieces)-pegs)
	}
	shown := pieces[from:min(len(pieces), from+pegs)]
	for i, p := range shown {
		act, wants := v.State.AfterDips(p, v.Now)
		of := widget.Cloth{Tag: p.Tag, Peg: from + i + 1, Blue: s.blue(v, p), Says: "done", Click: true, Row: from + i}
		left, _ := act.Left(v.Now)
		switch {
		case !wants:
		case act.Kind == day.ActBench && act.Due != nil:
			of.In, of.Says, of.Dips = true, "out", act.Bench.ID
			if left > 0 {
				of.Says = widget.Countdown(left)
			}
		case act.Kind == day.ActAir:
			of.Says = widget.Countdown(left)
			if whole := act.Due.At.Sub(p.Since); whole > 0 {
				of.Green = float64(left) / float64(whole)
			}
		case act.Kind == day.ActFinish:
			of.Says = "blue?"
		default:
			of.Says = act.Bench.ID
			if of.Dips = "to do"; act.Shut {
				of.Dips = "waits"
			}
		}
		if p.Tag == a.Piece.Tag {
			of.Tone = widget.Now
		}
		of.Brief = screen.Briefly(of.Says)
		out.Cloths = append(out.Cloths, of)
	}
	if n := len(pieces) - len(shown); n > 0 {
		out.Rest = fmt.Sprintf("and %d more: ↑↓", n)
	}
	return out
}

// blue is a piece in the blue that it has.
func (s Screen) blue(v engine.View, p day.Piece) style.Shade {
	if v.Blue == nil || v.Blue.Claim == "" {
		return screen.ClothOf(p.Dips)
	}
	return s.cloths.Of(v, dipped{p.Tag, p.Dips}, func() style.Shade { return screen.After(v.Blue.Plan(p), p.Dips) })
}
