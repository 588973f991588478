package quantity

// unit is one unit of measure: a number of it, times 10^ten, times by, is a number of the kind's base unit.
// A power of ten is kept apart from other factors because it is applied to the decimal figures and so loses nothing.
type unit struct {
	kind  kind
	ten   int
	by    float64
	names []string // read in any case
	cased []string // read only in this case
}

// The defining constants. All are exact by definition (NIST SP 811, Guide for the Use of the SI, 2008, appendix B).
const (
	ounce     = 28.349523125      // g; the avoirdupois pound is 453.59237 g, the ounce a sixteenth of it
	pound     = 453.59237         // g
	stone     = 6350.29318        // g; 14 lb
	grain     = 0.06479891        // g; 1/7000 lb
	inch      = 0.0254            // m
	foot      = 0.3048            // m
	yard      = 0.9144            // m
	usGallon  = 3.785411784       // L; 231 cubic inches
	impGallon = 4.54609           // L; the British gallon
	cubicInch = 0.016387064       // L
	cubicFoot = 28.316846592      // L
	btu       = 1055.05585262     // J; the international-table British thermal unit
	atm       = 101325            // Pa; the standard atmosphere
	mmHg      = 133.322387415     // Pa; conventional, density of mercury 13.5951 g/cm³, standard gravity
	inHg      = 25.4 * mmHg       // Pa
	psi       = 6894.757293168361 // Pa; pound-force per square inch, (0.45359237 × 9.80665)/0.0254²
)

// units is every unit with a name of its own, except those that mean different things in different countries.
var units = []unit{
	{kind: mass, by: 1, names: []string{"g", "gram", "grams", "gramme", "grammes"}},
	{kind: mass, ten: 3, by: 1, names: []string{"kg", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"}},
	{kind: mass, ten: -3, by: 1, names: []string{"mg", "milligram", "milligrams"}},
	{kind: mass, by: ounce, names: []string{"oz", "ounce", "ounces"}},
	{kind: mass, by: pound, names: []string{"lb", "lbs", "pound", "pounds"}},
	{kind: mass, by: stone, names: []string{"st", "stone"}},
	{kind: mass, by: grain, names: []string{"grain", "grains"}},

	{kind: volume, by: 1, names: []string{"l", "litre", "litres", "liter", "liters", "ℓ"}},
	{kind: volume, ten: -3, by: 1, names: []string{"ml", "millilitre", "millilitres", "milliliter", "milliliters", "cm3", "cc"}},
	{kind: volume, ten: -2, by: 1, names: []string{"cl", "centilitre", "centilitres"}},
	{kind: volume, ten: -1, by: 1, names: []string{"dl", "decilitre", "decilitres"}},
	{kind: volume, by: 1, names: []string{"dm3"}},
	{kind: volume, ten: 3, by: 1, names: []string{"m3"}},
	{kind: volume, by: cubicInch, names: []string{"in3", "cuin"}},
	{kind: volume, by: cubicFoot, names: []string{"ft3", "cuft"}},

	{kind: length, by: 1, names: []string{"m", "metre", "metres", "meter", "meters"}},
	{kind: length, ten: -2, by: 1, names: []string{"cm", "centimetre", "centimetres", "centimeter", "centimeters"}},
	{kind: length, ten: -3, by: 1, names: []string{"mm", "millimetre", "millimetres", "millimeter", "millimeters"}},
	{kind: length, by: inch, names: []string{"in", "inch", "inches", "\"", "″", "”"}},
	{kind: length, by: foot, names: []string{"ft", "foot", "feet", "'", "′", "’"}},
	{kind: length, by: yard, names: []string{"yd", "yard", "yards"}},

	{kind: area, by: 1, names: []string{"m2", "sqm"}},
	{kind: area, ten: -4, by: 1, names: []string{"cm2", "sqcm"}},
	{kind: area, by: inch * inch, names: []string{"in2", "sqin"}},
	{kind: area, by: foot * foot, names: []string{"ft2", "sqft", "sqfeet"}},
	{kind: area, by: yard * yard, names: []string{"yd2", "sqyd"}},

	// Temperatures: by is the size of the degree; the zero points are fromScale's business.
	{kind: temperature, by: 1, names: []string{"°c", "c", "degc", "celsius", "degreesc", "degreecelsius", "degreescelsius"}},
	{kind: temperature, by: 5.0 / 9, names: []string{"°f", "f", "degf", "fahrenheit", "degreesf", "degreefahrenheit", "degreesfahrenheit"}},
	{kind: temperature, by: 1, names: []string{"k", "kelvin", "kelvins"}},

	{kind: molarity, by: 1, cased: []string{"mM"}},
	{kind: amount, by: 1, names: []string{"mmol"}},
	{kind: amount, ten: 3, by: 1, names: []string{"mol"}},

	{kind: share, ten: -2, by: 1, names: []string{"%", "percent"}},

	{kind: pressure, by: 1, cased: []string{"Pa"}, names: []string{"pascal", "pascals"}},
	{kind: pressure, ten: 2, by: 1, names: []string{"hpa", "mbar"}},
	{kind: pressure, ten: 3, by: 1, names: []string{"kpa"}},
	{kind: pressure, ten: 5, by: 1, names: []string{"bar"}},
	{kind: pressure, by: atm, names: []string{"atm"}},
	{kind: pressure, by: mmHg, names: []string{"mmhg"}},
	{kind: pressure, by: inHg, names: []string{"inhg"}},
	{kind: pressure, by: psi, names: []string{"psi"}},

	{kind: power, by: 1, names: []string{"w", "watt", "watts"}},
	{kind: power, ten: 3, by: 1, names: []string{"kw", "kilowatt", "kilowatts"}},

	{kind: energy, by: 1, names: []string{"j", "joule", "joules"}},
	{kind: energy, ten: 3, by: 1, names: []string{"kj"}},
	{kind: energy, ten: 6, by: 1, cased: []string{"MJ"}},
	{kind: energy, by: 3600, names: []string{"wh"}},
	{kind: energy, ten: 3, by: 3600, names: []string{"kwh"}},
	{kind: energy, by: btu, names: []string{"btu"}},

	{kind: span, by: 1, names: []string{"s", "sec", "secs", "second", "seconds"}},
	{kind: span, by: 60, names: []string{"min", "mins", "minute", "minutes"}},
	{kind: span, by: 3600, names: []string{"h", "hr", "hrs", "hour", "hours"}},
	{kind: span, by: 86400, names: []string{"d", "day", "days"}},
	{kind: span, by: 604800, names: []string{"week", "weeks", "wk", "wks"}},
}

// measure is a volume that has one size in the US and another in Britain, and sometimes a metric one. In litres.
type measure struct {
	names                []string
	us, imperial, metric float64 // metric 0: refused without saying which
	said                 string  // the sizes in words
}

// measures are those volumes. US: fractions of the 231 cubic inch gallon; imperial: fractions of 4.54609 L
// (NIST SP 811). Spoons outside the US are the metric 5 and 15 mL; the Australian tablespoon of 20 mL is not here.
var measures = []measure{
	{[]string{"gal", "gallon", "gallons"}, usGallon, impGallon, 0, "3.785 L in the US and 4.546 L in Britain; write usgal or impgal"},
	{[]string{"qt", "quart", "quarts"}, usGallon / 4, impGallon / 4, 0, "0.946 L in the US and 1.137 L in Britain; write usqt or impqt"},
	{[]string{"pt", "pint", "pints"}, usGallon / 8, impGallon / 8, 0, "473 mL in the US and 568 mL in Britain; write uspt or imppt"},
	{[]string{"cup", "cups"}, usGallon / 16, impGallon / 16, 0, "237 mL in the US, 284 mL in Britain and 250 mL elsewhere; write uscup, impcup or metriccup"},
	{[]string{"floz", "fluidounce", "fluidounces"}, usGallon / 128, impGallon / 160, 0, "29.6 mL in the US and 28.4 mL in Britain; write usfloz or impfloz"},
	{[]string{"tbsp", "tablespoon", "tablespoons"}, usGallon / 256, 0.015, 0.015, ""},
	{[]string{"tsp", "teaspoon", "teaspoons"}, usGallon / 768, 0.005, 0.005, ""},
}

// metricCup is the cup of 250 mL.
const metricCup = 0.25
