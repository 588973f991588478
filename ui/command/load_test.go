package command

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

// pieceFile writes [[piece]] blocks.
func pieceFile(t *testing.T, blocks ...string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "pieces.toml")
	if err := os.WriteFile(path, []byte("[[piece]]\n"+strings.Join(blocks, "\n[[piece]]\n")+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func ofDips(tag, dips string) string {
	return `tag = "` + tag + "\"\nfibre = \"cotton\"\ndry = \"500 g\"\ndips = " + dips + "\ndip = \"10 min\"\nair = \"20 min\""
}

// Goods with a paste are planned in any vat, with what its warmth does to them said beside it.
func TestLoadWarnsOfAPaste(t *testing.T) {
	piece := pieceFile(t, ofDips("A", "3")+"\nform = \"pasted\"")
	for id, want := range map[string]string{"soda": "30 °C and no warmer", "madder-bran": "needs cold iron–lime", "iron-lime": ""} {
		out, errs, code := runAt(t, thursday, "load", piece, "--recipe", id, "--fill", "60L", "--json")
		var got loaded
		if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 {
			t.Fatalf("%s: %d %q %v", id, code, errs, err)
		}
		if said := strings.Join(got.Warnings, "; "); strings.Contains(said, "paste") != (want != "") || !strings.Contains(said, want) {
			t.Errorf("%s: %q", id, said)
		}
	}
}

// Where turns by rounds keep one who leaves early too long and dark pieces first would not, a fair plan says so; no other does.
func TestLoadSaysWhatFairTurnsCost(t *testing.T) {
	piece := func(rest string) string {
		return "fibre = \"cotton\"\ndry = \"900 g\"\ndip = \"10 min\"\nair = \"10 min\"\n" + rest
	}
	for _, c := range []struct {
		till, flag string
		says       bool
	}{{"10:36", "--fair", true}, {"10:36", "--fair=false", false}, {"11:10", "--fair", false}, {"09:50", "--fair", false}} {
		file := pieceFile(t, piece("tag = \"A\"\ndips = 4"), piece("tag = \"B\"\ndips = 4"), piece("tag = \"L\"\ndips = 3\ntill = \""+c.till+"\""))
		out, errs, code := runAt(t, thursday, "load", file, "--recipe", "soda", "--fill", "50L", "--start", "09:30", c.flag)
		if said := strings.Contains(out, "without --fair all who leave early would be out in time"); code != 0 || said != c.says {
			t.Errorf("till %s, %s: %d %s\n%s", c.till, c.flag, code, errs, out)
		}
	}
}

// The same of a wished finish that rounds do not keep and dark pieces first do: here all are done at 15:49.
func TestLoadSaysWhatFairTurnsTakeOfTheFinish(t *testing.T) {
	piece := func(tag, dips string) string {
		return "tag = \"" + tag + "\"\nwho = \"" + tag + "\"\nfibre = \"cotton\"\ndry = \"500 g\"\ndip = \"10 min\"\nair = \"10 min\"\ndips = " + dips
	}
	file := pieceFile(t, piece("A", "7"), piece("B", "4"), piece("C", "4"), piece("D", "3"))
	for _, c := range []struct {
		by, flag string
		says     bool
	}{{"16:00", "--fair", true}, {"16:00", "--fair=false", false}, {"15:00", "--fair", false}, {"18:00", "--fair", false}} {
		out, errs, code := runAt(t, thursday, "load", file, "--recipe", "soda", "--fill", "60L", "--start", "10:00", "--hands", "1", "--finish-by", c.by, c.flag)
		if said := strings.Contains(out, "without --fair every piece would be done by the latest finish"); code != 0 || errs != "" || said != c.says {
			t.Errorf("by %s, %s: %d %s\n%s", c.by, c.flag, code, errs, out)
		}
	}
}

// Tight cloth takes 14 min at its first dip and 8 at the others: three dips are 10 min in the mean, 6 min more in all than of loose cloth,
// and the plan says so. Dips that are fixed stay as they are.
func TestLoadOfTightCloth(t *testing.T) {
	plan := func(form string, args ...string) loaded {
		t.Helper()
		file := pieceFile(t, "tag = \"A\"\nfibre = \"linen\"\ndry = \"400 g\"\ndips = 3\ndip = \"8 min\"\nair = \"20 min\"\nform = \""+form+"\"")
		out, errs, code := runAt(t, thursday, append([]string{"load", file, "--json"}, args...)...)
		var got loaded
		if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 {
			t.Fatalf("%s: %d %q %v", form, code, errs, err)
		}
		return got
	}
	loose, tight := plan("cloth", "--recipe", "soda", "--fill", "60L"), plan("tight", "--recipe", "soda", "--fill", "60L")
	if said := strings.Join(tight.Warnings, "; "); tight.MakespanMin-loose.MakespanMin != 6 || !strings.Contains(said, "piece A: 14 min in its first dip of tight cloth, then 8 min") {
		t.Errorf("%v min, of loose cloth %v; %s", tight.MakespanMin, loose.MakespanMin, said)
	}
	if a, b := plan("cloth", "--fixed-dips"), plan("tight", "--fixed-dips"); a.MakespanMin != b.MakespanMin || len(b.Warnings) > 0 {
		t.Errorf("fixed: %v and %v min, %v", a.MakespanMin, b.MakespanMin, b.Warnings)
	}
}

// The two given days of the plain problem: three pieces in a vat that holds one take 80 min, one piece of five dips 130.
func TestLoadOfTheGivenDays(t *testing.T) {
	three := pieceFile(t, ofDips("A", "3"), ofDips("B", "3"), ofDips("C", "2"))
	one := pieceFile(t, ofDips("A", "5"))
	for _, c := range []struct {
		args []string
		want float64
		rows int
	}{
		{[]string{"load", three, "--fixed-dips", "--capacity", "500 g", "--handling", "0s", "--json"}, 80, 8},
		{[]string{"load", one, "--fixed-dips", "--json"}, 130, 5},
	} {
		out, errs, code := runAt(t, thursday, c.args...)
		var got loaded
		if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 || errs != "" {
			t.Fatalf("%v: %d %q %v", c.args, code, errs, err)
		}
		if got.MakespanMin != c.want || got.BoundMin != c.want || got.GapMin != 0 || !got.Proven || len(got.Rows) != c.rows {
			t.Errorf("%v: %+v", c.args, got)
		}
		for _, r := range got.Rows {
			if r.Out-r.In != 10 {
				t.Errorf("a dip from %v to %v", r.In, r.Out)
			}
		}
	}
}

// Its keys are a contract; by a recipe there are handling, rests and the indigo, and a wished finish that cannot be kept is said.
func TestLoadByARecipe(t *testing.T) {
	file := pieceFile(t, ofDips("A", "3"), ofDips("B", "3"))
	out, errs, code := runAt(t, thursday, "load", file, "--recipe", "soda", "--fill", "60L", "--start", "09:30", "--finish-by", "10:00", "--json")
	var got map[string]any
	if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 || errs != "" {
		t.Fatalf("%d %q %v", code, errs, err)
	}
	for _, key := range []string{"makespan_min", "bound_min", "gap_min", "proven", "rows", "done", "warnings"} {
		if got[key] == nil {
			t.Errorf("%s is missing", key)
		}
	}
	row, done := got["rows"].([]any)[0].(map[string]any), got["done"].([]any)[0].(map[string]any)
	for _, key := range []string{"tag", "dip", "in_min", "out_min"} {
		if row[key] == nil {
			t.Errorf("rows: %s is missing", key)
		}
	}
	if done["tag"] == nil || done["done_min"].(float64) <= got["makespan_min"].(float64)-20 {
		t.Errorf("done: %v", done)
	}
	if len(got["warnings"].([]any)) == 0 {
		t.Error("done at ten in a morning that begins at half past nine, and nothing is said")
	}
	text, _, _ := runAt(t, thursday, "load", file, "--recipe", "soda", "--fill", "60L", "--start", "09:30", "--what-if")
	for _, want := range []string{"Last lift at ", "no order is shorter", "in A, dip 1, out at ", "What if, One more person"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
	ical, _, _ := runAt(t, thursday, "load", file, "--recipe", "soda", "--fill", "60L", "--start", "09:30", "--as", "ical")
	if !strings.HasPrefix(ical, "BEGIN:VCALENDAR\r\n") || !strings.Contains(ical, "SUMMARY:A dip 1 of 3") {
		t.Errorf("%.200s", ical)
	}
	later, _, _ := runAt(t, thursday.Add(time.Minute), "load", file, "--recipe", "soda", "--fill", "60L", "--start", "10:30", "--as", "ical")
	uids := regexp.MustCompile(`(?m)^UID:.*$`)
	if a, b := uids.FindAllString(ical, -1), uids.FindAllString(later, -1); len(a) < 6 || !slices.Equal(a, b) || !strings.Contains(ical, "\nDTSTART;TZID=Etc/GMT-1:20261126T0930") ||
		!strings.Contains(ical, "\nDTSTAMP:20261126T061234Z\r\n") {
		t.Errorf("a later start has other events: %v, %v\n%s", a, b, ical)
	}
	dated, errs, code := runAt(t, thursday, "load", file, "--recipe", "soda", "--fill", "60L", "--start", "2026-12-05 10:00", "--as", "ical")
	if code != 0 || !strings.Contains(dated, "\nDTSTART;TZID=Etc/GMT-1:20261205T1000") || !slices.Equal(uids.FindAllString(dated, -1), uids.FindAllString(ical, -1)) {
		t.Errorf("%d %s\n%s", code, errs, dated)
	}
	csv, _, _ := runAt(t, thursday, "load", file, "--recipe", "soda", "--fill", "60L", "--as", "csv")
	if n := strings.Count(csv, "\n"); n != 7 {
		t.Errorf("the CSV has %d lines\n%s", n, csv)
	}
}

// 60 L of the soda vat are 90 g of indigo, 360 g of soda ash and 120 g of dithionite; from 12 to 38 °C they take 1.81 kWh, from the usual
// 15 °C 1.60. A second vat takes as much again, and a feed its indigo: 40 g pure of indigo of 60 % are 66.7 g. Who is nobody bears nothing.
func TestLoadCostsAHead(t *testing.T) {
	file := pieceFile(t, ofDips("A", "3")+"\nwho = \"Mo\"", ofDips("B", "3")+"\nwho = \"Mo\"", ofDips("C", "1")+"\nwho = \"Lu\"")
	args := []string{"load", file, "--recipe", "soda", "--fill", "60L", "--price", "indigo=100", "--price", "soda=5", "--price", "reducer=20", "--energy", "0.50", "--hands", "1"}
	home := t.TempDir()
	if _, errs, code := runAt(t, thursday, "--home", home, "settings", "set", "cold", "12 °C"); code != 0 {
		t.Fatal(errs)
	}
	out, errs, code := runAt(t, thursday, append([]string{"--home", home}, args...)...)
	if code != 0 || errs != "" || !strings.Contains(out, "powders 13.20, heat 0.91: 7.05 a head for 2 people") {
		t.Errorf("%d %q\n%s", code, errs, out)
	}
	large := func(tag string) string { return strings.Replace(ofDips(tag, "9"), "500 g", "900 g", 1) }
	many := pieceFile(t, large("A")+"\nwho = \"Mo\"", large("B"))
	for _, c := range []struct {
		file string
		more []string
		says string
	}{
		{file, nil, "powders 13.20, heat 0.80: 7.00 a head for 2 people"},
		{file, []string{"--vats", "2"}, "powders 26.40, heat 1.60: 14.00 a head for 2 people"},
		{many, []string{"--choice", "feed", "--feed", "40 g"}, "powders 19.87, heat 0.80: 20.67 for 1 person"},
		{pieceFile(t, ofDips("A", "3"), ofDips("B", "3")), nil, "powders 13.20, heat 0.80: 7.00 a piece, of 2 pieces"},
		{pieceFile(t, ofDips("A", "3")), nil, "powders 13.20, heat 0.80: 14.00 for the piece"},
	} {
		args[1] = c.file
		if out, errs, code := runAt(t, thursday, append(slices.Clone(args), c.more...)...); code != 0 || errs != "" || !strings.Contains(out, c.says) {
			t.Errorf("%v: %d %q\n%s", c.more, code, errs, out)
		}
	}
	out, _, code = runAt(t, thursday, "load", file, "--recipe", "soda", "--fill", "60L", "--price", "indigo=100", "--json")
	var untold struct {
		Heat *float64 `json:"heat_cost"`
	}
	if err := json.Unmarshal([]byte(out), &untold); err != nil || code != 0 || untold.Heat != nil || !strings.Contains(out, `"heat_cost": null`) {
		t.Errorf("without a price of energy: %d %v\n%s", code, err, out)
	}
	tags, _, _ := runAt(t, thursday, "load", file, "--recipe", "soda", "--fill", "60L", "--as", "tags")
	if !strings.Contains(tags, "A       of Mo, 500 g cotton") || strings.Count(tags, "[ ] wet out   [ ] [ ] [ ]\n") != 2 {
		t.Errorf("%s", tags)
	}
	for says, args := range map[string][]string{
		"write a powder of the recipe":      {"load", file, "--recipe", "soda", "--fill", "60L", "--price", "gold=1"},
		"-1 is negative; a price is never":  {"load", file, "--recipe", "soda", "--fill", "60L", "--price", "indigo=-1"},
		"-0.3 is negative; a price is":      {"load", file, "--recipe", "soda", "--fill", "60L", "--energy", "-0.3"},
		"--capacity: say more than nothing": {"load", file, "--recipe", "soda", "--fill", "60L", "--capacity", "0kg"},
		"--fixed-dips knows no powders":     {"load", file, "--fixed-dips", "--energy", "1"},
	} {
		if _, errs, code := runAt(t, thursday, args...); code == 0 || !strings.Contains(errs, says) {
			t.Errorf("%v: %d %q", args, code, errs)
		}
	}
}

func TestLoadRefusals(t *testing.T) {
	file := pieceFile(t, ofDips("A", "3"))
	wool := pieceFile(t, strings.Replace(ofDips("A", "3"), "cotton", "wool", 1))
	bad := pieceFile(t, "tag = \"A\"\nfibre = \"cotton\"\ndry = \"500 g\"\ndips = 3\ncolour = 3")
	for _, c := range []struct {
		code int
		says string
		args []string
	}{
		{2, "load needs --recipe and --fill, or --fixed-dips", []string{file}},
		{2, "load FILE.toml", nil},
		{2, "--as is csv, ical or tags", []string{file, "--fixed-dips", "--as", "pdf"}},
		{2, "give --as or --json, not both", []string{file, "--fixed-dips", "--as", "csv", "--json"}},
		{1, "there is no file nowhere.toml", []string{"nowhere.toml", "--fixed-dips"}},
		{1, "colour", []string{bad, "--fixed-dips"}},
		{1, "at least 1", []string{file, "--fixed-dips", "--hands", "0"}},
		{1, "write a time of day, such as 09:30", []string{file, "--fixed-dips", "--start", "9 o'clock"}},
		{1, "2026-12-05 10:00", []string{file, "--fixed-dips", "--start", "2026-02-30 10:00"}},
		{1, "is not after the start", []string{file, "--recipe", "soda", "--fill", "60L", "--start", "09:30", "--finish-by", "09:00"}},
		{1, "12:30-13:15", []string{file, "--recipe", "soda", "--fill", "60L", "--start", "09:30", "--break", "noon"}},
		{1, "'1 h after 3 h', or none", []string{file, "--recipe", "soda", "--fill", "60L", "--rest", "1 h"}},
		{1, "--reheat \"0 min after 2 h\"", []string{file, "--recipe", "soda", "--fill", "60L", "--reheat", "0 min after 2 h"}},
		{1, "--feed \"much\"", []string{file, "--recipe", "soda", "--fill", "60L", "--feed", "much"}},
		{1, "say 1 to 8", []string{file, "--recipe", "soda", "--fill", "60L", "--vats", "0"}},
		{1, "--rest \"25 h after 3 h\"", []string{file, "--recipe", "soda", "--fill", "60L", "--rest", "25 h after 3 h"}},
		{1, "four times what the new vat holds", []string{file, "--recipe", "soda", "--fill", "60L", "--feed", "1e9 kg"}},
		{1, "a wait of 24 h", []string{file, "--recipe", "soda", "--fill", "60L", "--feed", "40 g then 1000 h"}},
		{2, "--break needs --recipe and --fill", []string{file, "--fixed-dips", "--start", "09:30", "--break", "12:00-13:00"}},
		{2, "--fixed-dips knows no powders", []string{file, "--fixed-dips", "--energy", "x"}},
		{2, "--vats needs --recipe and --fill", []string{file, "--fixed-dips", "--vats", "2"}},
		{1, "wool", []string{wool, "--recipe", "soda", "--fill", "60L"}},
	} {
		out, errs, code := runAt(t, thursday, append([]string{"load"}, c.args...)...)
		if code != c.code || out != "" || !strings.Contains(errs, c.says) || strings.Count(errs, "\n") != 1 {
			t.Errorf("load %v: %d %q %q, want %d %q", c.args, code, out, errs, c.code, c.says)
		}
	}
}

// Where the vat tires the ways stand side by side, and --choice takes one of them.
func TestLoadChoices(t *testing.T) {
	var pieces []string
	for _, tag := range []string{"A", "B", "C"} {
		pieces = append(pieces, ofDips(tag, "8"))
	}
	file := pieceFile(t, pieces...)
	args := []string{"load", file, "--recipe", "soda", "--fill", "30L", "--hands", "2", "--json"}
	asked := func(more ...string) (chosen map[string]any, all int) {
		out, errs, code := runAt(t, thursday, append(slices.Clone(args), more...)...)
		var got struct{ Choices []map[string]any }
		if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 {
			t.Fatalf("%v: %d %q %v", more, code, errs, err)
		}
		for _, c := range got.Choices {
			for _, key := range []string{"id", "chosen", "makespan_min", "late_min", "weak_dips", "what"} {
				if _, ok := c[key]; !ok {
					t.Errorf("%s is missing", key)
				}
			}
			if c["chosen"] == true {
				chosen = c
			}
		}
		return chosen, len(got.Choices)
	}
	usual, n := asked()
	if n < 2 || usual["id"] == "feed" || usual["weak_dips"] == 0.0 {
		t.Errorf("%d choices, %v", n, usual)
	}
	fed, _ := asked("--choice", "feed")
	if fed["id"] != "feed" || fed["weak_dips"].(float64) >= usual["weak_dips"].(float64) || !strings.Contains(fed["what"].(string), "feed ") {
		t.Errorf("%v", fed)
	}
	if _, errs, code := runAt(t, thursday, append(slices.Clone(args), "--choice", "magic")...); code != 2 || !strings.Contains(errs, "--choice is weak, full or feed") {
		t.Errorf("%d %q", code, errs)
	}
	small := pieceFile(t, ofDips("A", "1"))
	if _, errs, code := runAt(t, thursday, "load", small, "--recipe", "soda", "--fill", "60L", "--choice", "weak"); code != 1 || !strings.Contains(errs, "the vat does not tire") {
		t.Errorf("%d %q", code, errs)
	}
}

// Rests, reheats, a second vat and feeds are asked for as the timetable says them.
func TestLoadOfPausesAndVats(t *testing.T) {
	file := pieceFile(t, ofDips("A", "8"), ofDips("B", "8"), ofDips("C", "8"), ofDips("D", "8"))
	day := func(fill string, more ...string) (plan struct {
		Makespan float64 `json:"makespan_min"`
		Rows     []struct{ Vat int }
		Stands   []struct {
			Kind     string
			Vat      int
			From, To float64
		}
		Choices []struct {
			ID, What string
			Chosen   bool
		}
	}, text string) {
		t.Helper()
		args := append([]string{"load", file, "--recipe", "soda", "--fill", fill, "--hands", "3"}, more...)
		out, errs, code := runAt(t, thursday, append(args, "--json")...)
		if err := json.Unmarshal([]byte(strings.NewReplacer("from_min", "from", "to_min", "to").Replace(out)), &plan); err != nil || code != 0 {
			t.Fatalf("%v: %d %q %v", more, code, errs, err)
		}
		text, _, _ = runAt(t, thursday, args...)
		return plan, text
	}
	usual, _ := day("60L")
	none, _ := day("60L", "--rest", "none")
	if len(usual.Stands) == 0 || usual.Stands[0].Kind != "rest" || usual.Stands[0].To-usual.Stands[0].From != 60 || len(none.Stands) > 0 || none.Makespan >= usual.Makespan {
		t.Errorf("%+v, and without rests %+v", usual, none)
	}
	hot, text := day("60L", "--rest", "none", "--reheat", "20 min after 90 min")
	if len(hot.Stands) == 0 || hot.Stands[0].Kind != "reheat" || hot.Stands[0].To-hot.Stands[0].From != 20 || !strings.Contains(text, "the vat stands till") || !strings.Contains(text, ": reheat") {
		t.Errorf("%+v\n%s", hot.Stands, text)
	}
	two, text := day("60L", "--vats", "2")
	if two.Makespan >= usual.Makespan || !strings.Contains(text, ", vat 2\n") || !slices.ContainsFunc(two.Rows, func(r struct{ Vat int }) bool { return r.Vat == 2 }) {
		t.Errorf("%+v\n%s", two, text)
	}
	fed, _ := day("30L", "--feed", "40 g then 90 min", "--choice", "feed")
	at := slices.IndexFunc(fed.Choices, func(c struct {
		ID, What string
		Chosen   bool
	}) bool {
		return c.Chosen
	})
	if at < 0 || fed.Choices[at].ID != "feed" || !strings.Contains(fed.Choices[at].What, "feed 40 g of indigo at ") {
		t.Errorf("%+v", fed.Choices)
	}
	for _, s := range fed.Stands {
		if s.Kind == "feed" && s.To-s.From != 90 {
			t.Errorf("a feed waits from %v to %v", s.From, s.To)
		}
	}
}

// A file with people in it is reckoned with one pair of hands where nobody says how many, and that is said beside the timetable.
func TestLoadSaysOnePairOfHands(t *testing.T) {
	file := pieceFile(t, ofDips("A", "3")+"\nwho = \"Ada\"")
	base := []string{"load", file, "--recipe", "soda", "--fill", "60L"}
	for _, c := range []struct {
		more []string
		told bool
	}{
		{nil, true}, {[]string{"--json"}, true}, {[]string{"--as", "csv"}, true}, {[]string{"--as", "tags"}, false}, {[]string{"--hands", "1"}, false}, {[]string{"--hands", "2", "--json"}, false},
	} {
		out, errs, code := runAt(t, thursday, append(slices.Clone(base), c.more...)...)
		if code != 0 || out == "" || strings.Contains(errs, "one pair of hands") != c.told || strings.Contains(out, "named people") {
			t.Errorf("%v: %d %q", c.more, code, errs)
		}
	}
	if _, errs, _ := runAt(t, thursday, "load", pieceFile(t, ofDips("A", "3")), "--recipe", "soda", "--fill", "60L"); errs != "" {
		t.Errorf("nobody is named: %q", errs)
	}
}

// What the flags leave open is as set: the pairs of hands, and the wished finish where the plan has a start. The finish is said on
// stderr, and the hands where the pieces are of named people. Of a
// time of day without a start it is said that it counts from now.
func TestLoadAsSet(t *testing.T) {
	home := t.TempDir()
	set := func(key, value string) {
		t.Helper()
		if _, errs, code := runAt(t, thursday, "--home", home, "settings", "set", key, value); code != 0 {
			t.Fatalf("%s %s: %d %s", key, value, code, errs)
		}
	}
	set("hands", "2")
	set("done_by", "10:30")
	named, file := pieceFile(t, ofDips("A", "3")+"\nwho = \"Ada\""), pieceFile(t, ofDips("A", "3"), ofDips("B", "3"), ofDips("C", "3"))
	for _, c := range []struct {
		file string
		args []string
		errs string // lines are joined by a space
		late bool
	}{
		{named, nil, "vatside: the pieces are of named people: reckoned with 2 pairs of hands at the vat, as set; --hands says how many", false},
		{named, []string{"--hands", "1"}, "", false},
		{file, []string{"--start", "09:30"}, "vatside: every piece should be done by 10:30, as set; --finish-by says another time", true},
		{file, []string{"--start", "09:30", "--finish-by", "18:00"}, "", false},
		{file, []string{"--start", "11:30"}, "", false}, // 10:30 is past
		{file, []string{"--finish-by", "23:59"}, "vatside: times of day are counted from now, 07:12; --start says when the day begins", false},
		{pieceFile(t, ofDips("A", "3")+"\ntill = \"18:00\""), nil, "vatside: times of day are counted from now, 07:12; --start says when the day begins", false},
	} {
		args := append([]string{"--home", home, "load", c.file, "--recipe", "soda", "--fill", "60L", "--json"}, c.args...)
		out, errs, code := runAt(t, thursday, args...)
		var got loaded
		if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 || strings.TrimSpace(errs) != c.errs {
			t.Errorf("%v: %d %q, want %q", c.args, code, errs, c.errs)
		}
		if late := strings.Contains(strings.Join(got.Warnings, "; "), "10:30"); late != c.late {
			t.Errorf("%v: %v", c.args, got.Warnings)
		}
	}
	hands := func(args ...string) float64 {
		out, _, _ := runAt(t, thursday, append([]string{"--home", home, "load", file, "--recipe", "soda", "--fill", "60L", "--json"}, args...)...)
		var got loaded
		_ = json.Unmarshal([]byte(out), &got)
		return got.MakespanMin
	}
	if one, two := hands("--hands", "1"), hands("--hands", "2"); hands() != two || one <= two {
		t.Errorf("as set %v min, one pair %v, two %v", hands(), one, two)
	}
}

// A plan that goes into the next day names it; minutes keep their digits beyond a thousand.
func TestLoadOfMoreThanADay(t *testing.T) {
	file := pieceFile(t, ofDips("A", "45"))
	out, errs, code := runAt(t, thursday, "load", file, "--fixed-dips", "--start", "09:30")
	if code != 0 || errs != "" || !strings.Contains(out, "Last lift at Fri 27 Nov 07:40") || !strings.Contains(out, " 09:30  in A, dip 1, out at 09:40\n") || !strings.Contains(out, "\nFri 27 Nov 07:30  in A, dip 45") {
		t.Errorf("%d %s%s", code, errs, out)
	}
	if out, _, _ = runAt(t, thursday, "load", file, "--fixed-dips"); !strings.Contains(out, "Last lift at 1330 min") {
		t.Error(out)
	}
}

// Goods with a paste take the time of handling that is given, as all others do.
func TestLoadHandlesPastedGoods(t *testing.T) {
	file := pieceFile(t, strings.Replace(ofDips("A", "2"), `dip = "10 min"`, `dip = "3 min"`, 1)+"\nform = \"pasted\"")
	span := func(handling string) float64 {
		out, errs, code := runAt(t, thursday, "load", file, "--recipe", "iron-lime", "--fill", "60L", "--handling", handling, "--json")
		var got loaded
		if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 {
			t.Fatalf("%d %q %v", code, errs, err)
		}
		return got.MakespanMin
	}
	if none, five := span("0s"), span("5 min"); five != none+20 { // two dips, each lowered and lifted
		t.Errorf("%v min, with 5 min of handling %v", none, five)
	}
}

// loaded are the keys of load --json that tests look at.
type loaded struct {
	MakespanMin float64 `json:"makespan_min"`
	BoundMin    float64 `json:"bound_min"`
	GapMin      float64 `json:"gap_min"`
	Proven      bool    `json:"proven"`
	Rows        []struct {
		In  float64 `json:"in_min"`
		Out float64 `json:"out_min"`
	} `json:"rows"`
	Warnings []string `json:"warnings"`
}
