package command

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/recipe"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/shelf"
)

// Rows of the table of signs through the command, for 20 and 60 L (testdata/reference/vat_signs.csv: blue and turbid wants
// 0.25 to 0.3 g/L of dithionite and half an hour, Mairet 1938; grass green and cold wants warmth first).
func TestSignsByTheTable(t *testing.T) {
	ask := func(args ...string) signed {
		t.Helper()
		out, errs, code := runAt(t, thursday, append([]string{"signs", "--recipe", "soda", "--json"}, args...)...)
		var got signed
		if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 || errs != "" || len(got.Causes) == 0 {
			t.Fatalf("%v: %d %q %v", args, code, errs, err)
		}
		return got
	}
	for fill, grams := range map[string]float64{"20L": 5, "60L": 15} {
		first := ask("--fill", fill, "--seen", "blue, cloudy", "--temp", "36C").Causes[0]
		if len(first.Doses) != 1 || first.Doses[0].Grams < grams || first.Doses[0].Grams > 1.2*grams || first.Doses[0].Role != "reducer" || first.WaitMin != 30 {
			t.Errorf("%s: %+v", fill, first)
		}
	}
	cold := ask("--fill", "60L", "--seen", "grass green", "--temp", "24C", "--heater", "1000W").Causes[0]
	if len(cold.Doses) != 0 || cold.ToC == nil || *cold.ToC != 35 {
		t.Errorf("grass green at 24 °C: %+v", cold)
	}
	low := ask("--fill", "60L", "--seen", "blue, clear", "--ph", "9.4", "--temp", "36C").Causes[0]
	if len(low.Doses) != 1 || low.Doses[0].Role != "alkali" {
		t.Errorf("at pH 9.4: %+v", low)
	}
	sum := 0.0
	for _, c := range ask("--fill", "60L", "--seen", "blue, clear").Causes {
		sum += c.Weight
	}
	if sum < 0.999 || sum > 1.001 {
		t.Errorf("the weights come to %v", sum)
	}
}

func TestSignsOfAVatOfTheBook(t *testing.T) {
	home := t.TempDir()
	run(t, "", "rehearse", "--plain", "--speed", "max", "--home", home)
	out, errs, code := run(t, home, "signs", "--vat", "garden-bin", "--seen", "blue, cloudy")
	if code != 0 || errs != "" || !strings.Contains(out, "sodium dithionite") || !strings.Contains(out, "most likely: ") {
		t.Errorf("%d %q\n%s", code, errs, out)
	}
	if _, errs, code := run(t, home, "signs", "--vat", "pot", "--seen", "blue"); code != 1 || !strings.Contains(errs, "no vat is called pot; there are garden-bin") {
		t.Errorf("%d %q", code, errs)
	}
}

func TestSignsRefusals(t *testing.T) {
	for _, c := range []struct {
		code int
		says string
		args string
	}{
		{2, "signs needs --vat, or --recipe and --fill", "--seen blue"},
		{2, "signs needs --seen, or a reading", "--recipe soda --fill 60L"},
		{1, `no sign is called "glittering"; known signs: `, "--recipe soda --fill 60L --seen glittering"},
		{2, "not both", "--vat garden-bin --recipe soda --fill 60L --seen blue"},
		{2, "not both", "--vat garden-bin --fill 60L --seen blue"},
		{1, `no sign is called "coppry"; nearest: coppery film; known signs: `, "--recipe soda --fill 60L --seen coppry"},
		{1, "is no ferment vat", "--recipe soda --fill 60L --seen blue --fed 3d"},
		{1, "pH", "--recipe soda --fill 60L --seen blue --ph 17"},
		{1, "no recipe is called", "--recipe mud --fill 60L --seen blue"},
	} {
		out, errs, code := runAt(t, thursday, append([]string{"signs"}, strings.Fields(c.args)...)...)
		if code != c.code || out != "" || !strings.Contains(errs, c.says) || strings.Count(errs, "\n") != 1 {
			t.Errorf("signs %s: %d %q %q, want %d %q", c.args, code, out, errs, c.code, c.says)
		}
	}
}

// The signs and reckon dose say the same of a ferment vat that is weak: nobody knows when it was fed, fed yesterday, three days ago.
func TestAFermentIsAskedWhenItWasFed(t *testing.T) {
	for _, c := range []struct{ fed, says string }{
		{"", "when was it last fed? no food before three days since"}, {"26h", "no food before three days since the last, 1.1 days ago"}, {"3d", "60 g of wheat bran"},
	} {
		args := []string{"--recipe", "madder-bran", "--fill", "60L", "--temp", "33C", "--strip", "12s"}
		if c.fed != "" {
			args = append(args, "--fed", c.fed)
		}
		for _, of := range [][]string{{"signs"}, {"reckon", "dose"}} {
			out, errs, code := runAt(t, thursday, append(of, args...)...)
			out = strings.Join(strings.Fields(out), " ")
			if code != 0 || errs != "" || !strings.Contains(out, c.says) || !strings.Contains(strings.ToLower(out), "wait 24 h") && !strings.Contains(out, "Wait: 24 h") {
				t.Errorf("%v, fed %q: %d %q\n%s", of, c.fed, code, errs, out)
			}
			if c.fed != "3d" && strings.Contains(out, "g of wheat bran") {
				t.Errorf("%v, fed %q: food\n%s", of, c.fed, out)
			}
		}
	}
}

// A vat that has ended is asked about in vain; one whose end has begun, or that is half built, gets no dose.
func TestSignsOfAVatThatGetsNothing(t *testing.T) {
	for name, c := range map[string]struct {
		end  func(day.Head) day.Head
		then []day.Body
		says string
		code int
	}{
		"ended":    {func(h day.Head) day.Head { return h }, []day.Body{day.VatEnded{Why: "used up"}}, "it has ended on 28 March 2026", 1},
		"ending":   {func(h day.Head) day.Head { h.Setup.Ending = true; return h }, []day.Body{day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: string(day.DoUseUp)}}, "it is being ended: no alkali, no reducer", 0},
		"building": {func(h day.Head) day.Head { h.Opening = day.Opening{Number: 1}; return h }, nil, "build it to its end first", 0},
	} {
		home := t.TempDir()
		r, _ := recipes.Find("soda")
		head := c.end(day.Head{Vat: "garden-bin", Day: "2026-03-28", Zone: "UTC", Recipe: r, Setup: day.Setup{Fill: 60, Place: day.Outdoors, Units: "metric"},
			Opening: day.Opening{Number: 2, Built: true}})
		w, err := shelf.Open(home).NewDay(head)
		if err != nil {
			t.Fatal(err)
		}
		for i, b := range append([]day.Body{day.Opened{How: "tend"}}, c.then...) {
			if err := w.Append(day.Event{Seq: i + 1, At: time.Date(2026, 3, 28, 12, i, 0, 0, time.UTC), Body: b}); err != nil {
				t.Fatal(err)
			}
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		out, errs, code := runAt(t, thursday, "signs", "--home", home, "--vat", "garden-bin", "--seen", "blue, cloudy", "--ph", "9", "--strip", "3s", "--temp", "35C")
		if code != c.code || !strings.Contains(strings.Join(strings.Fields(out+errs), " "), c.says) || strings.Contains(out, " g of ") {
			t.Errorf("%s: %d %q\n%s", name, code, errs, out)
		}
	}
}

// The keys of signs --json. A weight is by judgement: it orders, and is no chance.
type signed struct {
	Worked string        `json:"worked"` // what worked at this vat; empty: nothing is known, or no vat was named
	Causes []signedCause `json:"causes"`
	Note   string        `json:"note"`
}

type signedCause struct {
	ID       string       `json:"id"`
	Name     string       `json:"name"`
	Rank     string       `json:"rank"`
	Weight   float64      `json:"weight"`
	Why      string       `json:"why"`
	Do       string       `json:"do"`
	How      string       `json:"how"`
	Doses    []signedDose `json:"doses"`
	ToC      *float64     `json:"to_c"`
	WaitMin  float64      `json:"wait_min"`
	Recheck  string       `json:"recheck"`
	Cautions []string     `json:"cautions"`
}

type signedDose struct {
	Powder   string      `json:"powder"`
	Role     recipe.Role `json:"role"`
	Grams    float64     `json:"grams"`
	Portions int         `json:"portions"`
}
