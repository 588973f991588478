package command

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

func TestSheetNeedsNoVat(t *testing.T) {
	out, errs, code := runAt(t, thursday, "sheet", "--recipe", "soda", "--fill", "60L", "--piece", "A1=420 g linen, dark, table runner, of Mo", "--piece", "90 g cotton, 2 dips")
	if code != 0 || errs != "" {
		t.Fatalf("%d %q", code, errs)
	}
	for _, must := range []string{"SODA VAT", "[ ]  1  Weigh the pre-reduced indigo grains: 90 g", "liquor at most 50 °C", "table runner", "A2, dip 2"} {
		if !strings.Contains(out, must) {
			t.Errorf("no %q in\n%s", must, out)
		}
	}
	out, errs, code = runAt(t, thursday, "sheet", "--what", "safety", "--format", "md")
	if code != 0 || errs != "" || !strings.Contains(out, "## First aid") || !strings.Contains(out, "| 49 °C | more than 5 min |") {
		t.Errorf("%d %q\n%s", code, errs, out)
	}
	out, _, _ = runAt(t, thursday, "sheet", "--what", "tags", "--recipe", "soda", "--fill", "60L", "--piece", "A1=420 g linen, 3 dips")
	if !strings.Contains(out, "A1      420 g linen, 3 dips\n        [ ] wet out   [ ] [ ] [ ]\n") {
		t.Errorf("%s", out)
	}
}

// The vat is the one that is named, else the one last worked on; its file is its own, and never written over unasked.
func TestSheetOfAVat(t *testing.T) {
	home := rehearsed(t, 2)
	run := func(args ...string) (string, string, int) {
		return runAt(t, thursday, append([]string{"sheet", "--home", home}, args...)...)
	}
	for _, args := range [][]string{nil, {"garden bin"}, {"garden-bin/" + theDay}} {
		out, errs, code := run(args...)
		if code != 0 || errs != "" || !strings.Contains(out, "\nPieces\n------\n") || !strings.Contains(out, "[") && !strings.Contains(out, "finished") {
			t.Errorf("%v: %d %q\n%s", args, code, errs, out)
		}
	}
	if out, errs, code := run("garden-bin", "--what", "vat", "--units", "us"); code != 0 || errs != "" || !strings.Contains(out, "Pieces and their blues") || !strings.Contains(out, " oz ") {
		t.Errorf("%d %q\n%s", code, errs, out)
	}
	file := filepath.Join(t.TempDir(), "day.html")
	if out, errs, code := run("-o", file); code != 0 || out != "" || errs != "" {
		t.Errorf("%d %q %q", code, out, errs)
	}
	text, err := os.ReadFile(file)
	if err != nil || !strings.HasPrefix(string(text), "<!DOCTYPE html>") {
		t.Errorf("%v %.40s", err, text)
	}
	if _, errs, code := run("-o", file, "--format", "txt"); code != 1 || !strings.Contains(errs, "is there already: name another file, or write over it with --force") {
		t.Errorf("%d %q", code, errs)
	}
	if again, _ := os.ReadFile(file); string(again) != string(text) {
		t.Error("the file was written over")
	}
	if _, errs, code := run("-o", file, "--format", "txt", "--force"); code != 0 || errs != "" {
		t.Errorf("%d %q", code, errs)
	}
	if again, _ := os.ReadFile(file); !strings.HasPrefix(string(again), "GARDEN BIN\n") {
		t.Errorf("%.40s", again)
	}
}

// A file's ending says its form, or it is asked for; tags are of a day that has pieces.
func TestSheetForms(t *testing.T) {
	dir := t.TempDir()
	sheet := func(home string, args ...string) (string, string, int) {
		return runAt(t, thursday, append([]string{"sheet", "--home", home}, args...)...)
	}
	if out, errs, code := sheet(dir, "--what", "safety", "-o", filepath.Join(dir, "s.pdf")); code != 2 || out != "" ||
		errs != "vatside: a sheet is written as txt, md, html, not as pdf: name -o so, or say --format; see vatside sheet --help\n" {
		t.Errorf("%d %q %q", code, out, errs)
	}
	for _, args := range [][]string{{"-o", "s.pdf", "--format", "txt"}, {"-o", "s.TXT"}, {"-o", "s"}, {"-o", "s.htm"}} {
		args[1] = filepath.Join(dir, args[1])
		if _, errs, code := sheet(dir, append([]string{"--what", "safety"}, args...)...); code != 0 || errs != "" {
			t.Errorf("%v: %d %q", args, code, errs)
		}
	}
	home := playedDays(t, theBin...)
	vatDay(t, home, "garden-bin", "2026-06-01", false)
	vatDay(t, home, "pail", "2026-06-01", false)
	if _, errs, code := sheet(home, "garden-bin", "--what", "tags"); code != 1 || !strings.Contains(errs, "day 2026-06-01 of vat garden-bin has no pieces to tag; an earlier one has: name it as garden-bin/2026-05-10") {
		t.Errorf("%d %q", code, errs)
	}
	if _, errs, code := sheet(home, "pail", "--what", "tags"); code != 1 || !strings.Contains(errs, "name another day as pail/DAY") {
		t.Errorf("%d %q", code, errs)
	}
	if out, errs, code := sheet(home, "garden-bin/2026-05-10", "--what", "tags"); code != 0 || out == "" {
		t.Errorf("%d %q", code, errs)
	}
	if _, errs, code := sheet(home, "garden-bin", "--what", "slips"); code != 1 || !strings.Contains(errs, "day 2026-06-01 of vat garden-bin has no pieces to take home; an earlier one has: name it as garden-bin/2026-05-") {
		t.Errorf("%d %q", code, errs)
	}
	if out, errs, code := sheet(home, "garden-bin/2026-05-10", "--what", "slips"); code != 0 || !strings.Contains(out, "whose: ____") {
		t.Errorf("%d %q\n%s", code, errs, out)
	}
}

// Slips of a day to come have a name or room for one, and the same figures as data.
func TestSlipsToTakeHome(t *testing.T) {
	args := []string{"sheet", "--what", "slips", "--recipe", "soda", "--fill", "60L", "--piece", "A1=500 g linen, 3 dips, of Mo <b>", "--piece", "B1=90 g silk, 1 dip"}
	run := func(more ...string) string {
		out, errs, code := runAt(t, thursday, append(slices.Clone(args), more...)...)
		if code != 0 || errs != "" {
			t.Errorf("%v: %d %q", more, code, errs)
		}
		return out
	}
	for form, must := range map[string][]string{
		"txt":  {"\nMo <b>\n  A1: 500 g linen, 3 dips\n", "[ ] Rinse twice: 10 L plain water", "150 mL of 5 % vinegar", "\nwhose: ____"},
		"md":   {"\n## Mo \\<b\\>\n", "- [ ] Rinse twice: **10 L plain water", "## whose: ____"},
		"html": {"<p class=\"whose\">Mo &lt;b&gt;</p>", "<p class=\"whose\">whose: <span class=\"write\"></span></p>", "150 mL of 5 % vinegar"},
	} {
		out := run("--format", form)
		for _, m := range must {
			if !strings.Contains(out, m) {
				t.Errorf("%s has no %q:\n%s", form, m, out)
			}
		}
	}
	var got struct {
		Blocks []struct {
			Kind  string
			Slips []struct {
				Who    *string
				Pieces []string
				Goods  []struct {
					Of    string
					Steps []struct{ Title, Figure, Caution string }
					Care  []string
				}
				Rubbing string
			}
		}
	}
	if err := json.Unmarshal([]byte(run("--json")), &got); err != nil {
		t.Fatal(err)
	}
	if len(got.Blocks) != 1 || got.Blocks[0].Kind != "slips" || len(got.Blocks[0].Slips) != 2 {
		t.Fatalf("%+v", got)
	}
	mo, nobody := got.Blocks[0].Slips[0], got.Blocks[0].Slips[1]
	if *mo.Who != "Mo <b>" || nobody.Who == nil || *nobody.Who != "" || mo.Goods[0].Of != "Linen, A1" || len(mo.Goods[0].Steps) != 4 || len(mo.Goods[0].Care) != 3 || mo.Rubbing == "" {
		t.Errorf("%+v", got)
	}
}

func TestSheetAsData(t *testing.T) {
	out, errs, code := runAt(t, thursday, "sheet", "--home", rehearsed(t, 1), "--json")
	var got struct {
		Title  string
		Edge   string `json:"edge_srgb"`
		Blocks []struct {
			Kind string
			Rows [][]struct {
				Text   string
				Swatch *struct{ SRGB, Name string }
			}
		}
	}
	if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 || errs != "" {
		t.Fatalf("%v %d %q", err, code, errs)
	}
	kinds, swatches := map[string]int{}, 0
	for _, b := range got.Blocks {
		kinds[b.Kind]++
		for _, r := range b.Rows {
			for _, c := range r {
				if c.Swatch != nil && len(c.Swatch.SRGB) == 7 && c.Swatch.Name != "" {
					swatches++
				}
			}
		}
	}
	if got.Title != "Garden bin" || len(got.Edge) != 7 || kinds["table"] < 3 || kinds["timetable"] != 1 || swatches < 3 {
		t.Errorf("%q %q %v, %d swatches", got.Title, got.Edge, kinds, swatches)
	}
}

// A vat of three months keeps to its days' sums, with a plot before them and its end after them; --full has each reading.
func TestSheetOfALongLife(t *testing.T) {
	h, days := keptHome(t)
	run := func(args ...string) string {
		out, errs, code := runAt(t, days[len(days)-1].At, append([]string{"sheet", "--home", h.Dir(), "kept-bin"}, args...)...)
		if code != 0 || errs != "" {
			t.Fatalf("%v: %d %q", args, code, errs)
		}
		return out
	}
	var got struct {
		Blocks []struct {
			Kind, Text string
			Facts      []struct{ Name, Value string }
			Plot       *struct {
				From, Till time.Time
				Series     []struct {
					Name, Unit string
					Low        float64     `json:"axis_low"`
					High       float64     `json:"axis_high"`
					Works      *[2]float64 `json:"works_at"`
					Points     []struct {
						At           time.Time
						Level        float64
						Words, Known string
						SRGB         string
					}
				}
			}
			Cards []struct {
				Tag, What, Made string
				Care, Rubbing   []string
			}
		}
	}
	if err := json.Unmarshal([]byte(run("--what", "vat", "--json")), &got); err != nil {
		t.Fatal(err)
	}
	var order []string
	for _, b := range got.Blocks {
		order = append(order, strings.TrimSpace(b.Kind+" "+b.Text))
	}
	if want := []string{"facts", "heading What was read", "plot", "heading Days", "table", "paragraph"}; len(order) < 9 || !slices.Equal(order[:5], want[:5]) || !strings.HasPrefix(order[5], want[5]+" Each reading") {
		t.Errorf("%q", order)
	}
	if n := len(order); order[n-2] != "heading Its end" || order[n-1] != "facts" || len(got.Blocks[n-1].Facts) != 5 || slices.Contains(order, "heading Read") {
		t.Errorf("%q", order)
	}
	p := got.Blocks[2].Plot
	if p == nil || len(p.Series) != 4 || p.Till.Sub(p.From).Hours() < 80*24 {
		t.Fatalf("%+v", p)
	}
	for i, unit := range []string{"°C", "", "s", "K/S"} {
		s := p.Series[i]
		if s.Unit != unit || len(s.Points) < 8 || (s.Works != nil) != (i < 2) {
			t.Errorf("%+v", s)
		}
		for _, q := range s.Points {
			if q.Level < s.Low || q.Level > s.High || q.Known != "measured" && q.Known != "guessed" || (q.SRGB != "") != (unit == "K/S") {
				t.Errorf("%s: %+v", s.Name, q)
			}
		}
	}
	brief, full := run("--what", "vat"), run("--what", "vat", "--full")
	if strings.Contains(brief, "\nRead\n") || !strings.Contains(full, "\nRead\n") || !strings.Contains(full, "\nGiven\n") || strings.Count(full, "\n") < strings.Count(brief, "\n")+100 {
		t.Errorf("%d lines and %d", strings.Count(brief, "\n"), strings.Count(full, "\n"))
	}
	got.Blocks = nil
	if err := json.Unmarshal([]byte(run("--what", "labels", "--json")), &got); err != nil {
		t.Fatal(err)
	}
	if len(got.Blocks) != 1 || got.Blocks[0].Kind != "cards" || len(got.Blocks[0].Cards) != 19 || got.Blocks[0].Cards[0].Tag != "A1" || len(got.Blocks[0].Cards[0].Care) == 0 {
		t.Errorf("%+v", got.Blocks)
	}
}

func TestSheetRefusals(t *testing.T) {
	home := rehearsed(t, 1)
	soda := []string{"--recipe", "soda", "--fill", "60L"}
	for _, c := range []struct {
		code int
		says string
		args []string
	}{
		{2, "--what is day, vat, tags, slips, labels, cost, safety or card", []string{"--what", "week"}},
		{2, "--format is txt, md, html", []string{"--format", "pdf"}},
		{2, "--out is given with nothing in it", []string{"-o", ""}},
		{2, "--force needs -o", []string{"--force"}},
		{2, "--full is for --what vat", []string{"--full"}},
		{2, "not both", append([]string{"garden-bin"}, soda...)},
		{2, "name the vat alone", []string{"garden-bin/" + theDay, "--what", "vat"}},
		{2, "a day to come needs --fill", []string{"--recipe", "soda"}},
		{2, "a day to come needs --recipe", []string{"--fill", "60L"}},
		{2, "need --piece", append([]string{"--what", "tags"}, soda...)},
		{2, "slips of a day to come need --piece", append([]string{"--what", "slips"}, soda...)},
		{2, "write it as", []string{"a", "b"}},
		{1, `no vat is called "tub": there are garden-bin`, []string{"tub"}},
		{1, "it has " + theDay, []string{"garden-bin/2020-01-01"}},
		{1, "say how dark, or how many dips", append([]string{"--piece", "420 g linen"}, soda...)},
		{1, "a tag of its own", append([]string{"--piece", "A2=420 g linen, dark", "--piece", "90 g linen, dark"}, soda...)},
		{1, "1 to 60 can", append([]string{"--piece", "420 g linen, 99 dips"}, soda...)},
		{1, "write the dry weight and the fibre", append([]string{"--piece", "linen"}, soda...)},
		{1, "there is no file nowhere.toml", append([]string{"--pieces", "nowhere.toml"}, soda...)},
		{1, "wool", append([]string{"--piece", "400 g wool, dark"}, soda...)},
		{1, "there is no folder", append([]string{"-o", filepath.Join(home, "nowhere", "a.txt")}, soda...)},
		{1, "is a folder", append([]string{"-o", home}, soda...)},
		{1, "--units is metric, us or imperial", []string{"--units", "old"}},
	} {
		out, errs, code := runAt(t, thursday, append([]string{"sheet", "--home", home}, c.args...)...)
		if code != c.code || out != "" || !strings.Contains(errs, c.says) || strings.Count(errs, "\n") != 1 {
			t.Errorf("sheet %v: %d %q %q, want %d %q", c.args, code, out, errs, c.code, c.says)
		}
	}
	if _, errs, code := runAt(t, thursday, "sheet"); code != 1 || !strings.Contains(errs, "no vat is in the book yet: vatside begin VAT opens one") {
		t.Errorf("%d %q", code, errs)
	}
}
