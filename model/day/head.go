package day

import (
	"cmp"
	"math"
	"time"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/water"
)

// Head is what stands at the top of a day's file: which vat, how it was set up, what it was when the day opened.
type Head struct {
	Vat       string // the folder's name
	Day       string // "2026-11-25", or "2026-11-25-2" for a second day of that date
	Zone      string // IANA name or offset, to show times as the dyer saw them
	Rehearsed bool   // an invented day that carries its own clock
	Setup     Setup
	Opening   Opening
	Recipe    recipe.Recipe
}

// Name is the vat as the dyer calls it, else its folder's name.
func (h Head) Name() string { return cmp.Or(h.Setup.Name, h.Vat) }

// Setup is what the dyer chose before the first step.
type Setup struct {
	Name       string               `toml:"name,omitempty"`
	Fill       quantity.Volume      `toml:"fill"`
	Vessel     string               `toml:"vessel,omitempty"` // the one-line form, "frustum 25 cm 30 cm 37 cm"
	Material   string               `toml:"material,omitempty"`
	Place      string               `toml:"place,omitempty"` // outdoors, cross-draught, closed room
	Units      string               `toml:"units,omitempty"` // metric, us, imperial
	Cold       quantity.Temperature `toml:"cold,omitzero"`   // of the cold water; 15 °C if left out
	Hot        quantity.Temperature `toml:"hot,omitzero"`    // of the hot water; 60 °C if left out
	Strength   quantity.Share       `toml:"strength,omitzero"`
	Asks       bool                 `toml:"asks,omitempty"`        // where it stands, what the vessel is made of and who is at it is asked before the first powder
	GoodsFirst bool                 `toml:"goods_first,omitempty"` // the day asks first what is to be dyed; it does not if left out
	GoodsLater bool                 `toml:"goods_later,omitempty"` // nobody was there to be asked as it began: not weighed, and the vat goes on
	Waiting    bool                 `toml:"waiting,omitempty"`     // never goes on by itself; going on if left out
	Entries    bool                 `toml:"entries,omitempty"`     // a piece that has aired is taken as lowered too; only lifts are if left out
	NoLook     bool                 `toml:"no_look,omitempty"`     // the look that decides is not asked for; it is if left out
	Kept       string               `toml:"kept,omitempty"`        // how it is kept warm between the days: one of Keepings; not said if left out
	Gear
	ReadyBy *time.Time `toml:"ready_by,omitempty"` // when the first piece should go in
	DoneBy  *time.Time `toml:"done_by,omitempty"`  // when every piece should be done, rinsed and soured
	Ending  bool       `toml:"ending,omitempty"`   // the day leads to the end of the vat
}

// Gear is what stands around a vat and heats its water.
type Gear struct {
	Air      *quantity.Temperature `toml:"air,omitempty"`      // around the vat; 20 °C if left out
	Humidity quantity.Share        `toml:"humidity,omitzero"`  // of that air; 60 % if left out
	Wrap     quantity.Length       `toml:"wrap,omitzero"`      // closed foam round the wall
	Heater   quantity.Power        `toml:"heater,omitzero"`    // that hangs in the vat; none if left out
	Pot      quantity.Volume       `toml:"pot,omitzero"`       // what one pot of hot water holds; none: hot water from the tap
	PotTook  quantity.Span         `toml:"pot_took,omitzero"`  // what one such pot, cold to hot, really took; corrects the stove
	Stove    quantity.Power        `toml:"stove,omitzero"`     // that the pots stand on
	Hands    int                   `toml:"hands,omitzero"`     // pairs of hands at the vat; 1 if left out
	StoveBy  string                `toml:"stove_by,omitempty"` // gas, electric, induction, immersion; electric if left out
}

// The places where a dyer can stand.
const (
	Outdoors     = "outdoors"
	CrossDraught = "cross-draught"
	ClosedRoom   = "closed room"
)

// Measured is the vessel; without a shape where it was not measured.
func (s Setup) Measured() vessel.Vessel {
	v, err := vessel.Parse(s.Vessel, quantity.Metric)
	if err != nil {
		v = vessel.Vessel{}
	}
	if m, err := vessel.ParseMaterial(s.Material); err == nil {
		v.Material = m
	}
	return v
}

// System is the unit system of the day. Not inlined: that was 10 kB of the program.
//
//go:noinline
func (s Setup) System() quantity.System {
	switch s.Units {
	case "us":
		return quantity.US
	case "imperial":
		return quantity.Imperial
	}
	return quantity.Metric
}

// Opening is what the vat was when the day opened; all zero for a vat that is still to be built.
type Opening struct {
	Number int                   `toml:"number,omitzero"`   // which day of the vat, from 1
	Built  bool                  `toml:"built,omitempty"`   // every step of the recipe is behind it
	Step   int                   `toml:"step,omitzero"`     // the step of the build that is still open
	Since  *time.Time            `toml:"since,omitempty"`   // since when that step runs
	Sulfur bool                  `toml:"sulfur,omitempty"`  // a sulfur reducer was in it at any time
	Cover  bool                  `toml:"covered,omitempty"` // the lid was on
	Temp   *quantity.Temperature `toml:"temp,omitempty"`    // last readings
	PH     *float64              `toml:"ph,omitempty"`
	Holds  *quantity.Volume      `toml:"holds,omitempty"` // how much is in it, where liquor was drawn off and not made up for
	Brewing
	Held
	Swatches []CarriedSwatch `toml:"swatch,omitempty"`
	Pieces   []CarriedPiece  `toml:"piece,omitempty"`
}

// Held is what the liquor held as the day before ended, as it was reckoned; all zero where nobody reckoned it.
type Held struct {
	IndigoLow   quantity.Mass     `toml:"indigo_low,omitzero"` // pure indigo in the liquor
	Indigo      quantity.Mass     `toml:"indigo,omitzero"`
	IndigoHigh  quantity.Mass     `toml:"indigo_high,omitzero"`
	BlueLow     quantity.Mass     `toml:"blue_low,omitzero"` // of that indigo, what air has turned blue
	Blue        quantity.Mass     `toml:"blue,omitzero"`
	BlueHigh    quantity.Mass     `toml:"blue_high,omitzero"`
	ReducerLow  quantity.Mass     `toml:"reducer_low,omitzero"` // reducer still free
	Reducer     quantity.Mass     `toml:"reducer,omitzero"`
	ReducerHigh quantity.Mass     `toml:"reducer_high,omitzero"`
	Spent       quantity.Molarity `toml:"spent,omitzero"`  // reducer that air has oxidised since the vat was built
	Acid        quantity.Molarity `toml:"acid,omitzero"`   // what readings of pH told beyond that,
	Alkali      quantity.Molarity `toml:"alkali,omitzero"` // one way or the other
	Until       *time.Time        `toml:"reckoned,omitempty"`
}

// CarriedSwatch is cloth of known dips that was looked at on an earlier day of the vat.
type CarriedSwatch struct {
	At       time.Time              `toml:"at"`
	Tag      string                 `toml:"tag"`
	Fibre    string                 `toml:"fibre"`
	Ladder   bool                   `toml:"ladder,omitempty"`
	Dips     int                    `toml:"dips"`
	Dip      quantity.Span          `toml:"dip"`            // the mean of them
	Sure     bool                   `toml:"sure,omitempty"` // each was confirmed
	Temp     quantity.Temperature   `toml:"temp,omitzero"`
	PH       float64                `toml:"ph,omitzero"`
	PerLitre quantity.Concentration `toml:"per_litre,omitzero"`
	Looks    string                 `toml:"looks"`
	Wet      bool                   `toml:"wet,omitempty"`
	Unrinsed bool                   `toml:"unrinsed,omitempty"`
}

// CarriedPiece is a piece that an earlier day handed on.
type CarriedPiece struct {
	OfPiece
	PieceSpec
	Finished bool   `toml:"finished,omitempty"` // its dips are over; what follows is not
	Rinses   int    `toml:"rinses,omitzero"`
	Scoured  bool   `toml:"scoured,omitempty"`
	Behind   string `toml:"behind,omitempty"` // what was done to it after the last dip, "soap, dry"
}

// Waters are the °C of the cold and the hot water; where the setup does not say, 15 and 60 °C.
func (s Setup) Waters() (cold, hot quantity.Temperature) {
	cold, hot = s.Cold, s.Hot
	cold = cmp.Or(cold, defaultCold)
	hot = cmp.Or(hot, defaultHot)
	return cold, hot
}

// Warms is how long the heater of the setup takes from one °C to another, without losses, in whole minutes; 0 where there is none.
func (s Setup) Warms(from, to quantity.Temperature) quantity.Span {
	if s.Heater <= 0 || from >= to {
		return 0
	}
	t, err := water.HeatTime(s.Fill, from, to, s.Heater, water.Immersion.Reaches())
	if err != nil {
		return 0
	}
	return quantity.Minutes(math.Ceil(t.Minutes()))
}

// NightAir is the °C that a vat stands at after a night, where nobody said: that of its air, from memory.
const NightAir = quantity.Temperature(20)

// Water that the dyer has where the setup does not say.
const (
	defaultCold = quantity.Temperature(15)
	defaultHot  = quantity.Temperature(60)
)

// OfGoods says that a place is where goods are finished, not where the vat stands.
const OfGoods = "goods"

// Wished is the next instant of a time of day, such as 10:00; nil where there is none.
func Wished(now time.Time, clock string) *time.Time {
	t, err := time.Parse("15:04", clock)
	if err != nil {
		return nil
	}
	at := time.Date(now.Year(), now.Month(), now.Day(), t.Hour(), t.Minute(), 0, 0, now.Location())
	if !at.After(now) {
		at = time.Date(now.Year(), now.Month(), now.Day()+1, t.Hour(), t.Minute(), 0, 0, now.Location())
	}
	return &at
}

// How a vat is kept warm between the days, as the setup has it.
const (
	KeptByHeater = "heater"  // with a thermostat, day and night
	KeptWrapped  = "wrapped" // lid on, wall wrapped, and warmed by hand
	KeptBySun    = "sun"     // by day; the night cools it
	NotKept      = "not"     // as cold as its air
)

// Keepings are the ways in which a vat is kept warm.
var Keepings = []string{KeptByHeater, KeptWrapped, KeptBySun, NotKept}

// Brewing is how a ferment has gone so far, as the day before left it; all zero where none has begun, or nobody knows.
type Brewing struct {
	Brews   *time.Time `toml:"brews_since,omitempty"` // its first long wait
	Cold    int        `toml:"cold_days,omitzero"`    // days of it that were below the recipe's low mark
	ColdAt  *time.Time `toml:"cold_at,omitempty"`     // the last reading that told so
	WarmAt  *time.Time `toml:"warm_at,omitempty"`     // the last reading that was warm enough
	RoundAt *time.Time `toml:"round_at,omitempty"`    // it was last stirred
}

// jars is how a vat without a heater is warmed: hot water in closed jars, never poured into it, with about how much that takes.
func (s Setup) jars(in quantity.Volume, from, to quantity.Temperature) string {
	_, hot := s.Waters()
	words, sys := "set jars of hot water in it, closed, in turn", s.System()
	if hot > to+5 && from < to { // what the jars give until they are as warm as the vat: K
		litres := in * quantity.Volume((to-from)/(hot-to))
		words += ", in all about " + quantity.TwoFigures(litres).Format(sys) + " of " + hot.Format(sys)
	}
	return words
}

// lastLiquor is the liquor of a vat's end: all that its build and earlier days put into it is spent.
func lastLiquor(h Head) liquor.State {
	o := h.Opening
	n := liquor.State{Recipe: h.Recipe, Fill: h.Setup.Fill, Ending: true, System: h.Setup.System(), Acid: o.Acid - o.Alkali, Spent: o.Spent}
	if p, ok := liquor.Reducer(h.Recipe); ok {
		n.Spent += liquor.Oxidising(p.Substance(), o.Reducer, h.Setup.Fill)
	}
	return n
}
