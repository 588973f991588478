package bench

import (
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// soon is how long before its end a time calls the eye.
const soon = 15 * time.Second

// usual is how many rows a window has as a rule.
const usual = 24

// View draws the act, and the bench under it.
func (s Screen) View(env screen.Env) widget.Sheet {
	v, ok := env.Day()
	if !ok {
		return widget.Sheet{Act: "This day is not open"}
	}
	pieces := v.State.OnBench()
	a, wants := s.now(v)
	sheet := widget.Sheet{Head: screen.HeadOf(v, "the bench")}
	switch {
	case len(pieces) == 0:
		sheet.Act = "Nothing is on the bench yet"
		sheet.How = []string{"A piece comes here after its last dip: airing, rinses, sour, soap, drying."}
	case !wants && a.Piece.Tag != "":
		sheet.Act = a.Piece.Tag + " is done"
		sheet.How = []string{"Its record is whole. The log has it."}
	case !wants:
		sheet.Act = "All is rinsed, dry and judged"
		sheet.How = []string{"The record of each piece is whole."}
	default:
		s.act(&sheet, a, v)
	}
	if s.typing.On() {
		sheet.Caution = nil
		sheet.Body = s.typing.Lines(env)
		return screen.WithFoot(sheet, v, env)
	}
	if then := v.State.BenchThen(a.Piece); wants && then != "" {
		sheet.Next = "then: " + then
	}
	sheet.Add(s.list(pieces, a, sheet, v, env))
	return screen.WithFoot(sheet, v, env)
}

// act is what the hands do, with its figure or its time.
func (s Screen) act(sheet *widget.Sheet, a day.Act, v engine.View) {
	call := day.CallFor(v.State, a, v.Now)
	sheet.Act, sheet.Why = screen.Unsourced(call.Words), screen.Unsourced(call.Why)
	if call.How != "" {
		sheet.How = []string{screen.Unsourced(call.How)}
	}
	left, over := a.Left(v.Now)
	switch {
	case a.Shut:
		sheet.ActTone = widget.Trouble
	case a.Kind == day.ActFinish && over > 0:
		sheet.Figure = widget.Figure{Number: widget.Over(over), Note: "aired long enough"}
	case a.Due != nil && (left == 0 || over > 0):
		sheet.Figure = widget.Figure{Number: widget.Over(over), Note: "over " + widget.Since(a.Due.At), Tone: widget.Now}
		sheet.Big = true
	case a.Due != nil:
		sheet.Figure = widget.Figure{Number: widget.Countdown(left), Note: "till " + day.Clock(a.Due.At)}
		if left <= soon {
			sheet.Figure.Tone = widget.Now
		}
		sheet.Big = true
	case a.Kind == day.ActBench:
		f := day.FigureOf(v.State, call)
		sheet.Figure = widget.Figure{Number: f.Number, Unit: f.Unit, Note: f.Note}
	}
	if a.Bench.Optional && a.Due == nil && a.Kind == day.ActBench {
		sheet.How = append(sheet.How, "It may be left out: s.")
	}
	if call.Caution != "" {
		sheet.Caution = &widget.Caution{Text: screen.Unsourced(call.Caution), Key: "enter: on"}
	}
}

// list is the pieces on the bench, the one in hand marked.
func (s Screen) list(pieces []day.Piece, a day.Act, sheet widget.Sheet, v engine.View, env screen.Env) widget.List {
	var rows []widget.Choice
	at := 0
	for i, p := range pieces {
		if p.Tag == a.Piece.Tag {
			at = i
		}
		name := p.Tag
		if p.Spec.What != "" {
			name += " " + p.Spec.What
		}
		rows = append(rows, widget.Choice{Text: name, Aside: v.State.BenchLine(p, v.Now, p.Tag != a.Piece.Tag)})
	}
	if len(rows) == 0 {
		return widget.List{}
	}
	columns, free := widget.Room(screen.WithFoot(sheet, v, env), env.Width, env.Height, env.Style)
	least := max(4, env.Height/5)
	switch {
	case sheet.Caution != nil && env.Height < usual: // what it warns of, and how it is done, go before the others
		free = 1
	case sheet.Big || free < least: // the digits take what they can get; reasons go before pieces
		free = least
	}
	return widget.Pick(rows, at, columns, free, env.Style)
}

// edge is the cloth in hand, in the blue that it has.
func (s Screen) edge(v engine.View, a day.Act) style.Shade {
	p := a.Piece
	if p.Tag == "" {
		return screen.LiquorOf(v.State)
	}
	if v.Blue == nil || v.Blue.Claim == "" {
		return screen.ClothOf(p.Dips)
	}
	reckon := func() style.Shade { return screen.After(v.Blue.Plan(p), p.Dips) }
	if s.cloth == nil {
		return reckon()
	}
	return s.cloth.Of(asked{screen.BluesKeyOf(v), p.Tag}, reckon)
}
