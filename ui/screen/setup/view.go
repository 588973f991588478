package setup

import (
	"cmp"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/prepare"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

func (s setup) choices(env screen.Env) []widget.Choice {
	var list []widget.Choice
	add := func(text, aside string) {
		list = append(list, widget.Choice{Text: numbered(len(list)+1, text), Aside: aside})
	}
	switch s.at {
	case recipeOf:
		return s.sorted(env).list
	case shape:
		for _, f := range shapes {
			add(f.word, f.says)
		}
	case keep:
		for _, k := range library.Keepings {
			add(k.Word, k.Says)
		}
	}
	return list
}

func listed(recipes []practice.Choice, own map[string]bool, wants int) []widget.Choice {
	out := make([]widget.Choice, len(recipes))
	for i, c := range recipes {
		r := c.Recipe
		aside := "in " + r.Liquor.Ready.String()
		switch fit, _ := practice.ForProtein(r); {
		case c.Fit == practice.FitsNot:
			aside = "not for it, " + aside
		case c.Fit == practice.FitsCare:
			aside = "with care, " + aside
		case wants == 0 && fit == practice.Fits:
			aside += ", wool and silk first"
		}
		aside += wording.If(own[r.ID], ", your own")
		out[i] = widget.Choice{Text: numbered(i+1, r.Name), Aside: aside}
	}
	return out
}

func (s setup) View(env screen.Env) widget.Sheet {
	sheet := widget.Sheet{Head: widget.Head{Left: "new vat", Right: s.whereabouts(env) + " · " + env.Now.Format("15:04")}}
	if len(env.Home.Recipes) == 0 {
		sheet.Act, sheet.How = "No recipe is at hand", []string{"Check the recipes folder with vatside recipes. Esc goes back."}
		return sheet
	}
	f := s.facts(env)
	sheet.Foot = []string{s.soFar(f)}
	if env.Height >= widget.LowestYard { // below that the answers have all of the room
		sheet.Stage, sheet.BodyTop = &widget.Stage{Vessel: s.drawn(f)}, true
		sheet.Foot = widget.Wrap(sheet.Foot[0], widget.LiquorColumns(env.Width, env.Height))
	}
	if s.at == summary {
		s.sum(&sheet, f, env)
		return sheet
	}
	e := s.typed[s.at]
	e.Hint = "Enter: " + f.usual[s.at]
	s.ask(&sheet, &e, f, env)
	sheet.Act = strings.ToUpper(sheet.Act)
	if typedPage(s.at) {
		sheet.Body = e.Lines(env)
		return sheet
	}
	if s.typed[s.at].Wrong != "" && sheet.Caution == nil {
		sheet.How = []string{s.typed[s.at].Wrong}
	}
	screen.Choose(&sheet, s.choices(env), s.picked(s.at, env), env)
	return sheet
}

// drawn is the vessel as far as it is described, and from its question on where the fill will end.
func (s setup) drawn(f facts) widget.Vessel {
	gets := quantity.Volume(0)
	if s.at > holds && (s.at < shape || s.at >= fill) {
		gets = f.fill
	}
	v := screen.DrawnVessel(f.vessel, gets)
	v.Fill, v.Next = 0, v.Fill
	if v.Next > 0 {
		v.Mark = gets.Format(f.sys)
	}
	return v
}

// whereabouts says how many questions are behind and how many there are.
func (s setup) whereabouts(env screen.Env) string {
	switch all := 3; {
	case s.at >= summary:
		return "summary"
	case library.Slow(s.facts(env).recipe):
		all++
		fallthrough
	default:
		return fmt.Sprintf("question %d of %d", int(s.at)+1, all)
	}
}

// ask words the question of a page.
func (s setup) ask(sheet *widget.Sheet, e *screen.Field, f facts, env screen.Env) {
	unit := func(u string) {
		if quantity.Bare(s.typed[s.at].Text) {
			e.Unit = u
		}
	}
	switch s.at {
	case name:
		sheet.Act, e.Label = "Name the vat", "name"
		sheet.How = []string{"One word or two, as you call it across the yard."}
	case recipeOf:
		sheet.Act = "Which recipe?"
		if s.wants > 0 {
			sheet.Act = "Which recipe for " + wanted[s.wants].word + "?"
		}
		sheet.How = about(f.recipe)
		sheet.Why = "From " + f.recipe.Source + "."
		sheet.Answers = []string{"f " + s.other().said()}
		sheet.Next = sheet.Answers[0] + ": sorts the list anew"
		want := wanted[s.wants].want
		want.Place = env.Home.Settings.Place
		if c := practice.Choose([]recipe.Recipe{f.recipe}, want)[0]; c.Fit != practice.Fits {
			sheet.How, sheet.Why = append(sheet.How, wording.Upper(c.Reasons[0].Words)+"; vatside recipes choose says which fits."), ""
		}
	case holds:
		sheet.Act, e.Label = "Litres?", "how many the vessel holds, to the brim"
		e.Hint += "; or its measures: frustum 25cm 30cm 37cm, cylinder 40cm 60cm, or marks found with a jug: jug 5L=8.4cm 10L=16.1cm 36.8cm"
		if f.wrong[holds] == nil {
			sheet.How = []string{f.fill.Format(f.sys) + " of liquor; the rest is left for goods and hands."}
		}
		unit(f.sys.VolumeUnit())
		sheet.Next = "then: which water"
	case water:
		sheet.Act, e.Label = "Which water?", "how warm cold and hot water are, such as 12 55"
		sheet.How = s.heat(f)
		sheet.Why = "Cold first, then hot: the mix is reckoned from both."
	case shape:
		sheet.Act, sheet.Next = "Which vessel?", "then: its inside measures"
	case first, second, third:
		form := shapes[s.pick[shape]]
		sheet.Act = "How " + form.measures[s.at-first] + "?"
		if strings.HasPrefix(form.measures[s.at-first], "across") {
			sheet.Act = wording.Upper(form.measures[s.at-first]) + "?"
		}
		e.Label, e.Hint = form.measures[s.at-first]+", inside", e.Hint+", "+form.of
		sheet.Why = "Inside, from wall to wall; the height from the floor to the rim."
		unit(f.sys.LengthUnit())
	case fill:
		sheet.Act, e.Label = "How full?", "fill, sediment zone included"
		if f.vessel.Shape != nil {
			e.Hint += "; or how deep it stands, such as " + (f.vessel.Rim() / 2).Format(f.sys)
		}
		sheet.How = s.means(f)
		unit(f.sys.VolumeUnit())
	case keep:
		sheet.Act, sheet.How = "Kept warm?", []string{"Day and night, while it waits."}
		sheet.Why = "It waits " + f.recipe.Liquor.Ready.String() + " at " + f.recipe.Liquor.Low.Format(f.sys) + " and above; colder days do not count."
	case strength:
		sheet.Act, e.Label = "How strong?", "share of indigo, from the label"
		e.Hint += ", as in the recipe"
		sheet.Why = "Only the grams of indigo change; the rest stays as the recipe has it."
		unit("%")
	}
}

// about tells of a recipe what the choice hangs on.
func about(r recipe.Recipe) []string {
	line := "Ready in " + r.Liquor.Ready.String() + ", for " + strings.Join(r.Fibres, ", ") + "."
	for _, p := range r.Powders {
		line += wording.If(p.Role == recipe.Reducer || p.Role == recipe.Indigo, " "+wording.Upper(p.Material)+".")
	}
	_, protein := practice.ForProtein(r)
	line += " " + wording.Upper(protein) + "."
	return []string{line}
}

// means is what a fill comes to in the vessel.
func (s setup) means(f facts) []string {
	if f.wrong[fill] != nil {
		if s.typed[s.at].Wrong == "" && s.typed[fill].Text != "" && f.fill > 0 {
			return []string{f.wrong[fill].Error()}
		}
		return nil
	}
	if f.vessel.Shape == nil {
		return []string{"The vessel is not measured: stop a hand below the rim."}
	}
	lines := []string{fmt.Sprintf("%s: %s from the floor, %s below the rim.", f.fill.Format(f.sys), f.room.Depth.Format(f.sys), f.room.BelowRim.Format(f.sys))}
	return append(lines, wording.Each(f.room.Warnings, func(w vessel.Warning) string { return w.Sentence })...)
}

// heat is what is to be said of the hot water.
func (s setup) heat(f facts) []string {
	if f.wrong[water] != nil || f.hot >= f.recipe.Liquor.Build {
		return nil
	}
	return []string{fmt.Sprintf("The vat needs %s: water of %s does not reach it, heat more.", f.recipe.Liquor.Build.Format(f.sys), f.hot.Format(f.sys))}
}

// soFar is what was answered, in one line.
func (s setup) soFar(f facts) string {
	return cmp.Or(wording.Joined(" · ", wording.If(s.at > water, f.name), wording.If(s.at > recipeOf, strings.ToLower(f.recipe.Name)),
		wording.If(s.at > holds, f.fill.Format(f.sys)), wording.If(s.at > water, f.cold.Format(f.sys)+" and "+f.hot.Format(f.sys))), "nothing in it yet")
}

// sum is the last page: what will be weighed, and what to beware of.
func (s setup) sum(sheet *widget.Sheet, f facts, env screen.Env) {
	sheet.Act = "BEGIN " + strings.ToUpper(f.name)
	if s.typed[s.at].Wrong != "" {
		sheet.Banner = s.typed[s.at].Wrong
	}
	width := wording.Most(f.amounts.Powders, func(a recipe.Amount) int { return utf8.RuneCountInString(a.Powder.Material) })
	var list []string
	there := f.there(env)
	for i, a := range f.amounts.Powders {
		line := fmt.Sprintf("%-*s   %s", width, a.Powder.Material, a.Grams.Format(f.sys)+there[i])
		list = append(list, env.Style.Text.Render(env.Style.Glyphs.Text(line)))
	}
	if s.typed[s.at].Wrong == "" {
		for i, c := range changes {
			sheet.Answers = append(sheet.Answers, fmt.Sprint(i+1, " ", c.words))
		}
		sheet.Foot = []string{s.soFar(f), strings.Join(sheet.Answers, ", ")}
	}
	sheet.Body = list
	if f.vessel.Shape != nil {
		sheet.How = s.means(f)
	}
	sheet.How = append(sheet.How, wording.Filled(start(f.head(env), env.Now))...)
	sheet.Caution = &widget.Caution{Text: caution(f), Key: "enter: begin"}
	sheet.Next = "then: what is to be dyed"
}

// start is when to begin so that the first piece goes in at the wished hour, and with what; empty where there is no wish,
// or it cannot be kept any more.
func start(h day.Head, now time.Time) string {
	ready := h.Setup.ReadyBy
	if ready == nil {
		return ""
	}
	heat := quantity.Span(0)
	if s, err := day.Begin(h); err == nil {
		_, heat, _ = s.HeatBy(now)
	}
	slots, err := prepare.Backwards(h, *ready, heat)
	if err != nil || len(slots) == 0 || slots[0].At.Before(now) {
		return ""
	}
	return fmt.Sprintf("For the first piece at %s begin by %s: %s.", day.DateOf(*ready, now), day.DateOf(slots[0].At, now), slots[0].What)
}

// caution is the headline of what this vat can do to its dyer.
func caution(f facts) string {
	if len(f.amounts.Cautions) > 0 {
		return f.amounts.Cautions[0]
	}
	text := "mask, glasses and gloves before powders; powder into water, never water onto powder"
	text += wording.If(f.recipe.Family.SulfurReducer(), "; never acid near the reducer")
	return text
}
