package command

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/shelf"
)

// standing is a vat as an open day or its last day has it, at its own present.
type standing struct {
	vat, day string
	state    day.State
	now      time.Time
	others   bool  // other days of the vat are open too
	damage   error // says that the day is not whole; nil if it is
}

// name is the vat as the dyer calls it.
func (s standing) name() string {
	if n := s.state.Head.Setup.Name; n != "" && shelf.Slug(n) == s.vat {
		return n
	}
	return s.vat
}

// title is the vat as the dyer calls it, with what tells it from others: that it is invented, or which of its days it is.
func (s standing) title() string {
	if s.others {
		return s.name() + ", day " + s.day + s.tag()
	}
	return s.name() + s.tag()
}

// open tells whether the day is.
func (s standing) open() bool { return !s.state.Closed }

// today tells whether the day is open, or was closed on the date that it is now.
func (s standing) today() bool {
	y, m, d := s.state.At.In(s.now.Location()).Date()
	year, month, date := s.now.Date()
	return s.open() || y == year && m == month && d == date
}

// tag says of an invented day that it is one.
func (s standing) tag() string {
	if s.state.Head.Rehearsed {
		return " (rehearsed)"
	}
	return ""
}

// call is what the hands are asked for.
func (s standing) call() day.Call { return day.CallOf(s.state, s.now) }

// survey looks at all vats without a lock and without changing anything: open days first, the one whose call rules foremost.
func (p *program) survey(h shelf.Home) ([]standing, error) {
	vats, err := h.Vats()
	if err != nil {
		return nil, err
	}
	p.warn(errors.Join(h.StrayVats()...))
	var out []standing
	for _, vat := range vats {
		out = append(out, p.standings(h, vat)...)
	}
	slices.SortStableFunc(out, func(a, b standing) int {
		if a.open() != b.open() {
			if a.open() {
				return -1
			}
			return 1
		}
		if !a.open() {
			return cmp.Compare(a.vat, b.vat)
		}
		return cmp.Or(a.call().Compare(b.call()), cmp.Compare(a.vat, b.vat))
	})
	return out, nil
}

// noVat is what is said where survey found none.
func (p *program) noVat() string {
	if len(p.warnings) > 0 {
		return "No vat of the book can be read."
	}
	return "No vat is in the book yet."
}

// standings are the open days of a vat; where none is open its last one that can be read. What is newer and cannot be read
// is told.
func (p *program) standings(h shelf.Home, vat string) []standing {
	days, err := h.VatDays(vat)
	p.warn(err)
	var last []standing
	for _, name := range slices.Backward(days.All) {
		s, err := standingOf(h, vat, name)
		if err == nil {
			last = append(last, s)
			p.warn(s.damage)
			break
		}
		p.warn(shelf.LeftOut(vat, name, err))
	}
	var out []standing
	for _, name := range days.Open {
		s, err := standing{}, error(nil)
		if len(last) > 0 && last[0].day == name {
			s = last[0]
		} else if s, err = standingOf(h, vat, name); err != nil {
			p.warn(shelf.LeftOut(vat, name, err))
			continue
		}
		p.warn(s.damage)
		out = append(out, s)
	}
	for i := range out {
		out[i].others = len(out) > 1
	}
	if len(out) == 0 {
		return last
	}
	return out
}

// standingOf is one day of a vat.
func standingOf(h shelf.Home, vat, name string) (standing, error) {
	b, err := readable(h, vat, name)
	if err != nil {
		return standing{}, err
	}
	s, errs := day.Replay(b.Head, b.Events)
	if len(s.Plan) == 0 && len(errs) > 0 {
		return standing{}, errs[0]
	}
	return standing{vat: vat, day: name, state: s, now: present(s), damage: NotWhole(vat, name, b.Frame)}, nil
}

// present is a day's now: of an invented day the last event's instant, of a real one what the engine would take.
func present(s day.State) time.Time {
	switch {
	case s.Head.Rehearsed && s.At.IsZero():
		return engine.Morning(s.Head) // killed before its first event
	case s.Head.Rehearsed:
		return s.At
	}
	now := engine.Present(engine.Machine{}, shelf.BootID(), s)
	if now.Before(s.At) {
		return s.At
	}
	return now
}

// vatState is how a vat stands, by its name or its folder's; of those that are ended only where they count.
func (p *program) vatState(name string, ended bool) (day.State, error) {
	h, err := p.shelf()
	if err != nil {
		return day.State{}, err
	}
	all, err := p.survey(h)
	if err != nil {
		return day.State{}, err
	}
	var names []string
	for _, st := range all {
		this := strings.EqualFold(st.vat, name) || strings.EqualFold(st.name(), name)
		switch {
		case this && st.state.Ended && !ended:
			return day.State{}, fmt.Errorf("the vat %s has ended, on %s: build another with --recipe and --fill", st.name(), st.state.At.Format("2 January 2006"))
		case this:
			return st.state, nil
		case !st.state.Ended || ended:
			names = append(names, st.vat)
		}
	}
	return day.State{}, errors.New("no vat is called " + name + "; there are " + list(names))
}
