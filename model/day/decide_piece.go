package day

import (
	"math"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
)

// lower puts a piece in.
func (s State) lower(p Piece, when *time.Time) ([]Body, error) {
	sys := s.Head.Setup.System()
	switch {
	case s.Vat.Heater:
		return refuse("the heater is on: off and unplugged before hands or goods go in")
	case p.Phase == InVat:
		return refuse("%s is in the vat since %s", p.Tag, Clock(p.Since))
	case !p.Live():
		return refuse("%s is done for today", p.Tag)
	case p.Phase == Dry:
		return refuse("%s is dry: wet it out first", p.Tag)
	case s.scalds() && s.Children:
		return refuse("the vat reads %s, and children are at it: no hands above %s, let it cool and read again", s.Vat.Temp.Format(sys), ChildrenMost.Format(sys))
	case s.scalds() && !s.Hot:
		return refuse("the vat reads %s: no hands above %s, let it cool and read again", s.Vat.Temp.Format(sys), HandsMost.Format(sys))
	}
	if _, open := s.Open(); open {
		return refuse("the vat is not ready: first %s", wording.Lower(s.Plan[s.Step-1].Title))
	}
	if v, words := s.bears(p); v == fibre.Refused {
		return refuse("%s", words)
	}
	var out []Body
	if p.Phase == Airing {
		out = append(out, AiringEnded{OfPiece{p.Tag}, p.Dips, when})
	}
	in := DipBegun{OfPiece: OfPiece{p.Tag}, Dip: p.Dips + 1, For: p.DipTime(), When: when}
	if p.DipTime().Duration() < shortDip && when == nil {
		in.CountIn = quantity.Span(countIn)
	}
	return append(out, in), nil
}

func (s State) finish(tag string) ([]Body, error) {
	p, ok := s.Piece(tag)
	switch {
	case !ok:
		return refuse("no piece is tagged %q", tag)
	case p.Phase == InVat:
		return refuse("%s is in the vat since %s: lift it first", tag, Clock(p.Since))
	case !p.Live():
		return refuse("%s is done already", tag)
	}
	if p.Dips == 0 {
		return refuse("%s had no dip yet: dip it, or take it off the list in the log", tag)
	}
	var out []Body
	if p.Phase == Airing {
		out = append(out, AiringEnded{OfPiece{tag}, p.Dips, nil})
	}
	return append(out, Finished{OfPiece{tag}, p.Dips}), nil
}

// leastRatio is the litres for a kilogram of dry goods below which they only soak the vat up: wet cloth holds 2 to 3 times its
// weight. M
const leastRatio = 3

// addPiece checks what is said of a piece.
func (s State) addPiece(c AddPiece) ([]Body, error) {
	tag := strings.TrimSpace(c.Tag)
	switch {
	case tag == "":
		return refuse("a piece needs a tag, such as A1")
	case strings.ContainsAny(tag, "\n\r\t") || len(tag) > 12:
		return refuse("a tag is at most 12 letters and figures on one line, such as A1")
	}
	if s.Head.Setup.Ending && s.Step > 1 {
		return refuse("the vat is being ended: no goods go into it")
	}
	if p, there := s.Piece(tag); there && !p.Brought() {
		return refuse("%s is on the list already", tag)
	}
	if _, err := fibre.Parse(c.Spec.Fibre); err != nil {
		return nil, err
	}
	if !(c.Spec.Dry > 0) {
		return refuse("weigh %s dry and say it, such as 420 g", tag)
	}
	if sys := s.Head.Setup.System(); c.Spec.Dry.Kilograms()*leastRatio > s.Head.Setup.Fill.Litres() {
		return refuse("%s weighs %s: in a vat of %s no liquor would be left round it; weigh again, or split it", tag, c.Spec.Dry.Format(sys), s.Head.Setup.Fill.Format(sys))
	}
	if err := sound(PieceAdded{OfPiece{tag}, c.Spec}); err != nil {
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
	if !slices.Contains([]string{"", "cloth", "skein", "garment", "bound", "ladder"}, c.Spec.Form) {
		return refuse("a piece is cloth, skein, garment, bound or ladder, not %q", c.Spec.Form)
	}
	if !slices.Contains([]string{"", "moved", "hung"}, c.Spec.Work) {
		return refuse("a piece is moved or hung, not %q", c.Spec.Work)
	}
	if c.Spec.Dips < 0 || c.Spec.Dips > 60 {
		return refuse("a piece takes 1 to 60 dips")
	}
	if c.Spec.Had < 0 {
		return refuse("%s cannot have had fewer than no dips", tag)
	}
	return []Body{PieceAdded{OfPiece{tag}, c.Spec}}, nil
}

// close ends the day, if nothing is left hanging.
func (s State) close(c Close) ([]Body, error) {
	if err := s.hanging(); err != nil {
		return nil, err
	}
	if why := s.stillReduces(); why != "" { // the next day would not know of that strip
		return refuse("%s", why)
	}
	return []Body{Closed(c)}, nil
}

// record checks the few rules that stand against writing something down.
func (s State) record(b Body, now time.Time) ([]Body, error) {
	if err := sound(b); err != nil {
		return nil, err
	}
	if err := s.ownKey(b); err != nil {
		return nil, err
	}
	if g, ok := b.(Goods); ok && b.Kind() != (PieceAdded{}).Kind() {
		if _, ok := s.Piece(g.PieceTag()); !ok {
			return refuse("no piece is tagged %q", g.PieceTag())
		}
	}
	switch b := b.(type) {
	case PieceAdded:
		return s.addPiece(AddPiece{b.Tag, b.PieceSpec})
	case PieceChanged:
		p, ok := s.Piece(b.Tag)
		if !ok {
			return refuse("no piece is tagged %q", b.Tag)
		}
		other := s
		other.Pieces = nil
		if _, err := other.addPiece(AddPiece{b.Tag, b.PieceSpec}); err != nil {
			return nil, err
		}
		b.Had = p.Spec.Had
		return []Body{b}, nil
	case PieceDropped:
		p, ok := s.Piece(b.Tag)
		switch {
		case !ok:
			return refuse("no piece is tagged %q", b.Tag)
		case p.Phase == InVat:
			return refuse("%s is in the vat since %s: lift it first", b.Tag, Clock(p.Since))
		case !p.Live():
			return refuse("%s is done for today", b.Tag)
		}
	case AiringEnded:
		p, ok := s.Piece(b.Tag)
		if !ok || p.Phase != Airing {
			return refuse("%s is not airing", b.Tag)
		}
		b.Dip, b.When = p.Dips, nil
		return []Body{b}, nil
	case PowderAdded:
		if err := s.mayGive(b.Powder, b.Mass); err != nil {
			return nil, err
		}
	case Fed:
		if err := s.mayGive(b.Powder, b.Mass); err != nil {
			return nil, err
		}
	case Stirred:
		if left := s.stepLeft(now); left > 0 && s.hourAlone() { // the hour without air begins again
			st, _ := s.Open()
			return []Body{b, TimerStretched{stepTimer(st.No), quantity.Span(now.Sub(s.hourSince()).Round(time.Second))}}, nil
		}
	case Rinsed:
		return s.rinsedByHand(b, now)
	case VatEnded:
		if why := s.stillReduces(); why != "" {
			return refuse("%s", why)
		}
		return s.endVat(b)
	case HotWork:
		return s.hotWork(b)
	case Rechecked:
		return s.recheck(b)
	case LeftOut:
		return s.leaveOut(LeaveOut{b.Tag, b.Reason})
	case BathBegun:
		return refuse("%q is not written down by hand: it has its own key", b.Kind())
	case Treated:
		return s.treat(Treat{Cause: b.Cause, Do: b.Do, Wait: b.Wait})
	case PlaceChanged:
		if !slices.Contains([]string{Outdoors, CrossDraught, ClosedRoom}, b.Place) {
			return refuse("a vat stands %s, %s or in a %s, not %q", Outdoors, "in a "+CrossDraught, ClosedRoom, b.Place)
		}
		if b.Of != "" && b.Of != OfGoods {
			return refuse("a place is the vat's or the goods', not that of %q", b.Of)
		}
	case CrockTested:
		return rubbed(b)
	case HelperChanged:
		if strings.TrimSpace(b.Who) == "" {
			return refuse("say who is at the vat")
		}
	case HeaterOn:
		if in := s.InVat(); len(in) > 0 {
			return refuse("%s is in the vat: hands and goods out before heat", in[0].Tag)
		}
		switch {
		case s.Vat.Heater:
			return refuse("the heater is on already")
		case s.Children:
			return nil, s.notForChildren("heaters")
		}
		top := s.Head.Recipe.Liquor.High
		if st, open := s.Open(); open && st.To != nil && st.Into != recipe.IntoStock {
			top = max(top, *st.To)
		}
		if s.Vat.Temp != nil && *s.Vat.Temp >= top && top > 0 {
			sys := s.Head.Setup.System()
			return refuse("the vat reads %s already, and this recipe goes to %s: no heater", s.Vat.Temp.Format(sys), top.Format(sys))
		}
	case HeaterOff:
		if !s.Vat.Heater {
			return refuse("the heater is off already")
		}
	case Reading:
		if b.Temp == nil && b.PH == nil && b.BelowRim == nil && b.Holds == nil {
			return refuse("a reading needs a °C, a pH, or how full it is")
		}
		if err := s.fullness(b); err != nil {
			return nil, err
		}
		if b.Temp != nil && (*b.Temp < -20 || *b.Temp > 105) {
			return refuse("a vat reads between −20 and 105 °C")
		}
		if b.PH != nil && (math.IsNaN(*b.PH) || *b.PH < 0 || *b.PH > 14.5) {
			return refuse("pH is between 0 and 14")
		}
	case LookedAt:
		if _, err := ParseLook(b.Looks); err != nil {
			return nil, err
		}
	case SwatchJudged:
		return s.judged(b)
	case Note:
		if strings.TrimSpace(b.Text) == "" {
			return refuse("the note is empty")
		}
	case CarriedOver:
		p, ok := s.Piece(b.Tag)
		if !ok {
			return refuse("no piece is tagged %q", b.Tag)
		}
		if p.Phase == InVat {
			return refuse("%s is in the vat since %s: lift it first", b.Tag, Clock(p.Since))
		}
		if !p.Live() {
			return refuse("%s is done for today", b.Tag)
		}
		b.Dips = p.Dips
		return []Body{b}, nil
	case Soured:
		p, _ := s.Piece(b.Tag) // it is there: every body on a piece was asked for it above
		if why := s.acidGate(p, now); why != "" {
			return refuse("%s", why)
		}
		if s.Children {
			return nil, s.notForChildren("acids")
		}
	}
	return []Body{b}, nil
}

// dose writes down what goes in, and the rest until it is looked at again.
func (s State) dose(c Dose) ([]Body, error) {
	if in := s.InVat(); len(in) > 0 {
		return refuse("%s is in the vat: hands and goods out before a dose", in[0].Tag)
	}
	if s.Vat.Heater {
		return refuse("the heater is on: off and unplugged before a dose")
	}
	var out []Body
	for _, a := range c.Powders {
		p, ok := s.Head.Recipe.Powder(a.Powder)
		switch {
		case !ok:
			return refuse("this vat has no powder %q", a.Powder)
		case !(a.Mass > 0) || math.IsInf(a.Mass.Grams(), 0):
			return refuse("say how much of the %s", p.Material)
		}
		if err := s.mayGive(a.Powder, a.Mass); err != nil {
			return nil, err
		}
		out = append(out, PowderAdded{Powder: p.ID, Material: p.Material, Mass: a.Mass, Why: c.Why})
	}
	if len(out) == 0 {
		return refuse("nothing is to be given")
	}
	if c.Wait > 0 && c.Wait <= longest {
		out = append(out, Rested{For: c.Wait})
	}
	return out, nil
}
