package clock

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// blues keeps what takes long to reckon between two pictures, and the forecasts of pieces that are done: the engine
// reckons only those of live ones.
type blues struct {
	stop   screen.Memo[asked, string]
	cloths screen.Memo[screen.BluesKey, map[dipped]style.Shade]
	drawn  screen.Memo[seen, map[picture]string]
	looks  screen.Memo[compared, []widget.Patch]
	done   map[string]outlook.Coming
}

// dipped is a piece that had so many dips, after so many.
type dipped struct {
	tag       string
	had, dips int
}

// compared is what the cloths beside a look go by.
type compared struct {
	day        screen.BluesKey
	tag, depth string
	dips       int
}

// asked is what the words to stop go by.
type asked struct {
	day screen.BluesKey
	tag string
}

// seen is what all pictures of pieces go by.
type seen struct {
	day     screen.BluesKey
	columns int
	st      style.Style
}

// picture is the ladder of a piece that had so many dips, or what is said of its blue.
type picture struct {
	tag       string
	had, want int
	in, blue  bool
}

// picture is one that is drawn once for as long as it stays the same.
func (s Screen) picture(of picture, v engine.View, columns int, st style.Style, draw func() string) string {
	if s.blues == nil {
		return draw()
	}
	drawn := s.blues.drawn.Of(seen{screen.BluesKeyOf(v), columns, st}, func() map[picture]string { return map[picture]string{} })
	text, ok := drawn[of]
	if !ok {
		text = draw()
		drawn[of] = text
	}
	return text
}

func newBlues() *blues { return &blues{done: map[string]outlook.Coming{}} }

// coming is the forecast of a piece; false where nothing is known.
func (s Screen) coming(v engine.View, p day.Piece) (outlook.Coming, bool) {
	if v.Blue == nil || v.Blue.Claim == "" {
		return outlook.Coming{}, false
	}
	c, live := v.Blue.Pieces[p.Tag]
	if s.blues == nil {
		return c, live
	}
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
	reckon := func() style.Shade {
		if c, ok := s.coming(v, p); ok {
			return screen.After(c, dips)
		}
		return screen.ClothOf(dips)
	}
	if s.blues == nil {
		return reckon()
	}
	known := s.blues.cloths.Of(screen.BluesKeyOf(v), func() map[dipped]style.Shade { return map[dipped]style.Shade{} })
	of := dipped{p.Tag, p.Dips, dips}
	cloth, ok := known[of]
	if !ok {
		cloth = reckon()
		known[of] = cloth
	}
	return cloth
}

// edge is the cloth in hand, in the blue that it has.
func (s Screen) edge(v engine.View, a day.Act) style.Shade {
	if a.Piece.Tag != "" {
		return s.cloth(v, a.Piece, a.Piece.Dips)
	}
	for _, p := range v.State.Pieces {
		if p.Live() {
			return s.cloth(v, p, p.Dips)
		}
	}
	return screen.LiquorOf(v.State)
}

// swatch is how many cells the two swatches under the table have.
const swatch = 2

// blue is the line under the table: the piece in hand as it is and as the next dip makes it, and how sure that is. Facts
// without room go from the end.
func (s Screen) blue(v engine.View, tag string, columns int, st style.Style) string {
	claim := "blue by dips: " + shade.Claim
	p, there := v.State.Piece(tag)
	c, known := s.coming(v, p)
	if v.Blue != nil && v.Blue.Claim != "" {
		claim = "blues by your swatches"
		if screen.IsGuess(v.Blue.Claim) {
			claim = "blues: a guess, as no swatch was judged"
		}
	}
	if !there || !known {
		if style.Width(claim) > columns {
			claim, _, _ = strings.Cut(claim, ",")
		}
		return st.Dim.Render(claim)
	}
	patch := func(dips int, word string) string {
		cloth := s.cloth(v, p, dips)
		return st.Fill(cloth, swatch) + " " + st.Dim.Render(strings.TrimSpace(cloth.Name+" "+word))
	}
	facts := []string{patch(p.Dips, "now"), patch(p.Dips+1, "next")}
	if screen.IsGuess(c.Claim) {
		facts = append(facts, st.Dim.Render("a guess"))
	} else {
		facts = append(facts, st.Dim.Render("by your swatches"))
	}
	if c.Wished != nil {
		facts = append(facts, st.Fill(style.Dyed(*c.Wished), swatch)+" "+st.Dim.Render("wished"))
	}
	line := st.Dim.Render(p.Tag)
	for _, f := range facts {
		if style.Width(line)+2+style.Width(f) > columns {
			break
		}
		line += "  " + f
	}
	return line
}

// aired tells whether a piece is out, turned blue, and may be held beside a rung.
func aired(v engine.View, p day.Piece) bool {
	if p.Dips == 0 || p.Spec.Form == outlook.Ladder || p.Phase != day.Airing && p.Phase != day.Aired {
		return false
	}
	for _, d := range v.Dues() {
		if d.Tag == p.Tag && d.At.After(v.Now) {
			return false
		}
	}
	return true
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
	var out []int
	for _, r := range v.Blue.Rungs {
		out = append(out, r.No)
	}
	return out
}

// like takes a figure as the rung that the piece in hand looks like.
func (s Screen) like(v engine.View, no int) []screen.Request {
	p, _, ok := s.compared(v)
	all := rungs(v)
	if !ok || lifting(v) || len(all) == 0 {
		return nil
	}
	for _, r := range all {
		if r == no {
			return []screen.Request{screen.Do{Command: day.Record{Body: day.LookedAt{OfPiece: day.OfPiece{Tag: p.Tag}, Looks: fmt.Sprintf("rung %d", no), Wet: true}}}}
		}
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
	reckon := func() string {
		stop, ok := v.Blue.Stop(p)
		if !ok || stop.Words == "" {
			return "Noted."
		}
		words, _, _ := strings.Cut(stop.Words, ";")
		if stop.Best > 0 || stop.Further {
			words += " (B plans)"
		}
		return wording.Upper(words) + "."
	}
	if s.blues == nil {
		return reckon()
	}
	return s.blues.stop.Of(asked{screen.BluesKeyOf(v), p.Tag}, reckon)
}

// cut says which rung is cut off a ladder that has come out; "" for other pieces.
func cut(p day.Piece) string {
	if p.Spec.Form != outlook.Ladder || p.Dips == 0 || p.Phase != day.Airing && p.Phase != day.Aired {
		return ""
	}
	return fmt.Sprintf("cut one strip off: rung %d", p.Dips)
}

// table is the row of pieces, each its own ladder; a click chooses one that still dips.
func (s Screen) table(v engine.View, act day.Act, env screen.Env) widget.List {
	var rows []widget.PieceRow
	var spots []widget.Spot
	columns := widget.Columns(env.Width)
	focus, dues := cmp.Or(s.chosen, act.Piece.Tag), v.Dues()
	call := v.Call()
	parts := s.parts(v, call)
	for i, p := range lanes(v, focus, env.Height) {
		if p.Live() {
			spots = append(spots, widget.Spot{Line: i, Row: i})
		}
		done, want, in := min(p.Dips, most), min(p.Want(), most), p.Phase == day.InVat
		ladder := s.picture(picture{p.Tag, p.Dips, want, in, false}, v, columns, env.Style, func() string {
			shades := make([]style.Shade, max(want, done)+1)
			for i := range shades {
				shades[i] = s.cloth(v, p, i+1)
			}
			return widget.Ladder(done, in, want, shades, env.Style)
		})
		says := where(v, dues, p, p.Tag != act.Piece.Tag && !slices.Contains(act.Tags, p.Tag))
		switch {
		case p.Tag == s.chosen:
			says = "chosen: " + says
		case parts && slices.Contains(s.left(call), p.Tag):
			says = fmt.Sprintf("%d: left out", i+1)
		case parts && i < 9 && slices.Contains(call.Tags, p.Tag):
			says = fmt.Sprintf("%d: %s", i+1, says)
		}
		rows = append(rows, widget.PieceRow{
			Tag: p.Tag, What: p.Spec.What, Ladder: ladder, Says: says,
			Now: p.Tag == s.chosen || s.chosen == "" && p.Tag == act.Piece.Tag && wanted(act, v),
		})
	}
	if len(rows) == 0 {
		return widget.List{}
	}
	p, _ := v.State.Piece(focus)
	blue := s.picture(picture{focus, p.Dips, 0, false, true}, v, columns, env.Style, func() string { return s.blue(v, focus, columns, env.Style) })
	return widget.List{Lines: append(widget.Pieces(rows, columns, env.Style), blue), Spots: spots}
}
