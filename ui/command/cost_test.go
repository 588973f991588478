package command

import (
	"encoding/json"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// What a vat of a home cost: 60 g of 500 g for 12.50 is 1.50, worked by hand; the other vat's dose is not in it.
func TestCost(t *testing.T) {
	home := t.TempDir()
	dose := func(material string, grams float64) day.Body {
		return day.PowderAdded{Powder: "reducer", Material: material, Mass: quantity.Grams(grams)}
	}
	if out, errs, code := onDate(t, home, "03-01 09:00", "stock", "add", "--material", "sodium dithionite", "--mass", "500g", "--price", "12.50", "--opened", "2026-03-01"); code != 0 {
		t.Fatal(out, errs)
	}
	vatDay(t, home, "bin", "2026-03-28", false, dose("sodium dithionite", 40), dose("sodium dithionite", 20), dose("soda ash", 120))
	vatDay(t, home, "pail", "2026-03-28", false, dose("sodium dithionite", 100))
	ask := func(args ...string) (c costed) {
		t.Helper()
		out, errs, code := onDate(t, home, "03-30 09:00", append([]string{"cost", "--json"}, args...)...)
		if err := json.Unmarshal([]byte(out), &c); err != nil || code != 0 || errs != "" {
			t.Fatalf("%d %q %v\n%s", code, errs, err, out)
		}
		return c
	}
	c := ask("bin")
	if c.Vat != "bin" || *c.Cost != 1.5 || len(c.Powders) != 2 || *c.Powders[0].Cost != 1.5 || c.Powders[0].PricedG != 60 ||
		!reflect.DeepEqual(c.Powders[1], costedPowder{"soda ash", 120, 0, nil}) || c.TendingCost != nil || c.WorkCost != nil || strings.Contains(strings.Join(c.Notes, " "), "last paid") {
		t.Errorf("%+v", c)
	}
	if c = ask("pail"); *c.Cost != 2.5 {
		t.Errorf("the other vat cost %v", *c.Cost)
	}
	if c = ask("bin", "--hour", "60"); *c.TendingCost != 3 || *c.Cost != 4.5 { // three minutes
		t.Errorf("with hours: %+v", c)
	}
	for _, bad := range []struct {
		args []string
		says string
		code int
	}{
		{[]string{"cost", "tub"}, "no vat is called", 1},
		{[]string{"cost", "bin", "--hour", "-1"}, "costs nothing or more", 1},
		{[]string{"cost", "bin", "--kwh", "cheap"}, "--kwh", 1},
		{[]string{"cost", "bin", "--piece", "A1"}, "no piece was dipped", 1},
		{[]string{"cost", "bin", "pail"}, "2 arguments", 2},
	} {
		if _, errs, code := onDate(t, home, "03-30 09:00", bad.args...); code != bad.code || !strings.Contains(errs, bad.says) {
			t.Errorf("%v: %d %q", bad.args, code, errs)
		}
	}
}

// A price or a rate that was not told is a question mark, never nothing; the pieces' own hours stand beside the vat's sum, and
// all of it together is what the pieces of an ended vat, that carry it all, sum up to.
func TestCostInWords(t *testing.T) {
	home := playedDays(t, theBin...)
	ask := func(args ...string) (out, errs string, code int) {
		out, errs, code = onDate(t, home, "06-01 09:00", append([]string{"cost", "garden-bin"}, args...)...)
		return strings.Join(strings.Fields(out), " "), errs, code
	}
	out, errs, code := ask()
	if code != 0 || errs != "" || !strings.Contains(out, "Garden bin, 2 days: no price is told yet.") || !strings.Contains(out, " ? heat, 2.4") ||
		!strings.Contains(out, " ? building and tending") || !strings.Contains(out, "powders ?, heat ?, the vat's hours ?, its own ?") || strings.Contains(out, "0.00") {
		t.Errorf("%d %q\n%s", code, errs, out)
	}
	out, _, _ = ask("--hour", "20")
	m := regexp.MustCompile(`: the vat (\S+) so far, and (\S+) of work on its pieces: (\S+), without what is not told\.`).FindStringSubmatch(out)
	if m == nil || strings.Contains(out, "0.00") || !strings.Contains(out, "powders ?, heat ?, the vat's hours 1.20, its own 3.15") {
		t.Fatalf("%v\n%s", m, out)
	}
	var sums [3]quantity.Money
	for i := range sums {
		sums[i], _ = quantity.ParseMoney(m[i+1], quantity.Metric)
	}
	if sums[0]+sums[1] != sums[2] || sums[1] <= 0 {
		t.Errorf("%v", sums)
	}
}

// The keys of cost --json. Sums are in the dyer's own currency, null where no price or rate was told; share is of all that
// the vat cost. cost is without work_cost, the pieces' own hours; cost_with_work is both.
type costed struct {
	Vat         string         `json:"vat"`
	Rehearsed   bool           `json:"rehearsed"`
	Days        int            `json:"days"`
	Powders     []costedPowder `json:"powders"`
	HeatKWh     float64        `json:"heat_kwh"`
	HeatCost    *float64       `json:"heat_cost"`
	TendingH    float64        `json:"tending_h"`
	TendingCost *float64       `json:"tending_cost"`
	Cost        *float64       `json:"cost"`
	WorkCost    *float64       `json:"work_cost"`
	WithWork    *float64       `json:"cost_with_work"`
	Used        float64        `json:"used_share"`
	GoodsG      float64        `json:"goods_g"`
	Per100g     float64        `json:"cost_per_100g"`
	Pieces      []costedPiece  `json:"pieces"`
	Notes       []string       `json:"notes"`
}

type costedPowder struct {
	Material string   `json:"material"`
	Grams    float64  `json:"grams"`
	PricedG  float64  `json:"priced_g"`
	Cost     *float64 `json:"cost"`
}

type costedPiece struct {
	Day         string   `json:"day"`
	Tag         string   `json:"tag"`
	What        string   `json:"what"`
	Fibre       string   `json:"fibre"`
	DryG        float64  `json:"dry_g"`
	Dips        int      `json:"dips"`
	IndigoG     float64  `json:"indigo_g"`
	Share       float64  `json:"share"`
	PowdersCost *float64 `json:"powders_cost"`
	HeatCost    *float64 `json:"heat_cost"`
	TendingCost *float64 `json:"tending_cost"`
	WorkH       float64  `json:"work_h"`
	WorkCost    *float64 `json:"work_cost"`
	Cost        *float64 `json:"cost"`
	Per100g     float64  `json:"cost_per_100g"`
	Made        string   `json:"label_made"`
	Care        []string `json:"label_care"`
	Rubbing     []string `json:"label_rubbing"`
}
