package liquor

import (
	"fmt"
	"math"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// Depth is a plain depth name and the net indigo, on weight of dry fibre, that it stands for.
type Depth struct {
	Name    string
	OnFibre quantity.Share
}

// Taken is what one piece has taken out of the liquor, estimated by the depth it reached.
type Taken struct {
	Dry     quantity.Mass
	OnFibre quantity.Range[quantity.Share]
}

// Balance is where the indigo of a vat is, in grams of pure indigo. Each range is 0 or more.
type Balance struct {
	In         quantity.Range[quantity.Mass]          // put in
	Taken      quantity.Range[quantity.Mass]          // on the goods
	DraggedOut quantity.Range[quantity.Mass]          // in liquor that was not brought back
	Left       quantity.Range[quantity.Mass]          // in the vat
	PerLitre   quantity.Range[quantity.Concentration] // Left in the fill
}

// PureIndigo is the pure indigo that a recipe puts into a fill: dose times strength, 54 g for 60 L of the built-in soda
// vat.
func PureIndigo(r recipe.Recipe, fill quantity.Volume) quantity.Mass {
	var sum quantity.Mass
	for _, p := range r.Powders {
		if p.Role == recipe.Indigo {
			sum += orWhole(p.Strength).Of(r.PerLitre(p).Of(quantity.Volume(notBelowZero(fill.Litres()))))
		}
	}
	return sum
}

// Indigo balances what was put in, pure, against what goods took and what was carried out with liquor and not brought
// back. Carried liquor is reckoned at the mean strength of the vat between its first and its last state, and thins it as
// it goes: the part carried out is 1 − e^(−carried/fill). More taken or carried never leaves more.
func Indigo(in quantity.Mass, fill quantity.Volume, taken []Taken, carried quantity.Volume) Balance {
	in = quantity.Mass(notBelowZero(in.Grams()))
	b := Balance{In: quantity.Exactly(in)}
	for _, t := range taken {
		dry := quantity.Mass(notBelowZero(t.Dry.Grams()))
		on := func(s quantity.Share) quantity.Mass {
			return min(quantity.Share(notBelowZero(s.Fraction())), 1).Of(dry)
		}
		b.Taken.Low += on(t.OnFibre.Low)
		b.Taken.Likely += on(t.OnFibre.Likely)
		b.Taken.High += on(t.OnFibre.High)
	}
	b.Taken = quantity.Map(b.Taken, func(m quantity.Mass) quantity.Mass { return min(m, in) })
	out := 0.0
	if litres := notBelowZero(fill.Litres()); litres > 0 {
		out = 1 - math.Exp(-notBelowZero(carried.Litres())/litres)
	}
	dragged := func(taken quantity.Mass) quantity.Mass { return min((in-taken/2)*quantity.Mass(out), in-taken) }
	b.DraggedOut = inOrder(quantity.Map(b.Taken, dragged))
	b.Left = inOrder(quantity.Map(b.Taken, func(t quantity.Mass) quantity.Mass { return max(0, in-t-dragged(t)) }))
	if fill > 0 {
		b.PerLitre = quantity.Map(b.Left, func(m quantity.Mass) quantity.Concentration { return m.Per(fill) })
	}
	return b
}

// inOrder holds the likely value within the ends, past which the last figure of a sum can carry it.
func inOrder(r quantity.Range[quantity.Mass]) quantity.Range[quantity.Mass] {
	r.Likely = min(max(r.Likely, r.Low), r.High)
	return r
}

// usable is the part of the indigo in the liquor that can still be brought onto goods. M
var usable = quantity.Range[float64]{Low: 0.4, Likely: 0.6, High: 0.8}

// Usable is how much of the indigo in the liquor can still be brought onto goods. From memory.
func Usable(left quantity.Mass) quantity.Range[quantity.Mass] {
	return quantity.Map(usable, func(f float64) quantity.Mass { return quantity.Mass(f) * left })
}

// Reach is whether a vat reaches a depth within a day's usual dips.
type Reach int

// Not at all, with more dips or over several days, or in the usual dips.
const (
	No Reach = iota
	Slowly
	Yes
)

// String is "no", "slowly" or "yes".
func (r Reach) String() string { return wording.Named(r, "no", "slowly", "yes") }

// reachTable is the pure indigo, g/L, from which a depth is reached in its usual dips, straight lines between; half of it
// reaches it slowly. A judgement (M) that follows the trade's words for the vat that a depth wants: weak for pale,
// middling for mid, strong for dark (0.9 g/L is a "strong vat", S3), strong and topped up for navy, several days for
// blue-black.
var reachTable = []struct{ percent, gramsPerLitre float64 }{
	{0.1, 0.05}, {0.3, 0.1}, {0.6, 0.2}, {1.2, 0.4}, {2.2, 0.8}, {3.5, 1.3}, {5, 2},
}

// wants is the g/L of reachTable for a depth; beyond its ends in proportion.
func wants(on quantity.Share) float64 {
	p := on.Percent()
	last := reachTable[0]
	if p <= last.percent {
		return last.gramsPerLitre * p / last.percent
	}
	for _, row := range reachTable[1:] {
		if p <= row.percent {
			return last.gramsPerLitre + (p-last.percent)/(row.percent-last.percent)*(row.gramsPerLitre-last.gramsPerLitre)
		}
		last = row
	}
	return last.gramsPerLitre * p / last.percent
}

// reach is whether a depth is reached at so much pure indigo in a litre.
func reach(c quantity.Concentration, on quantity.Share) Reach {
	w := wants(on) * (1 - 1e-9)
	switch g := c.GramsPerLitre(); {
	case g >= w:
		return Yes
	case g >= w/2:
		return Slowly
	}
	return No
}

// Capacity is what a vat can still dye to one depth, if all of it goes there.
type Capacity struct {
	Depth  Depth
	KgLeft quantity.Range[quantity.Mass] // dry goods until the usable indigo is spent
	Today  quantity.Mass                 // dry goods still to be dyed today, at most KgLeft.Likely
	Reach  Reach
}

// DayLoad is the dry goods that a litre of liquor takes in a day before it wants rest: 40 g for a vat of dithionite or
// thiourea dioxide, 20 for lime, 10 for a ferment vat and any other. C/M, no published limit was found.
func DayLoad(f recipe.Family) quantity.Concentration {
	switch f {
	case recipe.DithioniteSoda, recipe.DithioniteLye, recipe.ThioureaDioxideSoda:
		return quantity.GramsPerLitre(40)
	case recipe.SugarLime, recipe.IronLime:
		return quantity.GramsPerLitre(20)
	}
	return quantity.GramsPerLitre(10)
}

// Capacities is, depth by depth and in their order, what a vat can still dye: kg = V · g/L · usable ÷ (10 · % on fibre),
// usable 0.4 to 0.8, likely 0.6 (M). The depths' own widths are not in it. A depth that stands for no indigo gets nothing.
func Capacities(b Balance, r recipe.Recipe, fill quantity.Volume, dyedToday quantity.Mass, depths []Depth) []Capacity {
	day := DayLoad(r.Family).Of(quantity.Volume(notBelowZero(fill.Litres()))) - quantity.Mass(notBelowZero(dyedToday.Grams()))
	out := make([]Capacity, 0, len(depths))
	for _, d := range depths {
		c := Capacity{Depth: d}
		if on := notBelowZero(d.OnFibre.Fraction()); on > 0 {
			left := Left{Free: b.Left}.tidy().Free
			kg := times(quantity.Map(left, quantity.Mass.Grams), usable)
			c.KgLeft = quantity.Map(kg, func(g float64) quantity.Mass { return quantity.Grams(g / on) })
			c.Today = max(0, min(day, c.KgLeft.Likely))
			c.Reach = reach(b.PerLitre.Likely, d.OnFibre)
		}
		out = append(out, c)
	}
	return out
}

// The parts of the usable indigo at whose use feeding is near, and due. C
const (
	feedSoon = 0.60
	feedNow  = 0.70
)

// Feeding is when and with what to feed a vat.
type Feeding struct {
	Soon, Now bool
	Used      quantity.Share // of the usable indigo, 0 to 1
	Gone      quantity.Mass  // pure indigo that has left the vat
	TopUp     TopUp          // as reduced stock; zero if neither soon nor now
	Sentence  string
}

// Feed tells whether a vat wants feeding: soon when 60 % of the indigo that can be used is gone, now at 70 % (C), where what
// can be used is what is gone and six tenths of what is left (Usable); with what TopUpOf gives of a tin of a strength, never
// more than was used.
func Feed(b Balance, r recipe.Recipe, fill quantity.Volume, strength quantity.Share, sys quantity.System) Feeding {
	var f Feeding
	if !(b.In.Likely > 0) || !(fill > 0) {
		f.Sentence = "no indigo is known to be in this vat"
		return f
	}
	f.Gone = quantity.Grams(min(notBelowZero((b.Taken.Likely + b.DraggedOut.Likely).Grams()), b.In.Likely.Grams()))
	gone := f.Gone.Grams()
	f.Used = quantity.Share(gone / (gone + Usable(b.In.Likely-f.Gone).Likely.Grams()))
	f.Now, f.Soon = f.Used >= feedNow, f.Used >= feedSoon
	used := fmt.Sprintf("%.0f %% of the indigo that can be used is gone", f.Used.Percent())
	if !f.Soon {
		f.Sentence = used + ": no feeding yet"
		return f
	}
	when := wording.Either(f.Now, "feed it before more goods", "feed it soon")
	f.Sentence = used + ": " + when
	var ok bool
	if f.TopUp, ok = TopUpOf(r, fill, strength, f.Gone); ok {
		f.Sentence += fmt.Sprintf(", %s, as reduced stock; then wait %v, and dip a swatch", f.TopUp.Says(r, sys), f.TopUp.Wait)
	}
	return f
}
