package command

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/shelf"
)

func (p *program) nowCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "now", Short: "The present moment in one line", Args: usage(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return p.now() },
	}
	p.jsonFlag(c)
	return c
}

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

// The keys of now --json.
type nowDay struct {
	Vat       string   `json:"vat"`
	Day       string   `json:"day"`
	Rehearsed bool     `json:"rehearsed"`
	At        string   `json:"at"`
	Line      string   `json:"line"`
	DueAt     *string  `json:"due_at"`
	LeftS     *float64 `json:"left_s"` // negative: over

	Liquor *nowLiquor `json:"liquor"`
	Call   *callJSON  `json:"call"`
}

type nowDue struct {
	Vat    string     `json:"vat"`
	Words  string     `json:"words"`
	At     *string    `json:"at"`
	Liquor *nowLiquor `json:"liquor"` // always null: the liquor of a closed day is not reckoned
}

func (p *program) now() error {
	h, err := p.shelf()
	if err != nil {
		return err
	}
	all, err := p.survey(h)
	if err != nil {
		return err
	}
	out := struct {
		Days []nowDay  `json:"days"`
		Due  []nowDue  `json:"due"`
		Call *callJSON `json:"call"` // of the day that rules, the first; null where none is open
	}{Days: []nowDay{}, Due: []nowDue{}}
	var lines []string
	for _, s := range all {
		if !s.open() {
			for _, d := range day.Between(s.state, s.now) {
				due := nowDue{Vat: s.vat, Words: d.Words}
				at := ""
				if !d.At.IsZero() {
					t := d.At.Format(time.RFC3339)
					due.At, at = &t, ", "+d.At.Format("Mon 2 Jan 15:04")
				}
				out.Due = append(out.Due, due)
				if len(out.Days) == 0 {
					lines = append(lines, fmt.Sprintf("%s%s: %s%s", s.name(), s.tag(), d.Words, at))
				}
			}
			continue
		}
		line := day.NowLine(s.state, s.now)
		d := nowDay{Vat: s.vat, Day: s.day, Rehearsed: s.state.Head.Rehearsed, At: s.now.Format(time.RFC3339), Line: line}
		call := s.call()
		d.Call = callKeys(call)
		if call.Due != nil {
			d.DueAt, d.LeftS = d.Call.DueAt, call.Figure
		}
		if p.json {
			d.Liquor = liquorOf(s)
		}
		if out.Days = append(out.Days, d); out.Call == nil {
			out.Call = d.Call
		}
		lines = append(lines, fmt.Sprintf("%s: %s", s.title(), line))
	}
	if p.json {
		return p.asJSON(out)
	}
	if len(lines) == 0 {
		lines = []string{"No day is open."}
	}
	for _, l := range lines {
		p.say("%s", l)
	}
	return nil
}

// tellAll is the program without a terminal: how things stand, in sentences.
func (p *program) tellAll(h shelf.Home) error {
	all, err := p.survey(h)
	if err != nil {
		return err
	}
	if len(all) == 0 {
		p.say("%s", p.noVat())
	}
	for _, s := range all {
		switch {
		case s.open():
			p.say("%s%s, day %s is open: %s.", s.name(), s.tag(), s.day, day.NowLine(s.state, s.now))
			if then := day.Upcoming(s.state, s.now); then != "" {
				p.say("  Then: %s.", then)
			}
		case s.state.Ended:
			p.say("%s%s: the vat has ended.", s.name(), s.tag())
		default:
			p.say("%s%s: last day %s, closed at %s.", s.name(), s.tag(), s.day, day.Clock(s.state.At))
			for _, d := range day.Between(s.state, s.now) {
				if d.At.IsZero() {
					p.say("  Due: %s.", d.Words)
				} else {
					p.say("  Due %s: %s.", d.At.Format("Mon 2 Jan 15:04"), d.Words)
				}
			}
			days, _ := Lately(h, s.vat, s.day) // what cannot be read, care tells
			for _, d := range history.Care(append(days, history.Day{Name: s.day, State: s.state}), s.now) {
				if !d.Coming && d.ID != history.Wait {
					p.say("  %s: %s.", d.Do, d.When(s.now))
				}
			}
		}
	}
	var ids []string
	for _, r := range p.atHand() {
		ids = append(ids, r.ID)
	}
	p.say("Recipes at hand: %s.", list(ids))
	p.say("The book is in %s.", h.Dir())
	if p.Getenv("TERM") == "dumb" {
		p.say("This terminal cannot draw the screens: follow the day line by line with: vatside --plain")
		return nil
	}
	p.say("Type vatside in a terminal to open it; vatside --plain follows the day line by line; vatside --help lists the commands.")
	return nil
}
