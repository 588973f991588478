package day

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/load"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/wording"
)

// Advised is the day with the timetable's advice: whose turn it is, the next first, and which pieces go in in one go. What is
// called to go in now stays called: another timetable counts from the next call on.
func (s State) Advised(turn []string, goes [][]string, now time.Time) State {
	s.hold(now)
	s.Turn, s.Goes = turn, goes
	return s
}

// AdvisedBefore is Advised for a timetable that was there before what is called since the last event: that goes by it, too.
func (s State) AdvisedBefore(turn []string, goes [][]string) State {
	s.Turn, s.Goes, s.held = turn, goes, nil
	s.hold(s.At)
	return s
}

// hold keeps in mind what is called to go in at an instant, or at the last event if that is later.
func (s *State) hold(at time.Time) {
	at = Latest(at, s.At, s.heldAt)
	s.held, s.heldAt = tagsOf(s.called(at)), at
}

// called are the pieces that are called to go in at an instant; none while something else comes before them. They stay the
// same until they are in, cannot go in any more, or something else is called; a fresh piece also gives way where it must
// when an airing is over.
func (s State) called(now time.Time) []Piece {
	if s.Closed || s.Treating != nil || s.Talks() {
		return nil
	}
	if _, open := s.Open(); open {
		return nil
	}
	from := s.heldAt
	if !s.RestUntil.IsZero() {
		end := s.RestUntil.Add(s.shift("rest"))
		if now.Before(end) {
			return nil
		}
		from = Latest(from, end)
	}
	var can []waiting
	for i := range s.Pieces {
		p := &s.Pieces[i]
		if p.Phase == InVat {
			return nil
		}
		if p.inBath() && !now.Before(p.Finishing.Since.Add(p.Finishing.For.Duration()+s.shift("bath "+p.Tag))) {
			return nil
		}
		if since, ok := s.waits(p, now); ok {
			can = append(can, waiting{p, since})
		}
	}
	if len(can) == 0 {
		return nil
	}
	in := s.stillHeld(can)
	if len(in) == 0 {
		in = s.choose(can, from)
	}
	sorted.By(can, func(a, b waiting) int { return a.since.Compare(b.since) })
	for _, w := range can { // each airing that ended since
		if len(in) > 0 && in[0].Phase > InVat {
			break
		}
		if w.since.After(from) && (len(in) == 0 || w.Phase > InVat) {
			in = s.choose(can, w.since)
		}
	}
	return in
}

// stillHeld are the pieces that were called and still can go in.
func (s State) stillHeld(can []waiting) []Piece {
	var out []Piece
	for _, tag := range s.held {
		if i := slices.IndexFunc(can, func(w waiting) bool { return w.Tag == tag }); i >= 0 && !s.refuses(can[i].Piece) {
			out = append(out, *can[i].Piece)
		}
	}
	return out
}

// Comes is when the person of a fresh piece comes; zero where nobody is waited for.
func (s State) Comes(p *Piece) time.Time {
	if at := Wished(s.Opened, p.Spec.From); at != nil && p.Phase < InVat && at.Sub(s.Opened) < farthest {
		return *at
	}
	return time.Time{}
}

// Leaves is when the person of a piece leaves, the next such time of day after the piece was listed; zero where nobody does.
func (s State) Leaves(p Piece) time.Time {
	if at := Wished(Latest(s.Opened, p.listed), p.Spec.Till); at != nil {
		return *at
	}
	return time.Time{}
}

// waiting is a piece that can go in, and since when; zero: a fresh one of somebody who is there, or one that is said to be aired.
type waiting struct {
	*Piece
	since time.Time
}

// waits tells whether a piece waits to go in at an instant, and since when.
func (s State) waits(p *Piece, now time.Time) (since time.Time, ok bool) {
	switch p.Phase {
	case Dry, Wet:
		comes := s.Comes(p)
		return comes, !now.Before(comes)
	case Aired:
		return time.Time{}, p.Dips < p.Want()
	case Airing:
		over := p.Since.Add(p.For.Duration() + s.shift("air "+p.Tag))
		return over, p.Dips < p.Want() && !now.Before(over)
	}
	return time.Time{}, false
}

func (s State) refuses(p *Piece) bool {
	v, _ := s.bears(*p)
	return v == fibre.Refused
}

// choose are the pieces that go in next, of those that can at an instant: those whose airing is over first, longest over first; then fresh
// ones, first what must go in within the hour to be out before its person leaves, then the most dips first, while the vat is strong (common
// practice); by the timetable where there is one, with those that it lowers in the same go. Only as many as have room.
func (s State) choose(waits []waiting, at time.Time) []Piece {
	load := wording.Sum(s.InVat(), func(p Piece) quantity.Mass { return p.Spec.Dry })
	var can []waiting
	bears := s.Bearing()
	for _, w := range waits {
		if w.since.After(at) || !s.room(load, w.Spec.Dry) {
			continue
		}
		if v, _ := bears(*w.Piece); v != fibre.Refused {
			can = append(can, w)
		}
	}
	if len(can) == 0 {
		return nil
	}
	best := s.turn(can, at)
	out := []Piece{*best.Piece}
	load += best.Spec.Dry
	for _, tag := range s.goWith(best.Tag) {
		if i := slices.IndexFunc(can, func(w waiting) bool { return w.Tag == tag }); i >= 0 && s.room(load, can[i].Spec.Dry) {
			out = append(out, *can[i].Piece)
			load += can[i].Spec.Dry
		}
	}
	return out
}

// room tells whether goods have room beside a load that is in: 20 L for each kg dry. What goes in alone always has.
func (s State) room(load, dry quantity.Mass) bool {
	return load <= 0 || s.holds().Litres() >= vessel.LeastRatio*(load+dry).Kilograms()
}

// pressing is from how long before the last instant at which it can go in a piece whose person leaves goes before other fresh ones. M
const pressing = time.Hour

func (s State) turn(can []waiting, at time.Time) waiting {
	for _, tag := range s.Turn {
		if w, is := wording.First(can, func(w waiting) bool { return w.Tag == tag }); is {
			return w
		}
	}
	aired := func(w waiting) bool { return w.Phase == Airing || w.Phase == Aired }
	latest := func(w waiting) time.Time { // at which it can go in; far off where nothing presses, or it is too late already
		if last := s.Leaves(*w.Piece).Add(-w.course()); !last.Before(at) && last.Sub(at) < pressing {
			return last
		}
		return at.Add(farthest)
	}
	best := can[0]
	for _, w := range can[1:] {
		switch {
		case aired(w) != aired(best):
			if aired(w) {
				best = w
			}
		case aired(w):
			if w.Since.Add(w.For.Duration()).Before(best.Since.Add(best.For.Duration())) {
				best = w
			}
		case !latest(w).Equal(latest(best)):
			if latest(w).Before(latest(best)) {
				best = w
			}
		case w.Want()-w.Dips > best.Want()-best.Dips:
			best = w
		}
	}
	return best
}

// goWith are the other pieces that the timetable lowers in one go with a piece.
func (s State) goWith(tag string) []string {
	if g, ok := wording.First(s.Goes, func(g []string) bool { return slices.Contains(g, tag) }); ok {
		return wording.Only(g, func(t string) bool { return t != tag })
	}
	return nil
}

func tagsOf(pieces []Piece) []string {
	return wording.Each(pieces, func(p Piece) string { return p.Tag })
}

// handling is one lowering or lifting by form.
var handling = load.UsualHandling()

// nearLeast is how near two ends are always taken as one, nearShare how near in shares of the dip: no eye sees it. M
const (
	nearLeast = 5 * time.Second
	nearShare = 20
)

// near is how much later than a dip of this piece another may end and still come out with it: the hands are at the vat anyway.
func (p Piece) near(dip time.Duration) time.Duration {
	h, ok := handling[p.Spec.Form]
	if !ok {
		h = handling[load.Cloth]
	}
	return max(nearLeast, min(h.Duration(), dip/nearShare))
}

// lifts are the lifts that run, soonest first, those together that are due together.
func (s State) lifts() [][]Due {
	var dues []Due
	for i := range s.Pieces {
		if p := &s.Pieces[i]; p.Phase == InVat {
			dues = append(dues, s.liftDue(p))
		}
	}
	sorted.By(dues, func(a, b Due) int { return a.At.Compare(b.At) })
	var out [][]Due
	for _, d := range dues {
		if n := len(out) - 1; n >= 0 {
			first := out[n][0]
			if p, _ := s.Piece(first.Tag); d.At.Sub(first.At) <= p.near(first.At.Sub(first.Since)) {
				out[n] = append(out[n], d)
				continue
			}
		}
		out = append(out, []Due{d})
	}
	return out
}

// enterAct leads pieces in: wet them, skim, lower them.
func (s State) enterAct(in []Piece, now time.Time) Act {
	p := in[0]
	if s.scalds() && !s.Hot {
		return s.coolAct(p)
	}
	if dry := wording.Only(in, func(p Piece) bool { return p.Phase == Dry && !p.pasted() }); len(dry) > 0 {
		return wetAct(dry)
	}
	if len(s.InVat()) == 0 && (s.Vat.Skimmed.IsZero() || s.Vat.Skimmed.Before(s.Vat.Lifted)) {
		return skimAct(p)
	}
	a := Act{Kind: ActEnter, Piece: p, Tags: tagsOf(in), Load: in, Dip: p.Dips + 1, How: "In slowly, edge first; squeeze the air out below.",
		Why: "Keep it moving under the surface, every fold open.", Press: "in"}
	if words := s.outOfRange(); words != "" {
		a.How += " " + words
	}
	switch {
	case p.Dips > 0:
	case p.tight():
		a.How += fmt.Sprintf(" Tight cloth: %s this first time, then %s.", p.NextDip(), p.DipTime())
	case (p.Spec.Form == "" || p.Spec.Form == load.Cloth) && p.Spec.Dip == 0:
		a.How += " " + practice.FirstDipWords(p.DipTime())
	}
	if words := s.pastedHow(in); words != "" {
		a.How, a.Why = "In slowly, edge first. "+words, "Rubbed or stirred, the paste comes off."
	}
	a.Words = "Lower " + strings.Join(a.Tags, ", ") + " in"
	if slices.ContainsFunc(in, func(p Piece) bool { return p.Phase == Airing }) {
		a.How = "Only if no green is left in any fold. " + a.How
	}
	if words := s.crowded(in...); words != "" {
		a.Why = words
	}
	if words := s.readFirst(in, now); words != "" {
		a.How = words + " " + a.How
	}
	for _, p := range slices.Backward(in) {
		if v, words := s.bears(p); v == fibre.Warned {
			a.How = wording.Upper(words) + ". " + a.How
		}
	}
	if words := s.notReduced(); words != "" {
		a.How = wording.Upper(words) + ". " + a.How
	}
	if s.Hot && s.scalds() {
		a.Words += ", no hands"
		a.How = "The vat reads " + s.says(s.Vat.Temp) + ": sticks or tongs, no hands in it. Slowly, edge first."
	}
	if s.Vat.Heater {
		a.How = "Heater off and unplugged first; then hands and goods."
	}
	return a
}

// comesAct is the wait for the person of the piece that can be begun with first; false where nobody is to come.
func (s State) comesAct(now time.Time) (Act, bool) {
	var a Act
	for i := range s.Pieces {
		p := &s.Pieces[i]
		if at := s.Comes(p); at.After(now) && (a.Due == nil || at.Before(a.Due.At)) {
			who := cmp.Or(p.Spec.Who, "its person")
			a = Act{Kind: ActComes, Piece: *p, Dip: p.Dips + 1, Words: p.Tag + " waits for " + who, How: "It waits till then. Is " + who + " there already? Choose " + p.Tag + " and press.",
				Why: "Its own person is to lower it.", Due: &Due{Kind: DueComes, Tag: p.Tag, Since: s.Opened, At: at, Words: "Begin with " + p.Tag}}
		}
	}
	return a, a.Due != nil
}

// coolAct is the wait for a vat that is too hot for the hands.
func (s State) coolAct(p Piece) Act {
	return Act{Kind: ActIdle, Piece: p, Words: "Let the vat cool",
		How: "It reads " + s.says(s.Vat.Temp) + ": no hands above " + s.says(s.handsMost()) + ". Lid off, heater off; read it again: r.",
		Why: s.scaldWhy()}
}

func wetAct(dry []Piece) Act {
	a := Act{Kind: ActWetOut, Piece: dry[0], Tags: tagsOf(dry), Dip: dry[0].Dips + 1, How: "Soak it till no bubbles rise; squeeze, open out, no dry pockets.",
		Why: "Dry folds carry air in and stay pale.", Press: "wet"}
	if a.Words = "Is " + a.Tags[0] + " wet through?"; len(dry) > 1 {
		a.Words = "Are " + strings.Join(a.Tags, ", ") + " wet through?"
	}
	return a
}

func skimAct(p Piece) Act {
	return Act{Kind: ActSkim, Piece: p, Dip: p.Dips + 1, Words: "Skim the froth aside", How: "Draw it to the wall or into its jar; it goes back at night.",
		Why: "Froth and film spot the cloth.", Press: "done"}
}
