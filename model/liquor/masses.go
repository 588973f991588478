package liquor

import (
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// MolarMass is the mass of a mole, in grams per mole.
type MolarMass float64

// Standard atomic weights, IUPAC abridged table 2021 (from memory), g/mol.
const (
	weightH     = 1.008
	weightC     = 12.011
	weightN     = 14.007
	weightO     = 15.999
	weightNa    = 22.990
	weightS     = 32.06
	weightK     = 39.098
	weightCa    = 40.078
	weightFe    = 55.845
	weightZn    = 65.38
	weightWater = 2*weightH + weightO // a water of crystallisation
)

// The molar masses of what meets in a vat, calculated from the atomic weights (K); an independent table agrees within
// 0.02 g/mol.
const (
	MolarDithionite       MolarMass = 2*weightNa + 2*weightS + 4*weightO // Na2S2O4
	MolarSodaAsh          MolarMass = 2*weightNa + weightC + 3*weightO   // Na2CO3
	MolarSodaMonohydrate  MolarMass = MolarSodaAsh + weightWater
	MolarSodaCrystals     MolarMass = MolarSodaAsh + 10*weightWater
	MolarBakingSoda       MolarMass = weightNa + weightH + weightC + 3*weightO // NaHCO3
	MolarLye              MolarMass = weightNa + weightO + weightH             // NaOH
	MolarPotash           MolarMass = 2*weightK + weightC + 3*weightO          // K2CO3
	MolarSlakedLime       MolarMass = weightCa + 2*(weightO+weightH)           // Ca(OH)2
	MolarQuicklime        MolarMass = weightCa + weightO                       // CaO
	MolarFructose         MolarMass = 6*weightC + 12*weightH + 6*weightO       // glucose too
	MolarGlucoseHydrate   MolarMass = MolarFructose + weightWater              // glucose monohydrate
	MolarIndigo           MolarMass = 16*weightC + 10*weightH + 2*weightN + 2*weightO
	MolarLeuco            MolarMass = MolarIndigo + 2*weightH // leuco indigo, the acid form
	MolarThioureaDioxide  MolarMass = weightC + 4*weightH + 2*weightN + 2*weightO + weightS
	MolarIronSulfate      MolarMass = weightFe + weightS + 4*weightO                 // FeSO4 without water
	MolarIronHeptahydrate MolarMass = MolarIronSulfate + 7*weightWater               // the green crystals
	MolarBisulfite        MolarMass = weightNa + weightH + weightS + 3*weightO       // NaHSO3
	MolarSulfite          MolarMass = 2*weightNa + weightS + 3*weightO               // Na2SO3
	MolarSulfate          MolarMass = 2*weightNa + weightS + 4*weightO               // Na2SO4
	MolarGypsum           MolarMass = weightCa + weightS + 4*weightO + 2*weightWater // CaSO4·2H2O
	MolarOxygen           MolarMass = 2 * weightO                                    // O2
	MolarZinc             MolarMass = weightZn
	MolarWater            MolarMass = weightWater
)

// GramsPerMole is the molar mass in grams per mole.
func (m MolarMass) GramsPerMole() float64 { return float64(m) }

// per is the grams of one substance for a gram of another, at a number of moles for each mole of the other.
func per(moles float64, of, other MolarMass) quantity.Ratio {
	return quantity.GramsPerGram(moles * float64(of) / float64(other))
}

// DithionitePerIndigo is the pure sodium dithionite that reduces a gram of pure indigo: a mole for a mole, 0.664 g/g (K).
// It is the chemical least; vats are set with two to six times of it.
func DithionitePerIndigo() quantity.Ratio { return per(1, MolarDithionite, MolarIndigo) }

// ThioureaDioxidePerIndigo is the pure thiourea dioxide that reduces a gram of pure indigo: a mole for a mole, as its
// sulfoxylate gives two electrons on the way to sulfite, 0.412 g/g (K).
func ThioureaDioxidePerIndigo() quantity.Ratio { return per(1, MolarThioureaDioxide, MolarIndigo) }

// IronPerIndigo is the iron(II) sulfate heptahydrate that reduces a gram of pure indigo: two moles for a mole, as each
// iron gives one electron, 2.12 g/g (K).
func IronPerIndigo() quantity.Ratio { return per(2, MolarIronHeptahydrate, MolarIndigo) }

// SodaAshPerDithionite is the soda ash that turns to bicarbonate for each gram of dithionite eaten by air: two moles for
// a mole, S₂O₄²⁻ + O₂ + 2 OH⁻ → SO₃²⁻ + SO₄²⁻ + H₂O, 1.22 g/g (K).
func SodaAshPerDithionite() quantity.Ratio { return per(2, MolarSodaAsh, MolarDithionite) }

// LyePerDithionite is the lye that the same reaction takes: 0.46 g/g (K).
func LyePerDithionite() quantity.Ratio { return per(2, MolarLye, MolarDithionite) }

// airOxygen is the oxygen in a litre of air at 20 °C and one atmosphere: 20.95 % of it by volume, in an ideal gas of
// 24.055 L/mol (R = 8.314463 J/(mol·K)).
const airOxygen = 0.2095 / 24.055 // mol/L

// DithionitePerAir is the pure dithionite that the oxygen of so much air (20 °C, one atmosphere) spends if all of it goes
// into the liquor, a litre 1.5 g at a mole for a mole (ECHA dossier 15288), 1.8 g at the ratio measured at 25 °C and
// 2.6 g at that of 37 °C, 1.2 and 1.7 (Tao, Goodisman & Souid).
func DithionitePerAir(air quantity.Volume) quantity.Range[quantity.Mass] {
	return quantity.Map(reducerKinds[recipe.Dithionite].perOxygen, func(moles float64) quantity.Mass {
		return quantity.Grams(air.Litres() * airOxygen * moles * float64(MolarDithionite))
	})
}

// IronPerOxygen is the iron(II) sulfate heptahydrate that a gram of oxygen spends: four moles for a mole, 34.8 g/g (K).
func IronPerOxygen() quantity.Ratio { return per(4, MolarIronHeptahydrate, MolarOxygen) }
