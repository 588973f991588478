package history

import (
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

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

// over is what the rate of an evaporation goes by.
type over struct {
	water quantity.Temperature
	air   water.Air
}

// sinking is a Level up to an instant, with what its going on depends on.
type sinking struct {
	Level
	At   time.Time
	Lid  bool
	Warm quantity.Temperature // as it was last read
	Read time.Time
}

// walk goes on to an instant in the set-up of the day.
func (l *Life) walk(to time.Time) {
	w := &l.past.Sinking
	if !to.After(w.At) {
		return
	}
	lose := func(t quantity.Temperature, from, to time.Time) {
		if !to.After(from) {
			return
		}
		rate, known := l.rates[over{t, l.air}]
		if !known {
			var err error
			if rate, err = water.Shah(t, l.air); err != nil {
				return
			}
			l.rates[over{t, l.air}] = rate
		}
		litres := rate.From(l.surface, quantity.Span(to.Sub(from))).Kilograms() // 1 kg of water is 1 L within 1 %
		part := byAir
		if w.Lid {
			part = underLid
		}
		w.add(quantity.Map(part, func(f float64) quantity.Volume { return quantity.Litres(litres * f) }))
	}
	cool := w.At
	if !w.Read.IsZero() {
		if until := w.Read.Add(staysWarm); until.After(w.At) {
			cool = wording.Either(until.After(to), to, until)
		}
		lose(w.Warm, w.At, cool)
	}
	lose(l.air.Temp, cool, to)
	w.At = to
}

// sink takes up the level of a day, of a vat that is built by its newest one.
func (l *Life) sink(s *day.State) {
	built := l.past.Built
	w := &l.past.Sinking
	if w.Known == outlook.Unknown {
		*w = sinking{Level: Level{Known: outlook.Guessed, Since: built}, At: built}
	}
	l.air, l.surface = outlook.Air(s.Head.Setup), outlook.Surface(s.Head.Setup, s.Head.Setup.Fill)
	if s.Head.Opening.Built && s.Opened.After(w.At) {
		l.walk(s.Opened)
		w.Lid = s.Head.Opening.Cover
	}
	for e := range s.Corrected() {
		l.walk(e.At)
		past := e.At.After(built)
		switch b := e.Body.(type) {
		case day.VatCovered:
			w.Lid = true
		case day.VatUncovered, day.DipBegun:
			w.Lid = false
		case day.DipEnded:
			if p, ok := s.Piece(b.Tag); ok && past {
				w.add(quantity.Exactly(outlook.CarriedOut(p.Spec, 1)))
			}
		case day.ToppedUp:
			if past {
				w.add(quantity.Exactly(-b.Water))
				w.Since = e.At
			}
		case day.StockDrawn:
			if past {
				w.add(quantity.Exactly(-b.Stock))
			}
		case day.DrawnOff:
			w.add(quantity.Exactly(b.Liquor))
		case day.Decanted:
			w.add(quantity.Exactly(b.Liquor))
		case day.Reading:
			if b.Of == "" && b.Temp != nil {
				w.Warm, w.Read = *b.Temp, e.At
			}
			if holds, ok := s.Holds(b); ok && past {
				w.Lost, w.Since, w.Known = quantity.Exactly(max(0, l.past.Fill-holds)), e.At, outlook.Measured
			}
		}
	}
	w.Lid = s.Vat.Covered
}

// Level reckons how far the liquor has sunk by an instant: by Shah's evaporation from the open surface in still air, and by what
// goods carry to the rinse. Nothing is known of a vat that is still to be built.
func (l *Life) Level(now time.Time) Level {
	if l.past.IsBuilt && !l.last.State.Ended {
		on := Life{past: Past{Sinking: l.past.Sinking}, air: l.air, surface: l.surface, rates: l.rates}
		on.walk(now)
		w := &on.past.Sinking
		w.Lost = quantity.Map(w.Lost, func(v quantity.Volume) quantity.Volume { return min(v, l.past.Fill) })
		return w.Level
	}
	return l.past.Sinking.Level
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

// sediment is what lies on the floor.
type sediment struct {
	Now  quantity.Mass // of the powders
	Deep bool          // the dyer has seen so
}

// take takes up an event: more powders of those that settle, and a decanting.
func (g *sediment) take(r *recipe.Recipe, b day.Body) {
	switch b := b.(type) {
	case day.PowderAdded:
		if b.Step == 0 && solid(r, b.Powder, b.Material) {
			g.Now += b.Mass
		}
	case day.Fed:
		if roleGiven(r, b) == recipe.Food || solid(r, b.Powder, b.Material) {
			g.Now += b.Mass
		}
	case day.SignSeen:
		if sign, known := b.Known(); known && sign.ID == deepSign {
			g.Deep = true
		}
	case day.Decanted:
		*g = sediment{}
	}
}

// Sludge reckons the sediment: what the build leaves is the recipe's zone, at most a quarter of the depth; more powders of
// those that settle raise it in their proportion (M), and a decanting takes it away.
func (l *Life) Sludge() Sludge {
	head := l.last.State.Head
	if !l.past.IsBuilt || !settles(head.Recipe.Family) {
		return Sludge{}
	}
	whole, now := l.past.Whole, l.past.Sludge.Now
	var out Sludge
	if l.past.Sludge.Deep {
		out.Known, out.Deep = outlook.Measured, true
	}
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
func solid(r *recipe.Recipe, id, material string) bool {
	if roleOf(r, id, material) == recipe.Food {
		return true
	}
	if p, ok := r.Powder(id); ok {
		material = p.Material
	}
	settling := []recipe.Substance{recipe.SlakedLime, recipe.Quicklime, recipe.Chalk, recipe.IronSulfate}
	return slices.Contains(settling, recipe.Powder{Material: material}.Substance())
}
