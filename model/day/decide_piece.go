package day

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
)

func (s State) decideLower(p Piece, when *time.Time) ([]Body, error) {
	switch {
	case s.Vat.Heater:
		return refuse("the heater is on: off and unplugged before hands or goods go in")
	case p.Phase == InVat:
		return refuse("%s is in the vat since %s", p.Tag, Clock(p.Since))
	case !p.Live():
		return refuse("%s is done for today", p.Tag)
	case p.Phase == Dry && s.harms(p):
		_, words := s.bears(p)
		return refuse("%s", words)
	case p.Phase == Dry && !p.pasted():
		return refuse("%s is dry: wet it out first", p.Tag)
	}
	if err := s.NoHands(); err != nil {
		return nil, err
	}
	if _, open := s.Open(); open {
		return refuse("the vat is not ready: first %s", wording.Lower(s.Plan[s.Step-1].Title))
	}
	if v, words := s.bears(p); v == fibre.Refused {
		return refuse("%s", words)
	}
	var out []Body
	if p.Phase == Airing {
		out = append(out, AiringEnded{OfPiece: OfPiece{p.Tag}, Dip: p.Dips, When: when})
	}
	in := DipBegun{OfPiece: OfPiece{p.Tag}, Dip: p.Dips + 1, For: p.NextDip(), When: when}
	if p.NextDip().Duration() < shortDip && when == nil {
		in.CountIn = quantity.Span(countIn)
	}
	return append(out, in), nil
}

// NoHands refuses hands in a vat that is too hot for who is at it, by what was read, or that is to be read first.
func (s State) NoHands() error {
	switch {
	case s.scalds() && s.Children:
		return fmt.Errorf("the vat reads %s, and children are at it: no hands above %s, let it cool and read again", s.says(s.Vat.Temp), s.says(ChildrenMost))
	case s.scalds() && !s.Hot:
		return fmt.Errorf("the vat reads %s: no hands above %s, let it cool and read again", s.says(s.Vat.Temp), s.says(HandsMost))
	}
	return s.unread()
}

// unread refuses hands where the °C that was read no longer holds: hot water came in; or children are at the vat, and it was
// never read, or heated since.
func (s State) unread() error {
	mix := s.liquid.mixed
	switch {
	case mix != nil && *mix > s.handsMost() && (s.Children || !s.Hot):
		return fmt.Errorf("hot water went in since it was read, and it should be at %s: no hands above %s, read it again", s.says(mix), s.says(s.handsMost()))
	case s.Children && (s.Vat.Temp == nil || s.Vat.TempAt.Before(s.Vat.Warmed)):
		return fmt.Errorf("children are at the vat, and they dip up to %s: read its %s first", s.says(ChildrenMost), s.degrees())
	}
	return nil
}

func (c Finish) decide(s State, _ time.Time) ([]Body, error) {
	p, ok := s.Piece(c.Tag)
	switch {
	case !ok:
		return refuse("no piece is tagged %q", c.Tag)
	case p.Phase == InVat:
		return refuse("%s is in the vat since %s: lift it first", c.Tag, Clock(p.Since))
	case !p.Live():
		return refuse("%s is done already", c.Tag)
	}
	if p.Dips == 0 {
		return refuse("%s had no dip yet: dip it, or take it off the list in the log", c.Tag)
	}
	var out []Body
	if p.Phase == Airing {
		out = append(out, AiringEnded{OfPiece: OfPiece(c), Dip: p.Dips})
	}
	return append(out, Finished{OfPiece(c), p.Dips}), nil
}

// leastRatio is the litres for a kilogram of dry goods below which they only soak the vat up: wet cloth holds 2 to 3 times its
// weight. M
const leastRatio = 3

// mostDips is how many dips a piece can be planned to have.
const mostDips = 60

func (c AddPiece) decide(s State, now time.Time) ([]Body, error) {
	bodies, err := c.fits(s)
	return unless(cmp.Or(err, c.Spec.gone(now)), bodies...)
}

// gone refuses a person who leaves at a time of day that is past.
func (p PieceSpec) gone(now time.Time) error {
	if till := Wished(now, p.Till); till != nil && till.Sub(now) > farthest {
		return fmt.Errorf("%s is past, it is %s: say when its person leaves, such as till %s", p.Till, now.Format("15:04"), now.Add(2*time.Hour).Format("15:04"))
	}
	return nil
}

// fits checks what is said of a piece, whatever the time is.
func (c AddPiece) fits(s State) ([]Body, error) {
	tag := strings.TrimSpace(c.Tag)
	switch {
	case tag == "":
		return refuse("a piece needs a tag, such as A1")
	case slices.Contains([]string{"all", "done"}, strings.ToLower(tag)):
		return refuse("%q is said to the whole list: give the piece a tag, such as A1", tag)
	case strings.ContainsAny(tag, "\n\r\t") || cells(tag) > 12:
		return refuse("a tag is at most 12 letters and figures on one line, such as A1; wide ones count twice")
	}
	if s.Head.Setup.Ending && s.Step > 1 {
		return refuse("the vat is being ended: no goods go into it")
	}
	if p, there := s.Piece(tag); there && !p.free() {
		if p.Phase == Dropped {
			return refuse("%s was taken off the list after %s: give this one another tag", tag, wording.Counted(p.Dips, "dip"))
		}
		return refuse("%s is on the list already", tag)
	}
	if _, err := fibre.Parse(c.Spec.Fibre); err != nil {
		return nil, err
	}
	if !(c.Spec.Dry > 0) {
		return refuse("weigh %s dry and say it, such as 420 g, or about 400 g", tag)
	}
	if sys, in := s.Head.Setup.System(), s.holds(); c.Spec.Dry.Kilograms()*leastRatio > in.Litres() {
		return refuse("%s weighs %s: in a vat of %s no liquor would be left round it; weigh again, or split it", tag, c.Spec.Dry.Format(sys), in.Format(sys))
	}
	if err := valid(PieceAdded{OfPiece{tag}, c.Spec}); err != nil {
		return nil, err
	}
	if c.Spec.Dip > longest || c.Spec.Air > longest {
		return refuse("no piece is dipped or aired for %s", max(c.Spec.Dip, c.Spec.Air))
	}
	if c.Spec.Depth != "" && c.Spec.Dips == 0 {
		if _, err := shade.ByName(c.Spec.Depth); err != nil {
			return nil, err
		}
	}
	if err := c.Spec.wished(); err != nil {
		return nil, err
	}
	if !slices.Contains([]string{"", "cloth", "skein", "garment", "bound", Tight, Pasted, "ladder"}, c.Spec.Form) {
		return refuse("a piece is cloth, tight, skein, garment, bound, pasted or ladder, not %q", c.Spec.Form)
	}
	if !slices.Contains([]string{"", "moved", "hung"}, c.Spec.Work) {
		return refuse("a piece is moved or hung, not %q", c.Spec.Work)
	}
	var there [2]time.Time
	for i, t := range [][2]string{{"comes", c.Spec.From}, {"leaves", c.Spec.Till}} {
		var err error
		if there[i], err = time.Parse("15:04", t[1]); t[1] != "" && err != nil {
			return refuse("the time at which its person %s is a time of day, such as 15:00, not %q", t[0], t[1])
		}
	}
	if c.Spec.From != "" && c.Spec.Till != "" && !there[0].Before(there[1]) {
		return refuse("its person comes at %s and leaves at %s: the time to come is before the time to leave, such as from 10:30 till 15:00", c.Spec.From, c.Spec.Till)
	}
	if c.Spec.Form == Pasted {
		if c.Spec.Work == "moved" {
			return refuse("%s has paste on it: it is hung, not moved", tag)
		}
		c.Spec.Work = "hung"
	}
	if c.Spec.Dips < 0 || c.Spec.Dips > mostDips {
		return refuse("a piece takes 1 to %d dips", mostDips)
	}
	if c.Spec.Had < 0 {
		return refuse("the dips that %s had before are 0 or more", tag)
	}
	return []Body{PieceAdded{OfPiece{tag}, c.Spec}}, nil
}

// decide ends the day, if nothing is left hanging.
func (c Close) decide(s State, _ time.Time) ([]Body, error) {
	return unless(cmp.Or(s.hanging(), because(s.stillReduces())), Closed(c)) // the next day would not know of that strip
}
