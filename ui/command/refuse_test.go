package command

import (
	"strings"
	"testing"
)

// Every refusal: its one sentence on stderr, its code, nothing on stdout. 1 is an impossible wish, 2 wrong usage.
func TestRefusals(t *testing.T) {
	const (
		needsTime = "a time is needed, such as 30 min"
		water     = "is outside what water can be here; it goes from 0 °C to 100 °C"
		liquor    = "is outside what liquor can be; it goes from 0 °C to 100 °C"
		absolute  = "is below absolute zero, -273.15 °C"
		kinds     = "ph, oxygen, fill, cooling, heat, reducer, capacity, dose, colour, difference"
		ph        = "reckon ph --temp 25C"
		fill      = "reckon fill --vessel pail"
		cool      = "reckon cooling --vessel pail --fill 15L --from 50C --air 20C"
		heat      = "reckon heat --fill 15L"
		reducer   = "reckon reducer --recipe soda --temp 36C"
		dose      = "reckon dose --recipe soda --fill 60L"
		recipes   = "there are soda, lye, sugar-lime, iron-lime, thiourea, madder-bran, mild-soda"
		jug       = "--vessel: a jug table rises in litres and in depth; "
		neverLess = "is never below zero"
	)
	for _, c := range []struct {
		code       int
		line, says string
	}{
		// warm
		{1, mixing + " --aim 61C", "61 °C cannot be mixed from water of 60 °C at most; aim at 60 °C or lower, or heat more"},
		{1, mixing + " --aim 142F --units us", "142 °F cannot be mixed from water of 140 °F at most; aim at 140 °F or lower, or heat more"},
		{1, mixing + " --aim 11C", "11 °C cannot be mixed from water of 12 °C at least; aim at 12 °C or higher, or cool it with ice"},
		{1, mixing + " --aim -300C", "--aim: -300C " + absolute},
		{1, mixing + " --aim 150C", "150 °C " + water},
		{1, mixing + " --aim NaNC", "--aim: NaNC is not a number; a temperature is needed, such as 35 °C"},
		{1, mixing + " --aim 40", "--aim: 40 could be °C or °F; write which, such as 35 °C"},
		{1, "warm --fill -1L --cold 12C --hot 60C --aim 40C", "--fill: -1L is negative; a volume " + neverLess},
		{1, "warm --fill 15L --cold 60C --hot 12C --aim 40C", "the hot water, 12 °C, is colder than the cold, 60 °C"},
		{1, mixing + " --aim 40C --pot 0L", "--pot: 0 L is no pot; it must hold 100 mL or more"},
		{1, mixing + " --aim 40C --pot -1L", "--pot: -1L is negative; a volume " + neverLess},
		{1, mixing + " --aim 40C --stove 0W", "0 W heats nothing; the power must be above 0 W"},
		{1, mixing + " --aim 40C --stove -5W", "--stove: -5W is negative; a power " + neverLess},
		{1, mixing + " --aim 40C --stove 1800W --by coal", "--by: coal is not a stove known here; write gas, electric, induction or immersion"},
		{1, mixing + " --aim 40C --ready-by 25:00", "--ready-by: 25:00 is no time of day; write it from 0:00 to 23:59, such as 10:00"},
		{1, mixing + " --aim 40C --ready-by 10", "--ready-by: 10 is no time of day; write it from 0:00 to 23:59, such as 10:00"},
		{1, mixing + " --aim 40C --ready-by 10:00 --recipe x", `no recipe is called "x"; ` + recipes},
		{1, mixing + " --aim 40C --stove 1800W --pot 8L --timed 1min", "8 L from 12 °C to 60 °C takes 14 min 52 s with all of 1.8 kW, so it cannot have taken 1 min; look again at the power, the volume and the time"},
		{1, mixing + " --aim 40C --units feet", `--units is metric, us or imperial, not "feet"`},
		{1, "warm --fill 1e300L --cold 12C --hot 60C --aim 40C", "--fill: 1e300L is more than is reckoned here; 10000 L at most"},
		{1, mixing + " --aim 40C --stove 1e9W", "--stove: 1e9W is more than is reckoned here; 100 kW at most"},
		{2, "warm", "warm needs --fill, --cold, --hot, --aim"},
		{2, mixing, "warm needs --aim"},
		{2, mixing + " --aim", "flag needs an argument: --aim"},
		{2, mixing + " --aim none", "--aim is given with nothing in it"},
		{2, mixing + " --aim 40C --pot none", "--pot is given with nothing in it"},
		{2, mixing + " --aim 40C --have 5L", "--have needs --at: what is in the vessel, and its °C"},
		{2, mixing + " --aim 40C --at 5C", "--at needs --have: what is in the vessel, and its °C"},
		{2, mixing + " --aim 40C --timed 20min", "--timed needs --stove: the power of the timed stove"},
		{2, mixing + " --aim 40C --timed 20min --stove 1800W", "--timed needs --pot: how much was in the timed pot"},
		{2, mixing + " --aim 40C --by gas", "--by needs --stove: its power"},
		{2, mixing + " --aim 40C --recipe soda", "--recipe needs --ready-by: when the first piece is to go in"},
		{2, mixing + " --aim 40C --cool", "unknown flag: --cool"},
		{2, "warm water", `unknown command "water" for "vatside warm"`},
		// reckon
		{2, "reckon", "reckon needs what: " + kinds + " or rub"},
		{2, "reckon xyz", `there is no reckoning of "xyz": there are ` + kinds + " and rub"},
		{2, "reckon --json", "reckon needs what: " + kinds + " or rub"},
		{1, "weigh --recipe soda --fill 60L --spoon soda=41g --spoon soda=40g", `--spoon "soda=40g": soda was weighed already; say it once`},
		{1, "weigh --recipe soda --fill 60L --indigo-strength 0%", "--indigo-strength: a powder without strength is no use; leave it out where it is not known"},
		{1, "reckon heat --fill 10000L --from 0C --to 100C --power 0.0001W", "--power: 0.0001W is less than warms a vat; 1 W at least"},
		// ph
		{2, "reckon ph", "reckon ph needs --temp"},
		{2, "reckon ph --soda 10g/L", "reckon ph needs --temp"},
		{2, "reckon ph --temp none", "--temp is given with nothing in it"},
		{2, ph + " --soda none", "--soda is given with nothing in it"},
		{2, ph + " more", `unknown command "more" for "vatside reckon ph"`},
		{1, "reckon ph --temp -300C", "--temp: -300C " + absolute},
		{1, "reckon ph --temp 150C", "--temp: 150 °C " + liquor},
		{1, "reckon ph --temp 250F --units us", "--temp: 250 °F is outside what liquor can be; it goes from 32 °F to 212 °F"},
		{1, ph + " --soda -1g/L", "--soda: -1g/L is negative; a concentration " + neverLess},
		{1, ph + " --soda 101g/L", "--soda: 101g/L is more than is reckoned here; 100 g/L at most"},
		{1, ph + " --lye 20oz/gal --units us", "--lye: 20oz/gal is more than is reckoned here; 13.4 oz/gal at most"},
		{1, ph + " --spent 501mmol/L", "--spent: 501mmol/L is more than is reckoned here; 500 mmol/L at most"},
		{1, ph + " --soda 10", "--soda: 10 has no unit; a concentration is needed, such as 5 g/L"},
		{1, ph + " --spent -1mmol/L", "--spent: -1mmol/L is negative; a molar concentration " + neverLess},
		{1, ph + " --bisulfite NaNmmol/L", "--bisulfite: NaNmmol/L is not a number; a molar concentration is needed, such as 10 mmol/L"},
		{1, ph + " --lime some", "--lime: some does not begin with a number; a concentration is needed, such as 5 g/L"},
		// oxygen
		{2, "reckon oxygen", "reckon oxygen needs --temp"},
		{1, "reckon oxygen --temp 101C", "--temp: 101 °C " + liquor},
		{1, "reckon oxygen --temp 20C --pressure 0Pa", "--pressure: a vat stands in air; write its pressure, such as 101325Pa"},
		{1, "reckon oxygen --temp 20C --pressure -1Pa", "--pressure: -1Pa is negative; a pressure " + neverLess},
		{1, "reckon oxygen --temp 20C --pressure 1Pa", "an air pressure of 0.01 hPa cannot be; it lies between 500 hPa and 1120 hPa"},
		// fill
		{2, "reckon fill", "reckon fill needs --vessel"},
		{2, "reckon fill --vessel none", "--vessel is given with nothing in it"},
		{2, fill + " --depth 20cm --litres 15L", "give --depth or --litres, not both"},
		{2, fill + " --depth 0cm --litres 0L", "give --depth or --litres, not both"},
		{1, fill + " --litres 30L", "--litres: 30 L is above the brim; this vessel holds 22.1 L"},
		{1, fill + " --litres 8gal --units us", "--litres: 8 gal is above the brim; this vessel holds 5.85 gal"},
		{1, fill + " --litres -1L", "--litres: -1L is negative; a volume " + neverLess},
		{1, fill + " --depth 40cm", "--depth: 40 cm is above the rim; the vessel is 36.8 cm deep"},
		{1, fill + " --depth -1cm", "--depth: -1cm is negative; a length " + neverLess},
		{1, fill + " --litres 22L --goods 600+g+cotton", "--goods: they lift it by 1.1 L, above the brim; this vessel holds 22.1 L"},
		{1, fill + " --depth 1cm --goods 600+g+cotton", "--goods: they alone take up 1.1 L, more than the 509 mL up to that depth"},
		{1, fill + " --goods cotton", "--goods: cotton: write the dry weight and the fibre, such as '600 g cotton'"},
		{1, fill + " --goods -600+g+cotton", "--goods: -600 g is negative; a mass " + neverLess},
		{1, fill + " --goods 600+g+nylon", "--goods: nylon is not a fibre known here; known are cotton, linen, hemp, ramie, jute, viscose, silk and wool"},
		{1, "reckon fill --vessel jug+5L=8.4cm+4L=16cm+36.8cm", jug + "4L=16cm does not lie above 5L=8.4cm"},
		{1, "reckon fill --vessel jug+5L=8.4cm+10L=8cm+36.8cm", jug + "10L=8cm does not lie above 5L=8.4cm"},
		{1, "reckon fill --vessel jug+5L=8.4cm+8cm", "--vessel: 5L=8.4cm lies above the rim, which is at 8 cm"},
		{1, "reckon fill --vessel frustum+25cm+29cm", "--vessel: a frustum is written frustum BOTTOM TOP HEIGHT, such as frustum 25.4cm 29.9cm 36.8cm"},
		{1, "reckon fill --vessel cylinder+0cm+30cm", "--vessel: a vessel has no measure below 1 cm; 0 cm is given"},
		// cooling
		{2, cool, "reckon cooling needs --humidity, --hours"},
		{2, cool + " --humidity 50% --hours none", "--hours is given with nothing in it"},
		{1, cool + " --humidity 130% --hours 4", "--humidity: 130% is more than the whole; a share goes from 0 % to 100 %"},
		{1, cool + " --humidity -1% --hours 4", "--humidity: -1% is negative; a share " + neverLess},
		{1, cool + " --humidity 50% --hours NaN", "--hours: NaN is not a number; " + needsTime},
		{1, cool + " --humidity 50% --hours Inf", "--hours: Inf is not a number; " + needsTime},
		{1, cool + " --humidity 50% --hours -1", "--hours: -1 is negative; a time " + neverLess},
		{1, cool + " --humidity 50% --hours 1000", "--hours: at most 240 h are reckoned: the air changes in that time"},
		{1, cool + " --humidity 50% --hours 1e300", "--hours: at most 240 h are reckoned: the air changes in that time"},
		{1, cool + " --humidity 50% --hours 4 --wrap -1mm", "--wrap: -1mm is negative; a length " + neverLess},
		{1, "reckon cooling --vessel pail --fill 30L --from 50C --air 20C --humidity 50% --hours 4", "--fill: 30 L is above the brim; this vessel holds 22.1 L"},
		{1, "reckon cooling --vessel pail --fill 0L --from 50C --air 20C --humidity 50% --hours 4", "0 L is no fill; it must be 10 mL or more"},
		{1, "reckon cooling --vessel pail --fill 15L --from 150C --air 20C --humidity 50% --hours 4", "150 °C " + water},
		{1, "reckon cooling --vessel pail --fill 15L --from 50C --air 120C --humidity 50% --hours 4", "120 °C is no temperature of air here; it goes from -40 °C to 100 °C"},
		{1, "reckon cooling --vessel pail --fill 15L --from 50C --air -300C --humidity 50% --hours 4", "--air: -300C " + absolute},
		// heat
		{2, heat + " --from 15C --to 40C", "reckon heat needs --power"},
		{1, heat + " --from 40C --to 15C --power 1000W", "heating goes up; 15 °C is below 40 °C"},
		{1, heat + " --from 15C --to 140C --power 1000W", "140 °C " + water},
		{1, heat + " --from 15C --to 40C --power 0W", "0 W heats nothing; the power must be above 0 W"},
		{1, heat + " --from 15C --to 40C --power -1W", "--power: -1W is negative; a power " + neverLess},
		{1, heat + " --from 15C --to 40C --power 200kW", "--power: 200kW is more than is reckoned here; 100 kW at most"},
		{1, fill + " --goods 2000+kg+wool", "--goods: 2000 kg wool is more than is reckoned here; 1000 kg at most"},
		// reducer and capacity
		{2, reducer + " --fill 60L", "reckon reducer needs --vessel"},
		{1, reducer + " --fill 80L --vessel bin", "--fill: 80 L is above the brim; this vessel holds 78.2 L"},
		{1, reducer + " --fill 0L --vessel bin", "a fill of 0 L is no vat: it must be above zero"},
		{1, reducer + " --fill 60L --vessel frustum+36cm+44cm+62cm+aluminium", "--vessel: aluminium dissolves in alkali and gives off hydrogen, which burns: take stainless, enamel, PE, PP or wood"},
		{1, "reckon reducer --recipe soda --temp 101C --fill 60L --vessel bin", "--temp: 101 °C " + liquor},
		{1, "reckon reducer --recipe sugar-lime --temp 150C --fill 60L --vessel bin", "--temp: 150 °C " + liquor},
		{1, "reckon reducer --recipe x --temp 36C --fill 60L --vessel bin", `no recipe is called "x"; ` + recipes},
		{2, "reckon capacity --recipe soda", "reckon capacity needs --fill"},
		{1, "reckon capacity --recipe soda --fill 0L", "a fill of 0 L is no vat: it must be above zero"},
		{1, "reckon capacity --recipe soda --fill -1L", "--fill: -1L is negative; a volume " + neverLess},
		// dose
		{2, "reckon dose --recipe soda", "reckon dose needs --fill"},
		{2, "reckon dose --fill 60L", "reckon dose needs --recipe"},
		{2, dose + " --ph none", "--ph is given with nothing in it"},
		{1, "reckon dose --recipe soda --fill 0L", "a fill of 0 L is no vat: it must be above zero"},
		{1, dose + " --temp 150C", "--temp: 150 °C " + liquor},
		{1, dose + " --temp -300C", "--temp: -300C " + absolute},
		{1, dose + " --ph 15", "--ph: a vat has no pH of 15; it goes from 0 to 14"},
		{1, dose + " --ph -1", "--ph: a vat has no pH of -1; it goes from 0 to 14"},
		{1, dose + " --ph NaN", "--ph: NaN is not a number; a pH is needed, such as 9.8"},
		{1, dose + " --strip -1s", "--strip: -1s is negative; a time " + neverLess},
		{1, dose + " --strip 12", "--strip: 12 has no unit; " + needsTime},
		{1, dose + " --given woad=3g", `--given: recipe soda has no powder "woad"; it has indigo, soda, reducer`},
		{1, dose + " --given reducer=-3g", `--given "reducer=-3g": -3g is negative; a mass ` + neverLess},
		{1, dose + " --goods nylon", "--goods: nylon is not a fibre known here; known are cotton, linen, hemp, ramie, jute, viscose, silk and wool"},
		{1, dose + " --heater -1W", "--heater: -1W is negative; a power " + neverLess},
	} {
		for _, line := range []string{c.line, c.line + " --json"} {
			if line == c.line+" --json" && (strings.HasSuffix(c.line, "--json") || strings.HasSuffix(c.line, "--aim") || c.line == "reckon") {
				continue
			}
			want := "vatside: " + c.says
			if c.code == 2 {
				want += seeHelp(words(line)...)
			}
			out, errs, code := runAt(t, thursday, words(line)...)
			if code != c.code || errs != want+"\n" || out != "" {
				t.Errorf("%s: %d %q\n got %swant %s", line, code, out, errs, want)
			}
		}
	}
}
