package vessel

import (
	"math"
	"strconv"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// The room rules: how far below the rim to stop, and where goods may hang.
const (
	// Freeboard is the least distance of liquor from the rim. C
	Freeboard = quantity.Length(0.08)
	// Froth is the height that froth takes on top of what the goods push up. C
	Froth = quantity.Length(0.02)
	// UnderSurface is how far under the surface goods hang at least. M
	UnderSurface = quantity.Length(0.03)
	// DeepVat is the depth of liquor above which the two distances of S1 (from a vat of 73 L) hold instead.
	DeepVat = quantity.Length(0.60)
	// DeepUnder is how far under the surface goods hang in a deep vat. S1
	DeepUnder = quantity.Length(0.20)
	// DeepOffFloor is how far off the floor goods hang in a deep vat. S1
	DeepOffFloor = quantity.Length(0.30)
	// UsualRatio and LeastRatio are litres of liquor a kilogram of dry goods: what lets goods move freely, and the least. C
	UsualRatio = 30.0
	LeastRatio = 20.0
)

// Forearm is what one immersed forearm pushes up. M
var Forearm = quantity.Range[quantity.Volume]{Low: 1.5, Likely: 1.75, High: 2}

// Goods are goods of one fibre, by their dry weight.
type Goods struct {
	Fibre fibre.Fibre
	Dry   quantity.Mass
}

// Load is all that is in the vat at once: goods, and the forearms that move them.
type Load struct {
	Goods    []Goods
	Forearms int
}

// Dry is the dry weight of all goods.
func (l Load) Dry() quantity.Mass {
	return wording.Sum(l.Goods, func(g Goods) quantity.Mass { return g.Dry })
}

// Rise is the volume by which a load lifts the liquor: the fibre itself, the water it carries in, the forearms. Without froth.
func (l Load) Rise() quantity.Range[quantity.Volume] {
	var sum quantity.Range[quantity.Volume]
	add := func(r quantity.Range[quantity.Volume], times float64) {
		sum.Low += r.Low * quantity.Volume(times)
		sum.Likely += r.Likely * quantity.Volume(times)
		sum.High += r.High * quantity.Volume(times)
	}
	for _, g := range l.Goods {
		add(quantity.Exactly(g.Fibre.Displacement(g.Dry)), 1)
		add(g.Fibre.Carried(g.Dry), 1)
	}
	add(Forearm, float64(l.Forearms))
	return sum
}

// StopBelowRim is how far below the rim to stop filling: the larger, not the sum, of 8 cm and what the load needs in this
// vessel, taken at its most, with 2 cm of froth on top. A load that needs more than the vessel holds stops at the floor.
func (v Vessel) StopBelowRim(l Load) quantity.Length {
	rim := v.Rim()
	left := v.Volume(rim-Froth) - l.Rise().High
	need := rim
	if left > 0 {
		need = rim - v.Shape.Depth(left)
	}
	return max(min(Freeboard, rim), need)
}

// MaxFill is the most to fill for a load: what the vessel holds up to StopBelowRim.
func (v Vessel) MaxFill(l Load) quantity.Volume { return v.Volume(v.Rim() - v.StopBelowRim(l)) }

// AtOnce is the dry weight of goods that a fill takes at once: usually, at 30 L a kilogram, and at most, at 20.
func AtOnce(fill quantity.Volume) (usual, most quantity.Mass) {
	return quantity.Kilograms(fill.Litres() / UsualRatio), quantity.Kilograms(fill.Litres() / LeastRatio)
}

// Hang is where goods may hang: between Floor and Ceiling, both measured from the vessel's floor. Ceiling at or below Floor
// means nowhere.
type Hang struct{ Floor, Ceiling quantity.Length }

// Tall is the height of the zone, not below zero.
func (h Hang) Tall() quantity.Length { return max(0, h.Ceiling-h.Floor) }

// HangZone is where goods may hang in a liquor of a depth over a sediment: clear of the sediment and 3 cm under; if
// the liquor is deeper than 60 cm, 30 cm off the floor and 20 cm under.
func HangZone(depth, sediment quantity.Length) Hang {
	if depth > DeepVat {
		return Hang{max(sediment, DeepOffFloor), depth - DeepUnder}
	}
	return Hang{max(sediment, 0), depth - UnderSurface}
}

// WarningKind is what a warning is about.
type WarningKind int

// The kinds of warning.
const (
	OverBrim   WarningKind = iota // the fill does not go in at all
	OverStop                      // the fill leaves too little room below the rim
	NoHang                        // there is no place for goods between sediment and surface
	Crowded                       // less than 20 L a kilogram of dry goods
	BadVessel                     // the material is refused
	HotVessel                     // the material does not bear the temperature
	NoMaterial                    // the material is not said, so none of its limits is watched
)

// Warning is what to say of a plan: its kind for the program, one sentence for the dyer.
type Warning struct {
	Kind     WarningKind
	Sentence string
}

// String is the sentence.
func (w Warning) String() string { return w.Sentence }

// Blocks tells whether the plan cannot be carried out so: over the brim, or in a vessel that is refused or too hot.
func (w Warning) Blocks() bool {
	return w.Kind == OverBrim || w.Kind == BadVessel || w.Kind == HotVessel
}

// Plan is what is to be in a vessel.
type Plan struct {
	Fill     quantity.Volume      // the whole liquor, sediment zone included
	Sediment quantity.Length      // the depth of the sediment zone, from the recipe
	Load     Load                 // what goes in at once
	Hottest  quantity.Temperature // the hottest the liquor will be; left at 0 °C if not known
	Alkali   bool                 // whether the vat holds any; all indigo vats do
	System   quantity.System      // the units of the sentences
}

// Room is how a plan sits in a vessel.
type Room struct {
	Depth    quantity.Length // of the liquor, without goods; at most the rim
	BelowRim quantity.Length // from the surface to the rim
	Surface  quantity.Area   // open to the air
	Brim     quantity.Volume
	Stop     quantity.Length // how far below the rim to stop for this load
	MaxFill  quantity.Volume // the fill at that
	Hang     Hang
	Ratio    float64 // litres of liquor a kilogram of dry goods; 0 without goods
	Warnings []Warning
}

// RoomFor reckons how a plan sits in the vessel, with a warning for each thing that is not as it should be.
func (v Vessel) RoomFor(p Plan) Room {
	r := Room{Brim: v.Brim(), Stop: v.StopBelowRim(p.Load), MaxFill: v.MaxFill(p.Load)}
	warn := func(k WarningKind, sentence string) { r.Warnings = append(r.Warnings, Warning{k, sentence}) }

	if v.Shape != nil {
		r.Depth = v.Shape.Depth(p.Fill)
	}
	r.BelowRim = v.Rim() - r.Depth
	r.Surface = v.Surface(r.Depth)
	show := func(q quantity.Quantity) string { return q.Format(p.System) }
	switch {
	case !(p.Fill >= 0):
		warn(OverBrim, show(p.Fill)+" is no fill")
	case p.Fill > r.Brim*brimSlack:
		warn(OverBrim, overBrim(p.Fill, r.Brim, p.System))
	case p.Fill > r.MaxFill*brimSlack && len(p.Load.Goods) == 0 && p.Load.Forearms == 0:
		warn(OverStop, show(p.Fill)+" leaves "+show(r.BelowRim)+" below the rim; stop "+show(r.Stop)+" below it, at "+show(r.MaxFill))
	case p.Fill > r.MaxFill*brimSlack:
		warn(OverStop, show(p.Fill)+" leaves "+show(r.BelowRim)+" below the rim; with these goods in, stop "+show(r.Stop)+" below it, at "+show(r.MaxFill))
	}

	r.Hang = HangZone(r.Depth, p.Sediment)
	dry := p.Load.Dry()
	if dry > 0 {
		r.Ratio = p.Fill.Litres() / dry.Kilograms()
		if r.Hang.Tall() == 0 {
			warn(NoHang, "goods have no place between the sediment and the surface in "+show(r.Depth)+" of liquor; fill more, or take a narrower vessel")
		}
		if r.Ratio < LeastRatio {
			_, most := AtOnce(p.Fill)
			warn(Crowded, show(dry)+" of dry goods in "+show(p.Fill)+" is a liquor ratio of "+ratio(r.Ratio)+":1; 30:1 lets goods move and 20:1 is the least, so put in at most "+show(most)+" at once")
		}
	}

	if v.Material == Unstated {
		warn(NoMaterial, "what the vessel is made of is not said; aluminium, galvanised and oak will not do, and plastic has a top temperature")
	}
	if s := v.Material.Refusal(p.Alkali); s != "" {
		warn(BadVessel, s)
	}
	if s := v.Material.TooHot(p.Hottest, p.System); s != "" {
		warn(HotVessel, s)
	}
	return r
}

// ratio is a liquor ratio in figures, rounded down so that 19.9 is never shown as 20.
func ratio(r float64) string { return strconv.FormatFloat(math.Floor(r*10)/10, 'f', -1, 64) }
