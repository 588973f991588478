package ui

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/photographs"
	"example.org/vatside/ui/command"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/shelf"
)

// cardAs is a photograph of a card with rungs 1, 3 and 6 on it over a piece of three dips, in a file of that name.
func cardAs(t *testing.T, name string, change func(*photographs.Shot)) string {
	t.Helper()
	page, err := os.ReadFile("../testdata/sheets/soda-bin-card.html")
	if err != nil {
		t.Fatal(err)
	}
	photo, err := photographs.Example(string(page), change)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, photo, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// drops pastes a text, and hands the root what its command answers; said are the words while it is read.
func (k *talk) drops(t *testing.T, text string) (said string) {
	t.Helper()
	next, cmd := k.m.Update(paste(text))
	k.m = next.(model)
	said = k.m.word
	k.reads(cmd)
	return said
}

func (k *talk) reads(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	msg := cmd()
	for _, c := range commandsIn(msg) {
		k.reads(c)
	}
	if _, is := msg.(photoMsg); is {
		next, _ := k.m.Update(msg)
		k.m = next.(model)
	}
}

// commanded is the look that the command records of a photograph, on a day with the same piece.
func commanded(t *testing.T, path string, flags ...string) day.LookedAt {
	t.Helper()
	dir := t.TempDir()
	run := func(args ...string) {
		t.Helper()
		var out, errs bytes.Buffer
		if code := command.Main(args, command.World{Out: &out, Err: &errs, Getenv: func(k string) string { return map[string]string{"VATSIDE_HOME": dir}[k] }}); code != 0 {
			t.Fatalf("%v: %d %s", args, code, errs.String())
		}
	}
	run("begin", "bin", "--recipe", "soda", "--fill", "60L", "--place", "outdoors", "--built")
	run("say", "bin", "piece A1 cotton 200 g mid")
	run(append([]string{"look", path, "--vat", "bin", "--piece", "A1", "--record"}, flags...)...)
	home := shelf.At(dir, time.Now)
	days, err := home.VatDays("bin")
	if err != nil || len(days.Open) != 1 {
		t.Fatal(days, err)
	}
	b, err := home.ReadDay("bin", days.Open[0])
	if err != nil {
		t.Fatal(err)
	}
	return b.Events[len(b.Events)-1].Body.(day.LookedAt)
}

// A photograph that is dropped behind "look A1", or whose path is typed there, is read, shown, and taken by Enter as the look that
// the command records; Esc leaves it.
func TestAPhotographIsALook(t *testing.T) {
	path := cardAs(t, "card 1.jpg", func(*photographs.Shot) {})
	want := commanded(t, path, "--rungs", "1,3,6")
	plain := commanded(t, path)
	if !strings.HasPrefix(want.Looks, "rung ") || plain.Looks != "pale" {
		t.Fatalf("the command reads %q and %q", want.Looks, plain.Looks)
	}
	wet := want
	wet.Wet, wet.Rinsed = true, false
	short := cardAs(t, "c.jpg", func(*photographs.Shot) {})
	t.Chdir(filepath.Dir(short))
	for _, c := range []struct {
		typed, dropped string
		want           day.LookedAt
	}{
		{"look A1 1,3,6 ", "'" + path + "'", want},
		{"look a1 1,3,6", strings.ReplaceAll(path, " ", `\ `) + " ", want},
		{"look A1", "file://" + strings.ReplaceAll(path, " ", "%20") + "\n", plain},
		{"look A1 wet 1,3,6", path, wet},
		{"look A1 c.jpg 1,3,6", "", want},
	} {
		h := effectsOf(t, shelf.Open(t.TempDir()))
		k := talking(t, h, dipping(t), screen.AtLog)
		before := len(k.log())
		k.types(":" + c.typed)
		if c.dropped != "" {
			if said := k.drops(t, c.dropped); said != "reading the photograph" {
				t.Errorf("%q: while it reads it says %q", c.dropped, said)
			}
		} else {
			next, cmd := k.m.key(enterKey)
			k.m = next
			k.reads(cmd)
		}
		if c.want.Looks != "pale" && (!strings.Contains(k.m.word, "eight times in ten") || !strings.Contains(k.m.word, ", from ")) || !strings.Contains(k.shown(), c.want.Looks) {
			t.Errorf("%q shows %q, %+v", c.dropped, k.m.word, k.line())
		}
		if len(k.log()) != before {
			t.Errorf("%q is taken before Enter", c.dropped)
		}
		left := *k
		left.presses(escKey)
		if left.line().on() || len(left.log()) != before {
			t.Errorf("Esc does not leave it: %+v", left.line())
		}
		k.presses(enterKey)
		if got := k.log(); len(got) != before+1 || !reflect.DeepEqual(got[before].Body, day.Body(c.want)) {
			t.Errorf("%q %q: the day has %+v, the command %+v", c.typed, c.dropped, bodies(got[before:]), c.want)
		}
	}
}

// What the reader refuses is said in its words, whatever the file is called; the line stays.
func TestAPhotographIsRefused(t *testing.T) {
	taint := "\x1b]52;c;x\a\u202e"
	covered := cardAs(t, taint+"covered.jpg", func(s *photographs.Shot) { s.Cover = &[4]float64{-5, -5, 24, 30} })
	heic := filepath.Join(filepath.Dir(covered), taint+".heic")
	if err := os.WriteFile(heic, []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1"), 0o600); err != nil {
		t.Fatal(err)
	}
	good := cardAs(t, taint+"card.jpg", func(*photographs.Shot) {})
	h := effectsOf(t, shelf.Open(t.TempDir()))
	for text, want := range map[string]string{
		"'" + covered + "'":             "no card",
		"'" + heic + "'":                "export the photograph as JPEG",
		"/none" + taint + "/card.jpg":   "none",
		"'" + good + "' 6,3,1":          "in the order of their places",
		"'" + good + "' 1,99":           "a rung has a number from 1 to 30",
		"wet '" + good + "'":            "3 rungs lie on the card: type their numbers",
		"'" + good + "' 1,3,6":          "eight times in ten",
		"'" + good + "' '" + heic + "'": "2 photographs: ",
	} {
		k := talking(t, h, dipping(t), screen.AtLog)
		k.types(":look A1 ")
		k.drops(t, text)
		if !strings.Contains(k.m.word, want) || !k.line().on() {
			t.Errorf("%q says %q, not %q", text, k.m.word, want)
		}
		if bad := screentest.Unshowable(k.m.View(), true); bad != "" || screentest.Unshowable(k.m.word, false) != "" {
			t.Errorf("%q: %s in %q", text, bad, k.m.word)
		}
		_ = h.eng.Leave(h.ctx, spoken)
	}
}

// Of several photographs that are dropped at once each is read and told in a row of its own, also what cannot be read, and each can be
// taken, one after the other, by its row's click or the arrows; Esc leaves the others.
func TestSeveralPhotographsAtOnce(t *testing.T) {
	good := cardAs(t, "good.jpg", func(*photographs.Shot) {})
	covered := cardAs(t, "covered.jpg", func(s *photographs.Shot) { s.Cover = &[4]float64{-5, -5, 24, 30} })
	want := commanded(t, good, "--rungs", "1,3,6")
	h := effectsOf(t, shelf.Open(t.TempDir()))
	k := talking(t, h, dipping(t), screen.AtLog)
	before := len(k.log())
	k.types(":look A1 1,3,6")
	if said := k.drops(t, "'"+covered+"' '"+good+"' '"+good+"'"); said != "reading 3 photographs" {
		t.Errorf("while it reads it says %q", said)
	}
	shown := k.shown()
	if strings.Count(shown, "good.jpg: rung") != 2 || !strings.Contains(shown, "covered.jpg: not read: no card") || len(k.log()) != before {
		t.Fatalf("it shows %q", shown)
	}
	if k.presses(screen.Key{Name: "up"}); k.line().photos.at != 2 || k.line().typing.Text != "look A1 "+want.Looks {
		t.Errorf("up leads to %+v", k.line())
	}
	if k.presses(screen.Key{Name: "row", Row: 0}); k.line().photos.at != 2 {
		t.Errorf("what cannot be read is chosen: %+v", k.line())
	}
	if k.presses(screen.Key{Name: "row", Row: 1}); k.line().photos.at != 1 {
		t.Errorf("a click on a row leads to %+v", k.line())
	}
	k.presses(enterKey)
	if got := k.log(); len(got) != before+1 || !reflect.DeepEqual(got[before].Body, day.Body(want)) || len(k.line().photos.seen) != 2 || !k.line().on() {
		t.Fatalf("after one %+v, %+v", bodies(got[before:]), k.line())
	}
	k.presses(enterKey)
	if got := k.log(); len(got) != before+2 || k.line().on() {
		t.Errorf("after both %+v, %+v", bodies(got[before:]), k.line())
	}
}

// Where no look is asked for, one word says where a photograph is read; where a look is the call it needs no line. What comes after
// Esc, or of an earlier photograph, is left.
func TestWhereAPhotographIsDropped(t *testing.T) {
	path := cardAs(t, "card.jpg", func(*photographs.Shot) {})
	h := effectsOf(t, shelf.Open(t.TempDir()))
	k := talking(t, h, dipping(t), screen.AtLog)
	if said := k.drops(t, path); !strings.Contains(said, "read where a look is asked for") || k.line().on() {
		t.Errorf("on the log it says %q", said)
	}
	k.types(":look A1")
	next, cmd := k.m.Update(paste(path))
	k.m = next.(model)
	k.presses(escKey)
	k.reads(cmd)
	if k.line().on() || k.m.word != "" {
		t.Errorf("Esc did not leave it: %q %+v", k.m.word, k.line())
	}
	k.types(":look A1")
	next, cmd = k.m.Update(paste(path))
	k.m = next.(model)
	next, _ = k.m.Update(paste("/none.jpg"))
	k.m = next.(model)
	if k.reads(cmd); k.line().typing.Text != "look A1" {
		t.Errorf("the earlier photograph was taken: %+v", k.line())
	}
}

// On the bench a photograph fills the field of the look. Where the look that decides is the call, it opens the line, wet.
func TestAPhotographWhereALookIsTheCall(t *testing.T) {
	path := cardAs(t, "card.jpg", func(*photographs.Shot) {})
	want := commanded(t, path)
	h := effectsOf(t, shelf.Open(t.TempDir()))
	of := day.OfPiece{Tag: "A1"}
	bodies := []day.Body{day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 200, Dips: 1}}, day.WettedOut{OfPiece: of},
		day.DipBegun{OfPiece: of, Dip: 1, For: quantity.Minutes(1)}, day.DipEnded{OfPiece: of, Dip: 1, Air: quantity.Minutes(1)}, day.AiringEnded{OfPiece: of, Dip: 1}, day.Finished{OfPiece: of, Dips: 1}}
	var v engine.View
	for range 12 {
		v = happened(t, true, bodies...)
		p, _ := v.State.Piece("A1")
		a, ok := v.State.AfterDips(p, v.Now)
		if !ok || a.Bench.ID == day.Looked {
			break
		}
		bodies = append(bodies, day.Dried{OfPiece: of}, day.LeftOut{OfPiece: of, What: a.Bench.ID})
	}
	for _, c := range []struct{ keys, typed string }{{"", "look A1 pale"}, {" ", "pale"}} {
		k := talking(t, h, v, screen.AtBench)
		before := len(k.log())
		for range c.keys {
			k.presses(named("space")...)
		}
		if said := k.drops(t, path); said != "reading the photograph" || !strings.Contains(k.m.word, "pale") || !strings.Contains(k.shown(), c.typed) {
			t.Fatalf("%q: %q, then %q\n%s", c.keys, said, k.m.word, k.shown())
		}
		k.presses(enterKey)
		if got := k.log(); len(got) != before+1 || !reflect.DeepEqual(got[before].Body, day.Body(want)) {
			t.Errorf("%q: the day has %+v, the command %+v", c.keys, got[before:], want)
		}
		_ = h.eng.Leave(h.ctx, spoken)
	}
	k := talking(t, h, v, screen.AtBench)
	k.presses(named("space")...)
	k.types("1,3,6 '" + path + "'")
	next, cmd := k.m.key(enterKey)
	k.m = next
	if k.reads(cmd); !strings.Contains(k.m.word, "eight times in ten") {
		t.Errorf("a path that is typed on the bench says %q", k.m.word)
	}
	_ = h.eng.Leave(h.ctx, spoken)
	var decides engine.View
	for _, s := range scenes(t) {
		if s.name == "the look that decides" {
			decides = s.view
		}
	}
	k = talking(t, h, decides, screen.AtDay)
	if k.drops(t, path); !strings.Contains(k.m.word, "3 rungs lie on the card") || k.line().typing.Text != "look A1 wet " {
		t.Errorf("wet, and no rungs named, it says %q", k.m.word)
	}
	k.types("1,3,6")
	if k.drops(t, path); !strings.HasPrefix(k.line().typing.Text, "look A1 wet rung ") || !strings.Contains(k.m.word, "eight times in ten") {
		t.Errorf("wet it says %q, %+v", k.m.word, k.line())
	}
}
