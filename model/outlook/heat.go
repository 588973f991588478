package outlook

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

// The air where the setup does not say: a yard or a workshop in a mild season. From memory.
const (
	usualAir      = quantity.Temperature(20)
	usualHumidity = quantity.Share(0.6)
)

// reaches is the part of a heater's power that reaches the liquor it hangs in.
var reaches = water.Immersion.Reaches()

// mark is what the day's book says of heat at one instant: a reading, a °C that an act brought about, or another way of
// standing.
type mark struct {
	at     time.Time
	temp   *quantity.Temperature // it has this °C from here on
	read   bool                  // as read at the vat
	taken  bool                  // as the day before was reckoned to end: no reading
	filled bool                  // the vessel is full: what was read before was of the filling
	poured bool                  // water came in: the next reading says nothing about cooling
	water  quantity.Volume       // that came in to what there was, at waterT; 0 where nobody said how warm it was
	waterT quantity.Temperature
	in     quantity.Volume // what there was
	stand  func(*water.Standing)
}

// standing is how the vat of a setup stands, open.
func standing(setup day.Setup, fill quantity.Volume) water.Standing {
	return water.Standing{Vessel: setup.Measured(), Fill: fill, Wrap: setup.Wrap, Air: Air(setup)}
}

// Air is the air around the vat of a setup; where it does not say, that of a mild season, from memory.
func Air(setup day.Setup) water.Air {
	return water.Air{Temp: wording.Told(setup.Air, usualAir), Humidity: cmp.Or(setup.Humidity, usualHumidity)}
}

// marks reads the day's book for what bears on heat.
func marks(s day.State) []mark {
	var out []mark
	setup := s.Head.Setup
	if o := s.Head.Opening; o.Temp != nil && o.Until != nil {
		lid := o.Cover
		out = append(out, mark{at: *o.Until, temp: o.Temp, taken: true, stand: func(st *water.Standing) { st.Lid = lid }})
	}
	level := s.Head.Opens()
	sheet := func(with string) bool { return strings.Contains(with, "sheet") || strings.Contains(with, "film") }
	for e := range s.Corrected() {
		m := mark{at: e.At, in: level.In}
		level = level.After(&s, e.Body)
		switch b := e.Body.(type) {
		case day.Reading:
			if b.Temp == nil || b.Of == "stock" {
				continue
			}
			m.temp, m.read = b.Temp, true
		case day.VatCovered:
			m.stand = func(st *water.Standing) { st.Lid, st.Sheet = !sheet(b.With), sheet(b.With) }
		case day.VatUncovered, day.DipBegun:
			m.stand = func(st *water.Standing) { st.Lid, st.Sheet = false, false }
		case day.HeaterOn:
			p := cmp.Or(b.Power, setup.Heater)
			m.stand = func(st *water.Standing) { st.Heater = quantity.Watts(p.Watts() * reaches.Fraction()) }
		case day.HeaterOff:
			m.stand = func(st *water.Standing) { st.Heater = 0 }
		case day.ToppedUp:
			m.poured = true
			if b.Temp != 0 {
				m.water, m.waterT = b.Water, b.Temp
			}
			m.stand = fills(s, level)
		case day.DrawnOff, day.Decanted:
			m.stand = fills(s, level)
		case day.StockDrawn:
			m.poured = b.Step == 0
		case day.StepDone:
			st, ok := stepOf(s, b.Step)
			if !ok || st.Into == recipe.IntoStock || st.To == nil || s.Head.Opening.Built { // a vat that lives is as warm as it is read
				continue
			}
			switch st.Do {
			case recipe.Fill, recipe.Warm, recipe.Cool:
				m.temp, m.poured, m.filled = st.To, true, st.Do == recipe.Fill
			default:
				continue
			}
		default:
			continue
		}
		out = append(out, m)
	}
	return out
}

// fills is the vat standing with so much in it.
func fills(s day.State, l day.Level) func(*water.Standing) {
	return func(st *water.Standing) { st.Fill = within(s, l.In) }
}

func stepOf(s day.State, no int) (day.Step, bool) {
	if no < 1 || no > len(s.Plan) {
		return day.Step{}, false
	}
	return s.Plan[no-1], true
}

// course is the vat's heat walked along its marks.
type course struct {
	at       time.Time
	temp     quantity.Temperature
	known    Known // Unknown before the first °C
	stand    water.Standing
	since    []water.Stretch // since the last reading
	lastRead *quantity.Temperature
	moved    bool // something but time has changed its °C since the last reading
	readAt   time.Time
	pairs    []water.Pair
	past     []At
	readings []At
}

// each is how fine the curve is that is drawn.
const each = quantity.Span(5 * time.Minute)

func (c *course) walk(to time.Time, forecast bool) {
	span := quantity.Span(to.Sub(c.at))
	if span <= 0 {
		return
	}
	if c.known != Unknown && forecast {
		step := max(each, span/96)
		if points, err := c.stand.Forecast(c.temp, span, step); err == nil {
			for _, p := range points {
				c.past = append(c.past, At{c.at.Add(p.After.Duration()), p.Temp})
			}
			c.temp = points[len(points)-1].Temp
		}
	}
	c.since = append(c.since, water.Stretch{Standing: c.stand, For: span})
	c.at = to
}

func (c *course) pass(m mark, forecast bool, lately time.Duration) {
	c.walk(m.at, forecast)
	c.at = m.at
	if m.filled {
		c.past, c.readings = nil, slices.DeleteFunc(c.readings, func(r At) bool { return m.at.Sub(r.When) > lately })
	}
	switch {
	case m.read:
		if c.lastRead != nil {
			c.pairs = append(c.pairs, water.Pair{From: *c.lastRead, To: *m.temp, Between: c.since})
		}
		c.temp, c.known, c.lastRead, c.readAt = *m.temp, Reckoned, m.temp, m.at
		c.since, c.moved = nil, false
		c.readings = append(c.readings, At{m.at, *m.temp})
		c.past = append(c.past, At{m.at, *m.temp})
	case m.taken:
		c.temp, c.known = *m.temp, Reckoned
		c.past = append(c.past, At{m.at, *m.temp})
	case m.temp != nil:
		// What was read while it was poured is better than what it should have come to.
		if c.readAt.IsZero() || m.at.Sub(c.readAt) > lately {
			c.temp, c.moved = *m.temp, true
			c.past = append(c.past, At{m.at, *m.temp})
			if c.known == Unknown {
				c.known = Guessed
			}
		}
	}
	if m.water > 0 && c.known != Unknown {
		c.temp, c.moved = water.Mixed(m.in, c.temp, m.water, m.waterT), true
		c.past = append(c.past, At{m.at, c.temp})
	}
	if m.poured {
		c.lastRead, c.since = nil, nil
		if m.temp != nil && !c.readAt.IsZero() && m.at.Sub(c.readAt) <= lately { // read a moment before the step was said to be done
			t := c.temp
			c.lastRead = &t
		}
	}
	if m.stand != nil {
		m.stand(&c.stand)
	}
}

// heatOf is the °C of the day: the past walked twice, once to fit the losses to the readings, once to draw it.
func heatOf(s day.State, now time.Time) Heat {
	l := s.Head.Recipe.Liquor
	h := Heat{Low: l.Low, Aim: l.Aim, High: l.High, Heater: s.Head.Setup.Heater}
	start := standing(s.Head.Setup, atFirst(s)).Keeping()
	ms := marks(s)
	forecast := start.Vessel.Shape != nil && start.Check() == nil
	walked := func(factor float64) course {
		c := course{stand: start}
		c.stand.Factor = factor
		if len(ms) > 0 {
			c.at = ms[0].at
		}
		for _, m := range ms {
			c.pass(m, forecast && factor > 0, 5*time.Minute)
		}
		c.stand.Lid, c.stand.Sheet = s.Vat.Covered && !c.stand.Sheet, c.stand.Sheet && s.Vat.Covered
		if factor > 0 {
			to := wording.Either(s.Closed, s.At, now) // it cooled till then, and what came after is the next day's
			c.walk(to, forecast)
		}
		return c
	}
	h.Fitted = water.Fit(walked(0).pairs)
	c := walked(h.Fitted.Factor)
	h.Known, h.Now, h.ReadAt, h.Past, h.Readings = c.known, c.temp, c.readAt, c.past, c.readings
	slow, brews := s.Slow(s.At)
	end, waits := s.WaitsUntil()
	if waits = waits && !s.Head.Setup.Ending; h.Known == Unknown || s.Closed && !brews && !waits {
		return h
	}
	if s.Closed { // it is left to itself, to the end of its wait
		now = s.At
	}
	if !h.ReadAt.IsZero() && now.Sub(h.ReadAt) <= fresh && len(h.Readings) > 0 && !c.moved {
		h.Known = Measured
	}
	if !forecast {
		if n := len(h.Readings); h.Known == Reckoned && n > 0 && !c.moved { // the last reading, which nothing carries on
			h.Now, h.AsRead = h.Readings[n-1].Temp, true
		}
		return h
	}
	h.Far = horizon
	if waits {
		h.Far = min(max(horizon, end.Sub(now)), farthest)
	}
	if brews {
		h.Far = min(max(horizon, slow.End.Sub(now)), farthest)
	}
	switch s.Head.Setup.Kept {
	case day.KeptByHeater:
		h.Kept = h.Now >= h.Low
	case day.KeptWrapped:
		if c.stand.Wrap <= 0 {
			c.stand.Wrap = usualWrap
		}
	}
	h.ahead(c.stand, now)
	if h.Long = h.Far > horizon && !h.Kept; h.Long {
		h.width(c.stand, s.Head.Setup, now)
	}
	return h
}

// How far the air around a vat may be from what is taken, over a wait of days: where it was said, or is that of a mild season. M
const (
	airSaid  = quantity.Temperature(3)
	airTaken = quantity.Temperature(6)
)

// width is when the vat may be below its mark at the earliest, and when it is at the latest: by what a thermometer is off, the air
// around it colder or warmer than taken, and as much or as little lost as its readings allow. Zero where that does not come within Far.
func (h *Heat) width(stand water.Standing, setup day.Setup, now time.Time) {
	air := airTaken
	if setup.Air != nil {
		air = airSaid
	}
	falls := func(off quantity.Temperature, by, factor float64) time.Time {
		if h.Now+off <= h.Low {
			return now
		}
		st := stand
		st.Air.Temp += air * quantity.Temperature(by)
		st.Factor = factor
		after, reached, err := st.Until(h.Now+off, h.Low, quantity.Span(h.Far))
		if err != nil || !reached {
			return time.Time{}
		}
		return now.Add(after.Duration())
	}
	h.Perhaps = falls(-liquor.ThermometerError, -1, h.Fitted.High)
	h.Surely = falls(liquor.ThermometerError, 1, h.Fitted.Low)
}

// usualWrap is a wrapped vat's blankets, as foam, where nobody said how thick. From memory.
const usualWrap = quantity.Length(0.02)

// ahead forecasts: as the vat stands, with the spread of what is not known of the day, and with the lid on.
func (h *Heat) ahead(stand water.Standing, now time.Time) {
	curve := func(st water.Standing) []water.Point {
		p, _ := st.Forecast(h.Now, quantity.Span(h.Far), max(quantity.Minutes(15), quantity.Span(h.Far/48)))
		return p
	}
	likely := curve(stand)
	fast, slow := stand, stand
	fast.Factor, slow.Factor = h.Fitted.High, h.Fitted.Low
	low, high := curve(fast), curve(slow)
	for i, p := range likely {
		a, b := low[i].Temp, high[i].Temp
		h.Coming = append(h.Coming, Spread{now.Add(p.After.Duration()), quantity.Range[quantity.Temperature]{Low: min(a, b, p.Temp), Likely: p.Temp, High: max(a, b, p.Temp)}})
	}
	until := func(st water.Standing) (time.Time, bool) {
		after, reached, err := st.Until(h.Now, h.Low, quantity.Span(h.Far))
		if err != nil || !reached {
			return time.Time{}, false
		}
		return now.Add(after.Duration()), true
	}
	if h.Now > h.Low && !h.Kept {
		h.Below, _ = until(stand)
	}
	if !stand.Lid {
		lidded := stand
		lidded.Lid, lidded.Sheet = true, false
		for _, p := range curve(lidded) {
			h.UnderLid = append(h.UnderLid, At{now.Add(p.After.Duration()), p.Temp})
		}
		if h.Now > h.Low && !h.Kept {
			at, falls := until(lidded)
			h.Lidded, h.LiddedHolds = at, !falls
		}
	}
	if h.Heater > 0 && h.Now < h.Aim {
		hot := stand
		hot.Lid, hot.Heater = true, quantity.Watts(h.Heater.Watts()*reaches.Fraction())
		if t, ok, err := hot.HeatBack(h.Now, h.Aim); err == nil && ok {
			h.Back = t
		}
	}
}
