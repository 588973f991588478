package library

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/shelf"
)

// Vat is a vat with the days of it that could be read, the oldest first.
type Vat struct {
	Name string
	Days history.Vat
}

// Piece is a piece of the book, with its blue.
type Piece struct {
	Vat string
	history.Blue
}

// Path is VAT/DAY/TAG.
func (p Piece) Path() string { return p.Vat + "/" + p.Of.Name + "/" + p.Piece.Tag }

// All reads all days of all vats and hands over each vat as it is read, so that no more than one need be held at a time. newest is
// the newest day of each vat, where that one can be read.
func All(h shelf.Home, each func(Vat)) (newest []Day, errs []error, err error) {
	vats, err := h.Vats()
	if err != nil {
		return nil, nil, err
	}
	for _, vat := range vats {
		names, err := h.Days(vat)
		if err != nil {
			errs = append(errs, err)
		}
		v := Vat{Name: vat}
		for i, name := range names {
			days, wrong := Days(h, vat, []string{name})
			errs = append(errs, wrong...)
			for _, d := range days {
				v.Days = append(v.Days, d)
				if i == len(names)-1 {
					newest = append(newest, Day{Vat: vat, Name: name, State: d.State, Now: Present(d.State), Damage: d.Damage})
				}
			}
		}
		each(v)
	}
	return newest, errs, nil
}

// Pieces are the pieces of the vat that have a blue of their own, the newest first.
func (v Vat) Pieces() []Piece {
	var out []Piece
	for _, b := range slices.Backward(history.BluesOf(v.Days)) {
		if b.Known() {
			out = append(out, Piece{v.Name, b})
		}
	}
	return out
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
	return pieceOn(vat, days, parts[1], parts[2])
}

// pieceOn is the piece of a day of a vat with its blue; the error says why it has none.
func pieceOn(vat string, days history.Vat, name, tag string) (Piece, error) {
	var names []string
	for _, d := range days {
		names = append(names, d.Name)
	}
	at := slices.Index(names, name)
	if at < 0 {
		return Piece{}, fmt.Errorf("vat %s has no day %q that can be read: it has %s", vat, name, wording.List(names))
	}
	b, dipped := history.BlueNamed(days, name, tag)
	if dipped && b.Known() {
		return Piece{vat, b}, nil
	}
	_, there := days[at].State.Piece(tag)
	switch {
	case !there && !dipped:
		var tags []string
		for _, p := range days[at].State.Pieces {
			tags = append(tags, p.Tag)
		}
		return Piece{}, fmt.Errorf("day %s of vat %s has no piece %q: it has %s", name, vat, tag, wording.List(tags))
	case !dipped:
		return Piece{}, fmt.Errorf("%s had no dip, so it has no blue", tag)
	}
	return Piece{}, fmt.Errorf("%s is still in work, and was not looked at dry and rinsed since its last dip", tag)
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
		spec.Dips = b.Piece.Dips
	}
	return spec, nil
}

// rounded is a figure of a colour as books have it, to four decimals.
func rounded(f float64) float64 { return math.Round(f*1e4) / 1e4 }
