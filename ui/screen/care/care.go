// Package care is what a vat wants to be kept alive: the act that is due now, when the next one is, and how the vat went
// over its life.
package care

import (
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/history"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// Screen is one vat. page is which part is shown where not all has room at once.
type Screen struct {
	page int
	memo *screen.Memo[question, answer]
}

// question is what the answer goes by: it is reckoned anew with each event and each minute.
type question struct {
	id           string
	days, events int
	minute       int64
}

// answer is all that is said of a vat.
type answer struct {
	care   []history.Due
	facts  []history.Fact
	points history.Points
	worked string
}

func New(screen.Env) screen.Screen { return Screen{memo: &screen.Memo[question, answer]{}} }

func (s Screen) answer(env screen.Env, last history.Day) answer {
	q := question{env.ID, len(env.History), len(last.State.Log), env.Now.Unix() / 60}
	return s.memo.Of(q, func() answer {
		vat := history.LifeOf(env.History)
		return answer{
			care:   vat.Care(env.Now),
			facts:  vat.Stand(env.Now).Facts(env.Now, last.State.Head.Setup.System()),
			points: history.PointsOf(env.History),
			worked: vat.Worked(),
		}
	})
}

func (s Screen) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	last, ok := env.History.Last()
	switch {
	case k.Name == "esc":
		return s, []screen.Request{screen.Leave{}}
	case !ok:
	case k.Rune == 'D' && !last.State.Ended:
		vat, _, _ := strings.Cut(env.ID, "/")
		return s, []screen.Request{screen.NextDay{Vat: vat}}
	case k.Rune == 'l':
		return s, []screen.Request{screen.Go{To: screen.AtLog, Day: env.ID}}
	case k.Done():
		if n := len(s.pages(env)); n > 1 {
			s.page = (s.page + 1) % n
		} else {
			return s, []screen.Request{screen.Leave{}}
		}
	}
	return s, nil
}

func (s Screen) View(env screen.Env) widget.Sheet {
	last, ok := env.History.Last()
	if !ok {
		return widget.Sheet{Act: "Reading the vat", How: []string{"Its days are being read."}}
	}
	pages := s.pages(env)
	at := min(s.page, len(pages)-1)
	sheet := s.sheet(env, last, at > 0)
	sheet.Body, sheet.Large = pages[at].lines, pages[at].large
	if _, right, _ := widget.Halves(env.Width); sheet.Halved {
		sheet.Side = grid(plotsOf(s.answer(env, last).points, env, last), 1, right, env.Height-beyondPlots, env)
	}
	return sheet
}

// room is what the body has on the first page, or with bare on a later one.
func (s Screen) room(env screen.Env, last history.Day, bare bool) (columns, rows int) {
	columns, rows = widget.Room(s.sheet(env, last, bare), env.Width, env.Height, env.Style)
	return columns, max(rows, 1)
}

// sheet is the screen without its body and its side; bare leaves out how and why, for the pages after the first.
func (s Screen) sheet(env screen.Env, last history.Day, bare bool) widget.Sheet {
	a := s.answer(env, last)
	st := last.State
	head := st.Head
	right := wording.If(head.Rehearsed, "rehearsed · ") + env.Now.Format("Mon 2 Jan · 15:04")
	sys := head.Setup.System()
	sheet := widget.Sheet{
		Head:   widget.Head{Left: head.Name() + " · " + head.Setup.Fill.Format(sys) + " · " + head.Recipe.Name, Right: right},
		ActBig: true, HowTop: true,
	}
	act(&sheet, a, last, env.Now)
	if bare {
		sheet.How, sheet.Why, sheet.Figure, sheet.ActBig = nil, "", widget.Figure{}, false
		if len(a.care) > 0 && !a.care[0].Coming {
			sheet.Aside = a.care[0].When(env.Now)
		}
	}
	sheet.Foot = []string{foot(a, last)}
	if v, live := env.Day(); live {
		sheet.Foot = screen.Foot(v, env)
	}
	sheet.Halved = atSide(env, plotsOf(a.points, env, last))
	return sheet
}

// act is what is due now, and what comes next.
func act(sheet *widget.Sheet, a answer, last history.Day, now time.Time) {
	first := slices.IndexFunc(a.care, func(d history.Due) bool { return d.Coming })
	switch {
	case last.State.Ended:
		sheet.Act, sheet.How = "Vat ended", []string{"This vat has ended. Its book stays."}
	case len(a.care) > 0 && !a.care[0].Coming:
		d := a.care[0]
		sheet.Act = d.Do
		if d.Overdue() {
			sheet.ActTone = widget.Trouble
		}
		sheet.How, sheet.Why = []string{wording.Sentence(d.When(now)) + " " + screen.Sentence(d.How)}, screen.Sentence(d.Why)
		if d.Amount > 0 {
			sheet.Figure.Number, sheet.Figure.Unit = d.Amount.Figure(last.State.Head.Setup.System())
		}
	case len(a.care) > 0 && a.care[0].At.IsZero():
		d := a.care[0]
		sheet.Act, sheet.How, sheet.Why = "Let it rest", wording.Filled(screen.Sentence(d.How)), screen.Sentence(d.Why)
		if d.ID != "revive" {
			sheet.Act = d.Do
		}
	default:
		sheet.Act, sheet.How = "Leave it alone", []string{"Nothing is due."}
		if _, built := (history.Vat{last}).Built(); !built && len(a.care) == 0 {
			sheet.Act, sheet.How = "Build it first", []string{"It is looked after once it is ready."}
		}
	}
	if first >= 0 && (a.care[first].ID != "revive") {
		sheet.Next = "next: " + said(a.care[first], last, now)
	}
}

// said is what a vat wants and when, in one line.
func said(d history.Due, last history.Day, now time.Time) string {
	words := wording.Lower(d.Words(last.State.Head.Setup.System()))
	if when := d.When(now); when != "" {
		words += ", " + when
	}
	return words
}

// foot is the last facts, short.
func foot(a answer, last history.Day) string {
	parts := wording.Some(a.facts, func(f history.Fact) (string, bool) { return f.Name + " " + f.Words, inFoot(f) })
	if len(parts) == 0 {
		return "last day " + last.Name
	}
	return strings.Join(parts, "   ")
}

// inFoot tells whether a fact is of the liquor as it was last read.
func inFoot(f history.Fact) bool { return f.Name == "warmth" || f.Name == "pH" || f.Name == "strip" }

func (s Screen) Keys(env screen.Env) []widget.Key {
	last, ok := env.History.Last()
	if !ok {
		return screen.Keys("esc", "back")
	}
	keys := screen.Keys("enter", "back")
	if len(s.pages(env)) > 1 {
		keys = screen.Keys("enter", "more", "esc", "back")
	}
	if !last.State.Ended {
		does := wording.Either(!last.State.Closed, "go on with its day", "next day")
		keys = append(keys, screen.Bound("D", does))
	}
	return append(keys, screen.Keys("l", "log")...)
}
