package command

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

func (p *program) nowCommand() *cobra.Command {
	return p.command("now", "The present moment in one line", nil, nil, p.inHome(p.now))
}

func (p *program) now(h shelf.Home, _ *reader) error {
	all := got(p.survey(h))
	days, dues, open := []object{}, []object{}, 0
	var first object // the call of the day that rules; null where none is open
	var lines []string
	for _, s := range all {
		if !s.Open() {
			for _, d := range day.Between(s.State, s.Now) {
				at := wording.If(!d.At.IsZero(), ", "+d.At.Format("Mon 2 Jan 15:04"))
				dues = append(dues, object{{"vat", s.Vat}, {"words", d.Words}, {"at", instant(d.At)}, {"liquor", nil}}) // that of a closed day is not reckoned
				if open == 0 {
					lines = append(lines, fmt.Sprintf("%s%s: %s%s", s.VatName(), s.Tag(), d.Words, at))
				}
			}
			continue
		}
		line := day.NowLine(s.State, s.Now)
		if open++; p.json {
			call := s.Call()
			if days = append(days, dayKeys(s, line, call)); open == 1 {
				first = callKeys(call)
			}
		}
		lines = append(lines, fmt.Sprintf("%s: %s", s.Title(), line))
		if why := s.State.Sound.Failed; why != "" {
			lines = append(lines, fmt.Sprintf("%s: a call could not be sounded, %s; nothing is taken as planned that nobody hears", s.Title(), why))
		}
	}
	if p.json {
		return p.asJSON(object{{"days", days}, {"due", dues}, {"call", first}})
	}
	if len(lines) == 0 {
		lines = []string{"No day is open."}
	}
	for _, l := range lines {
		p.say("%s", l)
	}
	return nil
}

// dayKeys are the keys of an open day in now --json. left_s below 0 is over; sound is how the calls are heard: by the sound check, null
// where it was not answered, and why a call could not be sounded since.
func dayKeys(s library.Day, line string, call day.Call) object {
	var left *float64
	if call.Due != nil {
		left = call.Figure
	}
	return object{
		{"vat", s.Vat}, {"day", s.Name}, {"rehearsed", s.State.Head.Rehearsed}, {"at", stamp(s.Now)}, {"line", line}, {"due_at", as(call.Due, dueAt)}, {"left_s", left},
		{"liquor", liquorOf(s)}, {"call", callKeys(call)},
		{"sound", object{{"heard", when(!s.State.Sound.At.IsZero(), s.State.Sound.Heard)}, {"failed", some(s.State.Sound.Failed)}}},
	}
}

// liquorOf is how the liquor of an open day stands at its present, as now --json has it. What is not known is null, and so is how
// it is known; below_low_at is null too where it is not within twelve hours or a longer wait, or is already.
func liquorOf(s library.Day) object {
	o := outlook.Of(s.State, s.Now)
	heat, ph, reducer, indigo := knownAs(o.Heat.Known), knownAs(o.PH.Known), knownAs(o.Reducer.Known), knownAs(o.Indigo.Known)
	at := func(t time.Time) *string { return when(heat != nil && !t.IsZero(), stamp(t)) }
	acid := func(p quantity.PH) *float64 { return when(ph != nil, tidy(float64(p))) }
	return object{
		{"temp_c", when(heat != nil, tidy(o.Heat.Now.Celsius()))}, {"temp_known", heat}, {"below_low_at", at(o.Heat.Below)}, {"lidded_below_low_at", at(o.Heat.Lidded)},
		{"ph_low", acid(o.PH.Now.Low)}, {"ph_likely", acid(o.PH.Now.Likely)}, {"ph_high", acid(o.PH.Now.High)}, {"ph_known", ph},
		{"reducer_rest_h", when(reducer != nil, spreadOf(o.Reducer.Rest, quantity.Span.Hours))},
		{"reducer_work_h", when(reducer != nil, spreadOf(o.Reducer.Work, quantity.Span.Hours))}, {"reducer_known", reducer},
		{"indigo_g", when(indigo != nil, spreadOf(o.Indigo.Left, quantity.Mass.Grams))}, {"indigo_known", indigo},
	}
}

// tellAll is the program without a terminal: how things stand, in sentences.
func (p *program) tellAll(h shelf.Home) error {
	all := got(p.survey(h))
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
	p.say("Recipes at hand: %s.", wording.List(p.recipeIDs()))
	p.say("The book is in %s.", h.Dir())
	if p.Getenv("TERM") == "dumb" {
		p.say("This terminal cannot draw the screens: follow the day line by line with: vatside --plain")
		return nil
	}
	p.say("Type vatside in a terminal to open it; vatside --plain follows the day line by line; vatside --help lists the commands.")
	return nil
}
