package prepare

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/wording"
)

// Prepared is a lot with what makes it fit for the vat. Scour is nil for goods that are scoured.
type Prepared struct {
	Lot
	Scour *practice.Scour
	Wet   practice.Wetting
}

// The kinds of what is ahead.
const (
	ToScour = "scour"
	ToWet   = "wet out"
	ToHeat  = "heat"
	ToBuild = "build"
	ToWarm  = "warm"
	ToLook  = "look"
	ToDye   = "dye"
)

// Task is one stretch of time before the first dip.
type Task struct {
	Slot
	Kind  string
	How   string // amounts, in the dyer's own units
	Check string // what tells that it is done; may be empty
}

// End is when it is over.
func (a Task) End() time.Time { return a.At.Add(a.For.Duration()) }

// Schedule is all that lies between goods and powders and the first dip.
type Schedule struct {
	Lots  []Prepared
	Tasks []Task // in order of time; the last is the first piece going in
	Ready time.Time
	Unfit []string // which fibres the fresh vat harms, and what to take instead
	// Warnings are what stands against the wished start: it is late, or the night's; Notes what is good to know.
	Warnings, Notes []string

	night bool // the scouring begins in the night
}

// Begin is when the hands have to begin.
func (r Schedule) Begin() time.Time { return r.Tasks[0].At }

// Late is by how much the beginning is past; 0 where it is still to come.
func (r Schedule) Late(now time.Time) quantity.Span {
	return quantity.Span(max(0, now.Sub(r.Begin())))
}

// From memory, one pair of hands; the dyer's own will differ.
const (
	bathHeats  = quantity.Span(30 * time.Minute) // a bath above 60 °C without a known stove
	bathFills  = quantity.Span(5 * time.Minute)  // one that hot water from the tap makes
	bathCools  = quantity.Span(20 * time.Minute) // till a hot one may be lifted or poured, and no wool is shocked
	scourRinse = quantity.Span(10 * time.Minute) // rinse after a bath
	bathHot    = quantity.Temperature(50)        // above it, it is left to cool
	onePot     = quantity.Volume(40)             // the most water that goods are scoured in together
	early      = 6                               // o'clock: scouring that would begin sooner is laid into the day before
	evening    = 21                              // o'clock: and is then over, or by midnight
)

// Before lays out what comes before a day's first dip, backwards from when it is wished: the goods wetted out, and before
// that scoured, so many baths as are likely, one pot after the other, goods of one kind together; the vat built or warmed,
// its water heated first by the stove or the heater. There is one pair of hands and one stove: no bath stands while the vat
// wants them, only in a wait of the build. Scouring that would begin before 6 o'clock is laid into the day before, if that is
// still to come. A head without a recipe is a day whose vat is not chosen: then only the goods.
func Before(h day.Head, lots []Lot, now, ready time.Time) (Schedule, error) {
	r := Schedule{Ready: ready}
	sys := h.Setup.System()
	chosen := h.Recipe.Family != ""
	var vat *quantity.Temperature
	if chosen {
		vat = &h.Recipe.Liquor.Aim
	}
	for _, l := range lots {
		p := Prepared{Lot: l}
		s, err := l.scour()
		if err != nil {
			return r, err
		}
		if !l.Scoured {
			p.State, p.Scour = s.State, &s
		}
		if p.Wet, err = practice.WetOut(l.Fibre, l.Dry, vat); err != nil {
			return r, err
		}
		r.Lots = append(r.Lots, p)
	}
	wet := r.wetOut(vat, sys)
	var busy []Slot
	if chosen {
		var err error
		if busy, err = r.atTheVat(h); err != nil {
			return r, err
		}
	}
	r.scouring(h.Setup, now, wet, busy)
	if slices.ContainsFunc(r.Lots, func(p Prepared) bool { return p.Pasted }) {
		r.Notes = append(r.Notes, "pasted goods go in dry, never soaked: a cool vat, hung still, short dips, no squeeze")
	}
	r.unfit(h)
	r.tooHeavy(h)
	r.Tasks = append(r.Tasks, Task{Slot: Slot{ready, 0, "the first piece goes in"}, Kind: ToDye, How: "wet, squeezed and opened out, edge first"})
	sorted.By(r.Tasks, func(a, b Task) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.For, b.For)*-1)
	})
	if late := r.Late(now); late > 0 {
		r.Warnings = append(r.Warnings, fmt.Sprintf("to dye at %s it should have begun %s, %s ago; begun now the first piece goes in %s",
			day.Clock(ready), onTheDay(r.Begin(), ready), Lasting(late.Duration()), onTheDay(ready.Add(late.Duration()), ready)))
	}
	return r, nil
}

// BeforeFrom is Before for the first of the wished start and the same time on the days after it that can still be kept, and
// without a night's work: for a start that is wished for each day. Where none of a month can be kept, the last.
func BeforeFrom(h day.Head, lots []Lot, now, ready time.Time) (Schedule, error) {
	for d := 0; ; d++ {
		r, err := Before(h, lots, now, ready.AddDate(0, 0, d))
		if err != nil || r.Late(now) == 0 && !r.night || d == 31 {
			return r, err
		}
	}
}

// unfit tells which fibres do not bear the vat, fresh or as it was left.
func (r *Schedule) unfit(h day.Head) {
	s, err := day.Begin(h)
	if h.Recipe.Family == "" || err != nil {
		return
	}
	for _, f := range fibre.All() {
		has := slices.ContainsFunc(r.Lots, func(p Prepared) bool { return p.Fibre == f })
		if !has {
			continue
		}
		if _, words := s.Bears(f); words != "" {
			r.Unfit = append(r.Unfit, words)
		}
	}
	if slices.ContainsFunc(r.Lots, func(p Prepared) bool { return p.Pasted }) {
		if fit, words := practice.PasteFits(h.Recipe); fit != practice.Fits {
			r.Unfit = append(r.Unfit, "goods with a paste: "+words)
		}
	}
}

// tooHeavy says of goods that the vat does not take at once, or not in a day, how much it takes: by the liquor ratio, and by
// what a vat of its family can be asked for in a day.
func (r *Schedule) tooHeavy(h day.Head) {
	if h.Recipe.Family == "" || h.Setup.Fill <= 0 {
		return
	}
	sys := h.Setup.System()
	usual, most := vessel.AtOnce(h.Setup.Fill)
	sum := quantity.Mass(0)
	for _, l := range r.Lots {
		sum += l.Dry
		if l.Dry <= usual {
			continue
		}
		r.Warnings = append(r.Warnings, fmt.Sprintf("%s of %s is more than %s lets move freely: %s at once, %s at the very most (%.0f and %.0f L a kilogram), so in %.0f lots",
			l.Dry.Format(sys), l.Fibre, h.Setup.Fill.Format(sys), usual.Format(sys), most.Format(sys), vessel.UsualRatio, vessel.LeastRatio,
			math.Ceil(float64(l.Dry)/float64(usual))))
	}
	if day := liquor.DayLoad(h.Recipe.Family).Of(h.Setup.Fill); sum > day {
		r.Warnings = append(r.Warnings, fmt.Sprintf("%s of goods is more than this vat dyes in a day, about %s by common practice: dye the rest on other days, with a rest between, or fill more",
			sum.Format(sys), day.Format(sys)))
	}
}

// wetOut adds the soaks, one for each fibre, and tells when the first of each begins.
func (r *Schedule) wetOut(vat *quantity.Temperature, sys quantity.System) map[fibre.Fibre]time.Time {
	begins := map[fibre.Fibre]time.Time{}
	for _, f := range fibre.All() {
		lots := wording.Only(r.Lots, func(l Prepared) bool { return l.Fibre == f && !l.Pasted })
		dry := wording.Sum(lots, func(l Prepared) quantity.Mass { return l.Dry })
		w, err := practice.WetOut(f, min(dry, heaviest), vat)
		if err != nil {
			continue
		}
		begins[f] = r.Ready.Add(-w.Time.Likely.Duration())
		r.Tasks = append(r.Tasks, Task{
			Slot: Slot{begins[f], w.Time.Likely, "wet out the " + f.String()}, Kind: ToWet, Check: w.Check,
			How: fmt.Sprintf("%s in %s of %s; %s", dry.Format(sys), w.Water.Format(sys), degreesOf(w.Temp, sys), w.How),
		})
	}
	return begins
}

// onTheDay is "at 10:00", with its date where that is not the other's.
func onTheDay(at, other time.Time) string {
	if at.Format(time.DateOnly) == other.Format(time.DateOnly) {
		return "at " + day.Clock(at)
	}
	return "on " + at.Format("Mon 2 Jan") + " at " + day.Clock(at)
}

// Lasting is Long, but from two days on in days and hours: "7 days 3 h".
func Lasting(d time.Duration) string {
	if d < 48*time.Hour {
		return day.Long(d)
	}
	hours := int(d.Round(time.Hour) / time.Hour)
	if hours%24 == 0 {
		return fmt.Sprintf("%d days", hours/24)
	}
	return fmt.Sprintf("%d days %d h", hours/24, hours%24)
}

func degreesOf(t quantity.Range[quantity.Temperature], sys quantity.System) string {
	low, unit := t.Low.Figure(sys)
	high, _ := t.High.Figure(sys)
	return low + "–" + high + " " + unit
}
