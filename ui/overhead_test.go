package ui

import (
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// While a dip runs, or is over time, its row stands under the head of every other place, form and question, in each window and
// without colour; the day's own screen and home, which have it in large letters, do not say it twice. Where it stands it takes one row, and the rest has its room.
func TestTheCallStandsOverEveryPlace(t *testing.T) {
	player := cue.New(cue.Settings{}, nil, nil)
	defer player.Close()
	h := effects{home: shelf.Open(t.TempDir()), player: player, cares: &library.Cares{}, looks: &looks{}}
	dips := dipping(t)
	for _, s := range scenes(t) {
		own := s.at == screen.AtDay && s.name != "help" && s.name != "leaving"
		for after, want := range map[time.Duration]string{
			2*time.Minute + 5*time.Second:  "A1 IN, out in 2:55",
			4*time.Minute + 20*time.Second: "LIFT A1 in 0:40",
			5*time.Minute + 40*time.Second: "LIFT A1 0:40 over",
		} {
			s.view = dips
			s.view.Now = dips.State.At.Add(after)
			m := s.open(clickable(h, s.view))
			m.style = style.New(style.Options{Profile: style.NoColour})
			sizes := screentest.Sizes
			if after > 3*time.Minute { // what is so in one window is so in the others
				sizes = sizes[:1]
			}
			for _, size := range sizes {
				m.width, m.height = size[0], size[1]
				lines := strings.Split(inWords(m), "\n")
				where := -1
				for i, l := range lines { // without colour marks set it apart, up to the right edge
					if marked := strings.TrimSpace(l); strings.TrimRight(marked, "=") == want+" " && strings.HasSuffix(marked, "==") {
						where = i
					}
				}
				if (own || m.inYard()) != (where < 0) || where > 1 || len(lines) != size[1] {
					t.Fatalf("%s, %v after: the row %q is at %d:\n%s", s.name, after, want, where, strings.Join(lines, "\n"))
				}
			}
		}
	}
}

// In its last minute the call stands in big letters over every other screen where the window is high enough, and what it stands over
// has the room that is left; its row stands in every window.
func TestTheLastMinuteStandsInBigLetters(t *testing.T) {
	v := dipping(t)
	for _, after := range []time.Duration{time.Minute, 4*time.Minute + 20*time.Second, 6 * time.Minute} {
		v.Now = v.State.At.Add(after)
		for _, size := range screentest.Sizes {
			m := clickable(effects{cares: &library.Cares{}, looks: &looks{}}, v).push(screen.AtLog, v.ID, "")
			m.width, m.height = size[0], size[1]
			row, lines := m.overhead(), strings.Split(ansi.Strip(m.View()), "\n")
			if over := strings.Contains(row.Big, "+"); over != (after > 5*time.Minute) { // what is left and what is over look alike else
				t.Errorf("%v after it says %q", after, row.Big)
			}
			rows := row.Rows(m.width, m.height, m.style)
			if big := rows > 3; big != (after > 4*time.Minute && size[1] >= 24) || m.env().Height != size[1]-rows || len(lines) != size[1] {
				t.Errorf("%v after, in %v the call has %d rows, the screen %d", after, size, rows, m.env().Height)
			}
			for _, l := range lines[1 : 1+rows][1:] {
				if strings.Trim(l, " █▀▄") != "" {
					t.Errorf("%v after, in %v: among the letters stands %q", after, size, l)
				}
			}
		}
	}
}

// A strip that is watched stands over every other screen with its seconds, and a press there says that it is blue.
func TestAWatchedStripStandsOverOtherScreens(t *testing.T) {
	v := happened(t, true)
	n := len(v.State.Log)
	d := seated(t, v).at(screen.AtDay, v.ID).runs(time.Second).types("t").runs(time.Second).types("l").runs(22 * time.Second)
	if got := d.g.overhead(); got.Words != "BLUE YET? 0:23" || got.Big != got.Words || got.Tone != widget.Now || !strings.Contains(d.shown(), got.Words) {
		t.Fatalf("over the log stands %+v:\n%s", got, d.shown())
	}
	if d.types("[space]"); d.kinds(v.ID, n) != "strip begun, strip test" {
		t.Errorf("a press records %q: %s", d.kinds(v.ID, n), d.g.word)
	}
	if got := d.g.overhead(); got.Words != "" {
		t.Errorf("blue, it stands there still: %+v", got)
	}
}

// Of several vats the one that rules stands there by its name, and on its own screen the other one's call does. A day that another
// program writes, or that is closed, calls nobody here.
func TestTheVatThatRulesStandsOverTheOthers(t *testing.T) {
	bin, tub, looked := dipping(t), dipping(t), dipping(t)
	tub.ID, tub.State.Head.Vat, tub.State.Head.Setup.Name = "tub/2026-03-28", "tub", "tub"
	looked.ID, looked.Looking = "crock/2026-03-28", true
	bin.Now, tub.Now, looked.Now = bin.State.At.Add(time.Minute), bin.State.At.Add(2*time.Minute), bin.State.At.Add(6*time.Minute)
	m := clickable(effects{cares: &library.Cares{}, looks: &looks{}}, bin)
	m.snap.Days = []engine.View{bin, tub, looked}
	for _, w := range []struct {
		at   screen.Place
		id   string
		want widget.CallRow
	}{
		{screen.AtPlan, bin.ID, widget.CallRow{Vat: "tub", Words: "A1 IN, out in 3:00"}},
		{screen.AtDay, bin.ID, widget.CallRow{Vat: "tub", Words: "A1 IN, out in 3:00"}},
		{screen.AtDay, tub.ID, widget.CallRow{Vat: vatName(bin), Words: "A1 IN, out in 4:00"}},
	} {
		if got := m.push(w.at, w.id, "").overhead(); got != w.want {
			t.Errorf("at %s of %s it is %+v, not %+v", w.at, w.id, got, w.want)
		}
	}
	m.home.Vats = append(m.home.Vats, screen.Vat{Vat: "tub", Day: "2026-03-28", Open: true})
	if got := m.overhead(); got.Words != "" || m.sheet().Act != "A1 IN 3:00" || !strings.HasPrefix(m.sheet().How[0], "tub · ") {
		t.Errorf("home says it in its own large letters, %q; over it stands %+v", m.sheet().Act, got)
	}
	tub.State.Closed = true
	m.snap.Days = []engine.View{tub, looked}
	if got := m.overhead(); got.Words != "" {
		t.Errorf("without a day of its own it is %+v", got)
	}
}

// On a day's own screen the large letters are what space answers: another vat's last minute has its row there, and over a step with danger
// its lift has the letters once it is due.
func TestTheLettersAreWhatSpaceAnswers(t *testing.T) {
	south, north, step := another(dipping(t), "south"), another(dipping(t), "north"), danger(t, true)
	pulled := north
	pulled.State, _ = day.Replay(north.State.Head, north.State.Log[:len(north.State.Log)-1]) // before its dip
	pulled.State, _ = day.Apply(pulled.State, day.Event{Seq: pulled.State.Seq + 1, At: pulled.State.At, Body: day.StripBegun{}})
	if c := day.CallOf(pulled.State, pulled.State.At); !c.Runs() || c.Due != nil {
		t.Fatalf("no strip is out: %+v", c)
	}
	for _, c := range []struct {
		own, other engine.View
		after      time.Duration // since the other's piece went in, or its strip was pulled
		large      bool
	}{{south, north, 4*time.Minute + 20*time.Second, false}, {step, north, 4*time.Minute + 20*time.Second, false},
		{step, north, 5*time.Minute + 20*time.Second, true}, {south, pulled, 20 * time.Second, false}} {
		north := c.other
		north.Now = north.State.At.Add(c.after)
		c.own.Now = c.own.State.At.Add(time.Minute)
		m := clickable(effects{cares: &library.Cares{}, looks: &looks{}}, c.own)
		m.snap.Days = []engine.View{c.own, north}
		m.width, m.height = 120, 40
		m = m.push(screen.AtDay, c.own.ID, "")
		r, _, _ := m.answers()
		if row := m.overhead(); row.Vat != "north" || (row.Big != "") != c.large || (r.view.ID == north.ID && m.elsewhere()) != c.large {
			t.Errorf("%s, %v: %+v, space is for %s", c.own.ID, c.after, row, r.view.ID)
		}
	}
}

// While a dip runs space answers it from home too: what home does itself is named Enter, on its last line and in help.
func TestHomeNamesEnterWhileADipRuns(t *testing.T) {
	v := dipping(t)
	v.Now = v.State.At.Add(2 * time.Minute)
	m := clickable(effects{cares: &library.Cares{}, looks: &looks{}}, v)
	m.width, m.height = 80, 24
	for _, m.help = range []bool{false, true} {
		if shown := strings.Join(strings.Fields(ansi.Strip(m.View())), " "); !strings.Contains(shown, "enter go on") || strings.Contains(shown, "space go on") {
			t.Errorf("help %v:\n%s", m.help, ansi.Strip(m.View()))
		}
	}
}

// A press from another screen says there what was written down and what is asked for then; on the day itself the day shows it.
func TestAPressFromElsewhereSaysWhatItDid(t *testing.T) {
	v := dipping(t)
	v.Now = v.State.At.Add(4*time.Minute + 50*time.Second)
	for at, want := range map[screen.Place]string{screen.AtLog: "A1 out after dip 1, airs 10 min · now: skim the froth aside", screen.AtDay: ""} {
		d := seated(t, v).at(at, v.ID).runs(time.Second).types("[pgdown]")
		if d.g.word != want {
			t.Errorf("from %s it says %q, want %q", at, d.g.word, want)
		}
	}
}

// A call without a time stands over the other screens of its day too; not over home, nor where nothing wants the hands.
func TestACallWithoutATimeStandsOverItsDay(t *testing.T) {
	v := happened(t, false) // at its first weighing
	d := seated(t, v)
	for _, at := range []screen.Place{screen.AtPlan, screen.AtLog, screen.AtPiece, screen.AtSigns, screen.AtCourse, screen.AtTable, screen.AtAid} {
		d.at(at, v.ID)
		want := day.CallOf(v.State, v.Now).Words
		if got := d.g.overhead().Words; got != want || !strings.Contains(d.shown(), want) {
			t.Errorf("over %s stands %q, not %q:\n%s", at, got, want, d.shown())
		}
		n := len(d.view(v.ID).State.Log) // a click on it leads to the day, and says nothing there; first aid and a form that is typed into stay
		stays := at == screen.AtAid || at == screen.AtPiece
		d.clicks()
		if got := d.top().at; (got == screen.AtDay) == stays || len(d.view(v.ID).State.Log) != n {
			t.Errorf("a click on the call over %s leads to %s: %s", at, got, d.kinds(v.ID, n))
		}
	}
	if got := d.at(screen.AtDay, v.ID).g.overhead(); got.Words != "" {
		t.Errorf("over the day itself stands %+v", got)
	}
	idle := happened(t, true)
	if got := seated(t, idle).at(screen.AtLog, idle.ID).g.overhead(); got.Words != "" {
		t.Errorf("where nothing wants the hands stands %+v", got)
	}
}
