package command

import (
	"fmt"
	"strconv"

	"example.org/vatside/model/practice"
	"example.org/vatside/model/prepare"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// tellPrepare prints what prepare found: the goods, the times, the checklist.
func (p *program) tellPrepare(ready prepare.Schedule, out preparedOut, sys quantity.System) {
	for _, l := range ready.Lots {
		p.say("%s:", l.Name(sys))
		p.tellScour(l.Scour, sys)
		w := l.Wet
		p.note("Wet out", fmt.Sprintf("%s of %s, %s; %s; till %s", w.Water.Format(sys), rangeOf(w.Temp, sys), rangeOf(w.Time, sys), w.How, w.Check))
		p.say("")
	}
	p.say("%s", ready.Ready.Format("For the first piece at 15:04 on Monday 2 January:"))
	var rows table
	for _, a := range ready.Tasks {
		what := a.What
		if a.For > 0 {
			what += ", " + prepare.Lasting(a.For.Duration())
		}
		rows.add(clockOn(a.At, ready.Ready), what)
	}
	p.table(rows)
	for _, w := range out.Warnings {
		p.note("Mind", w)
	}
	for _, n := range out.Notes {
		p.note("Note", n)
	}
	for _, when := range []practice.Moment{practice.EveningBefore, practice.AtTheStart, practice.BeforePowders} {
		head := when.String()
		for _, i := range out.Checklist { // what guards eyes, skin and lungs stands first in it
			if i.When != when.String() {
				continue
			}
			if head != "" {
				p.say("")
				p.say("%s:", wording.Upper(head))
				head = ""
			}
			p.fold("  [ ] ", "      ", i.What)
		}
	}
}

func (p *program) tellScour(s *practice.Scour, sys quantity.System) {
	if s == nil {
		p.note("", "scoured already")
		return
	}
	var rows table
	rows.add(s.Detergent.Likely.Scale(sys), "of "+s.Washes()+wide(s.Detergent, sys))
	switch {
	case s.Alkali.Likely > 0:
		rows.add(s.Alkali.Likely.Scale(sys), "of "+s.AlkaliIs+wide(s.Alkali, sys))
	case s.Alkali.High > 0:
		rows.add("none", "of "+s.AlkaliIs+", or up to "+s.Alkali.High.Scale(sys))
	}
	rows.add(s.Water.Likely.Format(sys), "of water"+wide(s.Water, sys))
	rows.add(s.Temp.Likely.Format(sys), "hot"+wide(s.Temp, sys))
	rows.add(s.Time.Likely.Format(sys), "each bath"+wide(s.Time, sys))
	baths := "bath"
	if s.Baths.Likely != 1 {
		baths += "s"
	}
	if s.Baths.Low < s.Baths.High {
		baths += fmt.Sprintf(", %d to %d", s.Baths.Low, s.Baths.High)
	}
	rows.add(strconv.Itoa(s.Baths.Likely), baths)
	p.table(rows)
	p.note("Scour", s.How)
	p.note("Done", s.Check)
	for _, c := range s.Cautions {
		p.note("Caution", c)
	}
}

// formatted is a quantity that prints itself.
type formatted interface {
	~int64 | ~float64
	Format(quantity.System) string
}

// rangeOf is a range in words, wide what stands behind the likely figure of one.
func rangeOf[T formatted](r quantity.Range[T], sys quantity.System) string {
	return between(r.Low.Format(sys), r.High.Format(sys))
}

func wide[T formatted](r quantity.Range[T], sys quantity.System) string {
	if r.Low == r.High {
		return ""
	}
	return ", " + rangeOf(r, sys)
}
