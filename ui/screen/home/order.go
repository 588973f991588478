package home

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// ordered is the vats as they are shown: in the yard each in its own place, by its name in the book; in a list by what they wait for.
func ordered(env screen.Env) []screen.Vat {
	vats := slices.Clone(env.Home.Vats)
	if inYard(vats, env) {
		sorted.By(vats, func(a, b screen.Vat) int {
			return cmp.Or(strings.Compare(a.Vat, b.Vat), strings.Compare(a.Day, b.Day))
		})
		return vats
	}
	sorted.By(vats, func(a, b screen.Vat) int { return sooner(a, b, env.Now) })
	return vats
}

// inYard tells whether the yard has room for the vats.
func inYard(vats []screen.Vat, env screen.Env) bool {
	return len(vats) <= widget.Places(env.Width, env.Height)
}

// urgent is the vat that wants the hands first.
func urgent(vats []screen.Vat, env screen.Env) int {
	first := 0
	for i := range vats {
		if sooner(vats[i], vats[first], env.Now) < 0 {
			first = i
		}
	}
	return first
}

// sooner says which of two vats wants the hands first: open days, then those that are overdue, the latest on top, then those that wait
// for a time, the first of them on top.
func sooner(a, b screen.Vat, now time.Time) int {
	ra, rb, later := rank(a, now), rank(b, now), 0
	if ra == isDue && rb == isDue {
		later = cmp.Compare(late(b, now), late(a, now))
	}
	return cmp.Or(cmp.Compare(ra, rb), later, first(a).Compare(first(b)), strings.Compare(name(a), name(b)))
}

// The ranks of vats.
const (
	isOpen   = iota // its day is open
	isDue           // something is due, by the clock or by its state
	waits           // a time is waited for
	timeless        // something is, without a time
	rests           // nothing
)

func rank(v screen.Vat, now time.Time) int {
	_, due := wants(v)
	at := first(v)
	switch {
	case v.Open:
		return isOpen
	case due || !at.IsZero() && !at.After(now):
		return isDue
	case !at.IsZero():
		return waits
	case len(v.Due) > 0:
		return timeless
	}
	return rests
}

// wants is the most pressing care that a vat wants now; false where none is due. A wait is told by itself.
func wants(v screen.Vat) (history.Due, bool) {
	return wording.First(v.Care, func(d history.Due) bool { return !d.Coming && d.ID != history.Wait })
}

// late is by how much the most pressing thing of a vat is past.
func late(v screen.Vat, now time.Time) time.Duration {
	d, _ := wants(v)
	by := max(0, d.Past.Duration())
	if at := first(v); !at.IsZero() {
		by = max(by, now.Sub(at))
	}
	return by
}

// care is one thing that a vat wants, in words: "overdue by 3 days: look at it, and pull a strip"; what comes as "next, tomorrow:
// look at it".
func care(d history.Due, v screen.Vat, env screen.Env) string {
	now := env.Now
	if v.Rehearsed && !d.At.IsZero() { // it has a clock of its own
		now = d.At.Add(d.Past.Duration())
	}
	what := d.Do // how much it is, its own screen says, which knows the whole book
	if what != "" {
		what = strings.ToLower(what[:1]) + what[1:]
	}
	when := d.When(now)
	switch {
	case !d.Coming:
		return when + ": " + what
	case when != "":
		return "next, " + when + ": " + what
	}
	return "when it suits: " + what
}

// first is the earliest time that a vat waits for.
func first(v screen.Vat) time.Time {
	var at time.Time
	for _, d := range v.Due {
		if !d.At.IsZero() && (at.IsZero() || d.At.Before(at)) {
			at = d.At
		}
	}
	return at
}

// Lists tells whether the list of vats is shown, and nothing that Esc would close.
func (h home) Lists() bool { return h.setting == nil && !h.ending }

// First is the day that is chosen as home is opened, VAT/DAY; empty without a vat.
func First(env screen.Env) string {
	if vats := ordered(env); len(vats) > 0 {
		return vats[urgent(vats, env)].ID()
	}
	return ""
}

// chosen is the place of the chosen entry; where its day is another by now, that of its vat; where none was chosen, that of the most
// urgent.
func chosen(vats []screen.Vat, id string, env screen.Env) int {
	if id == "" {
		return urgent(vats, env)
	}
	if at := slices.IndexFunc(vats, func(v screen.Vat) bool { return v.ID() == id }); at >= 0 {
		return at
	}
	vat, _, _ := strings.Cut(id, "/")
	return max(0, slices.IndexFunc(vats, func(v screen.Vat) bool { return v.Vat == vat }))
}

// due is one thing that is waited for: "due: look: is it ready? tomorrow 09:00".
func due(d day.Standing, env screen.Env) string {
	if d.At.IsZero() {
		return "due: " + d.Words
	}
	at := d.At.In(env.Now.Location())
	word := wording.Either(!at.After(env.Now), "due now: ", "due: ")
	return strings.Replace(word+d.Words+", "+when(at, env.Now), "?,", "?", 1)
}

// when is a time with its day where that is not today: "09:00", "tomorrow 09:00", "Sat 5 Dec 09:00", "12 Dec 09:00".
func when(at, now time.Time) string {
	clock := at.Format("15:04")
	switch days := wording.Nights(now, at); {
	case days == 0:
		return clock
	case days == 1:
		return "tomorrow " + clock
	case days == -1:
		return "since yesterday " + clock
	case days > 1 && days < 7:
		return at.Format("Mon 2 Jan ") + clock
	}
	return at.Format("2 Jan ") + clock
}
