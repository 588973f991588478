package setup

import (
	"strings"
	"testing"

	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
)

// summed is the last page, of a pail of the recipe chosen by its number, with a wish for the first piece.
func summed(t *testing.T, e screen.Env, recipe string) (screen.Screen, string) {
	t.Helper()
	keys := []string{recipe, "pgdown", "pgdown"}
	if library.Slow(e.Home.Recipes[recipe[0]-'1']) {
		keys = append(keys, "pgdown")
	}
	s, _ := screentest.Press(New(e), e, keys...)
	return s, strings.Join(strings.Fields(screentest.Shown(t, s, e)), " ")
}

// The last page says when to begin for the wished hour, and says nothing where there is no wish or it cannot be kept.
func TestTheLastPageSaysWhenToBegin(t *testing.T) {
	for _, size := range screentest.Sizes {
		for wish, want := range map[string]string{
			"15:00": "For the first piece at 15:00 begin by 13:42: weigh the pre-reduced indigo grains.",
			"12:30": "", // half an hour from now
			"":      "",
			"noon":  "",
		} {
			e := env(size[0], size[1], "metric")
			e.Home.Settings.ReadyBy = wish
			s, text := summed(t, e, "1")
			if want == "" && strings.Contains(text, "For the first piece") || !strings.Contains(text, want) {
				t.Errorf("%v, ready by %q: %q is missing:\n%s", size, wish, want, screentest.Shown(t, s, e))
			}
			for _, word := range []string{"CAUTION", "enter: begin", "sodium dithionite"} {
				if !strings.Contains(text, word) {
					t.Errorf("%v, ready by %q: %q is missing:\n%s", size, wish, word, screentest.Shown(t, s, e))
				}
			}
		}
	}
}

// With a stove the water is heated first; a vat that takes a week is not promised for the afternoon.
func TestTheBeginningIsTheVatsOwn(t *testing.T) {
	e := env(80, 24, "metric")
	e.Home.Settings.ReadyBy, e.Home.Settings.Gear.Stove = "18:00", 300
	if _, text := summed(t, e, "1"); !strings.Contains(text, ": heat the water.") {
		t.Errorf("with a small ring:\n%s", text)
	}
	for n, r := range e.Home.Recipes {
		_, text := summed(t, e, string(rune('1'+n)))
		if got := strings.Contains(text, "For the first piece"); got != (r.Liquor.Ready.Hours() < 2) {
			t.Errorf("%s, ready in %v: said %v", r.ID, r.Liquor.Ready, got)
		}
	}
}
