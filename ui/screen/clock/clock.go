// Package clock is the day at the vat: a countdown over the whole screen, what the hands do when it reaches zero, and
// every piece as its own ladder of blues.
package clock

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// Screen is the clock. chosen is the tag that the dyer picked; empty: whatever is most pressing.
type Screen struct {
	chosen string
	stood  standing // the chosen one, then
	blues  *blues
	part
}

func New(screen.Env) screen.Screen { return Screen{blues: &blues{done: map[string]outlook.Coming{}}} }

func (s Screen) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	v, _ := env.Day()
	if v.State.Ended {
		return s, screen.AnswerEnded(k, env)
	}
	s = s.held(v)
	pieces := s.shownPieces(v, env)
	if row, ok := k.On(len(pieces)); ok && pieces[row].Live() {
		return s.pick(pieces[row].Tag, v), nil
	}
	switch {
	case k.Done() && v.State.Closed:
		return s, []screen.Request{screen.Leave{}}
	case k.Done():
		if c, is := s.overtaken(v); is { // this press was not meant for it
			return s.pick("", v), []screen.Request{screen.Say{Word: "Now: " + c.Verb + " " + strings.Join(c.Tags, ", ")}}
		}
		if s.chosen != "" {
			next, wants := s.answer(v)
			return next, []screen.Request{wants}
		}
		return s, screen.Doing(s.press(v))
	case k.Name == "down" || k.Name == "up":
		return s.pick(screen.Along(wording.Only(v.State.Pieces, day.Piece.Live), s.chosen, k.Way()), v), nil
	case k.Name == "esc":
		if s.chosen != "" {
			s.chosen = ""
			return s, nil
		}
		return s, []screen.Request{screen.Leave{}}
	case k.Name == "tab":
		tag := s.chosen
		s.chosen = ""
		return s, []screen.Request{screen.Go{To: screen.AtBench, Day: env.ID, Tag: tag}}
	case k.Rune >= '1' && k.Rune <= '9':
		if wants, ok := decide(v, int(k.Rune-'0')); ok {
			return s, wants
		}
		if next, ok := s.leave(v, int(k.Rune-'0')); ok {
			return next, nil
		}
		return s, s.like(v, int(k.Rune-'0'))
	}
	return s, nil
}

func (s Screen) Focus(env screen.Env) string {
	v, _ := env.Day()
	return s.focus(v)
}

// command is what the big key means for a chosen piece.
func command(s day.State, tag string) day.Command {
	p, _ := s.Piece(tag)
	switch {
	case p.Phase == day.InVat:
		return day.Lift{Tag: tag}
	case p.Phase == day.Dry:
		return day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: tag}}}
	case p.Phase == day.Airing && p.Dips >= p.Want():
		return day.Finish{Tag: tag}
	}
	return day.Lower{Tag: tag}
}

// focus is the chosen piece, else the one that the act is about.
func (s Screen) focus(v engine.View) string {
	if s.chosen != "" {
		return s.chosen
	}
	return v.Call().Act.Piece.Tag
}

func (s Screen) View(env screen.Env) widget.Sheet {
	v, _ := env.Day()
	if v.State.Ended {
		return screen.EndedSheet(v, env)
	}
	s = s.shown(v)
	st, call := v.State, s.call(v)
	act := call.Act
	sheet := widget.Sheet{
		Head: screen.HeadOf(v, ""), Act: call.Short, Why: screen.Unsourced(call.Why), Foot: screen.Foot(v, env), Stage: s.stage(v, call, env),
	}
	facts, note := strings.Join(call.Facts(v.Now), ", "), ""
	switch left, over := act.Left(v.Now); {
	case call.Held(v.Now):
		sheet.Figure = widget.Figure{Number: widget.Countdown(act.Piece.Since.Sub(v.Now)), Tone: widget.Now}
	case call.Due != nil && (act.Kind == day.ActFinish || act.Kind == day.ActLook):
		sheet.Figure = widget.Figure{Number: widget.Over(over), Counts: "OVER"}
	case call.Due != nil:
		sheet.Figure, note = counting(left, over), v.Second()
		if act.Kind == day.ActLift && over > 0 {
			sheet.Figure.Counts = "LATE"
			note = fmt.Sprintf("in the vat since %s, %s", day.DateOf(act.Piece.Since, v.Now), day.Long(v.Now.Sub(act.Piece.Since)))
		}
	case act.Kind == day.ActEnter && act.Apart() != "": // no one figure is right for all
		sheet.Figure.Note = wording.Sentence("in for: " + facts)
		note = warmFirst(v)
	case act.Kind == day.ActEnter:
		dip := widget.Countdown(act.Piece.NextDip().Duration())
		sheet.Figure = widget.Figure{Number: dip, Counts: "LONG", Note: wording.Joined(" ", "In for "+dip+".", wording.Sentence(facts))}
		note = warmFirst(v)
	}
	if act.Kind == day.ActStrip {
		sheet.Figure = screen.StripFigure(v)
	}
	sheet.Figure.Note = cmp.Or(sheet.Figure.Note, wording.Sentence(facts))
	// What wants an answer stands first.
	say := func(words ...string) { sheet.How = append(sheet.How, wording.Filled(words...)...) }
	unsaid(&sheet, v, act)
	say(s.asks(v), s.partly(v))
	if act.Kind == day.ActBench && call.Due == nil {
		s.bench(&sheet, call, v)
	}
	s.look(&sheet, v, env)
	say(wording.Sentence(note))
	if _, over := act.Left(v.Now); act.Kind == day.ActLift && over > 0 {
		sheet.How, sheet.Answers = append(sheet.How, "T tells when it really came out."), append(sheet.Answers, "T tells when it really came out")
	}
	if !act.Shut {
		say(call.Sentence())
	}
	switch words := cut(act.Piece); {
	case act.Shut:
		sheet.How = append(sheet.How, screen.Unsourced(call.How))
	case words != "":
		sheet.How = append(sheet.How, wording.Upper(words)+". L judges it, ironed dry.")
		sheet.Answers = append(sheet.Answers, "L judges it")
	default:
		say(screen.Unsourced(call.How))
	}
	if p, there := st.Piece(s.focus(v)); there && p.Live() && act.Kind != day.ActDecide {
		say(s.likely(v, p, false))
	}
	switch then := v.Upcoming(); {
	case s.chosen != "":
		press, leave := "space: "+does(command(st, s.chosen), s.chosen), "esc: leave "+s.chosen
		sheet.Next, sheet.Answers = press+early(v, s.chosen)+"   "+leave, append(sheet.Answers, press, leave)
	case st.Closed:
		sheet.Next, sheet.Answers = "enter: home", append(sheet.Answers, "enter: home")
	case then != "":
		sheet.Next = "then: " + then + pegOf(st, then)
	}
	return sheet
}

// pegOf is the peg of the piece that goes in next, by the words for it: finding it wet among blue cloth is what takes time.
func pegOf(s day.State, then string) string {
	i := slices.IndexFunc(s.Pieces, func(p day.Piece) bool { return strings.HasPrefix(then, "in "+p.Tag+",") })
	return wording.If(i >= 0, fmt.Sprintf(", peg %d", i+1))
}

// bench is what goes into the next bath of a piece whose dips are over.
func (s Screen) bench(sheet *widget.Sheet, call day.Call, v engine.View) {
	if call.Act.Shut {
		sheet.ActTone = widget.Trouble
	}
	f := day.FigureOf(v.State, call)
	sheet.Figure = widget.Figure{Number: f.Number, Unit: f.Unit, Note: f.Note}
	if call.Caution != "" {
		sheet.Caution = &widget.Caution{Text: screen.Unsourced(call.Caution), Key: "space: on"}
	}
	if call.Press == "" {
		sheet.How, sheet.Answers = append(sheet.How, "tab: the bench."), append(sheet.Answers, "tab: the bench")
	}
}

// counting is the countdown of the call, or by how much it is over.
func counting(left, over time.Duration) widget.Figure {
	switch {
	case over > 0:
		return widget.Figure{Number: widget.Over(over), Counts: "OVER", Tone: widget.Now}
	case left <= soon:
		return widget.Figure{Number: widget.Countdown(left), Counts: "LEFT", Tone: widget.Now}
	}
	return widget.Figure{Number: widget.Countdown(left), Counts: "LEFT"}
}

func (s Screen) Keys(env screen.Env) []widget.Key {
	v, _ := env.Day()
	if v.State.Ended {
		return screen.EndedKeys()
	}
	s = s.shown(v)
	bind := screen.Bound
	call := v.Call()
	act, press := call.Act, call.Press
	if v.State.Closed {
		return append(screen.Keys("enter", "home"), screen.RowKeys(v, "log")...)
	}
	if s.chosen != "" {
		press = does(command(v.State, s.chosen), s.chosen)
	}
	keys := screen.Keys("space", press, "esc", wording.If(s.chosen != "", "leave "+s.chosen))
	asked := lookKeys(v)
	keys = append(keys, asked...)
	beside, any := v.Beside()
	atBench := act.Kind == day.ActBench && act.Press == "" ||
		any && beside.Act.Kind == day.ActBench && call.Due != nil && len(asked) == 0
	keys = append(keys, screen.Keys("tab", wording.If(atBench, "the bench"))...) // what is called or named meanwhile is answered there
	if does, any := confirms(v); any {
		keys = append(keys, bind("k", does))
		keys = append(keys, screen.RowKeys(v, "move")...)
	}
	if act.Kind == day.ActLook {
		keys = append(keys, bind("u", "better, the same, worse"))
		keys = append(keys, screen.RowKeys(v, "strip")...)
	}
	if len(v.State.Pieces) == 0 || act.Kind == day.ActIdle {
		keys = append(keys, screen.RowKeys(v, "piece", "close")...)
	}
	if all := rungs(v); len(all) > 0 && len(asked) == 0 && !lifting(v) {
		if _, looked, ok := s.compared(v); ok && !looked {
			keys = append(keys, bind(figures(all), "like which rung"))
		}
	}
	rows := screen.RowKeys(v, "back", "blue", "more", "temp")
	return slices.Concat(keys, screen.Keys("↑↓", "choose"), rows, screen.Keys("tab", wording.If(!atBench, "the bench, after the dips")))
}

// does says in a word or two what a command does with a piece.
func does(c day.Command, tag string) string {
	switch c.(type) {
	case day.Lift:
		return tag + " out"
	case day.Lower:
		return tag + " in"
	case day.Finish:
		return tag + " done"
	}
	return tag + " wet"
}
