package aid

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/style"
)

var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

func env(w, h int) screen.Env {
	return screen.Env{Now: noon, Width: w, Height: h, Style: style.New(style.Options{}), Home: screen.Home{Settings: shelf.Settings{Emergency: "112"}}}
}

func press(s screen.Screen, e screen.Env, r rune) screen.Screen {
	k := screen.Key{Rune: r}
	if r == ' ' {
		k.Name = "space"
	}
	s, _ = s.Update(k, e)
	return s
}

func TestEveryTopicFitsEverySize(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := env(size[0], size[1])
		s := New(e)
		if text := screentest.Shown(t, s, e); !strings.Contains(text, "swallowed") || !strings.Contains(text, "112") {
			t.Errorf("%v: the list or the number is missing:\n%s", size, text)
		}
		for _, topic := range topics { // none is cut off, in a window two rows lower for a call either
			low := e
			low.Height -= 2
			if text := screentest.Shown(t, s, low); !strings.Contains(text, topic.Name) {
				t.Errorf("%v: %s is missing:\n%s", size, topic.Name, text)
			}
		}
		for i, topic := range topics {
			at := press(s, e, rune('1'+i))
			text := strings.Join(strings.Fields(strings.ReplaceAll(screentest.Shown(t, at, e), "█", " ")), " ")
			for _, line := range topic.How {
				if !strings.Contains(text, line) {
					t.Errorf("%v, %s: %q is missing:\n%s", size, topic.Name, line, screentest.Shown(t, at, e))
				}
			}
		}
	}
}

func TestTheRinseClock(t *testing.T) {
	e := env(80, 24)
	s := press(press(New(e), e, '1'), e, ' ')
	later := e
	later.Now = noon.Add(90 * time.Second)
	if got := s.View(later).Figure.Number; got != "18:30" {
		t.Errorf("after 90 s the clock shows %q", got)
	}
	s = press(s, later, ' ')
	if got := s.View(later).Figure.Number; got != "18:30" {
		t.Errorf("a second press moved the clock to %q", got)
	}
	later.Now = noon.Add(21 * time.Minute)
	if got := s.View(later).Figure.Note; !strings.Contains(got, "20 minutes are over") {
		t.Errorf("after 21 min: %q", got)
	}
}

func TestARehearsedDayDoesNotHurryTheRinse(t *testing.T) {
	e := env(80, 24)
	e.Days.Wall = noon
	s := press(press(New(e), e, '1'), e, ' ')
	e.Now, e.Days.Wall = noon.Add(time.Hour), noon.Add(time.Minute)
	if got := s.View(e).Figure.Number; got != "19:00" {
		t.Errorf("after a minute the clock shows %q", got)
	}
}

func TestEscLeaves(t *testing.T) {
	e := env(80, 24)
	if _, r := New(e).Update(screen.Key{Name: "esc"}, e); len(r) != 1 || r[0] != (screen.Leave{}) {
		t.Errorf("esc asks for %v", r)
	}
}
