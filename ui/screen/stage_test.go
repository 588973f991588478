package screen_test

import (
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
)

// Over every whole day the vessel fills once and stays full, nothing says of a filled one that it is empty, and its liquor goes from
// water through the stages of the build to what a ready vat looks like.
func TestTheVesselOfEveryDay(t *testing.T) {
	for _, r := range recipes.Builtin() {
		t.Run(r.ID, func(t *testing.T) {
			seen, rising := map[string]bool{}, 0.0
			wholeDay(t, r.ID, func(v engine.View) {
				vat := screen.VesselOf(v.State)
				foot := strings.Join(screen.Foot(v, window(120)), " ")
				if full := day.Filled(v.State); full != (vat.Next == 0) || full && vat.Fill < 0.3 || vat.Fill > 1 || vat.Next > 1 || strings.Contains(foot, "empty") {
					t.Fatalf("after event %d, filled %v: %+v, %q", len(v.State.Log), full, vat, foot)
				}
				if !day.Filled(v.State) {
					if vat.Fill < rising {
						t.Errorf("after event %d it falls from %.2f to %.2f", len(v.State.Log), rising, vat.Fill)
					}
					rising = vat.Fill
				}
				seen[vat.Liquor.Name] = true
				if vat.Film && !v.State.Vat.Ready && !v.State.Head.Opening.Built {
					t.Errorf("after event %d a film lies on what is not ready", len(v.State.Log))
				}
			})
			for _, name := range []string{"water", style.Liquor(style.YellowGreen).Name} {
				if !seen[name] {
					t.Errorf("the liquor is never %s: %v", name, seen)
				}
			}
		})
	}
}

// A pail narrows to its floor, a cylinder does not, and of a box the long side is seen; what was seen of the liquor is its colour.
func TestTheShapeOfTheVessel(t *testing.T) {
	s := day.State{}
	for shape, want := range map[vessel.Shape][2]float64{
		vessel.Frustum{Bottom: 0.2, Top: 0.3, Height: 0.4}: {0.5, 0.75},
		vessel.Cylinder{Diameter: 0.3, Height: 0.6}:        {0.5, 0.5},
		vessel.Box{Length: 0.4, Width: 0.8, Height: 0.4}:   {2, 2},
	} {
		s.Head.Setup.Vessel, s.Head.Setup.Fill = shape.String(), quantity.Litres(1)
		if v := screen.VesselOf(s); v.Floor-want[0] > 1e-9 || want[0]-v.Floor > 1e-9 || v.Top-want[1] > 1e-9 || want[1]-v.Top > 1e-9 {
			t.Errorf("%s: %v at the floor, %v at the rim", shape, v.Floor, v.Top)
		}
	}
	soda := at(t, screen.Outlook(engine.View{}), day.SignSeen{Sign: "grass green"})
	if got := screen.LiquorOf(soda.State); got != style.Liquor(style.Green) {
		t.Errorf("seen green it is %s", got.Name)
	}
}
