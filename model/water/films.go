package water

import (
	"math"

	"example.org/vatside/model/vessel"
)

// This file holds the films that heat passes on its way out, in W/(m² K) and W/m², by published correlations with the
// properties of dry air at the film's temperature, the mean of the two sides.

const (
	gravity        = 9.80665
	stefan         = 5.670374e-8 // W/(m² K⁴), Stefan–Boltzmann
	prandtl        = 0.71        // of air, the same within 1 % from 0 to 100 °C
	airHeat        = 1007.0      // J/(kg K)
	waterEmits     = 0.95        // of a water surface in the far infrared (0.95–0.96 in handbooks, from memory)
	lidEmits       = 0.92        // of plastic, wood, paint and a wet underside (from memory)
	wrapEmits      = 0.90        // of closed foam (from memory)
	foamConducts   = 0.038       // W/(m K), closed polyethylene foam (trade figure)
	liquorFilm     = 400.0       // W/(m² K), still warm water at an upright wall, 200–1000 (from memory); it hardly matters
	stillAirUnder  = 0.5         // W/(m² K), a few centimetres of still air that is warmer above (conduction)
	quietAir       = 2.3         // W/(m² K), the film of a room's slight draught: Shah's 5e-5 kg/(m² h Pa) by the Lewis relation
	defaultWall    = 0.002       // m
	solidOfVessels = vessel.HDPE // what a vessel is taken for that does not say
)

// airFilm is what a film of air has: conductivity in W/(m K), and kinematic viscosity and thermal diffusivity in m²/s.
// Sutherland's formula with the constants of F. M. White, Viscous Fluid Flow, tables 1-2 and 1-3.
func airFilm(k, pascals float64) (conducts, viscosity, diffusivity float64) {
	root := math.Sqrt(k / 273)
	scale := k / 273 * root
	conducts = 0.0241 * scale * (273 + 194) / (k + 194)
	density := pascals / (dryAirConstant * k)
	viscosity = 1.716e-5 * scale * (273 + 111) / (k + 111) / density
	return conducts, viscosity, conducts / (density * airHeat)
}

// rayleigh is the Rayleigh number of a surface of a size in m that is warmer or colder than the air, and the film's
// conductivity.
func rayleigh(surface, air, size, pascals float64) (ra, conducts float64) {
	film := (surface + air) / 2
	conducts, nu, alpha := airFilm(film, pascals)
	return gravity / film * math.Abs(surface-air) * size * size * size / (nu * alpha), conducts
}

// flatFilm is the film on a surface that faces up, of a size area / perimeter: W. H. McAdams, Heat Transmission (1954), as
// in Incropera and DeWitt, eqs. 9.30–9.32: Nu = 0.54 Ra^¼ up to 1e7 and 0.15 Ra^⅓ above when it is the warmer, 0.27 Ra^¼
// when it is the colder; the first two run into one another (3 % above the greater where they meet), and none goes
// below the film of a room's slight draught. The lightness of the vapour over water is left out.
func flatFilm(surface, air, size, pascals float64) float64 {
	ra, conducts := rayleigh(surface, air, size, pascals)
	quarter := math.Sqrt(math.Sqrt(ra))
	nu := 0.27 * quarter
	if surface > air {
		nu = either(0.54*quarter, 0.15*math.Cbrt(ra), 20)
	}
	return either(nu*conducts/size, quietAir, 8)
}

// The factor of Prandtl's number in Churchill and Chu: [1 + (0.492/Pr)^(9/16)]^(8/27).
var churchillChu = math.Pow(1+math.Pow(0.492/prandtl, 9./16), 8./27)

// wallFilm is the film on an upright wall of a height: S. W. Churchill, H. H. S. Chu, Int. J. Heat Mass Transfer 18, 1323
// (1975), for all Ra: Nu = {0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27)}².
func wallFilm(surface, air, height, pascals float64) float64 {
	ra, conducts := rayleigh(surface, air, height, pascals)
	root := 0.825 + 0.387*math.Sqrt(math.Cbrt(ra))/churchillChu
	return root * root * conducts / height
}

// glow is what a grey surface gives to surroundings of the air's temperature, W/m².
func glow(emits, surface, air float64) float64 {
	return emits * stefan * (surface*surface + air*air) * (surface + air) * (surface - air)
}

// underLid is what goes from the liquor up to the underside of a lid, W/m². Humid air carries it by convection and by
// evaporation and condensation (R. V. Dunkle, 1961, for solar stills, which are lids over warm water:
// h = 0.884 [ΔT + Δp Tw / (268900 − pw)]^⅓ and q = 0.016273 h Δp); grey planes face one another. With a sheet on the
// liquor, or a lid that is the warmer, the air is dry: nothing evaporates from a dry lid. The lid is reckoned tight, and
// its own resistance as nothing. The dry wall under the lid is reckoned as a part of it. pw is the saturation at the liquor.
func underLid(liquor, pw, lid float64, sheet bool) float64 {
	pl, _ := saturation(lid)
	dt, dp := liquor-lid, pw-pl
	if sheet {
		dp *= 1 - sheetCovers
	}
	drive := math.Max(0, dt+dp*liquor/(268900-pw))
	h := math.Cbrt(0.884*0.884*0.884*drive + stillAirUnder*stillAirUnder*stillAirUnder)
	q := h*dt + 0.016273*h*math.Max(0, dp)
	return q + glow(1/(1/waterEmits+1/lidEmits-1), liquor, lid)
}

// solid is what walls are made of: conductivity in W/(m K), emissivity, density in kg/m³, heat in J/(kg K).
type solid struct{ conducts, emits, density, heat float64 }

// solids are handbook figures from memory. The emissivities of metals are those of used, not polished, surfaces. Enamel
// is the steel under it. A layer of plastic or wood counts most by its conductivity, a metal one by its emissivity.
var solids = map[vessel.Material]solid{
	vessel.Stainless:  {15, 0.30, 7900, 500},
	vessel.Enamel:     {50, 0.90, 7850, 470},
	vessel.PE:         {0.40, 0.92, 935, 2200},
	vessel.LDPE:       {0.33, 0.92, 920, 2200},
	vessel.HDPE:       {0.45, 0.92, 950, 2200},
	vessel.PP:         {0.20, 0.92, 905, 1900},
	vessel.Wood:       {0.15, 0.90, 600, 1600},
	vessel.Oak:        {0.17, 0.90, 720, 1600},
	vessel.Aluminium:  {200, 0.20, 2700, 900},
	vessel.Galvanised: {50, 0.30, 7850, 470},
}

// solidOf is what a vessel's wall is made of.
func solidOf(m vessel.Material) solid {
	if s, ok := solids[m]; ok {
		return s
	}
	return solids[solidOfVessels]
}

// place is where a search for a surface's temperature ended: at which part of the way from the colder side to the warmer, and how
// much more went in than out there with each K, 0 before the first. In a like chain both are nearly the same.
type place struct{ part, slope float64 }

// between finds the temperature of a surface in a chain, where as much goes in as out: excess, what goes in less what goes out, falls
// with the temperature, and is 0 somewhere between lo and hi. It is found by secants, held in the bracket, to a hundred-millionth of
// the way; the search begins where a like one ended.
func between(lo, hi float64, p *place, excess func(float64) float64) float64 {
	if lo > hi {
		lo, hi = hi, lo
	}
	low, wide := lo, hi-lo
	if wide == 0 {
		return lo
	}
	at, was, before, slope := lo+p.part*wide, 0.0, 0.0, p.slope
	for i := range 80 {
		f := excess(at)
		if f == 0 {
			break
		}
		if f > 0 {
			lo = at
		} else {
			hi = at
		}
		if i > 0 {
			slope = (f - before) / (at - was)
		}
		next := at - f/slope
		if slope == 0 {
			next = at + math.Copysign(wide/100, f)
		} else if math.Abs(next-at) <= 1e-8*wide {
			at, p.slope = min(max(next, lo), hi), slope
			break
		}
		if !(next > lo && next < hi) || i > 20 {
			next = lo + (hi-lo)/2
		}
		was, before, at = at, f, next
	}
	p.part = (at - low) / wide
	return at
}
