package clock

import (
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// blues keeps what takes long to reckon between two pictures, and the forecasts of pieces that are done: the engine
// reckons only those of live ones.
type blues struct {
	stop   screen.OfBlues[string, string] // by the piece's tag
	cloths screen.OfBlues[dipped, style.Shade]
	looks  screen.OfBlues[compared, []widget.Patch]
	done   map[string]outlook.Coming
}

// dipped is a piece that had so many dips, after so many.
type dipped struct {
	tag       string
	had, dips int
}

// compared is what the cloths beside a look go by.
type compared struct {
	tag, depth string
	dips       int
}

// coming is the forecast of a piece; false where nothing is known.
func (s Screen) coming(v engine.View, p day.Piece) (outlook.Coming, bool) {
	if v.Blue == nil || v.Blue.Claim == "" {
		return outlook.Coming{}, false
	}
	c, live := v.Blue.Pieces[p.Tag]
	kept, had := s.blues.done[p.Tag]
	switch {
	case live:
		s.blues.done[p.Tag] = c
		return c, true
	case had && (kept.Now == nil || kept.Now.Dips == p.Dips):
		return kept, true
	case p.Dips > 0:
		c = v.Blue.Plan(p)
		s.blues.done[p.Tag] = c
		return c, true
	}
	return c, false
}

// cloth is a piece after so many dips: by its forecast, else as usual.
func (s Screen) cloth(v engine.View, p day.Piece, dips int) style.Shade {
	return s.blues.cloths.Of(v, dipped{p.Tag, p.Dips, dips}, func() style.Shade {
		if c, ok := s.coming(v, p); ok {
			return screen.After(c, dips)
		}
		return screen.ClothOf(dips)
	})
}

// aired tells whether a piece is out, turned blue, and may be held beside a rung.
func aired(v engine.View, p day.Piece) bool {
	if p.Dips == 0 || p.Spec.Form == outlook.Ladder || p.Phase != day.Airing && p.Phase != day.Aired {
		return false
	}
	return !slices.ContainsFunc(v.Dues(), func(d day.Due) bool { return d.Tag == p.Tag && d.At.After(v.Now) })
}

// compared is the piece that can be told by a rung now: in focus, aired, and not told since its last dip; looked is true
// when it was told.
func (s Screen) compared(v engine.View) (p day.Piece, looked, ok bool) {
	p, there := v.State.Piece(s.focus(v))
	if !there || !aired(v, p) {
		return p, false, false
	}
	looked = slices.ContainsFunc(v.State.Samples(), func(x day.Sample) bool { return !x.Strip && x.Tag == p.Tag && x.Dips == p.Dips })
	return p, looked, true
}

// rungs are the numbers of the vat's ladder.
func rungs(v engine.View) []int {
	if v.Blue == nil {
		return nil
	}
	return wording.Each(v.Blue.Rungs, func(r outlook.Rung) int { return r.No })
}

// like takes a figure as the rung that the piece in hand looks like.
func (s Screen) like(v engine.View, no int) []screen.Request {
	p, _, ok := s.compared(v)
	all := rungs(v)
	if !ok || lifting(v) || len(all) == 0 {
		return nil
	}
	if slices.Contains(all, no) {
		return []screen.Request{screen.Do{Command: day.Record{Body: day.LookedAt{OfPiece: day.OfPiece{Tag: p.Tag}, Looks: fmt.Sprintf("rung %d", no), Wet: true}}}}
	}
	return []screen.Request{screen.Say{Word: fmt.Sprintf("the ladder has no rung %d: %s", no, figures(all))}}
}

// figures are the rungs that a key tells: "1–4".
func figures(all []int) string {
	low, high := all[0], min(all[len(all)-1], 9)
	if low == high {
		return fmt.Sprint(low)
	}
	return fmt.Sprintf("%d–%d", low, high)
}

// asks is what the piece in hand is asked, or what its look came to; "" where there is nothing to ask.
func (s Screen) asks(v engine.View) string {
	all := rungs(v)
	if len(all) == 0 {
		return ""
	}
	p, looked, ok := s.compared(v)
	if !ok {
		return ""
	}
	_, decides := v.Look() // then figures answer that
	switch {
	case !looked && (decides || lifting(v)):
		return ""
	case !looked:
		return "Beside a wetted rung: which is it like? " + figures(all)
	}
	return s.blues.stop.Of(v, p.Tag, func() string {
		stop, ok := v.Blue.Stop(p)
		if !ok || stop.Words == "" {
			return "Noted."
		}
		words, _, _ := strings.Cut(stop.Words, ";")
		words += wording.If(stop.Best > 0 || stop.Further, " (B: how many dips)")
		return wording.Upper(words) + "."
	})
}

// cut says which rung is cut off a ladder that has come out; "" for other pieces.
func cut(p day.Piece) string {
	if p.Spec.Form != outlook.Ladder || p.Dips == 0 || p.Phase != day.Airing && p.Phase != day.Aired {
		return ""
	}
	return fmt.Sprintf("cut one strip off: rung %d", p.Dips)
}
