// Package piecefile reads the pieces of a day from a text of [[piece]] blocks.
package piecefile

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/tree"
	"example.org/vatside/model/wording"
)

// keysOfPiece are the keys of a [[piece]].
var keysOfPiece = []string{"tag", "what", "fibre", "dry", "depth", "dips", "rung", "form", "work", "who", "dip", "air", "from", "till", "demo"}

// Parse reads a text of [[piece]] blocks in DESIGN's form. name is only for the faults; begins is the time of day at which the plan starts,
// after midnight, for a from or till such as "10:30". They may also be a span from the start ("90 min") or a number of minutes. rung = 5
// asks for five dips. What is left out is filled in as load.Piece's Fill does. A key that is not known is a fault; every fault is told, in
// the order of the lines. With faults the pieces must not be used.
func Parse(name, text string, begins quantity.Span) ([]load.Piece, recipe.Faults) {
	all, faults := recipe.Keys(name, []byte(text), "a text of pieces", "it is", "each line is [[piece]]")
	if len(faults) > 0 {
		return nil, faults
	}
	r := &reader{name: name, begins: begins, where: tree.PlacesOf([]byte(text))}
	for key := range all {
		if key != "piece" {
			at := r.where.Key(key)
			r.fault(at.Line, at.Col, fmt.Sprintf("%q is not known here", key), "pieces stand in [[piece]] blocks")
		}
	}
	blocks, ok := all["piece"].([]map[string]any)
	if !ok && all["piece"] != nil {
		at := r.where.Key("piece")
		r.fault(at.Line, at.Col, "piece is not a block", "write [[piece]] above each piece")
	}
	if len(blocks) == 0 && len(r.faults) == 0 {
		r.fault(1, 1, "there are no pieces", "write [[piece]] above each piece")
	}
	var out []load.Piece
	tags := map[string]bool{}
	for n, b := range blocks {
		r.block, r.keys = n, b
		p := r.piece()
		if p.Tag != "" && tags[p.Tag] {
			r.wrong("tag", fmt.Sprintf("another piece is called %q", p.Tag), "give each its own tag")
		}
		tags[p.Tag] = true
		out = append(out, p)
	}
	sorted.By(r.faults, func(a, b recipe.Fault) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col), cmp.Compare(a.What, b.What))
	})
	return out, r.faults
}

// reader reads one block after another and gathers the faults.
type reader struct {
	name   string
	begins quantity.Span
	where  *tree.Places
	block  int
	keys   map[string]any
	faults recipe.Faults
}

func (r *reader) fault(line, col int, what, right string) {
	r.faults = append(r.faults, recipe.Fault{File: r.name, Line: line, Col: col, What: wording.Show(what).String(), Right: wording.Show(right).String()})
}

// wrong is a fault at a key of the block, or at its head.
func (r *reader) wrong(key, what, right string) {
	at := r.where.Key(fmt.Sprintf("piece.%d.%s", r.block, key))
	r.fault(at.Line, at.Col, what, right)
}

// word is the text under a key.
func (r *reader) word(key string) string {
	v, ok := r.keys[key]
	if !ok {
		return ""
	}
	s, ok := v.(string)
	if !ok {
		r.wrong(key, key+" is not text", `write it in quotes, such as `+key+` = "…"`)
		return ""
	}
	if what, _ := wording.Unfitness(s); what != "" || s != wording.Show(s).String() {
		r.wrong(key, key+" holds "+cmp.Or(what, "a line break or a tab"), "write plain text on one line")
		return ""
	}
	return strings.TrimSpace(s)
}

// oneOf is a text that is one of a few.
func (r *reader) oneOf(key string, known ...string) string {
	s := r.word(key)
	if s != "" && !slices.Contains(known, s) {
		r.wrong(key, fmt.Sprintf("%s %q is not known", key, s), "say one of "+strings.Join(known, ", "))
		return ""
	}
	return s
}

// count is a whole number of dips.
func (r *reader) count(key string) int {
	v, ok := r.keys[key]
	if !ok {
		return 0
	}
	n, ok := v.(int64)
	if !ok || n < 1 || n > load.MostDips {
		r.wrong(key, fmt.Sprintf("%s is not a number of dips", key), fmt.Sprintf("say 1 to %d", load.MostDips))
		return 0
	}
	return int(n)
}

// read is what a text under a key says; nothing, if there is none. before comes before the faults of parse.
func read[T any](r *reader, key, before string, parse func(string, quantity.System) (T, error), fits func(T) bool, right string) (v T) {
	s := r.word(key)
	if s == "" {
		return v
	}
	got, err := parse(s, quantity.Metric)
	switch {
	case err != nil:
		r.wrong(key, strings.TrimSuffix(before+err.Error(), "."), "")
	case !fits(got):
		r.wrong(key, fmt.Sprintf("%s is %v", key, got), right)
	default:
		return got
	}
	return v
}

// time is a span under a key, above zero.
func (r *reader) time(key string) quantity.Span {
	return read(r, key, key+": ", quantity.ParseSpan, func(v quantity.Span) bool { return v >= quantity.Seconds(1) && v <= quantity.Days(1) }, "say 1 s to 1 day")
}

// flag is true or false under a key.
func (r *reader) flag(key string) bool {
	v, ok := r.keys[key].(bool)
	if !ok && r.keys[key] != nil {
		r.wrong(key, key+" is neither true nor false", "say "+key+" = true, or leave it out")
	}
	return v
}

// moment is a time of the plan under a key, from the start: when a piece's person comes, or leaves.
func (r *reader) moment(key string) quantity.Span {
	v, ok := r.keys[key]
	if !ok {
		return 0
	}
	span, known := quantity.Span(0), false
	switch v := v.(type) {
	case int64:
		span, known = quantity.Minutes(float64(v)), true
	case float64:
		span, known = quantity.Minutes(v), !math.IsNaN(v)
	case string:
		if at, err := time.Parse("15:04", strings.TrimSpace(v)); err == nil {
			return max(0, quantity.Minutes(float64(60*at.Hour()+at.Minute()))-r.begins)
		}
		s, err := quantity.ParseSpan(v, quantity.Metric)
		span, known = s, err == nil
	}
	if !known || span < 0 || span > quantity.Days(1) {
		r.wrong(key, key+" is not a time", `say a time of day, "10:30", or minutes from the start, 90 or "90 min"`)
		return 0
	}
	return span
}

// piece reads the block.
func (r *reader) piece() load.Piece {
	for key := range r.keys {
		switch {
		case key == "lab" || key == "like":
			r.wrong(key, fmt.Sprintf("a timetable cannot be made from %s, which asks for the vat's own swatches", key), "say depth or dips")
		case !slices.Contains(keysOfPiece, key):
			r.wrong(key, fmt.Sprintf("%q is not known in a piece", key), "say one of "+strings.Join(keysOfPiece, ", "))
		}
	}
	faults := len(r.faults)
	p := load.Piece{Tag: r.word("tag"), What: r.word("what"), Who: r.word("who"), Depth: r.word("depth"), Dips: r.count("dips"),
		Form: r.oneOf("form", load.Cloth, load.Tight, load.Skein, load.Garment, load.Bound, load.Pasted), Work: r.oneOf("work", load.Moved, load.Hung),
		Fibre: read(r, "fibre", "", func(s string, _ quantity.System) (fibre.Fibre, error) { return fibre.Parse(s) }, func(fibre.Fibre) bool { return true }, ""),
		Dry:   read(r, "dry", "dry: ", quantity.ParseMass, func(v quantity.Mass) bool { return v > 0 && v <= quantity.Kilograms(1000) }, "say more than nothing and at most 1000 kg"),
		Dip:   r.time("dip"), Air: r.time("air"), From: r.moment("from"), Till: r.moment("till"), Demo: r.flag("demo")}
	if len(r.faults) == faults && r.keys["till"] != nil && p.Till <= p.From {
		r.wrong("till", "till is not after the start, or after from", "say when its person leaves")
	}
	for _, must := range [][3]string{{"tag", "the piece has no tag", `give it one: tag = "A1"`}, {"fibre", "the piece has no fibre", `say which: fibre = "linen"`},
		{"dry", "the piece has no dry weight", `weigh it: dry = "420 g"`}} {
		if text, is := r.keys[must[0]].(string); r.keys[must[0]] == nil || is && strings.TrimSpace(text) == "" {
			r.wrong(must[0], must[1], must[2])
		}
	}
	rung := r.count("rung")
	p.Dips = cmp.Or(p.Dips, rung)
	if r.keys["depth"] != nil && (r.keys["dips"] != nil || r.keys["rung"] != nil) || r.keys["dips"] != nil && r.keys["rung"] != nil {
		r.wrong("dips", "depth, dips and rung are given together", "keep one of them")
	}
	if len(r.faults) > faults {
		return p
	}
	full, err := p.Fill()
	if err != nil {
		r.wrong("depth", strings.TrimSuffix(err.Error(), "."), "")
	}
	return full
}
