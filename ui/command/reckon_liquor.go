package command

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
)

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
			c, err := liquor.Oxygen(t, atm)
			if err != nil {
				return err
			}
			mg := c.GramsPerLitre() * 1000
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
		var err error
		liquor = *f.litres
		if _, err = stands(v, liquor, "--litres", sys); err != nil {
			return err
		}
		if liquor+rise > v.Brim() {
			return fmt.Errorf("--goods: they lift it by %s, above the brim; this vessel holds %s", rise.Format(sys), v.Brim().Format(sys))
		}
		if depth, err = stands(v, liquor+rise, "--litres", sys); err != nil {
			return err
		}
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
