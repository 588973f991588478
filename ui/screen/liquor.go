package screen

import (
	"fmt"

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
