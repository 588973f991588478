package command

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/ui/library"
)

// liking is what like was asked.
type liking struct {
	lab, piece, fibre, vat, depth, most, units string
}

func (p *program) likeCommand() *cobra.Command {
	var l liking
	c := &cobra.Command{
		Use:   "like --lab COLOUR|--piece VAT/DAY/TAG",
		Short: "The pieces of the book that look most like a blue, and what that blue takes today",
		Long: "The pieces of the book that look most like a blue, and what that blue takes today in the open vat, else the newest.\n\n" +
			"A piece looks as it was last seen, dry and rinsed, after its last dip (measured, photo, rung, or depth by eye).\n" +
			"One that was never seen counts as what was named for it (depth), else as what its dips usually give (forecast).",
		Args:    usage(cobra.NoArgs),
		Example: "  vatside like --lab 31,-3,-20 --fibre linen\n  vatside like --piece garden-bin/2026-11-25/A1 --most 3",
		RunE: func(c *cobra.Command, _ []string) error {
			r := &reader{c: c}
			switch {
			case r.given("--lab") && r.given("--piece"):
				return usageError{errors.New("give --lab or --piece, not both")}
			case !r.given("--lab") && !r.given("--piece"):
				return usageError{errors.New("like needs --lab or --piece: the blue to look for")}
			}
			return p.like(l, r)
		},
	}
	f := c.Flags()
	f.StringVar(&l.lab, "lab", "", "the `colour` of dry cloth, such as 31,-3,-20 (D65/2) or 'lab@D65/10 31 -3 -20'")
	f.StringVar(&l.piece, "piece", "", "a piece of the book, as `VAT/DAY/TAG`")
	f.StringVar(&l.fibre, "fibre", "", "only pieces of this `fibre`")
	f.StringVar(&l.vat, "vat", "", "only pieces of this `vat`")
	f.StringVar(&l.depth, "depth", "", "only pieces of this `depth`, such as dark")
	f.StringVar(&l.most, "most", "5", "how `many` at most")
	f.StringVar(&l.units, "units", "", "metric, us or imperial (else as in the settings)")
	p.jsonFlag(c)
	return c
}

// The keys of like --json.
type liked struct {
	Pieces []likedPiece `json:"pieces"`
	Today  *likedToday  `json:"today"` // null: no vat lives
}

type likedPiece struct {
	Vat      string     `json:"vat"`
	Day      string     `json:"day"`
	Tag      string     `json:"tag"`
	What     string     `json:"what"`
	Fibre    string     `json:"fibre"`
	DryG     float64    `json:"dry_g"`
	Dips     int        `json:"dips"`
	DipMin   float64    `json:"dip_min"`
	AirMin   float64    `json:"air_min"`
	Recipe   string     `json:"recipe"`
	Lab      [3]float64 `json:"lab"`
	LabKnown string     `json:"lab_known"`
	DE00     float64    `json:"de00"`
	Words    string     `json:"words"`
}

type likedToday struct {
	Vat   string   `json:"vat"`
	Dips  answered `json:"dips"`
	Claim string   `json:"claim"`
}

// sought is what the flags of like come to.
type sought struct {
	lab   colour.Lab
	piece *library.Piece // that it is the blue of; nil: a colour was given
	fibre fibre.Fibre
	vat   string
	depth *shade.Depth
	most  int
}

func (p *program) like(l liking, r *reader) error {
	var err error
	if r.sys, err = p.units(l.units); err != nil {
		return err
	}
	var want sought
	var seen labSeen
	read(r, &seen, "--lab", l.lab, labRead)
	read(r, &want.fibre, "--fibre", l.fibre, func(s string, _ quantity.System) (fibre.Fibre, error) { return fibre.Parse(s) })
	read(r, &want.depth, "--depth", l.depth, func(s string, _ quantity.System) (*shade.Depth, error) {
		d, err := shade.ByName(s)
		return &d, err
	})
	read(r, &want.most, "--most", l.most, mostRead)
	for _, f := range []struct{ flag, text string }{{"--vat", l.vat}, {"--piece", l.piece}} {
		read(r, new(string), f.flag, f.text, func(s string, _ quantity.System) (string, error) { return s, nil })
	}
	if r.err != nil {
		return r.err
	}
	h, err := p.shelf()
	if err != nil {
		return err
	}
	if l.vat != "" {
		if want.vat, err = library.VatNamed(h, l.vat); err != nil {
			return fmt.Errorf("--vat: %w", err)
		}
	}
	vats, last, errs, err := library.All(h)
	p.warn(errs...)
	if err != nil {
		return err
	}
	want.lab = inDaylight(seen, shade.GroundOf(want.fibre))
	if l.piece != "" {
		piece, err := library.PieceNamed(h, l.piece)
		if err != nil {
			return fmt.Errorf("--piece: %w", err)
		}
		want.piece, want.lab = &piece, piece.Lab
	}
	found := want.among(library.Pieces(vats))
	out := liked{Pieces: []likedPiece{}, Today: today(last, want, found)}
	for _, b := range found {
		out.Pieces = append(out.Pieces, likedAs(b, want.lab))
	}
	if p.json {
		return p.asJSON(out)
	}
	p.tellLike(want, out, r.sys)
	return nil
}

// mostRead reads a number of pieces.
func mostRead(s string, _ quantity.System) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(s))
	if err != nil || n < 1 {
		return 0, fmt.Errorf("%s is no number of pieces; write 1 or more", strings.TrimSpace(s))
	}
	return n, nil
}

// among are the pieces that are sought, the nearest first.
func (w sought) among(pieces []library.Piece) []library.Piece {
	var out []library.Piece
	for _, b := range pieces {
		switch {
		case w.piece != nil && b.Path() == w.piece.Path():
		case w.fibre != fibre.Unknown && b.Fibre() != w.fibre:
		case w.vat != "" && b.Vat != w.vat:
		case w.depth != nil && !named(b, *w.depth):
		default:
			out = append(out, b)
		}
	}
	slices.SortStableFunc(out, func(a, b library.Piece) int { // of two that are as near the newer
		return cmp.Compare(colour.Difference(a.Lab, w.lab), colour.Difference(b.Lab, w.lab))
	})
	return out[:min(w.most, len(out))]
}

// named tells whether a piece goes by a depth's name.
func named(b library.Piece, d shade.Depth) bool {
	ks, _ := b.Ground().Depth(b.Lab)
	return shade.Band(d).Contains(ks)
}

// tenth is as well as hands keep a time.
func tenth(minutes float64) float64 { return math.Round(10*minutes) / 10 }

func likedAs(b library.Piece, to colour.Lab) likedPiece {
	dip, air := b.Took()
	de := colour.Difference(b.Lab, to)
	return likedPiece{
		Vat: b.Vat, Day: b.Of.Name, Tag: b.Piece.Tag, What: b.Piece.Spec.What, Fibre: b.Piece.Spec.Fibre, DryG: tidy(b.Piece.Spec.Dry.Grams()),
		Dips: b.Piece.Dips, DipMin: tenth(dip.Minutes()), AirMin: tenth(air.Minutes()), Recipe: b.Of.State.Head.Recipe.ID,
		Lab: figures(b.Lab), LabKnown: string(b.Told), DE00: tidy(de), Words: colour.Seen(de),
	}
}
