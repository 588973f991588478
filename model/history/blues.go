package history

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// Told is how the blue of a piece is known.
type Told string

// The ways of knowing a blue, the surest first.
const (
	ByMeasure  Told = "measured" // its last look, dry and rinsed: by a colour meter
	ByPhoto    Told = "photo"    // by a photograph
	ByRung     Told = "rung"     // like a rung of its vat's ladder
	ByDepth    Told = "depth"    // by eye; or never looked at, and so the depth or colour that was named for it, once it has all its dips
	ByForecast Told = "forecast" // what its dips give in such a vat
)

// mostForecast is how many dips of a piece are forecast for its blue.
const mostForecast = 60

// Blue is a piece of a vat and how it looks dry and rinsed.
type Blue struct {
	Of    *Day      // the last day on which it was in work
	Days  []string  // all days on which it was
	Piece day.Piece // as that day left it
	Lab   colour.Lab
	Told  Told // empty: still in work, and not looked at since its last dip
	Seen  bool // by a look at it
}

// Known tells whether it has a blue of its own.
func (b Blue) Known() bool { return b.Told != "" }

// Sureness is how well its blue is known; outlook.Unknown for one still in work and not looked at.
func (b Blue) Sureness() outlook.Known {
	switch {
	case b.Seen:
		return outlook.Measured
	case b.Told == ByForecast:
		return outlook.Reckoned
	case b.Told != "":
		return outlook.Guessed
	}
	return outlook.Unknown
}

// Ground is the cloth that the blue is on.
func (b Blue) Ground() shade.Ground { return shade.GroundOf(b.Fibre()) }

// Fibre is Unknown where the book names one that is not known here.
func (b Blue) Fibre() fibre.Fibre {
	f, _ := fibre.Parse(b.Piece.Spec.Fibre)
	return f
}

// BlueNamed is the piece of a day by its tag; false where that day had none, or none with a dip. A piece that was carried over, or
// that dried on the next day, is found by each of its days.
func BlueNamed(v Vat, name, tag string) (Blue, bool) {
	for _, b := range slices.Backward(BluesOf(v)) {
		if b.Piece.Tag == tag && slices.Contains(b.Days, name) {
			return b, true
		}
	}
	return Blue{}, false
}

// BluesOf are the pieces of a vat that had a dip, the oldest first, each once, with its blue: by the newest look at it dry and
// rinsed since its last dip, on whatever day of the vat; else by what was named for it; else by what its dips give. It takes some
// milliseconds a day.
func BluesOf(v Vat) []Blue {
	var b Blues
	for i := range v {
		b.Take(&v[i], &v[i])
	}
	return b.Tell(func(name string) (Day, bool) {
		i := slices.IndexFunc(v, func(d Day) bool { return d.Name == name })
		return v[i], true
	})
}

// Blues are the pieces of a vat, taken up day by day. The zero Blues has none.
type Blues struct {
	found  []sighted
	newest map[string]int // tag → place in found
}

// Take takes up the pieces of the next day. Of the day they keep is, the day itself or Bare.
func (b *Blues) Take(d, is *Day) {
	if b.newest == nil {
		b.newest = map[string]int{}
	}
	for _, p := range d.State.Pieces {
		i, there := b.newest[p.Tag]
		switch {
		case p.Phase == day.Dropped || p.Dips == 0:
			continue
		case p.Brought() && there:
			b.found[i].Days = append(b.found[i].Days, d.Name)
			continue
		case there && p.Spec.Had > 0: // it was carried over
			b.found[i].Days = append(b.found[i].Days, d.Name)
			b.found[i].Of, b.found[i].Piece = is, p
			if len(p.Past) > 0 {
				b.found[i].looks = ""
			}
			continue
		}
		b.newest[p.Tag] = len(b.found)
		b.found = append(b.found, sighted{Blue: Blue{Of: is, Days: []string{d.Name}, Piece: p}})
	}
	for _, x := range d.State.Samples() {
		i, there := b.newest[x.Tag]
		if !there || !tellsOf(x, b.found[i].Piece) {
			continue
		}
		p, here := d.State.Piece(x.Tag)
		of := b.found[i].Of.Name
		if of == d.Name && !x.At.Before(lastDip(b.found[i].Piece)) || of != d.Name && (!here || p.Brought()) { // dry on the day after
			b.found[i].looks, b.found[i].on = x.Looks, is
		}
	}
}

// Bare is what a piece tells of its day: its name, its recipe's id, when it was, whether it is closed, and what is known of its colours.
func (d *Day) Bare() *Day {
	var head day.Head
	head.Recipe.ID = strings.Clone(d.State.Head.Recipe.ID) // else it holds the text that it was read from
	return &Day{Name: d.Name, State: day.State{Head: head, At: d.State.At, Closed: d.State.Closed}, Known: d.Known}
}

// Tell finds the blue of each, the oldest first. A day by which colours are to be reckoned is asked for by its name.
func (b *Blues) Tell(days func(name string) (Day, bool)) []Blue {
	r := reckoner{days: days, blues: map[string]*outlook.Blue{}}
	out := make([]Blue, len(b.found))
	for i := range b.found {
		b.found[i].reckoner = &r
		b.found[i].tell()
		b.found[i].Lab = hundredths(b.found[i].Lab)
		out[i] = b.found[i].Blue
	}
	return out
}

// hundredths is a colour as well as anybody tells it, so that it is the same wherever it is written.
func hundredths(l colour.Lab) colour.Lab {
	near := func(x float64) float64 { return math.Round(x*100) / 100 }
	return colour.Lab{L: near(l.L), A: near(l.A), B: near(l.B)}
}

// sighted is a piece with the words of its last look, and the day of that look.
type sighted struct {
	Blue
	looks string
	on    *Day
	*reckoner
}

// reckoner reckons colours by days.
type reckoner struct {
	days  func(name string) (Day, bool)
	blues map[string]*outlook.Blue // of the last days; nil: nothing was filled in that day
}

// lastDip is when a piece went into the vat, or came out of it, for the last time that day.
func lastDip(p day.Piece) (at time.Time) {
	for _, d := range p.Past {
		at = day.Latest(at, d.Begun, d.Ended)
	}
	return at
}

// tellsOf tells whether a sample is a look at a piece as it was left: dry and rinsed, or a strip cut after its last dip.
func tellsOf(x day.Sample, p day.Piece) bool {
	if x.Strip {
		return x.Dips == 0 || x.Dips == p.Dips
	}
	return !x.Wet && x.Rinsed
}

// tell finds how a piece looks. One in work has no more than its look.
func (b *sighted) tell() {
	if l, err := day.ParseLook(b.looks); b.looks != "" && err == nil {
		if l.How == shade.ByRung {
			for _, d := range []*Day{b.on, b.Of} { // the ladder as it was then
				if lab, ok := b.rung(d, l.Rung); ok {
					b.Lab, b.Told, b.Seen = lab, ByRung, true
					return
				}
			}
		} else if lab, ok := l.ColourOn(b.Ground()); ok {
			b.Lab, b.Told, b.Seen = lab, map[shade.How]Told{shade.ByMeter: ByMeasure, shade.ByPhoto: ByPhoto, shade.ByEye: ByDepth}[l.How], true
			return
		}
	}
	if b.Piece.Phase == day.Carried || !b.Of.State.Closed && b.Piece.Live() {
		return
	}
	spec := b.Piece.Spec
	if b.Piece.Live() { // its day ended before it was at what was named for it
		b.Lab, b.Told = b.forecast(), ByForecast
		return
	}
	if lab, ok := spec.Colour(); ok {
		b.Lab, b.Told = lab, ByDepth
		return
	}
	if lab, ok := b.rung(b.Of, spec.Rung); ok {
		b.Lab, b.Told = lab, ByDepth
		return
	}
	if d, err := shade.ByName(spec.Depth); err == nil {
		b.Lab, b.Told = b.Ground().Colour(shade.Band(d).Likely), ByDepth
		return
	}
	b.Lab, b.Told = b.forecast(), ByForecast
}

// bluesOn are those of a day as it was left; nil where nothing was filled in that day.
func (r *reckoner) bluesOn(name string) *outlook.Blue {
	if x, there := r.blues[name]; there {
		return x
	}
	if len(r.blues) >= 2 { // a day's take much room, and the pieces come day by day
		clear(r.blues)
	}
	r.blues[name] = nil
	if d, ok := r.days(name); ok && day.Filled(d.State) {
		x := outlook.Weighed(d.State, outlook.Of(d.State, d.State.At), d.State.At)
		r.blues[name] = &x
	}
	return r.blues[name]
}

// rung is the colour of a rung of the vat's ladder on a day, on the cloth of the piece.
func (b *sighted) rung(d *Day, n int) (colour.Lab, bool) {
	if n < 1 {
		return colour.Lab{}, false
	}
	return d.colour(fmt.Sprintf("rung %d %s", n, b.Piece.Spec.Fibre), func() (colour.Lab, bool) { return b.rungReckoned(d, n) })
}

func (b *sighted) rungReckoned(d *Day, n int) (colour.Lab, bool) {
	blues := b.bluesOn(d.Name)
	if blues == nil {
		return colour.Lab{}, false
	}
	if r, seen := wording.First(blues.Rungs, func(r outlook.Rung) bool { return r.No == n && r.Known == outlook.Measured }); seen {
		return r.Lab, true
	}
	like := blues.Wished(day.Piece{Spec: day.PieceSpec{Fibre: b.Piece.Spec.Fibre, Rung: n}})
	if like == nil {
		return colour.Lab{}, false
	}
	return *like, true
}

// forecast is what the dips of a piece give in its vat.
func (b *sighted) forecast() colour.Lab {
	lab, _ := b.Of.colour(fmt.Sprintf("dips %d %d %s", b.Piece.Dips, lastDip(b.Piece).Unix(), b.Piece.Tag), func() (colour.Lab, bool) { return b.forecastReckoned(), true })
	return lab
}

func (b *sighted) forecastReckoned() colour.Lab {
	if blues := b.bluesOn(b.Of.Name); blues != nil {
		if now := blues.Now(b.Piece); now != nil {
			return now.Lab
		}
	}
	d, _ := b.days(b.Of.Name)
	head := d.State.Head
	v := shade.Of(liquor.State{Recipe: head.Recipe, Fill: head.Setup.Fill})
	piece := shade.Piece{Fibre: b.Fibre(), Ground: b.Ground(), Dry: b.Piece.Spec.Dry}
	n := min(b.Piece.Dips, mostForecast)
	return shade.Possible(head.Recipe.Family).Seen(nil).Forecast(piece, v, b.Piece.DipTime(), nil, n, nil)[n-1].Lab
}

// Took are the times that the dips and the airings between them had, in the middle, of an even number between the two in it; those planned
// where none was.
func (b Blue) Took() (dip, air quantity.Span) {
	var dips, airs []quantity.Span
	var out time.Time
	for _, d := range b.Piece.Past {
		if d.Ended.IsZero() {
			continue
		}
		dips = append(dips, quantity.Span(d.Ended.Sub(d.Begun)))
		if !out.IsZero() {
			airs = append(airs, quantity.Span(d.Begun.Sub(out)))
		}
		out = d.Ended
	}
	return middle(dips, b.Piece.DipTime()), middle(airs, b.Piece.AirTime(false))
}

func middle(spans []quantity.Span, none quantity.Span) quantity.Span {
	if len(spans) == 0 {
		return none
	}
	sorted.By(spans, cmp.Compare)
	return (spans[(len(spans)-1)/2] + spans[len(spans)/2]) / 2
}
