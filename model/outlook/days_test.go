package outlook_test

import (
	"fmt"
	"math"
	"math/rand"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// drawDays is a vat of one to four days: built, read, dosed, stirred, left to stand, closed and opened again. It calls look at
// each end of a day and after each act.
func drawDays(t *testing.T, r *rand.Rand, id string, look func(*vat)) *vat {
	v := open(t, id, nil)
	for d := range 1 + r.Intn(4) {
		for range r.Intn(6) {
			v.after(5 + 200*r.Float64())
			switch r.Intn(6) {
			case 0, 1:
				ph := v.s.Head.Recipe.Liquor.PHLow + 1.5*r.Float64() - 0.3
				ph = math.Round(ph*10) / 10
				v.put(day.Reading{PH: &ph, With: some(r, []string{"paper", "meter"})})
			case 2:
				if p, ok := liquor.Alkali(v.s.Head.Recipe); ok {
					v.put(day.PowderAdded{Powder: p.ID, Mass: liquor.AlkaliStep(v.s.Head.Recipe, p).Of(60)})
				}
			case 3:
				v.put(day.Stirred{})
			case 4:
				warm := quantity.Celsius(math.Round(v.s.Head.Recipe.Liquor.Low.Celsius() + 8*r.Float64()))
				v.put(day.Reading{Temp: &warm})
			case 5:
				if p, ok := liquor.Reducer(v.s.Head.Recipe); ok {
					v.put(day.PowderAdded{Powder: p.ID, Mass: liquor.ReducerStep(v.s.Head.Recipe, p).Of(60)})
				}
			}
			look(v)
		}
		if d == 3 {
			break
		}
		v.put(day.Closed{})
		h, err := outlook.Next(v.s, false)
		if err != nil {
			t.Fatal(err)
		}
		h.Day = fmt.Sprintf("2026-03-%02d", 29+d)
		s, err := day.Begin(h)
		if err != nil {
			t.Fatal(err)
		}
		v = &vat{t, s, v.now.Add(time.Duration(1+r.Intn(20)) * time.Hour)}
		v.put(day.Opened{How: "next"})
		look(v)
	}
	return v
}

// TestDaysDoNotContradict asks, over days that are read, dosed and left, everything in a day that has an idea of its pH: the judge of
// the liquor, the forecast of blues, the gate of the goods. Their counts are printed with the seed of the day.
func TestDaysDoNotContradict(t *testing.T) {
	seed := time.Now().Unix() / 86400
	r := rand.New(rand.NewSource(seed))
	days, counts, example := 0, map[string]int{}, map[string]string{}
	note := func(kind, how string) {
		if counts[kind]++; counts[kind] <= 3 {
			example[kind] += "\n    " + how
		}
	}
	ids := []string{"soda", "lye", "sugar-lime", "iron-lime", "thiourea", "madder-bran", "mild-soda"}
	for range 60 {
		id := some(r, ids)
		drawDays(t, r, id, func(v *vat) {
			days++
			o := outlook.Of(v.s, v.now)
			n := outlook.StateOf(v.s, o, v.now, nil)
			judge, blues := n.Acidity().Likely, outlook.Blues(v.s, o, v.now).Acidity()
			if math.Abs(float64(judge-blues)) > 0.05 {
				note("judge and blues over 0.05 pH apart", fmt.Sprintf("%s: %.2f and %.2f", id, judge, blues))
			}
			for _, f := range []fibre.Fibre{fibre.Wool, fibre.Silk, fibre.Cotton} {
				a, why := n.Bears(f)
				b, whyToo := v.s.Bears(f)
				if (a == fibre.Refused) != (b == fibre.Refused) {
					note("the gate open and shut", fmt.Sprintf("%s: judge %q, day %q", id, why, whyToo))
				}
			}
		})
	}
	t.Logf("seed %d, %d looks", seed, days)
	for _, kind := range []string{"judge and blues over 0.05 pH apart", "the gate open and shut"} {
		t.Logf("%5d %s", counts[kind], kind)
		if counts[kind] > 0 {
			t.Errorf("%d of %d: %s%s", counts[kind], days, kind, example[kind])
		}
	}
}

// What a night changes no more than that the vat stands: the next day begins at the pH at which the last one ended.
func TestTheNightKeepsThePH(t *testing.T) {
	for _, id := range []string{"soda", "thiourea", "mild-soda", "lye"} {
		ph, warm := 9.1, quantity.Celsius(40)
		if r := built(t, id); r.Family != recipe.DithioniteSoda || id == "soda" {
			ph = r.Liquor.PHLow + 0.3
		}
		v := open(t, id, nil)
		v.after(60).put(day.Reading{PH: &ph, Temp: &warm, PHTemp: &warm, With: "meter"})
		for range 8 {
			v.after(120).put(day.Reading{Temp: &warm})
		}
		evening := v.sight().PH.Now.Likely
		v.put(day.Closed{})
		h, err := outlook.Next(v.s, false)
		if err != nil {
			t.Fatal(err)
		}
		s, err := day.Begin(h)
		if err != nil {
			t.Fatal(err)
		}
		next := &vat{t, s, v.now}
		next.put(day.Opened{How: "next"}, day.Reading{Temp: &warm})
		if morning := next.sight().PH.Now.Likely; math.Abs(float64(morning-evening)) > 0.03 {
			t.Errorf("%s: %.2f at the end of a day, %.2f as the next begins", id, evening, morning)
		}
	}
}
