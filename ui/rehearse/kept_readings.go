package rehearse

import (
	"math"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// sight is the liquor as it is reckoned to be so long after the last event.
func (k keeper) sight(after time.Duration) outlook.Outlook {
	return k.eyes.look(k.s, k.s.At.Add(after))
}

// thermometer reads °C after a while, and pH with it where asked for.
func (k keeper) thermometer(after time.Duration, withPH bool) (time.Duration, day.Command, bool) {
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
func (k keeper) strip() (time.Duration, day.Command, bool) {
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
	return wording.Either(k.pale(), []string{"straw", "clear", "no-film", "pale"}, []string{"yellow", "clear", "coppery", "dark-froth"})
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
