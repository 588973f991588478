// Package follow leads through the steps of a day: one step fills the screen.
package follow

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// Screen is the step that is open.
type Screen struct {
	typing screen.Field
}

func New(screen.Env) screen.Screen { return Screen{} }

// Figures tells that figures are text, and letters keys.
func (s Screen) Figures() bool { return s.typing.On() }

func (s Screen) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	v, _ := env.Day()
	if v.State.Ended {
		return s, screen.AnswerEnded(k, env)
	}
	if s.typing.On() {
		return s.typed(k, v)
	}
	act := v.Call().Act
	switch {
	case k.Done() && v.State.Closed:
		return s, []screen.Request{screen.Leave{}}
	case k.Done():
		return s, screen.Doing(screen.Press(v))
	case k.Name == "esc":
		return s, []screen.Request{screen.Leave{}}
	case k.Name == "tab":
		return s, []screen.Request{screen.Go{To: screen.AtBench, Day: env.ID}}
	}
	if c, ok := screen.Judged(k, v, act); ok {
		return s, screen.Doing(c)
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

// figures is the line that bare figures open: a scoop, or a reading.
func figures(a day.Act, v engine.View) screen.Field {
	if a.Entry == day.MassEntry {
		return screen.Field{What: "figures", Label: "This scoop", Unit: v.State.Head.Setup.System().MassUnit()}
	}
	return screen.Field{What: "figures", Label: "It reads", Unit: v.State.Head.Setup.System().DegreeUnit()}
}

// typed answers a key while figures are typed.
func (s Screen) typed(k screen.Key, v engine.View) (screen.Screen, []screen.Request) {
	if k.Name == "space" {
		k = screen.Key{Name: "enter"}
	}
	next, entered, left := s.typing.Take(k)
	s.typing = next
	switch {
	case left || !entered:
		return s, nil
	case strings.TrimSpace(s.typing.Text) == "": // an empty line would be the press
		s.typing = screen.Field{}
		return s, nil
	}
	_, _, commands, err := answer.Take(v.State, v.Now, s.typing.Text)
	if err != nil {
		s.typing.Wrong = err.Error()
		return s, nil
	}
	s.typing = screen.Field{}
	return s, screen.Doing(commands...)
}

func (s Screen) View(env screen.Env) widget.Sheet {
	v, _ := env.Day()
	if v.State.Ended {
		return screen.EndedSheet(v, env)
	}
	st := v.State
	call := v.Call()
	act, f := call.Act, day.FigureOf(st, call)
	sys := st.Head.Setup.System()
	where := wording.If(act.Kind == day.ActStep, fmt.Sprintf("step %d of %d", act.Step.No, len(st.Plan)))
	sheet := widget.Sheet{
		Head: screen.HeadOf(v, where),
		Act:  call.Large(), Why: call.Why, Foot: screen.Foot(v, env), Stage: &widget.Stage{Vessel: screen.VesselOf(st)},
		Figure: widget.Figure{Number: f.Number, Unit: f.Unit, Note: f.Note},
	}
	sheet.Stage.Vessel.Says = screen.Holds(v)
	if act.Shut {
		sheet.ActTone, sheet.HowWhole, sheet.Figure = widget.Trouble, true, widget.Figure{}
	}
	if call.How != "" && call.How != env.Word { // a refusal stands at the top already
		sheet.How = []string{screen.Unsourced(waters(act, sys))}
	}
	left, over := act.Left(v.Now)
	switch {
	case act.Due != nil && max(left, over) >= 48*time.Hour:
		sheet.Figure = inDays(left, over, act.Due.At)
	case over > 0:
		sheet.Figure = widget.Figure{Number: widget.Over(over), Counts: "OVER", Note: "over since " + day.DateOf(act.Due.At, v.Now), Tone: widget.Now}
	case act.Due != nil:
		sheet.Figure = widget.Figure{Number: widget.Countdown(left), Counts: "LEFT", Note: "till " + day.DateOf(act.Due.At, v.Now)}
		if act.Due.Kind == day.DueTurn {
			sheet.Figure.Note = "then: stir the other way"
		}
		sheet.Figure.Note = strings.Join(wording.Filled(sheet.Figure.Note, v.Second()), " · ")
	}
	if act.Kind == day.ActLift { // goods are in while a step is open
		sheet.How = append([]string{wording.Upper(strings.Join(call.Facts(v.Now), ", ")) + "."}, sheet.How...)
	}
	weighs := act.Step.Do == recipe.Weigh && st.Weighed(act.Step.No) != 0 && !act.Shut
	if weighs { // the figure says how far it is
		sheet.How = wording.Filled(act.Step.How)
	}
	if !act.Judging() { // its answers have the room
		sheet.How = append(wording.Filled(call.Sentence()), sheet.How...)
	}
	if out, on := st.Watched(v.Now); on && act.Kind == day.ActStrip {
		sheet.Figure = screen.StripFigure(v)
	} else if on { // the call stays what it is
		sheet.How = append([]string{fmt.Sprintf("The strip is yellow, %s: t when it turns blue.", widget.Countdown(out))}, sheet.How...)
		sheet.Answers = append(sheet.Answers, "t when it turns blue")
	}
	if act.Judging() && act.Kind == day.ActStep {
		sheet.How = append(sheet.How, "y ready, n not yet.")
		sheet.Why = wording.Joined(" ", call.Sentence(), sheet.Why)
		if !s.typing.On() {
			sheet.Answers = append(sheet.Answers, screen.AnswersOf(v)...)
		}
	}
	if act.Kind == day.ActAsk {
		sheet.HowWhole = true
		for i, c := range st.Choices() {
			sheet.Answers = append(sheet.Answers, fmt.Sprint(i+1, " ", c.Words))
		}
	}
	if call.Caution != "" {
		sheet.Caution = &widget.Caution{Text: screen.Unsourced(call.Caution), Key: "space: on"}
	}
	switch note := s.note(env, sheet); {
	case note != "":
		note += wording.If(weighs, ", "+sheet.Figure.Note)
		sheet.Figure.Note = note
	case s.typing.On():
		sheet.Body = s.typing.Lines(env)
	}
	if then := v.Upcoming(); st.Closed {
		sheet.Next, sheet.Answers = "enter: home", []string{"enter: home"}
	} else if then != "" {
		sheet.Next = "then: " + then
	}
	return sheet
}

// note is a reading or a scoop while it is typed, for the place of the figure's note, so that nothing jumps; empty where
// there is no figure, and where there is something wrong to be said.
func (s Screen) note(env screen.Env, sheet widget.Sheet) string {
	t := s.typing
	if !t.On() || t.Wrong != "" || sheet.Figure.Number == "" {
		return ""
	}
	label := strings.ToLower(t.Label)
	return label + " " + t.Text + env.Style.Glyphs.Lower + " " + t.Unit
}

// waters is how the act is done; what the figure already says of cold and hot is left out.
func waters(act day.Act, sys quantity.System) string {
	said := fmt.Sprintf("First %s cold, then %s hot", act.Step.Cold.Format(sys), act.Step.Hot.Format(sys))
	rest, found := strings.CutPrefix(act.How, said)
	if rest = strings.TrimLeft(rest, ",. "); !found || rest == "" {
		return act.How
	}
	return wording.Upper(rest)
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

func (s Screen) Keys(env screen.Env) []widget.Key {
	v, _ := env.Day()
	if v.State.Ended {
		return screen.EndedKeys()
	}
	bind := screen.Bound
	if s.typing.On() {
		return screen.Keys("enter", "take it", "esc", "leave it")
	}
	if v.State.Closed {
		return append(screen.Keys("enter", "home"), screen.RowKeys(v, "log")...)
	}
	call := v.Call()
	act := call.Act
	keys := screen.Keys("space", call.Press)
	switch {
	case act.Shut:
		keys = append(keys, screen.RowKeys(v, "company")...)
	case act.Kind == day.ActAsk:
		return append(keys, bind("1–"+fmt.Sprint(len(v.State.Choices())), "answer"))
	case act.Step.Judges() && act.Press == "not yet": // the strip said so: the other answer is the one with a key of its own
		keys = append(keys, screen.RowKeys(v, "ready", "strip")...)
	case act.Step.Judges():
		keys = append(keys, screen.RowKeys(v, "not yet", "strip")...)
	case act.Step.Do == day.DoSpent:
		keys = append(keys, screen.RowKeys(v, "strip", "not yet")...)
	case act.Step.Do == day.DoAcid && act.Caution == "":
		keys = append(keys, screen.RowKeys(v, "ph")...)
	case act.Step.Do == day.DoEnd && act.Caution == "":
		keys = append(keys, screen.RowKeys(v, "went")...)
	case act.Entry == day.MassEntry && act.Caution == "":
		keys = append(keys, bind("0–9", "weight"))
	case act.Entry == day.TempEntry && act.Caution == "":
		keys = append(keys, bind("0–9", v.State.Head.Setup.System().DegreeUnit()))
		keys = append(keys, screen.RowKeys(v, wording.If(act.Step.Do == recipe.Fill, "level"))...)
	case act.Step.Do == recipe.Wait && !v.State.Head.Setup.Ending:
		keys = append(keys, screen.RowKeys(v, "ready", "piece")...)
	}
	bench := screen.Keys("tab", wording.If(len(v.State.OnBench()) > 0, "the bench, after the dips"))
	return slices.Concat(keys, bench, screen.RowKeys(v, "back", "skip", "temp"))
}
