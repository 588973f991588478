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

// The keys of reckon fill --json. Depths are with the goods in; litres are of the liquor alone.
type filled struct {
	Litres     *float64 `json:"litres"`
	DepthCM    *float64 `json:"depth_cm"`
	SurfaceM2  *float64 `json:"surface_m2"`
	BrimL      float64  `json:"brim_l"`
	BelowRimCM *float64 `json:"below_rim_cm"`
	RiseL      *spread  `json:"rise_l"` // by what the goods and the water in them lift the liquor
	RimCM      float64  `json:"rim_cm"`
}

func (p *program) fill(f filling, sys quantity.System) error {
	v := f.vessel
	var depth quantity.Length
	var liquor, rise quantity.Volume
	out := filled{BrimL: tidy(v.Brim().Litres()), RimCM: tidy(v.Rim().Centimetres())}
	if f.goods != nil {
		lift := vessel.Load{Goods: []vessel.Goods{*f.goods}}.Rise()
		rise = lift.Likely
		out.RiseL = new(spreadOf(lift, quantity.Volume.Litres))
	}
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
	default:
		return p.tellFill(out, sys)
	}
	out.Litres, out.DepthCM = new(tidy(liquor.Litres())), new(tidy(depth.Centimetres()))
	out.SurfaceM2, out.BelowRimCM = new(tidy6(v.Surface(depth).SquareMetres())), new(tidy((v.Rim() - depth).Centimetres()))
	return p.tellFill(out, sys)
}

func (p *program) tellFill(out filled, sys quantity.System) error {
	litres := func(l float64) string { return quantity.Litres(l).Format(sys) }
	cm := func(c float64) string { return quantity.Centimetres(c).Format(sys) }
	var rows table
	if out.Litres != nil {
		rows.add(litres(*out.Litres), "of liquor")
		rows.add(cm(*out.DepthCM), "deep")
		rows.add(cm(*out.BelowRimCM), "below the rim")
		rows.add(quantity.SquareMetres(*out.SurfaceM2).Format(sys), "of open surface")
	}
	rows.add(litres(out.BrimL), "to the brim, "+cm(out.RimCM)+" high")
	if out.RiseL != nil {
		rows.add(litres(out.RiseL.Likely), "of rise by the goods and the water in them, "+between(litres(out.RiseL.Low), litres(out.RiseL.High)))
	}
	return p.give(out, telling{rows.block()})
}
