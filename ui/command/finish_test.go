package command

import (
	"encoding/json"
	"strings"
	"testing"

	"example.org/vatside/model/recipe"
	"example.org/vatside/ui/paper"
)

func finishes(t *testing.T, home string, args ...string) finishedOut {
	t.Helper()
	out, errs, code := run(t, home, append([]string{"finish", "--json"}, args...)...)
	var got finishedOut
	if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 || errs != "" {
		t.Fatalf("%v: %d %q %v", args, code, errs, err)
	}
	return got
}

func step(t *testing.T, p finishedPiece, id string) finishedStep {
	t.Helper()
	for _, s := range p.Steps {
		if s.ID == id {
			return s
		}
	}
	t.Fatalf("%s has no step %s", p.Piece, id)
	return finishedStep{}
}

// The figures for a kilogram, against the trade's: 20 L a bath (C); soap for cotton from 60 °C to a simmer, wool and silk at
// most 40 °C (C), 10 to 20 min (C), 1 g a litre (M); two rinses at least (C, S20); citric acid 1 to 2 g or vinegar of 5 % 10 to
// 20 mL a litre (C); airing 30 to 60 min, silk and wool 20 to 30, bound goods 2 to 24 h (C).
func TestFinishByTheTrade(t *testing.T) {
	ends := func(s *spread) [2]float64 { return [2]float64{s.Low, s.High} }
	for _, c := range []struct {
		args      []string
		soap, air [2]float64
		ids       string
		optional  bool // the sour
	}{
		{[]string{"--piece", "1 kg cotton", "--recipe", "soda"}, [2]float64{60, 95}, [2]float64{30, 60}, "air rinse sour soap dry crock", true},
		{[]string{"--piece", "1 kg cotton", "--bound"}, [2]float64{60, 95}, [2]float64{120, 1440}, "air rinse sour soap dry crock", true},
		{[]string{"--piece", "1 kg wool", "--recipe", "soda"}, [2]float64{30, 40}, [2]float64{20, 30}, "air rinse sour soap dry crock", false},
		{[]string{"--piece", "1 kg silk", "--family", "ferment"}, [2]float64{30, 40}, [2]float64{20, 30}, "air rinse sour soap dry crock", false},
		{[]string{"--piece", "1 kg viscose", "--family", "dithionite-soda"}, [2]float64{40, 60}, [2]float64{30, 60}, "air rinse sour soap dry crock", true},
		{[]string{"--piece", "1 kg linen", "--family", "sugar-lime"}, [2]float64{60, 95}, [2]float64{30, 60}, "air rinse sour soap dry crock", false},
		{[]string{"--piece", "1 kg hemp", "--family", "iron lime"}, [2]float64{60, 95}, [2]float64{30, 60}, "air rinse sour citric soap dry crock", false},
	} {
		p := finishes(t, "", c.args...).Pieces[0]
		var ids []string
		for _, s := range p.Steps {
			ids = append(ids, s.ID)
			if s.Evidence == "" || s.Do == "" || s.Gated != (s.ID == "sour" || s.ID == "citric") || s.WaterL != nil && *s.WaterL != 20 {
				t.Errorf("%v: %+v", c.args, s)
			}
		}
		sour, soap, rinse := step(t, p, "sour"), step(t, p, "soap"), step(t, p, "rinse")
		switch {
		case strings.Join(ids, " ") != c.ids, ends(step(t, p, "air").TimeMin) != c.air, rinse.Times.Low != 2, rinse.SoapG != nil,
			ends(soap.TempC) != c.soap, ends(soap.TimeMin) != [2]float64{10, 20}, *soap.SoapG != 20,
			ends(sour.CitricG) != [2]float64{20, 40}, ends(sour.VinegarML) != [2]float64{200, 400}, sour.Optional != c.optional:
			t.Errorf("%v: %v\n%+v\n%+v\n%+v", c.args, ids, rinse, sour, soap)
		}
	}
}

// S20: acid frees sulfur dioxide from what is left of a reducer: two rinses and the full airing first, always in moving air,
// and only a book can say that no reducer was ever there.
func TestFinishAndTheGate(t *testing.T) {
	home := t.TempDir()
	run(t, "", "rehearse", "--plain", "--speed", "max", "--home", home)
	all := []string{"--rinses", "2", "--aired", "--place", "cross-draught"}
	for _, c := range []struct {
		args   []string
		open   bool
		sulfur string
		why    string
	}{
		{[]string{"--recipe", "soda"}, false, "yes", "rinse twice in plain water"},
		{append([]string{"--recipe", "soda"}, all...), true, "yes", "asthma stays away"},
		{append([]string{"--vat", "garden-bin"}, all...), true, "yes", ""},
		{[]string{"--vat", "garden-bin", "--rinses", "2", "--place", "outdoors"}, false, "yes", "no fold is green"},
		{append([]string{"--recipe", "soda"}, "--rinses", "1", "--aired", "--place", "outdoors"), false, "yes", "rinse once more"},
		{append([]string{"--recipe", "soda"}, "--rinses", "2", "--aired", "--place", "closed room"), false, "yes", "cross-draught"},
		{[]string{"--family", "sugar-lime", "--place", "outdoors"}, false, "not known", "only the vat's book can say"},
		{[]string{"--family", "dithionite-lye"}, false, "yes", "its recipe has a sulfur reducer"},
		{[]string{"--vat", "garden-bin"}, false, "yes", "the vat's book shows a sulfur reducer"},
		{all, true, "not known", ""},
	} {
		got := finishes(t, home, append([]string{"--piece", "420 g linen"}, c.args...)...).Gate
		if got.Open != c.open || got.Sulfur != c.sulfur || !strings.Contains(got.Why, c.why) {
			t.Errorf("%v: %+v", c.args, got)
		}
	}
	if got := finishes(t, "", "--piece", "420 g linen"); got.Family != nil || len(got.Notes) != 1 || got.Gate.Place != nil {
		t.Errorf("without a vat: %+v", got)
	}
}

func TestFinishInWords(t *testing.T) {
	out, errs, code := run(t, "", "finish", "--piece", "420 g linen", "--piece", "90 g silk", "--recipe", "soda")
	for _, want := range []string{"420 g linen, after the last dip:", "90 g silk, after the last dip:", "8.4 L  of water, fresh each time", "12.6 g  of citric acid, 8.4–16.8 g, once the gate is open",
		"Neutralise, if you like\nNo acid yet: air the goods", "Caution: never acid into a vat", "its recipe has a sulfur reducer"} {
		if !strings.Contains(out, want) || code != 0 || errs != "" {
			t.Errorf("%q is missing (%d %q):\n%s", want, code, errs, out)
		}
	}
	if strings.Contains(out, "book shows") {
		t.Errorf("nobody read a book:\n%s", out)
	}
	open, _, _ := run(t, "", "finish", "--piece", "420 g linen", "--recipe", "iron-lime", "--rinses", "2", "--aired", "--place", "outdoors")
	if strings.Contains(open, "once the gate is open") || strings.Count(open, "Weak acid in its own bath") != 2 {
		t.Errorf("through the gate:\n%s", open)
	}
	for _, l := range strings.Split(out, "\n") {
		if len([]rune(l)) > paper.LineWidth {
			t.Errorf("%d wide: %s", len([]rune(l)), l)
		}
	}
	if out, _, _ := run(t, "", "finish", "--piece", "1 lb linen", "--units", "us"); !strings.Contains(out, "oz") || !strings.Contains(out, "°F") || strings.Contains(out, "°C") {
		t.Errorf("in US units:\n%s", out)
	}
}

func TestFinishRefusals(t *testing.T) {
	for _, c := range []struct {
		code int
		says string
		args []string
	}{
		{2, "finish needs --piece", nil},
		{2, "one of --recipe, --family and --vat", []string{"--piece", "420 g linen", "--recipe", "soda", "--vat", "bin"}},
		{2, "--piece is given with nothing in it", []string{"--piece", " "}},
		{2, "--vat is given with nothing in it", []string{"--piece", "420 g linen", "--vat", " "}},
		{2, "--recipe is given with nothing in it", []string{"--piece", "420 g linen", "--recipe", ""}},
		{2, "--family is given with nothing in it", []string{"--piece", "420 g linen", "--family", ""}},
		{2, "--rinses is given with nothing in it", []string{"--piece", "420 g linen", "--rinses", ""}},
		{2, "unknown command", []string{"linen"}},
		{1, "--piece: 420 g: the fibre is missing", []string{"--piece", "420 g"}},
		{1, "tweed is not a fibre known here", []string{"--piece", "420 g tweed"}},
		{1, "--family: mud is no family of vats; write dithionite-soda", []string{"--piece", "420 g linen", "--family", "mud"}},
		{1, "no recipe is called", []string{"--piece", "420 g linen", "--recipe", "mud"}},
		{1, "no vat is called bin; there are none", []string{"--piece", "420 g linen", "--vat", "bin"}},
		{1, "--rinses: two is no number of rinses", []string{"--piece", "420 g linen", "--rinses", "two"}},
		{1, "--rinses: -1 is no number of rinses", []string{"--piece", "420 g linen", "--rinses=-1"}},
		{1, "--place: cellar is no place of a vat", []string{"--piece", "420 g linen", "--place", "cellar"}},
		{1, "--units is metric, us or imperial", []string{"--piece", "420 g linen", "--units", "feet"}},
	} {
		out, errs, code := run(t, "", append([]string{"finish"}, c.args...)...)
		if code != c.code || out != "" || !strings.Contains(errs, c.says) || strings.Count(errs, "\n") != 1 {
			t.Errorf("finish %v: %d %q %q, want %d %q", c.args, code, out, errs, c.code, c.says)
		}
	}
}

// The keys of finish --json. What a step has no figure for is null.
type finishedOut struct {
	Family *recipe.Family  `json:"family"`
	Pieces []finishedPiece `json:"pieces"`
	Gate   finishedGate    `json:"gate"`
	Notes  []string        `json:"notes"`
}

type finishedPiece struct {
	Piece string         `json:"piece"`
	Fibre string         `json:"fibre"`
	DryG  float64        `json:"dry_g"`
	Steps []finishedStep `json:"steps"`
}

type finishedStep struct {
	ID        string   `json:"id"`
	Name      string   `json:"name"`
	Do        string   `json:"do"`
	Times     spread   `json:"times"`
	WaterL    *float64 `json:"water_l"`
	TempC     *spread  `json:"temp_c"`
	TimeMin   *spread  `json:"time_min"`
	CitricG   *spread  `json:"citric_g"`
	VinegarML *spread  `json:"vinegar_ml"`
	SoapG     *float64 `json:"soap_g"`
	Gated     bool     `json:"gated"`
	Optional  bool     `json:"optional"`
	Check     string   `json:"check"`
	Cautions  []string `json:"cautions"`
	Evidence  string   `json:"evidence"`
}

type finishedGate struct {
	Open   bool    `json:"open"`
	Why    string  `json:"why"`
	Sulfur string  `json:"sulfur_reducer"` // yes, no, not known
	Rinses int     `json:"rinses"`
	Aired  bool    `json:"aired"`
	Place  *string `json:"place"`
}
