package recipe

import "strings"

// Substance is what a powder is, told from the name of its material.
type Substance string

// The substances that have rules of their own. Other is anything else.
const (
	Other           Substance = ""
	IndigoDye       Substance = "indigo"
	Dithionite      Substance = "sodium dithionite"
	ThioureaDioxide Substance = "thiourea dioxide"
	Sulfoxylate     Substance = "sulfoxylate" // hydroxymethanesulfinate and its kin
	IronSulfate     Substance = "iron(II) sulfate"
	ReducingSugar   Substance = "reducing sugar" // fructose, glucose
	TableSugar      Substance = "table sugar"    // sucrose: reduces nothing
	Zinc            Substance = "zinc"
	SodaAsh         Substance = "soda ash"
	SodaCrystals    Substance = "soda crystals"
	BakingSoda      Substance = "baking soda"
	Potash          Substance = "potash"
	Lye             Substance = "lye" // sodium or potassium hydroxide
	SlakedLime      Substance = "slaked lime"
	Quicklime       Substance = "quicklime"
	Chalk           Substance = "chalk"
	Acid            Substance = "acid"
	Oxidiser        Substance = "oxidiser"
)

// substanceWords are looked for in this order: the first that the material contains decides.
var substanceWords = []struct {
	word string
	is   Substance
}{
	{"dithionite", Dithionite}, {"hydrosulfite", Dithionite}, {"hydrosulphite", Dithionite}, {"hydros", Dithionite},
	{"thiourea", ThioureaDioxide}, {"formamidine", ThioureaDioxide},
	{"sulfoxylate", Sulfoxylate}, {"sulphoxylate", Sulfoxylate}, {"sulfinate", Sulfoxylate},
	{"peroxide", Oxidiser}, {"bleach", Oxidiser}, {"hypochlorite", Oxidiser}, {"percarbonate", Oxidiser}, {"perborate", Oxidiser},
	{"vinegar", Acid}, {"citric", Acid}, {"acetic", Acid}, {"oxalic", Acid}, {"sulfuric", Acid}, {"sulphuric", Acid}, {"tartar", Acid},
	{"iron", IronSulfate}, {"ferrous", IronSulfate}, {"copperas", IronSulfate}, {"green vitriol", IronSulfate},
	{"fructose", ReducingSugar}, {"glucose", ReducingSugar}, {"dextrose", ReducingSugar},
	{"sucrose", TableSugar}, {"table sugar", TableSugar}, {"cane sugar", TableSugar},
	{"zinc", Zinc},
	{"quicklime", Quicklime}, {"quick lime", Quicklime}, {"calcium oxide", Quicklime},
	{"calcium carbonate", Chalk}, {"chalk", Chalk},
	{"lime", SlakedLime}, {"calcium hydroxide", SlakedLime},
	{"bicarbonate", BakingSoda}, {"hydrogencarbonate", BakingSoda}, {"hydrogen carbonate", BakingSoda}, {"baking soda", BakingSoda},
	{"decahydrate", SodaCrystals}, {"washing soda", SodaCrystals}, {"soda crystals", SodaCrystals},
	{"potash", Potash}, {"potassium carbonate", Potash}, {"ash lye", Potash},
	{"caustic", Lye}, {"hydroxide", Lye}, {"lye", Lye},
	{"soda", SodaAsh}, {"sodium carbonate", SodaAsh},
	{"indigo", IndigoDye},
}

// Substance is what the powder is, by its material's name. "caustic potash" and "caustic soda" are lye.
func (p Powder) Substance() Substance {
	name := strings.ToLower(p.Material)
	if strings.Contains(name, "caustic") {
		return Lye
	}
	for _, w := range substanceWords {
		if strings.Contains(name, w.word) {
			return w.is
		}
	}
	return Other
}

// SulfurReducer tells whether the powder frees sulfur dioxide with acid and heats itself when damp (ICSC 1717 for
// sodium dithionite; HSE, "Hydros": tipped fast it cakes to a plug that can erupt).
func (p Powder) SulfurReducer() bool {
	s := p.Substance()
	return s == Dithionite || s == ThioureaDioxide || s == Sulfoxylate
}

// Lye tells whether the powder is sodium or potassium hydroxide, which boils up when water is put on it (ICSC 0360).
func (p Powder) Lye() bool { return p.Substance() == Lye }
