package signs

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

func (s Screen) View(env screen.Env) widget.Sheet {
	v, _ := env.Day()
	sheet := widget.Sheet{Head: screen.HeadOf(v, "signs"), Foot: screen.Foot(v, env), Halved: v.State.Treating == nil && !screen.Watched(env)}
	if !sheet.Halved && env.Height >= widget.LowestYard { // a time runs: it stands as on the day itself
		sheet.Stage = &widget.Stage{Vessel: screen.VesselOf(v.State)}
	}
	sheet.ActBig = sheet.Halved
	switch {
	case screen.Watched(env):
		sheet.Act, sheet.Figure, sheet.Big = "Watch the strip", screen.StripFigure(v), true
	case v.State.Treating != nil:
		again(&sheet, v)
	case s.page == choosing:
		s.choosing(&sheet, env)
	case s.page == answering:
		s.answering(&sheet, v, env)
	default:
		s.asking(&sheet, v, env)
	}
	if s.page != answering && sheet.Halved {
		sheet.Side = s.leads(v, env)
	}
	return sheet
}

// roomy is how many rows a window has that shows all places to look and says what comes next.
const roomy = 24

// asking is the list of where to look, with what was seen.
func (s Screen) asking(sheet *widget.Sheet, v engine.View, env screen.Env) {
	sheet.Act, sheet.HowTop = "What is seen?", true
	sheet.How = []string{"Say all that you see; Enter tells what it may be."}
	var list []widget.Choice
	for i, g := range answer.Looked {
		list = append(list, widget.Choice{Text: strconv.Itoa(i+1) + "  " + g.Name, Aside: s.said(i)})
	}
	list = append(list, widget.Choice{Text: strconv.Itoa(len(answer.Looked)+1) + "  strip", Aside: stripSaid(v)})
	if env.Height >= roomy { // else the list is worth more
		sheet.Next = "then: the likeliest cause, and one thing to do"
	}
	lines(list, sheet, env)
}

// leads is what that which is seen leads to, for the right half of a wide window: what to do in large letters or words, and what it
// may be.
func (s Screen) leads(v engine.View, env screen.Env) []string {
	_, columns, halved := widget.Halves(env.Width)
	if !halved {
		return nil
	}
	st, causes := env.Style, s.causes(v, env)
	c, f := causes[0], figure(v, causes[0])
	out := []string{st.Dim.Render("as it looks now"), ""}
	say := func(ink style.Ink, text string) { out = append(out, widget.Words(text, columns, ink, st.Glyphs)...) }
	if f.Number != "" {
		big := widget.Big(strings.TrimSpace(f.Number+" "+f.Unit), columns, env.Height/6, st.Glyphs)
		out = append(append(out, st.Digits.Lines(big)...), "")
	}
	say(st.Act, screen.Sentence(c.Do))
	if !c.Barred {
		say(st.Text, wording.Upper(c.Rank.String())+": "+screen.Unsourced(c.Name)+".")
	}
	for _, line := range []string{c.How, c.Contradicts, c.Why} {
		say(st.Dim, screen.Sentence(line))
	}
	for i, other := range causes[1:] {
		if i == 0 {
			out = append(out, "")
		}
		say(st.Text, other.Rank.String()+": "+screen.Unsourced(other.Name))
	}
	return out
}

// said is what was seen of a group.
func (s Screen) said(group int) string {
	return strings.Join(wording.Some(choices(group), func(c signs.Sign) (string, bool) { return c.Words, slices.Contains(s.seen, c.ID) }), ", ")
}

// stripSaid is the last strip that still speaks for the vat.
func stripSaid(v engine.View) string {
	seen, _ := outlook.Asked(v.State, screen.Outlook(v), v.Now, nil)
	if seen.Strip == nil {
		return "time one: it says more than the eye"
	}
	return seen.Strip.String() + ", pulled at " + day.DateOf(v.State.Vat.StripAt, v.Now)
}

// choosing is the signs of one group.
func (s Screen) choosing(sheet *widget.Sheet, env screen.Env) {
	sheet.Act, sheet.HowTop, sheet.How = wording.Upper(answer.Looked[s.group].Name), true, []string{answer.Looked[s.group].Asks}
	var list []widget.Choice
	for i, c := range choices(s.group) {
		aside := wording.If(slices.Contains(s.seen, c.ID), "seen")
		choice := widget.Choice{Text: strconv.Itoa((i+1)%10) + "  " + c.Words, Aside: aside}
		if shade, ok := screen.SeenAs(c.ID); ok {
			choice.Colour = &shade
		}
		list = append(list, choice)
	}
	lines(list, sheet, env)
}

// airBeside is how many rows of air a list may have: those over the foot and the keys.
const airBeside = 2

// lines puts choices onto the sheet of which none is the present one: each has its own key. Where they do not all fit the second row of
// the liquor in words gives way, then the large letters over them, then all of those words.
func lines(list []widget.Choice, sheet *widget.Sheet, env screen.Env) {
	room := func() (columns, rows int) { return widget.Room(*sheet, env.Width, env.Height, env.Style) }
	n := len(list)
	columns, rows := room()
	if rows < n {
		sheet.Foot = sheet.Foot[:min(1, len(sheet.Foot))]
		columns, rows = room()
	}
	switch {
	case sheet.ActBig && rows+airBeside >= n: // air gives way first
		rows = max(rows, n)
	case sheet.ActBig:
		sheet.ActBig = false
		if columns, rows = room(); rows < n {
			sheet.Foot = nil
			columns, rows = room()
		}
	}
	sheet.Add(widget.Listed(list, columns, max(rows, 2), env.Style))
}

// answering is the likeliest cause and the one thing to do; the others below it.
func (s Screen) answering(sheet *widget.Sheet, v engine.View, env screen.Env) {
	causes := s.causes(v, env)
	c := causes[0]
	sheet.Act, sheet.Figure = wording.Upper(screen.Unsourced(c.Do)), figure(v, c)
	if end := strings.IndexAny(sheet.Act, ";,:"); end > 0 && sheet.Figure.Number == "" && env.Height >= widget.LowestYard { // in large letters
		sheet.How = []string{sheet.Act + "."}
		sheet.Act = sheet.Act[:end]
	}
	if c.Act == signs.Stop || c.Refused {
		sheet.ActTone = widget.Trouble
	}
	if words := caution(v, c); words != "" && s.to != c.Do {
		if slices.Contains(v.State.Given, words) { // in full the first time of the day
			words, _, _ = strings.Cut(words, ";")
		}
		sheet.Caution = &widget.Caution{Text: words, Key: "enter: on"}
	}
	worked := s.worked(v, env)
	sheet.How = append(sheet.How, wording.Filled(
		screen.Sentence(c.Before),
		screen.Sentence(wording.If(worked != "", "worked here: "+worked)),
		wording.If(!c.Barred, wording.Upper(c.Rank.String())+": "+screen.Unsourced(c.Name)+"."),
		screen.Sentence(c.How),
		screen.Sentence(c.Contradicts))...)
	sheet.Why = screen.Sentence(c.Why)
	list := wording.Each(causes[1:], func(c signs.Cause) widget.Choice {
		return widget.Choice{Text: c.Rank.String(), Aside: screen.Unsourced(c.Name)}
	})
	if len(list) > 0 {
		columns, rows := widget.Room(*sheet, env.Width, env.Height, env.Style)
		sheet.Body = widget.Listed(list, columns, max(rows, 2), env.Style).Lines
	}
	switch {
	case c.Barred:
	case c.Wait > 0:
		sheet.Next = "then: leave it " + c.Wait.String() + ", " + screen.Unsourced(c.Recheck)
	case c.Recheck != "":
		sheet.Next = "then: " + screen.Unsourced(c.Recheck)
	}
}

// again is the wait of a treatment, and then the look whether it did.
func again(sheet *widget.Sheet, v engine.View) {
	t := v.State.Treating
	left, over := t.Until.Sub(v.Now), v.Now.Sub(t.Until)
	for _, d := range v.Dues() {
		if d.Kind == day.DueRecheck && d.Step == 0 {
			left, over = d.At.Sub(v.Now), v.Now.Sub(d.At)
		}
	}
	sheet.Act, sheet.Big = "LET IT WORK", true
	sheet.How = []string{wording.Upper(screen.Unsourced(t.Do)) + ", since " + day.DateOf(t.Since, v.Now) + ".", "Lid on, no hands in it."}
	sheet.Figure = widget.Figure{Number: widget.Countdown(left), Note: "then: pull a strip and look again"}
	if over >= 0 {
		sheet.Act, sheet.Big, sheet.BodyTop = "LOOK AGAIN", false, sheet.Stage != nil
		sheet.Figure = widget.Figure{}
		sheet.How = []string{wording.Upper(screen.Unsourced(t.Do)) + ", since " + day.DateOf(t.Since, v.Now) + ".", "Better, the same, or worse?", "t times a strip; then 1 better, 2 the same, 3 worse."}
		sheet.Answers = []string{"t times a strip", "1 better", "2 the same", "3 worse"}
	}
	if a := outlook.Answer(v.State); a != signs.NotSaid {
		sheet.Next = "by the strips it is " + a.String() + ": enter says so"
		sheet.Answers = append(sheet.Answers, "enter says so")
	}
}

// figure is the mass of the first powder, the °C to come to, or the wait.
func figure(v engine.View, c signs.Cause) widget.Figure {
	sys := v.State.Head.Setup.System()
	switch {
	case len(c.Doses) > 0:
		number, unit := c.Doses[0].Mass.Figure(sys)
		f := widget.Figure{Number: number, Unit: unit}
		if p, ok := v.State.Head.Recipe.Powder(c.Doses[0].Powder); ok {
			f.Note = p.Material
		}
		for _, d := range c.Doses[1:] {
			if p, ok := v.State.Head.Recipe.Powder(d.Powder); ok {
				f.Note += ", and " + d.Mass.Format(sys) + " of " + p.Material
			}
		}
		return f
	case c.To != nil:
		number, unit := c.To.Figure(sys)
		return widget.Figure{Number: number, Unit: unit}
	case c.Wait > 0 && c.Wait <= quantity.Minutes(90):
		return widget.Figure{Number: strconv.Itoa(int(math.Ceil(c.Wait.Minutes()))), Unit: "min"}
	}
	return widget.Figure{}
}

// caution is all that stands before the act.
func caution(v engine.View, c signs.Cause) string {
	if !answer.Treated(c) || v.State.Closed {
		return screen.Cautions(v, nil, c.Cautions)
	}
	return screen.Cautions(v, outlook.Treatment(c), c.Cautions)
}
