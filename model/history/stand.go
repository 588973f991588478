package history

import (
	"cmp"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/water"
)

// feeding tells what was ever put in, and how much of what a fresh vat can give is used.
func (s *Status) feeding(v Vat) {
	if s.Indigo.Known == outlook.Unknown {
		return
	}
	first := v[0].State
	in := liquor.PureIndigo(first.Head.Recipe, first.Head.Setup.Fill)
	if held := first.Head.Opening.Indigo; first.Head.Opening.Built && held > in {
		in = held
	}
	v.each(func(d Day, e day.Event) {
		id, m := "", quantity.Mass(0)
		switch b := e.Body.(type) {
		case day.PowderAdded:
			if b.Step == 0 && b.Into == "" {
				id, m = b.Powder, b.Mass
			}
		case day.Fed:
			id, m = b.Powder, b.Mass
		}
		if p, ok := d.State.Head.Recipe.Powder(id); ok && p.Role == recipe.Indigo {
			strength := cmp.Or(p.Strength, 1)
			in += strength.Of(m)
		}
	})
	s.In, s.Used, s.Feeding = in, s.Indigo.Feeding.Used, s.Indigo.Feeding
}

// Level is how much liquor a vat has lost since it was full: to the air, with goods, drawn off.
type Level struct {
	Known outlook.Known // Measured as last read, nothing lost since; Guessed: reckoned with usual air and lids
	Lost  quantity.Range[quantity.Volume]
	Since time.Time // it was last full, topped up, or read
}

// width is the least and the most that is lost, "2 L to 4 L".
func (l Level) width(sys quantity.System) string {
	return quantity.TwoFigures(l.Lost.Low).Format(sys) + " to " + quantity.TwoFigures(l.Lost.High).Format(sys)
}

// What evaporation is not known better than: air moves, lids leak. From memory.
var (
	byAir    = quantity.Range[float64]{Low: 0.5, Likely: 1, High: 2}
	underLid = quantity.Range[float64]{Low: 0, Likely: 0.05, High: 0.15} // of what an open vat loses
)

// staysWarm is how long a vat that is left counts as warm as it was last read; then it is as cold as its air. From memory.
const staysWarm = 6 * time.Hour

// LevelOf reckons how far the liquor has sunk by an instant: by Shah's evaporation from the open surface in still air, and
// by what goods carry to the rinse. Nothing is known of a vat that is still to be built.
func LevelOf(v Vat, now time.Time) Level {
	built, ok := v.Built()
	if !ok {
		return Level{}
	}
	l := Level{Known: outlook.Guessed, Since: built}
	last, _ := v.Last()
	fill := last.State.Head.Setup.Fill
	at, lid := built, false
	warm, read := quantity.Temperature(0), time.Time{}
	var air water.Air
	var surface quantity.Area
	stands := func(setup day.Setup) { // from here on
		air, surface = outlook.Air(setup), outlook.Surface(setup, setup.Fill)
	}
	type over struct {
		water quantity.Temperature
		air   water.Air
	}
	rates := map[over]water.Evaporation{} // the few that a vat has: nearly all the time goes into reckoning them
	walk := func(to time.Time) {
		if !to.After(at) {
			return
		}
		lose := func(t quantity.Temperature, from, to time.Time) {
			if !to.After(from) {
				return
			}
			rate, known := rates[over{t, air}]
			if !known {
				var err error
				if rate, err = water.Shah(t, air); err != nil {
					return
				}
				rates[over{t, air}] = rate
			}
			litres := rate.From(surface, quantity.Span(to.Sub(from))).Kilograms() // 1 kg of water is 1 L within 1 %
			part := byAir
			if lid {
				part = underLid
			}
			l.add(quantity.Map(part, func(f float64) quantity.Volume { return quantity.Litres(litres * f) }))
		}
		cool := at
		if !read.IsZero() {
			if until := read.Add(staysWarm); until.After(at) {
				cool = until
				if cool.After(to) {
					cool = to
				}
			}
			lose(warm, at, cool)
		}
		lose(air.Temp, cool, to)
		at = to
	}
	for _, d := range v {
		s := d.State
		stands(s.Head.Setup)
		if s.Head.Opening.Built && s.Opened.After(at) {
			walk(s.Opened)
			lid = s.Head.Opening.Cover
		}
		for e := range s.Corrected() {
			walk(e.At)
			past := e.At.After(built)
			switch b := e.Body.(type) {
			case day.VatCovered:
				lid = true
			case day.VatUncovered, day.DipBegun:
				lid = false
			case day.DipEnded:
				if p, ok := s.Piece(b.Tag); ok && past {
					l.add(quantity.Exactly(outlook.CarriedOut(p.Spec, 1)))
				}
			case day.ToppedUp:
				if past {
					l.add(quantity.Exactly(-b.Water))
					l.Since = e.At
				}
			case day.StockDrawn:
				if past {
					l.add(quantity.Exactly(-b.Stock))
				}
			case day.DrawnOff:
				l.add(quantity.Exactly(b.Liquor))
			case day.Decanted:
				l.add(quantity.Exactly(b.Liquor))
			case day.Reading:
				if b.Of == "" && b.Temp != nil {
					warm, read = *b.Temp, e.At
				}
				if holds, ok := s.Holds(b); ok && past {
					l.Lost, l.Since, l.Known = quantity.Exactly(max(0, fill-holds)), e.At, outlook.Measured
				}
			}
		}
		lid = s.Vat.Covered
	}
	if last.State.Ended {
		return l
	}
	walk(now)
	l.Lost = quantity.Map(l.Lost, func(v quantity.Volume) quantity.Volume { return min(v, fill) })
	return l
}

func (l *Level) add(by quantity.Range[quantity.Volume]) {
	plus := func(a, b quantity.Volume) quantity.Volume { return max(0, a+b) }
	l.Lost = quantity.Range[quantity.Volume]{Low: plus(l.Lost.Low, by.Low), Likely: plus(l.Lost.Likely, by.Likely), High: plus(l.Lost.High, by.High)}
	if by.High > quantity.Millilitres(50) {
		l.Known = outlook.Guessed
	}
}

// Sludge is what lies on the floor of a vat of lime, iron or a ferment.
type Sludge struct {
	Known  outlook.Known // Unknown: nothing settles, or the vessel was not measured; Measured: seen by the dyer
	Height quantity.Length
	Depth  quantity.Length // of the whole liquor
	Deep   bool            // above a third of it: to be decanted
}

// freshZone is the part of the depth that the powders of a build leave as sediment at most: lime vats a quarter to a third
// (C). tooDeep is from where on it leaves no room for goods (C).
const freshZone, tooDeep = 0.25, 1.0 / 3

// SludgeOf reckons the sediment: what the build leaves is the recipe's zone, at most a quarter of the depth; more powders of
// those that settle raise it in their proportion (M), and a decanting takes it away.
func SludgeOf(v Vat) Sludge {
	last, ok := v.Last()
	if !ok || !settles(last.State.Head.Recipe.Family) {
		return Sludge{}
	}
	if _, built := v.Built(); !built {
		return Sludge{}
	}
	head := last.State.Head
	var whole, now quantity.Mass
	for _, p := range head.Recipe.Powders {
		if solid(head.Recipe, p.ID, p.Material) {
			whole += head.Recipe.PerLitre(p).Of(head.Setup.Fill)
		}
	}
	now = whole
	var out Sludge
	v.each(func(d Day, e day.Event) {
		r := d.State.Head.Recipe
		switch b := e.Body.(type) {
		case day.PowderAdded:
			if b.Step == 0 && solid(r, b.Powder, b.Material) {
				now += b.Mass
			}
		case day.Fed:
			if roleGiven(d, b) == recipe.Food || solid(r, b.Powder, b.Material) {
				now += b.Mass
			}
		case day.SignSeen:
			if sign, known := b.Known(); known && sign.ID == deepSign {
				out.Known, out.Deep = outlook.Measured, true
			}
		case day.Decanted:
			now, out = 0, Sludge{}
		}
	})
	vessel := head.Setup.Measured()
	if vessel.Shape == nil || whole <= 0 {
		return out
	}
	depth, err := vessel.Depth(head.Setup.Fill)
	if err != nil {
		return out
	}
	zone := min(head.Recipe.Liquor.Sediment, depth*freshZone)
	out.Depth = depth
	out.Height = min(zone*quantity.Length(now/whole), depth)
	if out.Known == outlook.Unknown {
		out.Known, out.Deep = outlook.Guessed, out.Height > depth*tooDeep
	}
	return out
}

// deepSign is the sign by which the dyer says that the sediment is deep.
const deepSign = "sediment-deep"

// settles tells whether the powders of a family lie on the floor.
func settles(f recipe.Family) bool {
	return f == recipe.SugarLime || f == recipe.IronLime || f == recipe.Ferment
}

// solid tells whether a powder ends on the floor: lime, what iron becomes, food.
func solid(r recipe.Recipe, id, material string) bool {
	if roleOf(r, id, material) == recipe.Food {
		return true
	}
	if p, ok := r.Powder(id); ok {
		material = p.Material
	}
	switch (recipe.Powder{Material: material}).Substance() {
	case recipe.SlakedLime, recipe.Quicklime, recipe.Chalk, recipe.IronSulfate:
		return true
	}
	return false
}
