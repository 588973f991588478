package home

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/screen"
)

// ordered is the vats as they are listed: open days, then those that wait for the dyer, what is due first on top.
func ordered(env screen.Env) []screen.Vat {
	vats := slices.Clone(env.Home.Vats)
	slices.SortStableFunc(vats, func(a, b screen.Vat) int {
		if c := cmp.Compare(rank(a), rank(b)); c != 0 {
			return c
		}
		if c := first(a).Compare(first(b)); c != 0 {
			return c
		}
		return strings.Compare(name(a), name(b))
	})
	return vats
}

// rank is 0 for an open day, 1 for a time that is waited for, 2 for something without a time, 3 for nothing.
func rank(v screen.Vat) int {
	switch {
	case v.Open:
		return 0
	case !first(v).IsZero():
		return 1
	case len(v.Due) > 0:
		return 2
	}
	return 3
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

func chosen(vats []screen.Vat, vat string) int {
	return max(0, slices.IndexFunc(vats, func(v screen.Vat) bool { return v.Vat == vat }))
}

// due is one thing that is waited for: "due: look: is it ready? tomorrow 9:00".
func due(d day.Standing, env screen.Env) string {
	if d.At.IsZero() {
		return "due: " + d.Words
	}
	at := d.At.In(env.Now.Location())
	word := "due: "
	if !at.After(env.Now) {
		word = "due now: "
	}
	return word + d.Words + ", " + when(at, env.Now)
}

// when is a time as it is said in the yard: "9:00", "tomorrow 9:00", "Sat 9:00", "6 Dec 9:00".
func when(at, now time.Time) string {
	clock := at.Format("15:04")
	if at.Hour() < 10 {
		clock = clock[1:]
	}
	date := func(t time.Time) time.Time { return time.Date(t.Year(), t.Month(), t.Day(), 12, 0, 0, 0, time.UTC) }
	switch days := int(date(at).Sub(date(now)).Hours() / 24); {
	case days == 0:
		return clock
	case days == 1:
		return "tomorrow " + clock
	case days == -1:
		return "since yesterday " + clock
	case days > 1 && days < 7:
		return at.Format("Mon ") + clock
	}
	return at.Format("2 Jan ") + clock
}
