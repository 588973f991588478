// Package bench is what comes after the dips: each piece through its rinses, sour, soap, drying and rubbing test to the look
// at it dry, one act at a time, and the list of them.
package bench

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// Screen is the bench. chosen is the tag that the dyer picked; empty: whatever is most pressing.
type Screen struct {
	chosen string
	asked  string // the act of the chosen one that was pressed for; empty: none
	typing screen.Field
	cloths *screen.OfBlues[dipped, style.Shade]
}

// dipped is a piece after so many dips.
type dipped struct {
	tag  string
	dips int
}

// New is the bench with the piece that it was opened for.
func New(env screen.Env) screen.Screen {
	s := Screen{cloths: &screen.OfBlues[dipped, style.Shade]{}}
	if v, ok := env.Day(); ok {
		onBench := func(p day.Piece) bool { return p.Tag == env.Tag }
		if p, there := v.State.Piece(env.Tag); there && slices.ContainsFunc(v.State.OnBench(), onBench) {
			if _, wants := v.State.AfterDips(p, v.Now); wants {
				s.chosen = p.Tag
			}
		}
	}
	return s
}

func (s Screen) Capturing() bool { return s.typing.On() }

// What is typed.
const (
	typeCrock = "crock"
	typeLook  = "look"
)

// now is the act for the hands: that of the chosen piece, else the most pressing one of all; false when nothing is left to
// do. A bath that is over comes first, then what can begin, then what runs; a step that may not be done yet, drying and
// what is judged come last.
func (s Screen) now(v engine.View) (day.Act, bool) {
	s = s.held(v)
	var best day.Act
	rank := -1
	for _, p := range v.State.OnBench() {
		a, ok := v.State.AfterDips(p, v.Now)
		if p.Tag == s.chosen {
			if !ok {
				a.Piece = p
			}
			return a, ok
		}
		if r := pressing(a, v.Now); ok && r > rank {
			best, rank = a, r
		}
	}
	return best, rank >= 0
}

// pressing is how soon an act wants the hands.
func pressing(a day.Act, now time.Time) int {
	left, _ := a.Left(now)
	switch {
	case a.Due != nil && left == 0:
		return 5
	case a.Kind == day.ActFinish, a.Caution != "", a.Press == "in":
		return 4
	case a.Kind == day.ActBench && a.Due != nil:
		return 3
	case a.Kind == day.ActAir:
		return 2
	case !a.Shut:
		return 1
	}
	return 0
}

func (s Screen) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	v, _ := env.Day()
	if s.typing.On() {
		return s.typed(k, v)
	}
	s = s.held(v)
	a, wants := s.now(v)
	pieces := v.State.OnBench()
	if row, ok := k.On(len(pieces)); ok {
		s.chosen, s.asked = pieces[row].Tag, ""
		return s, nil
	}
	switch {
	case k.Done():
		return s.press(a, wants, v)
	case k.Name == "down" || k.Name == "up":
		s.chosen, s.asked = screen.Along(pieces, s.chosen, k.Way()), ""
		return s, nil
	case k.Name == "esc" && s.chosen != "":
		s.chosen = ""
		return s, nil
	case k.Name == "esc" || k.Name == "tab":
		return s, []screen.Request{screen.Leave{}}
	}
	if figure := k.Rune >= '1' && k.Rune <= '9'; wants && figure && s.judges(a) {
		s.typing = question(a)
		s.typing.Text = string(k.Rune)
		if s.typing.What == typeLook {
			s.typing.Text = "rung " + s.typing.Text
		}
	}
	return s, nil
}

// Benched tells that the piece in hand is on the bench.
func (s Screen) Benched() {}

func (s Screen) Focus(env screen.Env) string {
	v, _ := env.Day()
	a, _ := s.now(v)
	return a.Piece.Tag
}

// named tells an act of a piece from its others.
func named(a day.Act) string { return fmt.Sprint(a.Piece.Tag, a.Kind, a.Bench.ID, a.Due != nil) }

// held is the bench without a choice whose act is done.
func (s Screen) held(v engine.View) Screen {
	if p, there := v.State.Piece(s.chosen); there && s.asked != "" {
		if a, ok := v.State.AfterDips(p, v.Now); !ok || named(a) != s.asked {
			s.chosen, s.asked = "", ""
		}
	}
	return s
}

// judges tells whether an act is an answer in figures or words.
func (s Screen) judges(a day.Act) bool {
	return a.Kind == day.ActBench && !a.Shut && (a.Bench.ID == day.Crock || a.Bench.ID == day.Looked)
}

// question is the field for what an act of the bench asks: a crock test, or the look of a piece.
func question(a day.Act) screen.Field {
	if a.Bench.ID == day.Crock {
		return screen.Field{What: typeCrock, Label: "Blue on the white, dry and wet: " + day.CrockWords, Unit: "such as 4 2.5"}
	}
	return screen.Field{What: typeLook, Label: "What does " + a.Piece.Tag + " look like, dry?", Unit: "dark, rung 4, lab 31 -3 -20", Hint: "or drop a photograph of the card here"}
}

// press is the big key.
func (s Screen) press(a day.Act, wants bool, v engine.View) (screen.Screen, []screen.Request) {
	tag := a.Piece.Tag
	s.asked = ""
	if a.Caution == "" && s.chosen != "" { // after its caution the same piece stays in hand, and where it is not done
		s.asked = named(a)
	}
	left, _ := a.Left(v.Now)
	call := v.Call()
	called := call.Act.Kind == a.Kind && call.Act.Piece.Tag == tag // what the bench asks for is the call
	switch {
	case !wants && tag != "": // the chosen one is done
		return s, nil
	case !wants:
		return s, []screen.Request{screen.Leave{}}
	case a.Kind == day.ActAir:
		return s, []screen.Request{screen.Say{Word: tag + " airs " + day.Countdown(left) + " more; f: no green is left already"}}
	case a.Kind == day.ActFinish && !called:
		return s, screen.Doing(day.Finish{Tag: tag})
	case s.judges(a):
		s.typing = question(a)
		s.chosen = tag
		return s, nil
	}
	if a.Caution != "" {
		s.chosen = tag
	}
	if called {
		return s, screen.Doing(day.Done{Call: call.ID})
	}
	return s, screen.Doing(day.Bench{Tag: tag})
}

// Looks is the piece whose look is typed, and what is typed of it; false where none is.
func (s Screen) Looks(env screen.Env) (tag, typed string, ok bool) {
	if s.typing.What != typeLook {
		return "", "", false
	}
	return s.Focus(env), s.typing.Text, true
}

// Read is the bench with what was read off a photograph in the place of what is typed.
func (s Screen) Read(words string) screen.Screen {
	s.typing.Text, s.typing.Behind, s.typing.Wrong = words, 0, ""
	return s
}

// typed answers a key while a line is typed.
func (s Screen) typed(k screen.Key, v engine.View) (screen.Screen, []screen.Request) {
	a, _ := s.now(v)
	next, entered, left := s.typing.Take(k)
	s.typing = next
	if left || !entered {
		return s, nil
	}
	of, text := day.OfPiece{Tag: a.Piece.Tag}, strings.TrimSpace(s.typing.Text)
	var c day.Command
	var err error
	switch s.typing.What {
	case typeCrock:
		b := day.CrockTested{OfPiece: of}
		b.Dry, b.Wet, err = day.ParseCrock(text)
		c = day.Record{Body: b}
	case typeLook:
		if asked, is := library.AsksPhoto(text); is {
			return s, []screen.Request{screen.Photo{Tag: of.Tag, Asked: asked}}
		}
		_, err = day.ParseLook(text)
		c = day.Record{Body: day.LookedAt{OfPiece: of, Looks: text, Rinsed: a.Piece.Rinsed()}}
	}
	if err != nil {
		s.typing.Wrong = err.Error()
		return s, nil
	}
	s.typing, s.chosen = screen.Field{}, ""
	return s, []screen.Request{screen.Do{Command: c}}
}

func (s Screen) Keys(env screen.Env) []widget.Key {
	v, _ := env.Day()
	if s.typing.On() {
		return screen.Keys("enter", "take it", "esc", "leave it")
	}
	a, wants := s.now(v)
	var keys []widget.Key
	add := func(k, help string) { keys = append(keys, screen.Bound(k, help)) }
	switch {
	case !wants && s.chosen == "":
		add("enter", "back")
	case !wants:
	case s.judges(a):
		add("enter", "say it")
	case a.Press != "":
		add("enter", a.Press)
	case a.Kind == day.ActAir:
		keys = append(keys, screen.RowKeys(v, "finish")...)
	}
	rows := func(ids ...string) { keys = append(keys, screen.RowKeys(v, ids...)...) }
	if wants && a.Kind == day.ActBench && a.Due == nil {
		if a.Shut && v.State.BenchPlace() != day.Outdoors {
			rows("goods", "place")
		}
		rows("skip", "rinsed")
	}
	if a.Due != nil {
		rows("more", "less")
	}
	add("↑↓", "choose")
	add("esc", "to the vat")
	rows("back")
	return keys
}
