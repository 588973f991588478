package follow_test

import (
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/follow"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

// A question before the first powder is answered by a figure, and each answer stands on the screen.
func TestAFigureAnswersAQuestion(t *testing.T) {
	r, _ := recipes.Find("soda")
	h := rehearse.Head(r, morning)
	h.Setup.Place, h.Setup.Material, h.Setup.Asks, h.Setup.GoodsFirst = "", "", true, false
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	s = apply(t, s, morning, day.Opened{How: "build"})
	for _, want := range []day.Body{day.PlaceChanged{Place: day.CrossDraught}, day.VesselTold{Material: "enamel"}, day.HelperChanged{Who: "adults alone"}} {
		for _, size := range screentest.Sizes {
			e := env(s, morning, size[0], size[1], style.New(style.Options{}))
			scr := follow.New(e)
			text := strings.Join(strings.Fields(screentest.Shown(t, scr, e)), " ")
			for _, c := range s.Choices() {
				if !strings.Contains(text, c.Words) {
					t.Errorf("%v: %q is missing:\n%s", size, c.Words, screentest.Shown(t, scr, e))
				}
			}
			if _, got := screentest.Press(scr, e, "2"); len(got) != 1 || got[0] != (screen.Do{Command: day.Record{Body: want}}) {
				t.Errorf("%v: 2 asks for %v, want %v", size, got, want)
			}
		}
		s = apply(t, s, morning, want)
	}
}
