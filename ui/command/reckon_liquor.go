package command

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
)

func (p *program) reckonPH() *cobra.Command {
	var m liquor.Makeup
	var lime *quantity.Concentration // nil: as much as water takes up
	var t quantity.Temperature
	return p.reckoning("ph --temp °C", "The pH of an alkali, fresh or with spent reducer in it",
		"ph --soda 10g/L --temp 25C\nph --soda 6g/L --spent 11mmol/L --temp 38C\nph --lime saturated --temp 25C",
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
			ph, err := liquor.PHRange(m, t)
			if err != nil {
				return err
			}
			keys := object{{"ph", tidy(float64(ph.Likely))}, {"ph_low", tidy(float64(ph.Low))}, {"ph_high", tidy(float64(ph.High))}}
			return p.giveLine(keys, "pH %s at %s, between %s and %s.", ph.Likely, t.Format(r.sys), ph.Low, ph.High)
		})
}

func (p *program) reckonOxygen() *cobra.Command {
	var t quantity.Temperature
	var atm quantity.Pressure
	return p.reckoning("oxygen --temp °C", "The oxygen that water takes up from the air", "oxygen --temp 20C",
		func(r *reader) {
			r.needs = []string{"temp"}
			value(r, &t, "temp", "", "`°C` of the water", liquorRead)
			value(r, &atm, "pressure", "", "`pressure` of the air, such as 101325Pa (a standard atmosphere if left out)", quantity.ParsePressure)
		},
		func(r *reader) error {
			if r.Changed("pressure") && atm == 0 {
				return errors.New("--pressure: a vat stands in air; write its pressure, such as 101325Pa")
			}
			c, err := liquor.Oxygen(t, atm)
			if err != nil {
				return err
			}
			mg := c.GramsPerLitre() * 1000
			return p.giveLine(object{{"mg_per_l", tidy(mg)}}, "%.2f mg/L of oxygen at %s.", mg, t.Format(r.sys))
		})
}
