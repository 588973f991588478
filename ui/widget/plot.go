package widget

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/sorted"
	"example.org/vatside/ui/style"
)

// Course is how one quantity goes through a stretch of time, such as the °C of a vat over its day. Times need
// be in no order; values that are not finite, and whatever lies outside the window, are left out.
type Course struct {
	From, To  time.Time // the window; one of less than a minute is widened to an hour around it
	Now       time.Time
	Past      []Point  // what was reckoned up to now
	Coming    []Spread // the forecast from now on
	Other     []Point  // a second forecast, from now on, such as "with the lid"
	OtherName string
	Readings  []Point // what was measured
	Bands     []Level // levels worth a mark; the lowest and the highest are drawn through
	Unit      string
	Zone      *time.Location // UTC if nil
	Liquor    style.Shade    // water if left out
}

// Point is one value at one time.
type Point struct {
	When  time.Time
	Value float64
}

// Spread is what a forecast says of one time.
type Spread struct {
	When              time.Time
	Low, Likely, High float64
}

// Level is a value with a name, such as 30 "low".
type Level struct {
	Value float64
	Name  string
}

// Measures of the picture.
const (
	namedLevels  = 48   // columns from which the levels have their names
	dotEvery     = 4    // columns from one dot of a level to the next
	dash, dashOn = 4, 2 // columns from dash to dash of the second forecast, and of one dash
	paling       = 0.6  // of the hue, on the whole way to the ground
	plotAir      = 0.07 // of the range, under the lowest value and over the highest
	farthest     = 1e9  // values beyond are no quantity of a vat
)

// Plot draws a course as the liquor itself: a body up to now with its surface on top, a mist after it as wide as the
// forecast is uncertain, the readings as solid marks, the levels as dots, the hours below. Exactly height
// lines; without anything to draw it is one line that says so.
func Plot(c Course, width, height int, st style.Style) []string {
	if width < 1 || height < 1 {
		return nil
	}
	p := plot{Course: c, st: st, rows: max(height-1, 1), width: width, brushes: map[[2]ink]style.Ink{}}
	p.prepare()
	if !p.reckon() {
		return []string{st.Dim.Render(clip("Nothing known yet.", width, st.Glyphs.Ellipsis))}
	}
	p.paint()
	lines := append(p.picture(), p.hourLine())
	return lines[len(lines)-height:]
}

// plot is a course cut to a window. A row is two lines of pixels, numbered from the top.
type plot struct {
	Course
	st                  style.Style
	width, rows         int
	margin, cols        int
	start, length       float64 // of the window, in seconds
	now                 int     // column; -1 before the window, cols after it
	past, other         []float64
	low, likely, high   []float64 // of the forecast; all of them one value a column, NaN for none
	bottom, top         float64   // of the scale
	labels              []string  // the margin's, one a row
	dotted              []bool    // rows that a level is drawn through
	pixels              [][]ink
	marks               map[[2]int]bool // cells with a reading, by row and column
	nameRow, nameColumn int             // of the second forecast's name
	name                string
	brushes             map[[2]ink]style.Ink // in front and behind
}

// ink is what a half cell is painted with. A higher one covers a lower one.
type ink int

const (
	bare    ink = iota
	mist        // between the forecast's low and high
	body        // under the past's surface
	second      // the second forecast
	surface     // the past's value and the likeliest to come
	present
	faint // dots and figures
	solid // readings
)

// prepare makes the window, the levels and the margin sound.
func (p *plot) prepare() {
	p.Zone = cmp.Or(p.Zone, time.UTC)
	if p.Liquor == (style.Shade{}) {
		p.Liquor = style.Liquor(style.Water)
	}
	if p.To.Before(p.From) {
		p.From, p.To = p.To, p.From
	}
	if p.To.Sub(p.From) < time.Minute {
		p.From, p.To = p.From.Add(-30*time.Minute), p.To.Add(30*time.Minute)
	}
	p.start = seconds(p.From)
	p.length = seconds(p.To) - p.start
	p.Bands = slices.DeleteFunc(slices.Clone(p.Bands), func(l Level) bool { return !sound(l.Value) })
	sorted.By(p.Bands, func(a, b Level) int { return cmp.Compare(b.Value, a.Value) })
	p.Unit = Drawable(p.Unit, p.st.Glyphs)

	p.margin = max(style.Width(p.Unit), 2) // two: for levels of its own
	for _, l := range p.Bands {
		p.margin = max(p.margin, style.Width(p.levelText(l)))
	}
	if p.margin++; p.margin > p.width/3 {
		p.margin = 0
	}
	p.cols = p.width - p.margin
	p.now = -1
	if x, ok := p.column(p.Now); ok {
		p.now = x
	} else if p.Now.After(p.To) || p.Now.IsZero() && len(p.Coming) == 0 {
		p.now = p.cols
	}
}

// levelText is a level's figure, with its name where there is room. The figures of the levels are written alike.
func (p *plot) levelText(l Level) string {
	decimals, wide := decimalsOf(l.Value), 0
	for _, other := range p.Bands {
		decimals = max(decimals, decimalsOf(other.Value))
	}
	for _, other := range p.Bands {
		wide = max(wide, len(figure(other.Value, decimals)))
	}
	text := figure(l.Value, decimals)
	text = strings.Repeat(" ", max(0, wide-len(text))) + text
	if name := Drawable(l.Name, p.st.Glyphs); name != "" && p.width >= namedLevels {
		text += " " + name
	}
	return text
}

func figure(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return text
}

// decimalsOf is how many decimals a figure needs, of two at most.
func decimalsOf(v float64) int {
	short := strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64)
	_, after, _ := strings.Cut(short, ".")
	return min(len(after), 2)
}

func seconds(t time.Time) float64 { return float64(t.Unix()) + float64(t.Nanosecond())/1e9 }

func sound(v float64) bool { return math.Abs(v) < farthest } // false for NaN

// column is where a time of the window stands.
func (p *plot) column(t time.Time) (x int, ok bool) {
	if t.Before(p.From) || t.After(p.To) {
		return 0, false
	}
	return min(int((seconds(t)-p.start)/p.length*float64(p.cols)), p.cols-1), true
}

// course reads a line of points off at the middle of each column: between two points on the straight line,
// outside them nothing, but no point that has a column to itself is lost.
func (p *plot) course(points []Point) []float64 {
	points = slices.DeleteFunc(slices.Clone(points), func(q Point) bool { return !sound(q.Value) })
	sorted.By(points, func(a, b Point) int { return a.When.Compare(b.When) })
	values := make([]float64, p.cols)
	for x := range values {
		values[x] = math.NaN()
	}
	for _, q := range points {
		if x, ok := p.column(q.When); ok {
			values[x] = q.Value
		}
	}
	i := 0 // the first point after the middle
	for x := range values {
		at := p.start + (float64(x)+0.5)/float64(p.cols)*p.length
		for i < len(points) && seconds(points[i].When) <= at {
			i++
		}
		if i > 0 && i < len(points) {
			a, b := points[i-1], points[i]
			share := (at - seconds(a.When)) / (seconds(b.When) - seconds(a.When))
			values[x] = a.Value + share*(b.Value-a.Value)
		}
	}
	return values
}

// reckon finds every column's values and the scale; false if there is nothing to draw.
func (p *plot) reckon() bool {
	var low, likely, high []Point
	for _, s := range p.Coming {
		if !sound(s.Likely) {
			continue
		}
		l, h := s.Likely, s.Likely
		for _, v := range []float64{s.Low, s.High} {
			if sound(v) {
				l, h = min(l, v), max(h, v)
			}
		}
		low, high = append(low, Point{s.When, l}), append(high, Point{s.When, h})
		likely = append(likely, Point{s.When, s.Likely})
	}
	p.past, p.other = p.course(p.Past), p.course(p.Other)
	p.low, p.likely, p.high = p.course(low), p.course(likely), p.course(high)
	for x := range p.cols {
		if x > p.now && p.now >= 0 {
			p.past[x] = math.NaN()
		}
		if x < p.now || x == p.now && sound(p.past[x]) {
			for _, forecast := range [][]float64{p.low, p.likely, p.high, p.other} {
				forecast[x] = math.NaN()
			}
		}
	}

	least, most := math.Inf(1), math.Inf(-1)
	reach := func(v float64) {
		if sound(v) {
			least, most = min(least, v), max(most, v)
		}
	}
	for x := range p.cols {
		for _, line := range [][]float64{p.past, p.low, p.high, p.other} {
			reach(line[x])
		}
	}
	for _, r := range p.Readings {
		if _, ok := p.column(r.When); ok {
			reach(r.Value)
		}
	}
	if least > most {
		return false
	}
	for _, l := range p.Bands {
		reach(l.Value)
	}
	if most-least < 1e-6 {
		least, most = least-1, most+1
	}
	air := (most - least) * max(plotAir, 1/float64(2*p.rows))
	p.bottom, p.top = least-2*air, most+air // under the lowest there is still some body
	return true
}

// pixel is the line of pixels of a value.
func (p *plot) pixel(v float64) int {
	last := 2*p.rows - 1
	y := int(math.Round((p.top - v) / (p.top - p.bottom) * float64(last)))
	return min(max(y, 0), last)
}
