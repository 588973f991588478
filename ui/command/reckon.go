package command

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

// reckonCommand holds every calculation that a screen shows, one by one.
func (p *program) reckonCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "reckon WHAT", Short: "The numbers behind the screens: ph, oxygen, fill, cooling, heat, reducer, capacity, dose, colour, difference, rub",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usageError{errors.New("reckon needs what: ph, oxygen, fill, cooling, heat, reducer, capacity, dose, colour, difference or rub")}
			}
			return usageError{fmt.Errorf("there is no reckoning of %q: there are ph, oxygen, fill, cooling, heat, reducer, capacity, dose, colour, difference and rub", args[0])}
		},
		RunE: func(*cobra.Command, []string) error { return nil },
	}
	p.jsonFlag(c) // of each of them; without one it is wrong usage in any case
	c.AddCommand(p.reckonPH(), p.reckonOxygen(), p.reckonFill(), p.reckonCooling(), p.reckonHeat(), p.reckonReducer(), p.reckonCapacity(), p.reckonDose(), p.reckonColour(), p.reckonDifference(), p.reckonRub())
	return c
}

func (p *program) reckonHeat() *cobra.Command {
	var fill quantity.Volume
	var from, to quantity.Temperature
	var by quantity.Power
	return p.reckoning("heat --fill VOLUME --from °C --to °C --power POWER", "How long a power takes to warm a fill, without losses",
		func(r *reader) {
			r.needs = []string{"fill", "from", "to", "power"}
			value(r, &fill, "fill", "", "`volume`, at its °C before heating", fillRead)
			value(r, &from, "from", "", "`°C` before", quantity.ParseTemperature)
			value(r, &to, "to", "", "`°C` after", quantity.ParseTemperature)
			value(r, &by, "power", "", "`power` that reaches the water, such as 1000W", powerRead)
		},
		func(r *reader) error {
			t := got(water.HeatMinutes(fill, from, to, by))
			var tell telling
			tell.line("%s, if all of the %s reaches the water and nothing is lost.", t, by.Format(r.sys))
			tell.note("Caution", "hands and goods out first; heater off and unplugged before hands go in")
			return p.give(object{{"minutes", tidy(t.Minutes())}}, tell)
		})
}

// longest is how far ahead cooling is reckoned: the air is another one by then.
const longest = quantity.Span(240 * 3600 * 1e9)

func (p *program) reckonCooling() *cobra.Command {
	var s water.Standing
	var start quantity.Temperature
	var over quantity.Span
	return p.reckoning("cooling --vessel VESSEL --fill VOLUME --from °C --air °C --humidity % --hours N", "How a vat cools, open, lidded or wrapped",
		func(r *reader) {
			r.needs = []string{"vessel", "fill", "from", "air", "humidity", "hours"}
			value(r, &s.Vessel, "vessel", "", "", vessel.Parse)
			value(r, &s.Fill, "fill", "", "`volume` of the liquor", fillRead)
			value(r, &start, "from", "", "`°C` now", quantity.ParseTemperature)
			value(r, &s.Air.Temp, "air", "", "`°C` of the air", quantity.ParseTemperature)
			value(r, &s.Air.Humidity, "humidity", "", "`%` of the air", quantity.ParseShare)
			r.BoolVar(&s.Lid, "lid", false, "the lid is on")
			value(r, &s.Wrap, "wrap", "", "`thickness` of closed foam round the wall, and on the lid if there is one", quantity.ParseLength)
			value(r, &over, "hours", "", "for how many `hours`", hoursRead)
		},
		func(r *reader) error {
			if over > longest {
				return fmt.Errorf("--hours: at most %.0f h are reckoned: the air changes in that time", longest.Hours())
			}
			got(stands(s.Vessel, s.Fill, "--fill", r.sys))
			return p.cooling(s, start, over, r.sys)
		})
}

func (p *program) cooling(s water.Standing, from quantity.Temperature, over quantity.Span, sys quantity.System) error {
	points := got(s.Forecast(from, over, quantity.Hours(1)))
	end := 0.0
	if n := len(points); n > 0 {
		end = tidy(points[n-1].Temp.Celsius())
	}
	// The keys of reckon cooling --json. The series has each full hour, and the end.
	out := object{{"temp_c", end}, {"series", each(points, func(pt water.Point) object {
		return object{{"hour", tidy(pt.After.Hours())}, {"temp_c", tidy(pt.Temp.Celsius())}}
	})}}
	var rows table
	for _, pt := range points {
		after := wording.Either(pt.After == 0, "now", "after "+pt.After.String())
		rows.add(pt.Temp.Format(sys), after)
	}
	var tell telling
	tell.table(rows)
	tell.note("", "Reckoned in still air; a reading corrects it on the day")
	tell.note("Caution", s.Vessel.Material.TooHot(from, sys))
	return p.give(out, tell)
}

func (p *program) reckonPH() *cobra.Command {
	var m liquor.Makeup
	var lime *quantity.Concentration // nil: as much as water takes up
	var t quantity.Temperature
	return p.reckoning("ph --temp °C", "The pH of an alkali, fresh or with spent reducer in it",
		func(r *reader) {
			dose := upTo(liquor.MostAlkali, quantity.ParseConcentration)
			molar := upTo(liquor.MostMolar, quantity.ParseMolarity)
			limeRead := func(s string, sys quantity.System) (*quantity.Concentration, error) {
				if strings.EqualFold(strings.TrimSpace(s), "saturated") {
					return nil, nil
				}
				return optional(dose)(s, sys)
			}
			r.needs = []string{"temp"}
			value(r, &m.SodaAsh, "soda", "", "soda ash, `g/L`", dose)
			value(r, &m.BakingSoda, "bicarbonate", "", "baking soda, `g/L`", dose)
			value(r, &m.Potash, "potash", "", "potash, `g/L`", dose)
			value(r, &m.Lye, "lye", "", "sodium hydroxide, `g/L`", dose)
			value(r, &lime, "lime", "", "`saturated` (at 25 °C), or slaked lime in g/L", limeRead)
			value(r, &m.Spent, "spent", "", "dithionite oxidised by air, `mmol/L`", molar)
			value(r, &m.Bisulfite, "bisulfite", "", "sodium bisulfite, `mmol/L`", molar)
			value(r, &t, "temp", "", "", liquorRead)
		},
		func(r *reader) error {
			if m.LimeWater = r.Changed("lime") && lime == nil; lime != nil {
				m.Lime = *lime
			}
			ph := got(liquor.PHRange(m, t))
			keys := object{{"ph", tidy(float64(ph.Likely))}, {"ph_low", tidy(float64(ph.Low))}, {"ph_high", tidy(float64(ph.High))}}
			return p.giveLine(keys, "pH %s at %s, between %s and %s.", ph.Likely, t.Format(r.sys), ph.Low, ph.High)
		})
}

func (p *program) reckonOxygen() *cobra.Command {
	var t quantity.Temperature
	var atm quantity.Pressure
	return p.reckoning("oxygen --temp °C", "The oxygen that water takes up from the air",
		func(r *reader) {
			r.needs = []string{"temp"}
			value(r, &t, "temp", "", "`°C` of the water", liquorRead)
			value(r, &atm, "pressure", "", "`pressure` of the air, such as 101325Pa (a standard atmosphere if left out)", quantity.ParsePressure)
		},
		func(r *reader) error {
			if r.Changed("pressure") && atm == 0 {
				return errors.New("--pressure: a vat stands in air; write its pressure, such as 101325Pa")
			}
			mg := got(liquor.Oxygen(t, atm)).GramsPerLitre() * 1000
			return p.giveLine(object{{"mg_per_l", tidy(mg)}}, "%.2f mg/L of oxygen at %s.", mg, t.Format(r.sys))
		})
}

func (p *program) reckonFill() *cobra.Command {
	var f filling
	return p.reckoning("fill --vessel VESSEL", "How much at which depth, and what is left below the rim",
		func(r *reader) {
			r.needs = []string{"vessel"}
			r.rules = func() []rule {
				return []rule{{len(r.typed("depth", "litres")) == 2, "give --depth or --litres, not both"}}
			}
			value(r, &f.vessel, "vessel", "", "", vessel.Parse)
			value(r, &f.depth, "depth", "", "`length` from the floor to the liquor, the goods in it", optional(quantity.ParseLength))
			value(r, &f.litres, "litres", "", "`volume` of the liquor", optional(quantity.ParseVolume))
			value(r, &f.goods, "goods", "", "`goods` in it, wetted out, such as '600 g cotton'", optional(goodsRead))
		},
		func(r *reader) error { return p.fill(f, r.sys) })
}

// filling is what is told of a vessel and what is in it; nil is not told.
type filling struct {
	vessel vessel.Vessel
	depth  *quantity.Length
	litres *quantity.Volume
	goods  *vessel.Goods
}

func (p *program) fill(f filling, sys quantity.System) error {
	v := f.vessel
	var depth quantity.Length
	var liquor quantity.Volume
	var lift quantity.Range[quantity.Volume] // by what the goods and the water in them lift the liquor
	if f.goods != nil {
		lift = vessel.Load{Goods: []vessel.Goods{*f.goods}}.Rise()
	}
	rise := lift.Likely
	switch {
	case f.depth != nil:
		if depth = *f.depth; depth > v.Rim() {
			return fmt.Errorf("--depth: %s is above the rim; the vessel is %s deep", depth.Format(sys), v.Rim().Format(sys))
		}
		liquor = v.Volume(depth) - rise
		if liquor < 0 {
			return fmt.Errorf("--goods: they alone take up %s, more than the %s up to that depth", rise.Format(sys), v.Volume(depth).Format(sys))
		}
	case f.litres != nil:
		liquor = *f.litres
		got(stands(v, liquor, "--litres", sys))
		if liquor+rise > v.Brim() {
			return fmt.Errorf("--goods: they lift it by %s, above the brim; this vessel holds %s", rise.Format(sys), v.Brim().Format(sys))
		}
		depth = got(stands(v, liquor+rise, "--litres", sys))
	}
	known, below, surface := f.depth != nil || f.litres != nil, tidy((v.Rim() - depth).Centimetres()), tidy6(v.Surface(depth).SquareMetres())
	litres := func(v quantity.Volume) string { return quantity.Litres(tidy(v.Litres())).Format(sys) }
	cm := func(c float64) string { return quantity.Centimetres(c).Format(sys) }
	var rows table
	rows.where(known, litres(liquor), "of liquor")
	rows.where(known, cm(tidy(depth.Centimetres())), "deep")
	rows.where(known, cm(below), "below the rim")
	rows.where(known, quantity.SquareMetres(surface).Format(sys), "of open surface")
	rows.add(litres(v.Brim()), "to the brim, "+cm(tidy(v.Rim().Centimetres()))+" high")
	rows.where(f.goods != nil, litres(rise), "of rise by the goods and the water in them, "+between(litres(lift.Low), litres(lift.High)))
	// The keys of reckon fill --json. Depths are with the goods in; litres are of the liquor alone.
	return p.give(object{
		{"litres", when(known, tidy(liquor.Litres()))}, {"depth_cm", when(known, tidy(depth.Centimetres()))}, {"surface_m2", when(known, surface)},
		{"brim_l", tidy(v.Brim().Litres())}, {"below_rim_cm", when(known, below)}, {"rise_l", when(f.goods != nil, spreadOf(lift, quantity.Volume.Litres))},
		{"rim_cm", tidy(v.Rim().Centimetres())},
	}, telling{rows.block()})
}
