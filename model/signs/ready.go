package signs

import (
	"slices"
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Rules of the vat that is called ready:
//
//   - a sign that speaks against it takes it from the first place, however many speak for it;
//   - a vague sign alone (no smell, no froth) makes none ready: one of the good signs must have been seen;
//   - what then stands first must have a sign of its own; else no cause is known, and the answer is another look.

// ownSign is how much a sign must speak for a cause to be its own. M
const ownSign = 2

// readyBelief is the belief that the vat is ready, as its family has it.
func (t task) readyBelief() belief { return beliefOf(readyID).in(t.v.Recipe, t.look) }

// against are the signs that speak against a ready vat; where no sign speaks for one, the vague ones too.
func (t task) against() []string {
	b := t.readyBelief()
	var con, vague []string
	good := false
	for _, id := range t.seen {
		if _, seen := Find(id); !seen { // what was read has its own rules
			continue
		}
		switch w, ok := b.speaks[id]; {
		case ok && w > 1:
			good = true
		case ok || unspoken(id) < 0.5:
			con = append(con, id)
		default:
			vague = append(vague, id)
		}
	}
	if !good {
		con = append(con, vague...)
	}
	return con
}

// notReady keeps, where a sign speaks against a vat that is ready, that one behind the likeliest other, and all causes that
// have no sign of their own behind those that have one, by what these weigh untried: what was tried in vain may fall behind.
func notReady(t task, list []Cause, untried []float64) []Cause {
	if len(t.against()) == 0 {
		return list
	}
	best, other := 0.0, 0.0
	for i, c := range list {
		if t.owned(c) {
			best = max(best, untried[i])
		}
	}
	for i, c := range list {
		if best > 0 && !t.owned(c) {
			list[i].Weight = min(c.Weight, best/2)
		}
		if c.ID != readyID {
			other = max(other, list[i].Weight)
		}
	}
	for i, c := range list {
		if c.ID == readyID {
			list[i].Weight = min(c.Weight, other/2)
		}
	}
	return list
}

// owned tells whether a cause has a sign or a reading of its own: one that speaks for it and not for a ready vat.
func (t task) owned(c Cause) bool {
	good, b := t.readyBelief().speaks, beliefOf(c.ID)
	own := func(id string) bool { return b.speaks[id] >= ownSign && !(good[id] > 1) }
	return b.family.has(t.v.Recipe.Family) && slices.ContainsFunc(t.seen, own)
}

// spoken are the causes that at least one sign speaks for.
func (t task) spoken(list []Cause) []Cause {
	return slices.DeleteFunc(slices.Clone(list), func(c Cause) bool {
		speaks := beliefOf(c.ID).speaks
		return !slices.ContainsFunc(t.seen, func(id string) bool { _, sign := Find(id); return sign && speaks[id] > 1 })
	})
}

// unknown tells whether what stands first has no sign of its own.
func (t task) unknown(list []Cause) bool { return list[0].ID != readyID && !t.owned(list[0]) }

// notKnown is the look that signs without a known cause ask for.
func (t task) notKnown() Cause {
	c := Cause{ID: "not-known", Name: "no cause known here for that",
		Why: "no handbook names a cause for it in such a vat, and one sign alone proves none, common practice"}
	if said := wording.Each(t.against(), words); len(said) > 0 {
		c.Name += ": " + strings.Join(said, ", ")
	}
	t.treat(&c, remedy{act: Look, do: "add nothing; look again, pull a strip, read pH",
		how:     "colour and clearness in a clear glass from below the film; film, froth, smell; °C; a two-minute swatch against the first day's",
		wait:    quantity.Minutes(5),
		recheck: "say all that is seen and read"})
	return c
}
