package command

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/vatside/testdata/homes"
	"example.org/vatside/ui/shelf"
)

var november = time.Date(2026, 11, 29, 12, 0, 0, 0, time.UTC)

// A day that was dated later and closed hides no day that was begun after it.
func TestALaterDateHidesNoDay(t *testing.T) {
	home := t.TempDir()
	homes.Tend(t, shelf.Open(home), "2026-11-26", "Pacific/Kiritimati", "2026-11-26T09:00:00+14:00", true)
	homes.Tend(t, shelf.Open(home), "2026-11-25", "UTC", "2026-11-25T21:00:00Z", false)
	for line, want := range map[string]string{"": "bin, day 2026-11-25 is open: ", "now --json": `"day": "2026-11-25"`, "care --json": `"last_day": "2026-11-25"`} {
		out, errs, code := runAt(t, november, append(strings.Fields(line), "--home", home)...)
		if code != 0 || errs != "" || !strings.Contains(out, want) {
			t.Errorf("%q: %d %q\n%s", line, code, errs, out)
		}
	}
	out, errs, code := runAt(t, november, "--plain", "--home", home)
	if code != 0 || !strings.HasPrefix(out, "bin, Wednesday 25 November.\nEnter says done") {
		t.Errorf("plain: %d %q\n%s", code, errs, out)
	}
}

// Each open day of a vat is told of.
func TestEachOpenDayIsToldOf(t *testing.T) {
	home := t.TempDir()
	homes.Tend(t, shelf.Open(home), "2026-11-24", "UTC", "2026-11-24T09:00:00Z", false)
	homes.Tend(t, shelf.Open(home), "2026-11-25", "UTC", "2026-11-25T09:00:00Z", false)
	homes.Tend(t, shelf.Open(home), "2026-11-26", "UTC", "2026-11-26T09:00:00Z", true)
	for line, heads := range map[string]string{"": "bin, day %s is open: ", "now": "bin, day %s: ", "care": "bin, day %s\n"} {
		out, errs, code := runAt(t, november, append(strings.Fields(line), "--home", home)...)
		for _, d := range []string{"2026-11-24", "2026-11-25"} {
			if want := strings.ReplaceAll(heads, "%s", d); code != 0 || errs != "" || strings.Count(out, want) != 1 {
				t.Errorf("%q: no %q: %d %q\n%s", line, want, code, errs, out)
			}
		}
		if strings.Contains(out, "2026-11-26") {
			t.Errorf("%q:\n%s", line, out)
		}
	}
}

// A newest day that cannot be read hides no vat: what can be read is told, and what cannot.
func TestAnUnreadableNewestDayHidesNoVat(t *testing.T) {
	home := t.TempDir()
	homes.Tend(t, shelf.Open(home), "2026-11-24", "UTC", "2026-11-24T09:00:00Z", true)
	homes.Tend(t, shelf.Open(home), "2026-11-25", "UTC", "2026-11-25T09:00:00Z", true)
	for name, spoil := range map[string]func(path string) error{
		"zeros":  func(path string) error { return os.WriteFile(path, make([]byte, 400), 0o644) },
		"a link": func(path string) error { return os.Symlink("/dev/zero", path) },
	} {
		path := filepath.Join(home, "vats", "bin", "2026-11-25.toml")
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
		if err := spoil(path); err != nil {
			t.Skip(err)
		}
		for line, want := range map[string]string{"": "bin: last day 2026-11-24, closed at ", "care": "bin\n", "care --json": `"last_day": "2026-11-24"`, "cost bin": "bin", "book": "2026-11-24", "now": "No day is open.\n"} {
			out, errs, code := runAt(t, november, append(strings.Fields(line), "--home", home)...)
			if !strings.Contains(out, want) || strings.Contains(out, "No vat") {
				t.Errorf("%s, %q: %d\n%s", name, line, code, out)
			}
			if line != "book" && strings.Count(errs, "vat bin, day 2026-11-25 is left out: ") != 1 {
				t.Errorf("%s, %q: %q", name, line, errs)
			}
		}
	}
}
