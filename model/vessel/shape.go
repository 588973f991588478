// Package vessel knows what a vat is held in: how much at which depth, how much surface lies open, what the material
// bears, and how far to fill it for the goods that go in at once.
//
// All measures are inside measures, and all round ones diameters. Depths are from the floor up. Formulas are exact for the
// ideal shape; a real pail with rounded corners and a domed floor holds some per cent less, so the dyer's own jug rules.
package vessel

import (
	"math"

	"example.org/vatside/model/quantity"
)

// Shape is the inside of a vessel. It is one of Frustum, Cylinder, Box and Jug, which compare with ==.
//
// A depth below the floor counts as the floor, one above the rim as the rim: no function here answers for what is not there.
type Shape interface {
	// Rim is the height of the rim above the floor.
	Rim() quantity.Length
	// Volume is what the vessel holds up to a depth.
	Volume(depth quantity.Length) quantity.Volume
	// Depth is how deep a volume stands: the inverse of Volume, to 1e-12 of the rim's height
	// (less where a vessel closes to almost nothing at the top). A volume above the brim stands at the rim.
	Depth(volume quantity.Volume) quantity.Length
	// Surface is the open surface of a liquor that stands at a depth.
	Surface(depth quantity.Length) quantity.Area
	// WettedWall is the area of the walls, without the floor, below a depth.
	WettedWall(depth quantity.Length) quantity.Area
	// String is the one-line form that ParseShape reads.
	String() string

	measures() []quantity.Length
}

// Frustum is a pail or a bin: round, wider or narrower at the top than at the floor.
type Frustum struct{ Bottom, Top, Height quantity.Length }

// Cylinder is round and as wide at the top as at the floor.
type Cylinder struct{ Diameter, Height quantity.Length }

// Box has four upright walls.
type Box struct{ Length, Width, Height quantity.Length }

// within holds a depth between floor and rim; NaN is the floor.
func within(depth, rim quantity.Length) float64 {
	if !(depth > 0) {
		return 0
	}
	return math.Min(depth.Metres(), rim.Metres())
}

func cubicMetres(v float64) quantity.Volume { return quantity.Litres(v * 1000) }

// Rim is the height of the pail.
func (f Frustum) Rim() quantity.Length { return f.Height }

func (f Frustum) radius(h float64) float64 {
	r0, r1 := f.Bottom.Metres()/2, f.Top.Metres()/2
	return r0 + (r1-r0)*h/f.Height.Metres()
}

// Volume is V = π h (r₀² + r₀ r + r²) / 3 with r₀ the radius of the floor and r that of the surface.
func (f Frustum) Volume(depth quantity.Length) quantity.Volume {
	h := within(depth, f.Height)
	r0, r := f.Bottom.Metres()/2, f.radius(h)
	return cubicMetres(math.Pi * h * (r0*r0 + r0*r + r*r) / 3)
}

// Depth inverts Volume in closed form. With the slope k = (r₁ − r₀)/H the radius of the surface is r = ∛(r₀³ + 3kV/π), and
// the depth follows from Volume's own formula. (r − r₀)/k would be shorter, and lose all figures in a nearly straight pail.
func (f Frustum) Depth(volume quantity.Volume) quantity.Length {
	v := volume.Litres() / 1000
	if !(v > 0) {
		return 0
	}
	r0, r1, height := f.Bottom.Metres()/2, f.Top.Metres()/2, f.Height.Metres()
	r := math.Cbrt(math.Max(0, r0*r0*r0+3*(r1-r0)/height*v/math.Pi))
	return quantity.Metres(math.Min(height, 3*v/(math.Pi*(r0*r0+r0*r+r*r))))
}

// Surface is the circle at a depth.
func (f Frustum) Surface(depth quantity.Length) quantity.Area {
	r := f.radius(within(depth, f.Height))
	return quantity.SquareMetres(math.Pi * r * r)
}

// WettedWall is the side of the frustum below a depth: π (r₀ + r) times the slant.
func (f Frustum) WettedWall(depth quantity.Length) quantity.Area {
	h := within(depth, f.Height)
	r0, r := f.Bottom.Metres()/2, f.radius(h)
	return quantity.SquareMetres(math.Pi * (r0 + r) * math.Hypot(h, r-r0))
}

// Rim is the height of the cylinder.
func (c Cylinder) Rim() quantity.Length { return c.Height }

// Volume is surface times depth.
func (c Cylinder) Volume(depth quantity.Length) quantity.Volume {
	return cubicMetres(c.Surface(0).SquareMetres() * within(depth, c.Height))
}

// Depth is volume over surface.
func (c Cylinder) Depth(volume quantity.Volume) quantity.Length {
	return over(volume, c.Surface(0), c.Height)
}

// Surface is the circle, the same at every depth.
func (c Cylinder) Surface(quantity.Length) quantity.Area {
	d := c.Diameter.Metres()
	return quantity.SquareMetres(math.Pi / 4 * d * d)
}

// WettedWall is the side below a depth.
func (c Cylinder) WettedWall(depth quantity.Length) quantity.Area {
	return quantity.SquareMetres(math.Pi * c.Diameter.Metres() * within(depth, c.Height))
}

// Rim is the height of the box.
func (b Box) Rim() quantity.Length { return b.Height }

// Volume is surface times depth.
func (b Box) Volume(depth quantity.Length) quantity.Volume {
	return cubicMetres(b.Surface(0).SquareMetres() * within(depth, b.Height))
}

// Depth is volume over surface.
func (b Box) Depth(volume quantity.Volume) quantity.Length {
	return over(volume, b.Surface(0), b.Height)
}

// Surface is length times width, the same at every depth.
func (b Box) Surface(quantity.Length) quantity.Area {
	return quantity.SquareMetres(b.Length.Metres() * b.Width.Metres())
}

// WettedWall is the four sides below a depth.
func (b Box) WettedWall(depth quantity.Length) quantity.Area {
	return quantity.SquareMetres(2 * (b.Length.Metres() + b.Width.Metres()) * within(depth, b.Height))
}

// over is the depth of a volume on an upright-walled floor, at most the rim.
func over(volume quantity.Volume, floor quantity.Area, rim quantity.Length) quantity.Length {
	if !(volume > 0) {
		return 0
	}
	return quantity.Metres(math.Min(rim.Metres(), volume.Litres()/1000/floor.SquareMetres()))
}
