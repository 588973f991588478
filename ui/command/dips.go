package command

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/wording"
)

type dipping struct {
	recipe, depth     string
	fill              quantity.Volume
	goods             vessel.Goods
	dip               quantity.Span
	temp              *quantity.Temperature
	ph                *quantity.PH
	ground            *shade.Ground
	mercerised, tight bool
	swatches          []string
}

// ahead is how many dips the forecast of dips has.
const ahead = 16

func (p *program) dipsCommand() *cobra.Command {
	var d dipping
	const short = "How many dips reach a blue, and how sure that is"
	c := p.command("dips --recipe ID|FILE --fill VOLUME --piece GOODS --depth BLUE", short, nil, func(r *reader) {
		r.needs = []string{"recipe", "fill", "piece", "depth"}
		r.recipe(&d.recipe)
		value(r, &d.fill, "fill", "", "", fillRead)
		value(r, &d.goods, "piece", "", "dry weight and fibre of the `goods`, such as '420 g linen'", weighedRead)
		r.StringVar(&d.depth, "depth", "", "the `blue` that it shall have: dark, rung:5, lab:31,-3,-20 or ks:9")
		value(r, &d.dip, "dip", "", "`time` of one dip (else the usual one for the depth and fibre)", dipRead)
		value(r, &d.temp, "temp", "", "`°C` of the liquor (else what the recipe aims at)", optional(liquorRead))
		value(r, &d.ph, "ph", "", "`pH` of the liquor (else what the recipe gives at that °C, fresh; a ferment what it is kept at)", optional(phRead))
		value(r, &d.ground, "ground", "", "the undyed `cloth`: "+wording.List(groundNames())+" (else the usual one of the fibre)", optional(anywhere(shade.ParseGround)))
		r.BoolVar(&d.mercerised, "mercerised", false, "the cotton is mercerised")
		r.BoolVar(&d.tight, "tight", false, "it is woven close, such as canvas: its first dip is longer")
		r.StringArrayVar(&d.swatches, "swatch", nil, "a `swatch` of known dips and what it looks like, as above; once for each")
		r.withUnits()
	}, func(r *reader) error { return p.dips(d, r.sys) })
	c.Long = short + ". Without swatches of your own it is a guess; each swatch narrows it.\n\n" +
		"BLUE is a depth (" + wording.List(depthNames()) + "), a rung of your ladder (rung:5),\n" +
		"a colour of dry cloth (lab:31,-3,-20, or lab@D65/10:31,-3,-20) or a K/S of the dye (ks:9).\n\n" + swatchHelp
	return c
}

// weighedRead reads goods that weigh something.
func weighedRead(s string, sys quantity.System) (vessel.Goods, error) {
	g, err := goodsRead(s, sys)
	if err == nil && !(g.Dry > 0) {
		err = fmt.Errorf("%s weighs nothing; write its dry weight, such as '420 g linen'", strings.TrimSpace(s))
	}
	return g, err
}

// dipRead reads the time of a dip.
func dipRead(s string, sys quantity.System) (quantity.Span, error) {
	t, err := quantity.ParseSpan(s, sys)
	return t, cmp.Or(err, aDip(t))
}

func depthNames() []string {
	return wording.Each(shade.Depths(), func(d shade.Depth) string { return d.Name })
}

// asked is what the flags of dips come to.
type asked struct {
	recipe recipe.Recipe
	piece  shade.Piece
	state  liquor.State
	vat    shade.Liquor // by its state
	dip    quantity.Span
	first  quantity.Span // the first dip, where it is longer; 0: as the others
	wish   shade.Wish
	seen   shade.Weighted
	sys    quantity.System
}

func (p *program) dips(d dipping, sys quantity.System) error {
	a := p.askedFor(d, sys)
	answer, steps := a.forecast()
	claim := a.seen.ClaimFor(a.piece)
	strip := day.Piece{Spec: outlook.Strip(day.State{}, a.piece.Fibre.String(), outlook.StripDips).Spec}
	goods := shade.Piece{Fibre: a.piece.Fibre, Ground: a.piece.Ground, Mercerised: a.piece.Mercerised, Dry: strip.Spec.Dry}
	next, helps := nextSwatch(a.seen.Teach(a.piece, a.vat, a.dip, nil, a.wish, goods, strip.DipTime(), strip.AirTime(false), 0))
	warnings := append(list(shade.Cautions(a.piece, a.state, a.dip)), wording.Filled(a.wish.Caution(a.seen.Cloth(a.piece.Ground)))...)
	if claim != a.seen.Claim() {
		warnings = append(warnings, fmt.Sprintf("still a guess: other cloth was seen, and it says less of %s; a swatch of %[1]s would narrow it", cloth(a.piece)))
	}
	warnings = append(warnings, a.seen.Words()...)
	var tell telling
	a.tell(&tell, answer, claim, helps)
	var rows table
	forecast := each(steps, func(s shade.Step) object {
		likely, low, high := tidy(float64(s.KS.Likely)), tidy(float64(s.KS.Low)), tidy(float64(s.KS.High))
		rows.add(wording.Counted(s.Dips, "dip"), fmt.Sprintf("%s–%s, %s", depthFigure(low), depthFigure(high), s.Depth))
		return object{
			{"dips", s.Dips}, {"ks", likely}, {"ks_low", low}, {"ks_high", high}, {"lab", figures(s.Lab)}, {"srgb", s.Lab.RGB().Hex()}, {"depth", s.Depth},
		}
	})
	tell.table(rows)
	tell.notes("Note", warnings)
	// The keys of dips --json; first_dip_min is of tight cloth.
	keys := object{{"claim", claim}}.and(a.first > 0, "first_dip_min", tidy(a.first.Minutes())).and(true, "dips", answered(answer)).
		and(true, "forecast", forecast).and(true, "warnings", warnings).and(true, "next_swatch", next)
	return p.give(keys, tell)
}

// forecast is how many dips the wish takes, and what each gives. Where the first dip is longer the others go on from it, in what it
// leaves of the vat.
func (a asked) forecast() (shade.Answer, []shade.Step) {
	if a.first == 0 {
		g := a.seen.Going(a.piece, a.vat, a.dip, nil, &a.wish)
		steps := g.Forecast(ahead)
		return g.Dips(), steps
	}
	one := a.seen.Forecast(a.piece, a.vat, a.first, nil, 1, &a.wish)
	done, after := []shade.Dip{dipIn(a.vat, a.first)}, a.vat
	after.Indigo = a.seen.Leaves(a.piece, a.vat, a.first, 1).Likely
	g := a.seen.Going(a.piece, after, a.dip, done, &a.wish)
	steps := append(one, g.Forecast(ahead-1)...)
	return g.Dips(), steps
}

// cloth names what a piece is of.
func cloth(p shade.Piece) string {
	return wording.If(p.Mercerised, "mercerised ") + p.Fibre.String()
}

func (p *program) askedFor(d dipping, sys quantity.System) asked {
	a := asked{recipe: got(p.findFor(d.recipe, d.fill)), sys: sys}
	a.piece = shade.Piece{Fibre: d.goods.Fibre, Dry: d.goods.Dry, Mercerised: d.mercerised, Ground: shade.GroundOf(d.goods.Fibre)}
	if d.ground != nil {
		a.piece.Ground = *d.ground
	}
	if d.mercerised && d.goods.Fibre != fibre.Cotton {
		stop("--mercerised: only cotton is mercerised, and the piece is %s", d.goods.Fibre)
	}
	a.state = liquor.State{Recipe: a.recipe, Fill: d.fill, Temp: d.temp, PH: d.ph}
	a.vat = shade.Of(a.state)
	if a.dip = d.dip; a.dip == 0 {
		a.dip = quantity.Minutes(5)
		if depth, err := shade.ByName(d.depth); err == nil {
			a.dip = usualDip(depth, d.goods.Fibre)
		}
	}
	if d.tight {
		a.first = practice.LongFirst(a.dip)
	}
	var swatches []shade.Swatch
	for _, text := range d.swatches {
		within(fmt.Sprintf("--swatch %q", strings.TrimSpace(text)), func() { swatches = append(swatches, swatchOf(text, a.vat, sys)) })
	}
	a.seen = shade.Possible(a.recipe.Family).Seen(swatches)
	within("--depth", func() { a.wish = wishOf(d.depth, a.piece.Ground, swatches, a.seen) })
	return a
}

// usualDip is one dip of a fibre on its way to a depth.
func usualDip(d shade.Depth, f fibre.Fibre) quantity.Span {
	return wording.Either(f.Class() == fibre.Protein, d.Protein, d.Cellulose)
}

// wishOf reads --depth. A rung is the colour that a meter read of it, else as deep as the swatches' ladder makes it.
func wishOf(text string, g shade.Ground, swatches []shade.Swatch, seen shade.Weighted) shade.Wish {
	text = strings.TrimSpace(text)
	word, rest, _ := strings.Cut(strings.Replace(text, ":", " ", 1), " ")
	switch word = strings.ToLower(word); {
	case word == "rung":
		n, err := strconv.Atoi(strings.TrimSpace(rest))
		if err != nil || n < 1 || n > mostRung {
			stop("a rung has a number from 1 to %d, such as rung:5", mostRung)
		}
		for _, s := range slices.Backward(swatches) {
			if s.Rung == n && s.How == shade.ByMeter && !s.Wet && !s.Unrinsed {
				return shade.WishLab(s.Lab)
			}
		}
		depth, ok := seen.Rung(n)
		if !ok {
			stop("rung %d needs your ladder; give at least one of its rungs, such as --swatch '3x5min cotton, rung 3 = lab 55,-5,-20'", n)
		}
		return shade.WishKS(depth.Likely)
	case word == "ks":
		return shade.WishKS(got(ksRead(rest, quantity.Metric)))
	case strings.HasPrefix(word, "lab"):
		lab := got(labRead(text, quantity.Metric))
		return shade.WishLab(shade.FromMeter(lab.lab, lab.at, g))
	}
	w, err := shade.WishDepth(text)
	if err != nil {
		stop("%w; or rung:5, lab:31,-3,-20, ks:9", err)
	}
	return w
}

// tell says what was asked, and how many dips it takes.
func (a asked) tell(tell *telling, answer shade.Answer, claim, helps string) {
	ph := wording.Either(a.vat.PH > 0 || a.state.PH != nil, "pH "+a.vat.PH.String(), "an unknown pH")
	dip := wording.Either(a.first > 0, fmt.Sprintf("%s the first dip and %s each other", a.first, a.dip), a.dip.String()+" a dip")
	tell.line("%s of %s for %s, %s, at %s and %s:", a.piece.Dry.Format(a.sys), a.piece.Fibre, a.wish, dip, a.vat.Temp.Format(a.sys), ph)
	tell.table(table{{"dips", fmt.Sprintf("%s (%s)", answer.Words(), claim)}, {percent(answer.Chance), "chance that " + giving(answer.Likely)}})
	for _, words := range advice(answer, a.seen, helps) {
		tell.line("%s.", wording.Upper(words))
	}
	tell.line("")
	tell.line("%10s  %s", "after", "K/S, eight times in ten")
}
