package command

import (
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
	"example.org/vatside/ui/shelf"
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
	piece *bookPiece // that it is the blue of; nil: a colour was given
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
		if want.vat, err = vatNamed(h, l.vat); err != nil {
			return fmt.Errorf("--vat: %w", err)
		}
	}
	days, last, err := p.readBook(h)
	if err != nil {
		return err
	}
	pieces := bluePieces(days)
	want.lab = inDaylight(seen, shade.GroundOf(want.fibre))
	if l.piece != "" {
		if want.piece, err = pieceNamed(h, l.piece, days, pieces); err != nil {
			return fmt.Errorf("--piece: %w", err)
		}
		want.lab = want.piece.lab
	}
	found := want.among(pieces)
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

// vatNamed finds a vat of the book by its folder's name or its own.
func vatNamed(h shelf.Home, name string) (string, error) {
	vats, err := h.Vats()
	switch {
	case err != nil:
		return "", err
	case slices.Contains(vats, name):
		return name, nil
	case slices.Contains(vats, shelf.Slug(name)):
		return shelf.Slug(name), nil
	case len(vats) == 0:
		return "", fmt.Errorf("no vat is called %q: there is none in the book yet", name)
	}
	return "", fmt.Errorf("no vat is called %q: there are %s", name, list(vats))
}

// pieceNamed finds VAT/DAY/TAG among the days that could be read. A piece that was carried over is found by each of its days.
func pieceNamed(h shelf.Home, text string, days []*bookDay, pieces []bookPiece) (*bookPiece, error) {
	parts := strings.SplitN(strings.TrimSpace(text), "/", 3)
	if len(parts) != 3 || slices.Contains(parts, "") {
		return nil, fmt.Errorf("%s is no piece; write VAT/DAY/TAG, such as garden-bin/2026-11-25/A1", strings.TrimSpace(text))
	}
	vat, err := vatNamed(h, parts[0])
	if err != nil {
		return nil, err
	}
	name, tag := parts[1], parts[2]
	var names []string
	for _, d := range days {
		if d.vat != vat {
			continue
		}
		names = append(names, d.day)
		if d.day != name {
			continue
		}
		piece, ok := d.state.Piece(tag)
		if !ok {
			var tags []string
			for _, p := range d.state.Pieces {
				tags = append(tags, p.Tag)
			}
			return nil, fmt.Errorf("day %s of vat %s has no piece %q: it has %s", name, vat, tag, list(tags))
		}
		for i, b := range pieces {
			if b.vat == vat && b.piece.Tag == tag && (b.day == name || carriedIn(b.state, tag) && b.state.At.After(d.state.At)) {
				return &pieces[i], nil
			}
		}
		if piece.Dips == 0 {
			return nil, fmt.Errorf("%s had no dip, so it has no blue", tag)
		}
		return nil, fmt.Errorf("%s is still in work, and was not looked at dry and rinsed since its last dip", tag)
	}
	return nil, fmt.Errorf("vat %s has no day %q that can be read: it has %s", vat, name, list(names))
}

// among are the pieces that are sought, the nearest first.
func (w sought) among(pieces []bookPiece) []bookPiece {
	var out []bookPiece
	for _, b := range pieces {
		switch {
		case w.piece != nil && b.path() == w.piece.path():
		case w.fibre != fibre.Unknown && b.fibre() != w.fibre:
		case w.vat != "" && b.vat != w.vat:
		case w.depth != nil && !named(b, *w.depth):
		default:
			out = append(out, b)
		}
	}
	nearest(out, w.lab)
	return out[:min(w.most, len(out))]
}

// named tells whether a piece goes by a depth's name.
func named(b bookPiece, d shade.Depth) bool {
	ks, _ := b.ground().Depth(b.lab)
	return shade.Band(d).Contains(ks)
}

// tenth is as well as hands keep a time.
func tenth(minutes float64) float64 { return math.Round(10*minutes) / 10 }

func likedAs(b bookPiece, to colour.Lab) likedPiece {
	dip, air := b.took()
	de := colour.Difference(b.lab, to)
	return likedPiece{
		Vat: b.vat, Day: b.day, Tag: b.piece.Tag, What: b.piece.Spec.What, Fibre: b.piece.Spec.Fibre, DryG: tidy(b.piece.Spec.Dry.Grams()),
		Dips: b.piece.Dips, DipMin: tenth(dip.Minutes()), AirMin: tenth(air.Minutes()), Recipe: b.state.Head.Recipe.ID,
		Lab: figures(b.lab), LabKnown: b.known, DE00: tidy(de), Words: colour.Seen(de),
	}
}
