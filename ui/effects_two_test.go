package ui

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/widget"
)

const lifted = "dip ended"

// The call of a dip can be answered from every screen by space, PageDown, each F-key and a click on the call; Enter is the screen's own
// and lifts nothing.
func TestThePressAnswersFromEveryScreen(t *testing.T) {
	v := dipping(t)
	n := len(v.State.Log)
	v.Now = v.State.At.Add(4*time.Minute + 30*time.Second)
	for _, at := range []screen.Place{screen.AtHome, screen.AtPlan, screen.AtTable, screen.AtLog, screen.AtCare, screen.AtSigns, screen.AtDose, screen.AtLadder, screen.AtCourse, screen.AtBench} {
		for _, how := range []string{"[space]", "[pgdown]", "[f1]", "[f12]", "click", "[enter]"} {
			if at != screen.AtLog && how != "[space]" && how != "[enter]" {
				continue
			}
			d := seated(t, v)
			if at != screen.AtHome {
				d.at(at, v.ID)
			}
			d.runs(time.Second)
			if how == "click" {
				d.clicks()
			} else {
				d.types(how)
			}
			if got := d.kinds(v.ID, n); how != "[enter]" && got != lifted || strings.Contains(got, lifted) == (how == "[enter]") {
				t.Errorf("at %s %s records %q: %s", at, how, got, d.g.word)
			}
		}
	}
	for _, keys := range []string{"?", "q"} { // help and the question about leaving
		d := seated(t, v).at(screen.AtLog, v.ID).runs(time.Second).types(keys + "[space]")
		if got := d.kinds(v.ID, n); got != lifted {
			t.Errorf("behind %s space records %q", keys, got)
		}
	}
}

// In front of typed text, a caution and first aid space and Enter are theirs; a pedal, an F-key and a click on the call answer it.
func TestWhatIsInFrontKeepsItsKeys(t *testing.T) {
	v := dipping(t)
	n := len(v.State.Log)
	v.Now = v.State.At.Add(4*time.Minute + 30*time.Second)
	for _, f := range []struct {
		name string
		at   screen.Place
		keys string
	}{{"a note", screen.AtDay, "orain"}, {"the line", screen.AtLog, ":36 C"}, {"first aid", screen.AtAid, "1"}} {
		for _, how := range []string{"[space]", "[enter]", "2", "[pgdown]", "[f5]", "click"} {
			d := seated(t, v).at(f.at, v.ID).runs(time.Second).types(f.keys)
			switch {
			case how == "click" && f.at == screen.AtDay: // the day shows its call itself
				d.clicksOn(widget.CallTarget)
			case how == "click":
				d.clicks()
			default:
				d.types(how)
			}
			lifts := strings.Contains(d.kinds(v.ID, n), lifted)
			if pedal := how == "[pgdown]" || how == "[f5]" || how == "click"; lifts != pedal {
				t.Errorf("in front of %s %s lifts: %v (%s)", f.name, how, lifts, d.g.word)
			}
			if how == "[pgdown]" && d.top().at != f.at {
				t.Errorf("the pedal leaves %s for %s", f.name, d.top().at)
			}
		}
	}
	d := seated(t, v).at(screen.AtAid, v.ID).runs(time.Second).types(":H?")
	if got := d.kinds(v.ID, n); got != "" || d.top().say.on() || d.top().at != screen.AtAid {
		t.Errorf("on first aid keys record %q and lead to %s", got, d.top().at)
	}
}

// danger is a day at a step with powder, its caution answered if so.
func danger(t *testing.T, answered bool) engine.View {
	t.Helper()
	v := happened(t, false)
	for i := 0; i < 60; i++ {
		c := day.CallOf(v.State, v.State.At)
		if c.Danger && c.Due == nil && c.Caution != "" && !answered {
			break
		}
		if c.Danger && c.Due == nil && c.Caution == "" && answered && c.Press != "" {
			break
		}
		at := v.State.At.Add(2 * time.Second)
		if c.Due != nil && c.Due.At.After(at) {
			at = c.Due.At.Add(time.Second)
		}
		bodies, err := day.Decide(v.State, day.Done{Call: c.ID}, at)
		if err != nil {
			bodies, err = day.Decide(v.State, day.Skip{Reason: "a test"}, at)
		}
		if err != nil {
			t.Fatalf("%s: %v", c.ID, err)
		}
		for _, b := range bodies {
			v.State, _ = day.Apply(v.State, day.Event{Seq: v.State.Seq + 1, At: at, Body: b})
		}
	}
	if c := day.CallOf(v.State, v.State.At); !c.Danger || (c.Caution == "") != answered {
		t.Fatalf("no step with danger: %+v", c)
	}
	v.Now = v.State.At
	return v
}

// A step with danger in front of another vat's due lift takes Enter only; its clock does not take the step's place, it stands over it.
func TestAStepWithDangerTakesEnterOnly(t *testing.T) {
	for _, answered := range []bool{true, false} {
		step, tub := danger(t, answered), another(dipping(t), "tub")
		step.Now = tub.State.At.Add(4*time.Minute + 55*time.Second)
		for _, how := range []string{"[space]", "[pgdown]", "[f3]", "click", "[enter]"} {
			d := seated(t, step, tub).at(screen.AtDay, step.ID).runs(8 * time.Second)
			if d.top().day != step.ID || !strings.Contains(d.shown(), "tub: LIFT A1 0:03 over") {
				t.Fatalf("it does not stand over the step:\n%s", d.shown())
			}
			s, l := len(step.State.Log), len(tub.State.Log)
			if how == "click" {
				d.clicks()
			} else {
				d.types(how)
			}
			if how == "[pgdown]" { // just after the press has come to be for it
				d := seated(t, step, tub).at(screen.AtDay, step.ID).runs(5 * time.Second)
				d.in.run(300 * time.Millisecond)
				if d.types(how); d.kinds(tub.ID, l)+d.kinds(step.ID, s) != "" || !strings.HasPrefix(d.g.word, "Not taken: it has just changed. Now tub: A1 out") {
					t.Errorf("300 ms after zero the pedal records %q, %q: %s", d.kinds(tub.ID, l), d.kinds(step.ID, s), d.g.word)
				}
			}
			steps, lifts := d.kinds(step.ID, s) != "", d.kinds(tub.ID, l) == lifted
			if wants := how != "[enter]" && (answered || how != "[space]"); lifts != wants || steps != (how == "[enter]") {
				t.Errorf("caution answered %v: %s lifts: %v, does the step: %v (%q)", answered, how, lifts, d.kinds(step.ID, s), d.g.word)
			}
		}
	}
}

// At zero the clock comes to the front by itself, once; Esc leads back to what was there, and does nothing on the day.
func TestTheClockComesToTheFront(t *testing.T) {
	v := dipping(t)
	n := len(v.State.Log)
	v.Now = v.State.At.Add(4*time.Minute + 55*time.Second)
	for _, at := range []screen.Place{screen.AtHome, screen.AtPlan, screen.AtCare, screen.AtStock} {
		d := seated(t, v)
		if at != screen.AtHome {
			d.at(screen.AtDay, v.ID).at(at, v.ID)
		}
		d.runs(4 * time.Second)
		if d.top().at != at {
			t.Fatalf("at %s the clock comes too early", at)
		}
		d.runs(time.Second)
		if d.top().at != screen.AtDay || d.top().day != v.ID {
			t.Fatalf("over %s the clock does not come", at)
		}
		d.runs(650 * time.Millisecond).types("[enter]")
		if got := d.kinds(v.ID, n); got != "" || !strings.HasPrefix(d.g.word, "Not taken") {
			t.Errorf("over %s, 650 ms after it has come, Enter records %q: %s", at, got, d.g.word)
		}
		d.types("[esc]").runs(2 * time.Second)
		if d.top().at != at {
			t.Errorf("Esc leads to %s, not back to %s", d.top().at, at)
		}
		if at != screen.AtHome {
			if d.types("[esc]"); d.top().at != screen.AtDay || d.top().brought {
				t.Errorf("Esc on %s leads to %s", at, d.top().at)
			}
			if d.types("[esc][esc]"); d.top().at != screen.AtDay {
				t.Errorf("Esc on the day leads to %s", d.top().at)
			}
		}
		if d.types("[enter]"); at != screen.AtHome && d.kinds(v.ID, n) != lifted {
			t.Errorf("Enter on the day records %q: %s", d.kinds(v.ID, n), d.g.word)
		}
	}
	for _, how := range []string{"[space]", "[enter]"} { // at zero the press counts, and later Enter does
		d := seated(t, v).at(screen.AtLog, v.ID).runs(5 * time.Second)
		if how == "[enter]" {
			d.runs(700 * time.Millisecond)
		}
		if d.types(how); d.kinds(v.ID, n) != lifted {
			t.Errorf("%s records %q: %s", how, d.kinds(v.ID, n), d.g.word)
		}
	}
	for _, keys := range []string{"?", "q"} {
		d := seated(t, v).at(screen.AtDay, v.ID).types(keys).runs(5 * time.Second)
		if !d.g.bare() || len(d.g.stack) != 2 {
			t.Errorf("what %s opens stays in front of a clock that is due", keys)
		}
		if d.types("[enter]"); d.kinds(v.ID, n) != "" {
			t.Errorf("Enter that was meant for what %s opened records %q", keys, d.kinds(v.ID, n))
		}
	}
}

// First aid, typed text and an open caution are not replaced: there the call stands over them, and the clock comes afterwards.
func TestWhatTheClockDoesNotReplace(t *testing.T) {
	v := dipping(t)
	v.Now = v.State.At.Add(4*time.Minute + 55*time.Second)
	for _, f := range []struct {
		at         screen.Place
		keys, ends string
	}{{screen.AtAid, "1", "[esc]"}, {screen.AtLog, ":rai", "[esc]"}, {screen.AtSetup, "[enter]25", "[esc][esc][esc]"}} {
		d := seated(t, v).at(screen.AtDay, v.ID).at(f.at, v.ID).types(f.keys).runs(10 * time.Second)
		if d.top().at != f.at || !strings.Contains(d.shown(), "LIFT A1 0:05 over") {
			t.Errorf("%s: in front is %s:\n%s", f.at, d.top().at, d.shown())
		}
		if d.types(f.ends).runs(time.Second); d.top().at != screen.AtDay {
			t.Errorf("%s: afterwards in front is %s", f.at, d.top().at)
		}
	}
	d := seated(t, v).at(screen.AtDay, v.ID).at(screen.AtSetup, v.ID).types("[enter][enter][enter]")
	if !strings.Contains(d.shown(), "CAUTION") || d.top().typed() {
		t.Fatalf("no caution is open:\n%s", d.shown())
	}
	n := len(v.State.Log)
	if d.runs(8 * time.Second); d.top().at != screen.AtSetup {
		t.Error("a clock takes an open caution away")
	}
	if d.types("[pgdown]"); d.kinds(v.ID, n) != lifted || d.top().at != screen.AtSetup {
		t.Errorf("in front of a caution the pedal records %q, and leads to %s", d.kinds(v.ID, n), d.top().at)
	}
	open := dipping(t) // what was due as the day was opened does not take home away
	open.Now = open.State.At.Add(20 * time.Minute)
	if d := seated(t, open).runs(3 * time.Second); d.top().at != screen.AtHome {
		t.Error("a day that was due before takes home away")
	}
}

// The stack does not grow with the dips.
func TestTheStackStaysSmall(t *testing.T) {
	v := dipping(t)
	m := clickable(effects{cares: &library.Cares{}, looks: &looks{}}, v).push(screen.AtDay, v.ID, "")
	for range 20 {
		m = m.push(screen.AtTable, v.ID, "").push(screen.AtPlan, v.ID, "").bring(v.ID)
		if len(m.stack) > 4 || m.stack[len(m.stack)-2].at != screen.AtPlan {
			t.Fatalf("%d places", len(m.stack))
		}
	}
}

// H leads home from every screen of a day but first aid and typed text; on home Esc leads to the day last shown.
func TestHomeAndBack(t *testing.T) {
	v := dipping(t)
	for _, at := range []screen.Place{screen.AtDay, screen.AtPlan, screen.AtLog, screen.AtBench, screen.AtCare, screen.AtAid} {
		d := seated(t, v).at(screen.AtDay, v.ID)
		if at != screen.AtDay {
			d.at(at, v.ID)
		}
		d.types("H")
		if home := d.top().at == screen.AtHome; home != (at != screen.AtAid) {
			t.Errorf("H on %s leads to %s", at, d.top().at)
			continue
		}
		if d.types("[esc]"); d.top().at != screen.AtDay || d.top().day != v.ID {
			t.Errorf("Esc on home leads to %s", d.top().at)
		}
	}
	d := seated(t, v).at(screen.AtDay, v.ID).types("H,[esc]")
	if d.types("s[esc]"); d.top().at != screen.AtHome && d.top().at != screen.AtDay {
		t.Errorf("Esc in the settings leads to %s", d.top().at)
	}
	d = seated(t, v).at(screen.AtDay, v.ID).at(screen.AtTable, v.ID).at(screen.AtPlan, v.ID)
	if d.types("[esc]"); d.top().at != screen.AtDay {
		t.Errorf("Esc on the plan leads to %s", d.top().at)
	}
	for _, s := range scenes(t) {
		m := s.open(clickable(effects{player: d.h.player, cares: &library.Cares{}, looks: &looks{}}, s.view))
		if m.stack[len(m.stack)-1].typed() || s.name == "help" || s.name == "leaving" {
			continue
		}
		for _, open := range []bool{true, false} {
			next, _ := m.key(screen.Key{Rune: '?'})
			if m = next; m.help != open {
				t.Errorf("%s: ? leaves help open: %v", s.name, m.help)
			}
		}
	}
}

// While a time runs space answers its call on every screen: none names it for what is its own, but the day itself, first aid, and
// what takes typed text or shows a caution.
func TestSpaceIsNamedWhereItWorks(t *testing.T) {
	h, dips := effectsOf(t, shelf.Open(t.TempDir())), dipping(t)
	tried := 0
	for _, s := range scenes(t) {
		if s.at == screen.AtDay || s.at == screen.AtAid || s.name == "help" || s.name == "leaving" {
			continue
		}
		m := s.open(clickable(h, s.view))
		m.snap.Days = append(m.snap.Days, another(dips, "tub")) // its dip runs
		top := m.stack[len(m.stack)-1]
		sheet := m.sheet()
		if top.typed() || m.cautioned() || sheet.Caution != nil {
			continue
		}
		tried++
		for _, b := range top.shows.Keys(m.env()) {
			if b.Key == "space" {
				t.Errorf("%s: its keys name space: %s", s.name, b.Desc)
			}
		}
		for _, a := range append(sheet.Answers, sheet.Next) {
			if strings.HasPrefix(a, "space") {
				t.Errorf("%s: it says %q", s.name, a)
			}
		}
	}
	if tried < 15 {
		t.Errorf("only %d screens were tried", tried)
	}
}
