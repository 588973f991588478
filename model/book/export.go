package book

import (
	"bytes"
	"cmp"
	"encoding"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// Exported is the book as tables, in the order of TableFiles.
type Exported struct {
	Tables     []Table
	LeftOut    []Finding // what stands in the book and not in the tables
	Damage     []string  // a line for each day that is not whole
	PassedOver []string  // the days, vat/day, that are not in the tables at all
}

// Export makes the tables of days; today is as for ReadOn. A head, an event or a tail that cannot be read is left out and
// told, and so is a file without a head.
func Export(today time.Time, leaves []Leaf) Exported {
	var out Exported
	days, events, pieces, readings := newTable(DaysFile), newTable(EventsFile), newTable(PiecesFile), newTable(ReadingsFile)
	for _, l := range leaves {
		b, head, texts := l.read(today)
		if what := b.Lacks(); what != "" {
			out.PassedOver = append(out.PassedOver, l.Path())
			out.leave(b.File, 1, "the day is left out: %s", what)
			continue
		}
		if b.HeadErr != nil {
			out.PassedOver = append(out.PassedOver, l.Path())
			out.leave(b.File, 1, "the day is left out, its head cannot be read: %v", b.HeadErr)
			continue
		}
		for _, u := range b.Unread {
			out.leave(b.File, u.Line, "an event is left out, it cannot be read: %s", u.What)
		}
		if len(b.Torn) > 0 {
			out.leave(b.File, b.TornLine, "the torn block is left out, it was never saved")
		}
		if damage := b.Damage(); damage != "" {
			out.Damage = append(out.Damage, NotWhole(l.Path(), damage))
		}
		days.day(l, b, head)
		for i, e := range b.Events {
			events.event(l, e, texts[i], b.Head.Setup.System())
		}
		s, errs := day.Replay(b.Head, b.Events)
		if len(s.Plan) == 0 && len(errs) > 0 {
			out.leave(b.File, 1, "the pieces and readings of this day are left out: %v", errs[0])
			continue
		}
		told := slices.Collect(s.Corrected())
		for _, p := range s.Pieces {
			pieces.piece(l, p, told)
		}
		for _, e := range told {
			readings.reading(l, e)
		}
	}
	for _, t := range []*tableWriter{days, events, pieces, readings} {
		out.Tables = append(out.Tables, t.done())
	}
	return out
}

func (x *Exported) leave(file string, line int, format string, args ...any) {
	x.LeftOut = append(x.LeftOut, Finding{File: file, Line: line, What: fmt.Sprintf(format, args...), Lost: true})
}

// read is the day, the text of its head, and the texts of its events.
func (l Leaf) read(today time.Time) (b Book, head []byte, texts [][]byte) {
	b = read(today, l.Path(), l.Text, func(text []byte) { texts = append(texts, text) })
	if blocks := cut(l.Text); len(blocks) > 0 && blocks[0].head {
		head = unixLines(l.Text[blocks[0].from:blocks[0].to])
	}
	return b, head, texts
}

func (t *tableWriter) day(l Leaf, b Book, head []byte) {
	opened, closed := "", ""
	for _, e := range b.Events {
		if opened == "" {
			opened = stamp(e.At)
		}
		switch e.Body.(type) {
		case day.Closed, day.VatEnded:
			closed = stamp(e.At)
		}
	}
	h := b.Head
	t.row(l.Vat, l.Day, oneLine(h.Name()), oneLine(h.Recipe.Name), figure(h.Setup.Fill), oneLine(h.Zone),
		opened, closed, strconv.Itoa(len(b.Events)), strings.TrimSuffix(string(head), "\n"))
}

func (t *tableWriter) event(l Leaf, e day.Event, text []byte, u quantity.System) {
	keys, up := common, ""
	if bootForm().MatchString(e.Boot) {
		up = upText(e.Up)
	} else { // a hand has been at it: it stays among the fields
		e.Boot, keys = "", common[:3]
	}
	t.row(l.Vat, l.Day, strconv.Itoa(e.Seq), stamp(e.At), e.Boot, up, e.Body.Kind(),
		strings.TrimSuffix(string(own(text, keys)), "\n"), oneLine(e.Body.Sentence(u)))
}

// own is a block without its first line and without the keys that have columns of their own. All else stays as it is, so
// that what only a later version knows is kept.
func own(text []byte, keys []string) []byte {
	if trimmed := bytes.TrimLeft(text, " \t"); len(trimmed) > 0 && trimmed[0] == '[' { // as readEvent has it
		text = text[min(lineEnd(text, 0)+1, len(text)):]
	}
	var out []byte
	for i := 0; i < len(text); {
		from := i
		for i < len(text) && (text[i] == ' ' || text[i] == '\t') {
			i++
		}
		mine := true
		switch {
		case i == len(text) || text[i] == '\n' || text[i] == '#':
			i = lineEnd(text, i)
		case text[i] == '[':
			return append(out, text[from:]...)
		default:
			end := pairEnd(text, i)
			key, _, _ := strings.Cut(string(text[i:end]), "=")
			mine = !slices.Contains(keys, strings.Trim(strings.TrimSpace(key), `"'`))
			i = end
		}
		i = min(i+1, len(text))
		if mine {
			out = append(out, text[from:i]...)
		}
	}
	return out
}

func (t *tableWriter) piece(l Leaf, p day.Piece, told []day.Event) {
	var in quantity.Span
	first, last := "", ""
	for _, d := range p.Past {
		if first == "" && !d.Begun.IsZero() {
			first = stamp(d.Begun)
		}
		if !d.Ended.IsZero() {
			last = stamp(d.Ended)
			in += quantity.Span(d.Ended.Sub(d.Begun))
		}
	}
	look, finished := "", ""
	for _, e := range told {
		switch b := e.Body.(type) {
		case day.LookedAt:
			if b.Tag == p.Tag && b.Looks != "" {
				look = b.Looks
			}
		case day.Finished:
			if b.Tag == p.Tag {
				finished = stamp(e.At)
			}
		}
	}
	t.row(l.Vat, l.Day, oneLine(p.Tag), oneLine(p.Spec.What), oneLine(p.Spec.Fibre), figure(p.Spec.Dry), oneLine(wished(p.Spec)),
		oneLine(p.Spec.Who), strconv.Itoa(p.Dips), first, last, decimal(math.Round(in.Minutes()*100)/100), oneLine(look), p.Phase.Word(), finished)
}

// wished is the blue that a piece is to have, in one of the ways of saying it.
func wished(p day.PieceSpec) string {
	switch {
	case p.Depth != "":
		return p.Depth
	case p.Rung > 0:
		return fmt.Sprintf("rung %d", p.Rung)
	case p.Lab != [3]float64{}:
		return fmt.Sprintf("lab %g %g %g", p.Lab[0], p.Lab[1], p.Lab[2])
	case p.Like != "":
		return "like " + p.Like
	case p.Dips > 0:
		return strconv.Itoa(p.Dips) + " dips"
	}
	return ""
}

func (t *tableWriter) reading(l Leaf, e day.Event) {
	row := func(cells ...string) {
		t.row(append([]string{l.Vat, l.Day, strconv.Itoa(e.Seq), stamp(e.At)}, cells...)...)
	}
	switch b := e.Body.(type) {
	case day.Reading:
		ph := ""
		if b.PH != nil {
			ph = decimal(*b.PH)
		}
		row(shown(b.Temp), ph, shown(b.PHTemp), "", shown(b.BelowRim), shown(b.Holds), oneLine(cmp.Or(b.Of, "vat")))
	case day.StripTest:
		row("", "", "", decimal(b.Stayed.Seconds()), "", "", "vat")
	}
}

// shown is what an instrument showed, empty where it was not looked at.
func shown[T quantity.Temperature | quantity.Length | quantity.Volume](v *T) string {
	if v == nil {
		return ""
	}
	return figure(any(*v).(encoding.TextMarshaler))
}

// figure is the number of a quantity in the unit of the book, exactly; empty for one that the book cannot hold.
func figure(q encoding.TextMarshaler) string {
	text, err := q.MarshalText()
	number, _, _ := strings.Cut(string(text), " ")
	if err != nil {
		return ""
	}
	return number
}

func decimal(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
