package screen

import (
	"fmt"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/shade"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// HeadOf is the head line of a day: vat, fill and recipe; where in the day and what time it is.
func HeadOf(v engine.View, where string) widget.Head {
	h := v.State.Head
	name := h.Setup.Name
	if name == "" {
		name = h.Vat
	}
	right := day.Clock(v.Now)
	if where != "" {
		right = where + " · " + right
	}
	if h.Rehearsed {
		right = "rehearsed · " + right
	}
	return widget.Head{Left: fmt.Sprintf("%s · %s · %s", name, h.Setup.Fill.Format(h.Setup.System()), h.Recipe.Name), Right: right}
}

// Foot is what is known of the liquor, each figure with how it is known. "measured" is the only kind so far.
func Foot(v engine.View) []string {
	s, sys := v.State, v.State.Head.Setup.System()
	var parts []string
	if s.Vat.Temp != nil {
		parts = append(parts, s.Vat.Temp.Format(sys)+measured(v, s.Vat.TempAt.IsZero(), day.Clock(s.Vat.TempAt)))
	}
	if s.Vat.PH != nil {
		parts = append(parts, fmt.Sprintf("pH %.1f", *s.Vat.PH)+measured(v, s.Vat.PHAt.IsZero(), day.Clock(s.Vat.PHAt)))
	}
	if s.Vat.Strip != nil {
		parts = append(parts, "strip "+s.Vat.Strip.String())
	}
	if s.Vat.Heater {
		parts = append(parts, "HEATER ON, hands out")
	}
	if s.Vat.Covered {
		parts = append(parts, "covered")
	}
	if _, open := s.Open(); open && !filled(s) {
		parts = append([]string{"empty", s.Head.Setup.Fill.Format(sys) + " to come"}, parts...)
	}
	if len(parts) == 0 {
		return []string{"not read yet: r reads °C"}
	}
	return []string{strings.Join(parts, "   ")}
}

func measured(_ engine.View, earlier bool, at string) string {
	if earlier {
		return " (an earlier day)"
	}
	return " measured " + at
}

// filled tells whether the filling step is behind.
func filled(s day.State) bool {
	if s.Head.Opening.Built {
		return true
	}
	for _, st := range s.Plan {
		if st.Do == recipe.Fill && st.Into == recipe.IntoVat && st.No < s.Step {
			return true
		}
	}
	return false
}

// LiquorOf is the liquor's colour as the build stands: a picture of the stage, not a measurement.
func LiquorOf(s day.State) style.Shade {
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
	if s.Vat.Ready {
		stage = style.YellowGreen
	}
	return style.Liquor(stage)
}

// ClothOf is the colour that a number of dips gives, by common practice.
func ClothOf(dips int) style.Shade {
	f, _ := style.DepthFraction(shade.AfterDips(dips))
	return style.Cloth(f)
}
