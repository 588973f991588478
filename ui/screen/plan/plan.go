// Package plan is the planner of dips: the cloth as each dip will make it, from undyed to dark, with the wanted blue as a
// notch under it; how many dips give it, and how sure that is.
package plan

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// Screen is the planner. tag is the piece in hand; dips is the number chosen, 0 for the best; ends is how long it takes to
// lower and to lift it, where end to end was asked.
type Screen struct {
	typing screen.Field
	tag    string
	dips   int
	lower  quantity.Span
	ends   *ends
	memo   *memo
}

// ends are the times that end to end was asked for.
type ends struct{ lower, lift quantity.Span }

// memo keeps what takes long to reckon between two pictures.
type memo struct {
	blue   screen.Memo[screen.BluesKey, outlook.Blue]
	leaves screen.OfBlues[leaving, quantity.Range[quantity.Mass]]
	level  screen.OfBlues[levelled, shade.Level]
	lesson screen.OfBlues[string, string] // by the piece's tag
}

type leaving struct {
	tag  string
	dips int
}

type levelled struct {
	tag  string
	ends ends
}

// New is the planner for the piece that it was opened for.
func New(env screen.Env) screen.Screen { return Screen{tag: env.Tag, memo: &memo{}} }

func (s Screen) Capturing() bool { return s.typing.On() }

// blue is what is known of the blues of the day: the engine's, reckoned here only where it has not come to it.
func (s Screen) blue(v engine.View) outlook.Blue {
	return s.memo.blue.Of(screen.BluesKeyOf(v), func() outlook.Blue { return screen.Blue(v) })
}

// pieces are those that can be planned.
func pieces(s day.State) []day.Piece {
	return wording.Only(s.Pieces, func(p day.Piece) bool { return p.Live() && p.Spec.Form != outlook.Ladder })
}

// piece is the one in hand: the one chosen, else the first.
func (s Screen) piece(v engine.View) (day.Piece, bool) {
	all := pieces(v.State)
	if p, ok := wording.First(all, func(p day.Piece) bool { return p.Tag == s.tag }); ok {
		return p, true
	}
	return wording.First(all, func(day.Piece) bool { return true })
}

// most is how many dips are planned at most.
const most = 60

// chosen is the number of dips in hand: as chosen, else the best, else what is planned; never below those done.
func (s Screen) chosen(p day.Piece, c outlook.Coming) int {
	n := s.dips
	if n == 0 && c.Wish != nil && c.Answer.Likely > 0 && c.Answer.Likely < shade.NotWithin {
		n = c.Answer.Likely
	}
	return min(max(cmp.Or(n, p.Want()), 1, p.Dips), most)
}

func (s Screen) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	v, _ := env.Day()
	p, there := s.piece(v)
	switch {
	case s.typing.On() && there:
		return s.typed(k, p)
	case s.ends != nil && (k.Done() || k.Name == "esc"):
		s.ends = nil
		return s, nil
	case k.Name == "esc" || !there && k.Done():
		return s, []screen.Request{screen.Leave{}}
	case !there:
		return s, nil
	}
	if wants, told := screen.HandsTold(k, v); told {
		return s, wants
	}
	n := s.chosen(p, s.blue(v).Pieces[p.Tag])
	switch {
	case k.Done():
		return s, take(p, n)
	case k.Name == "left":
		s.dips = max(n-1, 1, p.Dips)
	case k.Name == "right":
		s.dips = min(n+1, most)
	case k.Name == "up" || k.Name == "down":
		return s.other(v, p, k.Way()), nil
	case k.Rune == '1':
		s.typing = screen.Field{What: "wish", Label: "Which blue shall " + p.Tag + " have?", Unit: "dark, rung 3, lab 31 -3 -20, #2a3b5c"}
	case k.Rune == '2':
		s.typing = screen.Field{What: "lower", Label: "Seconds from the first edge in till all of " + p.Tag + " is under", Unit: "s"}
	}
	return s, nil
}

func (s Screen) Focus(env screen.Env) string {
	v, _ := env.Day()
	p, _ := s.piece(v)
	return p.Tag
}

func (s Screen) other(v engine.View, p day.Piece, by int) Screen {
	all := pieces(v.State)
	for i := range all {
		if all[i].Tag == p.Tag {
			s.tag, s.dips, s.ends = all[(i+by+len(all))%len(all)].Tag, 0, nil
			break
		}
	}
	return s
}

// take plans so many dips for a piece, if another number is planned, and goes back.
func take(p day.Piece, dips int) []screen.Request {
	if p.Want() == dips {
		return []screen.Request{screen.Leave{}}
	}
	spec := p.Spec
	spec.Dips = dips
	return changed(p, spec, screen.Leave{})
}

func changed(p day.Piece, spec day.PieceSpec, then ...screen.Request) []screen.Request {
	do := screen.Do{Command: day.Record{Body: day.PieceChanged{OfPiece: day.OfPiece{Tag: p.Tag}, PieceSpec: spec}}}
	return append([]screen.Request{do}, then...)
}

// typed answers a key while a line is typed.
func (s Screen) typed(k screen.Key, p day.Piece) (screen.Screen, []screen.Request) {
	next, entered, left := s.typing.Take(k)
	s.typing = next
	if left || !entered {
		return s, nil
	}
	if s.typing.What == "wish" {
		spec, err := Wished(p, s.typing.Text)
		if err != nil {
			s.typing.Wrong = err.Error()
			return s, nil
		}
		s.typing, s.dips = screen.Field{}, 0
		return s, changed(p, spec)
	}
	took, err := seconds(s.typing.Text)
	switch {
	case err != nil:
		s.typing.Wrong = err.Error()
	case s.typing.What == "lower":
		s.lower = took
		s.typing = screen.Field{What: "lift", Label: "Seconds from the first edge out till all of " + p.Tag + " is out", Unit: "s"}
	default:
		s.ends, s.typing = &ends{s.lower, took}, screen.Field{}
	}
	return s, nil
}

// seconds reads a time at the vat.
func seconds(text string) (quantity.Span, error) {
	text = strings.Replace(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "s")), ",", ".", 1)
	n, err := strconv.ParseFloat(text, 64)
	if err != nil || !(n >= 0 && n <= 3600) {
		return 0, fmt.Errorf("type how many seconds, such as 20")
	}
	return quantity.Span(math.Round(n) * float64(time.Second)), nil
}

// Wished is what is said of a piece with another blue wished: a depth, a rung, a colour, or a piece of the book.
func Wished(p day.Piece, text string) (day.PieceSpec, error) {
	spec, text := p.Spec, strings.TrimSpace(text)
	spec.Depth, spec.Rung, spec.Lab, spec.Like = "", 0, [3]float64{}, ""
	if parts := strings.Split(text, "/"); len(parts) == 3 && !strings.Contains(text, " ") {
		spec.Like = text
	} else if err := screen.Wish(&spec, text); err != nil {
		return spec, err
	}
	if spec.Depth != "" { // the dips go by its name
		spec.Dips = 0
	} else { // they stay as many and as long as they were, also where they went by a name
		spec.Dips, spec.Dip = p.Want(), p.DipTime()
	}
	return spec, nil
}

// cautions are what stands outside of what the recipe and indigo are for.
func cautions(v engine.View, p day.Piece, c outlook.Coming) []string {
	f, _ := fibre.Parse(p.Spec.Fibre) // unknown counts as cotton
	goods := shade.Piece{Fibre: f, Ground: shade.GroundOf(f), Dry: p.Spec.Dry, Tag: p.Tag}
	out := shade.Cautions(goods, outlook.StateOf(v.State, screen.Outlook(v), v.Now, nil), p.DipTime())
	if c.Wish != nil {
		if words := c.Wish.Caution(c.Cloth); words != "" {
			out = append([]string{words}, out...)
		}
	}
	return out
}

func (s Screen) Keys(env screen.Env) []widget.Key {
	v, _ := env.Day()
	p, there := s.piece(v)
	switch {
	case s.typing.On():
		return screen.Keys("enter", "take it", "esc", "leave it")
	case s.ends != nil:
		return screen.Keys("enter", "back to the strip")
	case !there:
		return screen.Keys("enter", "back")
	}
	n := s.chosen(p, s.blue(v).Pieces[p.Tag])
	figures := screen.HandsKeys(v)
	if figures == nil {
		figures = screen.Keys("1", "the wish", "2", "end to end")
	}
	keys := append(screen.Keys("enter", "take "+strconv.Itoa(n), "← →", "dips"), figures...)
	return append(keys, screen.Keys("↑ ↓", "other pieces", "esc", "back")...)
}
