package day_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// Every kind has a command by which a dyer makes it, or is made by the program alone, with its reason; none is both.
func TestEveryKindHasAnAuthor(t *testing.T) {
	made := map[string]bool{}
	noting := func(p *played) *played { p.made = made; return p }
	of := func(tag string) day.OfPiece { return day.OfPiece{Tag: tag} }
	record := func(p *played, bodies ...day.Body) {
		for _, b := range bodies {
			p.do(day.Record{Body: b})
		}
	}

	build := noting(begin(t, head(t, "soda")))
	build.until(recipe.Cover, "")
	build.do(day.Skip{Reason: "no lid at hand"})
	build.until(recipe.Wait, "")
	build.do(day.Stretch{Timer: day.Next(build.s, build.now).Due.Timer, By: quantity.Minutes(5)})
	build.do(day.Stretch{Timer: day.Next(build.s, build.now).Due.Timer, By: -quantity.Minutes(5)})
	jar := noting(begin(t, head(t, "lye")))
	jar.until(recipe.Cover, "")

	p := noting(dyeing(t, 3))
	record(p, day.StripTest{Stayed: 40}, day.SignSeen{Sign: "blue"}, day.VatCovered{}, day.VatUncovered{}, day.FrothSkimmed{}, day.Stirred{}, day.Settled{},
		day.HeaterOn{}, day.HeaterOff{}, day.ToppedUp{Water: 2, Temp: 12}, day.DrawnOff{Liquor: 3}, day.Decanted{Liquor: 3}, day.Note{Text: "rain"},
		day.PieceChanged{OfPiece: of("A3"), PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 100}}, day.PieceDropped{OfPiece: of("A3"), Reason: "torn"},
		day.HelperChanged{Who: "a neighbour"}, day.WayChosen{Way: "full"}, day.HandsTold{Hands: 2}, day.PlaceChanged{Place: day.Outdoors}, day.Talking{On: true}, day.Talking{}, day.VesselTold{Material: "HDPE"})
	p.do(day.Treat{Cause: "tired", Do: "reducer", Powders: []day.Amount{{Powder: "reducer", Mass: 10}}, Wait: quantity.Minutes(30)})
	record(p, day.Rechecked{Answer: "better"})
	p.do(day.RestVat{For: quantity.Minutes(10)})
	p.do(day.Back{})
	p.do(reading(50))
	record(p, day.HotWork{Reason: "on sticks"})
	p.do(reading(36))
	p.do(day.Lower{Tag: "A1"})
	p.wait(8 * minute)
	p.do(day.Lift{Tag: "A1"})
	record(p, day.LookedAt{OfPiece: of("A1"), Looks: "mid", Wet: true}, day.SwatchJudged{Swatch: "A1", Looks: "mid", Dips: 1})
	p.wait(40 * minute)
	p.do(day.Finish{Tag: "A1"})
	p.do(day.Bench{Tag: "A1"}) // into the rinse
	p.wait(10 * minute)
	p.do(day.Bench{Tag: "A1"})
	record(p, day.Rinsed{OfPiece: of("A1")}, day.Soured{OfPiece: of("A1")}, day.Soaped{OfPiece: of("A1")}, day.Dried{OfPiece: of("A1")},
		day.CrockTested{OfPiece: of("A1"), Dry: 4, Wet: 3})
	p.do(day.LeaveOut{Tag: "A1"})
	record(p, day.CarriedOver{OfPiece: of("A2"), To: "tomorrow"})
	p.do(day.Close{})

	ferment := noting(dyeing(t, 0, func(h *day.Head) { h.Recipe = built(t, "madder-bran") }))
	record(ferment, day.Fed{Powder: "bran", Mass: 100})
	ferment.do(day.AddPiece{Tag: "B1", Spec: day.PieceSpec{Fibre: "linen", Dry: 100}})
	record(ferment, day.GoodsAsked{}, day.Readied{OfPiece: day.OfPiece{Tag: "B1"}, What: day.ToScour}, day.WettedOut{OfPiece: day.OfPiece{Tag: "B1"}}, day.VatEnded{Why: "it leaked out"})

	record(noting(dyeing(t, 0)), day.SoundChecked{Heard: true})
	for _, b := range day.Kinds() {
		kind, why := b.Kind(), machineMade[b.Kind()]
		switch {
		case made[kind] && why != "":
			t.Errorf("%q is made by a command, and said to be the program's: %s", kind, why)
		case !made[kind] && why == "":
			t.Errorf("%q is made by no command, and nothing says that only the program makes it", kind)
		case why != "":
			dyeing(t, 1).refuses(day.Record{Body: b}, "own key")
		}
	}
}

// machineMade are the kinds that only the program makes, each with its reason.
var machineMade = map[string]string{
	day.Opened{}.Kind():       "the program writes it as the day is opened, before anything can be said",
	day.ClockStepped{}.Kind(): "the engine finds it, by the boot clock",
	day.Slept{}.Kind():        "the engine finds it, by the boot clock",
	day.SoundFailed{}.Kind():  "the engine finds it, as no player ended well",
	day.Lost{}.Kind():         "book mend puts it where an event was lost",
}

// ferment is a living ferment of 60 L with a piece that is wet.
func ferment(t *testing.T) *played {
	return dyeing(t, 1, func(h *day.Head) { h.Recipe = built(t, "madder-bran") })
}

// Water, cold and hot, makes up for what was lost; the level and the °C follow what was read.
func TestToppedUp(t *testing.T) {
	top := func(litres, celsius float64) day.Record {
		return day.Record{Body: day.ToppedUp{Water: quantity.Litres(litres), Temp: quantity.Celsius(celsius)}}
	}
	p := dyeing(t, 1, func(h *day.Head) { h.Setup.Vessel, h.Setup.Material = "frustum 36 cm 44 cm 62 cm", "PP" }) // 78.5 L to the brim
	p.refuses(top(0, 12), "how much water")
	p.refuses(top(2, 140), "between 0 and 100 °C")
	p.refuses(top(80, 12), "to the brim")
	p.do(day.Record{Body: day.Reading{Temp: celsius(40), Holds: ptr(quantity.Litres(56))}})
	p.refuses(top(30, 12), "read how full it is again")
	if got := p.do(top(4, 12)); got != "topped up" {
		t.Errorf("cold water makes %s", got)
	}
	if l := p.s.Level(); l.In != 60 || !l.Read {
		t.Errorf("56 L and 4 more are %+v", l)
	}
	if r := p.s.Reckoned(); r == nil || *r < 38 || *r > 38.3 { // (56×40 + 4×12) / 60
		t.Errorf("4 L at 12 °C in 56 L at 40 make %v", r)
	}
	if got := p.do(top(6, 90)); got != "caution answered, topped up" {
		t.Errorf("hot water makes %s", got)
	}
	p.do(reading(44))
	p.do(top(4, 95))
	p.refuses(day.Lower{Tag: "A1"}, "hot water went in since it was read")
	p.do(reading(44.5))
	p.do(day.Lower{Tag: "A1"})
	p.refuses(top(2, 60), "A1 is in the vat: hands and goods out before hot water")
	p.do(top(1, 20))
	p.wait(8 * minute)
	p.do(day.Lift{Tag: "A1"})
	p.do(reading(38))
	p.do(day.Record{Body: day.HeaterOn{}})
	p.refuses(top(1, 20), "off and unplugged before water")
	p.do(day.Record{Body: day.HeaterOff{}})
	p.do(day.Record{Body: day.HelperChanged{Who: "children", Children: true}})
	p.refuses(top(1, 41), "for adults")
	p.do(day.Record{Body: day.ToppedUp{Water: 1}})
	if last := p.s.Log[len(p.s.Log)-1].Body.(day.ToppedUp); last.Temp != 15 {
		t.Errorf("water that nobody told of is %s", last.Temp) // as cold as the setup's
	}
	begin(t, head(t, "soda")).refuses(top(2, 12), "no liquor yet")
	hot := dyeing(t, 0, func(h *day.Head) { h.Setup.Material = "LDPE" })
	hot.do(reading(45))
	hot.refuses(top(20, 80), "bears 49 °C at most")
}

// A step that waits for a °C wants it read after water came in.
func TestAGateWantsAReadingAfterWater(t *testing.T) {
	p := begin(t, head(t, "soda"))
	p.until(recipe.Sprinkle, "reducer")
	p.do(reading(48))
	p.do(day.Done{})
	p.wait(2 * sec)
	p.do(day.Record{Body: day.ToppedUp{Water: 5, Temp: 90}})
	p.refuses(day.Done{}, "First read the °C")
	p.do(reading(49))
	p.do(day.Done{})
}

// Liquor that is drawn off or decanted lowers the level, and the next day knows it.
func TestDrawnOff(t *testing.T) {
	p := dyeing(t, 0)
	draw := func(litres float64) day.Record {
		return day.Record{Body: day.DrawnOff{Liquor: quantity.Litres(litres)}}
	}
	p.refuses(draw(0), "how much was drawn off")
	p.refuses(draw(61), "60 L are in it at most")
	p.do(draw(20))
	p.do(day.Record{Body: day.Decanted{Liquor: 10}})
	if l := p.s.Level(); l.In != 30 {
		t.Errorf("30 L of 60 are left, not %+v", l)
	}
	p.refuses(draw(31), "30 L are in it at most")
	p.do(day.Record{Body: day.ToppedUp{Water: 5}})
	if o := day.Carry(p.s); o.Holds == nil || *o.Holds != 35 {
		t.Errorf("the next day takes over %v", o.Holds)
	}
	h := p.s.Head
	h.Opening = day.Carry(p.s)
	next := begin(t, h)
	if l := next.s.Level(); l.In != 35 || !l.Read {
		t.Errorf("the next day opens with %+v", l)
	}
	p.do(day.Record{Body: day.ToppedUp{Water: 40}}) // full again: water makes up for what is gone, no more
	if l := p.s.Level(); l.In != 60 {
		t.Errorf("filled up it holds %s", l.In)
	}
	if o := day.Carry(p.s); o.Holds != nil {
		t.Errorf("of a full vat the next day takes over %s", *o.Holds)
	}
	p.do(day.Record{Body: day.HeaterOn{}})
	p.refuses(draw(1), "off and unplugged before liquor is drawn off")
	begin(t, head(t, "soda")).refuses(draw(1), "no liquor yet")

	clear := dyeing(t, 0) // clear liquor that was taken off its sludge is as much gone
	clear.do(day.Record{Body: day.Decanted{Liquor: 20}})
	if l := clear.s.Level(); l.In != 40 {
		t.Errorf("20 L of 60 were decanted, and %s are left", l.In)
	}
	if o := day.Carry(clear.s); o.Holds == nil || *o.Holds != 40 {
		t.Errorf("after 20 L were decanted the next day takes over %v", o.Holds)
	}

	h = head(t, "soda")
	h.Setup.Ending, h.Opening = true, day.Opening{Number: 3, Built: true, Step: 2}
	end := begin(t, h)
	end.refuses(draw(1), "the vat is being ended")
	end.refuses(day.Record{Body: day.Decanted{Liquor: 1}}, "first whisk air in")
}

// A dose, a piece and what has room beside what is in go by what is in the vat, not by what it once held.
func TestDosesAndGoodsGoByTheLevel(t *testing.T) {
	give := day.Answered{Command: day.Dose{Powders: []day.Amount{{Powder: "reducer", Mass: 200}}}}
	big := day.AddPiece{Tag: "Z1", Spec: day.PieceSpec{Fibre: "linen", Dry: 4000, Dips: 1}}
	beside := func(p *played) string { // what is called in beside D1
		for _, tag := range []string{"D1", "D2"} {
			p.do(day.AddPiece{Tag: tag, Spec: day.PieceSpec{Fibre: "linen", Dry: 400, Dips: 2, Dip: quantity.Minutes(8)}})
			p.do(day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: tag}}})
		}
		p.do(day.Lower{Tag: "D1"})
		p.wait(minute)
		for _, c := range day.CallOf(p.s, p.now).Meanwhile(p.s, p.now) {
			if c.Verb == "lower" {
				return strings.Join(c.Tags, " ")
			}
		}
		return ""
	}
	full := dyeing(t, 0)
	if got := beside(full); got != "D2" {
		t.Errorf("beside 400 g in 60 L %q is called in", got)
	}
	full = dyeing(t, 0)
	full.do(give)
	full.do(big)

	low := dyeing(t, 0)
	low.do(day.Record{Body: day.Decanted{Liquor: 50}})
	if got := beside(low); got != "" {
		t.Errorf("beside 400 g in 10 L %q is called in", got)
	}
	low = dyeing(t, 0)
	low.do(day.Record{Body: day.Decanted{Liquor: 50}})
	low.refuses(give, "more than anyone gives to 10 L at once")
	low.refuses(big, "in a vat of 10 L no liquor would be left")
	unfilled := begin(t, head(t, "soda"))
	unfilled.do(big)
}

// Food has one kind and every other powder another, whoever tells of it, so that each counts once; only ferments are fed.
func TestFedAndGiven(t *testing.T) {
	p := ferment(t)
	for _, c := range []struct {
		c    day.Command
		want string
	}{
		{day.Record{Body: day.Fed{Powder: "bran", Mass: 100}}, "fed"},
		{day.Record{Body: day.Fed{Powder: "rye flour", Mass: 30}}, "fed"},
		{day.Record{Body: day.PowderAdded{Powder: "madder", Mass: 30}}, "fed"},
		{day.Dose{Powders: []day.Amount{{Powder: "bran", Mass: 50}}}, "fed"},
		{day.Treat{Cause: "hungry", Do: "bran", Powders: []day.Amount{{Powder: "bran", Mass: 50}}}, "fed, treated"},
		{day.Record{Body: day.Fed{Powder: "soda", Mass: 20}}, "caution answered, powder added"},
		{day.Dose{Powders: []day.Amount{{Powder: "lime", Mass: 20}, {Powder: "bran", Mass: 20}}}, "caution answered, powder added, fed"},
	} {
		if got := p.do(c.c); got != c.want {
			t.Errorf("%#v makes %s, want %s", c.c, got, c.want)
		}
	}
	if fed := p.s.Log[len(p.s.Log)-1].Body.(day.Fed); fed.Material != "wheat bran" {
		t.Errorf("bran is %q", fed.Material)
	}
	p.refuses(day.Record{Body: day.Fed{Powder: "bran"}}, "say how much of the wheat bran")
	p.refuses(day.Record{Body: day.Fed{Powder: "bran", Mass: 60000}}, "weigh again")
	p.refuses(day.Record{Body: day.Fed{Powder: "citric acid", Mass: 10}}, `no powder "citric acid"`)
	p.do(reading(36))
	p.do(day.Lower{Tag: "A1"})
	p.refuses(day.Record{Body: day.Fed{Powder: "bran", Mass: 10}}, "hands and goods out before a dose")
	dyeing(t, 0).refuses(day.Record{Body: day.Fed{Powder: "bran", Mass: 10}}, `no powder "bran"`)
	dyeing(t, 0).refuses(day.Record{Body: day.PowderAdded{Powder: "soda", Mass: 10, Into: "bucket"}}, "or its stock jar")
}

// A piece is dropped wherever it is, but out of the vat and out of its bath.
func TestDropped(t *testing.T) {
	drop := day.Record{Body: day.PieceDropped{OfPiece: day.OfPiece{Tag: "A1"}, Reason: "torn"}}
	p := dyeing(t, 1)
	p.do(day.Lower{Tag: "A1"})
	p.refuses(drop, "A1 is in the vat since 09:00: lift it first")
	p.wait(8 * minute)
	p.do(day.Lift{Tag: "A1"})
	p.wait(40 * minute)
	p.do(day.Finish{Tag: "A1"})
	p.do(day.Bench{Tag: "A1"})
	p.refuses(drop, "A1 is in the rinse since 09:48: take it out first")
	p.wait(5 * minute)
	p.do(day.Bench{Tag: "A1"})
	p.do(drop)
	if a := day.Next(p.s, p.now); p.piece("A1").Phase != day.Dropped || a.Kind != day.ActIdle || len(day.Dues(p.s)) > 0 {
		t.Errorf("dropped, it is %+v, and the act is %q", p.piece("A1"), a.Words)
	}
	p.refuses(drop, "off the list already")
	p.do(day.Back{})
	if got := p.piece("A1"); got.Phase != day.FinishedPiece || got.Finishing.Rinses != 1 {
		t.Errorf("taken back it is %+v", got)
	}
}

// Back takes the acts of the new authors back, a dose with its rest at once.
func TestBackTakesBackWhatWasGiven(t *testing.T) {
	p := dyeing(t, 1)
	before := p.s.Level()
	p.do(day.Record{Body: day.DrawnOff{Liquor: 5}})
	p.do(day.Back{})
	if p.s.Level() != before {
		t.Errorf("it holds %+v, and held %+v", p.s.Level(), before)
	}
	p.wait(minute)
	p.do(day.Dose{Powders: []day.Amount{{Powder: "reducer", Mass: 10}, {Powder: "soda", Mass: 10}}, Wait: quantity.Minutes(30)})
	p.wait(minute)
	if got := p.do(day.Back{}); got != "corrected, corrected, corrected" || !p.s.RestUntil.IsZero() {
		t.Errorf("a dose of two powders and its rest are taken back by %s", got)
	}
	for e := range p.s.Corrected() {
		if b, ok := e.Body.(day.PowderAdded); ok {
			t.Errorf("left is %+v", b)
		}
	}
}

// A caution is asked for before the act, whole at first and short after that; answered it stands in the book with the act.
func TestACautionIsAnsweredBeforeTheAct(t *testing.T) {
	p := dyeing(t, 1)
	dose := day.Dose{Powders: []day.Amount{{Powder: "reducer", Mass: 20}}, Wait: quantity.Minutes(30)}
	pending := func(c day.Command) string {
		t.Helper()
		bodies, err := day.Decide(p.s, c, p.now)
		want := (*day.Pending)(nil)
		if !errors.As(err, &want) || len(bodies) > 0 || want.Caution == "" || want.Caution != day.CautionOf(p.s, c, p.now) {
			t.Errorf("%#v makes %v, %v", c, bodies, err)
			return ""
		}
		return want.Caution
	}
	long := pending(dose)
	if !strings.Contains(long, "dust mask") || !strings.Contains(long, "small lots") {
		t.Errorf("the caution of the reducer is %q", long)
	}
	pending(dose) // nothing is remembered of a command that was held back
	bodies, err := day.Decide(p.s, day.Answered{Command: dose}, p.now)
	if err != nil || len(bodies) != 3 || bodies[0] != (day.CautionAnswered{Caution: long}) || bodies[1].Kind() != "powder added" || bodies[2].Kind() != "rested" {
		t.Errorf("answered it makes %v, %v", bodies, err)
	}
	p.happen(bodies...)
	if short := pending(dose); len(short) >= len(long) || !strings.HasPrefix(long, short) {
		t.Errorf("the second time it is %q", short)
	}
	p.refuses(day.Answered{}, "say what is to be done")
	p.refuses(day.Answered{Command: day.Answered{Command: dose}}, "say what is to be done")

	// The answer to another caution, as the last act of all, stands for none.
	p.happen(day.CautionAnswered{Caution: "mask and gloves"})
	pending(dose)
	bodies, err = day.Decide(p.s, day.Answered{Command: dose}, p.now)
	if said, ok := bodies[0].(day.CautionAnswered); err != nil || !ok || !strings.Contains(said.Caution, "dust mask") || bodies[1].Kind() != "powder added" {
		t.Errorf("after another answer it makes %v, %v", bodies, err)
	}
	p.refuses(day.Record{Body: day.CautionAnswered{Caution: long}}, "not written down by hand")
	// What wants none is as without it; what is refused is refused.
	if bodies, err := day.Decide(p.s, day.Answered{Command: day.Record{Body: day.Note{Text: "rain"}}}, p.now); err != nil || len(bodies) != 1 {
		t.Errorf("a note makes %v, %v", bodies, err)
	}
	p.do(day.Record{Body: day.HeaterOn{}})
	p.refuses(day.Answered{Command: dose}, "the heater is on")
}

// A press answers the caution of its step first; with the caution answered it does both at once.
func TestAStepIsDoneWithItsCautionAnswered(t *testing.T) {
	p := begin(t, head(t, "soda"))
	if words := day.CautionOf(p.s, day.Done{}, p.now); !strings.Contains(words, "dust mask") {
		t.Errorf("the caution of weighing is %q", words)
	}
	if got := p.do(day.Answered{Command: day.Done{}}); got != "caution answered, powder weighed, step done" {
		t.Errorf("it makes %s", got)
	}
	p.until(recipe.Weigh, "soda")
	if got := p.do(day.PutScoop{Mass: 360}); got != "caution answered, powder weighed" || p.s.Answered.IsZero() {
		t.Errorf("a scoop makes %s", got)
	}
	p.wait(2 * sec)
	p.until(recipe.Sprinkle, "reducer")
	p.refuses(day.Answered{Command: day.Done{}}, "First read the °C")
	p.do(reading(40))
	if got := p.do(day.Answered{Command: day.Done{}}); got != "caution answered, powder added" {
		t.Errorf("it makes %s", got)
	}
	q := dyeing(t, 1)
	q.do(day.Lower{Tag: "A1"})
	q.wait(8 * minute)
	q.do(day.Done{})
	q.wait(time.Hour)
	q.do(day.Finish{Tag: "A1"})
	q.do(day.LeaveOut{Tag: "A1", Reason: "rinsed in the stream"})
	q.do(day.LeaveOut{Tag: "A1"})
	if got := q.do(day.Answered{Command: day.Bench{Tag: "A1"}}); got != "caution answered, bath begun" {
		t.Errorf("the soap makes %s", got)
	}
}

// Closing asks first, and says what it leaves open.
func TestClosingAsks(t *testing.T) {
	p := begin(t, head(t, "soda"))
	p.refuses(day.Close{}, "step 1 is open, weigh the pre-reduced indigo grains")
	q := dyeing(t, 2)
	q.refuses(day.Close{}, "A1, A2 not finished")
	if q.s.Closed {
		t.Fatal("it is closed")
	}
	if got := q.do(day.Answered{Command: day.Close{Why: "dusk"}}); got != "caution answered, closed" || !q.s.Closed {
		t.Errorf("it makes %s", got)
	}
}

// Hands and the people at the vat are said together, and told so; a time at which a person comes or leaves is one of the day.
func TestThePeopleAtTheVat(t *testing.T) {
	p := dyeing(t, 1)
	few := day.Record{Body: day.HandsTold{Hands: 2, People: 5}}
	p.do(few)
	p.refuses(few, "said already: 2 pairs of hands at the vat, pieces of at most 5 people in it at once")
	p.refuses(day.Record{Body: day.HandsTold{Hands: 2, People: 100}}, "say 1 to 99")
	if p.do(day.Record{Body: day.HandsTold{Hands: 2}}); p.s.AtVat != 0 || p.s.Hands() != 2 {
		t.Errorf("%d people, %d pairs of hands", p.s.AtVat, p.s.Hands())
	}
	spec := day.PieceSpec{Fibre: "linen", Dry: 100, Dips: 2, Who: "Ida", From: "10:30", Till: "15:00", Demo: true}
	if got := (day.PieceAdded{OfPiece: day.OfPiece{Tag: "B1"}, PieceSpec: spec}).Sentence(quantity.Metric); !strings.HasSuffix(got, "of Ida, from 10:30, till 15:00, demo") {
		t.Error(got)
	}
	p.do(day.AddPiece{Tag: "B1", Spec: spec})
	spec.From = "noon"
	p.refuses(day.AddPiece{Tag: "B2", Spec: spec}, `the time at which its person comes is a time of day, such as 15:00, not "noon"`)
	p.refuses(day.Record{Body: day.PieceChanged{OfPiece: day.OfPiece{Tag: "B1"}, PieceSpec: spec}}, "time of day")
	spec.From, spec.Till = "15:00", "9:30"
	p.refuses(day.AddPiece{Tag: "B2", Spec: spec}, "its person comes at 15:00 and leaves at 9:30: the time to come is before the time to leave, such as from 10:30 till 15:00")
	spec.From, spec.Till = "9:30", "15:00"
	p.do(day.AddPiece{Tag: "B2", Spec: spec})
	p.wait(5*time.Hour + 27*minute)
	spec.From, spec.Till = "", "13:00"
	now := p.now.Format("15:04")
	p.refuses(day.AddPiece{Tag: "B3", Spec: spec}, "13:00 is past, it is "+now+": say when its person leaves, such as till "+p.now.Add(2*time.Hour).Format("15:04"))
	p.refuses(day.Record{Body: day.PieceAdded{OfPiece: day.OfPiece{Tag: "B3"}, PieceSpec: spec}}, "13:00 is past")
	p.refuses(day.Record{Body: day.PieceChanged{OfPiece: day.OfPiece{Tag: "B2"}, PieceSpec: spec}}, "13:00 is past")
	spec.Till = "1:00" // after midnight
	p.do(day.AddPiece{Tag: "B3", Spec: spec})
	p.wait(20 * time.Hour)
	spec.Who = "Jon"
	p.do(day.Record{Body: day.PieceChanged{OfPiece: day.OfPiece{Tag: "B3"}, PieceSpec: spec}}) // it was said before
	spec.From = "1:30"
	p.refuses(day.Record{Body: day.PieceChanged{OfPiece: day.OfPiece{Tag: "B3"}, PieceSpec: spec}}, "its person comes at 1:30 and leaves at 1:00")
}
