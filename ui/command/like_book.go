package command

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/ui/shelf"
)

// bookVat is a vat with the days of it that could be read, the oldest first.
type bookVat struct {
	name string
	days history.Vat
}

// bookPiece is a piece of the book.
type bookPiece struct {
	vat string
	history.Blue
}

func (b bookPiece) path() string { return b.vat + "/" + b.Of.Name + "/" + b.Piece.Tag }

// readBook reads all days of all vats without a lock. What cannot be read is told and passed over. last is the newest day of each
// vat, where that one can be read.
func (p *program) readBook(h shelf.Home) (out []bookVat, last []standing, err error) {
	vats, err := h.Vats()
	if err != nil {
		return nil, nil, err
	}
	for _, vat := range vats {
		days, err := h.Days(vat)
		p.warn(err)
		v := bookVat{name: vat}
		var newest *standing
		for _, name := range days {
			read, errs := History(h, vat, []string{name})
			for _, err := range errs {
				p.warn(err)
			}
			v.days = append(v.days, read...)
			if newest = nil; len(read) == 1 {
				newest = &standing{vat: vat, day: name, state: read[0].State, now: present(read[0].State)}
			}
		}
		out = append(out, v)
		if newest != nil {
			last = append(last, *newest)
		}
	}
	return out, last, nil
}

// bluePieces are the pieces of all vats that have a blue of their own, the newest first.
func bluePieces(vats []bookVat) []bookPiece {
	var out []bookPiece
	for _, v := range vats {
		for _, b := range slices.Backward(history.BluesOf(v.days)) {
			if b.Known() {
				out = append(out, bookPiece{v.name, b})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b bookPiece) int { return b.Of.State.At.Compare(a.Of.State.At) })
	return out
}

// pieceNamed is the piece that VAT/DAY/TAG names, with its blue.
func pieceNamed(h shelf.Home, text string) (bookPiece, error) {
	parts := strings.SplitN(strings.TrimSpace(text), "/", 3)
	if len(parts) != 3 || slices.Contains(parts, "") {
		return bookPiece{}, fmt.Errorf("%s is no piece; write VAT/DAY/TAG, such as garden-bin/2026-11-25/A1", strings.TrimSpace(text))
	}
	vat, err := vatNamed(h, parts[0])
	if err != nil {
		return bookPiece{}, err
	}
	names, err := h.Days(vat)
	if err != nil {
		return bookPiece{}, err
	}
	days, _ := History(h, vat, names)
	return pieceOn(vat, days, parts[1], parts[2])
}

// pieceOn is the piece of a day of a vat with its blue; the error says why it has none.
func pieceOn(vat string, days history.Vat, name, tag string) (bookPiece, error) {
	var names []string
	for _, d := range days {
		names = append(names, d.Name)
	}
	at := slices.Index(names, name)
	if at < 0 {
		return bookPiece{}, fmt.Errorf("vat %s has no day %q that can be read: it has %s", vat, name, list(names))
	}
	b, dipped := history.BlueNamed(days, name, tag)
	if dipped && b.Known() {
		return bookPiece{vat, b}, nil
	}
	_, there := days[at].State.Piece(tag)
	switch {
	case !there && !dipped:
		var tags []string
		for _, p := range days[at].State.Pieces {
			tags = append(tags, p.Tag)
		}
		return bookPiece{}, fmt.Errorf("day %s of vat %s has no piece %q: it has %s", name, vat, tag, list(tags))
	case !dipped:
		return bookPiece{}, fmt.Errorf("%s had no dip, so it has no blue", tag)
	}
	return bookPiece{}, fmt.Errorf("%s is still in work, and was not looked at dry and rinsed since its last dip", tag)
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
	b, err := pieceNamed(h, spec.Like)
	if err != nil {
		return spec, fmt.Errorf("like %s: %w", spec.Like, err)
	}
	spec.Lab = figures(b.Lab)
	if spec.Dips == 0 {
		spec.Dips = b.Piece.Dips
	}
	return spec, nil
}

// nearest puts the pieces nearest to a colour first; of two that are as near, the newer.
func nearest(pieces []bookPiece, to colour.Lab) {
	slices.SortStableFunc(pieces, func(a, b bookPiece) int {
		return cmp.Compare(colour.Difference(a.Lab, to), colour.Difference(b.Lab, to))
	})
}
