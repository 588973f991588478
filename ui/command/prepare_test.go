package command

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	"example.org/vatside/ui/paper"
)

var teatime = time.Date(2026, 11, 25, 12, 30, 0, 0, time.FixedZone("", 3600))

func prepares(t *testing.T, now time.Time, args ...string) preparedOut {
	t.Helper()
	out, errs, code := runAt(t, now, append([]string{"prepare", "--json"}, args...)...)
	var got preparedOut
	if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 || errs != "" {
		t.Fatalf("%v: %d %q %v", args, code, errs, err)
	}
	return got
}

// Rows of scour.csv through the command, for what a kilogram wants: detergent and alkali in %, litres, °C, minutes, baths.
func TestPrepareByTheTable(t *testing.T) {
	for _, c := range []struct {
		piece                                  string
		detergent, alkali, litres, temp, times [2]float64
		baths                                  [2]float64
		state                                  string
	}{
		{"1 kg cotton", [2]float64{20, 20}, [2]float64{40, 50}, [2]float64{20, 30}, [2]float64{95, 100}, [2]float64{60, 120}, [2]float64{1, 3}, "greige"},
		{"1 kg prepared cotton", [2]float64{10, 10}, [2]float64{10, 20}, [2]float64{20, 20}, [2]float64{60, 80}, [2]float64{30, 60}, [2]float64{1, 1}, "prepared"},
		{"1 kg linen", [2]float64{20, 20}, [2]float64{40, 50}, [2]float64{25, 25}, [2]float64{90, 90}, [2]float64{60, 120}, [2]float64{1, 3}, "greige"},
		{"1 kg hemp", [2]float64{20, 20}, [2]float64{40, 50}, [2]float64{25, 25}, [2]float64{90, 90}, [2]float64{60, 120}, [2]float64{1, 3}, "greige"},
		{"1 kg silk in gum", [2]float64{200, 250}, [2]float64{0, 9}, [2]float64{50, 70}, [2]float64{90, 95}, [2]float64{60, 180}, [2]float64{1, 2}, "in gum"},
		{"1 kg silk", [2]float64{10, 10}, [2]float64{0, 0}, [2]float64{30, 30}, [2]float64{40, 50}, [2]float64{20, 30}, [2]float64{1, 1}, "degummed"},
		{"1 kg wool", [2]float64{5, 10}, [2]float64{0, 0}, [2]float64{30, 30}, [2]float64{40, 60}, [2]float64{20, 60}, [2]float64{1, 1}, "yarn"},
		{"1 kg greasy wool", [2]float64{20, 30}, [2]float64{0, 0}, [2]float64{30, 40}, [2]float64{55, 60}, [2]float64{20, 20}, [2]float64{2, 3}, "greasy"},
	} {
		p := prepares(t, teatime, "--piece", c.piece).Pieces[0]
		ends := func(s spread) [2]float64 { return [2]float64{s.Low, s.High} }
		s := p.Scour
		if s == nil || ends(s.DetergentG) != c.detergent || ends(s.AlkaliG) != c.alkali || ends(s.WaterL) != c.litres || ends(s.TempC) != c.temp ||
			ends(s.TimeMin) != c.times || ends(s.Baths) != c.baths || string(p.State) != c.state || (s.Alkali == nil) != (c.alkali[1] == 0) {
			t.Errorf("%s: %s %+v", c.piece, p.State, s)
		}
	}
	wool := prepares(t, teatime, "--piece", "300 g wool", "--state", "greasy").Pieces[0]
	if wool.Scour.Detergent != "neutral detergent" || wool.Scour.TempC.High > 60 || wool.WetOut.TempC.Low != 30 || wool.WetOut.TimeMin.Low != 30 {
		t.Errorf("%+v", wool)
	}
}

// 420 g of linen into a soda vat of 60 L at 10:00 the next day, asked at noon: the schedule runs in order, scouring before
// wetting out before the first piece, and the build ends at ten; only what applies is on the checklist.
func TestPrepareADay(t *testing.T) {
	got := prepares(t, teatime, "--piece", "420 g linen", "--recipe", "soda", "--fill", "60L", "--ready-by", "10:00", "--heater", "1000W", "--place", "outdoors", "--children")
	if got.ReadyAt != "2026-11-26T10:00:00+01:00" || got.BeginAt != got.Schedule[0].At || got.Pieces[0].Scour.DetergentG.Likely != 8.4 || got.Pieces[0].WetOut.WaterL != 8.4 {
		t.Errorf("%+v", got)
	}
	var whats []string
	last := ""
	for _, s := range got.Schedule {
		at, err := time.Parse(time.RFC3339, s.At)
		if err != nil || s.At < last || at.Add(time.Duration(s.ForMin*float64(time.Minute))).After(thursday.Add(4*time.Hour)) {
			t.Errorf("%+v: %v", s, err)
		}
		last = s.At
		whats = append(whats, s.What)
	}
	if strings.Join(whats, "; ") != "scour the linen, bath 1 of 2; scour the linen, bath 2 of 2; heat the water; build the vat; wet out the linen; the first piece goes in" {
		t.Errorf("%v", whats)
	}
	if got.Schedule[4].At != "2026-11-26T09:00:00+01:00" || got.Schedule[5].At != got.ReadyAt || got.Schedule[1].Check == "" {
		t.Errorf("%+v", got.Schedule)
	}
	if !strings.Contains(strings.Join(got.Notes, " "), "3 to 5 s") {
		t.Errorf("%v", got.Notes)
	}
	var ids []string
	for _, i := range got.Checklist {
		ids = append(ids, i.ID)
		if i.What == "" || i.Why == "" || i.When == "" {
			t.Errorf("%+v", i)
		}
	}
	for _, id := range []string{"eye-rinse", "number", "mask", "gloves", "glasses", "rcd", "heater", "children", "fence", "laptop", "line", "tray", "towels", "rinse", "water", "powders"} {
		if !slices.Contains(ids, id) {
			t.Errorf("%s is missing of %v", id, ids)
		}
	}
	if !got.Checklist[0].Safety || got.Checklist[len(got.Checklist)-1].Safety || slices.Contains(ids, "net") || slices.Contains(ids, "tags") {
		t.Errorf("%v", ids)
	}
	out, errs, code := runAt(t, teatime, "prepare", "--piece", "420 g linen", "--piece", "90 g scoured cotton", "--ready-by", "10:00")
	for _, want := range []string{"420 g greige linen:", "8.4 g  of neutral detergent", "Scoured already.", "Wed 16:00  scour the linen, bath 1 of 2", "[ ] long whole gloves", "drop of water"} {
		if !strings.Contains(out, want) || code != 0 || errs != "" {
			t.Errorf("%q is missing (%d %q):\n%s", want, code, errs, out)
		}
	}
	for _, l := range strings.Split(out, "\n") {
		if len([]rune(l)) > paper.LineWidth {
			t.Errorf("%d wide: %s", len([]rune(l)), l)
		}
	}
}

// A vat of the book: built, so that it is warmed and looked at; with the heater's time.
func TestPrepareOnAVatOfTheBook(t *testing.T) {
	home := t.TempDir()
	run(t, "", "rehearse", "--plain", "--speed", "max", "--home", home)
	out, errs, code := run(t, home, "prepare", "--vat", "garden-bin", "--piece", "420 g scoured linen", "--heater", "1000W")
	for _, want := range []string{"warm the vat", "look: is it ready", "wet out the linen", "the heater is behind an RCD of 30 mA"} {
		if code != 0 || errs != "" || !strings.Contains(out, want) {
			t.Errorf("%q: %d %q\n%s", want, code, errs, out)
		}
	}
	for _, not := range []string{"build the vat", "dust mask", "scour the"} {
		if strings.Contains(out, not) {
			t.Errorf("%q does not apply:\n%s", not, out)
		}
	}
	if _, errs, code := run(t, home, "prepare", "--vat", "pot"); code != 1 || !strings.Contains(errs, "no vat is called pot; there are garden-bin") {
		t.Errorf("%d %q", code, errs)
	}
}

// An ended vat is not prepared for; a class with children has the lines of both; the list stands by its moments, each once.
func TestPrepareForClassesAndEndedVats(t *testing.T) {
	out, errs, code := runAt(t, teatime, "prepare", "--recipe", "soda", "--fill", "20L", "--class", "--children", "--piece", "3 kg scoured cotton")
	flat := strings.Join(strings.Fields(out), " ")
	for _, want := range []string{"a step stool", "gloves and glasses that fit", "children touch no powder", "fenced off from children", "3 kg scoured cotton:",
		"Mind: with children about take a sugar–lime or a ferment vat, not one with dithionite; adults alone weigh and add", "667 g at once"} {
		if code != 0 || errs != "" || !strings.Contains(flat, want) {
			t.Errorf("no %q: %d %q\n%s", want, code, errs, out)
		}
	}
	for _, once := range []string{"The evening before:", "At the start:", "Before powders:"} {
		if strings.Count(out, once) != 1 {
			t.Errorf("%q stands there %d times:\n%s", once, strings.Count(out, once), out)
		}
	}
	if out, _, _ := runAt(t, teatime, "prepare", "--recipe", "sugar-lime", "--fill", "20L", "--children"); strings.Contains(out, "with children about") {
		t.Errorf("%s", out)
	}
	if out, _, _ := runAt(t, teatime, "prepare", "--recipe", "madder-bran", "--fill", "20L"); !strings.Contains(out, "build the vat, 7 days 3 h") {
		t.Errorf("%s", out)
	}
	if got := prepares(t, teatime, "--piece", "3 kg scoured cotton").Pieces[0]; got.Piece != "3 kg scoured cotton" || got.State != "scoured" {
		t.Errorf("%+v", got)
	}
	home := rehearsed(t, 2)
	rewritten(t, home, "garden-bin", open, day.VatEnded{})
	if out, errs, code := run(t, home, "prepare", "--vat", "garden bin"); code != 1 || out != "" || !strings.Contains(errs, "the vat Garden bin has ended, on ") {
		t.Errorf("%d %q %q", code, out, errs)
	}
	if _, errs, _ := run(t, home, "prepare", "--vat", "pot"); !strings.Contains(errs, "there are garden-bin-2\n") {
		t.Errorf("%q", errs)
	}
}

// A start that was not wished for goes to a day on which it can be kept; one that was typed stays, and says that it is late.
func TestPrepareLate(t *testing.T) {
	morning := time.Date(2026, 11, 25, 9, 30, 0, 0, time.UTC)
	usual := prepares(t, morning, "--piece", "420 g linen")
	if usual.ReadyAt != "2026-11-26T10:00:00Z" || !strings.Contains(strings.Join(usual.Notes, " "), "no start was wished for") {
		t.Errorf("%s %v", usual.ReadyAt, usual.Notes)
	}
	typed := prepares(t, morning, "--piece", "420 g linen", "--ready-by", "10:00")
	if typed.ReadyAt != "2026-11-25T10:00:00Z" || !strings.Contains(strings.Join(typed.Warnings, " "), "it should have begun at 04:00, 5 h 30 min ago; begun now the first piece goes in at 15:30") {
		t.Errorf("%s %v", typed.ReadyAt, typed.Warnings)
	}
	if ferment := prepares(t, morning, "--recipe", "madder-bran", "--fill", "20L"); ferment.ReadyAt < "2026-12-02" {
		t.Errorf("a ferment vat is ready on %s", ferment.ReadyAt)
	}
}

func TestPrepareRefusals(t *testing.T) {
	for _, c := range []struct {
		code int
		says string
		args []string
	}{
		{2, "prepare needs --piece, --recipe or --vat", nil},
		{2, "--recipe needs --fill", []string{"--recipe", "soda"}},
		{2, "--fill needs --recipe", []string{"--piece", "420 g linen", "--fill", "60L"}},
		{2, "--vat has its recipe", []string{"--vat", "bin", "--recipe", "soda", "--fill", "60L"}},
		{2, "--by needs --stove", []string{"--piece", "420 g linen", "--by", "gas"}},
		{2, "--state needs --piece", []string{"--recipe", "soda", "--fill", "60L", "--state", "raw"}},
		{2, "--piece is given with nothing in it", []string{"--piece", " "}},
		{2, "--vat is given with nothing in it", []string{"--vat", ""}},
		{2, "--ready-by is given with nothing in it", []string{"--piece", "420 g linen", "--ready-by", ""}},
		{2, "unknown command", []string{"linen"}},
		{1, "--piece: linen: write the dry weight and the fibre", []string{"--piece", "linen"}},
		{1, "--piece: 420 g: the fibre is missing", []string{"--piece", "420 g"}},
		{1, "--piece: 0 g linen weighs nothing", []string{"--piece", "0 g linen"}},
		{1, "tweed is not a fibre known here", []string{"--piece", "420 g tweed"}},
		{1, `"mouldy" is no state of goods known here`, []string{"--piece", "420 g mouldy linen"}},
		{1, `--state: wool is scoured as yarn or greasy, not as "greige"`, []string{"--piece", "420 g wool", "--state", "greige"}},
		{1, "--state: \"old\" is no state", []string{"--piece", "420 g wool", "--state", "old"}},
		{1, "no recipe is called", []string{"--recipe", "mud", "--fill", "60L"}},
		{1, "--fill: ", []string{"--recipe", "soda", "--fill", "60"}},
		{1, "--ready-by: 25:00 is no time of day", []string{"--piece", "420 g linen", "--ready-by", "25:00"}},
		{1, "--heater: ", []string{"--piece", "420 g linen", "--heater", "hot"}},
		{1, "--place: cellar is no place of a vat", []string{"--piece", "420 g linen", "--place", "cellar"}},
		{1, `--water: "wet" is not known of water here`, []string{"--piece", "420 g linen", "--water", "hard, wet"}},
		{1, "--by: coal is not a stove known here", []string{"--piece", "420 g linen", "--stove", "1kW", "--by", "coal"}},
		{1, "--units is metric, us or imperial", []string{"--piece", "420 g linen", "--units", "feet"}},
		{1, "no vat is called bin; there are none", []string{"--vat", "bin"}},
	} {
		out, errs, code := runAt(t, thursday, append([]string{"prepare"}, c.args...)...)
		if code != c.code || out != "" || !strings.Contains(errs, c.says) || strings.Count(errs, "\n") != 1 {
			t.Errorf("prepare %v: %d %q %q, want %d %q", c.args, code, out, errs, c.code, c.says)
		}
	}
}

// The keys of prepare --json. scour is null for goods that are scoured.
type preparedOut struct {
	ReadyAt   string          `json:"ready_at"`
	BeginAt   string          `json:"begin_at"`
	Pieces    []preparedPiece `json:"pieces"`
	Checklist []preparedItem  `json:"checklist"`
	Schedule  []preparedSlot  `json:"schedule"`
	Warnings  []string        `json:"warnings"`
	Notes     []string        `json:"notes"`
}

type preparedPiece struct {
	Piece  string         `json:"piece"`
	Fibre  string         `json:"fibre"`
	DryG   float64        `json:"dry_g"`
	State  practice.State `json:"state"`
	Scour  *preparedScour `json:"scour"`
	WetOut preparedWet    `json:"wet_out"`
}

type preparedScour struct {
	Detergent  string   `json:"detergent"`
	DetergentG spread   `json:"detergent_g"`
	Alkali     *string  `json:"alkali"`
	AlkaliG    spread   `json:"alkali_g"`
	WaterL     spread   `json:"water_l"`
	TempC      spread   `json:"temp_c"`
	TimeMin    spread   `json:"time_min"`
	Baths      spread   `json:"baths"`
	How        string   `json:"how"`
	Check      string   `json:"check"`
	Cautions   []string `json:"cautions"`
	Evidence   string   `json:"evidence"`
}

type preparedWet struct {
	WaterL   float64 `json:"water_l"`
	TempC    spread  `json:"temp_c"`
	TimeMin  spread  `json:"time_min"`
	How      string  `json:"how"`
	Check    string  `json:"check"`
	Evidence string  `json:"evidence"`
}

type preparedItem struct {
	ID       string `json:"id"`
	What     string `json:"what"`
	Why      string `json:"why"`
	When     string `json:"when"`
	Safety   bool   `json:"safety"`
	Evidence string `json:"evidence"`
}

type preparedSlot struct {
	At     string  `json:"at"`
	ForMin float64 `json:"for_min"`
	What   string  `json:"what"`
	How    string  `json:"how"`
	Check  string  `json:"check"`
}
