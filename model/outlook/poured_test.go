package outlook_test

import (
	"math"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
)

// Cold water is no cooling, though the vat was read a moment before it came in; the °C follows it at once.
func TestColdWaterIsNoCooling(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(38)
	v.after(3).put(day.ToppedUp{Water: 10, Temp: 12}) // 60 L at 38 and 10 at 12: 34.3
	if now := v.sight().Heat.Now.Celsius(); math.Abs(now-34.3) > 0.3 {
		t.Errorf("10 L at 12 °C make %.1f °C of it", now)
	}
	v.after(60).reads(31)
	if f := v.sight().Heat.Fitted; f.Pairs != 0 || f.Factor != 1 {
		t.Errorf("it fits %+v", f)
	}
	v.after(60).reads(29)
	if f := v.sight().Heat.Fitted; f.Pairs != 1 {
		t.Errorf("after that a fall teaches again: %+v", f)
	}
	hot := open(t, "soda", nil)
	hot.reads(30)
	hot.put(day.ToppedUp{Water: 5, Temp: 80})
	if now := hot.sight().Heat.Now.Celsius(); math.Abs(now-33.8) > 0.3 {
		t.Errorf("5 L at 80 °C make %.1f °C of it", now)
	}
	old := open(t, "soda", nil)
	old.reads(30)
	old.put(day.ToppedUp{Water: 5}) // an old book does not say how warm
	if now := old.sight().Heat.Now; now != 30 {
		t.Errorf("water that nobody told of makes %s", now)
	}
	jar := open(t, "soda", nil)
	jar.reads(38)
	jar.put(day.StockDrawn{Stock: 2})
	jar.after(60).reads(33)
	if f := jar.sight().Heat.Fitted; f.Pairs != 0 {
		t.Errorf("stock that came in counts as cooling: %+v", f)
	}
}

// What is drawn off takes its share of what is dissolved; water in its place thins the rest; the next day goes on there.
func TestWhatIsDrawnOffTakesItsShare(t *testing.T) {
	for _, draw := range []day.Body{day.DrawnOff{Liquor: 30}, day.Decanted{Liquor: 30}} {
		v := open(t, "soda", nil)
		v.reads(38)
		v.dip("A1", 1)
		before := v.sight()
		v.put(draw)
		after := v.sight()
		near := func(what string, got, want, off float64) {
			t.Helper()
			if !(math.Abs(got-want) <= off*want) {
				t.Errorf("%s: %s is %.2f, not %.2f", draw.Kind(), what, got, want)
			}
		}
		near("the indigo", after.Indigo.Left.Likely.Grams(), before.Indigo.Left.Likely.Grams()/2, 0.02)
		near("indigo in a litre", after.Indigo.PerLitre.Likely.GramsPerLitre(), before.Indigo.PerLitre.Likely.GramsPerLitre(), 0.02)
		near("the reducer", after.Reducer.Left.Likely.Grams(), before.Reducer.Left.Likely.Grams()/2, 0.01)
		near("the pH", float64(after.PH.Now.Likely), float64(before.PH.Now.Likely), 0.001)
		v.put(day.ToppedUp{Water: 30, Temp: 38})
		full := v.sight()
		near("indigo in a litre, filled up", full.Indigo.PerLitre.Likely.GramsPerLitre(), before.Indigo.PerLitre.Likely.GramsPerLitre()/2, 0.02)
		if fell := before.PH.Now.Likely - full.PH.Now.Likely; !(fell > 0.05 && fell < 0.6) {
			t.Errorf("%s: with half its soda it reads %.2f, %.2f before", draw.Kind(), float64(full.PH.Now.Likely), float64(before.PH.Now.Likely))
		}

		v.put(day.Closed{})
		h, err := outlook.Next(v.s, false)
		if err != nil {
			t.Fatal(err)
		}
		next := open(t, "soda", func(head *day.Head) { *head = h })
		near("the next day's pH", float64(next.sight().PH.Now.Likely), float64(full.PH.Now.Likely), 0.01)
		near("the next day's indigo", next.sight().Indigo.Left.Likely.Grams(), full.Indigo.Left.Likely.Grams(), 0.02)
	}
}

// Less liquor in the same bin cools sooner: of half of it, drawn off or decanted, more than of all.
func TestWhatIsLeftCoolsSooner(t *testing.T) {
	after := func(draw day.Body) float64 {
		v := open(t, "soda", nil)
		v.reads(38)
		if draw != nil {
			v.put(draw)
		}
		return v.after(120).sight().Heat.Now.Celsius()
	}
	full := after(nil)
	for _, draw := range []day.Body{day.DrawnOff{Liquor: 30}, day.Decanted{Liquor: 30}} {
		if half := after(draw); !(half < full-0.5) {
			t.Errorf("%s: after two hours half of it reads %.1f °C, and all of it would read %.1f", draw.Kind(), half, full)
		}
	}
}

// A vat that is half empty gets half the dose, on the next day too.
func TestADoseGoesByTheLevel(t *testing.T) {
	dose := func(v *vat) quantity.Mass {
		v.t.Helper()
		v.reads(36)
		v.put(day.StripTest{Stayed: quantity.Seconds(8)})
		a := outlook.Advise(v.s, v.sight(), v.now, nil)
		if a.Do != liquor.DoReducer {
			v.t.Fatalf("it wants %q", a.Sentence)
		}
		return a.Mass
	}
	whole := dose(open(t, "soda", nil))
	v := open(t, "soda", nil)
	v.put(day.DrawnOff{Liquor: 30})
	if half := dose(v); math.Abs(half.Grams()-whole.Grams()/2) > 1 {
		t.Errorf("60 L get %s, half of it %s", whole, half)
	}
	v.put(day.Closed{})
	h, err := outlook.Next(v.s, false)
	if err != nil {
		t.Fatal(err)
	}
	next := open(t, "soda", func(head *day.Head) { *head = h })
	if half := dose(next); math.Abs(half.Grams()-whole.Grams()/2) > 1 {
		t.Errorf("the next day gets %s", half)
	}
}
