package practice

import (
	"math"
	"strings"
	"testing"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/testdata/published"
)

// trade.md, Before the day, 3: wool and silk into dithionite with little alkali or a ferment, cotton and linen into any; pasted resist
// into cold iron or cool dithionite; for a nose, a closed room or children neither dithionite nor iron.
func TestChoose(t *testing.T) {
	var all []recipe.Recipe
	for _, id := range published.RecipeIDs {
		all = append(all, published.Recipe(t, id))
	}
	for _, c := range []struct {
		name string
		w    Wanted
		fits string // in their order
		not  string
		says string
	}{
		{"nothing said", Wanted{}, "soda lye sugar-lime iron-lime thiourea madder-bran mild-soda", "", ""},
		{"cotton", Wanted{Fibres: []fibre.Fibre{fibre.Cotton, fibre.Linen}}, "soda lye sugar-lime iron-lime thiourea madder-bran mild-soda", "", ""},
		{"wool", Wanted{Fibres: []fibre.Fibre{fibre.Wool}}, "mild-soda", "soda lye sugar-lime iron-lime", "at its best up to pH 9.5"},
		{"silk", Wanted{Fibres: []fibre.Fibre{fibre.Silk}}, "mild-soda", "lye sugar-lime iron-lime", "dip short"},
		{"a resist of paste", Wanted{Pasted: true}, "iron-lime", "sugar-lime thiourea madder-bran", "hang the goods still, short dips"},
		{"a closed room", Wanted{Place: "closed room"}, "sugar-lime iron-lime madder-bran", "soda lye thiourea mild-soda", "no sulfur reducer in a closed room"},
		{"outdoors", Wanted{Place: "outdoors"}, "soda lye sugar-lime iron-lime thiourea madder-bran mild-soda", "", ""},
		{"asthma", Wanted{Asthma: true}, "sugar-lime iron-lime madder-bran", "soda lye thiourea mild-soda", "asthma"},
		{"children", Wanted{Children: true}, "", "soda lye iron-lime thiourea mild-soda", "poisons small children"},
		{"a class", Wanted{Class: true}, "iron-lime", "", "the teacher alone weighs and adds"},
		{"wool, closed room", Wanted{Fibres: []fibre.Fibre{fibre.Wool}, Place: "closed room"}, "", "soda lye sugar-lime iron-lime thiourea mild-soda", "10.2 (reckoned"},
	} {
		var fits, not, words []string
		last := 0
		for _, x := range Choose(all, c.w) {
			rank := map[Fit]int{Fits: 0, FitsCare: 1, FitsNot: 2}[x.Fit]
			if rank < last {
				t.Errorf("%s: %s does not stand in its order", c.name, x.Recipe.ID)
			}
			last = rank
			switch x.Fit {
			case Fits:
				fits = append(fits, x.Recipe.ID)
			case FitsNot:
				not = append(not, x.Recipe.ID)
			}
			if (x.Fit == Fits) != (len(x.Reasons) == 0) {
				t.Errorf("%s: %s %s for %v", c.name, x.Recipe.ID, x.Fit, x.Reasons)
			}
			for _, r := range x.Reasons {
				if words = append(words, r.Words); r.Evidence == "" {
					t.Errorf("%s: %q has no evidence", c.name, r.Words)
				}
			}
		}
		if f, n := strings.Join(fits, " "), strings.Join(not, " "); f != c.fits || n != c.not || !strings.Contains(strings.Join(words, "\n"), c.says) {
			t.Errorf("%s: fits %q, not %q\n%s", c.name, f, n, strings.Join(words, "\n"))
		}
	}
}

// A vat with baking soda has its pH read, the others as their family has it.
func TestCareOfARecipe(t *testing.T) {
	for _, id := range published.RecipeIDs {
		r := published.Recipe(t, id)
		more := len(CareOf(r)) - len(Care(r.Family))
		if last := CareOf(r)[len(CareOf(r))-1]; (more == 1) != (id == "mild-soda") || more == 1 && !strings.Contains(last.What, "read pH") {
			t.Errorf("%s: %+v", id, last)
		}
	}
}

// A rinse comes after each second dip in vats of lime alone; tight cloth stays in half as long again to twice as long.
func TestBetweenDips(t *testing.T) {
	for _, id := range published.RecipeIDs {
		f := published.Recipe(t, id).Family
		lime := f == recipe.SugarLime || f == recipe.IronLime
		for dips, want := range []bool{false, false, true, false, true} {
			if c, ok := RinseBetween(f, dips); ok != (want && lime) || ok && (c.Evidence == "" || c.Do == "") {
				t.Errorf("%s after %d dips: %v", id, dips, ok)
			}
		}
	}
	if r := FirstDip(quantity.Minutes(8)); r.Low != quantity.Minutes(12) || r.High != quantity.Minutes(16) || !r.Valid() {
		t.Error(r)
	}
	for dip, want := range map[quantity.Span]quantity.Span{ // in whole minutes, never beyond twice the dip
		quantity.Minutes(8): quantity.Minutes(14), quantity.Minutes(5): quantity.Minutes(9), quantity.Minutes(1): quantity.Minutes(2), quantity.Seconds(20): quantity.Seconds(40),
	} {
		if got := LongFirst(dip); got != want || MeanDip(dip, 1) != want || MeanDip(dip, 0) != want || !(MeanDip(dip, 3) > dip) {
			t.Errorf("of %v the first dip is %v", dip, got)
		}
	}
	if FirstDipWords(quantity.Minutes(8)) != "Tight cloth: 12 to 16 min this first time." {
		t.Error(FirstDipWords(quantity.Minutes(8)))
	}
	if p := Plunge(); p.Time.Low != quantity.Seconds(30) || p.Time.High != quantity.Minutes(1) || p.Evidence == "" {
		t.Errorf("%+v", p)
	}
}

// The grey scale falls from 5 to 1; a difference gets the nearest grade.
func TestStaining(t *testing.T) {
	last := Staining{5.5, -1}
	for _, s := range GreyScale() {
		if s.Grade != last.Grade-0.5 || s.Difference <= last.Difference {
			t.Errorf("%+v after %+v", s, last)
		}
		if got, err := StainGrade(s.Difference); err != nil || got != s.Grade {
			t.Errorf("%v: %v %v", s, got, err)
		}
		last = s
	}
	for _, c := range []struct{ difference, grade float64 }{{1, 5}, {1.2, 4.5}, {10, 3}, {100, 1}} {
		if got, _ := StainGrade(c.difference); got != c.grade {
			t.Errorf("%g: grade %g, want %g", c.difference, got, c.grade)
		}
	}
	for _, bad := range []float64{-1, math.NaN(), math.Inf(1)} {
		if _, err := StainGrade(bad); err == nil {
			t.Errorf("%g has a grade", bad)
		}
	}
}

// Where no sulfur reducer may be used wool and silk are sent to a ferment, never into lime.
func TestWithoutSulfurNamesNoLimeForWool(t *testing.T) {
	soda, mild := published.Recipe(t, "soda"), published.Recipe(t, "mild-soda")
	for _, c := range []struct {
		r     recipe.Recipe
		goods []fibre.Fibre
		want  string
	}{
		{soda, nil, "a sugar–lime or a ferment vat"}, {mild, nil, "a sugar–lime vat, for wool and silk a ferment"}, {soda, []fibre.Fibre{fibre.Linen, fibre.Wool}, "a ferment vat"},
		{mild, []fibre.Fibre{fibre.Cotton}, "a sugar–lime or a ferment vat"},
	} {
		if got := WithoutSulfur(c.r, c.goods...); got != c.want {
			t.Errorf("%s, %v: %q", c.r.ID, c.goods, got)
		}
		for _, item := range Checklist(Circumstances{Recipe: c.r, Place: "closed room", Fibres: c.goods}) {
			if item.ID == "air" && !strings.HasSuffix(item.What, "or take "+c.want) {
				t.Errorf("%s, %v: %q", c.r.ID, c.goods, item.What)
			}
		}
	}
}

// Wool and silk go into the mild soda vat first, with care into a ferment, not into lime, lye or full soda; set-up says so with the pH.
func TestForProtein(t *testing.T) {
	for id, want := range map[string]Fit{"mild-soda": Fits, "madder-bran": FitsCare, "thiourea": FitsCare, "soda": FitsNot, "lye": FitsNot, "sugar-lime": FitsNot, "iron-lime": FitsNot} {
		if fit, words := ForProtein(published.Recipe(t, id)); fit != want || !strings.Contains(words, "pH ") {
			t.Errorf("%s: %v, %q", id, fit, words)
		}
	}
}
