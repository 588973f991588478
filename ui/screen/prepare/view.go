package prepare

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	ahead "example.org/vatside/model/prepare"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

func (s prepare) View(env screen.Env) widget.Sheet {
	sheet := widget.Sheet{Head: widget.Head{Left: "before the day", Right: env.Now.Format("Mon 2 Jan · 15:04")}}
	f, err := s.facts(env)
	sheet.Foot = []string{f.foot(s)}
	sheet.ActBig = (s.at == goods || s.at == start) && env.Height >= widget.LowestYard
	switch s.at {
	case goods:
		sheet.Act = "Which goods?"
		sheet.Body = s.typing.Lines(env)
		sheet.Why = "Weighed air-dry: detergent, soda and water go by it."
		fibres := wording.Each(f.head.Recipe.Fibres, func(f string) widget.Choice { return widget.Choice{Text: f} })
		beneath(&sheet, "what it dyes", fibres, env)
	case scoured:
		sheet.Act = s.isScoured()
		sheet.How, sheet.HowTop = []string{"Drop test: let a drop of water fall on the dry goods. It sinks in within 3 to 5 s, or they need scouring."}, true
		sheet.Why = "Goods that were not scoured come out uneven, and rub off."
		var list []widget.Choice
		for i, a := range s.answers() {
			list = append(list, widget.Choice{Text: strconv.Itoa(i+1) + "  " + a.says, Aside: a.aside})
		}
		columns, rows := env.Room(sheet)
		if large, ok := widget.Large(list, s.pick, columns, rows, env.Style); ok {
			sheet.Add(large)
			break
		}
		sheet.Add(widget.Pick(list, s.pick, columns, max(rows, 3), env.Style))
	case start:
		sheet.Act = "First dip?"
		sheet.Body = s.typing.Lines(env)
		sheet.Why = "All that comes before is reckoned back from it. The settings can keep this time."
	default:
		if err != nil {
			sheet.Act, sheet.How = "This cannot be planned", []string{wording.Sentence(err.Error())}
			return sheet
		}
		s.page(&sheet, f, env)
	}
	return sheet
}

// beneath puts a list that is only read under the line that is typed, with what it is, where there is room.
func beneath(sheet *widget.Sheet, what string, list []widget.Choice, env screen.Env) {
	columns, rows := env.Room(*sheet)
	if rows -= len(sheet.Body) + 2; rows < len(list) || len(list) == 0 {
		return
	}
	l := widget.Listed(list, columns, rows, env.Style)
	sheet.Body, sheet.Large = append(append(sheet.Body, "", env.Style.Dim.Render(what)), l.Lines...), l.Large
}

// isScoured asks it of those goods of which it was not said.
func (s prepare) isScoured() string {
	names := wording.Once(wording.Some(s.lots, func(l ahead.Lot) (string, bool) { return l.Fibre.String(), !l.Scoured && l.State == "" }))
	if len(names) == 1 {
		return "Is the " + names[0] + " scoured?"
	}
	return "Are " + strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1] + " scoured?"
}

// foot is the vat and the goods.
func (f facts) foot(s prepare) string {
	parts := []string{}
	switch {
	case f.vat != "":
		parts = append(parts, f.vat)
	case f.head.Recipe.Family != "":
		parts = append(parts, "no vat yet")
	}
	if f.head.Recipe.Family != "" {
		parts = append(parts, strings.ToLower(f.head.Recipe.Name)+" of "+f.head.Setup.Fill.Format(f.sys))
	}
	parts = append(parts, wording.Each(s.lots, func(l ahead.Lot) string { return l.Name(f.sys) })...)
	return strings.Join(parts, " · ")
}

// stays is how long something is still to be begun after its time has come.
const stays = 5 * time.Minute

// next is what comes next by the clock, or is to be begun now, and the last of what runs; -1 where nothing does.
func next(r ahead.Schedule, now time.Time) (at, runs int) {
	at, runs = len(r.Tasks)-1, -1
	for i := len(r.Tasks) - 1; i >= 0; i-- {
		switch a := r.Tasks[i]; {
		case a.At.Add(stays).After(now):
			at = i
		case a.End().After(now) && runs < 0:
			runs = i
		}
	}
	return at, runs
}

// page is the page itself: the next thing by the clock, the times, the checklist.
func (s prepare) page(sheet *widget.Sheet, f facts, env screen.Env) {
	columns, rows, split := s.lay(sheet, f, env)
	at, _ := next(f.ready, env.Now)
	switch {
	case split == beside:
		half := halves(columns)
		right := s.checklist(f, half, rows, env.Style)
		sheet.Body = style.Beside(times(f.ready, at, env.Now, half, rows, env.Style), right.Lines, half+4)
		for _, spot := range right.Spots {
			spot.From = half + 4
			sheet.Spots = append(sheet.Spots, spot)
		}
	case split == under:
		above := times(f.ready, at, env.Now, columns, timesRows(f, rows), env.Style)
		sheet.Body = append(above, "")
		sheet.Add(s.checklist(f, columns, rows-len(above)-1, env.Style))
	case s.list:
		sheet.Add(s.checklist(f, columns, rows, env.Style))
	default:
		sheet.Body = times(f.ready, at, env.Now, columns, rows, env.Style)
	}
}

// halves is the columns of each of two that stand beside each other.
func halves(columns int) int { return (columns - 4) / 2 }

// How the times and the checklist share the body.
type split int

const (
	one split = iota
	under
	beside
)

// Room that both need: under each other, beside each other.
const leastUnder, leastBeside = 13, 112

// smallDigits is what the smallest clock takes, with the air around it; roomyDigits what it has in a window of many rows.
const smallDigits, roomyDigits = 6, 14

// lay puts the words onto the sheet and tells what room is left, and how it is shared.
func (s prepare) lay(sheet *widget.Sheet, f facts, env screen.Env) (columns, rows int, how split) {
	s.words(sheet, f, env)
	columns, rows = env.Room(*sheet)
	bare := *sheet // small digits make room for rows
	bare.Figure = widget.Figure{}
	_, without := env.Room(bare)
	digits := smallDigits
	if env.Height >= roomy {
		digits = roomyDigits
	}
	rows = max(rows, without-digits, 3)
	switch {
	case columns >= leastBeside:
		return columns, rows, beside
	case rows >= leastUnder:
		return columns, rows, under
	}
	if s.list && rows < 7 { // the list alone: the clock's digits make room for it
		sheet.Act += " " + sheet.Figure.Number
		sheet.Figure, sheet.How = widget.Figure{}, nil
		columns, rows = env.Room(*sheet)
		rows = max(rows, 3)
	}
	return columns, rows, one
}

// timesRows is how many rows the times have over the checklist.
func timesRows(f facts, rows int) int { return min(len(f.ready.Tasks), rows/2-1) }

// words are what is next, how, and what is to be known of it.
func (s prepare) words(sheet *widget.Sheet, f facts, env screen.Env) {
	at, runs := next(f.ready, env.Now)
	a := f.ready.Tasks[at]
	sheet.HowTop = true
	what := strings.Replace(wording.Upper(a.What), ": ", ", ", 1)
	sheet.Act = what
	if a.Kind != ahead.ToDye {
		sheet.Act += ": begin at"
	} else {
		sheet.Act += " at"
	}
	sheet.Figure = widget.Figure{Number: day.Clock(a.At), Unit: dayOf(a.At, env.Now)}
	if env.Height >= tall { // what, in large letters too
		sheet.Figure.Note, sheet.ActBig = sheet.Act+" "+sheet.Figure.Number, true
		sheet.Act, _, _ = strings.Cut(what, ", ")
	}
	switch in := a.At.Sub(env.Now); {
	case in < time.Minute:
		sheet.Figure.Unit, sheet.Figure.Tone = "now", widget.Now
	case in < 20*time.Hour:
		sheet.Figure.Unit = "in " + day.Long(in)
	}
	how := wording.Sentence(a.How)
	if runs >= 0 {
		r := f.ready.Tasks[runs]
		how = fmt.Sprintf("Now: %s, till %s. Then: %s", r.What, day.DateOf(r.End(), env.Now), how)
	}
	sheet.How = []string{how}
	if a.Check != "" && env.Height >= roomy {
		sheet.How = append(sheet.How, "Done when: "+a.Check+".")
	}
	sheet.How = append(sheet.How, wording.Each(f.ready.Warnings, wording.Sentence)...)
	if len(f.ready.Unfit) > 0 {
		text := f.ready.Unfit[0]
		if env.Height < roomy { // what to take instead stands where there is room
			text, _, _ = strings.Cut(text, ": ")
		}
		sheet.Caution = &widget.Caution{Text: text}
	}
	if env.Height < roomy {
		return
	}
	for _, l := range f.ready.Lots {
		if l.Scour != nil {
			sheet.Why = wording.Sentence(practice.DropTest)
		}
	}
	if env.Height < tall {
		return
	}
	sheet.How = append(sheet.How, wording.Each(f.ready.Notes, wording.Sentence)...)
}

// From so many rows on there is the drop test, and the notes.
const roomy, tall = 30, 50

// dayOf is the day of a time, as it is said now.
func dayOf(at, now time.Time) string {
	switch days := wording.Nights(now, at); {
	case days == 0:
		return "today"
	case days == 1:
		return "tomorrow"
	case days > 1 && days < 7:
		return at.Format("Monday")
	}
	return at.Format("2 Jan")
}

// times are the stretches, the next one marked: as bars of how long they take where there is room for them.
func times(r ahead.Schedule, at int, now time.Time, columns, rows int, st style.Style) []string {
	var list []widget.Choice
	var bars []widget.Bar
	longest := slices.MaxFunc(r.Tasks, func(a, b ahead.Task) int { return cmp.Compare(a.For, b.For) }).For
	for i, a := range r.Tasks {
		clock := day.Clock(a.At)
		if dayOf(a.At, r.Ready) != "today" || dayOf(r.Begin(), r.Ready) != "today" {
			clock = a.At.Format("Mon 15:04")
		}
		aside := ""
		if a.For > 0 {
			aside = day.Long(a.For.Duration())
		}
		if a.End().Before(now) || a.End().Equal(now) {
			aside = "over"
		}
		list = append(list, widget.Choice{Text: clock + "  " + a.What, Aside: aside})
		bar := widget.Bar{Name: clock + "  " + a.What, Says: aside, Part: float64(a.For) / float64(max(longest, 1))}
		if i == at {
			bar.Tone = widget.Now
		}
		bars = append(bars, bar)
	}
	if rows >= 3*len(bars) {
		return widget.Bars(bars, columns, rows, st)
	}
	return widget.Pick(list, at, columns, rows, st).Lines
}
