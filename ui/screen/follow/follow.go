// Package follow leads through the steps of a day: one step fills the screen.
package follow

import (
	"fmt"
	"strings"
	"time"

	"github.com/charmbracelet/bubbles/key"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// Screen is the step that is open.
type Screen struct {
	typing screen.Typing
	strip  screen.Strip
}

// New is the screen with nothing typed.
func New(screen.Env) screen.Screen { return Screen{} }

// Capturing tells that letters are text.
func (s Screen) Capturing() bool { return s.typing.On() && s.typing.What != "figures" }

// Figures tells that figures are text, and letters keys.
func (s Screen) Figures() bool { return s.typing.What == "figures" }

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
	act := day.Next(v.State, v.Now)
	do := func(c day.Command) (screen.Screen, []screen.Request) {
		return s, []screen.Request{screen.Do{Command: c}}
	}
	switch {
	case k.Done() && v.State.Closed:
		return s, []screen.Request{screen.Leave{}}
	case k.Done():
		return do(screen.Press(v))
	case k.Name == "pgup" || k.Rune == 'b':
		return do(day.Back{})
	case k.Name == "esc":
		return s, []screen.Request{screen.Leave{}}
	case k.Name == "tab":
		return s, []screen.Request{screen.Go{To: screen.AtBench, Day: env.ID}}
	}
	switch k.Rune {
	case 'y':
		return do(day.Judge{Ready: true})
	case 'n':
		return do(day.Judge{Ready: false})
	case 't':
		if act.Step.Do == day.DoSpent { // one that shows no yellow cannot be timed
			s.typing = screen.Typing{What: "yellow", Label: "How long was the strip yellow? 0: not at all", Unit: "s"}
			return s, nil
		}
		var wants []screen.Request
		s.strip, wants = s.strip.Press(v.Now)
		return s, wants
	case 's':
		if !v.State.MayLeaveOut() {
			return do(day.Skip{})
		}
		s.typing = screen.Typing{What: "skip", Label: "Leave the step out: why?"}
	case 'r':
		s.typing = readTemp(v)
	case 'h':
		s.typing = screen.AskPH(v)
	case 'd':
		s.typing = screen.Level(v)
	case 'a':
		return s, []screen.Request{screen.Go{To: screen.AtDose, Day: env.ID}}
	case 'g':
		return s, []screen.Request{screen.Go{To: screen.AtCourse, Day: env.ID}}
	case 'e':
		return do(screen.Heater(v))
	case 'p':
		return s, []screen.Request{screen.Go{To: screen.AtPiece, Day: env.ID}}
	case 'l':
		return s, []screen.Request{screen.Go{To: screen.AtLog, Day: env.ID}}
	case 'c':
		return do(screen.Cover(v))
	case 'k':
		return do(day.Record{Body: day.Stirred{}})
	case 'u':
		return s, []screen.Request{screen.Go{To: screen.AtSigns, Day: env.ID}}
	case 'j':
		return s, []screen.Request{screen.Go{To: screen.AtCare, Day: env.ID}}
	case 'i':
		return do(screen.Company(v))
	case 'w':
		if c := screen.Draught(v); c != nil {
			return do(c)
		}
		return s, []screen.Request{screen.Say{Word: "it stands " + v.State.Place() + " already"}}
	case 'o':
		if act.Step.Do == day.DoEnd {
			s.typing = screen.Typing{What: "route", Label: "Where did it go?", Unit: "by the local authority's word"}
		}
	case 'x':
		s.typing = screen.Typing{What: "close", Label: "Close the day? Enter closes it, Esc does not", Unit: "why, if you like"}
	case '+', '=':
		return s.shift(act, time.Minute)
	case '_':
		return s.shift(act, -time.Minute)
	}
	figure := k.Rune >= '0' && k.Rune <= '9' || k.Rune == '-' || k.Rune == '.'
	if figure && act.Caution != "" {
		return s, []screen.Request{screen.Say{Word: "the caution first: space"}}
	}
	if figure && act.Entry != day.NoEntry {
		s.typing = figures(act, v)
		s.typing.Text = string(k.Rune)
	}
	return s, nil
}

func readTemp(v engine.View) screen.Typing {
	return screen.Typing{What: "temp", Label: "The vat reads", Unit: screen.Degrees(v)}
}

// figures is the line that bare figures open: a scoop, or a reading.
func figures(a day.Act, v engine.View) screen.Typing {
	if a.Entry == day.MassEntry {
		unit := "g"
		if v.State.Head.Setup.System() != quantity.Metric {
			unit = "oz"
		}
		return screen.Typing{What: "figures", Label: "This scoop", Unit: unit}
	}
	return screen.Typing{What: "figures", Label: "It reads", Unit: screen.Degrees(v)}
}

// shift gives the running time a minute, or takes one.
func (s Screen) shift(a day.Act, by time.Duration) (screen.Screen, []screen.Request) {
	if a.Due == nil {
		return s, []screen.Request{screen.Say{Word: "no time is running"}}
	}
	return s, []screen.Request{screen.Do{Command: day.Stretch{Timer: a.Due.Timer, By: quantity.Span(by)}}}
}

// typed answers a key while a line is typed.
func (s Screen) typed(k screen.Key, v engine.View) (screen.Screen, []screen.Request) {
	if s.typing.What == "figures" && k.Name == "space" {
		k = screen.Key{Name: "enter"}
	}
	next, entered, left := s.typing.Take(k)
	s.typing = next
	if left || !entered {
		return s, nil
	}
	sys := v.State.Head.Setup.System()
	var c day.Command
	var err error
	switch s.typing.What {
	case "close":
		c = day.Answered{Command: day.Close{Why: strings.TrimSpace(s.typing.Text)}} // the line asked
	case "skip":
		c = day.Skip{Reason: s.typing.Text}
	case "route":
		c = day.Record{Body: day.VatEnded{Why: "used up", Route: strings.TrimSpace(s.typing.Text)}}
	case "yellow":
		var stayed quantity.Span
		stayed, err = s.typing.Seconds()
		c = day.Record{Body: day.StripTest{Stayed: stayed}}
	case "ph":
		var r day.Reading
		r, err = s.typing.PHReading(sys)
		c = day.Record{Body: r}
	case "level":
		c, err = s.typing.Level(v)
	case "figures":
		act := day.Next(v.State, v.Now)
		if act.Entry == day.MassEntry {
			var m quantity.Mass
			m, err = s.typing.Mass(sys)
			c = day.PutScoop{Mass: m}
			break
		}
		fallthrough
	default:
		var t quantity.Temperature
		t, err = s.typing.Temp(sys)
		of := ""
		if st, open := v.State.Open(); open && st.Into == recipe.IntoStock {
			of = "stock"
		}
		c = day.Record{Body: day.Reading{Temp: &t, Of: of}}
	}
	if err != nil {
		s.typing.Wrong = err.Error()
		return s, nil
	}
	s.typing = screen.Typing{}
	return s, []screen.Request{screen.Do{Command: c}}
}

// View draws the step.
func (s Screen) View(env screen.Env) widget.Sheet {
	v, ok := env.Day()
	if !ok {
		return widget.Sheet{Act: "This day is not open"}
	}
	if v.State.Ended {
		return screen.EndedSheet(v, env)
	}
	st := v.State
	act := day.Next(st, v.Now)
	sys := st.Head.Setup.System()
	liquor := screen.LiquorOf(st)
	where := ""
	if !st.Closed {
		where = fmt.Sprintf("step %d of %d", act.Step.No, len(st.Plan))
	}
	sheet := widget.Sheet{
		Head: screen.HeadOf(v, where),
		Act:  act.Words, Why: act.Why, Liquor: liquor, Edge: liquor,
	}
	if act.How != "" && act.How != env.Word { // a refusal stands at the top already
		sheet.How = []string{waters(act, sys)}
	}
	sheet.Figure = figure(act, sys)
	if f, ok := st.Filling(); ok && f.Have > 0 { // by what was read; nothing more is a figure too
		sheet.Figure = poured(act.Step, sys)
	}
	left, over := act.Left(v.Now)
	switch {
	case act.Due != nil && max(left, over) >= 48*time.Hour:
		sheet.Figure = inDays(left, over, act.Due.At)
	case act.Due != nil && over > 0:
		sheet.Figure = widget.Figure{Number: widget.Over(over), Note: "over " + widget.Since(act.Due.At), Tone: widget.Now}
		sheet.Big = true
	case act.Due != nil:
		sheet.Figure = widget.Figure{Number: widget.Countdown(left), Note: "till " + day.Clock(act.Due.At)}
		sheet.Big = true
		if act.Due.Kind == day.DueTurn {
			sheet.Figure.Note = "then the other way"
		}
	}
	if on := st.OnScale(act.Step); act.Step.Do == recipe.Weigh && on != "" {
		sheet.Figure.Note = on
		sheet.How = nil
		if act.Step.How != "" {
			sheet.How = []string{act.Step.How}
		}
	}
	if s.strip.On() {
		sheet.Figure = s.strip.Figure(v.Now)
		sheet.Big = true
	}
	if act.Step.Judges() && act.Due == nil && !s.strip.On() {
		sheet.How = append(sheet.How, "y ready, n not yet; t times a strip.")
		if !s.typing.On() {
			sheet.Answers = []string{"y ready", "n not yet", "t times a strip"}
		}
	}
	if act.Caution != "" {
		sheet.Caution = &widget.Caution{Text: act.Caution, Key: "space: on"}
	}
	switch note := s.note(env, sheet); {
	case note != "":
		if on := st.OnScale(act.Step); on != "" {
			note += ", " + on
		}
		sheet.Figure.Note = note
	case s.typing.On():
		sheet.Body = s.typing.Lines(max(20, env.Width-8), env.Style)
	}
	if then := day.Upcoming(st, v.Now); st.Closed {
		sheet.Next, sheet.Answers = "space: home", []string{"space: home"}
	} else if then != "" {
		sheet.Next = "then: " + then
	}
	return screen.Afar(screen.WithFoot(sheet, v, env), env)
}

// note is a reading or a scoop while it is typed, for the place of the figure's note, so that nothing jumps; empty where
// there is no figure, where the text may be long, and where there is something wrong to be said.
func (s Screen) note(env screen.Env, sheet widget.Sheet) string {
	t := s.typing
	if !t.On() || t.Wrong != "" || t.What == "close" || t.What == "skip" || t.What == "route" || sheet.Figure.Number == "" {
		return ""
	}
	label := strings.ToLower(t.Label)
	switch t.What {
	case "ph":
		label = t.Label
	case "level":
		if strings.HasPrefix(label, "from the rim") {
			label = "rim to liquor" // one line in the narrowest window
		}
	}
	return label + " " + t.Text + env.Style.Glyphs.Lower + " " + t.Unit
}

// figure is the number of the step. A gate shows its limit, a filling both its waters, as they are poured.
func figure(act day.Act, sys quantity.System) widget.Figure {
	st := act.Step
	number, unit := st.Figure(sys)
	f := widget.Figure{Number: number, Unit: unit}
	switch gate := act.Caution == "" && act.Press == "" && act.Entry == day.TempEntry; {
	case gate && st.AtMost != nil:
		f.Number, f.Unit = st.AtMost.Figure(sys)
		f.Note = "at most, then the step can begin"
	case gate && st.AtLeast != nil:
		f.Number, f.Unit = st.AtLeast.Figure(sys)
		f.Note = "at least, then the step can begin"
	case st.Do == recipe.Fill && st.Hot+st.Cold > 0:
		return poured(st, sys)
	case st.Do == day.DoAcid && number != "":
		f.Note = "one lot of " + st.Material
	}
	return f
}

// leastPour is what is not worth a jug.
const leastPour = quantity.Volume(0.2)

// poured is what is still to pour of cold and hot, as a sum where both are.
func poured(st day.Step, sys quantity.System) widget.Figure {
	cold, coldUnit := st.Cold.Figure(sys)
	hot, hotUnit := st.Hot.Figure(sys)
	f := widget.Figure{Number: hot, Unit: hotUnit, Note: "hot"}
	switch {
	case st.Cold < leastPour && st.Hot < leastPour:
		return widget.Figure{Note: "nothing more to pour"}
	case st.Hot < leastPour:
		f = widget.Figure{Number: cold, Unit: coldUnit, Note: "cold"}
	case st.Cold < leastPour:
	case coldUnit == hotUnit:
		f = widget.Figure{Number: cold + " + " + hot, Unit: hotUnit, Note: "cold first, then hot"}
	default:
		f.Note = "hot, after " + st.Cold.Format(sys) + " cold"
	}
	if st.To != nil {
		f.Note += ": " + st.To.Format(sys) + " when stirred"
	}
	return f
}

// waters is how the act is done; what the figure already says of cold and hot is left out.
func waters(act day.Act, sys quantity.System) string {
	said := fmt.Sprintf("First %s cold, then %s hot", act.Step.Cold.Format(sys), act.Step.Hot.Format(sys))
	rest, found := strings.CutPrefix(act.How, said)
	if rest = strings.TrimLeft(rest, ",. "); !found || rest == "" {
		return act.How
	}
	return strings.ToUpper(rest[:1]) + rest[1:]
}

// inDays is a time that is too long for a countdown: a ferment's wait, or a vat that was left alone.
func inDays(left, over time.Duration, at time.Time) widget.Figure {
	days := func(d time.Duration) string { return fmt.Sprint(int(d / (24 * time.Hour))) }
	when := at.Format("Mon 2 Jan, 15:04")
	if over > 0 {
		return widget.Figure{Number: days(over), Unit: "days", Note: "over since " + when, Tone: widget.Now}
	}
	rest := int(left % (24 * time.Hour) / time.Hour)
	return widget.Figure{Number: days(left), Unit: "days", Note: fmt.Sprintf("and %d h, till %s", rest, when)}
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
	bind := screen.Bound
	if s.typing.On() {
		return []key.Binding{bind("enter", "take it"), bind("esc", "leave it")}
	}
	if v.State.Closed {
		return []key.Binding{bind("space", "home"), bind("l", "the day so far")}
	}
	act := day.Next(v.State, v.Now)
	var keys []key.Binding
	if act.Press != "" {
		keys = append(keys, bind("space", act.Press))
	}
	switch {
	case act.Step.Judges():
		keys = append(keys, bind("n", "not yet"), bind("t", "strip"))
	case act.Step.Do == day.DoSpent:
		keys = append(keys, bind("t", "strip"), bind("n", "not yet"))
	case act.Step.Do == day.DoAcid && act.Caution == "":
		keys = append(keys, bind("h", "read pH"))
	case act.Step.Do == day.DoEnd && act.Caution == "":
		keys = append(keys, bind("o", "where it went"))
	case act.Entry == day.MassEntry && act.Caution == "":
		keys = append(keys, bind("0–9", "weight"))
	case act.Entry == day.TempEntry && act.Caution == "":
		keys = append(keys, bind("0–9", screen.Degrees(v)))
		if act.Step.Do == recipe.Fill {
			keys = append(keys, bind("d", "how full"))
		}
	case act.Step.Do == recipe.Wait && !v.State.Head.Setup.Ending:
		keys = append(keys, bind("y", "ready already"), bind("p", "a piece"))
	}
	if len(v.State.OnBench()) > 0 {
		keys = append(keys, bind("tab", "the bench, after the dips"))
	}
	keys = append(keys, bind("PgUp", "back"))
	if v.State.MayLeaveOut() {
		keys = append(keys, bind("s", "leave out"))
	}
	return append(keys, bind("r", "read "+screen.Degrees(v)), bind("h", "read pH"), bind("d", "read how full"), bind("t", "strip test"),
		bind("a", "what does it want?"), bind("u", "what is wrong with it?"), bind("j", "keeping it alive"), bind("g", "the course of "+screen.Degrees(v)), bind("e", screen.HeaterDoes(v)), bind("y", "ready"), bind("p", "add a piece"), bind("k", "stirred"), bind("i", screen.CompanyDoes(v)), bind("w", "a draught is made"), bind("c", screen.CoverDoes(v)), bind("+", "a minute more"), bind("_", "a minute less"),
		bind("l", "the day so far"), bind("x", "close the day"), bind("esc", "home"))
}
