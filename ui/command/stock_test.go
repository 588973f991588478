package command

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/stock"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/shelf"
)

// onDate runs one command line at a home, on a date of 2026.
func onDate(t *testing.T, home, date string, args ...string) (out, errs string, code int) {
	t.Helper()
	now, err := time.Parse("2006-01-02 15:04", "2026-"+date)
	if err != nil {
		t.Fatal(err)
	}
	var o, e strings.Builder
	code = Main(args, World{In: strings.NewReader(""), Out: &o, Err: &e, Now: func() time.Time { return now }, Getenv: func(k string) string {
		return map[string]string{"VATSIDE_HOME": home}[k]
	}})
	return o.String(), e.String(), code
}

// stockOf is stock --json.
func stockOf(t *testing.T, home, date string, args ...string) stocked {
	t.Helper()
	out, errs, code := onDate(t, home, date, append([]string{"stock", "--json"}, args...)...)
	var s stocked
	if err := json.Unmarshal([]byte(out), &s); err != nil || code != 0 || errs != "" {
		t.Fatalf("%d %q %v\n%s", code, errs, err, out)
	}
	return s
}

// vatDay writes a day of a soda vat of 60 L with doses at an hour of a date.
func vatDay(t *testing.T, home, vat, date string, rehearsed bool, bodies ...day.Body) {
	t.Helper()
	var soda recipe.Recipe
	for _, r := range recipes.Builtin() {
		if r.ID == "soda" {
			soda = r
		}
	}
	w, err := shelf.Open(home).NewDay(day.Head{Vat: vat, Day: date, Zone: "UTC", Recipe: soda, Rehearsed: rehearsed,
		Setup: day.Setup{Name: vat, Fill: 60, Place: day.Outdoors, Units: "metric"}, Opening: day.Opening{Number: 1}})
	if err != nil {
		t.Fatal(err)
	}
	at, _ := time.Parse(time.DateOnly, date)
	for i, b := range append([]day.Body{day.Opened{How: "build"}}, bodies...) {
		if err := w.Append(day.Event{Seq: i + 1, At: at.Add(10*time.Hour + time.Duration(i)*time.Minute), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
}

func TestStockFromBuyingToGone(t *testing.T) {
	home := filepath.Join(t.TempDir(), "home")
	do := func(date, says string, args ...string) {
		t.Helper()
		out, errs, code := onDate(t, home, date, append([]string{"stock"}, args...)...)
		if code != 0 || errs != "" || !strings.Contains(out, says) {
			t.Fatalf("stock %v: %d %q %q, want %q", args, code, out, errs, says)
		}
	}
	if out, _, code := onDate(t, home, "03-01 09:00", "stock"); code != 0 || !strings.Contains(out, "first tin") {
		t.Errorf("%d %q", code, out)
	}
	if _, err := os.Stat(home); err == nil {
		t.Fatal("looking made the home")
	}
	do("03-01 09:00", "T1: 500 g of sodium dithionite for 12.50.", "add", "--material", "sodium dithionite", "--mass", "500g", "--price", "12,50")
	do("03-01 09:00", "T2: 1 kg of soda ash.", "add", "--material", "soda ash", "--mass", "1 kg", "--opened", "2026-02-20")
	do("03-02 09:00", "T1 opened.", "open", "t1")

	soda := func(m float64) day.Body {
		return day.PowderWeighed{OfStep: day.OfStep{Step: 3}, Powder: "soda", Material: "soda ash", Mass: quantity.Mass(m)}
	}
	vatDay(t, home, "garden-bin", "2026-03-05", false, soda(300), soda(80), soda(-20),
		day.PowderAdded{OfStep: day.OfStep{Step: 6}, Powder: "soda", Material: "soda ash", Mass: 360}, // the same soda: not twice
		day.PowderAdded{Powder: "reducer", Material: "sodium dithionite", Mass: 30},
		day.Fed{Powder: "reducer", Material: "sodium dithionite", Mass: 10},
		day.PowderAdded{Powder: "reducer", Material: "sodium dithionite", Mass: 99},
		day.Corrected{Of: 8, Way: "undone"})
	vatDay(t, home, "pail", "2026-03-06", true, soda(200)) // rehearsed: it draws on nothing

	s := stockOf(t, home, "03-10 09:00", "--recipe", "soda", "--fill", "120L")
	if len(s.Tins) != 2 || s.Tins[0].LeftG != 460 || s.Tins[1].LeftG != 640 {
		t.Fatalf("%+v", s.Tins)
	}
	if a := s.Tins[0]; a.ID != "T1" || a.Substance != recipe.Dithionite || a.BoughtOn != "2026-03-01" || a.OpenedOn == nil || *a.OpenedOn != "2026-03-02" ||
		a.FullG != 500 || a.Price == nil || *a.Price != 12.5 || *a.Strength != 1 || a.AgeDays != 8 || len(a.Words) == 0 {
		t.Errorf("%+v", a)
	}
	if b := s.Tins[1]; b.Price != nil || b.BoughtOn != "2026-02-20" {
		t.Errorf("%+v", b)
	}
	// 120 L take 180 g of grains, 720 g of soda ash and 240 g of dithionite.
	want := map[string][3]float64{"indigo": {180, 0, 180}, "soda": {720, 640, 80}, "reducer": {240, 240, 0}}
	for _, n := range s.Needs {
		if w := want[n.Powder]; n.NeededG != w[0] || n.ThereG != w[1] || n.ShortG != w[2] || n.Enough != (w[2] == 0) {
			t.Errorf("%+v, want %v", n, w)
		}
	}
	if len(s.Buy) != 2 || s.Buy[1] != (stockedBuy{"soda ash", 80}) {
		t.Errorf("%+v", s.Buy)
	}
	do("03-11 09:00", "T1 weighed: 412 g in it.", "weigh", "T1", "412g")
	do("09-11 09:00", "Test the dithionite of T1: opened 6 months ago.")
	do("09-11 09:00", "yellow-green after 6 min, 60 % strong", "test", "T1", "--turned", "6 min", "--strength", "60%")
	if got := stockOf(t, home, "09-12 09:00", "--recipe", "soda", "--fill", "60L").Tins[0]; *got.Strength != 0.6 || got.LeftG != 412 {
		t.Errorf("%+v", got)
	}
	do("09-13 09:00", "did not turn yellow-green within 10 min.\nCaution: ", "test", "T1", "--not")
	do("09-13 09:00", "Taken back: T1 tested: it did not turn yellow-green within 10 min.", "undo")
	do("09-13 09:01", "T1 is not fit for use: caked, acrid.\nCaution: neither test nor use it", "test", "T1", "--caked", "--smells")
	do("09-13 09:02", "Do not use the dithionite of T1: caked, acrid.")
	do("09-14 09:00", "T1 is gone: hazardous waste.", "gone", "T1", "--why", "hazardous waste")
	if got := stockOf(t, home, "09-14 09:00").Tins; len(got) != 1 {
		t.Errorf("%+v", got)
	}
}

func TestStockRefusals(t *testing.T) {
	home := t.TempDir()
	for _, m := range []string{"sodium dithionite", "soda ash"} {
		if _, errs, code := onDate(t, home, "03-01 09:00", "stock", "add", "--material", m, "--mass", "500g"); code != 0 {
			t.Fatal(errs)
		}
	}
	before, err := os.ReadFile(filepath.Join(home, "stock.toml"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		code int
		says string
		args string
	}{
		{2, "stock add needs --material, --mass", "add"},
		{2, "stock add needs --mass", "add --material lime"},
		{1, "--mass: ", "add --material lime --mass 500"},
		{1, "--mass: ", "add --material lime --mass 5L"},
		{1, "--price: ", "add --material lime --mass 500g --price 5eur"},
		{1, "--strength: ", "add --material lime --mass 500g --strength 60"},
		{1, `--opened: "yesterday" is not a date; write it as 2026-03-01`, "add --material lime --mass 500g --opened yesterday"},
		{1, "2026-04-01 is still to come: say when the tin was opened", "add --material lime --mass 500g --opened 2026-04-01"},
		{1, "2026-04-01 is still to come: say when the tin was bought", "add --material lime --mass 500g --bought 2026-04-01"},
		{1, "--strength: a powder without strength is no use", "add --material lime --mass 500g --strength 0%"},
		{1, "--strength: a powder without strength is no use", "test T1 --turned 5min --strength 0%"},
		{1, "quicklime boils up", "add --material quicklime --mass 500g"},
		{1, `there is no tin "T7": there are T1, T2`, "weigh T7 5g"},
		{1, "cannot hold 900 g", "weigh T1 900g"},
		{1, "", "weigh T1 lots"},
		{2, "stock test needs one of", "test T1"},
		{2, "stock test needs one of", "test T1 --not --turned 5min"},
		{2, "--turned is given with nothing in it", "test T1 --turned="},
		{1, "only a reducer", "test T2 --not"},
		{2, "stock gone needs --why", "gone T1"},
		{2, "write it as vatside stock open TIN", "open"},
		{2, "", "burn T1"},
		{2, "--recipe and --fill together", "--recipe soda"},
		{1, "no recipe is called", "--recipe mud --fill 5L"},
		{1, "no vat", "--recipe soda --fill 0L"},
		{1, "--units", "--units feet"},
	} {
		out, errs, code := onDate(t, home, "03-01 10:00", append([]string{"stock"}, strings.Fields(c.args)...)...)
		if code != c.code || out != "" || !strings.Contains(errs, c.says) || strings.Count(errs, "\n") != 1 {
			t.Errorf("stock %s: %d %q %q, want %d %q", c.args, code, out, errs, c.code, c.says)
		}
	}
	if after, _ := os.ReadFile(filepath.Join(home, "stock.toml")); string(after) != string(before) {
		t.Error("a refusal changed the file")
	}
}

// What an act of the shelf has to be thought of with it.
func TestStockAnswersWithCare(t *testing.T) {
	home := filepath.Join(t.TempDir(), "home")
	for _, c := range []struct{ args, says, not string }{
		{"add|--material|sodium dithionite|--mass|200g|--opened|2026-02-01", "T1: 200 g of sodium dithionite.", "No recipe"},
		{"add|--material|flour|--mass|1kg", "No recipe at hand takes flour", ""},
		{"add|--material|wheat bran|--mass|1kg", "T3: 1 kg of wheat bran.", "No recipe"},
		{"add|--material|washing soda|--mass|1 kg", "T4", "No recipe"},
		{"|--recipe|soda|--fill|60L", "sodium dithionite: perhaps not enough: by its age it may count for 84 g only; test T1", "dithionite: enough"},
		{"|--recipe|soda|--fill|60L", "972 g of washing soda (T4) would do the same, 2.7 times the weight", ""},
		{"test|T1|--caked", "T1 is not fit for use: caked.", ""},
		{"undo", "Taken back: T1 caked.", "number"},
		{"gone|T1|--why|poured down the drain", "Caution: what is left of it goes dry, shut and labelled to the hazardous-waste point; never down a drain", ""},
		{"undo", "Taken back: T1 is gone: poured down the drain.", ""},
		{"gone|T1|--why|used up", "T1 is gone: used up.", "Caution"},
		{"gone|T2|--why|mice", "T2 is gone: mice.", "Caution"},
	} {
		args := append([]string{"stock"}, slices.DeleteFunc(strings.Split(c.args, "|"), func(s string) bool { return s == "" })...)
		out, errs, code := onDate(t, home, "09-01 09:00", args...)
		if out = strings.Join(strings.Fields(out), " "); code != 0 || errs != "" || !strings.Contains(out, c.says) || c.not != "" && strings.Contains(out, c.not) {
			t.Errorf("%v: %d %q %q, want %q and not %q", args, code, out, errs, c.says, c.not)
		}
	}
}

// A fault in the file is told with its line, and the rest is shown.
func TestStockFaultIsTold(t *testing.T) {
	home := t.TempDir()
	for _, m := range []string{"soda ash", "calcium hydroxide"} {
		onDate(t, home, "03-01 09:00", "stock", "add", "--material", m, "--mass", "500g")
	}
	path := filepath.Join(home, "stock.toml")
	data, _ := os.ReadFile(path)
	if err := os.WriteFile(path, []byte(strings.Replace(string(data), `"500 g"`, `"half a tin"`, 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	out, errs, code := onDate(t, home, "03-01 09:00", "stock")
	if code != 0 || !strings.Contains(out, "T2: calcium hydroxide") || !strings.Contains(errs, path+":4: event 1 cannot be read: holds: ") {
		t.Errorf("%d %q\n%s", code, errs, out)
	}
}

type stocked struct {
	Tins  []stockedTin  `json:"tins"`
	Needs []stockedNeed `json:"needs"`
	Buy   []stockedBuy  `json:"buy"`
	Act   string        `json:"act"`
}

type stockedTin struct {
	ID        string           `json:"id"`
	Material  string           `json:"material"`
	Substance recipe.Substance `json:"substance"`
	State     stock.Fitness    `json:"state"`
	BoughtOn  string           `json:"bought_on"`
	OpenedOn  *string          `json:"opened_on"`
	FullG     float64          `json:"full_g"`
	LeftG     float64          `json:"left_g"`
	Price     *float64         `json:"price"`
	Strength  *float64         `json:"strength"` // null: indigo without a label
	AgeDays   int              `json:"age_days"` // since it was opened, else bought
	Words     []string         `json:"words"`
}

type stockedNeed struct {
	Recipe   string   `json:"recipe"`
	FillL    float64  `json:"fill_l"`
	Powder   string   `json:"powder"`
	Material string   `json:"material"`
	NeededG  float64  `json:"needed_g"`
	ThereG   float64  `json:"there_g"`
	ShortG   float64  `json:"short_g"`
	Enough   bool     `json:"enough"`
	From     []string `json:"from"`
	Test     []string `json:"test"`    // short only if these are as weak as their age allows
	Instead  *stead   `json:"instead"` // what would do the same; not counted
}

type stead struct {
	Tin     string  `json:"tin"`
	NeededG float64 `json:"needed_g"`
	ThereG  float64 `json:"there_g"`
}

type stockedBuy struct {
	Material string  `json:"material"`
	MassG    float64 `json:"mass_g"`
}
