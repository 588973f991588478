package screen

import (
	"math"
	"slices"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/vessel"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// usualVessel stands for one that was not measured: a pail as high as it is wide, filled to four fifths.
func usualVessel(fill quantity.Volume) vessel.Vessel {
	d := quantity.Length(math.Cbrt(fill.Litres() / 1000 / 0.8 * 4 / math.Pi))
	return vessel.Vessel{Shape: vessel.Frustum{Bottom: d * 0.94, Top: d * 1.06, Height: d}}
}

var measured style.Memory[string, vessel.Vessel]

// DrawnVessel is a vessel with so much in it; one that was not measured stands as the usual one.
func DrawnVessel(v vessel.Vessel, holds quantity.Volume) (out widget.Vessel) {
	if v.Shape == nil {
		v = usualVessel(max(holds, leastUsual))
	}
	out.Floor, out.Top = widths(v.Shape)
	if holds > 0 {
		out.Fill = float64(v.Shape.Depth(holds) / v.Rim())
	}
	return out
}

// leastUsual is what a vessel holds of which nothing is known.
const leastUsual = quantity.Volume(10)

// VesselOf is the day's vat as it stands: its shape, how full it is, what lies on the liquor and at its floor.
func VesselOf(s day.State) widget.Vessel {
	setup := s.Head.Setup
	v := measured.Of(setup.Vessel, func(string) vessel.Vessel { return setup.Measured() })
	if v.Shape == nil {
		v = usualVessel(setup.Fill)
	}
	part := func(l quantity.Length) float64 { return float64(l / v.Rim()) }
	deep := func(of quantity.Volume) float64 { return part(v.Shape.Depth(of)) }
	out := widget.Vessel{Liquor: LiquorOf(s), Lid: s.Vat.Covered}
	out.Floor, out.Top = widths(v.Shape)
	if s.Ended {
		return out
	}
	holds, next := level(s)
	out.Fill = deep(holds)
	if next > holds {
		out.Next, out.Mark = deep(next), next.Format(setup.System())
	}
	if s.Vat.Ready || s.Head.Opening.Built {
		out.Film, out.Skimmed = true, s.Vat.Skimmed.After(s.Vat.Lifted)
		if h := s.Head.Recipe.Liquor.Sediment; h > 0 {
			out.Sediment, out.Rack = part(h)*0.6, part(h)
		}
	}
	return out
}

// Holds says how much is in the vat, and how warm it was read, reckoned where that no longer holds: "20 L, 12 °C", "20 L, 9 °C reckoned";
// empty before anything is.
func Holds(v engine.View) string {
	s := v.State
	holds, _ := level(s)
	if holds <= 0 {
		return ""
	}
	sys, text := s.Head.Setup.System(), ""
	switch h := Outlook(v).Heat; {
	case h.Known == outlook.Measured || h.AsRead:
		text = ", " + HeatNow(h, sys).Format(sys)
	case h.Known != outlook.Unknown:
		text = ", " + HeatNow(h, sys).Format(sys) + " " + known[h.Known]
	}
	return holds.Format(sys) + text
}

// widths are how wide a vessel is at its floor and its rim, as parts of its height. Of a box the long side is seen.
func widths(s vessel.Shape) (floor, top float64) {
	across := func(depth quantity.Length) float64 { return math.Sqrt(float64(s.Surface(depth)) * 4 / math.Pi) }
	switch s := s.(type) {
	case vessel.Frustum:
		return float64(s.Bottom / s.Height), float64(s.Top / s.Height)
	case vessel.Box:
		long := float64(max(s.Length, s.Width) / s.Height)
		return long, long
	}
	rim := s.Rim()
	return across(0) / float64(rim), across(rim) / float64(rim)
}

// level is how much is in the vat, and how much there will be after what is poured next; that is none where nothing is.
func level(s day.State) (holds, next quantity.Volume) {
	if day.Filled(s) {
		return s.Level().In, 0
	}
	if f, ok := s.Filling(); ok {
		return f.Have, f.Fill
	}
	return 0, s.Head.Setup.Fill
}

// seen are the colours of a liquor that was looked at, by the signs of model/signs.
var seen = map[string]style.Stage{
	"yellow": style.YellowGreen, "grass-green": style.Green, "blue-green": style.Tired, "blue": style.CloudyBlue, "straw": style.Straw, "milky": style.Milky,
	"grey-white": style.Milky, "brown": style.Amber, "too-yellow": style.Amber, "reddish": style.Amber,
}

// SeenAs is the colour of a liquor that was looked at, by the sign; false for signs of something else.
func SeenAs(sign string) (style.Shade, bool) {
	stage, ok := seen[sign]
	return style.Liquor(stage), ok
}

// LiquorOf is the liquor's colour: as it was last seen since anything was last done to it, else as the build stands.
func LiquorOf(s day.State) style.Shade {
	for _, sign := range slices.Backward(s.Seen()) {
		if stage, ok := seen[sign.ID]; ok {
			return style.Liquor(stage)
		}
	}
	stage := style.Water
	for _, st := range s.Plan {
		if st.No >= s.Step {
			break
		}
		switch {
		case st.Role == recipe.Indigo && (st.Do == recipe.Add || st.Do == recipe.Sprinkle):
			stage = style.CloudyBlue
		case st.Role == recipe.Reducer && (st.Do == recipe.Add || st.Do == recipe.Sprinkle), st.Do == recipe.Wait:
			stage = style.Green
		}
	}
	if s.Vat.Ready || s.Head.Opening.Built {
		stage = style.YellowGreen
	}
	return style.Liquor(stage)
}
