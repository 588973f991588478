package stock

import (
	"fmt"
	"strings"
	"unicode/utf8"

	model "example.org/vatside/model/stock"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

func (s shelf) View(env screen.Env) widget.Sheet {
	sheet := widget.Sheet{
		Head:   widget.Head{Left: "powders", Right: env.Now.Format("15:04")},
		Banner: env.Home.Stock.Trouble,
	}
	switch {
	case s.adding != nil:
		sheet.Head.Left += " · a new tin"
		s.adding.view(&sheet, env)
		return sheet
	case s.trial != nil:
		sheet.Head.Left += " · " + s.trial.tin
		s.trial.view(&sheet, env)
		return sheet
	}
	t, ok := s.chosen(env)
	act := nextTask(env)
	sheet.Act = act.Sentence
	if act.Due == model.Danger || act.Due == model.ToHandIn {
		sheet.ActTone = widget.Trouble
	}
	if !ok {
		sheet.ActBig = true
		sheet.How = []string{"n: its powder, what is in it, what it cost, when it was opened.", "Then every dose in the vats' books is drawn from it, and you see what is short before a vat is built."}
		sheet.Foot = []string{"nothing on the list yet"}
		return sheet
	}
	sheet.Foot = []string{wording.Counted(len(env.Home.Stock.Tins), "tin") + " on the shelf"}
	if s.typing.On() {
		sheet.Act, sheet.ActTone = asks(s.typing.What, t), widget.Plain
		sheet.Body = s.typing.Lines(env)
		if s.typing.What == drops && t.Fitness() != model.Sealed && t.Fitness() != model.Open {
			sheet.Caution = &widget.Caution{Text: t.Cautions(env.Present(), env.System())[0]}
		}
		return sheet
	}
	number, unit := t.Left.Figure(env.System())
	sheet.Figure = widget.Figure{Number: number, Unit: unit, Note: note(t, env)}
	words := t.Cautions(env.Present(), env.System())
	if t.Fitness() == model.Unfit || t.Fitness() == model.Failed {
		sheet.Caution = &widget.Caution{Text: t.ID + ": " + words[0]}
		words = words[1:]
	}
	for _, w := range words {
		if rest, said := strings.CutPrefix(w, act.Why()); said && act.Tin == t.ID { // the act says it already
			w = strings.TrimLeft(rest, ":; ")
		}
		if w != "" && !strings.EqualFold(w, act.Sentence) {
			sheet.How = append(sheet.How, wording.Upper(w)+".")
		}
	}
	if keep := t.Keep(); len(keep) > 0 {
		sheet.Why = wording.Upper(strings.Join(keep, "; ")) + "."
	}
	sheet.Next, sheet.Halved = screen.NextVat(env), true
	if _, right, halved := widget.Halves(env.Width); halved {
		sheet.Side = widget.Bars(bars(env, t.ID), right, env.Height/2-4, env.Style)
		if takes := takes(env); len(takes) > 0 {
			sheet.Side = append(sheet.Side, "", env.Style.Dim.Render("the next vat takes"), "")
			sheet.Side = append(sheet.Side, widget.Bars(takes, right, env.Height/2-4, env.Style)...)
		}
	}
	return s.listed(sheet, env)
}

// bars are the tins as what is left of what they held.
func bars(env screen.Env, chosen string) []widget.Bar {
	var out []widget.Bar
	for _, t := range env.Home.Stock.Tins {
		b := widget.Bar{Name: t.ID + "  " + t.Material, Says: t.Left.Format(env.System()) + " of " + t.Holds.Format(env.System())}
		if t.Holds > 0 {
			b.Part = float64(t.Left / t.Holds)
		}
		if t.ID == chosen {
			b.Tone = widget.Now
		}
		out = append(out, b)
	}
	return out
}

// takes are the powders of the next vat as what of each is there.
func takes(env screen.Env) []widget.Bar {
	var out []widget.Bar
	for _, n := range screen.Needs(env) {
		b := widget.Bar{Name: n.Powder.Material, Says: n.Needed.Format(env.System())}
		switch {
		case !n.Listed:
			b.Says += ", no tin on the list"
		case !n.Enough():
			b.Says += ", " + n.Short.Format(env.System()) + " of it short"
		}
		if n.Needed > 0 {
			b.Part = float64(n.There / n.Needed)
		}
		out = append(out, b)
	}
	return out
}

// listed puts the tins under the act. Where they do not all fit the words of storing go first, then the figure's size.
func (s shelf) listed(sheet widget.Sheet, env screen.Env) widget.Sheet {
	rows := func(sheet widget.Sheet) (columns, rows int) {
		return widget.Room(sheet, env.Width, env.Height, env.Style)
	}
	n := min(len(env.Home.Stock.Tins), most)
	why := sheet.Why
	columns, r := rows(sheet)
	if r < n {
		sheet.Why = ""
		columns, r = rows(sheet)
	}
	if r < n {
		sheet.How = append([]string{sheet.Figure.Number + " " + sheet.Figure.Unit + " " + sheet.Figure.Note + "."}, sheet.How...)
		sheet.Figure, sheet.HowTop, sheet.Why = widget.Figure{}, true, why
		if columns, r = rows(sheet); r < n {
			sheet.Why = ""
			columns, r = rows(sheet)
		}
	}
	sheet.Add(widget.Pick(choices(env, columns), s.at(env), columns, max(r, 3), env.Style))
	return sheet
}

// most is how many tins the list shows before anything gives way to it.
const most = 8

// asks is the act of a typed line.
func asks(what string, t model.TinBalance) string {
	of := t.ID + ", " + t.Name()
	switch what {
	case opens:
		return "When was " + of + " opened?"
	case weighs:
		return "Weigh " + of
	}
	return "Where did " + of + " go?"
}

// note is the figure's own line.
func note(t model.TinBalance, env screen.Env) string {
	out := fmt.Sprintf("left in %s, %s", t.ID, t.Material)
	if _, at := t.LastWeighed(); len(t.Weighings) > 0 {
		out += ", weighed " + at.Format("2 Jan")
	}
	out += wording.If(t.Drawn > 0, ", less "+t.Drawn.Format(env.System())+" drawn")
	return out
}

func choices(env screen.Env, columns int) []widget.Choice {
	var out []widget.Choice
	wide := wording.Most(env.Home.Stock.Tins, func(t model.TinBalance) int { return utf8.RuneCountInString(t.ID + t.Material) })
	for _, t := range env.Home.Stock.Tins {
		pad := strings.Repeat(" ", wide-utf8.RuneCountInString(t.ID+t.Material))
		c := widget.Choice{Text: fmt.Sprintf("%s  %s%s  %6s", t.ID, t.Material, pad, t.Left.Format(env.System())), Aside: aside(t, env)}
		if utf8.RuneCountInString(c.Text+c.Aside)+5 > columns {
			c.Aside = short(c.Aside)
		}
		out = append(out, c)
	}
	return out
}

// aside is since when a tin is open, and what it wants.
func aside(t model.TinBalance, env screen.Env) string {
	since := t.Since(env.Present())
	if t.Opened == nil {
		since = "sealed"
	}
	switch due, _ := t.Wants(env.Present()); due {
	case model.Danger:
		return "do not use"
	case model.ToHandIn:
		return "hazardous waste"
	case model.ToTest:
		return since + ": test it"
	case model.ToWeigh:
		return since + ": weigh it"
	case model.Refill:
		return "used up"
	case model.Look:
		return since + ": look"
	}
	return since
}

// short is an aside for a narrow window: what the tin wants, else how long it is open.
func short(aside string) string {
	if _, wants, ok := strings.Cut(aside, ": "); ok {
		return wants
	}
	return strings.TrimSuffix(strings.TrimPrefix(aside, "opened "), " ago")
}
