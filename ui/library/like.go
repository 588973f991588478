package library

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/history"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/shelf"
)

// Piece is a piece of the book, with its blue.
type Piece struct {
	Vat, Day, Tag string    // the last day on which it was in work
	At            time.Time // the last event of that day
	Recipe        string    // the id of that day's
	Spec          day.PieceSpec
	Dips          int
	Dip, Air      quantity.Span // as history.Blue.Took has them
	Lab           colour.Lab
	Told          history.Told
}

func pieceOf(vat string, b history.Blue) Piece {
	p := Piece{Vat: vat, Day: b.Of.Name, Tag: b.Piece.Tag, At: b.Of.State.At, Recipe: b.Of.State.Head.Recipe.ID, Spec: b.Piece.Spec, Dips: b.Piece.Dips, Lab: b.Lab, Told: b.Told}
	p.Dip, p.Air = b.Took()
	return p
}

// Path is VAT/DAY/TAG.
func (p Piece) Path() string { return p.Vat + "/" + p.Day + "/" + p.Tag }

// Fibre is Unknown where the book names one that is not known here.
func (p Piece) Fibre() fibre.Fibre {
	f, _ := fibre.Parse(p.Spec.Fibre)
	return f
}

// All goes through all vats and hands over the pieces of each that is wanted that have a blue of their own, the newest first.
// newest is the newest day of each vat, where that one can be read. errs is what could not be read or is not whole. Days are read
// one vat at a time, and of a vat whose pieces the index knows only the newest.
func All(h shelf.Home, wanted func(vat string) bool, each func([]Piece)) (newest []Day, errs []error, err error) {
	vats, err := h.Vats()
	if err != nil {
		return nil, nil, err
	}
	for _, vat := range vats {
		names, err := h.Days(vat)
		if err != nil {
			errs = append(errs, err)
		}
		if len(names) == 0 {
			continue
		}
		var known []Piece
		knows, read := answered(h, vat, piecesKept(), names, &known), names
		if knows {
			read = names[len(names)-1:]
		}
		var last Day
		take, tell := gather(h, vat)
		wrong := readEach(h, vat, read, func(d Day) {
			if last = d; !knows && wanted(vat) {
				take(d)
			}
		})
		errs = append(errs, wrong...)
		if last.Name == names[len(names)-1] {
			last.Now = Present(last.State)
			newest = append(newest, last)
		}
		switch {
		case !wanted(vat):
		case knows:
			each(known)
		default:
			known = tell()
			if len(wrong) == 0 && err == nil {
				remember(h, vat, "", piecesKept(), names, known)
			}
			each(known)
		}
	}
	return newest, errs, nil
}

// gather takes up the days of a vat, the oldest first, and tells the pieces that have a blue of their own, the newest first. A day by
// which a colour is to be reckoned is read again then.
func gather(h shelf.Home, vat string) (take func(Day), tell func() []Piece) {
	var blues history.Blues
	know, keep := knowing(h, vat)
	take = func(d Day) {
		past := d.Past()
		know(&past)
		blues.Take(&past, past.Bare())
	}
	return take, func() (out []Piece) {
		for _, b := range slices.Backward(blues.Tell(func(name string) (history.Day, bool) {
			d, err := read(h, vat, name)
			return d.Past(), err == nil
		})) {
			if b.Known() {
				out = append(out, pieceOf(vat, b))
			}
		}
		keep()
		return out
	}
}

// PieceNamed is the piece that VAT/DAY/TAG names, with its blue.
func PieceNamed(h shelf.Home, text string) (Piece, error) {
	parts := strings.SplitN(strings.TrimSpace(text), "/", 3)
	if len(parts) != 3 || slices.Contains(parts, "") {
		return Piece{}, fmt.Errorf("%s is no piece; write VAT/DAY/TAG, such as garden-bin/2026-11-25/A1", strings.TrimSpace(text))
	}
	vat, err := VatNamed(h, parts[0])
	if err != nil {
		return Piece{}, err
	}
	names, err := h.Days(vat)
	if err != nil {
		return Piece{}, err
	}
	days, _ := Days(h, vat, names)
	know, keep := knowing(h, vat)
	defer keep()
	for i := range days {
		know(&days[i])
	}
	return pieceOn(vat, days, parts[1], parts[2])
}

// pieceOn is the piece of a day of a vat with its blue; the error says why it has none.
func pieceOn(vat string, days history.Vat, name, tag string) (Piece, error) {
	names := wording.Each(days, func(d history.Day) string { return d.Name })
	at := slices.Index(names, name)
	if at < 0 {
		return Piece{}, fmt.Errorf("vat %s has no day %q that can be read: it has %s", vat, name, wording.List(names))
	}
	b, dipped := history.BlueNamed(days, name, tag)
	if dipped && b.Known() {
		return pieceOf(vat, b), nil
	}
	_, there := days[at].State.Piece(tag)
	switch {
	case !there && !dipped:
		tags := wording.Each(days[at].State.Pieces, func(p day.Piece) string { return p.Tag })
		return Piece{}, fmt.Errorf("day %s of vat %s has no piece %q: it has %s", name, vat, tag, wording.List(tags))
	case !dipped:
		return Piece{}, fmt.Errorf("%s had no dip, so it has no blue", tag)
	}
	return Piece{}, fmt.Errorf("%s is not finished, and was not looked at dry and rinsed since its last dip", tag)
}

// Likened gives a piece that is wished like one of the book that one's colour, and where its dips are not said as many as that one
// had. Other commands stay as they are.
func Likened(h shelf.Home, c day.Command) (day.Command, error) {
	switch c := c.(type) {
	case day.Answered:
		inner, err := Likened(h, c.Command)
		c.Command = inner
		return c, err
	case day.AddPiece:
		spec, err := likened(h, c.Spec)
		c.Spec = spec
		return c, err
	case day.Record:
		if b, ok := c.Body.(day.PieceChanged); ok {
			spec, err := likened(h, b.PieceSpec)
			b.PieceSpec = spec
			return day.Record{Body: b}, err
		}
	}
	return c, nil
}

func likened(h shelf.Home, spec day.PieceSpec) (day.PieceSpec, error) {
	if _, coloured := spec.Colour(); spec.Like == "" || coloured {
		return spec, nil
	}
	b, err := PieceNamed(h, spec.Like)
	if err != nil {
		return spec, fmt.Errorf("like %s: %w", spec.Like, err)
	}
	spec.Lab = [3]float64{rounded(b.Lab.L), rounded(b.Lab.A), rounded(b.Lab.B)}
	if spec.Dips == 0 {
		spec.Dips = b.Dips
	}
	return spec, nil
}

// rounded is a figure of a colour as books have it, to four decimals.
func rounded(f float64) float64 { return math.Round(f*1e4) / 1e4 }
