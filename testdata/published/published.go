// Package published reads for tests of the model what they check against: the published tables, and the recipes as they are shipped.
// It is asked from a package's folder, two below the top.
//
// What is checked against something outside the project: the table of testdata/reference and whose it is, what is allowed, and
// the largest deviation, as go test -v of model/water, model/liquor, model/vessel and model/colour logs it.
//
//	conversions                      units.csv: GNU units, NIST SP 811          9 figures
//	fibre density, regain            fibres.csv: Morton & Hearle, ASTM D1909    as printed
//	fill height of a pail            pail_frustum.csv                           0.1 %        0.019 %
//	the same pail by six jug marks   the same                                   1 %, 3 %     volume 0.07 %, surface 0.58 %
//	water, density                   water.csv: IAPWS-95                        0.01 %       0.0001 %
//	water, heat                      the same                                   0.01 %       0.003 %
//	hot and cold mixed, heating      heating_mixing.csv, exact column           0.2 %        0.0034 %
//	evaporation                      evaporation.csv: Shah 2002                 1 %          0.10 %, heat 0.13 %
//	heat loss of an open tank        open_tank_heat_loss.csv, worked example    10 %         +0.7 % (surface +4.1, wall −3.3)
//	  its rows, surface as a whole   90–160 °F, air's humidity not stated       none         +19.6 % at 90 °F, 7.1 % from 120 up
//	  its rows, bare wall            the same                                   none         −7.1 % at 90 °F, 6.0 % from 120 up
//	  its rows, insulated wall       the insulation is not named                none         40 % with foam of 0.038 W/(m·K); 7 %
//	                                                                                         from 120 up with 0.068
//	primary pH standard, 0–50 °C     carbonate_ph_standard.csv: Staples & Bates 0.015        0.011
//	pH of soda ash, 25 and 40 °C     soda_ash_ph.csv, to 10 g/L; to 30          0.03; 0.08   0.011; 0.024
//	pH as spent reducer builds up    sulfite_buildup_ph.csv                     0.05         0.031
//	pH of lime water, 0–50 °C        lime_water_ph.csv                          0.05         0.007
//	forms of leuco indigo            leuco_fractions.csv                        0.001        0.00005
//	carbonate and water constants    carbonate_constants.csv                    none         0.00005, sulfite 0.0015
//	dissolved oxygen, 1 and 0.9 atm  oxygen_saturation.csv: Benson & Krause     0.02 mg/L    0.0005 mg/L
//	molar masses                     molar_masses.csv: IUPAC 2021               0.02 g/mol   0.0000
//	colour difference, 34 pairs      ciede2000_pairs.csv: Sharma, Wu & Dalal    0.0001       0.00005
//	spectrum to Lab                  spectrum_to_lab.csv: ASTM E308; argyll     0.1          0.016; 0.008
//	each recipe's ph_fresh and ph    the solver: at build, fresh, reducer spent 0.05
//	doses                            testdata/recipes: ranges, their sources    within the range
package published

import (
	"encoding/csv"
	"os"
	"testing"

	"example.org/vatside/model/recipe"
)

// RecipeIDs are the recipes that are shipped.
var RecipeIDs = []string{"soda", "lye", "sugar-lime", "iron-lime", "thiourea", "madder-bran", "mild-soda"}

// Recipe reads one of them.
func Recipe(t testing.TB, id string) recipe.Recipe {
	t.Helper()
	text, err := os.ReadFile("../../recipes/" + id + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	r, faults := recipe.Parse(id+".toml", text)
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	return r
}

// Table reads a table of testdata/reference, a row by the names of its columns; lines that begin with # are its source.
func Table(t testing.TB, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("../../testdata/reference/" + name + ".csv")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, v := range row {
			m[rows[0][i]] = v
		}
		out = append(out, m)
	}
	return out
}
