// Package clock is the day at the vat: a countdown over the whole screen, what the hands do when it reaches zero, and
// every piece as its own ladder of blues.
package clock

import (
	"fmt"
	"strings"
	"time"

	"github.com/charmbracelet/bubbles/key"

	"example.org/vatside/model/day"
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

// New is the clock with nothing chosen.
func New(screen.Env) screen.Screen { return Screen{blues: newBlues()} }

// Capturing is always false: nothing is typed here.
func (s Screen) Capturing() bool { return false }

// Counts tells whether a strip is watched.
func (s Screen) Counts(env screen.Env) bool { return screen.Watched(env) }

// Update answers a key.
func (s Screen) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	v, ok := env.Day()
	if !ok {
		return s, []screen.Request{screen.Leave{}}
	}
	if v.State.Ended {
		return s, screen.AnswerEnded(k, env)
	}
	s = s.held(v)
	do := func(c day.Command) (screen.Screen, []screen.Request) {
		return s, []screen.Request{screen.Do{Command: c}}
	}
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
		return do(s.press(v))
	case k.Name == "down":
		return s.pick(step(v.State, s.chosen, 1), v), nil
	case k.Name == "up":
		return s.pick(step(v.State, s.chosen, -1), v), nil
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
		if next, ok := s.leave(v, int(k.Rune-'1'), env); ok {
			return next, nil
		}
		return s, s.like(v, int(k.Rune-'0'))
	}
	return s, nil
}

// Focus is the piece in hand.
func (s Screen) Focus(env screen.Env) string {
	if v, ok := env.Day(); ok {
		return s.focus(v)
	}
	return ""
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
	return day.Next(v.State, v.Now).Piece.Tag
}

// step moves the choice among the live pieces; past either end nothing is chosen.
func step(s day.State, chosen string, by int) string {
	tags := []string{""}
	at := 0
	for _, p := range s.Pieces {
		if p.Live() {
			tags = append(tags, p.Tag)
			if p.Tag == chosen {
				at = len(tags) - 1
			}
		}
	}
	return tags[(at+by+len(tags))%len(tags)]
}

// View draws the clock.
func (s Screen) View(env screen.Env) widget.Sheet {
	v, ok := env.Day()
	if !ok {
		return widget.Sheet{Act: "This day is not open"}
	}
	if v.State.Ended {
		return screen.EndedSheet(v, env)
	}
	s = s.shown(v)
	st, call := v.State, s.call(v)
	act := call.Act
	sheet := widget.Sheet{
		Head: screen.HeadOf(v, ""), Act: call.Short, Why: screen.Unsourced(call.Why), Foot: screen.Foot(v, env), Stage: s.stage(v, call, env),
	}
	facts := sentences(call.Facts(v.Now))
	sheet.How = wording.Filled(call.Sentence(), screen.Unsourced(call.How))
	if words := cut(act.Piece); words != "" {
		sheet.How = []string{wording.Upper(words) + ". L judges it, ironed dry."}
		sheet.Answers = []string{"L judges it"}
	}
	if words := s.asks(v); words != "" {
		sheet.How = append(sheet.How, words)
	}
	if words := s.partly(v); words != "" {
		sheet.How = append(sheet.How, words)
	}
	switch left, over := act.Left(v.Now); {
	case call.Held(v.Now):
		sheet.Figure = widget.Figure{Number: widget.Countdown(act.Piece.Since.Sub(v.Now)), Tone: widget.Now}
	case call.Due != nil && (act.Kind == day.ActFinish || act.Kind == day.ActLook):
		sheet.Figure = widget.Figure{Number: widget.Over(over)}
	case call.Due != nil:
		sheet.Figure = counting(left, over)
		sheet.Figure.Note = day.Second(st, v.Now)
		if act.Kind == day.ActLift && over > 0 {
			sheet.Figure.Note = fmt.Sprintf("in the vat %s, %s", widget.Since(act.Piece.Since), day.Long(v.Now.Sub(act.Piece.Since)))
			sheet.How, sheet.Answers = append(sheet.How, "T tells when it really came out."), append(sheet.Answers, "T tells when it really came out")
		}
	case act.Kind == day.ActEnter:
		sheet.Figure = widget.Figure{Number: widget.Countdown(act.Piece.DipTime().Duration())}
		if words := warmFirst(v); words != "" {
			sheet.How = append([]string{words}, sheet.How...)
		}
	case act.Kind == day.ActBench:
		s.bench(&sheet, call, v)
	}
	if act.Kind == day.ActStrip {
		sheet.Figure = screen.StripFigure(v)
	}
	if note := sheet.Figure.Note; facts != "" && act.Kind != day.ActBench {
		if sheet.Figure.Note = facts; note != "" {
			sheet.How = append([]string{sentence(note)}, sheet.How...)
		}
	}
	unsaid(&sheet, v, act)
	s.look(&sheet, v, env)
	switch then := day.Upcoming(st, v.Now); {
	case s.chosen != "":
		press, leave := "space: "+does(command(st, s.chosen), s.chosen), "esc: let go of "+s.chosen
		sheet.Next, sheet.Answers = press+early(v, s.chosen)+"   "+leave, append(sheet.Answers, press, leave)
	case st.Closed:
		sheet.Next, sheet.Answers = "enter: home", append(sheet.Answers, "enter: home")
	case then != "":
		sheet.Next = "then: " + then
	}
	return sheet
}

// sentence is a text as a sentence with its end.
func sentence(text string) string {
	text = wording.Upper(text)
	if strings.HasSuffix(text, "?") || strings.HasSuffix(text, ".") {
		return text
	}
	return text + "."
}

// sentences are facts as one sentence: "Runner, dip 4 of 7, till 11:38."
func sentences(facts []string) string {
	if len(facts) == 0 {
		return ""
	}
	return sentence(strings.Join(facts, ", "))
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
		return widget.Figure{Number: widget.Over(over), Tone: widget.Now}
	case left <= soon:
		return widget.Figure{Number: widget.Countdown(left), Tone: widget.Now}
	}
	return widget.Figure{Number: widget.Countdown(left)}
}

// Keys are the keys of the moment, the most needed first.
func (s Screen) Keys(env screen.Env) []key.Binding {
	v, ok := env.Day()
	if !ok {
		return nil
	}
	if v.State.Ended {
		return screen.EndedKeys()
	}
	s = s.shown(v)
	bind := screen.Bound
	act := day.Next(v.State, v.Now)
	press := act.Press
	if v.State.Closed {
		return append([]key.Binding{bind("enter", "home")}, screen.RowKeys(v, "log")...)
	}
	if s.chosen != "" {
		press = does(command(v.State, s.chosen), s.chosen)
	}
	var keys []key.Binding
	if press != "" {
		keys = append(keys, bind("space", press))
	}
	if s.chosen != "" {
		keys = append(keys, bind("esc", "let go of "+s.chosen))
	}
	asked := lookKeys(v)
	keys = append(keys, asked...)
	if does, any := confirms(v); any {
		keys = append(keys, bind("k", does))
		keys = append(keys, screen.RowKeys(v, "move")...)
	}
	switch {
	case act.Kind == day.ActBench && act.Press == "":
		keys = append(keys, bind("tab", "the bench"))
	case act.Kind == day.ActLook:
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
	keys = append(keys, bind("↑↓", "choose"))
	keys = append(keys, screen.RowKeys(v, "back", "blue", "more", "temp")...)
	keys = append(keys, bind("tab", "the bench, after the dips"))
	return keys
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
