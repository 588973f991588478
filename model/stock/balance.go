package stock

import (
	"cmp"
	"time"

	"example.org/vatside/model/history"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// TinBalance is a tin with the mass that is reckoned to be in it.
type TinBalance struct {
	Tin
	Left  quantity.Mass // never below zero
	Drawn quantity.Mass // by the books since it was last weighed
	Over  quantity.Mass // the books drew so much more since it was last weighed than it held, or while it was sealed
}

// Take is a part of a draw that came out of one tin.
type Take struct {
	Draw int // its place in the draws as they were given
	Tin  string
	Mass quantity.Mass
}

// Balance is every tin with what is left in it. What was drawn is in Takes, or in Loose: no open tin of it held so much.
type Balance struct {
	Tins  []TinBalance
	Takes []Take
	Loose []history.Draw
}

// moment is one thing on the way through time.
type moment struct {
	at    time.Time
	order int // what comes first at one instant: opened, drawn, weighed or gone
	do    func()
}

// Reckon goes through time: every dose draws on the opened tins of its powder, the one that was opened first before the
// others, and a weighing says what is really there. Doses of a powder that no tin holds at that time are loose. A tin
// that the dyer's own test gave up is drawn on by nobody from then on.
func Reckon(tins []Tin, draws []history.Draw) Balance {
	b := Balance{Tins: make([]TinBalance, len(tins))}
	r := reckoning{b: &b, open: make([]bool, len(tins))}
	var way []moment
	for i, t := range tins {
		b.Tins[i] = TinBalance{Tin: t, Left: t.Holds}
		if t.Opened != nil {
			way = append(way, moment{*t.Opened, 0, func() { r.open[i], b.Tins[i].Over = true, 0 }})
		}
		for _, w := range t.Weighings {
			way = append(way, moment{w.At, 2, func() { r.weigh(i, w.Mass) }})
		}
		for _, x := range t.Tests {
			fit := x.Turned && len(x.Seen) == 0
			way = append(way, moment{x.At, 2, func() { r.open[i] = fit && t.Opened != nil && !t.Opened.After(x.At) }})
		}
		if t.Gone != nil {
			way = append(way, moment{t.Gone.At, 3, func() { r.open[i], b.Tins[i].Over = false, 0 }})
		}
	}
	for n, d := range draws {
		if d.Mass > 0 {
			way = append(way, moment{d.At, 1, func() { r.draw(n, d) }})
		}
	}
	sorted.By(way, func(x, y moment) int { return cmp.Or(x.at.Compare(y.at), cmp.Compare(x.order, y.order)) })
	for _, m := range way {
		m.do()
	}
	for i := range b.Tins {
		if b.Tins[i].Gone != nil {
			b.Tins[i].Left = 0
		}
	}
	return b
}

// reckoning is the state of one Balance while events and draws are walked in order of time.
type reckoning struct {
	b    *Balance
	open []bool
}

// weigh sets a tin right, and clears what was drawn on it.
func (r *reckoning) weigh(i int, m quantity.Mass) {
	t := &r.b.Tins[i]
	t.Left, t.Drawn, t.Over = m, 0, 0
}

func (r *reckoning) draw(n int, d history.Draw) {
	s := cmp.Or(d.Substance, substanceOf(d.Material))
	var from []int
	for i, t := range r.b.Tins {
		if r.open[i] && t.same(d.Material, s, formOf(d.Material)) {
			from = append(from, i)
		}
	}
	sorted.By(from, func(x, y int) int { return r.b.Tins[x].Opened.Compare(*r.b.Tins[y].Opened) })
	rest := d.Mass
	for _, i := range from {
		t := &r.b.Tins[i]
		m := min(rest, t.Left)
		if m <= 0 {
			continue
		}
		t.Left, t.Drawn, rest = t.Left-m, t.Drawn+m, rest-m
		r.b.Takes = append(r.b.Takes, Take{n, t.ID, m})
	}
	if rest <= 0 {
		return
	}
	d.Mass = rest
	r.b.Loose = append(r.b.Loose, d)
	if len(from) > 0 {
		r.b.Tins[from[len(from)-1]].Over += rest
		return
	}
	for i, t := range r.b.Tins { // perhaps a tin was opened and nobody said so
		sealed := t.Opened == nil || t.Opened.After(d.At)
		if sealed && !t.Bought.After(d.At) && (t.Gone == nil || t.Gone.At.After(d.At)) && t.same(d.Material, s, formOf(d.Material)) {
			r.b.Tins[i].Over += rest
			return
		}
	}
}

// OnShelf are the tins that are not gone.
func (b Balance) OnShelf() []TinBalance {
	return wording.Only(b.Tins, func(t TinBalance) bool { return t.Gone == nil })
}
