package setup

import (
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/prepare"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// choices are the lines of a page that is a list.
func (s setup) choices(env screen.Env) []widget.Choice {
	var list []widget.Choice
	add := func(text, aside string) {
		list = append(list, widget.Choice{Text: numbered(len(list)+1, text), Aside: aside})
	}
	switch s.at {
	case recipeOf:
		for _, r := range env.Home.Recipes {
			aside := "in " + r.Liquor.Ready.String()
			if env.Home.Own[r.ID] {
				aside += ", your own"
			}
			add(r.Name, aside)
		}
	case shape:
		for _, f := range shapes {
			add(f.word, f.says)
		}
	case material:
		for _, m := range vessel.Materials() {
			aside := ""
			if top, ok := m.Top(); ok {
				aside = "bears " + top.Format(s.facts(env).sys)
			}
			if m.Refusal(true) != "" {
				aside = "not for a vat"
			}
			add(m.String(), aside)
		}
	case place:
		says := []string{"best with powders", "air goes through", "sugar–lime or ferment only"}
		for i, p := range places {
			add(p, says[i])
		}
	case keep:
		for _, k := range keepings {
			add(k.word, k.says)
		}
	}
	return list
}

// View is the screen.
func (s setup) View(env screen.Env) widget.Sheet {
	sheet := widget.Sheet{Head: widget.Head{Left: "new vat", Right: s.whereabouts(env) + " · " + env.Now.Format("15:04")}}
	if len(env.Home.Recipes) == 0 {
		sheet.Act, sheet.How = "No recipe is at hand", []string{"Check the recipes folder with vatside recipes. Esc goes back."}
		return sheet
	}
	f := s.facts(env)
	if s.at > name {
		sheet.Head.Left = f.name + " · new vat"
	}
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
	columns, rows := widget.Room(sheet, env.Width, env.Height, env.Style)
	sheet.Add(widget.Pick(s.choices(env), s.picked(s.at, env), columns, max(rows, 3), env.Style))
	return sheet
}

// drawn is the vessel as far as it is described, and from its question on where the fill will end.
func (s setup) drawn(f facts) widget.Vessel {
	holds := quantity.Volume(0)
	if s.at >= fill {
		holds = f.fill
	}
	v := screen.DrawnVessel(f.vessel, holds)
	v.Fill, v.Next = 0, v.Fill
	if v.Next > 0 {
		v.Mark = holds.Format(f.sys)
	}
	return v
}

// whereabouts says how many questions are behind and how many there are.
func (s setup) whereabouts(env screen.Env) string {
	measures := len(shapes[s.pick[shape]].measures)
	at, all := int(s.at)+1, int(summary)-3+measures
	if s.at > third {
		at += measures - 3
	}
	if len(env.Home.Recipes) > 0 && !slow(s.facts(env).recipe) {
		if all--; s.at > keep {
			at--
		}
	}
	if s.at == summary {
		return "all told"
	}
	return fmt.Sprintf("question %d of %d", at, all)
}

// ask words the question of a page.
func (s setup) ask(sheet *widget.Sheet, e *screen.Field, f facts, env screen.Env) {
	unit := func(u string) {
		if quantity.Bare(s.typed[s.at].Text) {
			e.Unit = u
		}
	}
	_, degrees := f.cold.Figure(f.sys)
	switch s.at {
	case name:
		sheet.Act, e.Label = "Name the vat", "name"
		sheet.How = []string{"One word or two, as you call it across the yard."}
		sheet.Next = "then: choose a recipe"
	case recipeOf:
		sheet.Act = "Which recipe?"
		sheet.How = about(f.recipe)
		sheet.Why = "Source: " + f.recipe.Source + "."
		if c := practice.Choose([]recipe.Recipe{f.recipe}, practice.Wanted{Place: env.Home.Settings.Place})[0]; c.Fit != practice.Fits {
			sheet.Why = wording.Upper(c.Reasons[0].Words) + "; vatside recipes choose says which fits."
		}
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
	case material:
		sheet.Act = "Made of what?"
		sheet.Caution = refused(f.wrong[material])
		sheet.Why = "The triangle moulded under plastic: a 2 in it is HDPE, a 4 LDPE, a 5 PP. Those are not the keys here."
	case fill:
		sheet.Act, e.Label = "How full?", "fill, sediment zone included"
		if f.vessel.Shape != nil {
			e.Hint += "; or how deep it stands, such as " + (f.vessel.Rim() / 2).Format(f.sys)
		}
		sheet.How = s.means(f)
		unit(f.sys.VolumeUnit())
	case cold:
		sheet.Act, e.Label = "Cold water?", "how cold it is"
		sheet.Why = "Cold first, then hot: the mix is reckoned from both."
		unit(degrees)
	case hot:
		sheet.Act, e.Label = "Hot water?", "how hot it is"
		sheet.How = s.heat(f)
		unit(degrees)
	case place:
		sheet.Act = "Which place?"
		sheet.Caution = refused(f.wrong[place])
		if f.recipe.Family.SulfurReducer() {
			sheet.Why = "This reducer gives off sulfur dioxide where acid meets it: air must go through."
		}
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

func refused(err error) *widget.Caution {
	if err == nil {
		return nil
	}
	return &widget.Caution{Text: err.Error()}
}

// about tells of a recipe what the choice hangs on.
func about(r recipe.Recipe) []string {
	line := "Ready in " + r.Liquor.Ready.String() + ", for " + strings.Join(r.Fibres, ", ") + "."
	for _, p := range r.Powders {
		if p.Role == recipe.Reducer || p.Role == recipe.Indigo {
			line += " " + wording.Upper(p.Material) + "."
		}
	}
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
	for _, w := range f.room.Warnings {
		lines = append(lines, w.Sentence)
	}
	return lines
}

// heat is what is to be said of the hot water.
func (s setup) heat(f facts) []string {
	var lines []string
	if f.wrong[hot] != nil {
		return nil
	}
	if no := f.vessel.Material.TooHot(f.hot, f.sys); no != "" {
		lines = append(lines, "Cold water in first: "+no)
	}
	if f.hot < f.recipe.Liquor.Build {
		lines = append(lines, fmt.Sprintf("The vat wants %s: water of %s does not reach it, heat more.", f.recipe.Liquor.Build.Format(f.sys), f.hot.Format(f.sys)))
	}
	return lines
}

// soFar is what was answered, in one line.
func (s setup) soFar(f facts) string {
	var parts []string
	add := func(after page, text string) {
		if s.at > after && text != "" {
			parts = append(parts, text)
		}
	}
	add(name, f.name)
	add(recipeOf, strings.ToLower(f.recipe.Name))
	add(fill, f.fill.Format(f.sys))
	add(shape, shapes[s.pick[shape]].word)
	add(material, f.vessel.Material.String())
	add(hot, f.cold.Format(f.sys)+" and "+f.hot.Format(f.sys))
	add(place, f.place)
	if len(parts) == 0 {
		return "nothing in it yet"
	}
	return strings.Join(parts, " · ")
}

// sum is the last page: what will be weighed, and what to beware of.
func (s setup) sum(sheet *widget.Sheet, f facts, env screen.Env) {
	sheet.Act = "BEGIN " + strings.ToUpper(f.name)
	if s.typed[s.at].Wrong != "" {
		sheet.Banner = s.typed[s.at].Wrong
	}
	var list []string
	width := 0
	for _, a := range f.amounts.Powders {
		width = max(width, len([]rune(a.Powder.Material)))
	}
	there := f.there(env)
	for i, a := range f.amounts.Powders {
		line := fmt.Sprintf("%-*s   %s", width, a.Powder.Material, a.Grams.Format(f.sys)+there[i])
		list = append(list, env.Style.Text.Render(env.Style.Glyphs.Text(line)))
	}
	sheet.Body = list
	if f.vessel.Shape != nil {
		sheet.How = s.means(f)
	}
	if line := start(f.head(env), env.Now); line != "" {
		sheet.How = append(sheet.How, line)
	}
	sheet.Caution = &widget.Caution{Text: caution(f), Key: "enter: begin"}
	sheet.Next = "then: the first step, with the screen to itself"
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
	if f.recipe.Family.SulfurReducer() {
		text += "; never acid near the reducer"
	}
	if f.place == day.ClosedRoom {
		text += "; make a draught for the powders"
	}
	return text
}
