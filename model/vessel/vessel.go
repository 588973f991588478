package vessel

import (
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Vessel is a shape and what it is made of. The zero Vessel has no shape and holds nothing.
type Vessel struct {
	Shape    Shape
	Material Material
}

// Parse reads a shape and, after it, the material if it is given: "frustum 25.4cm 29.9cm 36.8cm HDPE".
func Parse(s string, sys quantity.System) (Vessel, error) {
	words := strings.Fields(s)
	last := len(words) // where the material begins: after the last word with a figure in it, and its unit
	for last > 1 && !strings.ContainsAny(words[last-1], "0123456789") {
		last--
	}
	if last > 1 && last < len(words) && endsInDigit(words[last-1]) {
		last++ // a unit that stands apart
	}
	if last <= 1 {
		last = len(words)
	}
	shape, err := ParseShape(strings.Join(words[:last], " "), sys)
	if err != nil {
		return Vessel{}, err
	}
	m, err := ParseMaterial(strings.Join(words[last:], " "))
	if err != nil {
		return Vessel{}, err
	}
	return Vessel{shape, m}, nil
}

// String is the one-line form that Parse reads; "" for the zero Vessel.
func (v Vessel) String() string {
	if v.Shape == nil {
		return ""
	}
	text, _ := v.Material.MarshalText()
	return strings.TrimSpace(v.Shape.String() + " " + string(text))
}

// MarshalText is String, in a form that UnmarshalText reads back to the same vessel. A vessel that cannot be is an error.
func (v Vessel) MarshalText() ([]byte, error) {
	if v.Shape == nil {
		return nil, nil
	}
	if err := check("", v.Shape); err != nil {
		return nil, err
	}
	return []byte(v.String()), nil
}

// UnmarshalText reads what Parse reads in Metric; an empty text is the zero Vessel.
func (v *Vessel) UnmarshalText(b []byte) error {
	if len(b) == 0 {
		*v = Vessel{}
		return nil
	}
	return wording.Read(v, b, func(s string) (Vessel, error) { return Parse(s, quantity.Metric) })
}

// shape is the vessel's, one that holds nothing where it has none.
func (v Vessel) shape() Shape { return wording.Either[Shape](v.Shape == nil, Cylinder{}, v.Shape) }

// Rim is the height of the rim above the floor.
func (v Vessel) Rim() quantity.Length { return v.shape().Rim() }

// Brim is what the vessel holds full to the rim.
func (v Vessel) Brim() quantity.Volume { return v.Volume(v.Rim()) }

// Volume is what the vessel holds up to a depth; see Shape.
func (v Vessel) Volume(depth quantity.Length) quantity.Volume { return v.shape().Volume(depth) }

// Surface is the open surface of a liquor at a depth; see Shape.
func (v Vessel) Surface(depth quantity.Length) quantity.Area { return v.shape().Surface(depth) }

// WettedWall is the area of the walls below a depth, without the floor; see Shape.
func (v Vessel) WettedWall(depth quantity.Length) quantity.Area { return v.shape().WettedWall(depth) }

// brimSlack lets a fill that was reckoned from the brim pass as the brim. One part in a thousand million.
const brimSlack = 1 + 1e-9

// Depth is how deep a volume stands, and the inverse of Volume. A volume below zero, or above the brim, is a *FormError
// with the limit in it.
func (v Vessel) Depth(volume quantity.Volume) (quantity.Length, error) {
	switch {
	case !(volume >= 0):
		return 0, &FormError{"", volume.String() + " is no fill; it must be 0 L or more"}
	case volume > v.Brim()*brimSlack:
		return 0, &FormError{"", overBrim(volume, v.Brim(), quantity.Metric)}
	}
	return v.shape().Depth(volume), nil
}

// overBrim is the sentence for a fill that does not go in.
func overBrim(fill, brim quantity.Volume, sys quantity.System) string {
	is, holds := fill.Format(sys), brim.Format(sys)
	if is == holds {
		return (fill - brim).Format(sys) + " too much: " + is + " stands above the brim"
	}
	return is + " is above the brim; this vessel holds " + holds
}
