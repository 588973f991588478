package command

import (
	"fmt"

	"github.com/spf13/cobra"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/wording"
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
	Sound  nowSound   `json:"sound"`
}

// nowSound is how the calls of the day are heard.
type nowSound struct {
	Heard  *bool   `json:"heard"`  // by the sound check; null: not answered
	Failed *string `json:"failed"` // why a call could not be sounded since; null: none failed
}

// soundOf is how the calls of a day are heard.
func soundOf(s day.State) nowSound {
	out := nowSound{Failed: some(s.Sound.Failed)}
	if !s.Sound.At.IsZero() {
		out.Heard = new(s.Sound.Heard)
	}
	return out
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
		if !s.Open() {
			for _, d := range day.Between(s.State, s.Now) {
				due := nowDue{Vat: s.Vat, Words: d.Words}
				at := ""
				if !d.At.IsZero() {
					due.At, at = new(stamp(d.At)), ", "+d.At.Format("Mon 2 Jan 15:04")
				}
				out.Due = append(out.Due, due)
				if len(out.Days) == 0 {
					lines = append(lines, fmt.Sprintf("%s%s: %s%s", s.VatName(), s.Tag(), d.Words, at))
				}
			}
			continue
		}
		line := day.NowLine(s.State, s.Now)
		d := nowDay{Vat: s.Vat, Day: s.Name, Rehearsed: s.State.Head.Rehearsed, At: stamp(s.Now), Line: line, Sound: soundOf(s.State)}
		call := s.Call()
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
		lines = append(lines, fmt.Sprintf("%s: %s", s.Title(), line))
		if why := s.State.Sound.Failed; why != "" {
			lines = append(lines, fmt.Sprintf("%s: a call could not be sounded, %s; nothing is taken as planned that nobody hears", s.Title(), why))
		}
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
		case s.Open():
			p.say("%s%s, day %s is open: %s.", s.VatName(), s.Tag(), s.Name, day.NowLine(s.State, s.Now))
			if then := day.Upcoming(s.State, s.Now); then != "" {
				p.say("  Then: %s.", then)
			}
		case s.State.Ended:
			p.say("%s%s: the vat has ended.", s.VatName(), s.Tag())
		default:
			p.say("%s%s: last day %s, closed at %s.", s.VatName(), s.Tag(), s.Name, day.DateOf(s.State.At, s.Now))
			for _, d := range day.Between(s.State, s.Now) {
				if d.At.IsZero() {
					p.say("  Due: %s.", d.Words)
				} else {
					p.say("  Due %s: %s.", d.At.Format("Mon 2 Jan 15:04"), d.Words)
				}
			}
			for _, d := range s.Care(h) {
				if !d.Coming && d.ID != history.Wait {
					p.say("  %s: %s.", d.Do, d.When(s.Now))
				}
			}
		}
	}
	var ids []string
	for _, r := range p.atHand() {
		ids = append(ids, r.ID)
	}
	p.say("Recipes at hand: %s.", wording.List(ids))
	p.say("The book is in %s.", h.Dir())
	if p.Getenv("TERM") == "dumb" {
		p.say("This terminal cannot draw the screens: follow the day line by line with: vatside --plain")
		return nil
	}
	p.say("Type vatside in a terminal to open it; vatside --plain follows the day line by line; vatside --help lists the commands.")
	return nil
}
