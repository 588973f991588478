package command

import (
	"cmp"
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/history"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

// liking is what is sought.
type liking struct {
	seen       labSeen // --lab
	named, vat string  // --piece and --vat
	fibre      fibre.Fibre
	depth      *shade.Depth
	most       int

	lab   colour.Lab
	piece *library.Piece // that it is the blue of; nil: a colour was given
}

func (p *program) likeCommand() *cobra.Command {
	var l liking
	const short = "The pieces of the book that look most like a blue, and what that blue takes today"
	return p.command("like --lab COLOUR|--piece VAT/DAY/TAG", short, nil, func(r *reader) {
		r.rules = func() []rule {
			given := len(r.typed("lab", "piece"))
			return []rule{{given == 2, "give --lab or --piece, not both"}, {given == 0, "like needs --lab or --piece: the blue to look for"}}
		}
		value(r, &l.seen, "lab", "", "", labRead)
		r.StringVar(&l.named, "piece", "", "a piece of the book, as `VAT/DAY/TAG`")
		value(r, &l.fibre, "fibre", "", "only pieces of this `fibre`", anywhere(fibre.Parse))
		r.StringVar(&l.vat, "vat", "", "only pieces of this `vat`")
		value(r, &l.depth, "depth", "", "only pieces of this `depth`, such as dark", optional(anywhere(shade.ByName)))
		value(r, &l.most, "most", "5", "how `many` at most", countRead(1, math.MaxInt, "pieces; write 1 or more"))
		r.withUnits()
	}, p.inHome(func(h shelf.Home, r *reader) error { return p.like(h, l, r.sys) }))
}

// coming is what a blue takes today in a vat.
type coming struct {
	vat, claim string
	goods      string // in which dips it was reckoned, and for what
	dips       shade.Answer
	next       object // a swatch that would help; nil: none would
	advice     []string
}

func (p *program) like(h shelf.Home, want liking, sys quantity.System) (err error) {
	p.Sparing()
	want.lab = inDaylight(want.seen, shade.GroundOf(want.fibre))
	if want.vat != "" {
		want.vat, err = library.VatNamed(h, want.vat)
		must(about("--vat", err))
	}
	var unknown error
	if want.named != "" {
		piece, err := library.PieceNamed(h, want.named)
		unknown = about("--piece", err)
		want.piece, want.lab = &piece, piece.Lab
	}
	var found []library.Piece
	wanted := func(vat string) bool { return unknown == nil && (want.vat == "" || vat == want.vat) }
	last, errs, err := library.All(h, wanted, func(pieces []library.Piece) {
		found = want.nearest(append(found, want.among(pieces)...))
	})
	p.warn(errs...)
	must(cmp.Or(err, unknown))
	now := today(last, want, found, sys)
	var takes object // null: no vat lives
	if now != nil {
		takes = object{{"vat", now.vat}, {"dips", answered(now.dips)}, {"claim", now.claim}, {"next_swatch", now.next}}
	}
	// The keys of like --json.
	pieces := each(found, func(b library.Piece) object {
		de := colour.Difference(b.Lab, want.lab)
		return object{
			{"vat", b.Vat}, {"day", b.Day}, {"tag", b.Tag}, {"what", b.Spec.What}, {"fibre", b.Spec.Fibre}, {"dry_g", tidy(b.Spec.Dry.Grams())}, {"dips", b.Dips},
			{"dip_min", tenth(b.Dip.Minutes())}, {"air_min", tenth(b.Air.Minutes())}, {"recipe", b.Recipe}, {"lab", figures(b.Lab)}, {"lab_known", b.Told},
			{"de00", tidy(de)}, {"words", colour.Seen(de)},
		}
	})
	return p.give(object{{"pieces", pieces}, {"today", takes}}, tellLike(want, found, now, sys))
}

// among are the pieces that are sought.
func (w liking) among(pieces []library.Piece) []library.Piece {
	var out []library.Piece
	for _, b := range pieces {
		switch {
		case w.piece != nil && b.Path() == w.piece.Path():
		case w.fibre != fibre.Unknown && b.Fibre() != w.fibre:
		case w.depth != nil && !named(b, *w.depth):
		default:
			out = append(out, b)
		}
	}
	return out
}

// nearest are the nearest of the pieces, as many as are wanted, the nearest first; of two that are as near the newer.
func (w liking) nearest(pieces []library.Piece) []library.Piece {
	type apart struct {
		library.Piece
		by float64
	}
	all := make([]apart, len(pieces))
	for i, p := range pieces {
		all[i] = apart{p, colour.Difference(p.Lab, w.lab)}
	}
	sorted.By(all, func(a, b apart) int { return cmp.Or(cmp.Compare(a.by, b.by), b.At.Compare(a.At)) })
	out := make([]library.Piece, min(w.most, len(all)))
	for i := range out {
		out[i] = all[i].Piece
	}
	return out
}

// named tells whether a piece goes by a depth's name.
func named(b library.Piece, d shade.Depth) bool {
	ks, _ := shade.GroundOf(b.Fibre()).Depth(b.Lab)
	return shade.Band(d).Contains(ks)
}

// today is what the blue takes in the open vat that presses most, else in the newest that lives: for goods of the fibre, the
// weight and the dip of the piece that is sought, else of the nearest one. nil: no vat lives.
func today(last []library.Day, want liking, found []library.Piece, sys quantity.System) *coming {
	s, ok := livingVat(last)
	if !ok {
		return nil
	}
	var spec day.PieceSpec
	model := want.piece
	if model == nil && len(found) > 0 {
		model = &found[0]
	}
	switch {
	case model != nil:
		spec.Fibre, spec.Dry, spec.Dip = model.Spec.Fibre, model.Spec.Dry, model.Dip
	case want.fibre != fibre.Unknown:
		spec.Fibre = want.fibre.String()
	}
	f, _ := fibre.Parse(spec.Fibre)
	if spec.Dip <= 0 {
		ks, _ := shade.GroundOf(f).Depth(want.lab)
		spec.Dip = quantity.Minutes(5)
		if d, err := shade.ByName(shade.Name(ks)); err == nil {
			spec.Dip = usualDip(d, f)
		}
	}
	out := &coming{vat: s.Vat, goods: "of " + minutes(spec.Dip).String()}
	if spec.Dry > 0 {
		out.goods += " for " + spec.Dry.Format(sys) + " " + spec.Fibre
	}
	var helps string
	if blues, ok := bluesOf(s); ok {
		spec.Lab = [3]float64{want.lab.L, want.lab.A, want.lab.B}
		piece := day.Piece{Spec: spec}
		plan := blues.Plan(piece)
		out.dips, out.claim = plan.Answer, plan.Claim
		state := s.State
		if !s.Open() {
			state.Head.Setup.DoneBy = nil // of a day that is over
		}
		lesson, ok := blues.LessonFor(state, piece, s.Now)
		out.next, helps = nextSwatch(lesson.Lesson, ok)
		out.advice = advice(out.dips, blues.Seen(), helps)
		return out
	}
	// Nothing is filled in yet: the vat as its recipe has it when fresh.
	head := s.State.Head
	piece := shade.Piece{Fibre: f, Ground: shade.GroundOf(f), Dry: spec.Dry}
	v := shade.Of(liquor.State{Recipe: head.Recipe, Fill: head.Setup.Fill})
	seen := shade.Possible(head.Recipe.Family).Seen(nil)
	out.dips, out.claim = seen.Dips(piece, v, spec.Dip, nil, shade.WishLab(want.lab)), seen.ClaimFor(piece)
	out.advice = advice(out.dips, seen, "")
	return out
}

// livingVat is, of the newest days of all vats, the open one whose call rules, else the newest whose vat has not ended.
func livingVat(last []library.Day) (best library.Day, found bool) {
	for _, s := range last {
		switch {
		case s.State.Ended || found && best.Open() && !s.Open():
		case !found, s.Open() && !best.Open(), s.Open() && best.Open() && s.Call().Compare(best.Call()) < 0, !s.Open() && s.State.At.After(best.State.At):
			best, found = s, true
		}
	}
	return best, found
}

// bluesOf are the blues of a vat at its present; of a closed day as the next one will find it, once it is warm again. False
// where nothing is filled in.
func bluesOf(s library.Day) (outlook.Blue, bool) {
	state := s.State
	if !s.Open() {
		head := state.Head
		head.Opening = outlook.Carry(state)
		next, err := day.Begin(head)
		if err != nil {
			return outlook.Blue{}, false
		}
		state = next
	}
	o := outlook.Of(state, s.Now)
	if o.Empty {
		return outlook.Blue{}, false
	}
	if !s.Open() {
		o.Heat.Known = outlook.Unknown
	}
	return outlook.Blues(state, o, s.Now), true
}

// knownWords is how the look of a piece is known, as it is said.
var knownWords = map[history.Told]string{
	history.ByMeasure: "measured", history.ByPhoto: "from a photograph", history.ByRung: "by a rung of the ladder",
	history.ByDepth: "by its depth", history.ByForecast: "by its dips",
}

// minutes are a time that hands took, to the half minute.
func minutes(s quantity.Span) quantity.Span {
	return quantity.Minutes(max(0.5, math.Round(2*s.Minutes())/2))
}

func tellLike(want liking, found []library.Piece, now *coming, sys quantity.System) (tell telling) {
	what := want.lab.String()
	if want.piece != nil {
		what = fmt.Sprintf("%s, %s (%s)", want.piece.Path(), what, knownWords[want.piece.Told])
	}
	tell.line("Like %s:", what)
	var rows table
	for _, b := range found {
		de := colour.Difference(b.Lab, want.lab)
		rows.add(fmt.Sprintf("%.1f", tidy(de)), fmt.Sprintf("%s, %s %s: %s of about %s, aired %s, in %s; %s, %s", wording.Joined(" ", b.Path(), b.Spec.What),
			b.Spec.Dry.Format(sys), b.Spec.Fibre, wording.Counted(b.Dips, "dip"), minutes(b.Dip), minutes(b.Air), b.Recipe, colour.Seen(de), knownWords[b.Told]))
	}
	tell.table(rows)
	if len(rows) == 0 {
		tell.line("No piece of the book is of that kind.")
	}
	if now != nil {
		tell.note("", fmt.Sprintf("today in %s: %s dips %s (%s); %s that %s", now.vat, now.dips.Words(), now.goods, now.claim, percent(now.dips.Chance), giving(now.dips.Likely)))
		tell.notes("", now.advice)
	} else {
		tell.note("", "no vat lives, in which it could be dyed today")
	}
	return tell
}
