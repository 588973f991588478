// Package clock is the day at the vat: a countdown over the whole screen, what the hands do when it reaches zero, and
// every piece as its own ladder of blues.
package clock

import (
	"fmt"
	"strings"
	"time"

	"github.com/charmbracelet/bubbles/key"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// Screen is the clock. chosen is the tag that the dyer picked; empty: whatever is most pressing.
type Screen struct {
	typing screen.Typing
	chosen string
	stood  standing // the chosen one, then
	strip  screen.Strip
	blues  *blues
}

// New is the clock with nothing chosen.
func New(screen.Env) screen.Screen { return Screen{blues: newBlues()} }

// Capturing tells that letters are text.
func (s Screen) Capturing() bool { return s.typing.On() }

// Counts tells whether a strip is watched.
func (s Screen) Counts(screen.Env) bool { return s.strip.On() }

// Update answers a key.
func (s Screen) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	v, ok := env.Day()
	if !ok {
		return s, []screen.Request{screen.Leave{}}
	}
	if v.State.Ended {
		return s, screen.AnswerEnded(k, env)
	}
	if s.typing.On() {
		return s.typed(k, v)
	}
	s = s.held(v)
	do := func(c day.Command) (screen.Screen, []screen.Request) {
		return s, []screen.Request{screen.Do{Command: c}}
	}
	pieces := lanes(v, s.focus(v), env.Height)
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
		return do(screen.Press(v))
	case k.Name == "pgup" || k.Rune == 'b':
		return do(day.Back{})
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
	case k.Name == "tab" || k.Rune == 'y':
		tag := s.chosen
		s.chosen = ""
		return s, []screen.Request{screen.Go{To: screen.AtBench, Day: env.ID, Tag: tag}}
	}
	switch k.Rune {
	case 'n':
		tag := s.focus(v)
		if tag == "" {
			tag = step(v.State, "", 1)
		}
		if tag == "" {
			return s, []screen.Request{screen.Say{Word: "no piece to plan for: p adds one"}}
		}
		return s, []screen.Request{screen.Go{To: screen.AtPlan, Day: env.ID, Tag: tag}}
	case 's':
		return s, []screen.Request{screen.Go{To: screen.AtLadder, Day: env.ID}}
	case '1', '2', '3', '4', '5', '6', '7', '8', '9':
		return s, s.like(v, int(k.Rune-'0'))
	case 'p':
		return s, []screen.Request{screen.Go{To: screen.AtPiece, Day: env.ID}}
	case 'l':
		return s, []screen.Request{screen.Go{To: screen.AtLog, Day: env.ID}}
	case 'k':
		if seq := assumed(v.State); seq > 0 {
			return do(day.Confirm{Seq: seq})
		}
		return s, []screen.Request{screen.Say{Word: "nothing waits for a word from you"}}
	case 'w':
		s.typing = screen.Typing{What: "when", Label: s.whenLabel(v), Unit: "time of day"}
	case 'r':
		s.typing = screen.Typing{What: "temp", Label: "The vat reads", Unit: screen.Degrees(v)}
	case 'h':
		s.typing = screen.AskPH(v)
	case 'o':
		s.typing = screen.Typing{What: "note", Label: "Note"}
	case 't':
		var wants []screen.Request
		s.strip, wants = s.strip.Press(v.Now)
		return s, wants
	case 'f':
		return do(day.Finish{Tag: s.focus(v)})
	case 'z':
		return do(day.Record{Body: day.CarriedOver{OfPiece: day.OfPiece{Tag: s.focus(v)}}})
	case 'v':
		return do(day.RestVat{For: quantity.Minutes(60)})
	case 'c':
		return do(screen.Cover(v))
	case 'e':
		return do(screen.Heater(v))
	case 'd':
		s.typing = screen.Level(v)
	case 'a':
		return s, []screen.Request{screen.Go{To: screen.AtDose, Day: env.ID}}
	case 'u':
		return s, []screen.Request{screen.Go{To: screen.AtSigns, Day: env.ID}}
	case 'j':
		return s, []screen.Request{screen.Go{To: screen.AtCare, Day: env.ID}}
	case 'i':
		return do(screen.Company(v))
	case 'H':
		s.typing = screen.Typing{What: "hot", Label: "Goods into a vat too hot for hands: why?", Unit: "with sticks or tongs"}
	case 'm':
		return s, []screen.Request{screen.Go{To: screen.AtTable, Day: env.ID}}
	case 'g':
		return s, []screen.Request{screen.Go{To: screen.AtCourse, Day: env.ID}}
	case 'x':
		s.typing = screen.Typing{What: "close", Label: "Close the day? Enter closes it, Esc does not", Unit: "why, if you like"}
	case '+', '=', '_', '-':
		by := time.Minute
		if k.Rune == '_' || k.Rune == '-' {
			by = -time.Minute
		}
		if a := day.Next(v.State, v.Now); a.Due != nil {
			return do(day.Stretch{Timer: a.Due.Timer, By: quantity.Span(by)})
		}
		return s, []screen.Request{screen.Say{Word: "no time is running"}}
	}
	return s, nil
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

// whenLabel says which act a typed time of day is about.
func (s Screen) whenLabel(v engine.View) string {
	if a := day.Next(v.State, v.Now); a.Kind == day.ActLift {
		return "When did " + a.Piece.Tag + " come out?"
	}
	if assumed(v.State) > 0 {
		return "When did it come out, really?"
	}
	return "When did " + s.focus(v) + " go in?"
}

// typed answers a key while a line is typed.
func (s Screen) typed(k screen.Key, v engine.View) (screen.Screen, []screen.Request) {
	next, entered, left := s.typing.Take(k)
	s.typing = next
	if left || !entered {
		return s, nil
	}
	c, err := s.meant(v)
	if err != nil {
		s.typing.Wrong = err.Error()
		return s, nil
	}
	s.typing = screen.Typing{}
	return s, []screen.Request{screen.Do{Command: c}}
}

// meant is the command that the typed line asks for.
func (s Screen) meant(v engine.View) (day.Command, error) {
	switch s.typing.What {
	case "close":
		return day.Answered{Command: day.Close{Why: strings.TrimSpace(s.typing.Text)}}, nil // the line asked
	case "note":
		return day.Record{Body: day.Note{Text: s.typing.Text}}, nil
	case "temp":
		t, err := s.typing.Temp(v.State.Head.Setup.System())
		return day.Record{Body: day.Reading{Temp: &t}}, err
	case "level":
		return s.typing.Level(v)
	case "hot":
		return day.Record{Body: day.HotWork{Reason: strings.TrimSpace(s.typing.Text)}}, nil
	case "ph":
		r, err := s.typing.PHReading(v.State.Head.Setup.System())
		return day.Record{Body: r}, err
	}
	at, err := s.typing.Hour(v.Now)
	if err != nil {
		return nil, err
	}
	if a := day.Next(v.State, v.Now); a.Kind == day.ActLift {
		return day.Lift{Tag: a.Piece.Tag, When: at}, nil
	}
	if seq := assumed(v.State); seq > 0 {
		return day.Move{Seq: seq, To: at}, nil
	}
	return day.Lower{Tag: s.focus(v), When: at}, nil
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
	st := v.State
	act := day.Next(st, v.Now)
	sheet := widget.Sheet{
		Head: screen.HeadOf(v, ""), Act: act.Words, ActBig: true, Why: screen.Unsourced(act.Why),
		Liquor: screen.LiquorOf(st), Edge: s.edge(v, act), Big: true, HowTop: true,
	}
	if act.How != "" {
		sheet.How = []string{screen.Unsourced(act.How)}
	}
	if words := cut(act.Piece); words != "" {
		sheet.How = []string{strings.ToUpper(words[:1]) + words[1:] + ". s judges it, ironed dry."}
		sheet.Answers = []string{"s judges it"}
	}
	if words := s.asks(v); words != "" {
		sheet.How = append(sheet.How, words)
	}
	left, over := act.Left(v.Now)
	switch {
	case act.Kind == day.ActLift && v.Now.Before(act.Piece.Since):
		sheet.Act = "IN " + act.Piece.Tag
		sheet.Figure = widget.Figure{Number: widget.Countdown(act.Piece.Since.Sub(v.Now)), Note: "hold it: in at zero", Tone: widget.Now}
	case act.Kind == day.ActLift:
		sheet.Act = "OUT " + strings.Join(act.Tags, " ")
		if len(act.Tags) > 1 {
			sheet.How = append(sheet.How, "They come out together: one press, "+act.Piece.Tag+" first.")
		}
		s.counting(&sheet, act, left, over)
		sheet.Aside = aside(act, over, fmt.Sprintf("dip %d of %d", act.Dip, max(act.Dip, act.Piece.Want())))
		if over > 0 {
			sheet.Figure.Note = fmt.Sprintf("in the vat %s, %s", widget.Since(act.Piece.Since), day.Long(v.Now.Sub(act.Piece.Since)))
			sheet.How, sheet.Answers = append(sheet.How, "w tells when it really came out."), append(sheet.Answers, "w tells when it really came out")
		}
	case act.Kind == day.ActAir, act.Kind == day.ActFinish && over == 0:
		sheet.Act = "AIR " + act.Piece.Tag
		s.counting(&sheet, act, left, over)
		sheet.Aside = aside(act, over, fmt.Sprintf("after dip %d of %d", act.Piece.Dips, max(act.Piece.Dips, act.Piece.Want())))
	case act.Kind == day.ActRest:
		sheet.Act = "REST"
		s.counting(&sheet, act, left, over)
		sheet.Aside = "till " + day.Clock(act.Due.At)
	case act.Kind == day.ActEnter:
		sheet.Act = "IN " + strings.Join(act.Tags, " ")
		sheet.Figure = widget.Figure{Number: widget.Countdown(act.Piece.DipTime().Duration()), Note: "so long in the vat"}
		sheet.Aside = aside(act, 0, fmt.Sprintf("dip %d of %d", act.Dip, max(act.Dip, act.Piece.Want())))
		if words := warmFirst(v); words != "" {
			sheet.How = append([]string{words}, sheet.How...)
		}
	case act.Kind == day.ActFinish:
		sheet.Act = "LOOK " + act.Piece.Tag
		sheet.Aside = "aired long enough: no green left?"
		sheet.Figure = widget.Figure{Number: widget.Over(over)}
		sheet.Big = false
	case act.Kind == day.ActLook:
		sheet.Act, sheet.Aside = "LOOK", "better, the same, or worse?"
		sheet.Figure, sheet.Big = widget.Figure{Number: widget.Over(over)}, false
	case act.Kind == day.ActBench:
		s.bench(&sheet, act, v)
	default:
		sheet.Big = false
	}
	if s.strip.On() {
		sheet.Figure = s.strip.Figure(v.Now)
	}
	if said := taken(st); said != "" {
		sheet.How, sheet.Why = append([]string{said, "k: it was so. w: tell when it really came out."}, sheet.How...), ""
		sheet.Answers = append(sheet.Answers, "k: it was so", "w: tell when it really came out")
	}
	if s.typing.On() {
		sheet.Body = s.typing.Lines(max(20, env.Width-8), env.Style)
	} else {
		sheet.Add(s.table(v, act, env))
	}
	switch then := day.Upcoming(st, v.Now); {
	case s.chosen != "":
		press, leave := "space: "+does(command(st, s.chosen), s.chosen), "esc: let go of "+s.chosen
		sheet.Next, sheet.Answers = press+early(v, s.chosen)+"   "+leave, append(sheet.Answers, press, leave)
	case st.Closed:
		sheet.Next, sheet.Answers = "space: home", append(sheet.Answers, "space: home")
	case then != "":
		sheet.Next = "then: " + then
	}
	return screen.WithFoot(sheet, v, env)
}

// bench is an act on a piece whose dips are over: its bath while it runs, else what goes into the next one.
func (s Screen) bench(sheet *widget.Sheet, act day.Act, v engine.View) {
	left, over := act.Left(v.Now)
	if act.Due != nil {
		sheet.Act = "OUT " + act.Piece.Tag
		s.counting(sheet, act, left, over)
		sheet.Aside = aside(act, over, v.State.BenchLine(act.Piece, v.Now, false))
		return
	}
	sheet.Big = false
	if act.Shut {
		sheet.ActTone = widget.Trouble
	} else {
		sheet.Figure.Number, sheet.Figure.Unit, sheet.Figure.Note = act.Bench.Figure(v.State.Head.Setup.System())
	}
	if act.Caution != "" {
		sheet.Caution = &widget.Caution{Text: screen.Unsourced(act.Caution), Key: "space: on"}
	}
	if act.Press == "" {
		sheet.How, sheet.Answers = append(sheet.How, "tab: the bench."), append(sheet.Answers, "tab: the bench")
	}
}

// counting is the countdown of the act, or by how much it is over.
func (s Screen) counting(sheet *widget.Sheet, act day.Act, left, over time.Duration) {
	if over > 0 {
		sheet.Figure = widget.Figure{Number: widget.Over(over), Tone: widget.Now}
		return
	}
	sheet.Figure = widget.Figure{Number: widget.Countdown(left)}
	if left <= soon {
		sheet.Figure.Tone = widget.Now
	}
}

// aside is what the piece is, which dip it is about, and till when.
func aside(act day.Act, over time.Duration, dip string) string {
	parts := []string{dip}
	if act.Piece.Spec.What != "" {
		parts = []string{act.Piece.Spec.What, dip}
	}
	if act.Due != nil && over == 0 {
		parts = append(parts, "till "+day.Clock(act.Due.At))
	}
	return strings.Join(parts, " · ")
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
	if s.typing.On() {
		return []key.Binding{bind("enter", "take it"), bind("esc", "leave it")}
	}
	act := day.Next(v.State, v.Now)
	press := act.Press
	if v.State.Closed {
		return []key.Binding{bind("space", "home"), bind("l", "the day so far")}
	}
	if s.chosen != "" {
		press = does(command(v.State, s.chosen), s.chosen)
	}
	var keys []key.Binding
	if press != "" {
		keys = append(keys, bind("space", press))
	}
	if assumed(v.State) > 0 {
		keys = append(keys, bind("k", "it was so"), bind("w", "it was at …"))
	}
	switch {
	case act.Kind == day.ActBench && act.Press == "":
		keys = append(keys, bind("tab", "the bench"))
	case act.Kind == day.ActLook:
		keys = append(keys, bind("u", "better, the same, worse"), bind("t", "strip test"))
	}
	if len(v.State.Pieces) == 0 || act.Kind == day.ActIdle {
		keys = append(keys, bind("p", "a piece"), bind("x", "close the day"))
	}
	if all := rungs(v); len(all) > 0 {
		if _, looked, ok := s.compared(v); ok && !looked {
			keys = append(keys, bind(figures(all), "like which rung"))
		}
	}
	return append(keys, bind("PgUp", "back"), bind("↑↓", "choose"), bind("n", "plan the dips"), bind("s", "swatches, ladder"), bind("+", "a minute more"), bind("r", "read "+screen.Degrees(v)), bind("p", "add a piece"),
		bind("_", "a minute less"), bind("w", "tell when it was"), bind("h", "read pH"), bind("t", "strip test"), bind("f", "finish a piece"),
		bind("z", "carry a piece over"), bind("v", "rest the vat an hour"), bind("e", screen.HeaterDoes(v)), bind("c", screen.CoverDoes(v)),
		bind("tab", "the bench, after the dips"), bind("m", "the timetable"), bind("a", "what does it want?"), bind("u", "what is wrong with it?"), bind("j", "keeping it alive"), bind("g", "the course of "+screen.Degrees(v)), bind("d", "read how full"),
		bind("i", screen.CompanyDoes(v)), bind("H", "go in hot, with sticks: why"), bind("o", "note"), bind("l", "the day so far"), bind("x", "close the day"), bind("esc", "home"))
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
