package command

import (
	"encoding/json"
	"strings"
	"testing"
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
		{1, "pH", "--recipe soda --fill 60L --seen blue --ph 17"},
		{1, "no recipe is called", "--recipe mud --fill 60L --seen blue"},
	} {
		out, errs, code := runAt(t, thursday, append([]string{"signs"}, strings.Fields(c.args)...)...)
		if code != c.code || out != "" || !strings.Contains(errs, c.says) || strings.Count(errs, "\n") != 1 {
			t.Errorf("signs %s: %d %q %q, want %d %q", c.args, code, out, errs, c.code, c.says)
		}
	}
}
