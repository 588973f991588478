package command

import (
	"fmt"

	"github.com/spf13/cobra"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
)

func (p *program) reckonFill() *cobra.Command {
	var f filling
	return p.reckoning("fill --vessel VESSEL", "How much at which depth, and what is left below the rim",
		"fill --vessel 'frustum 25.4cm 29.9cm 36.8cm' --litres 15L --goods '600 g cotton'\nfill --vessel 'jug 5L=8.4cm 10L=16.1cm 36.8cm' --depth 12cm",
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
