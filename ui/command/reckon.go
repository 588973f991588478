package command

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

// reckonCommand holds every calculation that a screen shows, one by one.
func (p *program) reckonCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "reckon WHAT", Short: "The numbers behind the screens: ph, oxygen, fill, cooling, heat, reducer, capacity, dose, colour, difference",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usageError{errors.New("reckon needs what: ph, oxygen, fill, cooling, heat, reducer, capacity, dose, colour or difference")}
			}
			return usageError{fmt.Errorf("there is no reckoning of %q: there are ph, oxygen, fill, cooling, heat, reducer, capacity, dose, colour and difference", args[0])}
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
			t, err := water.HeatMinutes(fill, from, to, by)
			if err != nil {
				return err
			}
			var tell telling
			tell.line("%s, if all of the %s reaches the water and nothing is lost.", t.String(), by.Format(r.sys))
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
			if _, err := stands(s.Vessel, s.Fill, "--fill", r.sys); err != nil {
				return err
			}
			return p.cooling(s, start, over, r.sys)
		})
}

func (p *program) cooling(s water.Standing, from quantity.Temperature, over quantity.Span, sys quantity.System) error {
	points, err := s.Forecast(from, over, quantity.Hours(1))
	if err != nil {
		return err
	}
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
