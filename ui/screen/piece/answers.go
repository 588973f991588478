package piece

import (
	"errors"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
)

// memo keeps the planner's answers between two pictures.
type memo = screen.OfBlues[question, map[string]shade.Answer]

type question struct {
	fibre string
	dry   quantity.Mass
}

// answers are the planner's dips to each depth; none while they would be a guess.
func (p piece) answers(d engine.View, c day.AddPiece) map[string]shade.Answer {
	if d.Blue == nil || screen.IsGuess(d.Blue.Claim) {
		return nil
	}
	return p.memo.Of(d, question{c.Spec.Fibre, c.Spec.Dry}, func() map[string]shade.Answer {
		out := map[string]shade.Answer{}
		for _, depth := range shade.Depths() {
			spec := c.Spec
			spec.Depth, spec.Dips, spec.Rung, spec.Lab = depth.Name, 0, 0, [3]float64{}
			coming := d.Blue.Plan(day.Piece{Tag: c.Tag, Spec: spec})
			if screen.IsGuess(coming.Claim) {
				return nil
			}
			out[depth.Name] = coming.Answer
		}
		return out
	})
}

// wished puts a typed rung or colour into the piece.
func (p piece) wished(c *day.AddPiece) error {
	text := strings.TrimSpace(p.typed[wish].Text)
	if text == "" {
		return errors.New("type a rung of your ladder or a colour: rung 3, lab 31 -3 -20, #2a3b5c")
	}
	return screen.Wish(&c.Spec, text)
}
