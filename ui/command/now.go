package command

import (
	"fmt"

	"github.com/spf13/cobra"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
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
					due.At, at = new(stamp(d.At)), ", "+d.At.Format("Mon 2 Jan 15:04")
				}
				out.Due = append(out.Due, due)
				if len(out.Days) == 0 {
					lines = append(lines, fmt.Sprintf("%s%s: %s%s", s.name(), s.tag(), d.Words, at))
				}
			}
			continue
		}
		line := day.NowLine(s.state, s.now)
		d := nowDay{Vat: s.vat, Day: s.day, Rehearsed: s.state.Head.Rehearsed, At: stamp(s.now), Line: line}
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
