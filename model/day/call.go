package day

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// Call is what the hands are asked for now. Every front end shows it and words nothing itself.
type Call struct {
	ID      string   // verb, object and attempt, "lift A1 4": a change of wording, its last minute and zero never change it
	Verb    string   // lower case: lift, lower, weigh, add, stir, wait, look, rest, close …
	Object  string   // what of: "A1", "A1 B1", "reducer"; may be empty
	Tags    []string // the pieces that go in or come out together by one press
	Short   string   // at most 12 cells, for large letters: "LIFT A1", "A1 IN"; a long tag is cut to 5 with ~
	Words   string   // the sentence: "Lift A1 out"
	Figure  *float64 // what is still to do, in Unit: grams, litres, °C; of a time the seconds left, negative: over
	Unit    string   // "g", "L", "°C", "s"; empty: none
	Due     *Due     // when; nil: no time runs for it
	Press   string   // what the big key does, as a word; empty: nothing
	Danger  bool     // powder, lye, hot water, heater, acid or lifting a vessel belongs to it
	Caution string   // to be answered first; empty: none, or answered
	How     string
	Why     string
	Act     Act // the act behind it
}

// CallOf is the call at an instant: while a day is open there is exactly one.
func CallOf(s State, now time.Time) Call { return s.callOf(Next(s, now), now) }

// CallFor is an act as a call: that of a piece on the bench, which need not be the call of the day.
func CallFor(s State, a Act, now time.Time) Call { return s.callOf(a, now) }

// callOf is an act as a call.
func (s State) callOf(a Act, now time.Time) Call {
	c := Call{Tags: a.Tags, Words: a.Words, Due: s.dueOf(a), Press: a.Press, Caution: a.Caution, How: a.How, Why: a.Why, Act: a}
	var attempt string
	c.Verb, c.Object, attempt = s.named(a)
	c.ID = wording.Joined(" ", c.Verb, c.Object, attempt)
	c.Danger = s.dangerous(a)
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

// dueOf is the end of the time that runs for an act. The turn half-way through a stirring is no end.
func (s State) dueOf(a Act) *Due {
	if a.Kind != ActStep {
		return a.Due
	}
	for _, d := range s.stepDues() {
		if d.Kind != DueTurn {
			return &d
		}
	}
	return nil
}

// Meanwhile is what can be done while the call's time runs, the first first; nothing where the call wants the hands.
func Meanwhile(s State, now time.Time) []Call {
	a := Next(s, now)
	if left, _ := a.Left(now); left <= 0 {
		return nil
	}
	call := s.callOf(a, now)
	var out []Call
	add := func(a Act, ok bool) {
		if c := s.callOf(a, now); ok && c.ID != call.ID && !slices.ContainsFunc(out, func(o Call) bool { return o.ID == c.ID }) {
			out = append(out, c)
		}
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
	for _, a := range s.preparing(now) {
		add(a, true)
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
	for _, p := range s.Pieces {
		b, ok := s.BenchAct(p, now)
		add(b, ok && b.Due == nil && !b.Shut)
	}
	if st, open := s.Open(); open && st.Do == recipe.Weigh {
		add(s.stepAct(st, now), true)
	}
	return out
}

// preparing are the acts that make the next load ready, and lower it where there is room beside what is in.
func (s State) preparing(now time.Time) []Act {
	var out []Act
	st, open := s.Open()
	resting := !s.RestUntil.IsZero() && now.Before(s.RestUntil.Add(s.shift("rest")))
	if !open && !resting && s.Treating == nil && (!s.scalds() || s.Hot) {
		if in := s.beside(now); len(in) > 0 {
			out = append(out, s.enterAct(in))
		} else if p, ok := s.airsNext(); ok && len(s.InVat()) == 0 && s.Vat.Skimmed.Before(s.Vat.Lifted) {
			out = append(out, skimAct(p))
		}
	}
	if open && !st.Waits() {
		return out
	}
	for _, p := range s.Pieces {
		if p.Phase == Dry && !s.refuses(&p) {
			out = append(out, wetAct([]Piece{p}))
		}
	}
	return out
}

// beside are the pieces that could go in now beside what is in the vat.
func (s State) beside(now time.Time) []Piece {
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
	for _, d := range Dues(s) {
		if d.Kind == DueEnter {
			return s.Piece(d.Tag)
		}
	}
	return Piece{}, false
}

// Compare says which of two calls of several vats rules: danger first, then lifting, then the earliest due, where a call
// without a time wants the hands now. Negative: c does.
func (c Call) Compare(o Call) int {
	rank := func(c Call) int {
		switch {
		case c.Danger:
			return 0
		case c.Verb == "lift":
			return 1
		}
		return 2
	}
	left := func(c Call) float64 {
		if c.Due == nil {
			return 0
		}
		return *c.Figure
	}
	return cmp.Or(cmp.Compare(rank(c), rank(o)), cmp.Compare(left(c), left(o)))
}

// Upcoming is what comes after the call, in a few words; empty when nothing is known to.
func Upcoming(s State, now time.Time) string {
	act := Next(s, now)
	if act.Kind == ActLift {
		return s.afterLift(act, now)
	}
	if st, ok := s.Open(); ok {
		for _, d := range s.stepDues() {
			if d.Kind == DueRecheck && d.At.After(now) {
				return "look again at " + Clock(d.At)
			}
		}
		if st.No < len(s.Plan) {
			return wording.Lower(s.Plan[st.No].Title)
		}
		switch {
		case s.Head.Setup.Ending:
			return "the vat has ended; its book stays"
		case len(s.Pieces) > 0:
			return "the first dip"
		}
		return "the pieces"
	}
	if act.Kind == ActBench {
		if words := s.BenchThen(act.Piece); words != "" {
			return words + " of " + act.Piece.Tag
		}
	}
	if act.Kind == ActDecide && act.Dip >= act.Piece.Want() {
		return "no green left in " + act.Piece.Tag + "?"
	}
	if act.Kind == ActWetOut || act.Kind == ActSkim || act.Kind == ActDecide {
		return "in " + act.Piece.Tag + ", edge first"
	}
	for _, d := range Dues(s) {
		if act.Due != nil && d.Timer == act.Due.Timer || act.Kind == ActEnter && d.Tag == act.Piece.Tag {
			continue
		}
		words, _, _ := strings.Cut(wording.Lower(d.Words), ":")
		if d.At.After(now) {
			words += " at " + Clock(d.At)
		}
		return words
	}
	if act.Kind == ActAir && act.Due != nil {
		return wording.Lower(act.Due.Words)
	}
	if act.Kind == ActEnter {
		return "out " + act.Piece.Tag + " after " + act.Piece.DipTime().String()
	}
	return ""
}

// afterLift is what comes after a lift.
func (s State) afterLift(act Act, now time.Time) string {
	if in := s.beside(now); len(in) > 0 {
		return "in " + strings.Join(tagsOf(in), ", ") + ", edge first"
	}
	if act.Dip >= act.Piece.Want() {
		return "last airing of " + act.Piece.Tag + ", " + act.Piece.AirTime(true).String()
	}
	return "air " + act.Piece.Tag + ", " + act.Piece.AirTime(false).String()
}

// Runs tells whether a time runs for the call: to its end, or up, as for a strip that is watched.
func (c Call) Runs() bool { return c.Due != nil || c.Act.Kind == ActStrip }

// Row is the call with its time in one short row, as it stands over other things: "A1 IN, out in 1:55", "LIFT A1 0:40 over",
// "BLUE YET? 0:23". It is empty while no time runs for it.
func (c Call) Row(now time.Time) string {
	switch {
	case !c.Runs():
		return ""
	case c.Due == nil:
		return c.Short + " " + Countdown(time.Duration(*c.Figure*float64(time.Second)))
	}
	left := c.Due.At.Sub(now)
	switch {
	case c.Held(now):
		return c.Short + ", in at zero"
	case left <= 0:
		return c.Short + " " + Countdown(-left) + " over"
	case c.Act.Kind == ActLift && left > LastMinute:
		return c.Short + ", out in " + Countdown(left)
	case c.Act.Kind == ActLift:
		return c.Short + " in " + Countdown(left)
	}
	return c.Short + ", " + Countdown(left) + " left"
}

// NowLine is the present moment in one line: "runner A1 in the vat, dip 3 of 7, 4:10 left".
func NowLine(s State, now time.Time) string { return s.line(CallOf(s, now), now) }

// line is a call as one line: what is so, or what the hands do, and how long it has.
func (s State) line(c Call, now time.Time) string {
	a, words := c.Act, c.lower()
	timed := ""
	if c.Due != nil {
		timed = ", " + Countdown(c.Due.At.Sub(now)) + " left"
		if over := now.Sub(c.Due.At); over > 0 {
			timed = ", " + Countdown(over) + " over"
		}
	}
	if timed != "" {
		words = strings.TrimSuffix(words, "?")
	}
	dip := func(no int) string { return fmt.Sprintf(", dip %d of %d", no, max(no, a.Piece.Want())) }
	switch a.Kind {
	case ActClosed:
		if st := Between(s, now); len(st) > 0 && !st[0].At.IsZero() {
			return "day closed; " + st[0].Words + " at " + st[0].At.Format("Mon 15:04")
		}
		return "day closed"
	case ActStep:
		return fmt.Sprintf("step %d of %d: %s%s", a.Step.No, len(s.Plan), words, timed)
	case ActLift:
		if c.Held(now) {
			return words + dip(a.Dip)
		}
		if c.Due.At.Sub(now) > LastMinute {
			words = s.names(a.Tags) + " in the vat"
		}
		return words + dip(a.Dip) + timed
	case ActAir:
		return fmt.Sprintf("%s airing after%s%s", a.Piece.Name(), strings.TrimPrefix(dip(a.Piece.Dips), ","), timed)
	case ActFinish:
		return a.Piece.Name() + " has aired after" + strings.TrimPrefix(dip(a.Piece.Dips), ",") + timed + ": no green left?"
	case ActDecide:
		return fmt.Sprintf("%s has aired after%s: enough?", a.Piece.Name(), strings.TrimPrefix(dip(a.Piece.Dips), ","))
	case ActBench:
		return a.Piece.Name() + ": " + words + timed
	case ActWetOut, ActSkim, ActEnter:
		tags := a.Tags
		if len(tags) == 0 {
			tags = []string{a.Piece.Tag}
		}
		goes := "goes"
		if len(tags) > 1 {
			goes = "go"
		}
		return s.names(tags) + " " + goes + " in next" + dip(a.Dip) + ": " + words
	}
	return words + timed
}

// names are pieces as they are called out.
func (s State) names(tags []string) string {
	var out []string
	for _, tag := range tags {
		p, _ := s.Piece(tag)
		out = append(out, p.Name())
	}
	return strings.Join(out, ", ")
}
