package answer

import (
	"slices"
	"strings"
	"sync"
	"time"

	"example.org/vatside/model/day"
)

// Rows is the table, in the order of its groups. It is not to be changed.
var Rows = sync.OnceValue(func() []Row {
	return slices.Concat(pressRows(), lookRows(), readRows(), vatRows(), goodsRows(), benchRows(), aroundRows(), askRows())
})

// Find is a row by its ID.
func Find(id string) (Row, bool) {
	r, ok := rowsByID()[id]
	return r, ok
}

// rowsByID and rowsByKey are the table by its IDs and by its keys.
var (
	rowsByID  = by(func(r Row) string { return r.ID })
	rowsByKey = by(func(r Row) string { return r.Key })
)

// by is the table by what each row has of something, as far as it has any.
func by(of func(Row) string) func() map[string]Row {
	return sync.OnceValue(func() map[string]Row {
		out := map[string]Row{}
		for _, r := range Rows() {
			if of(r) != "" {
				out[of(r)] = r
			}
		}
		return out
	})
}

// Section is a heading with its rows.
type Section struct {
	Title string
	Rows  []Row
}

// List is what can be said now: first what the present act asks for, then the rest by its groups.
func List(s day.State, now time.Time) []Section {
	act := day.Next(s, now)
	first := Section{Title: "Now"}
	rest := map[Group][]Row{}
	for _, r := range Rows() {
		switch {
		case !r.Now(s):
		case r.Fits != nil && r.Fits(s, act):
			first.Rows = append(first.Rows, r)
		default:
			rest[r.Group] = append(rest[r.Group], r)
		}
	}
	out := []Section{}
	if len(first.Rows) > 0 {
		out = append(out, first)
	}
	for g := Call; g <= Ask; g++ {
		if len(rest[g]) > 0 {
			out = append(out, Section{g.String(), rest[g]})
		}
	}
	return out
}

// ByKey is the row that has a key, as it is shown.
func ByKey(key string) (Row, bool) {
	r, ok := rowsByKey()[key]
	return r, ok
}

// byKey finds the row whose key a line begins with: "r 36".
func (l *Line) byKey(line string) (Row, bool) {
	key, rest, _ := strings.Cut(line, " ")
	r, ok := ByKey(key)
	if !ok || len([]rune(key)) != 1 || len(r.Words) == 0 {
		return Row{}, false
	}
	l.Word, l.Rest = r.Words[0], strings.TrimSpace(rest)
	return r, true
}
