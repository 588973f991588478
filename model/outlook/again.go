package outlook

import (
	"reflect"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
)

// Again is Blues of the same day at another instant, or of any other: what goes by the same facts as in b is not reckoned anew.
func (b Blue) Again(s day.State, o Outlook, now time.Time) Blue {
	before := b
	b = weighed(s, o, now, before)
	if o.Empty {
		return b
	}
	if !b.sameLooks(before) || b.vat != before.vat {
		before.asked = nil
	}
	for _, p := range s.Pieces {
		if !p.Live() {
			continue
		}
		q := b.question(p)
		i := slices.IndexFunc(b.asked, q.same)
		if i < 0 {
			if k := slices.IndexFunc(before.asked, q.same); k >= 0 {
				q = before.asked[k]
			} else {
				q.answer = b.coming(p)
			}
			i, b.asked = len(b.asked), append(b.asked, q)
		}
		b.Pieces[p.Tag] = b.asked[i].answer.to(b.wish(p))
	}
	return b
}

// sameLooks tells whether two days weight the same possible vats by the same looks.
func (b Blue) sameLooks(x Blue) bool {
	return b.family == x.family && reflect.DeepEqual(b.seen, x.seen)
}

// question is what the forecast of a piece goes by, besides the vat: pieces with the same question have the same answer.
type question struct {
	goods   shade.Piece // its Tag only where looks of the vat carry it
	done    []shade.Dip
	lasting quantity.Span
	wish    *shade.Wish
	answer  Coming
}

func (b Blue) question(p day.Piece) question {
	q := question{goods: goods(p), done: b.done[p.Tag], lasting: p.MeanDip(), wish: b.wish(p)}
	if !b.all.Looked(q.goods.Tag) {
		q.goods.Tag = ""
	}
	return q
}

func (q question) same(r question) bool {
	return q.goods == r.goods && q.lasting == r.lasting && slices.Equal(q.done, r.done) &&
		(q.wish == nil) == (r.wish == nil) && (q.wish == nil || q.wish.Same(*r.wish))
}

// to is the forecast for another piece of the same question, with nothing in it that both could change.
func (c Coming) to(w *shade.Wish) Coming {
	c.Steps, c.Wish = slices.Clone(c.Steps), w
	if c.Now != nil {
		c.Now = new(*c.Now)
	}
	if c.Wished != nil {
		c.Wished = new(*c.Wished)
	}
	return c
}
