package outlook_test

import (
	"math"
	"os"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
)

// built is a built-in recipe.
func built(t testing.TB, id string) recipe.Recipe {
	t.Helper()
	name := "../../recipes/" + id + ".toml"
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	r, faults := recipe.Parse(name, text)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return r
}

var nine = time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)

// vat is a day that a test writes event by event.
type vat struct {
	t   testing.TB
	s   day.State
	now time.Time
}

// open is a bin of 60 L, all steps of its build behind it at nine, freshly filled.
func open(t testing.TB, id string, change func(*day.Head)) *vat {
	t.Helper()
	air := quantity.Celsius(16)
	h := day.Head{Vat: "bin", Day: "2026-03-28", Zone: "UTC", Recipe: built(t, id), Setup: day.Setup{
		Fill: 60, Vessel: "frustum 36 cm 44 cm 62 cm", Material: "HDPE", Place: day.Outdoors, Cold: 12, Hot: 60,
		Gear: day.Gear{Air: &air, Humidity: quantity.Percent(60), Heater: quantity.Watts(1000)},
	}}
	if change != nil {
		change(&h)
	}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	v := &vat{t, s, nine}
	v.put(day.Opened{How: "build"})
	if h.Opening.Built {
		return v
	}
	for st, ok := v.s.Open(); ok; st, ok = v.s.Open() {
		of := day.OfStep{Step: st.No}
		switch {
		case (st.Do == recipe.Add || st.Do == recipe.Sprinkle) && st.Powder == "":
			v.put(day.StockDrawn{OfStep: of, Stock: st.Water})
		case st.Do == recipe.Add || st.Do == recipe.Sprinkle:
			v.put(day.PowderAdded{OfStep: of, Powder: st.Powder, Material: st.Material, Mass: st.Mass, Into: string(st.Into)})
		case st.Judges():
			v.put(day.VatJudged{OfStep: of, Ready: true, Of: string(st.Into)})
		default:
			v.put(day.StepDone{OfStep: of, Do: string(st.Do)})
		}
	}
	return v
}

func (v *vat) put(bodies ...day.Body) {
	v.t.Helper()
	for _, b := range bodies {
		next, err := day.Apply(v.s, day.Event{Seq: len(v.s.Log) + 1, At: v.now, Body: b})
		if err != nil {
			v.t.Fatal(err)
		}
		v.s = next
	}
}

// after lets time go by.
func (v *vat) after(minutes float64) *vat {
	v.now = v.now.Add(quantity.Minutes(minutes).Duration())
	return v
}

func (v *vat) reads(c float64) {
	v.t.Helper()
	t := quantity.Celsius(c)
	v.put(day.Reading{Temp: &t})
}

func (v *vat) sight() outlook.Outlook { return outlook.Of(v.s, v.now) }

// dip is a piece that has one whole dip.
func (v *vat) dip(tag string, no int) {
	v.t.Helper()
	if _, ok := v.s.Piece(tag); !ok {
		v.put(day.PieceAdded{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 1000, Dips: 8, Depth: "dark"}})
	}
	v.put(day.WettedOut{OfPiece: day.OfPiece{Tag: tag}}, day.DipBegun{OfPiece: day.OfPiece{Tag: tag}, Dip: no, For: quantity.Minutes(8)})
	v.after(8)
	v.put(day.DipEnded{OfPiece: day.OfPiece{Tag: tag}, Dip: no, Air: quantity.Minutes(10)})
}

func near(t *testing.T, what string, got, want, by float64) {
	t.Helper()
	if math.Abs(got-want) > by {
		t.Errorf("%s is %.3f, not %.3f ± %.3f", what, got, want, by)
	}
}

// Before the filling there is nothing to know; after it the °C is guessed from the mixing until it is read, measured for
// ten minutes, reckoned from then on.
func TestHowTheTemperatureIsKnown(t *testing.T) {
	air := day.Head{Recipe: built(t, "soda"), Setup: day.Setup{Fill: 60, Place: day.Outdoors}}
	s, err := day.Begin(air)
	if err != nil {
		t.Fatal(err)
	}
	if o := outlook.Of(s, nine); !o.Empty || o.Heat.Known != outlook.Unknown || o.PH.Known != outlook.Unknown {
		t.Errorf("an empty vessel is known: %+v", o)
	}
	v := open(t, "soda", nil)
	if h := v.sight().Heat; h.Known != outlook.Guessed || h.Now != 38 {
		t.Errorf("after mixing it is %v, %v", h.Now, h.Known)
	}
	v.after(20).reads(37)
	if h := v.sight().Heat; h.Known != outlook.Measured || h.Now != 37 || len(h.Readings) != 1 {
		t.Errorf("just read it is %v, %v", h.Now, h.Known)
	}
	v.after(11)
	if h := v.sight().Heat; h.Known != outlook.Reckoned || h.Now >= 37 || h.Now < 36 {
		t.Errorf("eleven minutes on it is %v, %v", h.Now, h.Known)
	}
}

// A reading that is lower than reckoned brings the end forward, and all later forecasts with it: the day has its own
// factor, found from two readings.
func TestAReadingCorrectsTheForecast(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(38)
	v.after(60)
	before := v.sight().Heat
	if before.Fitted.Pairs != 0 || before.Below.IsZero() {
		t.Fatalf("before the second reading: %+v", before.Fitted)
	}
	lower := before.Now.Celsius() - 1.5
	v.reads(math.Round(lower*2) / 2)
	after := v.sight().Heat
	if after.Fitted.Pairs != 1 || after.Fitted.Factor < 1.2 {
		t.Errorf("the day's factor is %.2f by %d pairs", after.Fitted.Factor, after.Fitted.Pairs)
	}
	if !after.Below.Before(before.Below.Add(-20 * time.Minute)) {
		t.Errorf("it was below 30 at %v, and is at %v now", day.Clock(before.Below), day.Clock(after.Below))
	}
	if wide, narrow := before.Fitted.High/before.Fitted.Low, after.Fitted.High/after.Fitted.Low; narrow >= wide {
		t.Errorf("the width went from %.2f to %.2f", wide, narrow)
	}
	// Water poured in between says nothing about cooling.
	w := open(t, "soda", nil)
	w.reads(38)
	w.after(30).put(day.ToppedUp{Water: 5, Temp: 12})
	w.after(30).reads(33)
	if f := w.sight().Heat.Fitted; f.Pairs != 0 || f.Factor != 1 {
		t.Errorf("topped up, it still fits %+v", f)
	}
}

// The lid is worth having, and the heater brings it back.
func TestWhatWouldHelp(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(33)
	h := v.sight().Heat
	if h.Lidded.IsZero() || !h.Lidded.After(h.Below) {
		t.Errorf("open it falls below at %v, lidded at %v", h.Below, h.Lidded)
	}
	// 2 K of 60 L at 950 W are 8.8 min without losses.
	if h.Back < quantity.Minutes(8.8) || h.Back > quantity.Minutes(20) {
		t.Errorf("the heater takes %v", h.Back)
	}
	v.put(day.VatCovered{})
	if c := v.sight().Heat; !c.Lidded.IsZero() || !c.Below.After(h.Below) {
		t.Errorf("covered it falls below at %v, with the lid at %v", c.Below, c.Lidded)
	}
	v.put(day.HeaterOn{})
	v.after(15)
	if c := v.sight().Heat; c.Now <= 34 {
		t.Errorf("15 minutes of heater leave it at %v", c.Now)
	}
}

// Read long before the filling was done, and never since, in a vessel without measures: the mixing stands, and nothing
// breaks.
func TestAnUnmeasuredVesselReadTooEarly(t *testing.T) {
	h := day.Head{Recipe: built(t, "soda"), Setup: day.Setup{Fill: 60, Place: day.Outdoors}}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	v := &vat{t, s, nine}
	v.put(day.Opened{How: "build"})
	for st, ok := v.s.Open(); ok && !day.Filled(v.s); st, ok = v.s.Open() {
		if st.Do == recipe.Fill {
			v.reads(36)
			v.after(6)
		}
		v.put(day.StepDone{OfStep: day.OfStep{Step: st.No}, Do: string(st.Do)})
	}
	if h := v.after(15).sight().Heat; h.Now != 38 {
		t.Errorf("%+v", h)
	}
}

// Without the vessel's measures nothing is forecast, and the last reading stands.
func TestAnUnmeasuredVessel(t *testing.T) {
	v := open(t, "soda", func(h *day.Head) { h.Setup.Vessel = "" })
	v.reads(36)
	v.after(60)
	if h := v.sight().Heat; h.Now != 36 || len(h.Coming) != 0 || !h.Below.IsZero() {
		t.Errorf("%+v", h)
	}
	if r := v.sight().Reducer; r.Known == outlook.Unknown || r.Work.Likely <= 0 {
		t.Errorf("its reducer: %+v", r)
	}
}

// Work takes reducer and indigo and brings pH down; what is added counts; the wholes agree with the doses.
func TestTheLedger(t *testing.T) {
	v := open(t, "soda", nil)
	fresh := v.sight()
	near(t, "indigo g", fresh.Indigo.Left.Likely.Grams(), 54, 0.01) // 60 L × 1.5 g/L × 60 %
	near(t, "reducer g", fresh.Reducer.Left.Likely.Grams(), 113, 4) // 120 g less the fill's air and a tenth of the indigo
	near(t, "pH", float64(fresh.PH.Now.Likely), 11.0, 0.15)         // soda_ash_ph.csv: 6 g/L at 38 °C
	if fresh.Reducer.Known != outlook.Guessed || fresh.PH.Known != outlook.Reckoned || fresh.Indigo.Known != outlook.Reckoned {
		t.Errorf("known as %v, %v, %v", fresh.Reducer.Known, fresh.PH.Known, fresh.Indigo.Known)
	}
	last := fresh
	for i := range 6 {
		v.dip("A1", i+1)
		v.after(10)
		o := v.sight()
		if o.Reducer.Left.Likely >= last.Reducer.Left.Likely || o.Indigo.Left.Likely >= last.Indigo.Left.Likely || o.PH.Now.Likely >= last.PH.Now.Likely+0.02 {
			t.Errorf("dip %d: reducer %v, indigo %v, pH %v after %v, %v, %v", i+1, o.Reducer.Left.Likely, o.Indigo.Left.Likely, o.PH.Now.Likely,
				last.Reducer.Left.Likely, last.Indigo.Left.Likely, last.PH.Now.Likely)
		}
		if !o.Reducer.Left.Valid() || !o.Indigo.Left.Valid() || !o.PH.Now.Valid() || !o.Reducer.Work.Valid() || !o.Reducer.Rest.Valid() {
			t.Errorf("dip %d: a range is not in order: %+v", i+1, o)
		}
		last = o
	}
	if last.PH.Later.Likely > last.PH.Now.Likely {
		t.Errorf("pH rises from %v to %v by itself", last.PH.Now, last.PH.Later)
	}
	v.put(day.PowderAdded{Powder: "reducer", Mass: 30})
	if o := v.sight(); math.Abs((o.Reducer.Left.Likely-last.Reducer.Left.Likely).Grams()-30) > 0.5 || o.Reducer.Known != outlook.Reckoned {
		t.Errorf("30 g more make %v of %v", o.Reducer.Left.Likely, last.Reducer.Left.Likely)
	}
	v.put(day.Fed{Powder: "indigo", Mass: 50})
	if o := v.sight(); math.Abs((o.Indigo.Left.Likely-last.Indigo.Left.Likely).Grams()-30) > 1.5 {
		t.Errorf("50 g of 60 %% indigo more make %v of %v", o.Indigo.Left.Likely, last.Indigo.Left.Likely)
	}
}

// Strip seconds speak of the reducer once the indigo is reduced.
func TestAStripReanchorsTheReducer(t *testing.T) {
	v := open(t, "soda", nil)
	v.after(60)
	before := v.sight().Reducer
	v.put(day.StripTest{Stayed: quantity.Seconds(8)})
	after := v.sight().Reducer
	if after.Left.Likely > before.Left.Likely/2 || after.Known != outlook.Reckoned {
		t.Errorf("a strip of 8 s leaves %v of %v, %v", after.Left, before.Left, after.Known)
	}
}

// A reading of pH moves the reckoning towards it, as far as it can be trusted, and the later pH with it.
func TestAReadingReanchorsPH(t *testing.T) {
	v := open(t, "soda", nil)
	v.after(30)
	before := v.sight().PH
	p, temp := 10.2, quantity.Celsius(25)
	v.put(day.Reading{PH: &p, PHTemp: &temp, With: "meter"})
	after := v.sight().PH
	if after.Known != outlook.Measured || after.Now.Likely > before.Now.Likely-0.4 {
		t.Errorf("from %v it went to %v, %v", before.Now, after.Now, after.Known)
	}
	// At 38 °C a soda liquor reads about 0.2 lower than at 25 °C.
	if d := p - float64(after.Now.Likely); d < 0.05 || d > 0.4 {
		t.Errorf("read %.1f at 25 °C, it is %v in the vat", p, after.Now.Likely)
	}
	v.after(60)
	if later := v.sight().PH; later.Known != outlook.Reckoned || later.Now.Likely > after.Now.Likely+0.2 {
		t.Errorf("an hour on it is %v, %v", later.Now, later.Known)
	}
}

// A strip that tells of reducer lost tells of a loss that a pH read before it shows already.
func TestAStripAfterAPHDoesNotMoveIt(t *testing.T) {
	v := open(t, "soda", nil)
	p := 10.5
	v.after(30).put(day.Reading{PH: &p})
	before := v.sight().PH.Now.Likely
	v.after(2).put(day.StripTest{Stayed: quantity.Seconds(5)})
	if after := v.sight().PH.Now.Likely; math.Abs(float64(after-before)) > 0.35 { // the reckoning that it is weighed with falls a little
		t.Errorf("pH went from %v to %v", before, after)
	}
}

// Where no budget can be had it says so, and pH is only known down to the recipe's low mark until it is read.
func TestVatsThatNoBudgetFits(t *testing.T) {
	for _, id := range []string{"sugar-lime", "madder-bran"} {
		v := open(t, id, nil)
		o := v.sight()
		if o.Reducer.Why == "" || o.Reducer.Known != outlook.Unknown {
			t.Errorf("%s: %+v", id, o.Reducer)
		}
		if low := quantity.PH(v.s.Head.Recipe.Liquor.PHLow); o.PH.Known != outlook.Guessed || o.PH.Now.Low > low {
			t.Errorf("%s: pH %+v", id, o.PH)
		}
	}
}

// The next day takes over what the liquor held, and cools through the night.
func TestCarriedToTheNextDay(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(36)
	v.dip("A1", 1)
	v.put(day.AiringEnded{OfPiece: day.OfPiece{Tag: "A1"}, Dip: 1}, day.Finished{OfPiece: day.OfPiece{Tag: "A1"}, Dips: 1}, day.VatCovered{}, day.Closed{})
	end := outlook.Of(v.s, v.now)
	o := outlook.Carry(v.s)
	if o.Until == nil || math.Abs((o.Indigo-end.Indigo.Left.Likely).Grams()) > 0.06 || o.Reducer <= 0 || o.Spent <= 0 {
		t.Fatalf("carried %+v, and it held %v", o.Held, end.Indigo.Left)
	}
	head := v.s.Head
	head.Day, head.Opening = "2026-03-29", o
	s, err := day.Begin(head)
	if err != nil {
		t.Fatal(err)
	}
	next := &vat{t, s, nine.Add(24 * time.Hour)}
	next.put(day.Opened{How: "tend"})
	n := next.sight()
	if n.Heat.Known != outlook.Reckoned || n.Heat.Now >= *o.Temp-5 || n.Heat.Now < 14 {
		t.Errorf("in the morning it is %v, %v", n.Heat.Now, n.Heat.Known)
	}
	if n.Indigo.Left.Likely > o.Indigo+0.1 || n.Reducer.Left.Likely >= o.Reducer || n.PH.Known != outlook.Reckoned {
		t.Errorf("in the morning it holds %v of indigo, %v of reducer, pH %+v", n.Indigo.Left, n.Reducer.Left, n.PH)
	}
}

// What the reducer spent of the alkali is neither lost nor counted twice: not by a dose of it on a later day, nor from one
// day to the next, with or without a reading. The pH is taken at one °C and at once, so that nothing else moves it.
func TestThePHOfLaterDays(t *testing.T) {
	v := open(t, "soda", nil)
	v.put(day.VatCovered{})
	v.reads(35)
	v.after(6 * 60).put(day.Closed{})
	nextDay := func(days int) {
		before := outlook.Carry(v.s)
		head := v.s.Head
		head.Opening = before
		s, err := day.Begin(head)
		if err != nil {
			t.Fatal(err)
		}
		v = &vat{t, s, v.now.Add(time.Duration(days) * 24 * time.Hour)}
		v.put(day.Opened{How: "tend"})
		v.reads(35)
	}
	ph := func() float64 { return float64(v.sight().PH.Now.Likely) }
	reads := func() {
		read, at := 10.2, quantity.Celsius(35)
		v.put(day.Reading{Temp: &at, PH: &read, PHTemp: &at, With: "meter"})
	}
	for _, c := range []struct {
		name string
		read bool
	}{{"reckoned only", false}, {"read by meter", true}} {
		nextDay(4)
		if c.read {
			reads()
		}
		was := ph()
		v.put(day.PowderAdded{Powder: "reducer", Material: "sodium dithionite", Mass: 30})
		near(t, c.name+": pH after a dose of reducer", ph(), was, 0.005)
		v.after(3 * 60).reads(35)
		was = ph()
		v.put(day.Closed{})
		nextDay(0)
		near(t, c.name+": pH as the next day opens", ph(), was, 0.02)
		v.put(day.Closed{})
	}
}

// What it wants: nothing while it is built, alkali where pH was read low, reducer for a weak strip, patience after a dose.
func TestAdvise(t *testing.T) {
	advise := func(v *vat) (string, quantity.Mass) {
		a := outlook.Advise(v.s, v.sight(), v.now, nil)
		return a.Do, a.Mass
	}
	v := open(t, "soda", nil)
	v.reads(36)
	low := 9.4
	v.put(day.Reading{PH: &low})
	if do, m := advise(v); do != "alkali" || m <= 0 || m > 60 { // at most 1 g/L at once
		t.Errorf("pH 9.4: %s, %v", do, m)
	}
	ok := 10.8
	v.put(day.Reading{PH: &ok}, day.StripTest{Stayed: quantity.Seconds(9)})
	do, m := advise(v)
	if do != "reducer" || m <= 0 || m > 30 { // at most 0.5 g/L at once
		t.Errorf("a strip of 9 s: %s, %v", do, m)
	}
	v.after(1).put(day.PowderAdded{Powder: "reducer", Mass: m})
	if do, _ := advise(v.after(5)); do != "wait" {
		t.Errorf("five minutes after a dose: %s", do)
	}
	if do, _ := advise(v.after(20)); do != "wait" { // the table has half an hour for dithionite
		t.Errorf("25 min after a dose: %s", do)
	}
	if do, _ := advise(v.after(10)); do == "wait" || do == "reducer" {
		t.Errorf("after the recheck, with no new strip: %s", do)
	}
	cold := open(t, "soda", nil)
	cold.reads(26)
	if do, _ := advise(cold); do != "warm" {
		t.Errorf("26 °C: %s", do)
	}
}

// Goods that the vat is not for, only on the list, are kept out of it, and it is judged by the others; alone they are what is said.
func TestAdviseBesideGoodsThatTheVatIsNotFor(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(36)
	v.put(day.PieceAdded{OfPiece: day.OfPiece{Tag: "W1"}, PieceSpec: day.PieceSpec{Fibre: "wool", Dry: 300, Dips: 3}})
	ph := 10.8
	v.put(day.Reading{PH: &ph}, day.StripTest{Stayed: quantity.Seconds(9)})
	if a := outlook.Advise(v.s, v.sight(), v.now, nil); !a.Refused || a.Cause != "goods-unfit" {
		t.Errorf("wool alone: %+v", a)
	}
	v.put(day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 400, Dips: 3}})
	if a := outlook.Advise(v.s, v.sight(), v.now, nil); a.Do != "reducer" || a.Mass <= 0 {
		t.Errorf("linen beside wool, a strip of 9 s: %+v", a)
	}
	v.put(day.DipBegun{OfPiece: day.OfPiece{Tag: "W1"}, Dip: 1, For: quantity.Minutes(5)})
	if a := outlook.Advise(v.s, v.sight(), v.now, nil); !a.Refused {
		t.Errorf("the wool is in: %+v", a)
	}
}

// A reading a little below the range asks for less of a step of alkali where a paper may be off by more, for a whole one
// where a meter is not.
func TestAMeterIsBelieved(t *testing.T) {
	dose := func(with string) (advised, bySigns quantity.Mass) {
		v := open(t, "soda", nil)
		v.reads(36)
		low := 9.8
		v.put(day.Reading{PH: &low, With: with})
		a := outlook.Advise(v.s, v.sight(), v.now, nil)
		c := signs.Causes(outlook.Asked(v.s, v.sight(), v.now, nil))[0]
		if a.Do != liquor.DoAlkali || len(c.Doses) != 1 {
			t.Fatalf("%q: %s, %+v", with, a.Do, c)
		}
		return a.Mass, c.Doses[0].Mass
	}
	paper, paperSigns := dose("paper strip")
	meter, meterSigns := dose("meter")
	if meter != 60 || paper <= 0 || paper >= meter/2 || meterSigns != meter || paperSigns != paper {
		t.Errorf("by paper %v and %v, by meter %v and %v", paper, paperSigns, meter, meterSigns)
	}
}

func BenchmarkOf(b *testing.B) {
	v := open(b, "soda", nil)
	v.reads(38)
	for i := range 12 {
		v.dip("A1", i+1)
		v.after(20)
		if i%4 == 0 {
			v.reads(37 - float64(i)/2)
		}
	}
	b.ResetTimer()
	for b.Loop() {
		v.sight()
	}
}

// What nobody knew on one day is not nothing on the next: a vat that was taken up as built keeps an unknown indigo.
func TestAnUnknownIndigoStaysUnknown(t *testing.T) {
	v := open(t, "soda", func(h *day.Head) { h.Opening = day.Opening{Number: 2, Built: true} })
	if o := outlook.Of(v.s, v.now); o.Indigo.Known != outlook.Unknown {
		t.Fatalf("nobody reckoned it: %+v", o.Indigo)
	}
	v.put(day.Closed{})
	next := open(t, "soda", func(h *day.Head) { h.Opening = outlook.Carry(v.s) })
	if o := outlook.Of(next.s, next.now); o.Indigo.Known != outlook.Unknown {
		t.Errorf("carried over it became %v", o.Indigo.Left)
	}
}

// The next day keeps the setup; only the dyer ends a vat, and an ending that has begun is not forgotten.
func TestNext(t *testing.T) {
	v := open(t, "soda", nil)
	v.put(day.Closed{})
	plain, err := outlook.Next(v.s, false)
	if err != nil || plain.Setup.Ending || plain.Setup.Vessel != v.s.Head.Setup.Vessel || !plain.Opening.Built || plain.Opening.Number != 2 {
		t.Errorf("the next day is %+v, %v", plain, err)
	}
	last, err := outlook.Next(v.s, true)
	if err != nil || !last.Setup.Ending || last.Opening.Step != 0 || last.Opening.Held.Indigo != plain.Opening.Held.Indigo {
		t.Errorf("the day that ends it is %+v, %v", last, err)
	}
	for _, c := range []struct{ stood, moved, next string }{
		{day.Outdoors, day.ClosedRoom, day.ClosedRoom}, {day.ClosedRoom, day.CrossDraught, day.ClosedRoom}, {day.Outdoors, "", day.Outdoors}, {day.CrossDraught, day.Outdoors, day.Outdoors},
	} {
		v := open(t, "soda", func(h *day.Head) { h.Setup.Place = c.stood })
		if c.moved != "" {
			v.put(day.PlaceChanged{Place: c.moved})
		}
		v.put(day.Closed{})
		if next, err := outlook.Next(v.s, false); err != nil || next.Setup.Place != c.next {
			t.Errorf("%+v: the next day is %s, %v", c, next.Setup.Place, err)
		}
	}
	for _, c := range []struct {
		done   int // steps of the ending
		goesOn bool
		step   int
	}{{0, false, 0}, {1, true, 2}, {2, true, 3}} {
		s, err := day.Begin(last)
		if err != nil {
			t.Fatal(err)
		}
		e := &vat{t, s, nine.Add(24 * time.Hour)}
		for no := range c.done {
			e.put(day.StepDone{OfStep: day.OfStep{Step: no + 1}})
		}
		e.put(day.Closed{})
		next, err := outlook.Next(e.s, false)
		if err != nil || next.Setup.Ending != c.goesOn || next.Opening.Step != c.step {
			t.Errorf("after %d steps: ending %v, step %d, %v", c.done, next.Setup.Ending, next.Opening.Step, err)
		}
		e.put(day.VatEnded{Route: "the drain"})
		if _, err := outlook.Next(e.s, false); err == nil {
			t.Error("a vat that has ended goes on")
		}
	}
	begun, err := day.Begin(day.Head{Recipe: built(t, "soda"), Setup: day.Setup{Fill: 60}})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := outlook.Next(begun, true); err == nil {
		t.Error("a vat that was never filled is led to its end")
	}
}

// Alkali that was given counts before the next reading: a litre that stands at pH 9.6 with 1 g of soda ash more stands where
// the solver puts it, today and tomorrow; and a reading taken after it is not moved by it a second time.
func TestAlkaliGivenCounts(t *testing.T) {
	warm, read := quantity.Celsius(35), 9.6
	v := open(t, "soda", nil).after(30)
	v.put(day.Reading{Temp: &warm, PH: &read, PHTemp: &warm, With: "meter"})
	before := outlook.Of(v.s, v.now).PH.Now.Likely
	v.after(5).put(day.PowderAdded{Powder: "soda", Material: "soda ash", Mass: 60})
	after := outlook.Of(v.s, v.now).PH.Now.Likely
	m, err := liquor.OfRecipe(v.s.Head.Recipe, 0)
	if err != nil {
		t.Fatal(err)
	}
	a, err := liquor.Reanchor(m, before, 35, 0.001)
	if err != nil {
		t.Fatal(err)
	}
	m = a.Makeup
	m.SodaAsh += quantity.GramsPerLitre(1)
	want, err := liquor.PH(m, 35)
	if err != nil || math.Abs(float64(after-want)) > 0.05 || after < before+0.05 {
		t.Errorf("from %v to %v, the solver has %v, %v", before, after, want, err)
	}
	v.put(day.Closed{})
	h, err := outlook.Next(v.s, false)
	if err != nil {
		t.Fatal(err)
	}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	next := &vat{t, s, v.now.Add(time.Minute)}
	next.put(day.Opened{How: "tend"}, day.Reading{Temp: &warm})
	if got := outlook.Of(next.s, next.now).PH.Now.Likely; math.Abs(float64(got-after)) > 0.03 {
		t.Errorf("the next day opens at pH %v, the day before closed at %v", got, after)
	}
}

// What earlier days took counts for the feeding too: a day that opens with a third of the fresh indigo wants some.
func TestFeedOverDays(t *testing.T) {
	fresh := liquor.PureIndigo(built(t, "soda"), 60)
	for _, c := range []struct {
		part  float64
		wants bool
	}{{0.33, true}, {0.8, false}} {
		left := fresh * quantity.Mass(c.part)
		v := open(t, "soda", func(h *day.Head) {
			until := nine
			h.Opening = day.Opening{Number: 3, Built: true, Held: day.Held{IndigoLow: left, Indigo: left, IndigoHigh: left, Until: &until}}
		})
		if got := outlook.Of(v.s, nine).Indigo.Feed; (got != "") != c.wants {
			t.Errorf("with %v of it: %q", c.part, got)
		}
	}
}

// What the day before was reckoned to end with is no reading: it stays reckoned until a °C is read.
func TestACarriedWarmthIsReckoned(t *testing.T) {
	v := open(t, "sugar-lime", nil)
	v.reads(40)
	v.after(6 * 60)
	v.put(day.Closed{})
	next := open(t, "sugar-lime", func(h *day.Head) { h.Opening = outlook.Carry(v.s) })
	for _, minutes := range []float64{0, 1, 30} {
		next.now = v.now.Add(quantity.Minutes(minutes).Duration())
		if h := next.sight().Heat; h.Known != outlook.Reckoned || !h.ReadAt.IsZero() || len(h.Readings) > 0 || !(h.Now > 16 && h.Now < 40) || len(h.Coming) == 0 {
			t.Errorf("after %g min: %v %v, read at %v, %v", minutes, h.Now, h.Known, h.ReadAt, h.Readings)
		}
	}
	next.reads(31)
	if h := next.sight().Heat; h.Known != outlook.Measured || h.Now != 31 || len(h.Readings) != 1 {
		t.Errorf("read: %v %v, %v", h.Now, h.Known, h.Readings)
	}
}

// The step that warms a living vat, done without a reading, makes it no warmer: only what was read counts.
func TestAnUnreadVatIsNotWarm(t *testing.T) {
	cold := quantity.Celsius(20)
	v := open(t, "soda", func(h *day.Head) {
		until := nine
		h.Opening = day.Opening{Number: 3, Built: true, Temp: &cold, Held: day.Held{Until: &until}}
	})
	v.put(day.StepDone{OfStep: day.OfStep{Step: 1}, Do: string(recipe.Warm)})
	if got := outlook.Of(v.s, v.now).Heat.Now; got > 21 {
		t.Errorf("a vat of 20 °C that nobody read is taken as %v", got)
	}
	warm := quantity.Celsius(35)
	v.put(day.Reading{Temp: &warm})
	if got := outlook.Of(v.s, v.now).Heat.Now; got != 35 {
		t.Errorf("read at 35 °C it is %v", got)
	}
}
