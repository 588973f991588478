package command

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/testdata/photographs"
	"example.org/vatside/ui/shelf"
)

// photographed is a photograph of the card of soda-bin and A1, with rungs 1, 3 and 6 on it and a piece of three dips below.
func photographed(t *testing.T, change func(*photographs.Shot)) string {
	t.Helper()
	page, err := os.ReadFile("../../testdata/sheets/soda-bin-card.html")
	if err != nil {
		t.Fatal(err)
	}
	photo, err := photographs.Example(string(page), change)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "card.jpg")
	if err := os.WriteFile(path, photo, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestLookReadsAPhotographAndWritesNothing(t *testing.T) {
	home := t.TempDir()
	path := photographed(t, func(s *photographs.Shot) {})
	out, errs, code := run(t, home, "look", path, "--rungs", "1,3,6", "--json")
	var got looked
	if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 || errs != "" {
		t.Fatalf("%d %q %v\n%s", code, errs, err, out)
	}
	if len(got.Windows) != 7 || got.Vat != nil || got.Recorded != nil || len(got.Warnings) != 0 {
		t.Fatalf("%+v", got)
	}
	for _, w := range got.Windows {
		if w.Hole != (w.At[0] == 2) || w.Hole != (w.Rung != nil) || !(w.KS > 0) || w.Rung != nil && !(w.Rung.Low < 3 && w.Rung.High > 3) {
			t.Errorf("%+v", w)
		}
	}
	if left, _ := os.ReadDir(home); len(left) > 0 {
		t.Errorf("looking made %v", left)
	}
	// Without rungs it is pale, mid or dark and no more.
	out, _, code = run(t, home, "look", path, "--json")
	if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 || got.Windows[3].Rung != nil || got.Windows[3].Looks != "pale" {
		t.Errorf("%d %v %+v", code, err, got.Windows)
	}
	out, _, code = run(t, home, "look", path, "--rungs", "1,3,6")
	if code != 0 || !strings.Contains(out, "rung 3.") && !strings.Contains(out, "rung 2.") || !strings.Contains(out, "eight times in ten") {
		t.Errorf("%d %s", code, out)
	}
}

func TestLookRefuses(t *testing.T) {
	good := photographed(t, func(s *photographs.Shot) {})
	covered := photographed(t, func(s *photographs.Shot) { s.Cover = &[4]float64{-5, -5, 24, 30} })
	heic := filepath.Join(t.TempDir(), "card.heic")
	if err := os.WriteFile(heic, []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args  []string
		code  int
		words string
	}{
		{[]string{heic}, 1, "export the photograph as JPEG"},
		{[]string{filepath.Join(filepath.Dir(heic), "none.jpg")}, 1, "none.jpg"},
		{[]string{covered}, 1, "no card"},
		{[]string{good, "--rungs", "1,3"}, 1, "2 rungs are named, and 3 places"},
		{[]string{good, "--rungs", "6,3,1"}, 1, "in the order of their places"},
		{[]string{good, "--rungs", "1,x"}, 2, "--rungs: a rung has a number"},
		{[]string{good, "--wet", "--dry"}, 2, "not both"},
		{[]string{good, "--record"}, 1, "--vat"},
		{[]string{}, 2, "--watch"},
		{[]string{good, "--watch", "."}, 2, "not both"},
		{[]string{"--watch", filepath.Join(filepath.Dir(heic), "none")}, 1, "name the folder"},
	} {
		out, errs, code := run(t, t.TempDir(), append([]string{"look"}, c.args...)...)
		if code != c.code || !strings.Contains(out+errs, c.words) {
			t.Errorf("%q: %d %q %q", c.args, code, out, errs)
		}
	}
	out, _, code := run(t, t.TempDir(), "look", covered, "--json")
	if code != 1 || !strings.Contains(out, `"no card: `) || !strings.Contains(out, `"windows": []`) {
		t.Errorf("%d %s", code, out)
	}
}

// With --record the look stands in the open day, of the vat and the piece that the card's code has; while another program writes
// the day, nothing is written.
func TestLookRecords(t *testing.T) {
	s := newSpoken(t)
	s.ok("begin", "soda-bin", "--recipe", "soda", "--fill", "60L", "--place", "outdoors", "--built", "--at", "09:00")
	s.ok("say", "soda-bin", "piece A1 linen 420 g dark")
	path := photographed(t, func(s *photographs.Shot) {})
	got := s.ok("look", path, "--record")
	var out looked
	if err := json.Unmarshal([]byte(got.text), &out); err != nil || out.Recorded == nil || *out.Vat != "soda-bin" || *out.Piece != "A1" {
		t.Fatalf("%s %s %v", got.text, got.errs, err)
	}
	b := s.book("soda-bin")
	if l, is := b.Events[len(b.Events)-1].Body.(day.LookedAt); !is || l.Tag != "A1" || l.Looks != *out.Recorded || l.Wet || l.Rinsed { // no rinse was told of
		t.Errorf("the day has %+v, and %q was told", b.Events[len(b.Events)-1].Body, *out.Recorded)
	}
	var rungs looked
	if got = s.ok("look", path, "--rungs", "1,3,6", "--record"); json.Unmarshal([]byte(got.text), &rungs) != nil || rungs.Recorded == nil || !strings.HasPrefix(*rungs.Recorded, "rung ") {
		t.Fatalf("%s %s", got.text, got.errs)
	}
	b = s.book("soda-bin")
	if l, is := b.Events[len(b.Events)-1].Body.(day.LookedAt); !is || l.Looks != *rungs.Recorded {
		t.Errorf("the day has %+v, and %q was told", b.Events[len(b.Events)-1].Body, *rungs.Recorded)
	}
	w, _, err := shelf.At(s.home, func() time.Time { return s.wall }).OpenDay("soda-bin", b.Head.Day)
	if err != nil {
		t.Fatal(err)
	}
	before := s.files()
	text, errs, code := run(t, s.home, "look", path, "--record")
	if code != 1 || text != "" || !strings.Contains(errs, "another program") || strings.Count(errs, "\n") != 1 || s.files() != before {
		t.Errorf("locked: %d %q %q", code, text, errs)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
}

func TestIncomingTakesTheNewestOnceItGrowsNoMore(t *testing.T) {
	at := time.Date(2026, 11, 30, 9, 0, 0, 0, time.UTC)
	old := shelf.Photo{Path: "old.jpg", At: at, Size: 5}
	a, b := shelf.Photo{Path: "a.jpg", At: at.Add(1), Size: 3}, shelf.Photo{Path: "b.jpg", At: at.Add(2), Size: 3}
	grown := b
	grown.Size = 9
	in := incoming{done: map[shelf.Photo]bool{old: true}}
	for i, c := range []struct {
		now  []shelf.Photo
		want string
	}{{[]shelf.Photo{old}, ""}, {[]shelf.Photo{old, a, b}, ""}, {[]shelf.Photo{old, a, grown}, ""}, {[]shelf.Photo{old, a, grown}, "b.jpg"}, {[]shelf.Photo{old, a, grown}, ""}, {[]shelf.Photo{old}, ""}} {
		if got, _ := in.next(c.now); got != c.want {
			t.Errorf("%d: %q, not %q", i, got, c.want)
		}
	}
}

// In plain mode a path behind look TAG is read too, and told with the words that take it; nothing is written.
func TestLookInPlainModeReadsAPhotograph(t *testing.T) {
	s := newSpoken(t)
	s.ok("begin", "soda-bin", "--recipe", "soda", "--fill", "60L", "--place", "outdoors", "--built", "--at", "09:00")
	s.ok("say", "soda-bin", "piece A1 linen 420 g dark")
	path, before := photographed(t, func(*photographs.Shot) {}), len(s.book("soda-bin").Events)
	var out, errs bytes.Buffer
	code := Main([]string{"--plain"}, World{In: strings.NewReader("look A1 1,3,6 '" + path + "'\nlook A1 /none.jpg\nq\n"), Out: &out, Err: &errs, Getenv: func(k string) string {
		return map[string]string{"VATSIDE_HOME": s.home}[k]
	}})
	for _, want := range []string{"Reading the photograph.", "card.jpg: rung ", "eight times in ten", "To take it, type: look A1 rung ", "Not done. ", "/none.jpg"} {
		if code != 0 || !strings.Contains(out.String(), want) {
			t.Errorf("%d: %q is missing:\n%s%s", code, want, out.String(), errs.String())
		}
	}
	for _, e := range s.book("soda-bin").Events[before:] {
		if _, is := e.Body.(day.LookedAt); is {
			t.Errorf("it is written: %+v", e.Body)
		}
	}
}

// looked are the keys of look --json that tests look at.
type looked struct {
	Vat     *string `json:"vat"`
	Piece   *string `json:"piece"`
	Windows []struct {
		At    [2]int  `json:"at"`
		Hole  bool    `json:"hole"`
		KS    float64 `json:"ks"`
		Rung  *spread `json:"rung"`
		Looks string  `json:"looks"`
	} `json:"windows"`
	Warnings []string `json:"warnings"`
	Recorded *string  `json:"recorded"`
}
