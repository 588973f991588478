package engine

import (
	"fmt"
	"math"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
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

// act is one thing that the hands do, and how long they take to it.
type act struct {
	after time.Duration
	c     day.Command
}

// next is what the dyer does next and after how long; false when only time helps.
func (k keeper) next(a day.Act, now time.Time) (time.Duration, day.Command, bool) {
	todo, ok := k.todo(a, now)
	return todo.after, todo.c, ok
}

func (k keeper) todo(a day.Act, now time.Time) (act, bool) {
	s := k.s
	if !s.Head.Opening.Built && a.Kind == day.ActStep {
		after, c, ok := k.step(a, now)
		return act{after, c}, ok
	}
	if todo, ok := k.brought(); ok {
		return todo, true
	}
	if s.Head.Setup.Ending {
		return k.end(a, now)
	}
	if s.Treating != nil && len(s.InVat()) == 0 {
		return k.recheck(now)
	}
	if _, open := s.Open(); s.Vat.Heater || !open {
		if todo, ok := k.list(); ok {
			return todo, true
		}
	}
	switch a.Kind {
	case day.ActStep:
		return k.morning(a)
	case day.ActWetOut, day.ActSkim, day.ActEnter, day.ActFinish:
		return act{30 * time.Second, day.Done{}}, true
	case day.ActLift:
		if after, c, ok := beside(s, now); ok {
			return act{after, c}, true
		}
		if left, _ := a.Left(now); left > 0 {
			return act{}, false
		}
		return act{4 * time.Second, day.Done{}}, true
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
	return act{}, false
}

func record(after time.Duration, b day.Body) (act, bool) {
	return act{after, day.Record{Body: b}}, true
}

// sight is the liquor as it is reckoned to be so long after the last event.
func (k keeper) sight(after time.Duration) outlook.Outlook {
	return k.eyes.look(k.s, k.s.At.Add(after))
}

// thermometer reads °C after a while, and pH with it where asked for.
func (k keeper) thermometer(after time.Duration, withPH bool) (act, bool) {
	o := k.sight(after)
	t := quantity.Celsius(math.Round(o.Heat.Now.Celsius()*2) / 2)
	r := day.Reading{Temp: &t, With: "thermometer"}
	if withPH && o.PH.Known != outlook.Unknown {
		v := math.Round(float64(o.PH.Now.Likely)*100) / 100
		r.PH, r.PHTemp, r.With = &v, &t, "meter"
	}
	return record(after, r)
}

// ph is the pH of the liquor with so much acid in it.
func (k keeper) ph(o outlook.Outlook, acid quantity.Molarity) quantity.PH {
	now := o.PH.Now.Likely
	m, err := liquor.OfRecipe(k.s.Head.Recipe, 0)
	if err != nil || acid == 0 {
		return now
	}
	a, err := liquor.Reanchor(m, now, o.Heat.Now, 0.01)
	if err != nil {
		return now
	}
	m = a.Makeup
	m.Acid += acid
	if p, err := liquor.PH(m, o.Heat.Now); err == nil {
		return p
	}
	return now
}

// strip pulls a strip: the more reducer a litre holds and the warmer it is, the longer it stays yellow. The curve is made
// up, within what model/liquor takes a strip to allow.
func (k keeper) strip() (act, bool) {
	const longest, half, cold, warm = 70, 0.4, 0.02, 35 // s, g/L, per °C, °C
	after := time.Minute
	o := k.sight(after)
	g := o.Reducer.Left.Likely.Per(k.s.Head.Setup.Fill).GramsPerLitre()
	sec := longest * g / (g + half) * (1 - cold*math.Max(0, warm-o.Heat.Now.Celsius()))
	t := day.StripTest{Stayed: quantity.Span(time.Duration(math.Round(sec)) * time.Second)}
	switch looks := k.looks(t.Stayed); {
	case slices.Contains(looks, "grass-green"):
		t.Colour = "green"
	case slices.Contains(looks, "blue-green"):
		t.Colour = "blue-green"
	default:
		t.Colour = "clear yellow"
	}
	return record(after, t)
}

// looks are the signs of a liquor by its strip, and by the indigo that is left in it: too little for a mid blue in the
// usual dips looks like straw, and dyes pale.
func (k keeper) looks(strip quantity.Span) []string {
	switch s := strip.Seconds(); {
	case s < weak.Seconds():
		return []string{"blue-green", "clear", "no-film"}
	case s < 30:
		return []string{"grass-green", "clear"}
	}
	if k.pale() {
		return []string{"straw", "clear", "no-film", "pale"}
	}
	return []string{"yellow", "clear", "coppery", "dark-froth"}
}

// pale tells whether the vat wants indigo for the day's goods.
func (k keeper) pale() bool {
	wants := slices.ContainsFunc(k.row.goods, func(p day.AddPiece) bool { return p.Spec.Depth == "mid" })
	if !wants || !k.s.Vat.Lifted.IsZero() {
		return false
	}
	for _, c := range k.sight(0).Indigo.Capacity {
		if c.Depth.Name == "mid" {
			return c.Reach != liquor.Yes
		}
	}
	return false
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
func (k keeper) brought() (act, bool) {
	for _, p := range k.s.Pieces {
		st, ok := k.s.BenchNext(p)
		if !p.Brought() || !ok {
			continue
		}
		of := day.OfPiece{Tag: p.Tag}
		switch st.ID {
		case "crock":
			if p.Dips < 4 {
				return act{30 * time.Second, day.LeaveOut{Tag: p.Tag}}, true
			}
			return record(4*time.Minute, day.CrockTested{OfPiece: of, Dry: 4.5, Wet: 3})
		case day.Looked:
			return record(time.Minute, day.LookedAt{OfPiece: of, Looks: p.ColourName(), Rinsed: true})
		}
		return act{time.Minute, day.Bench{Tag: p.Tag}}, true
	}
	return act{}, false
}

// morning reads the vat, and leads it through the steps of a day at a vat that lives.
func (k keeper) morning(a day.Act) (act, bool) {
	s, st := k.s, a.Step
	switch {
	case s.Vat.Heater:
		return k.heated()
	case s.Vat.TempAt.IsZero():
		return k.thermometer(3*time.Minute, true)
	case s.Vat.StripAt.IsZero():
		return k.strip()
	case k.row.kind == keptLook && !k.tired():
		if todo, ok := k.say(); ok {
			return todo, true
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
func (k keeper) warm(a day.Act) (act, bool) {
	s := k.s
	switch {
	case a.Caution != "":
		return act{6 * time.Second, day.Done{}}, true
	case s.Vat.TempAt.Before(s.Vat.Warmed):
		return k.thermometer(time.Minute, false)
	case *s.Vat.Temp < s.Head.Recipe.Liquor.Low:
		return record(2*time.Minute, day.HeaterOn{})
	}
	return act{10 * time.Second, day.Done{}}, true
}

// heated takes the heater off once it is reckoned to be warm.
func (k keeper) heated() (act, bool) {
	return record(k.sight(0).Heat.Back.Duration(), day.HeaterOff{})
}

// say tells the next sign that was not told yet; false when all are.
func (k keeper) say() (act, bool) {
	seen := k.s.Seen()
	for _, id := range k.looks(*k.s.Vat.Strip) {
		if !slices.ContainsFunc(seen, func(x signs.Sign) bool { return x.ID == id }) {
			return act{10 * time.Second, day.Record{Body: day.SignSeen{Sign: id}}}, true
		}
	}
	return act{}, false
}

// tend asks the signs, and does what they say of the likeliest cause.
func (k keeper) tend() (act, bool) {
	if todo, ok := k.say(); ok {
		return todo, true
	}
	s := k.s
	c := k.cause()
	if !k.treats(c) {
		st, open := s.Open()
		if !open || st.Do != recipe.Check || *s.Vat.Strip < weak { // a weak one: not today
			return k.night()
		}
		return act{20 * time.Second, day.Judge{Ready: true, Seen: "clear yellow-green under a coppery film"}}, true
	}
	treat := day.Treat{Cause: c.ID, Do: c.Do, Wait: c.Wait}
	for _, d := range c.Doses {
		treat.Powders = append(treat.Powders, day.Amount{Powder: d.Powder, Mass: d.Mass})
	}
	return act{6 * time.Minute, treat}, true
}

// cause is the likeliest cause of what is seen; in a vat whose strip is good and that is too weak for the day's goods, the
// one that gives indigo, once.
func (k keeper) cause() signs.Cause {
	s := k.s
	all := signs.Causes(outlook.Asked(s, k.sight(0), s.At))
	if *s.Vat.Strip >= 2*weak && k.pale() && !k.fed() {
		for _, c := range all {
			if slices.ContainsFunc(c.Doses, func(d signs.Dose) bool { return d.Role == recipe.Indigo }) {
				return c
			}
		}
	}
	return all[0]
}

// fed tells whether indigo was given today.
func (k keeper) fed() bool {
	for _, e := range k.s.Told() {
		if b, ok := e.Body.(day.PowderAdded); ok && b.Step == 0 {
			if p, known := k.s.Head.Recipe.Powder(b.Powder); known && p.Role == recipe.Indigo {
				return true
			}
		}
	}
	return false
}

// treats tells whether the dyer does what a cause asks for, or leaves it at that.
func (k keeper) treats(c signs.Cause) bool {
	good, tried := *k.s.Vat.Strip >= 2*weak, len(k.s.Tried())
	switch {
	case c.Wait > 0 && tried < mostTend && slices.ContainsFunc(c.Doses, func(d signs.Dose) bool { return d.Role == recipe.Indigo }):
		return true
	case c.Wait <= 0 || tried >= mostTend || good && tried >= mostGood:
		return false
	case good:
		return c.Act == signs.Give || c.Act == signs.Warm
	}
	return c.Act != signs.Dye && c.Act != signs.Stop && c.Act != signs.Look
}

// given is when something was last given or done to the vat; zero for never today.
func (k keeper) given() time.Time {
	return k.last(func(b day.Body) bool {
		switch b := b.(type) {
		case day.PowderAdded:
			return b.Step == 0
		case day.Treated:
			return true
		}
		return false
	})
}

// recheck looks again at what was treated, once its time is over. A vat that was too cold is warmed meanwhile.
func (k keeper) recheck(now time.Time) (act, bool) {
	s := k.s
	over := !now.Before(s.Treating.Until)
	switch {
	case s.Vat.Heater && over:
		return record(30*time.Second, day.HeaterOff{})
	case s.Vat.Heater:
		return act{}, false
	case !over && !s.Vat.Covered:
		return record(30*time.Second, day.VatCovered{With: "the lid"})
	case !over && k.dosed() == "" && !k.warmEnough() && s.Vat.Warmed.Before(s.Treating.Since):
		return record(time.Minute, day.HeaterOn{})
	case !over:
		return act{}, false
	case !s.Vat.TempAt.After(s.Treating.Since) || s.Vat.TempAt.Before(s.Vat.Warmed):
		return k.thermometer(3*time.Minute, true)
	case s.Vat.StripAt.Before(s.Treating.Until):
		return k.strip()
	}
	return record(20*time.Second, day.Rechecked{Answer: k.answer().String()})
}

// dosed is the role of the powder that the treatment gave; empty for none.
func (k keeper) dosed() recipe.Role {
	for _, e := range slices.Backward(k.s.Log) {
		b, ok := e.Body.(day.PowderAdded)
		if p, known := k.s.Head.Recipe.Powder(b.Powder); ok && known && e.At.Equal(k.s.Treating.Since) {
			return p.Role
		}
	}
	return ""
}

// answer is what the look after a treatment says: of alkali by the pH, of indigo by the swatch, of warmth by the °C, else by
// the strips.
func (k keeper) answer() signs.Answer {
	s := k.s
	better := func(yes bool) signs.Answer {
		if yes {
			return signs.Better
		}
		return signs.Same
	}
	var before *float64
	cold := false
	for _, e := range s.Told() {
		switch b := e.Body.(type) {
		case day.Reading:
			if b.PH != nil && !e.At.After(s.Treating.Since) {
				before = b.PH
			}
		case day.HeaterOn:
			cold = cold || e.At.After(s.Treating.Since)
		}
	}
	switch role := k.dosed(); {
	case role == recipe.Alkali && before != nil:
		return better(*s.Vat.PH > *before)
	case role == recipe.Indigo:
		return better(!k.pale())
	case role == "" && cold:
		return better(k.warmEnough())
	}
	if a := outlook.Answer(s); a != signs.NotSaid {
		return a
	}
	return signs.Same
}

// finishing rinses what is done, sours linen and soaps it; what dries is for the next day.
func (k keeper) finishing(a day.Act, now time.Time) (act, bool) {
	left, _ := a.Left(now)
	sours := a.Piece.Spec.Fibre == "linen"
	switch {
	case left > 0:
		return act{}, false
	case a.Due != nil, a.Caution != "" && (a.Bench.ID != "sour" || sours), a.Bench.ID == "rinse":
		return act{20 * time.Second, day.Done{}}, true
	case a.Bench.ID == "sour" && !sours:
		return act{10 * time.Second, day.LeaveOut{Tag: a.Piece.Tag}}, true
	case a.Bench.ID == "sour" || a.Bench.ID == "soap":
		return act{time.Minute, day.Done{}}, true
	}
	return k.evening()
}

// list puts the next piece of the day on its list: the goods soak while the vat is warmed.
func (k keeper) list() (act, bool) {
	for _, p := range k.row.pieces(k.s.Head.Opening.Number) {
		if _, there := k.s.Piece(p.Tag); !there {
			return act{time.Minute, p}, true
		}
	}
	return act{}, false
}

// evening judges the swatch; then the vat is read, put right if it is weak, filled up, covered and left.
func (k keeper) evening() (act, bool) {
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
func (k keeper) swatch(p day.Piece) (act, bool) {
	after := 5 * time.Minute
	lab, _, ok := outlook.Looks(k.s, p.Tag)
	if !ok {
		return act{}, false
	}
	looks := fmt.Sprintf("lab %.1f %.1f %.1f", lab.L, lab.A, lab.B)
	return record(after, day.SwatchJudged{Swatch: p.Tag, Looks: looks, Dips: p.Dips})
}

// night fills the vat up, covers it and closes the day.
func (k keeper) night() (act, bool) {
	s := k.s
	if todo, ok := k.topUp(); ok {
		return todo, true
	}
	if !s.Vat.Covered {
		return record(time.Minute, day.VatCovered{With: "the lid"})
	}
	why := "all pieces done"
	if len(k.row.goods) == 0 {
		why = "looked after"
	}
	return act{time.Minute, day.Close{Why: why}}, true
}

// topUp makes up for what went off as damp and out with the goods: the level is read before and after.
func (k keeper) topUp() (act, bool) {
	s := k.s
	v := s.Head.Setup.Measured()
	if k.row.sunk == 0 || v.Shape == nil {
		return act{}, false
	}
	level := func(holds quantity.Volume) (act, bool) {
		depth, err := v.Depth(holds)
		if err != nil {
			return act{}, false
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
	return act{}, false
}

// The end of the vat: what one lot of the acid does, by its three equivalents.
const (
	citricMole    = 192.12 // g/mol
	citricCharges = 3
)

// end leads the vat through the steps to its end.
func (k keeper) end(a day.Act, now time.Time) (act, bool) {
	s, st := k.s, a.Step
	left, _ := a.Left(now)
	since := func(match func(day.Body) bool) bool {
		at := k.last(match)
		return !at.IsZero() && !at.Before(s.StepSince) && !at.Before(s.Opened)
	}
	switch {
	case s.Vat.TempAt.IsZero():
		return k.thermometer(3*time.Minute, true)
	case a.Caution != "":
		return act{10 * time.Second, day.Done{}}, true
	case st.Do == day.DoSpent:
		return k.spent(left)
	case left > 0 && st.Do == recipe.Settle:
		return k.night()
	case left > 0:
		return act{}, false
	case st.Do == day.DoDecant && !since(func(b day.Body) bool { _, ok := b.(day.Decanted); return ok }):
		return record(25*time.Minute, day.Decanted{Liquor: s.Head.Setup.Fill * 9 / 10, Why: "off the pigment"})
	case st.Do == day.DoAcid:
		return k.acid(st)
	case st.Do == day.DoEnd:
		return record(20*time.Minute, day.VatEnded{Why: "used up", Liquor: s.Head.Setup.Fill * 9 / 10, Route: "the foul sewer, as the water utility said"})
	}
	return act{2 * time.Minute, day.Done{}}, true
}

// spent looks whether the vat has stayed blue: the first look comes too soon.
func (k keeper) spent(left time.Duration) (act, bool) {
	s := k.s
	not := k.count(func(b day.Body) bool { j, ok := b.(day.VatJudged); return ok && !j.Ready })
	free := not == 0
	since := s.StepSince
	if !s.Judged.IsZero() {
		since = s.Judged
	}
	switch {
	case left > 0:
		return act{}, false
	case !s.Vat.StripAt.After(since) && free:
		return record(time.Minute, day.StripTest{Stayed: quantity.Span(10 * time.Second), Colour: "yellow at first"})
	case !s.Vat.StripAt.After(since):
		return record(time.Minute, day.StripTest{Colour: "blue at once"})
	case free:
		return act{20 * time.Second, day.Judge{Ready: false, Seen: "green below the surface: whisked again"}}, true
	}
	return act{20 * time.Second, day.Judge{Ready: true, Seen: "blue to the floor"}}, true
}

// acid reads the pH, and brings it down lot by lot.
func (k keeper) acid(st day.Step) (act, bool) {
	lots, read := 0, false
	for _, e := range k.s.Log {
		switch b := e.Body.(type) {
		case day.PowderAdded:
			lots, read = lots+1, false
		case day.Reading:
			if b.PH != nil {
				lots, read = 0, !e.At.Before(k.s.Answered)
			}
		}
	}
	fill := k.s.Head.Setup.Fill
	lot := quantity.MillimolesPerLitre(k.s.Plan[st.No-1].Mass.Per(fill).GramsPerLitre() / citricMole * citricCharges * 1000)
	switch {
	case !read:
		o := k.sight(0)
		v := math.Round(float64(k.ph(o, lot*quantity.Molarity(lots)))*100) / 100
		return record(5*time.Minute, day.Reading{PH: &v, With: "meter"})
	case *k.s.Vat.PH > 9:
		return act{10 * time.Minute, day.Done{}}, true
	}
	return act{time.Minute, day.Done{}}, true
}
