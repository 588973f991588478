package dose

import (
	"math"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// View draws the advice: one thing to do and its figure. A strip that is watched, or a reading that is typed, has the
// screen to itself but for a caution.
func (s Screen) View(env screen.Env) widget.Sheet {
	v, _ := env.Day()
	a := advise(v, env)
	sheet := widget.Sheet{Head: screen.HeadOf(v, "what it needs"), Foot: screen.Foot(v, env)}
	if screen.Watched(env) {
		sheet.Act, sheet.Figure, sheet.Big = "BLUE YET?", screen.StripFigure(v), true
		return sheet
	}
	sheet.Act, sheet.Figure = strings.TrimSuffix(wording.Upper(screen.Unsourced(a.Sentence)), "."), figure(v, a)
	lines := append([]string{a.How}, a.Warnings...)
	if env.Height >= widget.LowestYard {
		lines = append([]string{a.Sentence}, lines...)
		sheet.Act, sheet.Stage = large(a), &widget.Stage{Vessel: screen.VesselOf(v.State)}
		sheet.Stage.Vessel.Says = screen.Holds(v)
		sheet.BodyTop = sheet.Figure.Number == "" // the words stand in its place
	}
	if a.Do == liquor.DoStop {
		sheet.ActTone = widget.Trouble
	}
	if words := screen.Unsourced(screen.Cautions(v, act(v, a), a.Cautions)); words != "" && s.to != a.Sentence {
		sheet.Caution = &widget.Caution{Text: words}
		if gives(v, a) {
			sheet.Caution.Key = "enter: on"
		}
	}
	sheet.How = wording.Filled(wording.Each(lines, screen.Sentence)...)
	sheet.Why, sheet.Next = screen.Sentence(a.Why), then(v, a)
	return sheet
}

// large is the advice for large letters; its sentence stands under it.
func large(a liquor.Advice) string {
	switch {
	case a.Mass > 0:
		return "ADD " + strings.ToUpper(a.Do)
	case a.Do == liquor.DoWait && a.To != nil:
		return "LET IT COOL"
	case a.Do == liquor.DoNothing:
		return "ADD NOTHING"
	}
	return strings.ToUpper(a.Do)
}

// figure is the mass, the °C to come to, or how long to wait.
func figure(v engine.View, a liquor.Advice) widget.Figure {
	sys := v.State.Head.Setup.System()
	switch {
	case a.Mass > 0:
		number, unit := a.Mass.Figure(sys)
		return widget.Figure{Number: number, Unit: unit}
	case a.To != nil:
		number, unit := a.To.Figure(sys)
		return widget.Figure{Number: number, Unit: unit}
	case a.Do != liquor.DoWait || a.Wait <= 0 || building(a):
		return widget.Figure{}
	}
	wait := a.Wait.Duration()
	if minutes := math.Ceil(wait.Minutes()); minutes < 120 {
		return widget.Figure{Number: strconv.Itoa(int(minutes)), Unit: "min"}
	}
	f := widget.Figure{Number: strconv.Itoa(int(math.Ceil(wait.Hours()))), Unit: "h"}
	if end := v.Now.Add(wait); end.YearDay() != v.Now.YearDay() {
		f.Note = "till " + end.Format("Mon 2 Jan, 15:04")
	}
	return f
}

// building tells whether the recheck comes in the recipe's own time, not after the advice's wait.
func building(a liquor.Advice) bool { return strings.HasPrefix(a.Recheck, "after ") }

// then is what comes after: the wait and the recheck, and what to look at then.
func then(v engine.View, a liquor.Advice) string {
	if a.Recheck == "" {
		return ""
	}
	text := "then: "
	if a.Wait > 0 && a.Do != liquor.DoNothing && !building(a) && figure(v, a).Unit != "min" && figure(v, a).Unit != "h" {
		text += "wait " + quantity.Span(a.Wait.Duration().Round(time.Minute)).String() + ", "
	}
	text += screen.Unsourced(strings.TrimPrefix(a.Recheck, "then "))
	text += wording.If(a.Next != "" && a.Next != a.Powder, "; alkali may be next")
	return text
}
