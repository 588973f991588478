package water

import (
	"cmp"
	"math"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
)

// Standing is how a vat stands: what it is in, how full, in what air, and what keeps it warm.
//
// It is reckoned so: the floor stands on something that insulates and loses nothing; the wall above the liquor is left
// out in an open vessel, and under a lid it is as warm as the lid, as the same damp air touches both; the room is as warm
// as its air, without draught or sun; the lid is tight; the fill stays what it is, as if what evaporates were topped up with
// water as warm (15 L in an open pail give off 0.2 L in the first 4 hours from 50 °C, so they cool 1 % faster). A draught,
// wind or a gaping lid can double the losses (from memory): Factor is for that, and Fit finds it.
type Standing struct {
	Vessel vessel.Vessel   // the material Unstated is taken as HDPE
	Wall   quantity.Length // its thickness, at most 20 cm; 0: 2 mm
	Fill   quantity.Volume // from 10 mL to the brim
	Air    Air
	Lid    bool
	Sheet  bool            // a sheet floats on the liquor and covers 95 % of it: nothing evaporates there
	Wrap   quantity.Length // closed foam, 0.038 W/(m K), round the wall and, with Lid, on the lid; at most 50 cm
	Heater quantity.Power  // what of it reaches the water, at most 100 kW
	Factor float64         // how much faster than reckoned it loses heat on this day, up to 10; 0 means 1

	kept *[]*losses // see Keeping; nil: none are kept
}

// sheetCovers is the part of the surface that a floating sheet lies on. It never fits to the wall (assumed).
const sheetCovers = 0.95

const (
	leastFill    = quantity.Volume(0.01)
	thickestWall = quantity.Length(0.2)
	thickestWrap = quantity.Length(0.5)
	mostHeater   = quantity.Power(1e5)
	mostFactor   = 10.0
)

// Check refuses a standing that cannot be: air out of bounds, a fill above the brim, thickness, heater or factor below
// nothing or beyond the bounds named at the fields. The error is a *LimitError.
func (s Standing) Check() error {
	if err := s.Air.Check(); err != nil {
		return err
	}
	brim := s.Vessel.Brim()
	switch {
	case s.Vessel.Shape == nil:
		return limit("no vessel is given, so nothing can be said of its heat")
	case !(s.Fill >= leastFill) || math.IsInf(s.Fill.Litres(), 0):
		return limit("% is no fill; it must be % or more", s.Fill, leastFill)
	case s.Fill > brim*(1+1e-9):
		return limit("% is above the brim; the vessel holds %", s.Fill, brim)
	case !(s.Wall >= 0 && s.Wall <= thickestWall):
		return limit("% is no thickness of a wall; it is % at most", s.Wall, thickestWall)
	case !(s.Wrap >= 0 && s.Wrap <= thickestWrap):
		return limit("% is no thickness of a wrap; it is % at most", s.Wrap, thickestWrap)
	case !(s.Heater >= 0 && s.Heater <= mostHeater):
		return limit("% is no power of a heater; it goes from % to %", s.Heater, quantity.Power(0), mostHeater)
	case !(s.Factor >= 0 && s.Factor <= mostFactor):
		return limit("% is no factor on the losses; it goes from % to %", number(s.Factor), number(0), number(mostFactor))
	}
	return nil
}

// factor is Factor, or 1 if it is left out.
func (s Standing) factor() float64 { return cmp.Or(s.Factor, 1) }

// Loss is the heat that a vat gives off, by the way it takes: from the open surface by Evaporation, Convection and
// Radiation, or through the Lid and the dry wall under it; and through the wetted Wall. A way is below nothing where the air is the warmer.
type Loss struct{ Evaporation, Convection, Radiation, Lid, Wall quantity.Power }

// Total is the sum of the losses.
func (l Loss) Total() quantity.Power {
	return l.Evaporation + l.Convection + l.Radiation + l.Lid + l.Wall
}

// body is a standing as the heat meets it, in base units: the geometry once, for many temperatures.
type body struct {
	Standing
	surface, size float64 // of the liquor: m², and area over perimeter in m
	wall, height  float64 // wetted: m², m
	lid, lidSize  float64 // the vessel's mouth: m², and area over perimeter in m
	dry, rim      float64 // wall above the liquor, m²; the rim's height, m
	resists       float64 // of wall and wrap, m² K/W of inner wall
	outer         float64 // m² of outside a m² of inside
	emits         float64 // of the outside
	air, pascals  float64 // K, Pa
	wallHeat      float64 // J/K of the wetted wall

	places struct{ wall, lid, outside, dry place } // see between
}

// body is the standing's geometry. Wall and wrap are rings as wide as the mean perimeter of the wetted wall is long.
func (s Standing) body() body {
	b := body{Standing: s, air: s.Air.kelvins(), pascals: s.Air.pascals()}
	b.places.wall.part, b.places.lid.part, b.places.outside.part, b.places.dry.part = 0.5, 0.5, 0.5, 0.5
	depth := s.Vessel.Shape.Depth(s.Fill)
	b.surface = s.Vessel.Surface(depth).SquareMetres()
	b.lid = s.Vessel.Surface(s.Vessel.Rim()).SquareMetres()
	b.size, b.lidSize = math.Sqrt(b.surface/math.Pi)/2, math.Sqrt(b.lid/math.Pi)/2 // as if round: a quarter of the diameter
	b.wall, b.height = s.Vessel.WettedWall(depth).SquareMetres(), depth.Metres()
	b.rim = s.Vessel.Rim().Metres()
	b.dry = math.Max(0, s.Vessel.WettedWall(s.Vessel.Rim()).SquareMetres()-b.wall)
	thick := cmp.Or(s.Wall.Metres(), defaultWall)
	stuff := solidOf(s.Vessel.Material)
	r1 := b.wall / b.height / (2 * math.Pi)
	r2 := r1 + thick
	r3 := r2 + s.Wrap.Metres()
	b.resists = r1*math.Log(r2/r1)/stuff.conducts + r1*math.Log(r3/r2)/foamConducts
	b.outer, b.emits = r3/r1, stuff.emits
	if s.Wrap > 0 {
		b.emits = wrapEmits // so bright metal loses more under a few millimetres of it than bare, and within some degrees of the air
	}
	b.wallHeat = b.wall * thick * stuff.density * stuff.heat
	return b
}

// loss is what the body gives off with a factor of 1.
func (b *body) loss(liquor quantity.Temperature) Loss {
	k := kelvin(liquor)
	var l Loss
	if b.Lid {
		l.Lid = quantity.Watts(b.throughLid(k))
	} else {
		open := b.surface
		if b.Sheet {
			open *= 1 - sheetCovers
		}
		l.Evaporation = quantity.Watts(open * b.Air.shah(liquor).Flux(liquor))
		l.Convection = quantity.Watts(b.surface * flatFilm(k, b.air, b.size, b.pascals) * (k - b.air))
		l.Radiation = quantity.Watts(b.surface * glow(waterEmits, k, b.air))
	}
	l.Wall = quantity.Watts(b.wall * b.throughWall(k))
	return l
}

// throughWall is W a m² of inner wall: inside film, wall and wrap in a row, then the outside's film and radiation.
func (b *body) throughWall(k float64) float64 {
	return outwards(k, b.air, 1/liquorFilm+b.resists, &b.places.wall, func(t float64) float64 { return b.outer * b.offWall(t, b.height) })
}

// offWall is W a m² of the wall's outside, which is at t.
func (b *body) offWall(t, height float64) float64 {
	return wallFilm(t, b.air, height, b.pascals)*(t-b.air) + glow(b.emits, t, b.air)
}

// throughLid is W: what the damp air carries from the liquor to the lid and the dry wall, which are equally warm inside, and
// these two give to the room through their own thickness, the wrap, and the films and radiation outside.
func (b *body) throughLid(k float64) float64 {
	wrap, emits := b.Wrap.Metres()/foamConducts, lidEmits
	if wrap > 0 {
		emits = wrapEmits
	}
	pw, _ := saturation(k)
	up := func(t float64) float64 { return b.surface * underLid(k, pw, t, b.Sheet) }
	off := func(t float64) float64 {
		return flatFilm(t, b.air, b.lidSize, b.pascals)*(t-b.air) + glow(emits, t, b.air)
	}
	offDry := func(t float64) float64 { return b.outer * b.offWall(t, b.rim) }
	return up(between(k, b.air, &b.places.lid, func(t float64) float64 {
		return up(t) - b.lid*outwards(t, b.air, wrap, &b.places.outside, off) - b.dry*outwards(t, b.air, b.resists, &b.places.dry, offDry)
	}))
}

// outwards is W/m² from an inside at k through a resistance to the air, where out tells what an outside at t gives off.
func outwards(k, air, resists float64, p *place, out func(t float64) float64) float64 {
	if resists == 0 {
		return out(k)
	}
	// Not what goes in, which divides what is left of an error by a thin wall.
	return out(between(k, air, p, func(t float64) float64 { return (k-t)/resists - out(t) }))
}
