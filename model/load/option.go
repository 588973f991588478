package load

import (
	"fmt"
	"slices"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Option is one way to do the day, beside others.
type Option struct {
	ID       string // stable: as it is, person, vat, bigger, shorter, feed, fewer
	Name     string
	Pieces   []Piece // as it plans them
	Limits   Limits
	Plan     Plan
	Finish   quantity.Span // all pieces done
	Warnings []string
	Fault    string // why it cannot be planned; then the plan is empty
}

// What the options change. M
const biggerVat = 1.5

// leastDip is the shortest dip that an option asks for: shorter ones come out streaky. C
var leastDip = quantity.Minutes(1)

// Options plans the day as it is and in other ways, side by side: one more person, a second vat, a vat half as large
// again, dips three quarters as long; and, where indigo is reckoned with and the vat tires, feeding and waiting, and fewer
// dips. Each is searched with a quarter of the steps. An option that changes nothing (one more person where hands have no
// limit) is left out. The error is that of the day as it is.
func Options(pieces []Piece, l Limits) ([]Option, error) {
	l.Effort = max(1, l.effort()/4)
	var out []Option
	try := func(id, name string, ps []Piece, m Limits) error {
		p, err := Make(ps, m)
		o := Option{ID: id, Name: name, Pieces: ps, Limits: m, Plan: p, Finish: p.Finish(), Warnings: p.Warnings}
		if err != nil {
			o.Fault = err.Error()
		}
		out = append(out, o)
		return err
	}
	if err := try("as it is", "As it is", pieces, l); err != nil {
		return nil, err
	}
	if l.Hands > 0 {
		m := l
		m.Hands++
		try("person", "One more person", pieces, m)
	}
	if l.Plain {
		return out, nil
	}
	m := l
	m.Vats = max(1, l.Vats) + 1
	try("vat", "A second vat like it", pieces, m)
	if l.Capacity > 0 {
		m = l
		m.Capacity = l.Capacity * biggerVat
		m.Most = int(float64(l.Most) * biggerVat)
		m.Indigo.Holds, m.Indigo.Floor = l.Indigo.Holds*biggerVat, l.Indigo.Floor*biggerVat
		try("bigger", "A vat half as large again", pieces, m)
	}
	short := slices.Clone(pieces)
	for i, p := range pieces {
		short[i].Dip = min(p.Dip, max(leastDip, span(seconds(p.Dip*3/4))))
	}
	if !slices.Equal(short, pieces) {
		try("shorter", "Dips three quarters as long, so paler", short, l)
	}
	if weak := out[0].Plan.Weak; weak > 0 {
		m = l
		m.Indigo = l.Indigo.AnyFeed()
		m.Indigo.Feeds = l.Indigo.Feeds + mostFeeds
		m.Choice = ChoiceFeed
		try("feed", fmt.Sprintf("Feed %v of indigo as reduced stock and wait %v", m.Indigo.Feed, m.Indigo.Wait), pieces, m)
		fewer, name := fewerDips(pieces, l, weak)
		try("fewer", name, fewer, l)
	}
	return out, nil
}

// fewerDips takes dips off, one at a time from the piece that has the most left of those that take the most, until the
// balance bears the rest; no piece loses its last.
func fewerDips(pieces []Piece, l Limits, weak int) ([]Piece, string) {
	out, lost, total := slices.Clone(pieces), map[string]bool{}, 0
	for range len(pieces) * MostDips {
		var least, sum quantity.Mass
		pick := -1
		for i, p := range out {
			sum += p.Takes * quantity.Mass(p.Dips)
			least = max(least, p.Least-p.Takes)
			if p.Dips > 1 && (pick < 0 || p.Takes*quantity.Mass(p.Dips) > out[pick].Takes*quantity.Mass(out[pick].Dips)) {
				pick = i
			}
		}
		holds := (l.Indigo.Holds - l.Indigo.Floor) * quantity.Mass(max(1, l.Vats))
		if pick < 0 || sum <= holds && total >= weak || sum <= holds && total > 0 && least <= 0 {
			break
		}
		out[pick].Dips--
		lost[out[pick].Tag] = true
		total++
	}
	return out, fmt.Sprintf("%s fewer, of %d of the pieces", wording.Counted(total, "dip"), len(lost))
}
