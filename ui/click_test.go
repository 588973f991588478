package ui

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/stock"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

var clickedAt = time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)

// happened is a vat to which some things happened, a minute apart; built: a living one, ready, with a ladder of its own.
func happened(t testing.TB, built bool, bodies ...day.Body) engine.View {
	t.Helper()
	key := fmt.Sprintf("%v %#v", built, bodies)
	if v, is := happenings.Load(key); is { // many tests begin with the same
		return v.(engine.View)
	}
	v := happens(t, built, bodies...)
	happenings.Store(key, v)
	return v
}

// happenings are the views that were asked for, by what happened.
var happenings sync.Map

func happens(t testing.TB, built bool, bodies ...day.Body) engine.View {
	t.Helper()
	soda, _ := recipes.Find("soda")
	h := rehearse.Head(soda, clickedAt)
	at := clickedAt
	if built {
		h.Opening = day.Opening{Number: 2, Built: true}
		for i := range 3 {
			h.Opening.Swatches = append(h.Opening.Swatches, day.CarriedSwatch{At: at.AddDate(0, 0, -1), Tag: "L1", Fibre: "cotton", Ladder: true, Dips: i + 1,
				Dip: quantity.Minutes(5), Sure: true, Temp: 36, PH: 10.8, PerLitre: quantity.GramsPerLitre(0.9), Looks: fmt.Sprintf("lab %d -5 -%d", 75-7*i, 12+2*i)})
		}
		bodies = append([]day.Body{day.Opened{How: "tend"}, day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: "warm"}, day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true}}, bodies...)
	} else {
		bodies = append([]day.Body{day.Opened{How: "build"}}, bodies...)
	}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range bodies {
		at = at.Add(time.Minute)
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: at, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	return planned(engine.View{ID: "bin/2026-03-28", State: s, Now: at.Add(20 * time.Second), Saved: s.Seq, Pace: 1})
}

// lifted is a piece that went in, and was taken as out again.
func wasLifted(tag string) []day.Body {
	of := day.OfPiece{Tag: tag}
	spec := day.PieceSpec{Fibre: "cotton", Dry: 200, Dips: 2, Dip: quantity.Minutes(1), Air: quantity.Minutes(30)}
	return []day.Body{day.PieceAdded{OfPiece: of, PieceSpec: spec}, day.WettedOut{OfPiece: of}, day.DipBegun{OfPiece: of, Dip: 1, For: quantity.Minutes(1)},
		day.DipEnded{OfPiece: of, Dip: 1, Air: quantity.Minutes(30), Assumption: day.Assumption{Assumed: true}}}
}

// dipping is a morning with pieces dry, in the vat, airing, and on the bench.
func dipping(t testing.TB) engine.View {
	of := func(tag string) day.OfPiece { return day.OfPiece{Tag: tag} }
	spec := day.PieceSpec{Fibre: "cotton", Dry: 200, Dips: 2, Dip: quantity.Minutes(5), Air: quantity.Minutes(10)}
	var bodies []day.Body
	for _, tag := range []string{"A1", "B1", "C2", "D1", "E1"} {
		bodies = append(bodies, day.PieceAdded{OfPiece: of(tag), PieceSpec: spec}, day.WettedOut{OfPiece: of(tag)})
	}
	for _, tag := range []string{"D1", "E1"} {
		for n := 1; n <= 2; n++ {
			bodies = append(bodies, day.DipBegun{OfPiece: of(tag), Dip: n, For: spec.Dip}, day.DipEnded{OfPiece: of(tag), Dip: n, Air: spec.Air}, day.AiringEnded{OfPiece: of(tag)})
		}
		bodies = append(bodies, day.Finished{OfPiece: of(tag)})
	}
	return happened(t, true, append(bodies, day.DipBegun{OfPiece: of("B1"), Dip: 1, For: spec.Dip}, day.DipEnded{OfPiece: of("B1"), Dip: 1, Air: spec.Air},
		day.DipBegun{OfPiece: of("A1"), Dip: 1, For: spec.Dip})...)
}

// clickable is the root with a day, and a home with some of everything.
func clickable(h effects, v engine.View) model {
	m := newModel(Options{Getenv: func(k string) string { return map[string]string{"LANG": "de_DE.UTF-8"}[k] }}, shelf.Defaults(), h)
	m.snap = engine.Snapshot{Wall: v.Now, Days: []engine.View{v}}
	m.home.Recipes = recipes.Builtin()
	for _, name := range []string{"bin", "tub", "crock"} {
		m.home.Vats = append(m.home.Vats, screen.Vat{Vat: name, Name: name, Day: "2026-03-28", Open: name == "bin", Recipe: "soda", Line: "day closed"})
	}
	var events []stock.Event
	for i, material := range []string{"sodium dithionite", "soda ash", "indigo powder"} {
		events = append(events, stock.Event{Seq: i + 1, At: v.Now, Body: stock.Bought{OfTin: stock.OfTin{Tin: fmt.Sprintf("T%d", i+1)}, Material: material, Holds: 500}})
	}
	l, _ := stock.Replay(events)
	tins := stock.Reckon(l.Tins, nil)
	m.home.Stock = screen.Stock{List: l, Tins: tins.OnShelf(), All: tins.Tins}
	m.home.Cost = &screen.Cost{Vat: "bin", Name: "bin", Of: cost.Vat{Total: 900, Pieces: []cost.Piece{{Day: "2026-03-28", Tag: "A1", Dips: 2, Total: 300}, {Day: "2026-03-28", Tag: "B1", Dips: 1, Total: 200}}}}
	return m
}

// rows says what keys lead to a row of a list and do what a click on it does; what stands in it is for those that go by its
// figure.
type rows func(row int, text string) []screen.Key

func named(names ...string) (out []screen.Key) {
	for _, n := range names {
		k := screen.Key{Name: n}
		if n == "space" {
			k.Rune = ' '
		} else if r := []rune(n); len(r) == 1 {
			k = screen.Key{Rune: r[0]}
		}
		out = append(out, k)
	}
	return out
}

// along goes down from the top of a list, and then presses keys.
func along(then ...string) rows {
	return func(row int, _ string) []screen.Key {
		return slices.Concat(named(slices.Repeat([]string{"up"}, 40)...), named(slices.Repeat([]string{"down"}, row)...), named(then...))
	}
}

// from goes down from the first line of a list that has no top, or from none.
func from(lines int, then ...string) rows {
	return func(row int, _ string) []screen.Key {
		return append(named(slices.Repeat([]string{"down"}, row+lines)...), named(then...)...)
	}
}

var figureOf = regexp.MustCompile(`^\W*(?:\[.\])?\W*([0-9t])  ?\w`)

// figure presses the figure that stands before a row.
func figure(_ int, text string) []screen.Key {
	if found := figureOf.FindStringSubmatch(text); found != nil {
		return named(found[1])
	}
	return nil
}

// scene is a screen at a moment; rows is nil where it has no row to click on.
type scene struct {
	name string
	at   screen.Place
	view engine.View
	keys string // typed one after the other; "~" is Enter, "|" down, ">" right, "<" tab
	rows rows
}

func scenes(t *testing.T) []scene {
	day1, dips := happened(t, false), dipping(t)
	treated := happened(t, true, day.Treated{Cause: "tired", Do: "add reducer", Wait: quantity.Minutes(1)})
	judging := happened(t, true)
	weighing := happened(t, false, day.CautionAnswered{OfStep: day.OfStep{Step: 1}})
	judging.State.Step = 2
	loose := happened(t, true, day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 100, Dips: 1}})
	ladder := func(row int, _ string) []screen.Key { return named(fmt.Sprint(row + 1)) }
	piece := func(row int, _ string) []screen.Key { // down to the piece on the peg
		return named(slices.Repeat([]string{"down"}, 1+row)...)
	}
	of := day.OfPiece{Tag: "A1"}
	look := happened(t, true, day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 200, Depth: "mid"}}, day.WettedOut{OfPiece: of},
		day.DipBegun{OfPiece: of, Dip: 1, For: quantity.Minutes(1)}, day.DipEnded{OfPiece: of, Dip: 1, Air: quantity.Minutes(1)},
		day.PieceChanged{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 200, Dips: 3}})
	watched := happened(t, true)
	watched.State.Step, watched.State.Vat.Pulled = 2, watched.Now.Add(-12*time.Second)
	strip := dipping(t)
	strip.State.Vat.Pulled = strip.Now.Add(-12 * time.Second)
	planned := happened(t, true, append(wasLifted("A1"), append(wasLifted("B1"), wasLifted("C2")...)...)...)
	return []scene{
		{"the look that decides", screen.AtDay, look, "", nil},
		{"home", screen.AtHome, dips, "", along("enter")},
		{"the question about an end", screen.AtHome, dips, "X", nil},
		{"settings", screen.AtHome, dips, ",", from(0, "enter")},
		{"settings, further down", screen.AtHome, dips, "," + strings.Repeat("|", 14), func(row int, _ string) []screen.Key {
			return append(named(slices.Repeat([]string{"down"}, row+len(shelf.Table())-14)...), named("enter")...) // round its lines
		}},
		{"a setting", screen.AtHome, dips, ",5~12", nil},
		{"recipes", screen.AtSetup, dips, "", figure},
		{"the litres of a vat", screen.AtSetup, dips, "~25", nil},
		{"a new vat", screen.AtSetup, dips, "~~~", nil},
		{"the name of a vat", screen.AtSetup, dips, "~~~1yard", nil},
		{"vessels", screen.AtSetup, dips, "~~~2", figure},
		{"a tag", screen.AtPiece, day1, "", nil},
		{"fibres", screen.AtPiece, day1, "~~", figure},
		{"depths", screen.AtPiece, day1, "~~1100~", figure},
		{"forms", screen.AtPiece, day1, "~~1100~3", figure},
		{"a step", screen.AtDay, day1, "", nil},
		{"is it ready?", screen.AtDay, judging, "", nil},
		{"a strip while building", screen.AtDay, watched, "", nil},
		{"figures", screen.AtDay, weighing, "3", nil},
		{"clock", screen.AtDay, dips, "", piece},
		{"clock, a piece chosen", screen.AtDay, dips, "||", func(row int, text string) []screen.Key { return append(named("esc"), piece(row, text)...) }},
		{"clock, a strip", screen.AtDay, strip, "", piece},
		{"clock, acts unconfirmed", screen.AtDay, planned, "", piece},
		{"unconfirmed", screen.AtUnsaid, planned, "", figure},
		{"unconfirmed, one picked", screen.AtUnsaid, planned, "2", figure},
		{"clock, typing", screen.AtDay, dips, "||r3", nil},
		{"clock, a piece dry", screen.AtDay, loose, "", piece},
		{"bench", screen.AtBench, dips, "", from(1)},
		{"log", screen.AtLog, dips, "", along()},
		{"course", screen.AtCourse, dips, "", nil},
		{"plan", screen.AtPlan, dips, "", nil},
		{"ladder", screen.AtLadder, dips, "", ladder},
		{"ladder, typing", screen.AtLadder, dips, "~sk", nil},
		{"timetable", screen.AtTable, dips, "", nil},
		{"board", screen.AtTable, dips, ">", nil},
		{"what if", screen.AtTable, dips, ">>", nil},
		{"dose", screen.AtDose, dips, "", nil},
		{"dose, a strip", screen.AtDose, strip, "", nil},
		{"signs", screen.AtSigns, loose, "", func(row int, text string) []screen.Key {
			if strings.Contains(text, "time one") {
				return named("t")
			}
			return figure(row, text)
		}},
		{"signs of the goods", screen.AtSigns, loose, "7", figure},
		{"a cause", screen.AtSigns, loose, "11~", nil},
		{"better or worse", screen.AtSigns, treated, "", nil},
		{"care", screen.AtCare, dips, "", nil},
		{"first aid", screen.AtAid, dips, "", figure},
		{"first aid for eyes", screen.AtAid, dips, "1", nil},
		{"goods", screen.AtPrepare, dips, "", nil},
		{"scoured?", screen.AtPrepare, dips, "420 g linen~", figure},
		{"before the day", screen.AtPrepare, dips, "420 g linen~1~", nil},
		{"checklist", screen.AtPrepare, dips, "420 g linen~1~<", figure},
		{"powders", screen.AtStock, dips, "", along()},
		{"test of a tin", screen.AtStock, dips, "t", nil},
		{"cost", screen.AtCost, dips, "", along()},
		{"label", screen.AtCost, dips, "~", nil},
		{"help", screen.AtDay, dips, "?", nil},
		{"leaving", screen.AtDay, dips, "q", nil},
	}
}

// open is the root at a scene.
func (s scene) open(m model) model {
	if s.at != screen.AtHome {
		m = m.push(s.at, s.view.ID, "")
	}
	special := map[rune]screen.Key{'~': {Name: "enter"}, '|': {Name: "down"}, '>': {Name: "right"}, '<': {Name: "tab"}, ' ': {Name: "space", Rune: ' '}}
	for _, r := range s.keys {
		k, ok := special[r]
		if !ok {
			k = screen.Key{Rune: r}
		}
		next, _ := m.key(k)
		m = next
	}
	m.acting = 0
	return m
}

func reversed(s []bool) []bool {
	s = slices.Clone(s)
	slices.Reverse(s)
	return s
}

// bare is a root without its functions, which cannot be compared.
func bare(m tea.Model) model {
	b := m.(model)
	b.style, b.getenv, b.effects, b.closed = style.Style{}, nil, effects{}, lineEnd{}
	return b
}

func leftAt(x, y int) tea.MouseMsg {
	return tea.MouseMsg{X: x, Y: y, Action: tea.MouseActionPress, Button: tea.MouseButtonLeft}
}

// shownAs are the keys by the names that the last line and the answers have for them; the rest are letters and figures.
var shownAs = map[string]string{"PgUp": "pgup", "PgDn": "pgdown", "→": "right", "←": "left", "↑": "up", "↓": "down"}

// TestAClickDoesWhatIsUnderIt clicks on one cell of everything that every screen has, and beside it: a click on a key's label is
// that key, one on a row is to go there and choose it, one on the act is Enter, and anywhere else nothing is changed.
func TestAClickDoesWhatIsUnderIt(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	several := regexp.MustCompile(`^(\d–\d|0–9|↑ ?↓|← ?→|Home End)$`)
	clicked := map[widget.TargetKind]int{}
	for _, s := range scenes(t) {
		for _, size := range [][2]int{{80, 24}, {60, 20}} {
			where := fmt.Sprintf("%s at %d×%d", s.name, size[0], size[1])
			m := clickable(h, s.view)
			m.width, m.height = size[0], size[1]
			m = s.open(m)
			shown := m.View()
			lines := strings.Split(ansi.Strip(shown), "\n")
			same := func(what string, x, y int, keys ...screen.Key) {
				t.Helper()
				got, cmd := m.Update(leftAt(x, y))
				want := tea.Model(m)
				for _, k := range keys {
					want, _ = want.(model).key(k)
				}
				if !reflect.DeepEqual(bare(got), bare(want)) || len(keys) == 0 && cmd != nil {
					t.Errorf("%s: a click on %s at %d,%d is not %v:\n%s\nafter the click\n%s\nafter the keys\n%s", where, what, x, y, keys, shown, got.View(), want.View())
				}
			}
			grid := make([][]bool, size[1])
			for y := range grid {
				grid[y] = make([]bool, size[0])
			}
			rowsSeen, calls := 0, 0
			var last []string // the labels of the last line
			for _, a := range widget.Lay(m.sheet(), m.width, m.height, m.style).Areas() {
				text := ansi.Cut(lines[a.Y], a.X, a.X+a.Wide)
				at := -1 // the first cell that is this area's own
				for x := a.X; x < a.X+a.Wide; x++ {
					if !grid[a.Y][x] && at < 0 {
						at = x
					}
					grid[a.Y][x] = true
				}
				if at < 0 {
					continue
				}
				clicked[a.Kind]++
				switch a.Kind {
				case widget.LabelTarget, widget.AnswerTarget:
					name, label := a.Key, strings.TrimSpace(text)
					if a.Kind == widget.LabelTarget && !strings.HasPrefix(label, name+" ") {
						t.Errorf("%s: %q is taken for the label of %q", where, label, name)
					}
					if a.Kind == widget.LabelTarget {
						last = append(last, label)
					}
					switch {
					case several.MatchString(name), a.Kind == widget.AnswerTarget && (s.name == "leaving" || s.name == "clock, typing"):
						same(label, at, a.Y)
					case strings.HasPrefix(name, "any other"):
						same(label, at, a.Y, screen.Key{Name: "esc"})
					case shownAs[name] != "":
						same(label, at, a.Y, screen.Key{Name: shownAs[name]})
					default:
						same(label, at, a.Y, named(name)...)
					}
				case widget.RowTarget:
					rowsSeen++
					if s.rows == nil {
						t.Errorf("%s: %q is a row", where, text)
						continue
					}
					keys := s.rows(a.Row, text)
					if keys == nil && a.Row < 9 { // the tenth has no figure
						t.Errorf("%s: nothing leads to %q", where, text)
					} else if keys != nil {
						sameScreen(t, where, text, m, screen.Key{Name: "row", Row: a.Row}, keys)
					}
				case widget.CallTarget:
					calls++
					if s.name == "leaving" {
						same("the call", at, a.Y)
					} else if s.at == screen.AtDay && s.name != "help" {
						same("the call", at, a.Y, screen.Key{Name: callKey})
					} else {
						same("the call", at, a.Y, screen.Key{Name: "enter"})
					}
				}
			}
			if s.rows != nil && rowsSeen == 0 {
				t.Errorf("%s: %d rows can be clicked:\n%s", where, rowsSeen, shown)
			}
			if line := strings.TrimSpace(lines[size[1]-1]); calls == 0 || len(last) > 0 && strings.Join(strings.Fields(strings.Join(last, " ")), " ") != strings.Join(strings.Fields(line), " ") {
				t.Errorf("%s: %d rows of a call, and of %q the labels %q:\n%s", where, calls, line, last, shown)
			}
			for i := range 4 { // cells where nothing is, from the corner at the top left to the waterline
				y := i * (size[1] - 3) / 3
				x := slices.Index(grid[y], false)
				if i%2 == 1 {
					x = size[0] - 1 - slices.Index(reversed(grid[y]), false)
				}
				if s.name == "help" {
					same("nothing", x, y, screen.Key{Name: "enter"})
				} else {
					same("nothing", x, y)
				}
			}
		}
	}
	for _, kind := range []widget.TargetKind{widget.CallTarget, widget.LabelTarget, widget.AnswerTarget, widget.RowTarget} {
		if clicked[kind] < 20 {
			t.Errorf("only %d targets of kind %d were clicked", clicked[kind], kind)
		}
	}
}

// sameScreen tells whether a key does to the screen on top, and asks for, what some keys do: a list's own "on" of the place that
// the keys go to.
func sameScreen(t *testing.T, where, what string, m model, k screen.Key, keys []screen.Key) {
	t.Helper()
	top := m.stack[len(m.stack)-1].shows
	got, asks := top.Update(k, m.env())
	want, wants := top, []screen.Request(nil)
	for _, k := range keys {
		if asked, taken := screen.AnswerKey(want, k, m.env()); taken {
			wants = asked
			continue
		}
		want, wants = want.Update(k, m.env())
	}
	if !reflect.DeepEqual(got, want) || !reflect.DeepEqual(asks, wants) {
		t.Errorf("%s: a click on %q is not %v:\n%+v %v\n%+v %v", where, what, keys, got, asks, want, wants)
	}
}
