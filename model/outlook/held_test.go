package outlook_test

import (
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
)

// What a day's book reckons of reducer, sulfite and blue indigo is the one state's, and goes on to the next day: left open, the air
// takes the reducer, and then turns the indigo; a dose brings that back first; a good strip says that it is reduced.
func TestTheBookTellsWhatTheLiquorHolds(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(38)
	n := outlook.StateOf(v.s, v.sight(), v.now, nil)
	if n.Reducer == nil || n.Sulfite == nil || n.Oxidised == nil || n.Oxidised.High != 0 || n.Reducer.Likely != v.sight().Reducer.Left.Likely {
		t.Fatalf("fresh: %v %v %v", n.Reducer, n.Sulfite, n.Oxidised)
	}
	fresh := *n.Sulfite
	v.put(day.VatUncovered{})
	v.after(60 * 24 * 16)
	v.reads(36)
	o := v.sight()
	n = outlook.StateOf(v.s, o, v.now, nil)
	if n.Reducer.Likely != 0 || !(n.Oxidised.Likely > 0) || !n.Oxidised.Valid() || n.Oxidised.High > o.Indigo.Left.High || !(n.Sulfite.Likely > 2*fresh.Likely) {
		t.Fatalf("after sixteen days in the open it holds %v of reducer, %v blue of %v, %v of sulfite", n.Reducer, n.Oxidised, o.Indigo.Left, n.Sulfite)
	}
	if a := outlook.Advise(v.s, o, v.now, nil); a.Mass > 0 || !strings.Contains(a.Why, "blue again") {
		t.Errorf("without a strip: %+v", a)
	}
	blue := *n.Oxidised
	w := &vat{t, v.s, v.now}
	w.put(day.PowderAdded{Powder: "reducer", Mass: 10})
	if o := w.sight(); !(o.Indigo.Blue.Likely < blue.Likely) || o.Reducer.Left.Likely > 10 {
		t.Errorf("10 g bring %v of blue to %v, and %v of reducer are left", blue, o.Indigo.Blue, o.Reducer.Left)
	}
	w = &vat{t, v.s, v.now}
	w.put(day.StripTest{Stayed: quantity.Seconds(50)})
	if o := w.sight(); o.Indigo.Blue.Likely != 0 {
		t.Errorf("a good strip leaves %v blue", o.Indigo.Blue)
	}
	v.put(day.Closed{})
	h, err := outlook.Next(v.s, false)
	if err != nil || h.Opening.Blue == 0 || h.Opening.BlueHigh < h.Opening.Blue {
		t.Fatalf("the next day takes over %+v, %v", h.Opening.Held, err)
	}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	next := &vat{t, s, v.now}
	next.put(day.Opened{How: "tend"})
	if o := next.sight(); o.Indigo.Blue.Likely < h.Opening.Blue {
		t.Errorf("in the morning %v are blue of %v", o.Indigo.Blue, h.Opening.Blue)
	}
}

// How long the reducer lasts, as the screens tell it, is what the one state holds for as long as that state says.
func TestTheReserveIsTheOneStates(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(38)
	for what, does := range map[string]func(*vat){
		"fresh": func(*vat) {}, "two days later": func(v *vat) { v.after(60 * 48) }, "a weak strip": func(v *vat) { v.put(day.StripTest{Stayed: quantity.Seconds(4)}) },
		"a dose": func(v *vat) { v.put(day.PowderAdded{Powder: "reducer", Mass: 20}) },
	} {
		w := &vat{t, v.s, v.now}
		does(w)
		o := w.sight()
		n := outlook.StateOf(w.s, o, w.now, nil)
		b := liquor.Budget{Recipe: n.Recipe, Fill: n.Fill, Temp: o.Heat.Now, Surface: outlook.Surface(w.s.Head.Setup, n.Fill), Quiet: liquor.Lidded}
		free, _ := n.Free()
		if r, err := n.Lasts(b); err != nil || r.Free != free || o.Reducer.Left != free || r.Rest != o.Reducer.Rest {
			t.Errorf("%s: the day has %v for %v, the state %v for %v, %v", what, o.Reducer.Left, o.Reducer.Rest, free, r.Rest, err)
		}
	}
}

// The stock jar's own readings are in the state, and never the vat's.
func TestTheJarIsRead(t *testing.T) {
	v := open(t, "lye", nil)
	c, p := quantity.Celsius(62), 6.2
	v.put(day.Reading{Temp: &c, PH: &p, Of: "stock"})
	n := outlook.StateOf(v.s, v.sight(), v.now, nil)
	if n.JarTemp == nil || *n.JarTemp != c || n.JarPH == nil || float64(*n.JarPH) != p || n.PH != nil || n.Sour() || !n.SourJar() {
		t.Errorf("of the jar %v and pH %v, of the vat pH %v", n.JarTemp, n.JarPH, n.PH)
	}
}
