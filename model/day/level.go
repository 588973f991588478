package day

import (
	"cmp"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/water"
)

// Opens is the level as the day opens.
func (h Head) Opens() Level {
	if h.Opening.Holds != nil {
		return Level{*h.Opening.Holds, true}
	}
	return Level{In: h.Setup.Fill}
}

// After is the level after one more event of the day. A vat that nobody read counts as full: water makes up for what it lost.
func (l Level) After(s *State, b Body) Level {
	switch b := b.(type) {
	case Reading:
		if v, ok := s.Holds(b); ok && b.Of == "" {
			return Level{v, true}
		}
	case StepDone:
		if b.Do != string(recipe.Fill) || b.Step < 1 || b.Step > len(s.Plan) || s.Plan[b.Step-1].Into == recipe.IntoStock {
			break
		}
		if full := s.Head.Setup.Fill; !l.Read || l.In <= full*9/10 { // read while it was still being filled
			return Level{In: full}
		}
	case ToppedUp:
		return l.plus(b.Water, s.Head.Setup.Fill)
	case StockDrawn:
		if b.Step == 0 {
			return l.plus(b.Stock, s.Head.Setup.Fill)
		}
	case DrawnOff:
		l.In = max(0, l.In-b.Liquor)
	case Decanted:
		l.In = max(0, l.In-b.Liquor)
	}
	return l
}

func (l Level) plus(v, full quantity.Volume) Level {
	if l.Read {
		l.In += v
	} else {
		l.In = max(l.In, min(full, l.In+v))
	}
	return l
}

// Level is how much is in the vat now.
func (s State) Level() Level { return s.liquid.level }

// holds is what doses and goods have to do with: what is in the vat, and before it is filled what will be.
func (s State) holds() quantity.Volume {
	if !Filled(s) {
		return s.Head.Setup.Fill
	}
	return s.Level().In
}

// drawn tells whether liquor was drawn off, on this day or before it, that may not have been made up for.
func (s State) drawn() bool {
	return s.Head.Opening.Holds != nil || s.liquid.drawn
}

// Undrawn is how much was in the vat before liquor was first drawn off today; false where none was.
func (s State) Undrawn() (Level, bool) { return s.liquid.undrawn, s.liquid.drawn }

// after is what is reckoned after one more event.
func (l liquid) after(s *State, b Body, at time.Time) liquid {
	switch b := b.(type) {
	case Reading:
		if b.Temp != nil && b.Of == "" {
			l.poured, l.mixed = time.Time{}, nil
		}
	case ToppedUp:
		t := cmp.Or(l.mixed, s.Vat.Temp)
		l.poured = at
		if t != nil && b.Temp != 0 {
			mix := water.Mixed(l.level.In, *t, b.Water, b.Temp)
			l.mixed = &mix
		}
	case DrawnOff:
		l = l.draw()
	case Decanted:
		l = l.draw()
		l.decanted += b.Liquor
	}
	l.level = l.level.After(s, b)
	return l
}

// draw notes how much was in it before liquor was first drawn off.
func (l liquid) draw() liquid {
	if !l.drawn {
		l.drawn, l.undrawn = true, l.level
	}
	return l
}
