// Package timetable shows the day of the pieces that share a vat: their lanes in time, whose turn is next, and what other
// ways to do it would give.
package timetable

import (
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// Screen is the timetable. top is how far its list is scrolled.
type Screen struct {
	view  view
	top   int
	asked string // the way that waits for its second press
	memo  *memo
}

// view is one of the three views of a timetable.
type view int

const (
	lanes view = iota
	board
	whatIf
	views
)

// name is what the key that leads to a view says.
func (v view) name() string { return [views]string{"the day", "the board", "what if"}[v] }

// memo keeps what takes long to reckon between two pictures.
type memo struct {
	table   screen.Memo[screen.BluesKey, *outlook.Table]
	blue    screen.Memo[screen.BluesKey, outlook.Blue]
	options screen.Memo[*outlook.Table, []option]
}

// New shows the day's lanes.
func New(screen.Env) screen.Screen { return Screen{memo: &memo{}} }

// sight is the cache key of a picture of the timetable.
type sight struct {
	v    engine.View
	t    *outlook.Table
	blue outlook.Blue
	env  screen.Env
}

func (x sight) now() time.Time { return x.v.Now }

// see is the engine's timetable and blues, reckoned here only where it has not come to them.
func (s Screen) see(v engine.View, env screen.Env) sight {
	x := sight{v: v, t: v.Table, env: env, blue: s.memo.blue.Of(screen.BluesKeyOf(v), func() outlook.Blue { return screen.Blue(v) })}
	if x.t == nil {
		x.t = s.memo.table.Of(screen.BluesKeyOf(v), func() *outlook.Table {
			t := outlook.Timetable(v.State, screen.Outlook(v), x.blue, load.Plan{}, v.Now, 0)
			return &t
		})
	}
	return x
}

func (s Screen) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	v, _ := env.Day()
	if wants, told := screen.HandsTold(k, v); told && s.view != whatIf {
		return s, wants
	}
	switch {
	case k.Done(), k.Name == "esc":
		return s, []screen.Request{screen.Leave{}}
	case k.Name == "left" || k.Name == "right":
		return s.turn((s.view + views + view(k.Way())) % views), nil
	case k.Rune >= '1' && k.Rune < '1'+rune(views):
		return s.turn(view(k.Rune - '1')), nil
	case s.view == whatIf && choices[k.Rune] != "":
		return s.take(k.Rune, s.see(v, env))
	case k.Name == "up":
		_, shown := s.list(s.see(v, env))
		s.top = max(0, shown.from-s.page(shown))
	case k.Name == "down":
		if _, shown := s.list(s.see(v, env)); shown.to < shown.all {
			s.top = shown.from + s.page(shown)
		}
	}
	return s, nil
}

// turn shows a view, from its top.
func (s Screen) turn(to view) Screen {
	if to != s.view {
		s.view, s.top = to, 0
	}
	return s
}

// page is how far a key scrolls: the board by what it shows, so that nothing is read twice; the others by one.
func (s Screen) page(shown span) int {
	if s.view == board {
		return shown.to - shown.from
	}
	return 1
}

// list is the sheet, and what it shows of its list.
func (s Screen) list(x sight) (widget.Sheet, span) {
	sheet := widget.Sheet{Head: screen.HeadOf(x.v, s.view.name()), HowTop: true}
	if empty(x, &sheet) {
		return sheet, span{}
	}
	if s.view == whatIf {
		return s.whatIf(x, sheet)
	}
	screen.AskHands(&sheet, x.v)
	if s.view == board {
		return s.board(x, sheet)
	}
	return s.lanes(x, sheet)
}

// empty says why there is nothing to show, where there is not.
func empty(x sight, sheet *widget.Sheet) bool {
	live, dry := wording.Count(x.v.State.Pieces, day.Piece.Live), len(x.v.State.Pieces) == 0
	switch {
	case x.v.State.Closed:
		sheet.Act, sheet.How = "The day is closed", []string{"Nothing is left to plan: l shows its log."}
	case dry:
		sheet.Act, sheet.How = "No pieces yet", []string{"p adds one. The timetable is reckoned from its weight, its dips and its airings."}
	case x.t.Fault != "":
		sheet.Act, sheet.ActTone, sheet.How = "No timetable", widget.Trouble, []string{wording.Sentence(x.t.Fault)}
	case len(x.stand()) == 0 && live > 0:
		sheet.Act, sheet.How = "Nothing more to dip", x.airing()
	case len(x.stand()) == 0:
		sheet.Act, sheet.How = "All pieces are done", nil
	default:
		return false
	}
	if len(sheet.How) == 0 {
		sheet.How = []string{"Nothing is left to plan."}
	}
	sheet.Foot = screen.Foot(x.v, x.env)[:1]
	return true
}

func (s Screen) View(env screen.Env) widget.Sheet {
	v, _ := env.Day()
	sheet, _ := s.list(s.see(v, env))
	return sheet
}

func (s Screen) Keys(env screen.Env) []widget.Key {
	v, _ := env.Day()
	x := s.see(v, env)
	keys := screen.Keys("enter", "back")
	if _, shown := s.list(x); shown.all > 0 {
		keys = append(keys, screen.Keys("→", ((s.view+1)%views).name(), "←", ((s.view+views-1)%views).name())...)
		if shown.to-shown.from < shown.all {
			keys = append(keys, screen.Bound("↑↓", "more"))
		}
		if ask := screen.HandsKeys(v); ask != nil && s.view != whatIf {
			keys = append(keys, ask...)
		} else {
			keys = append(keys, screen.Bound("1–3", "the day, the board, what if"))
		}
	}
	return append(keys, screen.Bound("esc", "back"))
}

// clock is a time of day, with its date where that is not today.
func (x sight) clock(t time.Time) string {
	t = t.In(x.now().Location())
	if t.YearDay() != x.now().YearDay() || t.Year() != x.now().Year() {
		return t.Format("Mon ") + day.Clock(t)
	}
	return day.Clock(t)
}
