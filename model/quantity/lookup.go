package quantity

import (
	"slices"
	"strings"
)

// leading words that belong to the word after them: "fl oz", "US gal", "° C".
var leading = map[string]bool{
	"us": true, "american": true, "imp": true, "imperial": true, "uk": true, "british": true, "metric": true,
	"fl": true, "fluid": true, "usfl": true, "impfl": true, "ukfl": true, "°": true, "deg": true, "degree": true, "degrees": true,
	"sq": true, "square": true, "cu": true, "cubic": true,
}

// unitSigns and unitWords are what a unit's name is tidied by.
var (
	unitSigns = strings.NewReplacer(".", "", "^", "", "²", "2", "³", "3", "per cent", "percent")
	unitWords = strings.NewReplacer("square", "sq", "cubic", "cu")
)

// tidyUnit writes a unit's name in one word, keeping its case; "per" becomes a stroke.
func tidyUnit(s string) string {
	if isTidyUnit(s) {
		return s
	}
	s = unitSigns.Replace(s)
	words := strings.Fields(strings.ReplaceAll(s, "/", " / "))
	var b strings.Builder
	joined := "" // the word being put together
	for _, w := range words {
		if strings.EqualFold(w, "per") {
			w = "/"
		}
		if joined != "" && !leading[strings.ToLower(joined)] && w != "/" && !strings.HasSuffix(b.String(), "/") {
			b.WriteByte(' ')
		}
		if joined != "" && leading[strings.ToLower(joined)] {
			joined += w
		} else {
			joined = w
		}
		b.WriteString(w)
	}
	return unitWords.Replace(b.String())
}

// isTidyUnit tells of a name that stands as the program writes it, "g", "°C", "mL/g": letters, the degree sign and one stroke,
// too short for a word that is tidied.
func isTidyUnit(s string) bool {
	over, under, _ := strings.Cut(s, "/")
	for _, name := range [...]string{over, under} {
		if len(name) > len("per") || strings.EqualFold(name, "per") {
			return false
		}
		for _, r := range name {
			if (r < 'a' || r > 'z') && (r < 'A' || r > 'Z') && r != '°' {
				return false
			}
		}
	}
	return true
}

// find looks a simple unit up. ambiguous is a sentence's end when the name has a size only inside a system of units.
func find(name string, sys System, want kind) (u unit, ok bool, ambiguous string) {
	for _, u := range units {
		if slices.Contains(u.cased, name) {
			return u, true, ""
		}
	}
	for _, prefer := range []bool{true, false} {
		for _, u := range units {
			if prefer != (u.kind == want) {
				continue
			}
			for _, n := range u.names {
				if strings.EqualFold(n, name) {
					return u, true, ""
				}
			}
		}
	}
	return findMeasure(strings.ToLower(name), sys)
}

// findMeasure looks up a volume that differs between countries; "us", "imp" or "metric" before the name settles it.
func findMeasure(name string, sys System) (unit, bool, string) {
	stated := false
	for _, p := range []struct {
		prefix string
		sys    System
	}{{"us", US}, {"american", US}, {"imperial", Imperial}, {"imp", Imperial}, {"uk", Imperial}, {"british", Imperial}, {"metric", Metric}} {
		if rest, found := strings.CutPrefix(name, p.prefix); found {
			name, sys, stated = rest, p.sys, true
			break
		}
	}
	if stated && sys == Metric && (name == "cup" || name == "cups") {
		return unit{kind: volume, by: metricCup}, true, ""
	}
	for _, m := range measures {
		for _, n := range m.names {
			if n != name {
				continue
			}
			size := m.metric
			switch sys {
			case US:
				size = m.us
			case Imperial:
				size = m.imperial
			}
			if size == 0 {
				return unit{}, false, "is " + m.said
			}
			return unit{kind: volume, by: size}, true, ""
		}
	}
	if name == "gr" && !stated {
		return unit{}, false, "could be grams or grains; write g or grain"
	}
	return unit{}, false, ""
}

// quotients are the kinds made by dividing one unit by another, with the power of ten that brings them to their base.
var quotients = []struct {
	over, under, gives kind
	ten                int
}{
	{mass, volume, concentration, 0}, // g over L
	{mass, mass, ratio, 0},           // g over g
	{volume, mass, wetting, 3},       // L over g is 1000 mL/g
	{amount, volume, molarity, 0},    // mmol over L
	{energy, span, power, 0},         // J over s
}

// resolve looks up a unit that may be a quotient of two.
func resolve(name string, sys System, want kind) (u unit, ok bool, ambiguous string) {
	name = tidyUnit(name)
	over, under, split := strings.Cut(name, "/")
	if !split {
		return find(name, sys, want)
	}
	a, ok, ambiguous := find(over, sys, mass)
	if !ok {
		return a, false, named(over, ambiguous)
	}
	b, ok, ambiguous := find(under, sys, volume)
	if !ok {
		return b, false, named(under, ambiguous)
	}
	for _, q := range quotients {
		if q.over == a.kind && q.under == b.kind {
			return unit{kind: q.gives, ten: a.ten - b.ten + q.ten, by: a.by / b.by}, true, ""
		}
	}
	return unit{}, false, ""
}

// named puts the part of a quotient that is ambiguous before what is said of it.
func named(part, ambiguous string) string {
	if ambiguous == "" {
		return ""
	}
	return "is not clear, as " + part + " " + ambiguous
}
