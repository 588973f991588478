package rehearse

import (
	"errors"
	"math"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

// The usual rehearsal: a garden bin with a soda vat, three pieces, one dip that nobody answers in time.
// All of it is made up.

// Head is the day as it is set up. begin is its first instant.
func Head(r recipe.Recipe, begin time.Time) day.Head {
	zone := begin.Location().String()
	if zone == "Local" {
		zone = begin.Format("-07:00")
	}
	return day.Head{
		Zone: zone, Rehearsed: true, Recipe: r,
		Setup: day.Setup{
			Name: "Garden bin", Fill: quantity.Litres(60), Vessel: "frustum 36 cm 44 cm 62 cm", Material: "HDPE",
			Place: day.Outdoors, Units: "metric", Cold: quantity.Celsius(12), Hot: quantity.Celsius(60),
			Gear: day.Gear{Air: &yard, Humidity: quantity.Percent(60), Heater: quantity.Watts(1000), Pot: quantity.Litres(8), Stove: quantity.Watts(2000), StoveBy: "induction"},
		},
	}
}

// DyeingHead is Head for a rehearsal that comes to its dips on one day: a ferment was built a week before, and kept warm.
func DyeingHead(r recipe.Recipe, begin time.Time) day.Head {
	h := Head(r, begin)
	if r.Family == recipe.Ferment {
		h.Opening = day.Opening{Number: 2, Built: true, Cover: true, Temp: &r.Liquor.Aim}
	}
	return h
}

// yard is the air around it.
var yard = quantity.Celsius(16)

// rehearsedPieces come onto the list while the vat reduces.
var rehearsedPieces = []day.AddPiece{
	{Tag: "A1", Spec: day.PieceSpec{What: "runner", Fibre: "linen", Dry: quantity.Grams(420), Dips: 4, Depth: "mid", Dip: quantity.Minutes(8), Air: quantity.Minutes(12)}},
	{Tag: "B1", Spec: day.PieceSpec{What: "napkins", Fibre: "cotton", Dry: quantity.Grams(310), Depth: "sky", Dip: quantity.Minutes(4)}},
	{Tag: "C2", Spec: day.PieceSpec{What: "scarf", Fibre: "cotton", Dry: quantity.Grams(90), Depth: "pale", Dips: 2}},
}

// warmPieces are those of a vat that wool bears.
var warmPieces = []day.AddPiece{
	{Tag: "A1", Spec: day.PieceSpec{What: "scarf", Fibre: "wool", Dry: quantity.Grams(300), Dips: 3, Depth: "mid"}},
	{Tag: "B1", Spec: day.PieceSpec{What: "lining", Fibre: "silk", Dry: quantity.Grams(90), Dips: 2, Depth: "sky"}},
	{Tag: "C2", Spec: day.PieceSpec{What: "hank", Fibre: "wool", Dry: quantity.Grams(120), Dips: 2, Depth: "sky", Form: "skein"}},
}

// dyerOf looks for what the invented dyer did already, so that a rehearsal can go on from any event.
type dyerOf struct{ s day.State }

func (d dyerOf) count(match func(day.Body) bool) int {
	return wording.Count(d.s.Log, func(e day.Event) bool { return match(e.Body) })
}

// Dyer is what the invented dyer does next and after how long; false when only time helps, or the day is over.
func Dyer(s day.State, now time.Time) (after time.Duration, c day.Command, ok bool) {
	return new(eyes).next(s, now)
}

// next is that with what the dyer saw before; a caution is read while the hands get ready.
func (e *eyes) next(s day.State, now time.Time) (after time.Duration, c day.Command, ok bool) {
	if after, c, ok = e.chooses(s, now); !ok {
		return after, c, ok
	}
	_, err := day.Decide(s, c, now.Add(after))
	if pending := (*day.Pending)(nil); errors.As(err, &pending) {
		c = day.Answered{Command: c}
	}
	return after, c, true
}

func (e *eyes) chooses(s day.State, now time.Time) (after time.Duration, c day.Command, ok bool) {
	d := dyerOf{s}
	a := day.Next(s, now)
	if row, ok := keptRow(s.Head); ok && a.Kind != day.ActClosed {
		return keeper{d, row, e}.next(a, now)
	}
	if says, is := d.teaches(now); is && a.Kind != day.ActClosed {
		return 10 * time.Second, says, true
	}
	switch a.Kind {
	case day.ActClosed:
		return 0, nil, false
	case day.ActStep:
		return d.step(a, now)
	case day.ActWetOut, day.ActDecide:
		if n, list := len(s.Pieces), d.early(); n < len(list) {
			return 10 * time.Second, list[n], true
		}
		return 20 * time.Second, day.Done{}, true
	case day.ActSkim:
		return 25 * time.Second, day.Done{}, true
	case day.ActEnter:
		if r := s.Head.Recipe; forWool(r) && (s.Vat.PH == nil || liquor.Creeps(r) && now.Sub(s.Vat.PHAt) >= liquor.PHHolds.Duration()) {
			return 2 * time.Minute, d.readPH(now.Add(2 * time.Minute)), true
		}
		return 30 * time.Second, day.Done{}, true
	case day.ActLift:
		if after, c, ok := beside(s, now); ok {
			return after, c, true
		}
		return d.lift(a, now)
	case day.ActFinish:
		return 40 * time.Second, day.Done{}, true
	case day.ActLook:
		return time.Minute, day.Record{Body: day.Rechecked{Answer: "better"}}, true
	case day.ActBench:
		return d.bench(a, now)
	case day.ActIdle:
		if s.Vat.Temp != nil && *s.Vat.Temp > day.HandsMost {
			return 10 * time.Minute, day.Record{Body: reading(36)}, true
		}
		return d.evening(now)
	}
	return d.meanwhile(now)
}

// beside is what is done while goods are in the liquor, if that is not for the last minute.
func beside(s day.State, now time.Time) (time.Duration, day.Command, bool) {
	c := day.CallOf(s, now)
	if c.Due == nil || c.Due.At.Sub(now) <= time.Minute {
		return 0, nil, false
	}
	quick := func(a day.Act) bool { return a.Kind == day.ActWetOut || a.Kind == day.ActDecide }
	m, ok := c.Beside(s, now, func(a day.Act) bool {
		return quick(a) || a.Kind == day.ActEnter || a.Kind == day.ActFinish || a.Kind == day.ActBench && a.Due != nil
	})
	switch {
	case !ok:
		return 0, nil, false
	case quick(m.Act):
		return 20 * time.Second, day.Take{Call: m.ID}, true
	}
	return 30 * time.Second, day.Take{Call: m.ID}, true
}

func reading(c float64) day.Reading {
	t := quantity.Celsius(c)
	return day.Reading{Temp: &t, With: "thermometer"}
}

// step is the build.
func (d dyerOf) step(a day.Act, now time.Time) (time.Duration, day.Command, bool) {
	st := a.Step
	left, _ := a.Left(now)
	switch {
	case a.Caution != "":
		return 6 * time.Second, day.Done{}, true
	case a.Entry == day.TempEntry && a.Press == "":
		t := thermometer(d.s, now.Add(40*time.Second))
		if st.AtMost != nil {
			t = min(t, st.AtMost.Celsius())
		}
		if st.AtLeast != nil {
			t = max(t, st.AtLeast.Celsius())
		}
		r := reading(t)
		r.Of = string(st.Into)
		return 40 * time.Second, day.Record{Body: r}, true
	case st.Do == recipe.Weigh:
		got := d.s.Weighed(st.No)
		target := rounded(st.Mass)
		switch {
		case got == 0:
			return 45 * time.Second, day.PutScoop{Mass: rounded(target * 6 / 10)}, true
		case got < target:
			return 30 * time.Second, day.PutScoop{Mass: target - got}, true
		}
		return 5 * time.Second, day.Done{}, true
	case st.Do == recipe.Fill:
		return d.fill(st)
	case st.Judges():
		return d.judge(left)
	case left > 0:
		return d.meanwhile(now)
	case st.Do == recipe.Stir && !d.s.Begun.IsZero():
		return 4 * time.Second, day.Done{}, true
	}
	return 50 * time.Second, day.Done{}, true
}

// fill pours the cold, reads, pours what is then wanted of hot, reads, and trims: the tap gave warmer water than was said.
func (d dyerOf) fill(st day.Step) (time.Duration, day.Command, bool) {
	f, ok := d.s.Filling()
	v := d.s.Head.Setup.Measured()
	if !ok || v.Shape == nil {
		return 6 * time.Minute, day.Done{}, true
	}
	read := func(holds quantity.Volume, temp float64) (time.Duration, day.Command, bool) {
		depth, err := v.Depth(holds)
		if err != nil {
			return 6 * time.Minute, day.Done{}, true
		}
		below := quantity.Centimetres(math.Round((v.Rim()-depth).Centimetres()*2) / 2)
		r := reading(temp)
		r.BelowRim = &below
		return 4 * time.Minute, day.Record{Body: r}, true
	}
	rest, err := f.Rest()
	switch {
	case err != nil:
	case f.Have == 0 && rest.Cold > 0 && rest.Hot > 0:
		return read(rest.Cold, f.Cold.Celsius()+3)
	case rest.Hot > quantity.Litres(2):
		return read(f.Have+rest.Hot, math.Round(f.Aim.Celsius())-0.5)
	}
	return 2 * time.Minute, day.Done{}, true
}

// wind is by how much faster than reckoned the invented yard takes heat.
const wind = 1.3

// thermometer is what the invented vat reads: from the last reading it cools as reckoned, in some wind.
func thermometer(s day.State, now time.Time) float64 {
	if s.Vat.Temp == nil || s.Vat.TempAt.IsZero() {
		return 37
	}
	stands := water.Standing{
		Vessel: s.Head.Setup.Measured(), Fill: s.Head.Setup.Fill, Lid: s.Vat.Covered, Factor: wind,
		Air: water.Air{Temp: yard, Humidity: quantity.Percent(60)},
	}
	t, err := stands.After(*s.Vat.Temp, quantity.Span(now.Sub(s.Vat.TempAt)))
	if err != nil {
		return s.Vat.Temp.Celsius()
	}
	return math.Round(t.Celsius()*2) / 2
}

// rounded is a mass as the scale shows it.
func rounded(m quantity.Mass) quantity.Mass {
	return quantity.Grams(float64(int(m.Grams()*10+0.5)) / 10)
}

// judge looks twice: the first strip turns too soon, where the vat is judged by one.
func (d dyerOf) judge(left time.Duration) (time.Duration, day.Command, bool) {
	strips := d.count(func(b day.Body) bool { _, ok := b.(day.StripTest); return ok })
	looks := d.count(func(b day.Body) bool { j, ok := b.(day.VatJudged); return ok && !j.Ready })
	if d.s.Ways()[0] != day.ByStrip {
		strips = 2
	}
	switch {
	case strips == 0:
		return 50 * time.Second, day.Record{Body: day.StripTest{Stayed: quantity.Span(20 * time.Second), Colour: "green, dark spots"}}, true
	case looks == 0:
		return 20 * time.Second, day.Judge{Ready: false, Seen: "grass green, thin film"}, true
	case left > 0:
		return 0, nil, false
	case strips == 1:
		return 70 * time.Second, day.Record{Body: day.StripTest{Stayed: quantity.Span(45 * time.Second), Colour: "clear yellow"}}, true
	}
	return 20 * time.Second, day.Judge{Ready: true, Seen: "clear yellow-green under a coppery film"}, true
}

// readAgain is after how long the vat is read again while the pieces are dyed.
const readAgain = 40 * time.Minute

// meanwhile is what is done while a time runs: pieces are listed, pH is read once.
func (d dyerOf) meanwhile(now time.Time) (time.Duration, day.Command, bool) {
	if _, kept := keptRow(d.s.Head); !kept && day.AsksSound(d.s) { // who keeps a vat alone answers each call with a key
		return 10 * time.Second, day.Record{Body: day.SoundChecked{Heard: true}}, true
	}
	st, open := d.s.Open()
	if open && st.Do == recipe.Wait && st.Into != recipe.IntoStock {
		if n, list := len(d.s.Pieces), d.early(); n < len(list) {
			return min(2*time.Minute, 10*time.Minute/time.Duration(len(list))), list[n], true
		}
		if d.s.Vat.PH == nil {
			return 3 * time.Minute, d.readPH(now.Add(3 * time.Minute)), true
		}
	}
	if _, open := d.s.Open(); !open && !d.s.Vat.TempAt.IsZero() && now.Sub(d.s.Vat.TempAt) > readAgain {
		return time.Minute, day.Record{Body: reading(thermometer(d.s, now.Add(time.Minute)))}, true
	}
	return 0, nil, false
}

// readPH reads °C, and on paper the pH that the vat is kept at: of one for wool as its recipe has it, else 10.5.
func (d dyerOf) readPH(at time.Time) day.Command {
	v, temp := 10.5, quantity.Celsius(thermometer(d.s, at))
	if forWool(d.s.Head.Recipe) {
		v = math.Round(float64(liquor.WorkingPH(d.s.Head.Recipe, d.s.Head.Recipe.Liquor.Aim).Likely)*10) / 10
	}
	return day.Record{Body: day.Reading{Temp: &temp, PH: &v, PHTemp: &temp, With: "paper strip"}}
}

func forWool(r recipe.Recipe) bool { return slices.Contains(r.Fibres, "wool") }

// lift answers most calls after a few seconds. The second dip of the day is lifted without a key, and confirmed after.
func (d dyerOf) lift(a day.Act, now time.Time) (time.Duration, day.Command, bool) {
	for _, e := range d.s.Log {
		if p, ok := e.Body.(day.Presumed); ok && p.IsAssumed() && !d.confirmed(e.Seq) {
			return 20 * time.Second, day.Confirm{Seq: e.Seq}, true
		}
	}
	left, _ := a.Left(now)
	if left > day.LastMinute && day.AsksSound(d.s) {
		return 10 * time.Second, day.Record{Body: day.SoundChecked{Heard: true}}, true
	}
	lifts := d.count(func(b day.Body) bool { _, ok := b.(day.DipEnded); return ok })
	if lifts == 1 && !d.s.Head.Setup.Waiting {
		return 0, nil, false
	}
	if left > 0 {
		return 0, nil, false
	}
	return 4 * time.Second, day.Done{}, true
}

func (d dyerOf) confirmed(seq int) bool {
	return d.count(func(b day.Body) bool { c, ok := b.(day.Corrected); return ok && c.Of == seq }) > 0
}

// bench rinses what is done, sours linen and what the sour is not optional for, and soaps it, one piece while another is in its bath; what
// dries is for the day after.
func (d dyerOf) bench(a day.Act, now time.Time) (time.Duration, day.Command, bool) {
	if left, _ := a.Left(now); left > 0 {
		m, ok := day.CallOf(d.s, now).Beside(d.s, now, func(a day.Act) bool {
			_, _, ok := finishes(a)
			return ok && left > day.LastMinute && a.Kind == day.ActBench
		})
		if after, c, _ := finishes(m.Act); ok {
			if _, press := c.(day.Done); press {
				c = day.Take{Call: m.ID}
			}
			return after, c, true
		}
		return d.meanwhile(now)
	}
	if after, c, ok := finishes(a); ok {
		return after, c, true
	}
	return d.evening(now)
}

// finishes is the press of a step on the bench; false for what dries, or for a gate that is shut.
func finishes(a day.Act) (time.Duration, day.Command, bool) {
	id, acid := a.Bench.ID, a.Bench.Gated
	switch {
	case a.Shut:
	case a.Due == nil && acid && a.Bench.Optional && (a.Piece.Spec.Fibre != "linen" || id != "sour"):
		return 10 * time.Second, day.LeaveOut{Tag: a.Piece.Tag}, true
	case a.Due != nil, a.Caution != "", id == "rinse":
		return 20 * time.Second, day.Done{}, true
	case acid, id == "soap":
		return time.Minute, day.Done{}, true
	}
	return 0, nil, false
}

// evening ends the day: the vat is read, covered and left.
func (d dyerOf) evening(now time.Time) (time.Duration, day.Command, bool) {
	readings := d.count(func(b day.Body) bool { r, ok := b.(day.Reading); return ok && r.Temp != nil })
	switch {
	case len(d.s.Pieces) < len(d.early()):
		return 10 * time.Second, d.early()[len(d.s.Pieces)], true
	case readings < 2 || d.s.Vat.TempAt.Before(d.s.Vat.Lifted):
		return 2 * time.Minute, day.Record{Body: reading(thermometer(d.s, now.Add(2*time.Minute)))}, true
	case !d.s.Vat.Covered:
		return time.Minute, day.Record{Body: day.VatCovered{With: "the lid"}}, true
	}
	return time.Minute, day.Close{Why: d.why()}, true
}

// why is what the day closes with: how far its pieces came.
func (d dyerOf) why() string {
	why := "all pieces done"
	for _, p := range d.s.Pieces {
		switch st, ok := d.s.BenchNext(p); {
		case !ok:
		case st.ID == "rinse" || st.ID == "sour" || st.ID == "soap":
			return "all pieces have their dips; rinse and soap to come"
		default:
			why = "all pieces rinsed and soaped; they dry"
		}
	}
	return why
}
