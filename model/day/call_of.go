package day

import (
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// CallOf is the call at an instant: while a day is open there is exactly one.
func CallOf(s State, now time.Time) Call { return s.CallFor(Next(s, now), now) }

// CallFor is an act as a call: that of a piece on the bench need not be the call of the day.
func (s State) CallFor(a Act, now time.Time) Call {
	c := Call{Tags: a.Tags, Words: a.Words, Due: s.dueOf(a), Press: a.Press, Caution: a.Caution, How: a.How, Why: a.Why, Act: a}
	c.Verb, c.Object, c.ID = s.identified(a)
	c.Danger = s.dangerous(a)
	if s.hears(a, now) {
		c.Press = pressHeard
	}
	switch {
	case c.Held(now):
		c.Words = "Hold " + strings.Join(a.Tags, ", ") + ": in at zero"
	case a.Kind == ActLift && c.Due.At.Sub(now) > LastMinute:
		c.Words = strings.Join(a.Tags, ", ") + " in the vat"
	case a.Kind == ActStep && c.Due != nil && c.Due.Kind == DueStep && !now.Before(c.Due.At):
		c.Words = c.Due.Words
	}
	c.Short = s.short(c, now)
	c.Figure, c.Unit = s.toDo(a)
	if out, watched := s.Watched(now); watched && a.Kind == ActStrip { // counted up
		sec := out.Seconds()
		c.Figure, c.Unit = &sec, "s"
	}
	if c.Due != nil {
		left := c.Due.At.Sub(now).Seconds()
		c.Figure, c.Unit = &left, "s"
	}
	return c
}

// identified are the verb, the object and the id of an act's call.
func (s State) identified(a Act) (verb, object, id string) {
	verb, object, attempt := s.named(a)
	return verb, object, wording.Joined(" ", verb, object, attempt)
}

// dueOf is the end of the time that runs for an act. The turn half-way through a stirring is no end.
func (s State) dueOf(a Act) *Due {
	if a.Kind != ActStep {
		return a.Due
	}
	if d, ok := wording.First(s.stepDues(), func(d Due) bool { return d.Kind != DueTurn }); ok {
		return &d
	}
	return nil
}

// Meanwhile is what can be done while the call's time runs, the first first; nothing where the call wants the hands.
func (c Call) Meanwhile(s State, now time.Time) (out []Call) {
	c.besides(s, now, func(a Act) bool {
		out = append(out, s.CallFor(a, now))
		return true
	})
	return out
}

// Beside is the first of Meanwhile that is wanted; false where none is.
func (c Call) Beside(s State, now time.Time, wanted func(Act) bool) (first Call, ok bool) {
	c.besides(s, now, func(a Act) bool {
		if ok = wanted(a); ok {
			first = s.CallFor(a, now)
		}
		return !ok
	})
	return first, ok
}

// AnyAct wants each.
func AnyAct(Act) bool { return true }

// besides gives the acts of Meanwhile, each id once, for as long as more are asked for.
func (c Call) besides(s State, now time.Time, more func(Act) bool) {
	if left, _ := c.Act.Left(now); left <= 0 {
		return
	}
	ids, asked := []string{c.ID}, true
	add := func(a Act, ok bool) bool {
		if ok && asked {
			if _, _, id := s.identified(a); !slices.Contains(ids, id) {
				ids, asked = append(ids, id), more(a)
			}
		}
		return asked
	}
	add(s.stripAct(now))
	dues := Dues(s)
	for _, d := range dues {
		if d.Kind == DueBath && !now.Before(d.At) {
			add(s.bathAct(d, now), true)
		}
	}
	for _, a := range s.looksOf(s.Pieces, now) {
		add(a, true)
	}
	if !asked || !s.preparing(now, add) {
		return
	}
	if a, waits := s.lookAct(dues, now); waits {
		add(a, a.Kind == ActLook)
	}
	for _, d := range dues {
		if d.Kind == DueFinish && !now.Before(d.At) {
			p, _ := s.Piece(d.Tag)
			add(s.finishAct(p, &d), true)
		}
	}
	for i := 0; i < len(s.Pieces) && asked; i++ {
		b, ok := s.BenchAct(s.Pieces[i], now)
		add(b, ok && b.Due == nil && !b.Shut)
	}
	if st, open := s.Open(); open && st.Do == recipe.Weigh {
		add(s.stepAct(st, now), true)
	}
	add(soundAct(), AsksSound(s))
}

// preparing gives the acts that make the next load ready, and lower it where there is room beside what is in. False: no more is asked for.
func (s State) preparing(now time.Time, add func(Act, bool) bool) bool {
	more := add(s.entering(now))
	if st, open := s.Open(); open && !st.Waits() {
		return more
	}
	bears := s.Bearing()
	for i := 0; i < len(s.Pieces) && more; i++ {
		p := &s.Pieces[i]
		if p.Phase != Dry || p.pasted() || s.Comes(p).After(now) {
			continue
		}
		if v, _ := bears(*p); v != fibre.Refused {
			more = add(wetAct([]Piece{*p}), true)
		}
	}
	return more
}

// entering is the act that lowers the next load beside what is in, or makes the vat ready for it; false where there is none.
func (s State) entering(now time.Time) (Act, bool) {
	_, open := s.Open()
	resting := !s.RestUntil.IsZero() && now.Before(s.RestUntil.Add(s.shift("rest")))
	if open || resting || s.Talks() || s.Treating != nil || s.scalds() && !s.Hot {
		return Act{}, false
	}
	if in := s.beside(now); len(in) > 0 {
		return s.enterAct(in, now), true
	}
	if p, ok := s.airsNext(); ok && len(s.InVat()) == 0 && s.Vat.Skimmed.Before(s.Vat.Lifted) {
		return skimAct(p), true
	}
	return Act{}, false
}

// beside are the pieces that could go in now beside what is in the vat; none while the class is talked to.
func (s State) beside(now time.Time) []Piece {
	if s.Talks() {
		return nil
	}
	var can []waiting
	for i := range s.Pieces {
		if since, ok := s.waits(&s.Pieces[i], now); ok {
			can = append(can, waiting{&s.Pieces[i], since})
		}
	}
	return s.choose(can, now)
}

// airsNext is the piece whose airing before another dip is over first.
func (s State) airsNext() (Piece, bool) {
	d, is := wording.First(Dues(s), func(d Due) bool { return d.Kind == DueEnter })
	p, ok := s.Piece(d.Tag)
	return p, is && ok
}

// Second is what the press answers while the call's time runs, else the first of what can be done then, in a few words: "meanwhile: is B1
// wet through?".
func (c Call) Second(first Call) string {
	if c.Press == pressHeard {
		return "meanwhile: " + wording.Lower(soundAct().Words)
	}
	return "meanwhile: " + first.Brief()
}

// Spoken is what is said when a deadline comes: the call, where the deadline is of the call or of a piece in it, else what the
// hands do then.
func Spoken(s State, d Due, now time.Time) string {
	if c := CallOf(s, now); c.Of(d) {
		return c.spoken(s, now)
	}
	return s.saysShort(d, now)
}

// saysShort is what a deadline says, of a piece to come out or to go in the piece first: "A1 out".
func (s State) saysShort(d Due, now time.Time) string {
	says := s.Says(d, now)
	switch {
	case d.Tag == "":
		return says
	case d.Kind == DueLift:
		return d.Tag + " out"
	case d.Kind == DueEnter && says == d.Words: // a least time: the call says when it goes in
		if a, ok := CallOf(s, now).entry(s, now); ok && slices.Contains(a.Tags, d.Tag) && !now.Before(d.At) {
			return d.Tag + " has aired and may go in"
		}
		return d.Tag + " has aired"
	}
	return says
}

// Of tells whether a deadline is that of the call, or of a piece in it.
func (c Call) Of(d Due) bool {
	switch of := c.Due; {
	case of != nil && of.Timer == d.Timer && of.Kind == d.Kind,
		d.Kind == DueLift && c.Verb == "lift" && slices.Contains(c.Tags, d.Tag),
		d.Kind == DueEnter && c.Due == nil && (c.Act.Piece.Tag == d.Tag || slices.Contains(c.Tags, d.Tag)):
		return true
	}
	return false
}

// spoken is a call as it is called across a yard, the piece first: "A1 out, then B1 in".
func (c Call) spoken(s State, now time.Time) string {
	if c.Act.Kind != ActLift && c.Act.Kind != ActEnter {
		return c.Words
	}
	return c.aloud(s, now)
}

// aloud is a call in a few words, with where its pieces hang on the line: "B1 in, peg 2".
func (c Call) aloud(s State, now time.Time) string {
	words := c.Brief()
	words += wording.If(strings.HasSuffix(c.Words, ", no hands"), ", no hands")
	switch c.Act.Kind {
	case ActEnter:
		words = wording.Joined(", ", words, s.hung(c.Tags))
	case ActBench:
		if c.Caution == "" {
			words = wording.Joined(", ", words, c.Amount(s, now))
		}
	case ActLift:
		if in := s.beside(now); len(in) > 0 {
			tags := tagsOf(in)
			words = wording.Joined(", ", words, "then "+strings.Join(tags, ", ")+" in", s.hung(tags))
		}
	}
	return words
}

// Without is the call with some of what goes in or comes out together left as it is; the id stays. Where nothing would be left,
// or no two pieces are in it, it is the call itself.
func (c Call) Without(s State, tags []string, now time.Time) Call {
	a, ok := s.less(c.Act, tags, now)
	if !ok {
		return c
	}
	part := s.CallFor(a, now)
	part.ID = c.ID
	return part
}

// less is an act on several pieces without some of them; false where that is the act itself, or nothing.
func (s State) less(a Act, tags []string, now time.Time) (Act, bool) {
	stay := wording.Some(a.Tags, func(tag string) (Piece, bool) {
		p, ok := s.Piece(tag)
		return p, ok && !slices.Contains(tags, tag)
	})
	if len(stay) == 0 || len(stay) == len(a.Tags) {
		return a, false
	}
	switch a.Kind {
	case ActLift:
		var dues []Due
		for i := range stay {
			dues = append(dues, s.liftDue(&stay[i]))
		}
		return s.liftAct(dues), true
	case ActEnter:
		return s.enterAct(stay, now), true
	case ActWetOut:
		return wetAct(stay), true
	}
	return a, false
}
