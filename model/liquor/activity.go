package liquor

import "math"

// ionSize is what the equation of Truesdell & Jones asks of an ion.
type ionSize struct {
	charge2 float64 // the square of the charge
	size    float64 // å, the ion's size in Å
	slope   float64 // b, kg/mol
}

// The ions' sizes and slopes: Truesdell & Jones, J. Res. USGS 2 (1974) 233, as the WATEQ line of speciation codes has
// them (from memory); those of sulfite and bisulfite: Kielland, J. Am. Chem. Soc. 59 (1937) 1675, which has 4.0 to 4.5
// for both, without a slope. A published slope for hydroxide, carbonate and bicarbonate there is none: 0.
var (
	sizeH    = ionSize{1, 9.0, 0}
	sizeOH   = ionSize{1, 3.5, 0}
	sizeNa   = ionSize{1, 4.0, 0.075}
	sizeCa   = ionSize{4, 5.0, 0.165}
	sizeCO3  = ionSize{4, 5.4, 0}
	sizeHCO3 = ionSize{1, 5.4, 0} // also NaSO4-
	sizeSO4  = ionSize{4, 5.0, -0.04}
	sizeSO3  = ionSize{4, 4.5, 0}
	sizeHSO3 = ionSize{1, 4.0, 0}
	sizeCaOH = ionSize{1, 6.0, 0}
)

// saltingOut is log γ of an uncharged species by ionic strength, kg/mol: the rule of the same codes.
const saltingOut = 0.1

// log is the logarithm of an ion's activity coefficient at the square root of the ionic strength (mol/kg):
// log γ = −A·z²·√I / (1 + B·å·√I) + b·I.
func (d debyeHuckel) log(s ionSize, root float64) float64 {
	return -d.a*s.charge2*root/(1+d.b*s.size*root) + s.slope*root*root
}

// inLiquor are the equilibrium constants at one ionic strength, between molalities and the activity of H+.
type inLiquor struct {
	h          float64 // molality of H+ by aH
	oh         float64 // molality of OH- × aH
	hco3       float64 // HCO3- by CO3-- and aH
	co2        float64 // CO2 by CO3-- and aH²
	hso3, so2  float64 // the same from SO3--
	naSO4      float64
	caOH       float64 // by Ca++ and OH-
	caSO4      float64
	chalk      float64 // product of the molalities of Ca++ and CO3--
	lime       float64 // Ca++ × OH-²
	strengthAt float64 // the ionic strength they hold at
}

// in gives the constants at an ionic strength in mol/kg, of what is in the liquor: those of the rest are 0.
func (k *atRest) in(x *totals, strength float64) inLiquor {
	root := math.Sqrt(strength)
	neutral, oh := saltingOut*strength, k.log(sizeOH, root)
	c := inLiquor{h: power(-k.log(sizeH, root)), oh: power(k.water - oh), strengthAt: strength}
	hco3, co3, so4 := k.log(sizeHCO3, root), k.log(sizeCO3, root), k.log(sizeSO4, root)
	if x.carbonate > 0 {
		c.hco3 = power(co3 - k.carbonic2 - hco3)
		c.co2 = power(co3 - k.carbonic1 - k.carbonic2 - neutral)
	}
	if x.sulfite > 0 {
		so3 := k.log(sizeSO3, root)
		c.hso3 = power(so3 - k.sulfurous2 - k.log(sizeHSO3, root))
		c.so2 = power(so3 - k.sulfurous1 - k.sulfurous2 - neutral)
	}
	if x.sulfate > 0 {
		c.naSO4 = power(k.naSO4 + k.log(sizeNa, root) + so4 - hco3) // the pair has the size of HCO3-
	}
	if x.ca > 0 {
		ca := k.log(sizeCa, root)
		c.caOH = power(k.caOH + ca + oh - k.log(sizeCaOH, root))
		c.caSO4 = power(k.caSO4 + ca + so4 - neutral)
		c.chalk = power(k.chalk - ca - co3)
		c.lime = power(k.lime - ca - 2*oh)
	}
	return c
}
