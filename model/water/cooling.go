package water

import (
	"cmp"
	"math"

	"example.org/vatside/model/quantity"
)

// Point is a temperature of the liquor, and how long after the start it is reached.
type Point struct {
	After quantity.Span
	Temp  quantity.Temperature
}

// Stretch is a time through which a vat stands the same.
type Stretch struct {
	Standing Standing
	For      quantity.Span
}

// MostPoints is how many points a forecast holds.
const MostPoints = 100_000

// losses is what a standing gives off against its temperature, whatever its heater and its factor. It is reckoned once for each
// degree that is passed, and a cubic (Catmull and Rom) leads from one to the next, which
// saves solving for walls and lid at each step. One of the temperatures is the air's own, where the losses have a bend. The
// body heated is the fill, weighed at 40 °C (0.8 % lighter than at 0 °C, 3.5 % heavier than at 100 °C), and the wetted wall.
type losses struct {
	body
	nodes [courseNodes]node
	arcs  [courseNodes]arc
	first float64 // °C of the first node
	kilos float64
}

// node is the losses in W and the heat capacity in J/K at one temperature; not known if warmth is 0.
type node struct{ watts, warmth float64 }

// arc is both from one node to the next: the losses watts + x(a + x(b + x·c)), x from 0 to 1; not known if warmth is 0.
type arc struct{ watts, a, b, c, warmth, warmer float64 }

const (
	courseStep  = 1.0 // K
	courseNodes = 105 // from a step or two below 0 °C to as much above 100 °C
)

// course is the rate at which a standing's liquor warms or cools, against its temperature.
type course struct {
	*losses
	heater, factor float64 // W; on the losses
}

func (s Standing) course() *course {
	return &course{losses: s.losses(), heater: s.Heater.Watts(), factor: s.factor()}
}

// losses are those that were kept, where any of them are these.
func (s Standing) losses() *losses {
	if s.kept != nil {
		for _, l := range *s.kept {
			if l.Fill == s.Fill && l.Lid == s.Lid && l.Sheet == s.Sheet && l.Air == s.Air && l.Wall == s.Wall && l.Wrap == s.Wrap {
				return l
			}
		}
	}
	air := s.Air.Temp.Celsius()
	l := &losses{body: s.body(), kilos: MassOf(s.Fill, weighedAt).Kilograms(), first: air - courseStep*(math.Floor(air/courseStep)+2)}
	if s.kept != nil {
		*s.kept = append(*s.kept, l)
	}
	return l
}

// Keeping is the standing with its losses kept from one question to the next, for all that are made from it by changing anything
// but its vessel. They are not to be asked at the same time.
func (s Standing) Keeping() Standing {
	s.kept = new([]*losses)
	return s
}

// weighedAt is the temperature at which a vat's fill is weighed, so that its mass does not change while it cools.
const weighedAt = quantity.Temperature(40)

// at is the i-th node. Beyond 0 and 100 °C the losses go straight on.
func (l *losses) at(i int) node {
	n := &l.nodes[i]
	if n.warmth > 0 {
		return *n
	}
	t := quantity.Celsius(l.first + courseStep*float64(i))
	held := min(max(t, Coldest), Hottest)
	n.watts = l.loss(held).Total().Watts()
	if held != t {
		inner := held + courseStep
		if t > held {
			inner = held - courseStep
		}
		n.watts += float64((t-held)/(held-inner)) * (n.watts - l.loss(inner).Total().Watts())
	}
	a, b := max(held-0.5, Coldest), min(held+0.5, Hottest)
	n.warmth = l.kilos*1000*(Enthalpy(b)-Enthalpy(a))/float64(b-a) + l.wallHeat
	return *n
}

// arc is that from the i-th node.
func (l *losses) arc(i int) *arc {
	a := &l.arcs[i]
	if a.warmth == 0 {
		p0, p1, p2, p3 := l.at(i-1), l.at(i), l.at(i+1), l.at(i+2)
		*a = arc{
			watts: p1.watts, a: (p2.watts - p0.watts) / 2, b: p0.watts - 2.5*p1.watts + 2*p2.watts - p3.watts/2,
			c: 1.5*(p1.watts-p2.watts) + (p3.watts-p0.watts)/2, warmth: p1.warmth, warmer: p2.warmth - p1.warmth,
		}
	}
	return a
}

// rate is K/s at a temperature.
func (c *course) rate(t float64) float64 {
	rate, _ := c.bends(t)
	return rate
}

// bends is the rate, and what it grows by with each K.
func (c *course) bends(t float64) (rate, slope float64) {
	t = min(max(t, Coldest.Celsius()), Hottest.Celsius())
	x := (t - c.first) / courseStep
	i := int(x)
	x -= float64(i)
	a := c.arc(i)
	warmth := a.warmth + x*a.warmer
	rate = (c.heater - c.factor*(a.watts+x*(a.a+x*(a.b+x*a.c)))) / warmth
	return rate, -(c.factor*(a.a+x*(2*a.b+3*x*a.c)) + rate*a.warmer) / warmth / courseStep
}

// step is the temperature after h seconds, where rate is that at t (the classical Runge–Kutta rule), held where water is liquid.
func (c *course) step(t, rate, h float64) float64 {
	k2 := c.rate(t + h/2*rate)
	k3 := c.rate(t + h/2*k2)
	k4 := c.rate(t + h*k3)
	return min(max(t+h/6*(rate+2*k2+2*k3+k4), Coldest.Celsius()), Hottest.Celsius())
}

// settled is the rate in K/s below which a vat has come to rest: 0.0004 K in a day.
const settled = 5e-9

// pace is a step in seconds that goes at most 1 K, and at most a quarter of the way to where the vat comes to rest, and the rate at
// its beginning; false when it rests.
func (c *course) pace(t float64) (h, rate float64, going bool) {
	rate, slope := c.bends(t)
	if math.Abs(rate) < settled || (rate < 0 && t <= Coldest.Celsius()) || (rate > 0 && t >= Hottest.Celsius()) {
		return 0, rate, false
	}
	return min(1/math.Abs(rate), 0.25/max(math.Abs(slope), 1e-12)), rate, true
}

// mostPaces is how many paces a walk has at most; what has not come to rest by then goes its last degrees in no time. A vat
// that cools from 100 °C to rest has some hundred.
const mostPaces = 1000

// walk goes on from t through so many seconds. With a goal it stops where that is reached; took is the seconds gone.
func (c *course) walk(t, seconds, goal float64) (end, took float64, reached bool) {
	for n := 0; took < seconds; n++ {
		h, rate, going := c.pace(t)
		if !going || n == mostPaces {
			return t, seconds, false
		}
		h = min(h, seconds-took)
		next := c.step(t, rate, h)
		if (t-goal)*(next-goal) <= 0 { // never true without a goal, which is NaN
			lo, hi := 0.0, h
			for range 60 {
				mid := (lo + hi) / 2
				if at := c.step(t, rate, mid); (t-goal)*(at-goal) <= 0 {
					hi = mid
				} else {
					lo = mid
				}
			}
			return goal, took + hi, true
		}
		if took+h == took {
			return next, seconds, false
		}
		t, took = next, took+h
	}
	return t, took, false
}

// lasting refuses a span below nothing.
func lasting(s quantity.Span) error {
	if s < 0 {
		return limit("% is no time to go on; it must be % or more", s, quantity.Span(0))
	}
	return nil
}

// Forecast is how the liquor's temperature goes on from a start: a Point at 0, at each whole multiple of each, and at over.
// The temperature goes one way only, towards where the vat comes to rest. A start outside 0–100 °C, what Check
// refuses, times below nothing, no step, or more than MostPoints gives a *LimitError.
func (s Standing) Forecast(from quantity.Temperature, over, each quantity.Span) ([]Point, error) {
	return Run(from, []Stretch{{s, over}}, each)
}

// Run is Forecast through a day of lids on and off, heaters on and off: from one stretch to the next. Besides each whole
// multiple of each, the end of every stretch has its Point. A change of fill from one stretch to the next is reckoned as
// if what comes or goes had the liquor's temperature.
func Run(from quantity.Temperature, stretches []Stretch, each quantity.Span) ([]Point, error) {
	if err := within(from); err != nil {
		return nil, err
	}
	if each <= 0 {
		return nil, limit("% is no step from point to point; it must be above %", each, quantity.Span(0))
	}
	points := float64(len(stretches))
	for _, st := range stretches {
		if err := cmp.Or(st.Standing.Check(), lasting(st.For)); err != nil {
			return nil, err
		}
		if points += float64(st.For) / float64(each); points >= MostPoints {
			return nil, limit("a point every % is more than the % that a forecast holds; take longer steps", each, number(MostPoints))
		}
	}
	out := append(make([]Point, 0, int(points)+2), Point{0, from})
	t, now := from.Celsius(), quantity.Span(0)
	for _, st := range stretches {
		c, end := st.Standing.course(), now+min(st.For, math.MaxInt64-now) // the sum holds 292 years and no more
		for now < end {
			next := now + min(each-now%each, end-now)
			t, _, _ = c.walk(t, (next - now).Seconds(), math.NaN())
			now = next
			out = append(out, Point{now, quantity.Celsius(t)})
		}
	}
	return out, nil
}

// After is the temperature that the liquor has after a span. Errors are those of Forecast.
func (s Standing) After(from quantity.Temperature, over quantity.Span) (quantity.Temperature, error) {
	if err := s.ready(from, from, over); err != nil {
		return 0, err
	}
	t, _, _ := s.course().walk(from.Celsius(), over.Seconds(), math.NaN())
	return quantity.Celsius(t), nil
}

// ready is the checks that After and its like share.
func (s Standing) ready(from, to quantity.Temperature, over quantity.Span) error {
	return cmp.Or(within(from, to), lasting(over), s.Check())
}

// Until is how long the liquor takes from one temperature to another, up or down, with its heater and its losses. It is
// not reached when the vat goes the other way, comes to rest before, or takes longer than most: then after is most.
// Errors are those of Forecast.
func (s Standing) Until(from, to quantity.Temperature, most quantity.Span) (after quantity.Span, reached bool, err error) {
	if err := s.ready(from, to, most); err != nil || from == to {
		return 0, err == nil, err
	}
	c := s.course()
	if r := c.rate(from.Celsius()); (r > 0) != (to > from) || r == 0 {
		return most, false, nil
	}
	_, took, reached := c.walk(from.Celsius(), most.Seconds(), to.Celsius())
	if !reached {
		return most, false, nil
	}
	return min(most, quantity.Seconds(took)), true, nil
}

// longestHeating is how long HeatBack looks ahead.
var longestHeating = quantity.Days(7)

// HeatBack is how long the vat's heater takes, against the losses, to bring the liquor up from one temperature to another;
// false if it never does, or not in 7 days. Liquor that is warm enough needs no time. Errors are those of Forecast.
func (s Standing) HeatBack(from, to quantity.Temperature) (quantity.Span, bool, error) {
	if err := s.ready(from, to, 0); err != nil || from >= to {
		return 0, err == nil, err
	}
	after, reached, err := s.Until(from, to, longestHeating)
	if !reached {
		after = 0
	}
	return after, reached, err
}
