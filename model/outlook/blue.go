package outlook

import (
	"slices"
	"sync"
	"time"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/shade"
)

// Ladder is the form of a piece that is a strip of cloth of which one swatch is cut off after each dip.
const Ladder = "ladder"

// mostSteps is how many dips of a piece are forecast.
const mostSteps = 16

// mostKept is how many swatches the next day takes over, the newest.
const mostKept = 24

// Blue is what is known of the blues of a day: how far they can be told, the ladder, and each piece.
type Blue struct {
	Claim  string   // guess or calibrated
	Words  []string // why it is as wide as it is
	Rungs  []Rung
	Pieces map[string]Coming
	family recipe.Family
	seen   []shade.Swatch
	all    shade.Weighted // of these
	vat    shade.Liquor
	asked  []question // of the pieces, each once
	done   map[string][]shade.Dip
	rungs  map[int]colour.Lab
}

// Rung is one strip of the vat's ladder.
type Rung struct {
	Tag   string
	No    int
	Looks string // as it was judged; empty: not yet
	Lab   colour.Lab
	Known Known // Measured by a look, Reckoned by the forecast, Guessed without any swatch
}

// Coming is how a piece looks, dry and rinsed, now and after its next dips.
type Coming struct {
	Cloth   shade.Cloth  // how the cloth shows its blue, as the swatches tell
	Now     *shade.Step  // after the dips it had; nil before the first
	Steps   []shade.Step // after each dip to come, the next one first
	Wish    *shade.Wish
	Wished  *colour.Lab // the colour wished for
	Answer  shade.Answer
	Claim   string
	Lasting quantity.Span // one dip
}

// Wet is how the piece looks now, before it is rinsed and dry: an estimate, as wet cloth follows no simple law. false before its
// first dip.
func (c Coming) Wet() (colour.Lab, bool) {
	if c.Now == nil {
		return colour.Lab{}, false
	}
	return c.Cloth.Wet(c.Now.KS.Likely), true
}

// possible are the possible vats of each family, made at the first use.
var possible = func() map[recipe.Family]func() *shade.Vats {
	m := map[recipe.Family]func() *shade.Vats{}
	for _, f := range recipe.Families {
		m[f] = sync.OnceValue(func() *shade.Vats { return shade.Possible(f) })
	}
	return m
}()

// unseen are the possible vats of each family before anything was seen of one, weighed at the first use.
var unseen = func() map[recipe.Family]func() shade.Weighted {
	m := map[recipe.Family]func() shade.Weighted{}
	for f, vats := range possible {
		m[f] = sync.OnceValue(func() shade.Weighted { return vats().Seen(nil) })
	}
	return m
}()

// Blues reckons the blues of a day at an instant, from its outlook and all the swatches of the vat.
func Blues(s day.State, o Outlook, now time.Time) Blue { return Blue{}.Again(s, o, now) }

// Weighed is Blues without the forecasts of the pieces in work: enough to ask for a rung or for one piece.
func Weighed(s day.State, o Outlook, now time.Time) Blue { return weighed(s, o, now, Blue{}) }

// weighed is Weighed, with the weights of before where they are of the same looks.
func weighed(s day.State, o Outlook, now time.Time, before Blue) Blue {
	b := Blue{Pieces: map[string]Coming{}, done: map[string][]shade.Dip{}, rungs: map[int]colour.Lab{}}
	vats, ok := possible[s.Head.Recipe.Family]
	if !ok || o.Empty {
		return b
	}
	b.family, b.vat = s.Head.Recipe.Family, vatOf(s, o, now)
	b.done = dipsOf(s, o)
	switch b.seen = b.swatches(s, now); {
	case b.sameLooks(before):
		b.all = before.all
	case len(b.seen) > 0:
		b.all = vats().Seen(b.seen)
	default:
		b.all = unseen[b.family]()
	}
	b.Claim, b.Words = b.all.Claim(), slices.Clone(b.all.Words())
	b.ladder(s)
	return b
}

// Seen are the possible vats as the swatches weighted them.
func (b Blue) Seen() shade.Weighted { return b.all }

// Plan is a piece that is only thought of, in the vat as it stands.
func (b Blue) Plan(p day.Piece) Coming { return b.coming(p) }

// Now is how a piece looks after the dips that it had, as Plan has it; nil before the first.
func (b Blue) Now(p day.Piece) *shade.Step { return b.present(goods(p), b.done[p.Tag], b.wish(p)) }

// Wished is the colour that is wished for a piece, as Plan has it; nil where none is.
func (b Blue) Wished(p day.Piece) *colour.Lab { return wished(b.all.Cloth(goods(p).Ground), b.wish(p)) }

// Stop says whether to stop, to give one dip more, or two.
func (b Blue) Stop(p day.Piece) (shade.Stop, bool) {
	c, ok := b.Pieces[p.Tag]
	if !ok || c.Wish == nil || len(b.done[p.Tag]) == 0 {
		return shade.Stop{}, false
	}
	return b.all.Now(goods(p), b.vat, c.Lasting, b.done[p.Tag], *c.Wish), true
}

// Leaves is the indigo left after so many dips of a piece.
func (b Blue) Leaves(p day.Piece, dips int) quantity.Range[quantity.Mass] {
	return b.all.Leaves(goods(p), b.vat, p.MeanDip(), dips)
}

// Level is how level a piece comes out of one dip.
func (b Blue) Level(p day.Piece, lower, lift quantity.Span) shade.Level {
	return b.all.Level(goods(p), b.vat, p.DipTime(), lower, lift)
}

// vatOf is the liquor as the forecasts take it, its pH that which the judge of the liquor has.
func vatOf(s day.State, o Outlook, now time.Time) shade.Liquor {
	n := liquor.State{Recipe: s.Head.Recipe, Fill: holds(s), Strip: s.Vat.Strip}
	o.into(&n)
	given, _ := s.LastGiven()
	n.PH = speaking(s, given, now)
	return shade.Of(n)
}

func goods(p day.Piece) shade.Piece {
	f, _ := fibre.Parse(p.Spec.Fibre) // unknown counts as cotton
	return shade.Piece{Fibre: f, Ground: shade.GroundOf(f), Dry: p.Spec.Dry, Tag: p.Tag}
}

// dipsOf are the dips that each piece of the day had, in the liquor as it was; those of earlier days as the first of today.
func dipsOf(s day.State, o Outlook) map[string][]shade.Dip {
	out := map[string][]shade.Dip{}
	fill, left, taken := holds(s), o.Indigo.Left.Likely, takenSince(s)
	for _, p := range s.Pieces {
		first := shade.Dip{For: p.DipTime()}
		if p.Spec.HadOf > 0 {
			first.For = p.Spec.HadOf
		}
		dips := slices.Repeat([]shade.Dip{first}, min(max(p.Spec.Had, 0), day.MostDips))
		for _, d := range p.Past {
			if d.Ended.IsZero() {
				continue
			}
			t := shade.Dip{For: quantity.Span(d.Ended.Sub(d.Begun)), Confirmed: !d.Assumed, Temp: temps(o.Heat, d.Begun, s.Head.Recipe.Liquor.Aim)}
			if o.PH.Known != Unknown {
				t.PH = o.PH.Now.Likely
			}
			if o.Indigo.Known != Unknown && fill > 0 {
				t.PerLitre = (left + taken(d.Begun)).Per(fill)
			}
			dips = append(dips, t)
		}
		out[p.Tag] = dips
	}
	return out
}

// takenSince tells what all goods took out of the liquor since an instant, by the usual for their depth.
func takenSince(s day.State) func(time.Time) quantity.Mass {
	begun := make([][]time.Time, len(s.Pieces)) // of the dips that ended, in order of time
	took := make([][]quantity.Mass, len(s.Pieces))
	for i, p := range s.Pieces {
		for _, d := range p.Past {
			if !d.Ended.IsZero() {
				begun[i] = append(begun[i], d.Begun)
			}
		}
		slices.SortFunc(begun[i], time.Time.Compare)
		took[i] = make([]quantity.Mass, len(begun[i])+1) // after so many dips
		for n := range begun[i] {
			took[i][n+1] = takenBy(p, n+1).OnFibre.Likely.Of(p.Spec.Dry)
		}
	}
	return func(at time.Time) quantity.Mass {
		var sum quantity.Mass
		for i := range begun {
			before, _ := slices.BinarySearchFunc(begun[i], at, time.Time.Compare)
			sum += took[i][len(begun[i])-before]
		}
		return sum
	}
}

// ladder lists the rungs of the vat, newest look of each first; the colour of one that was not judged is the forecast's.
func (b *Blue) ladder(s day.State) {
	most := 0
	put := func(r Rung) {
		most = max(most, r.No)
		for i := range b.Rungs {
			if b.Rungs[i].No == r.No {
				if r.Looks != "" || b.Rungs[i].Looks == "" {
					b.Rungs[i] = r
				}
				return
			}
		}
		b.Rungs = append(b.Rungs, r)
	}
	colourOf := func(looks string, g shade.Ground, no int) (colour.Lab, Known) {
		if l, err := day.ParseLook(looks); err == nil {
			if lab, ok := l.ColourOn(g); ok {
				return lab, Measured
			}
		}
		if ks, ok := b.all.Rung(no); ok {
			return b.all.Cloth(g).Colour(ks.Likely), Reckoned
		}
		return colour.Lab{}, Guessed
	}
	for _, c := range s.Head.Opening.Swatches {
		if c.Ladder {
			f, _ := fibre.Parse(c.Fibre)
			lab, known := colourOf(c.Looks, shade.GroundOf(f), c.Dips)
			put(Rung{Tag: c.Tag, No: c.Dips, Looks: c.Looks, Lab: lab, Known: known})
		}
	}
	for _, p := range s.Pieces {
		if p.Spec.Form != Ladder {
			continue
		}
		rungs := min(p.Dips, shade.MostDips)
		var steps []shade.Step // without a swatch
		for no := 1; no <= rungs; no++ {
			lab, known := colourOf("", goods(p).Ground, no)
			if known == Guessed {
				if steps == nil {
					steps = b.all.Forecast(shade.Piece{Fibre: goods(p).Fibre, Ground: goods(p).Ground}, b.vat, p.DipTime(), nil, rungs, nil)
				}
				lab = steps[no-1].Lab
			}
			put(Rung{Tag: p.Tag, No: no, Lab: lab, Known: known})
		}
	}
	for _, l := range b.looks(s) {
		if l.piece.Spec.Form == Ladder && l.swatch.Rung > 0 && l.swatch.How != shade.ByRung {
			lab, known := colourOf(l.looks, l.swatch.Piece.Ground, l.swatch.Rung)
			put(Rung{Tag: l.piece.Tag, No: l.swatch.Rung, Looks: l.looks, Lab: lab, Known: known})
		}
	}
	slices.SortFunc(b.Rungs, func(x, y Rung) int { return x.No - y.No })
	for _, r := range b.Rungs {
		if r.Known == Measured {
			b.rungs[r.No] = r.Lab
		}
	}
}

// wish is what a piece is wished to be; nil where only its dips were said.
func (b Blue) wish(p day.Piece) *shade.Wish {
	var w shade.Wish
	lab, coloured := p.Spec.Colour()
	switch s := p.Spec; {
	case coloured:
		w = shade.WishLab(lab)
	case s.Rung > 0:
		if lab, ok := b.rungs[s.Rung]; ok {
			w = shade.WishLab(lab)
		} else if ks, ok := b.all.Rung(s.Rung); ok {
			w = shade.WishKS(ks.Likely)
		} else {
			return nil
		}
	case s.Depth != "":
		var err error
		if w, err = shade.WishDepth(s.Depth); err != nil {
			return nil
		}
	default:
		return nil
	}
	return &w
}

func (b Blue) coming(p day.Piece) Coming {
	g, done := goods(p), b.done[p.Tag]
	c := Coming{Cloth: b.all.Cloth(g.Ground), Wish: b.wish(p), Claim: b.all.ClaimFor(g), Lasting: p.MeanDip()}
	if c.Wished = wished(c.Cloth, c.Wish); c.Wished != nil {
		c.Answer = b.all.Dips(g, b.vat, c.Lasting, done, *c.Wish)
	}
	c.Steps = b.all.Forecast(g, b.vat, c.Lasting, done, max(mostSteps-len(done), 2), c.Wish)
	c.Now = b.present(g, done, c.Wish)
	return c
}

// present is how a piece looks after the dips that it had: the forecast of the same dips, its last one the last that it had.
func (b Blue) present(g shade.Piece, done []shade.Dip, wish *shade.Wish) *shade.Step {
	n := len(done)
	if n == 0 {
		return nil
	}
	return &b.all.Forecast(g, b.vat, done[n-1].For, done[:n-1], 1, wish)[0]
}

func wished(c shade.Cloth, w *shade.Wish) *colour.Lab {
	if w == nil {
		return nil
	}
	return new(c.Colour(w.Aim(c)))
}
