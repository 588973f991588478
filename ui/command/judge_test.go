package command

import (
	"fmt"
	"math/rand"
	"strings"
	"testing"
	"time"
)

// signs and reckon dose say the same of the same facts, as they are typed: no dose beside ready, the same grams of the same powder.
// Random vats; the seed is that of the day. model/outlook asks 10,000 without the flags.
func TestSignsAndDoseSayTheSame(t *testing.T) {
	seed := time.Now().Unix() / 86400
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewSource(seed))
	pick := func(list ...string) string { return list[r.Intn(len(list))] }
	for range 60 {
		line := "--recipe " + pick("soda", "lye", "sugar-lime", "iron-lime", "thiourea", "madder-bran") + pick(" --fill 60L", " --fill 12L", " --fill 400L")
		line += pick("", fmt.Sprintf(" --temp %.1fC", 10+50*r.Float64())) + pick("", fmt.Sprintf(" --ph %.1f", 6+7*r.Float64()))
		line += fmt.Sprintf(" --strip %ds", r.Intn(60)) + pick("", " --goods wool", " --goods cotton")
		if seen := pick("", "clear,yellow", "blue,cloudy", "milky", "grass-green,clear", "foul,reddish", "straw,clear", "sweet"); seen != "" {
			line += " --seen " + seen
		}
		first := answer(t, "signs "+line)["causes"].([]any)[0].(map[string]any)
		dose := answer(t, "reckon dose "+line)
		doses := first["doses"].([]any)
		switch {
		case len(doses) == 0 && dose["powder"] == nil:
		case len(doses) == 0 || dose["powder"] == nil, first["id"] == "ready":
			t.Errorf("%s: %v %q, and %q", line, first["id"], first["do"], dose["sentence"])
		default:
			d := doses[0].(map[string]any)
			if d["powder"] != dose["powder"] || d["grams"] != dose["grams"] {
				t.Errorf("%s: %v g of %v, and %v g of %v", line, d["grams"], d["powder"], dose["grams"], dose["powder"])
			}
		}
		if strings.Contains(line, "--ph 6.") && !strings.Contains(line, "lime") && !strings.Contains(line, "bran") && (first["id"] != "acid-in-vat" || dose["do"] != "stop") {
			t.Errorf("%s: %v, %v", line, first["id"], dose["do"])
		}
	}
}

// A vat that nothing ails is called ready, by the same id in each family, the sweet smell of a good ferment with it; a sour one is not.
func TestReadyHasItsID(t *testing.T) {
	for line, want := range map[string]string{
		"signs --recipe soda --fill 60L --seen clear,yellow,coppery --ph 10.8 --temp 35C": "ready",
		"signs --recipe madder-bran --fill 60L --seen sweet,coppery,clear --temp 35C":     "ready",
		"signs --recipe madder-bran --fill 60L --seen sweet --temp 35C":                   "ready",
		"signs --recipe madder-bran --fill 60L --seen sour --temp 35C":                    "alkali-eaten",
		"signs --recipe soda --fill 60L --seen clear,yellow --ph 6.0":                     "acid-in-vat",
		"signs --recipe soda --fill 60L --seen clear,yellow --ph 9.5":                     "alkali-eaten",
	} {
		if got := answer(t, line)["causes"].([]any)[0].(map[string]any)["id"]; got != want {
			t.Errorf("%s: %v, not %s", line, got, want)
		}
	}
}
