package command

import (
	"errors"
	"fmt"

	"example.org/vatside/model/calendar"
)

// careCalendar prints what the kept vats are due over the next weeks as a calendar. A rehearsed vat has a time of its own, and no
// place in it.
func (p *program) careCalendar(vat, units string, weeks int) error {
	sys, err := p.units(units)
	if err != nil {
		return err
	}
	if weeks < 1 || weeks > 26 {
		return fmt.Errorf("--weeks: %d; write 1 to 26", weeks)
	}
	now := p.Now()
	c := calendar.Calendar{Name: "vats", At: now}
	if _, err := p.kept(vat, func(k keeping) error {
		if k.State.Head.Rehearsed {
			if vat != "" {
				return fmt.Errorf("%s was only rehearsed: a calendar has real vats", k.Vat)
			}
			return nil
		}
		c.Events = append(c.Events, calendar.OfVat(k.life, k.Vat, k.VatName(), now, now.AddDate(0, 0, 7*weeks), sys)...)
		return nil
	}); err != nil {
		return err
	}
	if len(c.Events) == 0 {
		p.warn(errors.New("nothing is due: the calendar is empty"))
	}
	fmt.Fprint(p.Out, c.Text())
	return nil
}
