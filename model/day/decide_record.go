package day

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
)

// decide checks the rules that stand against writing something down. What is done to the vat has its own in decide_vat.go.
func (c Record) decide(s State, now time.Time) ([]Body, error) {
	b := c.Body
	if err := cmp.Or(valid(b), beyondAll(b), s.ownKey(b)); err != nil {
		return nil, err
	}
	if g, ok := b.(Goods); ok && b.Kind() != (PieceAdded{}).Kind() {
		return s.recordGoods(g, now)
	}
	switch b := b.(type) {
	case PieceAdded:
		return AddPiece{b.Tag, b.PieceSpec}.decide(s, now)
	case PowderAdded:
		return s.give(b)
	case Fed:
		return s.give(PowderAdded{Powder: b.Powder, Material: b.Material, Mass: b.Mass, Why: b.Why})
	case StockDrawn:
		return s.drawStock(b)
	case ToppedUp:
		return s.topUp(b)
	case DrawnOff:
		return s.drawOff(b)
	case Decanted:
		return s.decant(b)
	case HeaterOn:
		return s.heaterOn(b)
	case HeaterOff:
		if !s.Vat.Heater {
			return refuse("the heater is off already")
		}
	case Stirred:
		if left := s.stepLeft(now); left > 0 && s.hourAlone() { // the hour without air begins again
			st, _ := s.Open()
			return []Body{b, TimerStretched{stepTimer(st.No), quantity.Span(now.Sub(s.hourSince()).Round(time.Second))}}, nil
		}
	case Rested:
		return RestVat{b.For}.decide(s, now)
	case StripBegun:
		return s.pull(now)
	case VatEnded:
		return s.endVat(b)
	case HotWork:
		return s.hotWork(b)
	case Rechecked:
		return s.decideRecheck(b)
	case Treated:
		return Treat{Cause: b.Cause, Do: b.Do, Wait: b.Wait}.decide(s, now)
	case PlaceChanged:
		if !slices.Contains([]string{Outdoors, CrossDraught, ClosedRoom}, b.Place) {
			return refuse("a vat stands %s, %s or in a %s, not %q", Outdoors, "in a "+CrossDraught, ClosedRoom, b.Place)
		}
		if b.Of != "" && b.Of != OfGoods {
			return refuse("a place is the vat's or the goods', not that of %q", b.Of)
		}
	case VesselTold:
		return s.vesselTold(b)
	case HelperChanged:
		if strings.TrimSpace(b.Who) == "" {
			return refuse("say who is at the vat")
		}
	case Talking:
		switch {
		case b.On && s.Talks():
			return refuse("pieces wait since %s already", Clock(s.TalkSince))
		case !b.On && !s.Talks():
			return refuse("no piece is held back: each is called in its turn")
		}
	case WayChosen:
		switch {
		case !slices.Contains([]string{load.ChoiceWeak, load.ChoiceFull, load.ChoiceFeed}, b.Way):
			return refuse("for when the vat tires say weak, full or feed, not %q", b.Way)
		case b.Way == s.Way:
			return refuse("the timetable takes that way already")
		}
	case HandsTold:
		switch {
		case b.Hands < 1 || b.Hands > MostHands:
			return refuse("%d pairs of hands: 1 to %d can be at a vat", b.Hands, MostHands)
		case b.People < 0 || b.People > mostPeople:
			return refuse("at most %d people at the vat: say 1 to %d, or leave it out", b.People, mostPeople)
		case b.Hands == s.HandsTold && b.People == s.AtVat:
			return refuse("that is said already: %s", b.Sentence(s.Head.Setup.System()))
		}
	case Reading:
		return s.decideReading(b)
	case SignSeen:
		if strings.TrimSpace(b.Sign) == "" {
			return refuse("say what is seen")
		}
	case SwatchJudged:
		return s.judged(b)
	case SoundChecked:
		switch {
		case s.Sound.At.IsZero() || s.Sound.Failed != "" || s.Sound.Heard != b.Heard:
		case b.Heard:
			return refuse("it is said already: the calls are heard")
		default:
			return refuse("it is said already: the calls are not heard")
		}
	case Note:
		if strings.TrimSpace(b.Text) == "" {
			return refuse("the note is empty")
		}
	}
	return []Body{b}, nil
}

// recordGoods checks what is told of a piece of the list.
func (s State) recordGoods(g Goods, now time.Time) ([]Body, error) {
	p, ok := s.Piece(g.PieceTag())
	if !ok {
		return refuse("no piece is tagged %q", g.PieceTag())
	}
	switch b := g.(type) {
	case PieceDropped:
		return p.drop(b)
	case LookedAt: // of one that is off the list too
	default:
		if p.Phase == Dropped {
			return refuse("%s is off the list", p.Tag)
		}
	}
	switch b := g.(type) {
	case Readied:
		return s.decideReadied(b)
	case WettedOut:
		switch {
		case p.pasted():
			return refuse("%s has paste on it: it goes in dry", b.Tag)
		case p.Phase != Dry:
			return refuse("%s is wetted out already", b.Tag)
		}
	case PieceChanged:
		other := s
		other.Pieces = nil
		_, err := AddPiece{b.Tag, b.PieceSpec}.fits(other)
		if b.Till != p.Spec.Till { // one that was said before may be past by now
			err = cmp.Or(err, b.gone(now))
		}
		b.Had = p.Spec.Had
		return unless(err, b)
	case CarriedOver:
		switch {
		case p.Phase == InVat:
			return refuse("%s is in the vat since %s: lift it first", b.Tag, Clock(p.Since))
		case !p.Live():
			return refuse("%s is done for today", b.Tag)
		}
		b.Dips = p.Dips
		return []Body{b}, nil
	case AiringEnded:
		if p.Phase != Airing {
			return refuse("%s is not airing", b.Tag)
		}
		b.Dip, b.When = p.Dips, nil
		return []Body{b}, nil
	case LeftOut:
		return LeaveOut{b.Tag, b.Reason}.decide(s, now)
	case LookedAt:
		if b.Said != "" {
			return Decided{Tag: b.Tag, Say: b.Said}.decide(s, now)
		}
		if _, err := ParseLook(b.Looks); err != nil {
			return nil, err
		}
	case Rinsed, Soured, Soaped, Dried, CrockTested:
		return s.finishedByHand(p, g, now)
	}
	return []Body{g}, nil
}

func (p Piece) drop(b PieceDropped) ([]Body, error) {
	switch {
	case p.Phase == InVat:
		return refuse("%s is in the vat since %s: lift it first", p.Tag, Clock(p.Since))
	case p.inBath():
		return refuse("%s is in the %s since %s: take it out first", p.Tag, bathName(p.Finishing.Bath), Clock(p.Finishing.Since))
	case p.Phase == Dropped:
		return refuse("%s is off the list already", p.Tag)
	case p.Phase == Carried:
		return refuse("%s was carried over: it is off the list already", p.Tag)
	}
	return []Body{b}, nil
}

// finishedByHand checks what is told of a piece after its dips, past its own key.
func (s State) finishedByHand(p Piece, g Goods, now time.Time) ([]Body, error) {
	switch {
	case p.Phase == InVat:
		return refuse("%s is in the vat since %s: lift it first", p.Tag, Clock(p.Since))
	case p.Phase == Carried:
		return refuse("%s is off the list", p.Tag)
	}
	switch b := g.(type) {
	case Rinsed:
		return s.rinsedByHand(b, now)
	case Soured:
		if why := s.acidGate(p, now); why != "" || !s.Children {
			return unless(because(why), b)
		}
		return nil, s.notForChildren("acids")
	case Soaped:
		if s.Children && b.Temp > ChildrenMost {
			return nil, s.notForChildren("hot baths")
		}
	case CrockTested:
		return rubbed(b)
	}
	return []Body{g}, nil
}

func (s State) decideReading(b Reading) ([]Body, error) {
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
	return []Body{b}, nil
}

func (c RestVat) decide(s State, _ time.Time) ([]Body, error) {
	if len(s.InVat()) > 0 {
		return refuse("%s is in the vat: lift it first", s.InVat()[0].Tag)
	}
	if c.For <= 0 || c.For > longest {
		return refuse("say for how long the vat rests, such as 60 min")
	}
	return []Body{Rested{For: c.For}}, nil
}
