package ui

import (
	"context"
	"strings"
	"testing"
	"time"

	"example.org/vatside/recipes"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// Somebody who types three keys a second comes from the start in an empty home to the first step of a vat in less than a minute: the four
// questions answered, the goods named in a line, place, material and people told before the first powder.
func TestTheFirstStepComesWithinAMinute(t *testing.T) {
	const keysASecond, most = 3, time.Minute
	d := &desk{t: t, in: &clocks{}, h: effectsOf(t, shelf.Open(t.TempDir()))}
	ctx, stop := context.WithCancel(context.Background())
	d.h.eng = engine.New(d.in, "", &cue.Recorder{})
	d.h.eng.Advise(quickly)
	parted := d.h.eng.Start(ctx)
	t.Cleanup(func() { stop(); <-parted })
	m := newModel(Options{Home: d.h.home, Getenv: func(string) string { return "" }}, shelf.Defaults(), d.h)
	m.home.Recipes, m.width, m.height = recipes.Builtin(), 80, 24
	d.g = guarded{m}
	d.sees()
	typed, read := 0, 0 // a dot is the time of a key in which what has changed is read
	for _, step := range []struct{ keys, shows string }{
		{"1", "Which recipe"},
		{"[enter]", "Litres?"},
		{"20[enter]", "Which water?"},
		{"12 55[enter]", "Begin Vat 1"},
		{"[enter]", "What is to be dyed?"},
		{"pA1 linen 420 g dark[enter]", "What else is to be dyed?"},
		{"[esc]..[enter]", "Where does the vat stand?"},
		{"1", "What is the vessel made of?"},
		{"3", "Who is at the vat?"},
		{"1", "Scour A1"},
		{"..[enter]", "Weigh indigo"},
	} {
		for keys := step.keys; keys != ""; {
			key := keys[:1]
			if name, _, is := strings.Cut(keys, "]"); is && key == "[" {
				key = name + "]"
			}
			if keys = strings.TrimPrefix(keys, key); key == "." {
				read++
			} else {
				typed++
				d.types(key)
			}
			d.runs(time.Second / keysASecond)
		}
		if !strings.Contains(strings.ToUpper(d.shown()), strings.ToUpper(step.shows)) {
			t.Fatalf("after %d keys, the last of them %s, %q is not shown:\n%s", typed, step.keys, step.shows, d.shown())
		}
	}
	if took := time.Duration(typed+read) * time.Second / keysASecond; took >= most || typed != 39 {
		t.Errorf("it takes %d keys, %s", typed, took)
	}
}

// Where it is asked what is to be dyed a capital begins the piece's line: "A1 linen 420 g dark" and Enter put it on the list. Home stays H.
func TestAPieceIsTypedAtItsQuestion(t *testing.T) {
	v := happens(t, false)
	v.State.Head.Setup.GoodsFirst = true
	d := seated(t, v).at(screen.AtDay, v.ID)
	d.types("A1 linen 420 g dark[enter]").runs(time.Second)
	if p, on := d.view(v.ID).State.Piece("A1"); !on || p.Spec.Dry != 420 || p.Spec.Depth != "dark" {
		t.Errorf("on the list: %v, %+v:\n%s", on, p.Spec, d.shown())
	}
	if d.types("[esc]H"); d.top().at != screen.AtHome {
		t.Errorf("H leads to %s", d.top().at)
	}
}

// A press at a question is told to answer first; the question and its answers, which stand on the screen, are not said again.
func TestAPressAtAQuestion(t *testing.T) {
	v := happens(t, false)
	v.State.Head.Setup.Asks, v.State.Head.Setup.Material = true, ""
	d := seated(t, v).at(screen.AtDay, v.ID)
	d.runs(time.Second)
	d.types("[enter]").runs(time.Second)
	if words := d.shown(); strings.Count(words, "stainless") != 1 || !strings.Contains(words, "answer first") {
		t.Errorf("shown is:\n%s", words)
	}
}
