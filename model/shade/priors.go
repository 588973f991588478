package shade

import (
	"math"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// This file holds every figure that the uptake of indigo is guessed from, with its evidence: change them here, and
// nowhere else. A Prior is what is believed before a swatch was seen; "the facts" are those of the project's reference
// tables, with the publications named. M is from memory, C common practice, S with a number a source in the project's list.

// Prior is a figure that differs from vat to vat: 80 % of vats lie between Low and High, half above Likely. It is spread
// like a factor (log-normal), with the mean width of its two sides.
type Prior struct {
	Name              string
	Low, Likely, High float64
	Unit              string
	Evidence          string
}

// tenth is the normal score that a tenth lies above.
const tenth = 1.2815515655446004

// sd is the standard deviation of the figure's logarithm.
func (p Prior) sd() float64 { return math.Log(p.High/p.Low) / (2 * tenth) }

// at is the figure at a normal score.
func (p Prior) at(z float64) float64 {
	if p.Name == "" {
		return 0
	}
	return p.Likely * math.Exp(p.sd()*z)
}

// Priors are all of them but those of the Forms, in the order of their dimensions in the sequence of possible vats.
func Priors() []Prior {
	return []Prior{
		levelPrior(), dipTimePrior(), stripPrior(), cellulosePrior(), proteinPrior(), mercerisedPrior(),
		hotPrior(), monoPowerPrior(), proteinWidthPrior(), exhaustionPrior(), perPercentPrior(), scatterPrior(), ceilingPrior(),
	}
}

// levelPrior is the blue of one dip: of 5 min, white cotton, 1 g/L of reduced indigo, 20 to 40 °C, the best pH.
func levelPrior() Prior {
	return Prior{"blue of a standard dip", 0.5, 2.3, 10.5, "K/S",
		"the facts: K/S per dip spans a factor above 20 between vats (here 21 for 80 %); the middle from depths.csv: 1.2 % in " +
			"4 dips, 2.2 % in 7, at 8 K/S per 1 % (M + C, no published table found)"}
}

// dipTimePrior is the time constant τ of a dip, in which 63 % of what it can give is taken up.
func dipTimePrior() Prior {
	return Prior{"time constant of a dip", 2.5, 5, 10, "min",
		"the facts: little gain after 30 min in one dip (at the likely τ the last half of 30 min adds 5 %), six of 5 min " +
			"darker than one of 30 on linen, ramie and hemp; the figure M"}
}

// stripPrior is what a strong reducer takes off the earlier layers, of what is there, a minute.
func stripPrior() Prior {
	return Prior{"stripped in a strong vat", 0.002, 0.005, 0.0125, "a minute",
		"S1: a strong reducer dissolves earlier layers, so later dips at most 10 to 15 min; the figure M"}
}

// cellulosePrior is how far another cellulose than cotton is off its fibreYield.
func cellulosePrior() Prior {
	return Prior{"other cellulose against its usual yield", 0.68, 1, 1.47, "times", "M: spun, scoured and woven otherwise"}
}

// proteinPrior is how far silk or wool is off its fibreYield.
func proteinPrior() Prior {
	return Prior{"silk or wool against its usual yield", 0.53, 1, 1.9, "times",
		"M: no published K/S of silk or wool beside cotton in one vat found"}
}

// mercerisedPrior is what mercerised cotton takes up against untreated.
func mercerisedPrior() Prior {
	return Prior{"mercerised against untreated cotton", 1.6, 2, 2.5, "times", "the facts: twice as much; the width M"}
}

// hotPrior is the uptake of cellulose for each 10 °C above warm, and of wool above hotWool.
func hotPrior() Prior {
	return Prior{"uptake each 10 °C above 40", 0.7, 0.8, 0.92, "times",
		"the facts: deepest at 20 to 40 °C on cellulose, paler and duller when hot, four studies agree in direction; the figure M"}
}

// monoPowerPrior is the power of the mono-ionic fraction in the uptake of cellulose.
func monoPowerPrior() Prior {
	return Prior{"power of the mono-ionic fraction", 0.9, 1.3, 1.9, "",
		"the facts: above pH 12 colour yield falls with the mono-ionic fraction (Etters & Hou 1991), deepest at 9.5 to 11 " +
			"(Jeong, Lee, Choi & Lee 2000); 1 would be in proportion, M: dyers see more than that"}
}

// proteinWidthPrior is the width of the bell of pH on silk and wool about proteinBest.
func proteinWidthPrior() Prior {
	return Prior{"width of the bell of pH on silk and wool", 1.1, 1.5, 2.05, "pH",
		"the facts: silk deepest at 8 with natural indigo and 9 with synthetic (Jeong, Lee, Choi & Lee 2000); the width M, so " +
			"that silk at pH 10, which practice uses, still takes 60 %"}
}

// exhaustionPrior is the power of the reduced indigo a litre in the uptake.
func exhaustionPrior() Prior {
	return Prior{"power of the indigo a litre", 0.78, 0.9, 1.04, "",
		"M: between in proportion (1) and the flatter isotherms that are reported of strong vats"}
}

// perPercentPrior is the K/S that 1 % of net indigotin on the weight of the fibre gives.
func perPercentPrior() Prior {
	return Prior{"K/S of 1 % on the fibre", 4, 8, 16, "K/S",
		"an estimate of low confidence: ring-dyed yarn shows more for the same dye, penetrated yarn less"}
}

// scatterPrior is how far one swatch or piece is off what its vat gives, as it is dyed and read: the standard deviation
// of the logarithm of K/S.
func scatterPrior() Prior {
	return Prior{"scatter of a swatch", 0.085, 0.12, 0.17, "of K/S", "M: no published scatter of a hand vat found"}
}

const (
	// ownPart is the part of the scatter's square that stays with a piece, its cloth and its way of being moved; the
	// rest is new at each look. M
	ownPart = 0.45
	// Drift is how much the blue of a dip wanders from one day to the next, as a part. Days add up in squares.
	// M: no published day-to-day scatter of a hand vat found
	Drift = 0.12
	// mostDrift is the most that days make of it: a vat is kept, and so comes back to itself. M
	mostDrift = 0.6
	// otherVat is how far apart two vats of one dyer may be (standard deviation of the logarithm): half as much as any two
	// vats, since hands, cloth and water are the same. M
	otherVat = 0.6

	// standard is the dip that levelPrior is of, in minutes.
	standard = 5.0
	// cold and warm are the °C between which cellulose takes up best, of the facts; below cold it loses coldLoss of the
	// logarithm for each 10 °C. M
	cold, warm, coldLoss = 20.0, 40.0, 0.15
	// hotWool is the °C up to which wool does not suffer; wool is usually dyed at 40 to 50. C
	hotWool = 50.0
	// coolWool is the °C below which wool takes up less, woolLoss of the logarithm for each 10 °C: at 5 °C six tenths of what it
	// takes at 45. Practice dyes wool warm (C); the figure is a judgement, no source.
	coolWool, woolLoss = 40.0, 0.15
	// silkFall is silk's affinity for each 10 °C more, and silkBest where it counts as 1 (Kongkachuichay 2010: ×0.6).
	silkFall, silkBest = 0.6, 25.0
	// silkMost is the most that silk takes up as it cools, against silkBest: from about 18 °C down slower dye eats up what affinity
	// gains. A judgement, no source.
	silkMost = 1.45
	// proteinBest is the pH of deepest silk, the middle of 8 and 9 of the facts; wool is taken alike. M
	proteinBest = 8.5
	// mildStrip is what a vat that is not strong strips, as a part of what a strong one does. M
	mildStrip = 0.1
)

// The looks, as standard deviations. M, but where said.
const (
	// meterError is a colour meter on uneven cloth, in CIEDE2000; on flat tiles it would be 0.2.
	meterError = 0.5
	// photoError is a colour from a photograph, in CIEDE2000: white balance and exposure of an ordinary camera.
	photoError = 7.0
	// nameError is a depth name by eye, in the logarithm of K/S, besides the width of the name's own band.
	nameError = 0.35
	// rungError is how finely an eye places a piece between two rungs, as a part of their distance.
	rungError = 0.4
	// offLine is how far a colour may lie off the line of its cloth, as its swatches want it, before it counts as less (CIEDE2000).
	offLine = 3.0
	// timeError is the length of a dip that nobody confirmed, as a part.
	timeError = 0.35
	// strengthError is a dip of which the indigo a litre is not known, in the logarithm of K/S; it is taken as 1 g/L.
	strengthError = 0.4
)

// wetDarkensPrior is all of K/S of wet cloth against dry.
func wetDarkensPrior() Prior {
	return Prior{"wet against dry", 1.3, 1.7, 2.2, "times",
		"the facts: darker, by no simple law; the figure M: water takes the place of air between the fibres and less is thrown back"}
}

// unrinsedDarkensPrior is the K/S of cloth with loose dye on it against the same cloth rinsed.
func unrinsedDarkensPrior() Prior {
	return Prior{"unrinsed against rinsed", 1.02, 1.18, 1.37, "times", "C: unrinsed cloth reads too dark; the figure M"}
}

// fibreYield is the blue of a standard dip against cotton, and slower is τ against cotton's. All M: no published K/S of
// the fibres side by side found; wool is dipped two to three times as long (C).
func fibreYield(f fibre.Fibre) (yield, slower float64) {
	switch f {
	case fibre.Linen, fibre.Hemp:
		return 0.85, 1
	case fibre.Ramie:
		return 0.8, 1
	case fibre.Jute:
		return 0.7, 1.2
	case fibre.Viscose:
		return 1.4, 1
	case fibre.Silk:
		return 1, 1.2
	case fibre.Wool:
		return 1.1, 2
	}
	return 1, 1
}

// The pH at which S12's vats stood, by their recipes here: dithionite with soda, thiourea dioxide, iron with lime (calculated).
const (
	sodaOwn     = quantity.PH(11.1)
	thioureaOwn = quantity.PH(10.2)
	ironOwn     = quantity.PH(12.6)
)

// familyYield is a vat family against dithionite with soda, for the same indigo a litre: iron 114 % and thiourea dioxide
// 97 % (S12, eight reducers); the others are not known to differ. Those figures were measured each at the vat's own pH: that
// is taken out, since actOf counts the pH. wider is the factor on levelPrior's width.
func familyYield(f recipe.Family) (yield, wider float64) {
	switch f {
	case recipe.IronLime:
		return 1.14 / againstSoda(ironOwn), 1
	case recipe.ThioureaDioxideSoda:
		return 0.97 / againstSoda(thioureaOwn), 1
	case recipe.Ferment:
		return 0.7, 1.2 // M: weak, and what is reduced in it is hardly known
	}
	return 1, 1
}

// againstSoda is what cellulose takes up at a pH against that of a soda vat.
func againstSoda(ph quantity.PH) float64 {
	p := monoPowerPrior()
	mean := p.Likely * math.Exp(square(p.sd())/2) // of a factor: what the middle of the possible vats goes by
	return math.Pow(float64(liquor.LeucoAt(ph).Mono/liquor.LeucoAt(sodaOwn).Mono), mean)
}
