package signs

import "example.org/vatside/model/wording"

// Group is where a sign is looked for.
type Group string

// The groups, in the order in which a dyer looks.
const (
	GroupColour   Group = "liquor colour"
	GroupClarity  Group = "liquor clarity"
	GroupFilm     Group = "film"
	GroupFroth    Group = "froth"
	GroupSmell    Group = "smell"
	GroupSediment Group = "sediment"
	GroupTouch    Group = "touch"
	GroupStrip    Group = "strip"
	GroupSwatch   Group = "swatch"
	GroupGoods    Group = "goods"
)

// Sign is one thing seen. The ID is stable; Words is how it is said and shown.
type Sign struct {
	ID    string
	Words string
	Group Group
}

// knownSign is a sign with the other words that dyers have for it.
type knownSign struct {
	Sign
	also []string
}

var known = []knownSign{
	{Sign{"yellow", "yellow-green to amber", GroupColour}, []string{"yellow-green", "yellow green", "yellow", "amber", "golden", "golden yellow"}},
	{Sign{"grass-green", "grass green", GroupColour}, []string{"green", "greenish"}},
	{Sign{"blue-green", "blue-green", GroupColour}, []string{"blue green", "teal", "greenish blue", "bluish green"}},
	{Sign{"blue", "blue", GroupColour}, []string{"deep blue", "bluish"}},
	{Sign{"straw", "pale straw", GroupColour}, []string{"straw", "pale yellow", "nearly colourless", "colourless"}},
	{Sign{"milky", "milky greenish-white", GroupColour}, []string{"milky", "greenish-white", "greenish white", "white-green", "milky white"}},
	{Sign{"grey-white", "milky grey-white", GroupColour}, []string{"grey-white", "grey white", "gray-white", "grey cloud", "grey-white cloud", "grey"}},
	{Sign{"brown", "brown or olive", GroupColour}, []string{"brown", "olive", "brownish", "copper-brown"}},
	{Sign{"too-yellow", "too yellow", GroupColour}, []string{"very yellow"}},
	{Sign{"reddish", "reddish", GroupColour}, []string{"red", "red liquor"}},
	{Sign{"clear", "clear", GroupClarity}, nil},
	{Sign{"cloudy", "cloudy", GroupClarity}, []string{"turbid", "muddy", "cloud"}},
	{Sign{"specks", "dark specks on the glass", GroupClarity},
		[]string{"specks", "dark specks", "dark spots on glass", "dark spots on the glass", "grains on the glass"}},
	{Sign{"coppery", "coppery film", GroupFilm}, []string{"coppery skin", "coppery", "copper film", "bronze film", "film"}},
	{Sign{"no-film", "no film", GroupFilm}, []string{"no skin", "film gone"}},
	{Sign{"dark-froth", "violet-blue froth", GroupFroth},
		[]string{"dark froth", "blue froth", "flower", "bloom", "dark blue-purple froth", "purple froth", "froth"}},
	{Sign{"no-froth", "no froth", GroupFroth}, []string{"no flower", "no bloom", "froth gone"}},
	{Sign{"foul", "foul smell", GroupSmell}, []string{"foul", "rotten", "putrid", "stinks"}},
	{Sign{"flat-lime", "flat smell of lime", GroupSmell}, []string{"lime smell", "flat lime smell", "smells of lime"}},
	{Sign{"no-smell", "no smell", GroupSmell}, []string{"smells of nothing"}},
	{Sign{"sweet", "sweet smell", GroupSmell}, []string{"sweet", "smells sweet"}},
	{Sign{"choking", "choking smell of burnt sulfur", GroupSmell},
		[]string{"choking", "choking smell", "burnt sulfur", "burnt matches", "sulfur dioxide", "burnt sulphur", "sharp smell",
			"acrid smell", "acrid", "pungent smell", "pungent", "stinging smell", "stinging", "it stings", "stings", "stings the nose", "sulfur smell", "smells of sulfur"}},
	{Sign{"sour", "sour smell", GroupSmell}, []string{"sour", "sweet or sour smell", "sour or flat smell"}},
	{Sign{"flat", "flat smell", GroupSmell}, []string{"flat", "smells flat", "dull smell"}},
	{Sign{"sediment-rises", "sediment rises", GroupSediment}, []string{"sludge rises", "rising sediment"}},
	{Sign{"sediment-deep", "sediment above a third", GroupSediment}, []string{"sludge above a third", "deep sediment", "deep sludge", "much sludge"}},
	{Sign{"slimy", "slimy to the glove", GroupTouch}, []string{"slimy", "slippery", "slimy feel", "soapy feel"}},
	{Sign{"strip-weak", "strip blue in less than 15 s", GroupStrip}, []string{"strip blue at once", "strip weak", "strip turns blue at once"}},
	{Sign{"strip-slack", "strip blue in 15 to 30 s", GroupStrip}, []string{"strip slack", "strip a little short"}},
	{Sign{"strip-good", "strip blue in about 45 s", GroupStrip}, []string{"strip good", "strip well"}},
	{Sign{"strip-over", "strip yellow for more than 3 min", GroupStrip}, []string{"strip stays yellow", "strip over", "strip will not turn blue"}},
	{Sign{"pale", "pale swatch", GroupSwatch}, []string{"pale", "pale dyeings", "swatch pale", "pale goods", "paler than the record"}},
	{Sign{"dull", "dull, weak dyeings", GroupSwatch}, []string{"dull", "weak dye", "weak dyeings", "dull and weak", "weak"}},
	{Sign{"paler-after", "paler after a dip", GroupGoods}, []string{"goods paler after dip", "strips earlier dips", "paler after dip"}},
	{Sign{"streaks", "streaks", GroupGoods}, []string{"streaky", "streak", "stripes"}},
	{Sign{"spots", "spots on goods", GroupGoods}, []string{"spots", "spotty", "specks on goods", "blotches"}},
	{Sign{"uneven", "uneven", GroupGoods}, []string{"unlevel", "patchy", "goods uneven"}},
	{Sign{"crocking", "rubs off", GroupGoods}, []string{"crocking", "crocks", "crock", "rubbing off"}},
	{Sign{"washes-out", "washes out", GroupGoods}, []string{"bleeds", "rinses out", "washing out"}},
	{Sign{"grey-cast", "grey cast", GroupGoods}, []string{"gray cast", "greyed whites", "greyed"}},
	{Sign{"green-cast", "green cast", GroupGoods}, []string{"greenish cast", "stays green"}},
	{Sign{"fade-patches", "faded patches in store", GroupGoods}, []string{"fade patches", "fade patches in store", "fades in store"}},
	{Sign{"harsh-wool", "harsh wool", GroupGoods}, []string{"harsh", "rough wool", "felted wool", "brittle wool"}},
}

// All is every sign that can be said, group by group. The list is the caller's own.
func All() []Sign { return wording.Each(known, func(k knownSign) Sign { return k.Sign }) }

// Find is a sign by its ID.
func Find(id string) (Sign, bool) {
	k, ok := wording.First(known, func(k knownSign) bool { return k.ID == id })
	return k.Sign, ok
}

// words is how a sign or a reading is said.
func words(id string) string {
	if w, ok := readingWords[id]; ok {
		return w
	}
	s, _ := Find(id)
	return s.Words
}

// readingWords are the signs that are read, not seen: they come from figures only.
var readingWords = map[string]string{
	phLow: "pH read low", phHigh: "pH read high", phGoods: "pH above what the goods bear", phUnfit: "the vat's own pH above what the goods bear", phRight: "pH right",
	cold: "colder than the recipe's range", hot: "hotter than the recipe's range", warmRight: "°C right",
}

// The readings as signs.
const (
	phLow     = "ph-low"
	phHigh    = "ph-high"
	phGoods   = "ph-above-goods"
	phUnfit   = "ph-unfit" // it is the recipe's own
	phRight   = "ph-right"
	cold      = "cold"
	hot       = "hot"
	warmRight = "warm-right"
)
