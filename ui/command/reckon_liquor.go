package command

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
)

func (p *program) reckonPH() *cobra.Command {
	var soda, bicarbonate, potash, lye, lime, spent, bisulfite, temp string
	return p.reckoning("ph --temp °C", "The pH of an alkali, fresh or with spent reducer in it",
		"ph --soda 10g/L --temp 25C\nph --soda 6g/L --spent 11mmol/L --temp 38C\nph --lime saturated --temp 25C", []string{"temp"},
		func(r *reader) error {
			var m liquor.Makeup
			var t quantity.Temperature
			dose := func(into *quantity.Concentration, flag, text string) {
				read(r, into, flag, text, quantity.ParseConcentration)
				upTo(r, *into, liquor.MostAlkali, flag, text, liquor.MostAlkali.Format(r.sys))
			}
			dose(&m.SodaAsh, "--soda", soda)
			dose(&m.BakingSoda, "--bicarbonate", bicarbonate)
			dose(&m.Potash, "--potash", potash)
			dose(&m.Lye, "--lye", lye)
			if strings.EqualFold(strings.TrimSpace(lime), "saturated") {
				m.LimeWater = true
			} else {
				dose(&m.Lime, "--lime", lime)
			}
			read(r, &m.Spent, "--spent", spent, quantity.ParseMolarity)
			upTo(r, m.Spent, liquor.MostMolar, "--spent", spent, liquor.MostMolar.Format(r.sys))
			read(r, &m.Bisulfite, "--bisulfite", bisulfite, quantity.ParseMolarity)
			upTo(r, m.Bisulfite, liquor.MostMolar, "--bisulfite", bisulfite, liquor.MostMolar.Format(r.sys))
			inAVat(r, &t, temp)
			if r.err != nil {
				return r.err
			}
			ph, err := liquor.PHRange(m, t)
			if err != nil {
				return err
			}
			keys := object{{"ph", tidy(float64(ph.Likely))}, {"ph_low", tidy(float64(ph.Low))}, {"ph_high", tidy(float64(ph.High))}}
			return p.giveLine(keys, "pH %s at %s, between %s and %s.", ph.Likely, t.Format(r.sys), ph.Low, ph.High)
		},
		func(c *cobra.Command) {
			f := c.Flags()
			f.StringVar(&soda, "soda", "", "soda ash, `g/L`")
			f.StringVar(&bicarbonate, "bicarbonate", "", "baking soda, `g/L`")
			f.StringVar(&potash, "potash", "", "potash, `g/L`")
			f.StringVar(&lye, "lye", "", "sodium hydroxide, `g/L`")
			f.StringVar(&lime, "lime", "", "`saturated` (at 25 °C), or slaked lime in g/L")
			f.StringVar(&spent, "spent", "", "dithionite oxidised by air, `mmol/L`")
			f.StringVar(&bisulfite, "bisulfite", "", "sodium bisulfite, `mmol/L`")
			texts(c, texted{"temp": &temp})
		})
}

func (p *program) reckonOxygen() *cobra.Command {
	var temp, pressure string
	return p.reckoning("oxygen --temp °C", "The oxygen that water takes up from the air", "oxygen --temp 20C", []string{"temp"},
		func(r *reader) error {
			var t quantity.Temperature
			var atm quantity.Pressure
			inAVat(r, &t, temp)
			read(r, &atm, "--pressure", pressure, quantity.ParsePressure)
			if r.err != nil {
				return r.err
			}
			if r.given("--pressure") && atm == 0 {
				return errors.New("--pressure: a vat stands in air; write its pressure, such as 101325Pa")
			}
			c, err := liquor.Oxygen(t, atm)
			if err != nil {
				return err
			}
			mg := c.GramsPerLitre() * 1000
			return p.giveLine(object{{"mg_per_l", tidy(mg)}}, "%.2f mg/L of oxygen at %s.", mg, t.Format(r.sys))
		},
		func(c *cobra.Command) {
			c.Flags().StringVar(&temp, "temp", "", "`°C` of the water")
			c.Flags().StringVar(&pressure, "pressure", "", "`pressure` of the air, such as 101325Pa (a standard atmosphere if left out)")
		})
}
