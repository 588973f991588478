package rehearse

import (
	"fmt"
	"math"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
)

// What the invented dyer of a kept vat goes by. All from memory.
const (
	weak     = quantity.Span(15 * time.Second) // a strip below it is put right, whatever the day is for
	mostTend = 8                               // treatments of one day
	mostGood = 2                               // of them in a vat whose strip is good
	old      = time.Hour                       // a reading that is taken again in the evening
)

// keeper is the invented dyer of a kept vat on one of its days.
type keeper struct {
	dyerOf
	row  keptDay
	eyes *eyes
}

// eyes are what the dyer knows beside the book: what was last reckoned of the liquor, since a thing to do is asked for more
// than once before it is done.
type eyes struct {
	events  int
	at      time.Time
	seen    outlook.Outlook
	refused int // times in a row that the dyer was refused
}

func (e *eyes) look(s day.State, at time.Time) outlook.Outlook {
	if e.events != len(s.Log) || !e.at.Equal(at) {
		e.events, e.at, e.seen = len(s.Log), at, outlook.Of(s, at)
	}
	return e.seen
}

// next is what the dyer does next and after how long; false when only time helps.
func (k keeper) next(a day.Act, now time.Time) (time.Duration, day.Command, bool) {
	s := k.s
	if !s.Head.Opening.Built && a.Kind == day.ActStep {
		return k.step(a, now)
	}
	if after, c, ok := k.brought(); ok {
		return after, c, true
	}
	if s.Head.Setup.Ending {
		return k.end(a, now)
	}
	if s.Treating != nil && len(s.InVat()) == 0 {
		return k.recheck(now)
	}
	if _, open := s.Open(); s.Vat.Heater || !open {
		if after, c, ok := k.list(); ok {
			return after, c, true
		}
	}
	switch a.Kind {
	case day.ActStep:
		return k.morning(a)
	case day.ActWetOut, day.ActSkim, day.ActEnter, day.ActFinish, day.ActDecide:
		return 30 * time.Second, day.Done{}, true
	case day.ActLift:
		if after, c, ok := beside(s, now); ok {
			return after, c, true
		}
		if left, _ := a.Left(now); left > 0 {
			return 0, nil, false
		}
		return 4 * time.Second, day.Done{}, true
	case day.ActBench:
		return k.finishing(a, now)
	case day.ActIdle:
		if s.Vat.Temp != nil && *s.Vat.Temp > day.HandsMost && s.LiveAny() { // lid off, it cools
			if s.Vat.Covered {
				return record(time.Minute, day.VatUncovered{})
			}
			return k.thermometer(15*time.Minute, false)
		}
		return k.evening()
	}
	return 0, nil, false
}

func record(after time.Duration, b day.Body) (time.Duration, day.Command, bool) {
	return after, day.Record{Body: b}, true
}

// last is when a kind of event was last told; zero for never today.
func (k keeper) last(match func(day.Body) bool) time.Time {
	for _, e := range slices.Backward(k.s.Log) {
		if match(e.Body) {
			return e.At
		}
	}
	return time.Time{}
}

// brought finishes what was dyed on an earlier day and hung overnight.
func (k keeper) brought() (time.Duration, day.Command, bool) {
	for _, p := range k.s.Pieces {
		st, ok := k.s.BenchNext(p)
		if !p.Brought() || !ok {
			continue
		}
		of := day.OfPiece{Tag: p.Tag}
		switch st.ID {
		case "crock":
			if p.Dips < 4 {
				return 30 * time.Second, day.LeaveOut{Tag: p.Tag}, true
			}
			return record(4*time.Minute, day.CrockTested{OfPiece: of, Dry: 4.5, Wet: 3})
		case day.Looked:
			return record(time.Minute, day.LookedAt{OfPiece: of, Looks: p.ColourName(), Rinsed: true})
		}
		return time.Minute, day.Bench{Tag: p.Tag}, true
	}
	return 0, nil, false
}

// morning reads the vat, and leads it through the steps of a day at a vat that lives.
func (k keeper) morning(a day.Act) (time.Duration, day.Command, bool) {
	s, st := k.s, a.Step
	switch {
	case s.Vat.Heater:
		return record(k.sight(0).Heat.Back.Duration(), day.HeaterOff{}) // once it is reckoned to be warm
	case s.Vat.TempAt.IsZero():
		return k.thermometer(3*time.Minute, true)
	case s.Vat.StripAt.IsZero():
		return k.strip()
	case k.row.kind == keptLook && !k.tired():
		if after, c, ok := k.say(); ok {
			return after, c, true
		}
		return k.evening()
	case k.row.kind == keptLook && len(s.Tried()) == 0:
		return k.tend()
	case st.Do == recipe.Warm:
		return k.warm(a)
	case s.Vat.StripAt.Before(s.StepSince):
		return k.strip()
	}
	return k.tend()
}

// tired tells whether the day's first strip was weak.
func (k keeper) tired() bool {
	for _, e := range k.s.Log {
		if t, ok := e.Body.(day.StripTest); ok {
			return t.Stayed < weak
		}
	}
	return false
}

// warm does the step that warms the vat.
func (k keeper) warm(a day.Act) (time.Duration, day.Command, bool) {
	s := k.s
	switch {
	case a.Caution != "":
		return 6 * time.Second, day.Done{}, true
	case s.Vat.TempAt.Before(s.Vat.Warmed):
		return k.thermometer(time.Minute, false)
	case *s.Vat.Temp < s.Head.Recipe.Liquor.Low:
		return record(2*time.Minute, day.HeaterOn{})
	}
	return 10 * time.Second, day.Done{}, true
}

// say tells the next sign that was not told yet; false when all are.
func (k keeper) say() (time.Duration, day.Command, bool) {
	seen := k.s.Seen()
	for _, id := range k.looks(*k.s.Vat.Strip) {
		if !slices.ContainsFunc(seen, func(x signs.Sign) bool { return x.ID == id }) {
			return 10 * time.Second, day.Record{Body: day.SignSeen{Sign: id}}, true
		}
	}
	return 0, nil, false
}

// finishing rinses what is done, sours linen and soaps it; what dries is for the next day.
func (k keeper) finishing(a day.Act, now time.Time) (time.Duration, day.Command, bool) {
	if left, _ := a.Left(now); left > 0 {
		return 0, nil, false
	}
	if after, c, ok := finishes(a); ok {
		return after, c, true
	}
	return k.evening()
}

// list puts the next piece of the day on its list: the goods soak while the vat is warmed.
func (k keeper) list() (time.Duration, day.Command, bool) {
	p, ok := wording.First(k.row.pieces(k.s.Head.Opening.Number), func(p day.AddPiece) bool {
		_, there := k.s.Piece(p.Tag)
		return !there
	})
	return time.Minute, p, ok
}

// evening judges the swatch; then the vat is read, put right if it is weak, filled up, covered and left.
func (k keeper) evening() (time.Duration, day.Command, bool) {
	s := k.s
	if _, open := s.Open(); !open {
		for _, p := range s.Pieces {
			if p.Spec.Form == outlook.Ladder && p.Dips > 0 && k.last(func(b day.Body) bool { j, ok := b.(day.SwatchJudged); return ok && j.Swatch == p.Tag }).IsZero() {
				return k.swatch(p)
			}
		}
	}
	switch {
	case s.Vat.TempAt.Before(s.Vat.Lifted) || s.At.Sub(s.Vat.TempAt) > old:
		return k.thermometer(3*time.Minute, true)
	case s.Vat.StripAt.Before(s.Vat.Lifted):
		return k.strip()
	case *s.Vat.Strip < weak && len(s.Tried()) < mostTend && k.warmEnough():
		return k.tend()
	}
	return k.night()
}

func (k keeper) warmEnough() bool { return *k.s.Vat.Temp >= k.s.Head.Recipe.Liquor.Low }

// swatch judges the two-minute swatch, rinsed and ironed, by a colour meter.
func (k keeper) swatch(p day.Piece) (time.Duration, day.Command, bool) {
	after := 5 * time.Minute
	now := outlook.Blues(k.s, outlook.Of(k.s, k.s.At), k.s.At).Plan(p).Now
	if now == nil {
		return 0, nil, false
	}
	looks := fmt.Sprintf("lab %.1f %.1f %.1f", now.Lab.L, now.Lab.A, now.Lab.B)
	return record(after, day.SwatchJudged{Swatch: p.Tag, Looks: looks, Dips: p.Dips})
}

// night fills the vat up, covers it and closes the day.
func (k keeper) night() (time.Duration, day.Command, bool) {
	s := k.s
	if after, c, ok := k.topUp(); ok {
		return after, c, true
	}
	if !s.Vat.Covered {
		return record(time.Minute, day.VatCovered{With: "the lid"})
	}
	why := wording.Either(len(k.row.goods) == 0, "looked after", k.why())
	return time.Minute, day.Close{Why: why}, true
}

// topUp makes up for what went off as damp and out with the goods: the level is read before and after.
func (k keeper) topUp() (time.Duration, day.Command, bool) {
	s := k.s
	v := s.Head.Setup.Measured()
	if k.row.sunk == 0 || v.Shape == nil {
		return 0, nil, false
	}
	level := func(holds quantity.Volume) (time.Duration, day.Command, bool) {
		depth, err := v.Depth(holds)
		if err != nil {
			return 0, nil, false
		}
		below := quantity.Centimetres(math.Round((v.Rim() - depth).Centimetres()))
		return record(time.Minute, day.Reading{BelowRim: &below})
	}
	filled := k.last(func(b day.Body) bool { _, ok := b.(day.ToppedUp); return ok })
	sunk := quantity.Litres(k.row.sunk)
	switch {
	case s.Vat.HoldsAt.IsZero():
		return level(s.Head.Setup.Fill - sunk)
	case filled.IsZero():
		return record(5*time.Minute, day.ToppedUp{Water: sunk, Temp: s.Head.Recipe.Liquor.Aim})
	case s.Vat.HoldsAt.Before(filled):
		return level(s.Head.Setup.Fill)
	}
	return 0, nil, false
}
