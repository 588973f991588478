package sheet

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"example.org/vatside/model/history"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
)

// Plot is what was read over a time: a small picture a series, one under another, on one axis of time.
type Plot struct {
	From, Till time.Time // the ends of the axis; From is before Till
	Marks      []Mark    // of that axis, in order
	Series     []Series
}

// Mark is an instant that is named on the axis of time.
type Mark struct {
	At    time.Time
	Words string
}

// Level is a height in a picture, in the unit of its series.
type Level float64

// Scale is a level that is named at the side of a picture.
type Scale struct {
	Level Level
	Words string
}

// Shape is the form of the points of a series; no two of a plot have the same, so that no colour is needed.
type Shape int

// The shapes.
const (
	Circle Shape = iota
	Diamond
	Triangle
	Square
)

// Series is one thing that was read, never empty.
type Series struct {
	Name, Unit        string // such as "warmth" and "°C"; pH has no unit
	Shape             Shape
	Low, High         Level   // the ends of its axis; Low is below High
	Scale             []Scale // levels that are named, the lowest first
	Works             *[2]Level
	Range             string // Works in words
	Through           bool   // a line runs on from day to day, else within a day only: between days nothing is known
	Points            []Point
	Least, Most, Last string // in words, with the unit
}

// Point is one reading of a series.
type Point struct {
	At    time.Time
	Level Level
	Words string
	Known outlook.Known
	Hex   string // of a swatch, sRGB as #rrggbb; else empty
}

// Kind is the stable name of the block.
func (Plot) Kind() string { return "plot" }

// plotOf is what was read of a vat over its life: °C, pH, strips, and the swatches that can be set beside one another. A series
// of which there is no second reading is left out; false where none is left.
func plotOf(days []Day) (Plot, bool) {
	last := days[len(days)-1].State.Head
	sys, liquor := last.Setup.System(), last.Recipe.Liquor
	p := history.PointsOf(days)
	var out Plot
	_, unit := liquor.Aim.Figure(sys)
	degrees := func(t quantity.Temperature) Level {
		if sys == quantity.US {
			return Level(t.Fahrenheit())
		}
		return Level(t)
	}
	warmth := Series{Name: "warmth", Unit: unit, Shape: Circle}
	for _, r := range p.Temps {
		warmth.Points = append(warmth.Points, Point{At: r.At, Level: degrees(r.Temp), Words: r.Temp.Format(sys), Known: r.Known})
	}
	if liquor.Low < liquor.High {
		warmth.Works = &[2]Level{degrees(liquor.Low), degrees(liquor.High)}
		warmth.Range = between(liquor.Low.Format(sys), liquor.High.Format(sys), " to ")
	}
	ph := Series{Name: "pH", Shape: Diamond, Through: true}
	for _, r := range p.PHs {
		ph.Points = append(ph.Points, Point{At: r.At, Level: Level(r.PH), Words: fmt.Sprintf("%.1f", float64(r.PH)), Known: r.Known})
	}
	if liquor.PHLow < liquor.PHHigh {
		ph.Works = &[2]Level{Level(liquor.PHLow), Level(liquor.PHHigh)}
		ph.Range = fmt.Sprintf("%g to %g", liquor.PHLow, liquor.PHHigh)
	}
	strip := Series{Name: "strip", Unit: "s", Shape: Triangle}
	for _, r := range p.Strips {
		strip.Points = append(strip.Points, Point{At: r.At, Level: Level(r.Stayed.Seconds()), Words: r.Stayed.Format(sys), Known: r.Known})
	}
	swatch := Series{Name: "swatch", Unit: "K/S", Shape: Square, Through: true}
	for _, s := range p.Compared() {
		if s.Dips > 0 {
			swatch.Name = "swatch of " + wording.Counted(s.Dips, "dip")
		}
		swatch.Points = append(swatch.Points, Point{At: s.At, Level: Level(s.KS), Words: fmt.Sprintf("%.2f %s", float64(s.KS), shade.Name(s.KS)),
			Known: s.Known, Hex: s.Lab.RGB().Clip().Hex()})
	}
	for _, s := range []Series{warmth, ph, strip, swatch} {
		n := len(s.Points)
		if n < 2 || !s.Points[0].At.Before(s.Points[n-1].At) {
			continue
		}
		s.axis()
		out.Series = append(out.Series, s)
		if from := s.Points[0].At; out.From.IsZero() || from.Before(out.From) {
			out.From = from
		}
		if till := s.Points[n-1].At; till.After(out.Till) {
			out.Till = till
		}
	}
	out.Marks = marks(out.From, out.Till)
	return out, len(out.Series) > 0
}

// mostScale is into how many steps the axis of a series is parted at most: more names than that do not fit beside it.
const mostScale = 3

// axis finds the least, the most and the last of a series, and an axis of round steps about them.
func (s *Series) axis() {
	least, most := s.Points[0], s.Points[0]
	for _, p := range s.Points {
		if p.Level < least.Level {
			least = p
		}
		if p.Level > most.Level {
			most = p
		}
	}
	s.Least, s.Most, s.Last = least.Words, most.Words, s.Points[len(s.Points)-1].Words
	low, high := float64(least.Level), float64(most.Level)
	step := 0.1
	for i := 0; ; i++ {
		step = []float64{0.1, 0.2, 0.5}[i%3] * math.Pow(10, float64(i/3))
		from, to := math.Floor(low/step+1e-9), math.Ceil(high/step-1e-9)
		if from == to {
			to++
		}
		if to-from > mostScale {
			continue
		}
		decimals := 0
		if step < 1 {
			decimals = 1
		}
		for i := range int(to-from) + 1 { // counted: beyond 2^53 one more is no more
			n := from + float64(i)
			s.Scale = append(s.Scale, Scale{Level(n * step), strconv.FormatFloat(n*step, 'f', decimals, 64)})
		}
		s.Low, s.High = Level(from*step), Level(to*step)
		return
	}
}

// mostMarks is how many instants are named on an axis of time at most.
const mostMarks = 8

// marks are round instants of an axis of time: hours, days, weeks, halves of months, months, quarters or years, as fit; else
// its two ends.
func marks(from, till time.Time) []Mark {
	if !from.Before(till) {
		return nil
	}
	y, m, d := from.Date()
	at := func(months, days, hours int) time.Time {
		return time.Date(y, m+time.Month(months), d+days, hours, 0, 0, 0, from.Location())
	}
	var ways []func(n int) time.Time
	for _, hours := range []int{1, 3, 6, 12} {
		ways = append(ways, func(n int) time.Time { return at(0, 0, n*hours) })
	}
	for _, days := range []int{1, 2, 7} {
		ways = append(ways, func(n int) time.Time { return at(0, n*days, 0) })
	}
	ways = append(ways, func(n int) time.Time { return at(n/2, 1-d+n%2*14, 0) })
	for _, months := range []int{1, 3, 12} {
		ways = append(ways, func(n int) time.Time { return at(n*months, 1-d, 0) })
	}
	for _, way := range ways {
		var out []Mark
		for n := 0; len(out) <= mostMarks && !way(n).After(till); n++ {
			if t := way(n); !t.Before(from) && (len(out) == 0 || t.After(out[len(out)-1].At)) {
				out = append(out, Mark{At: t})
			}
		}
		if len(out) > 0 && len(out) <= mostMarks {
			return worded(out, from)
		}
	}
	return worded([]Mark{{At: from}, {At: till}}, from) // less than an hour, or a life of many years
}

// worded gives marks their words: the time of day, at midnight the date, with the year where it is a new one.
func worded(list []Mark, from time.Time) []Mark {
	year := from.Year()
	midnight := func(t time.Time) bool { return t.Hour() == 0 && t.Minute() == 0 }
	far := list[len(list)-1].At.Sub(list[0].At) > 72*time.Hour // then a time of day says little
	for i := range list {
		t := list[i].At
		switch {
		case !far && !midnight(t):
			list[i].Words = clock(t)
		case t.Year() != year:
			list[i].Words, year = t.Format("2 Jan 2006"), t.Year()
		default:
			list[i].Words = t.Format("2 Jan")
		}
	}
	return list
}
