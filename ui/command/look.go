package command

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/photo"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

type looking struct {
	vat, piece, watch string
	rungs             []int
	wet, dry, record  bool
}

func (p *program) lookCommand() *cobra.Command {
	var l looking
	return p.command("look PHOTO…", "Read the blue of a piece off a photograph of the card", cobra.ArbitraryArgs, func(r *reader) {
		rungs := r.String("rungs", "", "the `rungs` on the card, in the order of their places, such as 1,3,5")
		r.rules = func() []rule {
			var err error
			l.rungs, err = library.Rungs(*rungs)
			return []rule{
				{len(r.args) == 0 && l.watch == "", "look needs a photograph, or --watch with the folder that photographs come into"},
				{len(r.args) > 0 && l.watch != "", "give photographs or --watch, not both"},
				{l.wet && l.dry, "the cloth is --wet or --dry, not both"},
				{err != nil, fmt.Sprint("--rungs: ", err)},
			}
		}
		r.StringVar(&l.vat, "vat", "", "`name` of the vat (else by the card's code)")
		r.StringVar(&l.piece, "piece", "", "`tag` of the piece in the holes (else by the card's code)")
		r.BoolVar(&l.wet, "wet", false, "the cloth is wet: it is darker then, by no simple law")
		r.BoolVar(&l.dry, "dry", false, "the cloth is dry and rinsed (so without --wet)")
		r.BoolVar(&l.record, "record", false, "write the look into the open day of the vat")
		r.StringVar(&l.watch, "watch", "", "take each new photograph that comes into this `folder`, until Ctrl-C")
	}, func(r *reader) error { return p.lookAt(r.args, l) })
}

// lookAt reads photographs, those named or those that come.
func (p *program) lookAt(paths []string, l looking) error {
	if l.watch != "" {
		return p.watchPhotos(l)
	}
	if len(paths) == 1 {
		return p.lookAtOne(paths[0], l)
	}
	var failed error
	for _, path := range paths {
		if err := through(func() error { return p.lookAtOne(path, l) }); err != nil {
			failed = errTold
			if !errors.Is(err, errTold) {
				p.warn(err)
			}
		}
	}
	return failed
}

// lookAtOne reads one photograph, records the look where that was asked, and tells of it; errTold where no cloth could be read.
func (p *program) lookAtOne(path string, l looking) error {
	r := got(library.ReadPhoto(path, l.rungs))
	o := p.lookedFor(l, r.Reading)
	windows, rows := o.windows(r, l.wet)
	var recorded *string // the words of the look as the book has them
	if l.record {
		within(path, func() { recorded = p.recordLook(r, o, l.wet) })
	}
	var tell telling
	tell.line("%s (%s):", path, cmp.Or(wording.Joined(", piece ", o.vat, o.piece), "no vat named"))
	tell.table(rows)
	if recorded != nil {
		tell.line("Written into the day: %s looks like %s.", o.piece, *recorded)
	}
	tell.notes("Warning", r.Warnings)
	// The keys of look --json.
	must(p.give(object{
		{"photo", path}, {"vat", some(o.vat)}, {"piece", some(o.piece)}, {"wet", l.wet}, {"windows", windows}, {"warnings", list(r.Warnings)}, {"recorded", recorded},
	}, tell))
	if len(r.Seen) == 0 {
		return errTold
	}
	return nil
}

// windows are the windows of a photograph as look --json has them, and in rows. at is row and column, from 1; looks is pale, mid or dark,
// or why there is no rung; spread is that of the colour over the cloth, CIELAB 1976, standard deviation.
func (o lookedFor) windows(r library.Photo, wet bool) (windows []object, rows table) {
	windows = each(r.Seen, func(s photo.Seen) object {
		depth, _ := o.ground.Depth(s.Lab)
		lab, looks, rung := figures(s.Lab), "", (*spread)(nil)
		for _, q := range r.Placed {
			if q.Window == s.Window {
				looks = looksLike(q, o.ground, wet)
				if q.Rung != nil {
					rung = &spread{tidy(q.Rung.Low), tidy(q.Rung.Likely), tidy(q.Rung.High)}
				}
			}
		}
		words := looks
		switch {
		case !s.Hole:
			words = "a rung of the ladder"
		case rung != nil:
			words += fmt.Sprintf(", from %.1f to %.1f eight times in ten", rung.Low, rung.High)
		}
		rows.add(fmt.Sprintf("row %d, column %d", s.Row, s.Column), fmt.Sprintf("%s; lab %.0f %.0f %.0f", words, lab[0], lab[1], lab[2]))
		return object{
			{"at", [2]int{s.Row, s.Column}}, {"hole", s.Hole}, {"lab", lab}, {"ks", tidy(float64(depth))}, {"rung", rung}, {"looks", looks}, {"spread", tidy(s.Spread)},
		}
	})
	return windows, rows
}

// lookedFor is whose piece a photograph shows: as named, else as the card's code has it. Where neither says, it is empty.
type lookedFor struct {
	vat, piece string
	ground     shade.Ground
}

func (p *program) lookedFor(l looking, r photo.Reading) lookedFor {
	o := lookedFor{piece: strings.TrimSpace(l.piece)}
	if l.vat == "" && !(r.Coded && r.Code.Vat != 0) {
		return o
	}
	h := got(p.shelf())
	if l.vat != "" {
		o.vat = got(library.VatNamed(h, l.vat))
	} else {
		for _, v := range got(h.Vats()) {
			if photo.CodeOf(v, "").Vat == r.Code.Vat {
				o.vat = v
			}
		}
		if o.vat == "" {
			return o // the card is of another home
		}
	}
	open := got(h.VatDays(o.vat)).Open
	read, errs := library.Days(h, o.vat, open[max(0, len(open)-1):])
	p.warn(errs...)
	for _, d := range read {
		for _, piece := range d.State.Pieces {
			tag := piece.Tag
			if o.piece == "" && r.Coded && photo.CodeOf("", tag).Piece == r.Code.Piece && r.Code.Piece != 0 {
				o.piece = tag
			}
			if tag == o.piece {
				o.ground = library.GroundOf(piece.Spec.Fibre)
			}
		}
	}
	return o
}

// looksLike is a piece in words: between rungs, else pale, mid or dark.
func looksLike(q photo.Placed, g shade.Ground, wet bool) string {
	switch {
	case q.Rung != nil:
		return fmt.Sprintf("rung %.1f", q.Rung.Likely)
	case q.Words != "":
		return q.Words
	case wet:
		return "wet: judge it dry, or beside wetted rungs"
	}
	return cmp.Or(photo.Alone(q.Lab, g), "too deep to tell without rungs on the card")
}

// recordLook writes the look of all holes together into the open day, in the words of say.
func (p *program) recordLook(r library.Photo, o lookedFor, wet bool) *string {
	switch {
	case o.vat == "":
		stop("--record needs to know the vat: name it with --vat")
	case o.piece == "":
		stop("--record needs to know the piece: name its tag with --piece")
	}
	words := got(r.Look(o.ground, wet))
	must(p.sayTo(o.vat, "look "+o.piece+" "+wording.Either(wet, "wet ", "dry ")+words, sayFlags{}).err)
	return &words
}

// watchPhotos reads each photograph that comes into a folder, the newest where several came, until the program is ended. What
// lies there already is left; a file counts once it grows no more.
func (p *program) watchPhotos(l looking) error {
	known := got(shelf.Photos(l.watch))
	ctx, stop := p.endedBySignal()
	defer stop()
	in := incoming{done: map[shelf.Photo]bool{}}
	for _, f := range known {
		in.done[f] = true
	}
	seconds := engine.Seconds(ctx)
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-seconds:
		}
		path, ok := in.next(got(shelf.Photos(l.watch)))
		if !ok {
			continue
		}
		if err := through(func() error { return p.lookAtOne(path, l) }); !errors.Is(err, errTold) {
			p.warn(err)
		}
	}
}

// incoming are photographs that come into a folder.
type incoming struct {
	done map[shelf.Photo]bool
	last shelf.Photo
}

// next is the newest that was not there before, once it is as it was a second ago: it may still grow. Older ones are left.
func (in *incoming) next(now []shelf.Photo) (path string, ok bool) {
	fresh := slices.DeleteFunc(slices.Clone(now), func(f shelf.Photo) bool { return in.done[f] })
	if len(fresh) == 0 {
		return "", false
	}
	newest := fresh[len(fresh)-1]
	if newest != in.last {
		in.last = newest
		return "", false
	}
	for _, f := range fresh {
		in.done[f] = true
	}
	return newest.Path, true
}
