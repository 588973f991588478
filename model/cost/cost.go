package cost

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/history"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

// Rates are what the dyer's work and heat cost, in the dyer's own currency; 0: not told, and not counted.
type Rates struct {
	Hour quantity.Money // an hour of the dyer
	KWh  quantity.Money // a kilowatt-hour of heat
}

// away is the gap between two acts from which on the hands are elsewhere: the wait while it reduces is not worked. C
const away = 20 * time.Minute

// Vat is what a vat cost so far and how its pieces share it.
type Vat struct {
	Powders  []Powder
	Made     bool            // it stood made on its first day: what went into it before is not known
	Heat     quantity.Energy // of its hot water and its heater
	HeatCost quantity.Money
	Tending  quantity.Span // building, caring, ending: the hours that no piece had for itself
	Tended   quantity.Money
	Total    quantity.Money
	Used     quantity.Share // of Total, what the pieces so far carry; the rest waits in the liquor
	Pieces   []Piece        // those that were dipped, in the order of their days
	Goods    quantity.Mass  // dry weight of Pieces
	Per100g  quantity.Money // of all Pieces together
	Notes    []string       // what is not in it, or only roughly, in sentences
}

// Piece is what one piece cost, over all its days in this vat.
type Piece struct {
	Day, Tag, What, Fibre string // Day is the last one on which it was dipped
	Depth                 string // as it was wanted, else what its dips usually give
	Dry                   quantity.Mass
	Dips                  int            // in this vat
	Indigo                quantity.Mass  // that it likely took, pure
	Share                 quantity.Share // of the whole vat, by that indigo
	Powders, Heat, Tended quantity.Money // its share of the vat's
	Hours                 quantity.Span  // its part of its days' work
	Work                  quantity.Money
	Total                 quantity.Money
	Per100g               quantity.Money // 0 where its weight is not known
	Label                 Label
}

// Of is what a vat cost so far, from its days, the oldest first. A piece carries the part of the vat that its indigo is of all
// that its goods took and of what the liquor can still give (liquor.Usable, likely), nothing of the latter once the vat has
// ended. Hours are the time between acts that follow within twenty minutes; those from the day's first dip to the last act on
// a piece are the pieces', by the time each was in the vat.
func Of(days history.Vat, powders []Powder, r Rates) Vat {
	v := Vat{Powders: powders, Made: len(days) > 0 && days[0].State.Head.Opening.Built}
	var taken quantity.Mass
	for _, d := range days {
		s := d.State
		own, tending := hours(s)
		v.Tending += tending
		v.Heat += heat(s)
		if !v.take(s, own) {
			v.Tending += own
		}
	}
	for _, p := range v.Pieces {
		taken += p.Indigo
		v.Goods += p.Dry
	}
	var costs [3]quantity.Money // powders, heat, hours of the vat
	costs[0] = wording.Sum(powders, func(p Powder) quantity.Money { return p.Cost })
	costs[1] = times(r.KWh, v.Heat.KilowattHours())
	costs[2] = times(r.Hour, v.Tending.Hours())
	v.HeatCost, v.Tended = costs[1], costs[2]
	v.Total = costs[0] + costs[1] + costs[2]
	if whole := taken + ahead(days); whole > 0 {
		v.Used = quantity.Share(taken.Grams() / whole.Grams())
		for i := range v.Pieces {
			v.Pieces[i].Share = quantity.Share(v.Pieces[i].Indigo.Grams() / whole.Grams())
		}
	}
	var all quantity.Money
	for i := range v.Pieces {
		p := &v.Pieces[i]
		f := p.Share.Fraction()
		p.Powders, p.Heat, p.Tended = times(costs[0], f), times(costs[1], f), times(costs[2], f)
		p.Work = times(r.Hour, p.Hours.Hours())
		p.Total = p.Powders + p.Heat + p.Tended + p.Work
		p.Per100g = per100g(p.Total, p.Dry)
		all += p.Total
	}
	v.Per100g = per100g(all, v.Goods)
	v.Notes = notes(v, days, r)
	return v
}

// ahead is the indigo that the liquor can still bring onto goods.
func ahead(days history.Vat) quantity.Mass {
	if len(days) == 0 {
		return 0
	}
	last := days[len(days)-1].State
	if last.Ended {
		return 0
	}
	return liquor.Usable(outlook.Of(last, last.At).Indigo.Left.Likely).Likely
}

// take puts a day's pieces to those of the days before: one that came back with dips of its own is the same piece. The day's
// hours are theirs by the time each was in the vat; false where none was. Swatches and ladders are the vat's own, and no pieces.
func (v *Vat) take(s day.State, hours quantity.Span) bool {
	in := map[string]time.Duration{}
	var sum time.Duration
	for _, p := range s.Pieces {
		if p.Spec.Form == outlook.Ladder {
			continue
		}
		for _, d := range p.Past {
			in[p.Tag] += max(0, d.Ended.Sub(d.Begun))
		}
		sum += in[p.Tag]
	}
	for _, p := range s.Pieces {
		if p.Spec.Form == outlook.Ladder {
			continue
		}
		at := len(v.Pieces)
		for i, before := range v.Pieces {
			if p.Spec.Had > 0 && before.Tag == p.Tag {
				at = i
			}
		}
		dips := p.Dips - p.Spec.Had
		if at == len(v.Pieces) {
			if dips <= 0 {
				continue
			}
			v.Pieces = append(v.Pieces, Piece{Tag: p.Tag})
		}
		x := &v.Pieces[at]
		x.What, x.Fibre, x.Dry, x.Label = p.Spec.What, p.Spec.Fibre, p.Spec.Dry, LabelOf(p)
		if x.Depth = p.Spec.Depth; x.Depth == "" {
			x.Depth = shade.AfterDips(p.Dips)
		}
		if dips > 0 {
			x.Day = s.Head.Day
			x.Dips += dips
			x.Indigo += outlook.Took(p).Likely
		}
		if sum > 0 {
			x.Hours += quantity.Span(float64(hours) * float64(in[p.Tag]) / float64(sum))
		}
	}
	return sum > 0
}

// hours are the worked time of a day: of its pieces, and of the vat.
func hours(s day.State) (pieces, tending quantity.Span) {
	told := slices.Collect(s.Corrected())
	first, last := -1, -1
	for i, e := range told {
		if _, dip := e.Body.(day.DipBegun); dip && first < 0 {
			first = i
		}
		if _, of := e.Body.(interface{ PieceTag() string }); of && first >= 0 {
			last = i
		}
	}
	for i := 1; i < len(told); i++ {
		gap := told[i].At.Sub(told[i-1].At)
		switch {
		case gap <= 0 || gap > away:
		case first >= 0 && i > first && i <= last:
			pieces += quantity.Span(gap)
		default:
			tending += quantity.Span(gap)
		}
	}
	return pieces, tending
}

// heat is what was put into the liquor on a day: hot water of the filling and of topping up, by its °C over the cold tap's,
// and the heater by its power and its time. Losses of stove and boiler are the price's, not its.
func heat(s day.State) quantity.Energy {
	var sum quantity.Energy
	cold, hot := s.Head.Setup.Waters()
	var on time.Time
	var power quantity.Power
	for e := range s.Corrected() {
		switch b := e.Body.(type) {
		case day.StepDone:
			if b.Do == string(recipe.Fill) && b.Step >= 1 && b.Step <= len(s.Plan) {
				sum += water.Heat(s.Plan[b.Step-1].Hot, cold, hot)
			}
		case day.ToppedUp:
			sum += water.Heat(b.Water, cold, max(cold, b.Temp))
		case day.HeaterOn:
			if on, power = e.At, b.Power; power == 0 {
				power = s.Head.Setup.Heater
			}
		case day.HeaterOff:
			if !on.IsZero() {
				sum += quantity.Joules(power.Watts() * e.At.Sub(on).Seconds())
			}
			on = time.Time{}
		}
	}
	if !on.IsZero() {
		sum += quantity.Joules(power.Watts() * s.At.Sub(on).Seconds())
	}
	return sum
}

// notes say what is not in the sum.
func notes(v Vat, days history.Vat, r Rates) []string {
	var without, like []string
	for _, p := range v.Powders {
		if missing := p.Mass - p.Priced; missing > 1e-6 {
			without = append(without, missing.String()+" of "+p.Material)
		}
		if p.Like > 1e-6 {
			like = append(like, p.Material)
		}
	}
	weightless := wording.Count(v.Pieces, func(p Piece) bool {
		_, err := fibre.Parse(p.Fibre)
		return err != nil || p.Dry <= 0
	})
	out := wording.Filled(
		wording.If(len(without) > 0,
			"no price is told for "+strings.Join(without, ", ")+": put the tin on the list of powders with what it cost"),
		wording.If(len(like) > 0, strings.Join(like, ", ")+" came out of no tin of the list: counted at the price last paid for it"),
		wording.If(v.Made, "it stood made on its first day here: what went into it before is not counted"),
		wording.If(r.Hour == 0, "your hours are not counted: set what an hour of yours costs"),
		wording.If(r.KWh == 0, "heat is not counted: set what a kilowatt-hour costs"),
		wording.If(weightless > 0, fmt.Sprintf("the weight or the fibre of %d of the pieces is not known", weightless)))
	switch {
	case len(days) == 0 || days[len(days)-1].State.Ended || len(v.Pieces) == 0:
	case v.Used == 1:
		out = append(out, "what still waits in its liquor is not known: the pieces so far carry all of it")
	default:
		out = append(out, fmt.Sprintf("%.0f %% of what the vat cost waits in its liquor for the next pieces", 100*(1-v.Used.Fraction())))
	}
	return append(out, "water, soap, rent and the cloth itself are not counted")
}

// times is a part or a multiple of a sum, to the nearest hundredth.
func times(m quantity.Money, by float64) quantity.Money {
	return quantity.Hundredths(int64(math.Round(float64(m.Hundredths()) * by)))
}

// per100g is a sum for each 100 g; 0 where there is no weight.
func per100g(m quantity.Money, dry quantity.Mass) quantity.Money {
	if dry <= 0 {
		return 0
	}
	return times(m, 100/dry.Grams())
}
