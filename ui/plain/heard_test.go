package plain

import (
	"bytes"
	"context"
	"flag"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/recipe"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/shelf"
)

var update = flag.Bool("update", false, "write testdata/heard.txt anew")

// heard is a day that is only heard: what is typed, how long after the line before, and all that is said. The clock ticks each second.
type heard struct {
	t    *testing.T
	ctx  context.Context
	e    *engine.Engine
	led  *engine.Led
	now  time.Time
	out  bytes.Buffer
	term *Terminal
}

const heardDay = "vat-1/2026-05-09"

func (h *heard) types(after time.Duration, line string) {
	for range int(after / time.Second) {
		h.now = h.now.Add(time.Second)
		h.led.Set(h.now)
		h.term.tell(h.view())
	}
	h.out.WriteString("> " + line + "\n")
	h.term.Answer(h.ctx, h.e, heardDay, h.view(), line)
	_ = h.e.Saved(h.ctx, heardDay)
	h.term.tell(h.view())
	h.term.asks(h.view())
}

func (h *heard) view() engine.View { return present(h.ctx, h.e, engine.View{ID: heardDay}) }

// call is what is asked for, at once.
func (h *heard) call() day.Call { v := h.view(); return v.Call() }

// waits lets so much pass, and no line is typed.
func (h *heard) waits(d time.Duration) {
	for range int(d / time.Second) {
		h.now = h.now.Add(time.Second)
		h.led.Set(h.now)
		h.term.tell(h.view())
	}
}

// opens opens the day of a new vat.
func (h *heard) opens(r recipe.Recipe, s day.Setup, caller cue.Caller) {
	ctx, stop := context.WithCancel(h.t.Context())
	h.ctx, h.e = ctx, engine.New(engine.Machine{}, "", caller)
	parted := h.e.Start(ctx)
	h.t.Cleanup(func() { stop(); <-parted })
	h.now = time.Date(2026, 5, 9, 9, 0, 0, 0, time.UTC)
	h.led = engine.NewLed(h.now)
	head := day.Head{Vat: "vat-1", Day: "2026-05-09", Zone: "UTC", Recipe: r, Setup: s, Opening: day.Opening{Number: 1}}
	if _, err := h.e.Open(ctx, engine.Opening{ID: heardDay, Head: head, Writer: paper{}, Source: h.led}); err != nil {
		h.t.Fatal(err)
	}
}

// A whole day by plain mode alone, from the first start: four questions, the build, three dips, signs, closing.
func TestADayIsHeard(t *testing.T) {
	const setup = "1\n1\n20\n12 55\nA1 linen 200 g 3 dips\n\nname Blue pail\n\n"
	h := &heard{t: t}
	h.term = New(strings.NewReader(setup), &h.out)
	a := h.term.Ask(Questions{Recipes: recipes.Builtin(), Settings: shelf.Defaults()})
	if a.Door != NewVat || a.Setup.Name != "Blue pail" || !a.Setup.Asks || len(a.Goods) != 2 || !a.Setup.GoodsFirst {
		t.Fatalf("the questions end in %+v", a)
	}
	if slow := New(strings.NewReader("1\n6\n20\n12 55\nwarm\n2\n\n\n"), &strings.Builder{}).Ask(Questions{Recipes: recipes.Builtin(), Settings: shelf.Defaults()}); slow.Setup.Kept != day.KeptWrapped || a.Setup.Kept != "" {
		t.Errorf("a slow vat is asked how it is kept warm: %+v", slow.Setup)
	}
	none := New(strings.NewReader("1\n1\n20\n12 55\n\n\n"), &strings.Builder{}).Ask(Questions{Recipes: recipes.Builtin(), Settings: shelf.Defaults()})
	if !none.Setup.GoodsFirst || !none.Setup.GoodsLater || len(none.Goods) > 0 || a.Setup.GoodsLater { // what is said later is made ready all the same
		t.Errorf("without goods the questions end in %+v", none)
	}
	if a := New(strings.NewReader("3\n4\n"), &strings.Builder{}).Ask(Questions{}); a.Door != Class {
		t.Errorf("the class is door %d", a.Door)
	}
	a.Setup.Waiting = true
	h.opens(recipes.Builtin()[a.Recipe], a.Setup, cue.Silent{})
	h.term.say("%s", greeting(h.view()))
	for _, line := range a.Goods {
		h.types(time.Second, line)
	}
	for _, line := range []string{"2", "HDPE", "what now", "1", ""} {
		h.types(4*time.Second, line)
	}
	h.build()
	h.dips()
	for _, line := range []string{"signs", "4", "2", "", "", "", "", "", "stop", "how does it stand", "look", "1", "2", "mid", "plan", "", "ladder", "", "read", "1", "33", "care", "timetable", "help"} {
		h.types(5*time.Second, line)
	}
	h.waits(30 * time.Minute)
	for _, line := range []string{"close the day", "yes", "close the day", "yes"} {
		h.types(3*time.Second, line)
	}
	if !h.view().State.Closed {
		t.Error("the day is not closed")
	}
	said := h.out.String()
	for _, bad := range []string{"..", "?.", ". .", "vat-1/", "#", "  :", "?,"} {
		for line := range strings.Lines(said) {
			if strings.Contains(line, bad) && !strings.Contains(line, "#2a3b5c") && !strings.Contains(line, "#567c9b") {
				t.Errorf("%q is in %q", bad, line)
			}
		}
	}
	if early := regexp.MustCompile(`(?m)^(10|5|2|1) min.*[Ll]ift A1`).FindString(said); early != "" {
		t.Errorf("a lift is called before its time: %s", early)
	}
	for caution := range strings.Lines(said) {
		if strings.HasPrefix(caution, "Caution: ") && len(caution) > 60 && strings.Count(said, caution) > 1 {
			t.Errorf("told %d times: %s", strings.Count(said, caution), caution)
		}
	}
	const file = "testdata/heard.txt"
	if *update {
		if err := os.WriteFile(file, h.out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil || string(want) != said {
		t.Errorf("the day is heard otherwise than %s has it; -update writes it anew: %v", file, err)
	}
}

// build answers each step until the vat is ready.
func (h *heard) build() {
	for range 80 {
		if h.view().State.Vat.Ready {
			return
		}
		h.step()
	}
	h.t.Fatalf("the vat is never ready:\n%s", h.out.String())
}

// step answers the call of a build.
func (h *heard) step() {
	c := h.call()
	switch a := c.Act; {
	case a.Kind == day.ActAsk:
		h.t.Fatalf("still asked: %s", c.Words)
	case c.Caution != "":
		h.types(4*time.Second, "")
	case a.Entry == day.MassEntry && h.view().State.Weighed(a.Step.No) == 0:
		h.types(20*time.Second, a.Step.Mass.String())
	case a.Entry == day.TempEntry && (c.Press == "" || h.view().State.Vat.Temp == nil):
		h.types(time.Minute, "38")
	case a.Judging() && a.Kind == day.ActStrip:
		h.types(45*time.Second, "yes")
	case a.Judging():
		h.types(5*time.Second, "")
	case c.Due != nil && c.Due.At.After(h.now):
		h.waits(c.Due.At.Sub(h.now) + time.Second)
	default:
		h.types(30*time.Second, "")
	}
}

// dips answers the calls until A1 had three dips.
func (h *heard) dips() {
	for range 40 {
		p, _ := h.view().State.Piece("A1")
		c := h.call()
		switch {
		case p.Dips == 3:
			return
		case runs(c, h.now):
			if c.Act.Kind == day.ActLift && p.Dips == 0 {
				h.types(100*time.Second, "")
			}
			h.waits(c.Due.At.Sub(h.now) + 2*time.Second)
		case c.Act.Kind == day.ActDecide:
			h.types(5*time.Second, "as planned")
		default:
			h.types(5*time.Second, "")
		}
	}
	h.t.Fatal("A1 never has its dips")
}
