package day

import (
	"strings"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/signs"
)

// Treating is the treatment whose recheck is still to come.
type Treating struct {
	Cause string // by the list of signs
	Do    string
	Since time.Time
	Until time.Time // look again

	before, after *quantity.Span // the last strip before it and the last one since; nil: none
}

// Strips are how long the last strip before it and the last one since stayed yellow; nil: none was pulled.
func (t Treating) Strips() (before, after *quantity.Span) { return t.before, t.after }

// strip is the treatment with one more strip pulled; nil where none is.
func (t *Treating) strip(stayed quantity.Span, at time.Time) *Treating {
	if t == nil {
		return nil
	}
	next := *t
	if at.After(t.Since) {
		next.after = &stayed
	} else {
		next.before = &stayed
	}
	return &next
}

// recheckTimer names the timer of a treatment.
const recheckTimer = "recheck"

// treat writes down what is done about what was seen: its powders, and the wait until it is looked at again.
func (s State) treat(c Treat) ([]Body, error) {
	if strings.TrimSpace(c.Cause) == "" || strings.TrimSpace(c.Do) == "" {
		return refuse("say what is treated, and how")
	}
	if in := s.InVat(); len(in) > 0 {
		return refuse("%s is in the vat: hands and goods out before a treatment", in[0].Tag)
	}
	if c.Wait < 0 || c.Wait > longest {
		return refuse("no treatment is left alone for %s", c.Wait)
	}
	var out []Body
	if len(c.Powders) > 0 {
		var err error
		if out, err = s.dose(Dose{Powders: c.Powders, Why: signs.NameOf(c.Cause)}); err != nil {
			return nil, err
		}
	}
	return append(out, Treated{c.Cause, c.Do, c.Wait}), nil
}

// recheck takes the answer of the look after a treatment.
func (s State) recheck(b Rechecked) ([]Body, error) {
	switch {
	case s.Treating == nil:
		return refuse("nothing was treated that is still to be looked at")
	case b.Answer != signs.Better.String() && b.Answer != signs.Same.String() && b.Answer != signs.Worse.String():
		return refuse("a look says better, the same or worse, not %q", b.Answer)
	}
	b.Cause = s.Treating.Cause
	return []Body{b}, nil
}

// Known is the sign that was seen, of those that have causes; false for the dyer's own words.
func (b SignSeen) Known() (signs.Sign, bool) {
	if sign, ok := signs.Find(b.Sign); ok {
		return sign, true
	}
	if list, err := signs.Parse(b.Sign); err == nil && len(list) == 1 {
		return list[0], true
	}
	return signs.Sign{}, false
}
