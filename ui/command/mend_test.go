package command

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/ui/shelf"
)

// holed cuts an event out of the middle of a day's file, and gives the line that tells of it.
func holed(t *testing.T, home, vat, day string, seq int) (told string) {
	t.Helper()
	file := fileOf(home, vat, day)
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	at := bytes.Index(text, fmt.Appendf(nil, "[[event]]\nseq = %d\n", seq))
	next := bytes.Index(text, fmt.Appendf(nil, "[[event]]\nseq = %d\n", seq+1))
	if at < 0 || next < 0 {
		t.Fatalf("no events %d and %d", seq, seq+1)
	}
	if err := os.WriteFile(file, append(text[:at:at], text[next:]...), 0o644); err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("%s/%s is not whole: event %d is missing before line %d; see vatside book verify", vat, day, seq, 1+bytes.Count(text[:at], []byte("\n")))
}

// Whatever reads a day that is not whole says so in one line, once.
func TestADayThatIsNotWholeIsTold(t *testing.T) {
	now := time.Date(2026, 5, 19, 9, 0, 0, 0, time.FixedZone("", 7200))
	home := playedDays(t, theBin...)
	if _, errs, code := runAt(t, now.AddDate(-1, 0, 0), "stock", "add", "--material", "soda ash", "--mass", "5kg", "--home", home); code != 0 {
		t.Fatal(errs)
	}
	told := "vatside: " + holed(t, home, "garden-bin", "2026-05-10", 7) + "\n"
	for _, line := range []string{
		"", "now", "now --json", "care", "care --json", "care --vat garden-bin", "sheet", "sheet garden-bin", "sheet garden-bin/2026-05-10", "sheet garden-bin --what vat",
		"sheet garden-bin --what tags", "sheet garden-bin --what labels", "sheet garden-bin --what cost --format html", "cost garden-bin", "cost garden-bin --json",
		"like --lab 31,-3,-20", "signs --vat garden-bin --seen blue-cloudy", "signs --vat garden-bin --ph 9.8", "prepare --vat garden-bin --piece 420+g+linen", "finish --vat garden-bin --piece 420+g+linen",
		"book", "book garden-bin", "book garden-bin/2026-05-10", "book --json", "book export --csv " + filepath.Join(t.TempDir(), "x"), "stock", "stock --json", "--plain",
	} {
		args := strings.Fields(line)
		for i := range args {
			args[i] = strings.ReplaceAll(args[i], "+", " ")
		}
		out, errs, code := runAt(t, now, append(args, "--home", home)...)
		if strings.Count(errs, told) != 1 || strings.Count(errs, "not whole") != 1 {
			t.Errorf("vatside %s: %d %q\n%.300s", line, code, errs, out)
		}
		sheet := strings.HasPrefix(line, "sheet")
		if sheet != strings.Contains(out, "garden-bin/2026-05-10 is not whole: event 7 is missing before line") {
			t.Errorf("vatside %s:\n%.600s", line, out)
		}
	}
	// A day of the vat that is whole tells nothing on its own sheet.
	if out, errs, _ := runAt(t, now, "sheet", "garden-bin/2026-05-09", "--home", home); strings.Contains(out+errs, "not whole") {
		t.Errorf("%s%s", errs, out)
	}
	rehearsed := rehearsed(t, 1)
	days, _ := shelf.Open(rehearsed).Days("garden-bin")
	told = "vatside: " + holed(t, rehearsed, "garden-bin", days[0], 7) + "\n"
	if _, errs, _ := run(t, "", "rehearse", "--plain", "--speed", "max", "--home", rehearsed); errs != told {
		t.Errorf("rehearse: %q", errs)
	}
}

// A day that is begun behind one that is not whole takes over what that one tells, and says so; so does what is said to an open day,
// and where a refusal shows it.
func TestADayThatIsNotWholeIsToldByWhatGoesOn(t *testing.T) {
	now := time.Date(2026, 5, 19, 9, 0, 0, 0, time.FixedZone("", 7200))
	home := playedDays(t, theBin...)
	told := "vatside: " + holed(t, home, "garden-bin", "2026-05-10", 7) + "\n"
	if _, errs, code := runAt(t, now, "begin", "garden-bin", "--home", home); code != 0 || goodsUnsaid.ReplaceAllString(errs, "") != told {
		t.Errorf("begin: %d %q", code, errs)
	}
	for range 2 {
		if _, errs, code := runAt(t, now, "say", "garden-bin", "note sun on the bin", "--home", home); code != 0 || errs != "" {
			t.Errorf("say to a whole day: %d %q", code, errs)
		}
	}
	file := fileOf(home, "garden-bin", "2026-05-19")
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	at := bytes.Index(text, []byte("[[event]]\nseq = 2\n"))
	next := bytes.Index(text, []byte("[[event]]\nseq = 3\n"))
	if err := os.WriteFile(file, append(append(text[:at:at], text[next:]...), "\n[[event]]\nseq = 4\nat ="...), 0o644); err != nil {
		t.Fatal(err)
	}
	const hole = "vatside: garden-bin/2026-05-19 is not whole: event 2 is missing"
	if _, errs, code := runAt(t, now, "begin", "garden-bin", "--home", home); code != 1 || strings.Count(errs, hole) != 1 {
		t.Errorf("begin where a day is open: %d %q", code, errs)
	}
	_, errs, code := runAt(t, now, "say", "garden-bin", "note shade now", "--json", "--home", home)
	if code != 0 || strings.Count(errs, hole) != 1 || strings.Count(errs, "vatside: a torn tail of garden-bin/2026-05-19 was set aside in "+strings.TrimSuffix(file, ".toml")+".torn-1\n") != 1 {
		t.Errorf("say: %d %q", code, errs)
	}
}

// verifiedOf is what book verify says as JSON.
func verifiedOf(t *testing.T, home string) (v verified, errs string, code int) {
	t.Helper()
	out, errs, code := run(t, home, "book", "verify", "--json")
	if err := json.Unmarshal([]byte(out), &v); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return v, errs, code
}

// book verify ends with 1 at whatever leaves a file not whole, and with 0 at remarks.
func TestVerifyEndsWithOne(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(text string, block func(seq int) string) string
		code  int
		what  string
		last  string // line of the words
	}{
		{"whole", func(s string, _ func(int) string) string { return s }, 0, "", "2 days, 137 events: all read whole."},
		{"a gap", func(s string, b func(int) string) string { return strings.Replace(s, b(5), "", 1) }, 1, "event 5 is missing before this line", "2 days, 136 events: not whole in 1 place."},
		{"no first", func(s string, b func(int) string) string { return strings.Replace(s, b(1)+b(2), "", 1) }, 1, "events 1 to 2 are missing before this line", "2 days, 135 events: not whole in 1 place."},
		{"doubled", func(s string, b func(int) string) string { return strings.Replace(s, b(5), b(5)+b(5), 1) }, 1, "event 5 stands here twice, word for word; it counts once", "2 days, 137 events: not whole in 1 place."},
		{"two of a number", func(s string, b func(int) string) string {
			return strings.Replace(s, b(5), b(5)+strings.Replace(b(6), "seq = 6\n", "seq = 5\n", 1), 1)
		}, 1, "there are two events 5", "2 days, 138 events: not whole in 1 place, 1 remark."},
		{"displaced", func(s string, b func(int) string) string { return strings.Replace(s, b(5)+b(6), b(6)+b(5), 1) }, 1, "event 5 stands after event 6", "2 days, 137 events: not whole in 1 place."},
		{"torn", func(s string, _ func(int) string) string { return s + "\n[[event]]\nseq = 99" }, 1, "the last block is torn and was never saved; its 19 bytes are set aside", "2 days, 137 events: not whole in 1 place."},
		{"unreadable", func(s string, b func(int) string) string {
			return strings.Replace(s, b(5), strings.Replace(b(5), "at = ", "at = = ", 1), 1)
		}, 1, "event 5 cannot be read: it is not TOML", "2 days, 136 events: 1 part cannot be read."},
		{"by hand", func(s string, b func(int) string) string {
			return strings.Replace(s, b(5), strings.Replace(b(5), ":0", ":1", 1), 1)
		}, 0, "event 5 was mended by hand: its checksum fails", "2 days, 137 events: all events can be read, with 1 remark."},
	} {
		t.Run(c.name, func(t *testing.T) {
			home := playedDays(t, theBin...)
			file := fileOf(home, "garden-bin", "2026-05-09")
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			s := string(text)
			spoilt := c.spoil(s, func(seq int) string {
				at := strings.Index(s, fmt.Sprintf("[[event]]\nseq = %d\n", seq))
				return s[at : at+strings.Index(s[at:], "[[event]]\nseq = "+fmt.Sprint(seq+1)+"\n")]
			})
			if c.name != "whole" && spoilt == s {
				t.Fatal("nothing is spoilt")
			}
			if err := os.WriteFile(file, []byte(spoilt), 0o644); err != nil {
				t.Fatal(err)
			}
			out, errs, code := run(t, home, "book", "verify")
			lines := strings.Split(strings.TrimSpace(out), "\n")
			if code != c.code || (code == 1) != (strings.Count(errs, "\n") == 1) || lines[len(lines)-1] != c.last {
				t.Errorf("%d %q\n%s", code, errs, out)
			}
			v, _, code := verifiedOf(t, home)
			if code != c.code || v.Whole != (c.code == 0) || v.Days != 2 {
				t.Errorf("%d %+v", code, v)
			}
			if c.what == "" {
				return
			}
			at := slices.IndexFunc(v.Findings, func(f verifiedFinding) bool { return strings.HasPrefix(f.What, c.what) })
			if at < 0 {
				t.Fatalf("%+v", v.Findings)
			}
			f := v.Findings[at]
			if f.File != file || f.Line < 100 || f.Whole != (c.code == 0) || f.Lost != (c.name == "unreadable") {
				t.Errorf("%+v", f)
			}
			if !strings.HasPrefix(lines[at], fmt.Sprintf("%s:%d: %s", file, f.Line, c.what)) {
				t.Errorf("%s", lines[at])
			}
		})
	}
	// The list of tins is looked at too.
	home := playedDays(t, theBin...)
	for range 3 {
		if _, errs, code := run(t, home, "stock", "add", "--material", "soda ash", "--mass", "1kg"); code != 0 {
			t.Fatal(errs)
		}
	}
	tins := filepath.Join(home, "stock.toml")
	text, _ := os.ReadFile(tins)
	at, next := bytes.Index(text, []byte("[[event]]\nseq = 2")), bytes.Index(text, []byte("[[event]]\nseq = 3"))
	_ = os.WriteFile(tins, append(text[:at:at], text[next:]...), 0o644)
	if v, errs, code := verifiedOf(t, home); code != 1 || v.Whole || len(v.Findings) != 1 || v.Findings[0].File != tins || errs == "" {
		t.Errorf("%d %q %+v", code, errs, v)
	}
}

func TestBookMend(t *testing.T) {
	home := playedDays(t, theBin...)
	const day = "garden-bin/2026-05-10"
	file := fileOf(home, "garden-bin", "2026-05-10")
	if out, errs, code := run(t, home, "book", "mend", day); code != 0 || errs != "" || out != day+" is whole: nothing is changed.\n" {
		t.Errorf("%d %q %q", code, out, errs)
	}
	holed(t, home, "garden-bin", "2026-05-10", 7)
	old, _ := os.ReadFile(file)
	out, errs, code := run(t, home, "book", "mend", day)
	if code != 3 || errs != "" || !strings.HasPrefix(out, day+" is not whole. To mend it:\n  line ") ||
		!strings.HasSuffix(out, ": event 7 is missing: an event that says so takes its place.\nNothing is changed yet: vatside book mend "+day+" --yes does it, and keeps the old file.\n") {
		t.Errorf("%d %q %q", code, out, errs)
	}
	var m mended
	out, _, code = run(t, home, "book", "mend", day, "--json")
	if err := json.Unmarshal([]byte(out), &m); err != nil || code != 3 || m.Day != day || m.Whole || !m.Possible || m.Done || m.Kept != nil || len(m.Steps) != 1 || m.Steps[0].Line == 0 {
		t.Errorf("%v %d %s", err, code, out)
	}
	if now, _ := os.ReadFile(file); !bytes.Equal(now, old) {
		t.Error("looking has changed the day")
	}

	w, _, err := shelf.Open(home).OpenDay("garden-bin", "2026-05-10")
	if err != nil {
		t.Fatal(err)
	}
	if out, errs, code := run(t, home, "book", "mend", day, "--yes"); code != 1 || out != "" || errs != "vatside: "+day+" is not mended: the vat garden-bin is open in another program; close it there first\n" {
		t.Errorf("%d %q %q", code, out, errs)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}

	kept := filepath.Join(filepath.Dir(file), "2026-05-10.before-mend-1")
	out, errs, code = run(t, home, "book", "mend", day, "--yes")
	if code != 0 || errs != "" || !strings.HasSuffix(out, day+" is mended; the old file is kept as "+kept+".\n") {
		t.Errorf("%d %q %q", code, out, errs)
	}
	if was, _ := os.ReadFile(kept); !bytes.Equal(was, old) {
		t.Error("the old file is not kept")
	}
	if out, errs, code := run(t, home, "book", "verify"); code != 0 || errs != "" || !strings.HasSuffix(out, "all read whole.\n") {
		t.Errorf("%d %q %q", code, out, errs)
	}
	if out, errs, _ := run(t, home, "book", day); errs != "" || !strings.Contains(out, "\n#7 ") || !strings.Contains(out, " an act is missing here: the file had lost it\n") {
		t.Errorf("%q\n%s", errs, out)
	}
	for _, line := range []string{"now", "care", "sheet garden-bin", "cost garden-bin", "like --lab 31,-3,-20"} {
		if _, errs, code := run(t, home, strings.Fields(line)...); code != 0 || errs != "" {
			t.Errorf("%s: %d %q", line, code, errs)
		}
	}
	_ = os.WriteFile(file, old, 0o644)
	out, _, code = run(t, home, "book", "mend", day, "--yes", "--json")
	m = mended{}
	if err := json.Unmarshal([]byte(out), &m); err != nil || code != 0 || !m.Done || m.Kept == nil || *m.Kept != strings.TrimSuffix(kept, "1")+"2" || len(m.Steps) != 1 {
		t.Errorf("%v %d %s", err, code, out)
	}
	out, _, code = run(t, home, "book", "mend", day, "--json")
	m = mended{}
	if err := json.Unmarshal([]byte(out), &m); err != nil || code != 0 || !m.Whole || !m.Possible || m.Done || m.Kept != nil || len(m.Steps) != 0 {
		t.Errorf("%v %d %s", err, code, out)
	}
}

func TestBookMendCannot(t *testing.T) {
	home := playedDays(t, theBin...)
	file := fileOf(home, "garden-bin", "2026-05-10")
	text, _ := os.ReadFile(file)
	for _, c := range []struct {
		args, text, errs string
		code             int
	}{
		{"garden-bin/2026-05-10 --yes", string(text[:900]), "vatside: garden-bin/2026-05-10 cannot be mended: the file ends inside its head\n", 1},
		{"garden-bin/2026-05-10", "", "vatside: garden-bin/2026-05-10 cannot be mended: the file is empty\n", 1},
		{"garden-bin/2026-05-10", strings.Replace(string(text), "format = 1", "format = 9", 1), "vatside: garden-bin/2026-05-10 cannot be mended: its first lines cannot be read: it is of format 9, which another version of the program writes\n", 1},
		{"garden-bin/2026-05-11 --yes", string(text), "vatside: vat garden-bin has no day \"2026-05-11\": it has 2026-05-09, 2026-05-10\n", 1},
		{"nowhere/2026-05-11", string(text), "vatside: no vat is called", 1},
		{"garden-bin", string(text), "vatside: a day is named as VAT/DAY, not as \"garden-bin\"; see vatside book mend --help\n", 2},
		{"", string(text), "vatside: write it as vatside book mend VAT/DAY; nothing was given; see vatside book mend --help\n", 2},
	} {
		if err := os.WriteFile(file, []byte(c.text), 0o644); err != nil {
			t.Fatal(err)
		}
		out, errs, code := run(t, home, append([]string{"book", "mend"}, strings.Fields(c.args)...)...)
		if code != c.code || out != "" || !strings.HasPrefix(errs, c.errs) || strings.Count(errs, "\n") != 1 {
			t.Errorf("%s: %d %q %q", c.args, code, out, errs)
		}
		if now, _ := os.ReadFile(file); string(now) != c.text {
			t.Errorf("%s: it is changed", c.args)
		}
	}
	_ = os.WriteFile(file, nil, 0o644)
	out, _, code := run(t, home, "book", "mend", "garden-bin/2026-05-10", "--json")
	var m mended
	if err := json.Unmarshal([]byte(out), &m); err != nil || code != 1 || m.Possible || m.Whole || m.Done || !strings.Contains(out, `"steps": []`) {
		t.Errorf("%v %d %s", err, code, out)
	}
}

// The keys of book verify --json.
type verified struct {
	Days     int               `json:"days"`
	Events   int               `json:"events"` // of the days
	Whole    bool              `json:"whole"`
	Findings []verifiedFinding `json:"findings"`
}

type verifiedFinding struct {
	File  string `json:"file"`
	Line  int    `json:"line"` // 0: of the file as a whole
	What  string `json:"what"`
	Lost  bool   `json:"lost"`  // something cannot be read
	Whole bool   `json:"whole"` // a remark only
}

// The keys of book mend --json.
type mended struct {
	Day      string       `json:"day"` // vat/day
	Whole    bool         `json:"whole"`
	Possible bool         `json:"possible"`
	Steps    []mendedStep `json:"steps"`
	Kept     *string      `json:"kept"` // the old file; null where nothing was changed
	Done     bool         `json:"done"`
}

type mendedStep struct {
	Line int    `json:"line"` // of the old file; 0: of no line in it
	What string `json:"what"`
}
