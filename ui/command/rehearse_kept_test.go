package command

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/testdata/long"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

// kept is the vat that is kept for three months, played once: its lines, and each file of its book by name.
var kept = sync.OnceValues(func() (string, map[string][]byte) {
	home, err := os.MkdirTemp("", "vatside-test-")
	if err != nil {
		return err.Error(), nil
	}
	defer os.RemoveAll(home)
	var out, e bytes.Buffer
	Main([]string{"rehearse", "--kept", "--home", home}, World{In: bytes.NewReader(nil), Out: &out, Err: &e})
	book := map[string][]byte{}
	files, _ := filepath.Glob(filepath.Join(home, "vats", "kept-bin", "*.toml"))
	for _, f := range files {
		book[strings.TrimSuffix(filepath.Base(f), ".toml")], _ = os.ReadFile(f)
	}
	return out.String() + e.String(), book
})

// keptHome is a home with that vat, and its days in order.
func keptHome(t *testing.T) (shelf.Home, []day.State) {
	t.Helper()
	said, book := kept()
	if len(book) == 0 {
		t.Fatal(said)
	}
	dir := t.TempDir()
	for name, text := range book {
		place(t, dir, "kept-bin", name, text)
	}
	h := shelf.Open(dir)
	names, err := h.Days("kept-bin")
	if err != nil {
		t.Fatal(err)
	}
	var days []day.State
	for _, name := range names {
		b, err := h.ReadDay("kept-bin", name)
		if err != nil || b.HeadErr != nil {
			t.Fatal(name, err, b.HeadErr)
		}
		s, errs := day.Replay(b.Head, b.Events)
		for _, err := range errs {
			t.Errorf("%s: %v", name, err)
		}
		days = append(days, s)
	}
	return h, days
}

func TestKeptVatFromItsBuildToItsEnd(t *testing.T) {
	h, days := keptHome(t)
	if out, errs, code := run(t, h.Dir(), "book", "verify"); code != 0 || !strings.Contains(out, "all read whole") {
		t.Errorf("%d %s %s", code, out, errs)
	}
	if said, _ := kept(); strings.Count(said, "\n") != len(days) {
		t.Errorf("%d days, and this was said of them:\n%s", len(days), said)
	}
	var first, last time.Time
	for i, s := range days {
		if !s.Head.Rehearsed || !s.Closed || s.Ended != (i == len(days)-1) || s.Head.Opening.Number != i+1 {
			t.Errorf("%s: rehearsed %v, closed %v, ended %v, number %d", s.Head.Day, s.Head.Rehearsed, s.Closed, s.Ended, s.Head.Opening.Number)
		}
		if i == 0 {
			first = s.Opened
		}
		last = s.At
		if at := s.Opened.Format(time.DateOnly); at != s.Head.Day {
			t.Errorf("the day of %s opened on %s", s.Head.Day, at)
		}
	}
	if weeks := last.Sub(first).Hours() / 24 / 7; weeks < 12 || weeks > 14 {
		t.Errorf("it was kept for %.1f weeks", weeks)
	}
	end := days[len(days)-1]
	gone := end.Log[len(end.Log)-1].Body.(day.VatEnded)
	if gone.Route == "" || gone.PH == nil || *gone.PH < 8 || *gone.PH > 8.5 {
		t.Errorf("%+v", gone)
	}
	for _, p := range end.Pieces {
		if _, open := end.BenchNext(p); open {
			t.Errorf("%s is not done: the vat ended before its goods", p.Tag)
		}
	}
}

// What the days must show, in this order: four dyeings, a vat that got tired and was put right, a rest of weeks, a revival,
// indigo, and the last dyeing before the end.
func TestKeptVatIsDyedTiredRevivedAndFed(t *testing.T) {
	_, days := keptHome(t)
	var story []string
	add := func(s string) {
		if !slices.Contains(story, s) {
			story = append(story, s)
		}
	}
	dyed := 0
	for i, s := range days {
		if i > 0 && s.Opened.Sub(days[i-1].At) > 21*24*time.Hour {
			add("left alone")
		}
		var strips []quantity.Span
		fed := false
		goods := map[string]bool{}
		for e := range s.Corrected() {
			switch b := e.Body.(type) {
			case day.StripTest:
				strips = append(strips, b.Stayed)
			case day.DipEnded:
				if p, _ := s.Piece(b.Tag); p.Spec.Form != "ladder" {
					goods[b.Tag] = true
				}
			case day.PowderAdded:
				p, _ := s.Head.Recipe.Powder(b.Powder)
				fed = fed || b.Step == 0 && p.Role == recipe.Indigo
			case day.ToppedUp:
				add("topped up")
			case day.SignSeen:
				if _, ok := signs.Find(b.Sign); !ok {
					t.Errorf("%s: nobody knows the sign %q", s.Head.Day, b.Sign)
				}
			}
		}
		tried := s.Tried()
		better := slices.ContainsFunc(tried, func(x signs.Tried) bool { return x.Answer == signs.Better })
		weak := len(strips) > 1 && strips[0] < quantity.Seconds(15) && strips[len(strips)-1] >= quantity.Seconds(30)
		switch {
		case len(goods) > 0:
			dyed++
			if dyed == 4 {
				add("dyed four times")
			}
			if dyed == 7 {
				add("dyed for the last time")
			}
		case weak && better && slices.Contains(story, "left alone"):
			add("revived")
		case weak && better:
			add("tired and put right")
		}
		if fed {
			add("fed")
		}
		if s.Head.Setup.Ending {
			add("led to its end")
		}
	}
	want := []string{"topped up", "tired and put right", "dyed four times", "left alone", "revived", "fed", "dyed for the last time", "led to its end"}
	if !slices.Equal(story, want) {
		t.Errorf("the story is %q", story)
	}
}

// Four doses of the same size and more have a strip before and after them, so that the vat can tell what worked.
func TestKeptVatTellsWhatWorked(t *testing.T) {
	_, days := keptHome(t)
	var episodes []signs.Episode
	for _, s := range days {
		strip := quantity.Span(-1)
		var open *signs.Episode
		var at time.Time
		for e := range s.Corrected() {
			switch b := e.Body.(type) {
			case day.StripTest:
				if open != nil {
					open.After, open.Took = b.Stayed, quantity.Span(e.At.Sub(at))
					episodes, open = append(episodes, *open), nil
				}
				strip = b.Stayed
			case day.PowderAdded:
				if b.Step == 0 && b.Powder == "reducer" {
					open = &signs.Episode{Powder: b.Powder, Material: b.Material, PerLitre: b.Mass.Per(s.Head.Setup.Fill), Before: strip}
					at = e.At
				}
			}
		}
	}
	told := false
	for n := range episodes {
		words := signs.Worked(episodes[:n+1])
		told = told || strings.HasPrefix(words, "the last 4 times 0.5 g/L of sodium dithionite took this vat from ") && !strings.Contains(words, "none")
	}
	if !told {
		t.Errorf("four like doses are never told of: %v", episodes)
	}
}

// The invented dyer keeps to the recipe's limits.
func TestKeptVatIsNeverOverdosed(t *testing.T) {
	_, days := keptHome(t)
	doses := 0
	for _, s := range days {
		sums := map[string]quantity.Mass{}
		for e := range s.Corrected() {
			b, ok := e.Body.(day.PowderAdded)
			if !ok || b.Step > 0 {
				continue
			}
			doses++
			p, _ := s.Head.Recipe.Powder(b.Powder)
			sums[b.Powder] += b.Mass
			fill := s.Head.Setup.Fill
			if s.Vat.Holds != nil {
				fill = max(fill, *s.Vat.Holds) // the limits are those of what it holds
			}
			if p.AtOnce > 0 && b.Mass > p.AtOnce.Of(fill) || p.PerDay > 0 && sums[b.Powder] > p.PerDay.Of(fill) {
				t.Errorf("%s #%d: %v of %s, %v that day", s.Head.Day, e.Seq, b.Mass, b.Powder, sums[b.Powder])
			}
		}
	}
	if doses < 10 {
		t.Errorf("%d doses in three months", doses)
	}
}

func TestKeptVatIsTheSameEachTimeAndDrawsNoPowders(t *testing.T) {
	h, days := keptHome(t)
	_, once := kept()
	again := t.TempDir()
	out, errs, code := run(t, "", "rehearse", "--kept", "--plain", "--home", again)
	if code != 0 {
		t.Fatal(errs)
	}
	events := 0
	for _, s := range days {
		events += len(s.Log)
		text, err := os.ReadFile(fileOf(again, "kept-bin", s.Head.Day))
		if err != nil || !bytes.Equal(text, once[s.Head.Day]) {
			t.Errorf("%s is another the second time: %v", s.Head.Day, err)
		}
	}
	if n := len(printed(out)); n != events {
		t.Errorf("%d lines of %d events", n, events)
	}
	draws, err := library.Draws(h, time.Time{}, "")
	if err != nil || len(draws) > 0 {
		t.Errorf("%d draws on the stock, %v", len(draws), err)
	}
}

// Another vat, smaller, with another reducer and in another season, is kept to its end as well.
func TestAnotherKeptVatComesToItsEnd(t *testing.T) {
	if !long.Runs() {
		t.Skip("two kept vats come to their ends without it")
	}
	home := t.TempDir()
	out, errs, code := run(t, "", "rehearse", "--kept", "--recipe", "thiourea", "--fill", "25L", "--begin", "2027-09-20", "--home", home)
	if code != 0 || strings.Count(out, "\n") != 15 || !strings.Contains(out, "the vat has ended") || !strings.Contains(out, "thiourea dioxide (better)") {
		t.Errorf("%d %s %s", code, out, errs)
	}
	if out, errs, code := run(t, home, "book", "verify"); code != 0 || !strings.Contains(out, "all read whole") {
		t.Errorf("%d %s %s", code, out, errs)
	}
}

func TestKeptVatRefuses(t *testing.T) {
	for _, c := range []struct {
		args string
		code int
		says string
	}{
		{"--kept --speed 60", 2, "full speed"},
		{"--kept --workshop", 2, "--workshop"},
		{"--begin 2026-03-02", 2, "--kept"},
		{"--fill 20L", 2, "--kept"},
		{"--kept --begin march", 1, "2026-03-02"},
		{"--kept --fill 5L", 1, "20 to 200 L"},
		{"--kept --fill much", 1, "--fill"},
		{"--kept --recipe sugar-lime", 1, "soda, thiourea and mild-soda"},
		{"--workshop --recipe mild-soda", 2, "soda vat"},
		{"--recipe none --plain", 1, `no built-in recipe is called "none"`},
	} {
		var e bytes.Buffer
		args := append([]string{"rehearse", "--home", t.TempDir()}, strings.Fields(c.args)...)
		if code := Main(args, World{In: bytes.NewReader(nil), Out: io.Discard, Err: &e}); code != c.code || !strings.Contains(e.String(), c.says) {
			t.Errorf("%s: %d %s", c.args, code, e.String())
		}
	}
}
