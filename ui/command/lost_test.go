package command

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A day's file that is no day any more is named, by whatever looks at the book.
func TestALostDayIsNamed(t *testing.T) {
	now := time.Date(2026, 5, 19, 9, 0, 0, 0, time.FixedZone("", 7200))
	const first, second = "2026-05-09", "2026-05-10"
	const unread = "vatside: 1 part of the book cannot be read\n"
	const inHead = "vatside: the book is not whole in 1 place: vatside book mend VAT/DAY shows what can be done\n"
	for _, c := range []struct {
		name, day string
		spoil     func(whole string) string
		code      int
		says      string // of the file, by verify
		told      string // by verify at its end
		why       string // by the others
	}{
		{"cut inside its head", first, func(s string) string { return s[:2000] }, 1, "the file ends inside its head, and there are later days", unread, "the file ends inside its head"},
		{"the newest cut inside its head", second, func(s string) string { return s[:2000] }, 1, "the file ends inside its head: a day that was never begun, or that is lost", inHead, "the file ends inside its head"},
		{"emptied", first, func(string) string { return "" }, 1, "the file is empty", unread, "the file is empty"},
		{"the newest emptied", second, func(string) string { return "\n\n" }, 1, "the file is empty", unread, "the file is empty"},
		{"garbage", first, func(string) string { return "garbage" }, 1, "its first lines cannot be read: nothing in the file is of a book", unread, "its first lines cannot be read: nothing in the file is of a book"},
		{"zeros", second, func(s string) string { return strings.Repeat("\x00", len(s)) }, 1, "its first lines cannot be read: nothing in the file is of a book", unread, "its first lines cannot be read: nothing in the file is of a book"},
		{"a later format", first, func(s string) string { return strings.Replace(s, "format = 1", "format = 99", 1) }, 1, "its first lines cannot be read: it is of format 99", unread, "its first lines cannot be read: it is of format 99"},
	} {
		t.Run(c.name, func(t *testing.T) {
			home := playedDays(t, theBin...)
			file := fileOf(home, "garden-bin", c.day)
			whole, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(file, []byte(c.spoil(string(whole))), 0o644); err != nil {
				t.Fatal(err)
			}
			out, errs, code := runAt(t, now, "book", "verify", "--home", home)
			if code != c.code || !strings.Contains(out, file+":1: "+c.says) || errs != c.told {
				t.Errorf("verify: %d %q %q", code, out, errs)
			}
			for _, line := range []string{"care", "cost garden-bin", "sheet garden-bin --what vat"} {
				_, errs, _ := runAt(t, now, append(strings.Fields(line), "--home", home)...)
				told := "vatside: vat garden-bin, day " + c.day + " is left out: " + c.why
				if strings.Count(errs, told) != 1 || strings.Count(errs, "is left out") != 1 {
					t.Errorf("%s: %q", line, errs)
				}
			}
			if out, _, _ := runAt(t, now, "care", "--home", home); strings.Contains(out, "No vat is in the book yet") {
				t.Errorf("care: %s", out)
			}
			out, errs, code = runAt(t, now, "book", "garden-bin", c.day, "--home", home)
			if strings.Contains(out, "is empty.") || !strings.Contains(out+errs, c.why) {
				t.Errorf("book: %d %q %q", code, out, errs)
			}
			if strings.HasPrefix(c.why, "the file") && (code != 1 || out != "" || errs != "vatside: "+file+" cannot be read: "+c.why+"\n") {
				t.Errorf("book: %d %q %q", code, out, errs)
			}
		})
	}
}

// A day under another's name is read, with a remark.
func TestVerifyNamesAMovedDay(t *testing.T) {
	home := playedDays(t, theBin...)
	days, err := filepath.Glob(filepath.Join(home, "vats", "garden-bin", "*.toml"))
	if err != nil || len(days) == 0 {
		t.Fatal(days, err)
	}
	was, moved := days[0], filepath.Join(home, "vats", "garden-bin", "2020-01-01.toml")
	if err := os.Rename(was, moved); err != nil {
		t.Fatal(err)
	}
	out, errs, code := run(t, home, "book", "verify")
	of := "garden-bin/" + strings.TrimSuffix(filepath.Base(was), ".toml")
	if code != 0 || errs != "" || !strings.Contains(out, moved+":1: its head says that it is "+of) || !strings.Contains(out, "with 1 remark") {
		t.Errorf("%d %q\n%s", code, errs, out)
	}
}

func TestVerifyNamesStraysAndBrokenSettings(t *testing.T) {
	home := playedDays(t, theBin...)
	stray := filepath.Join(home, "vats", "garden-bin", "2026-5-11.toml")
	if err := os.WriteFile(stray, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(home, "settings.toml"), []byte("units = \n"), 0o644); err != nil {
		t.Fatal(err)
	}
	out, errs, code := run(t, home, "book", "verify")
	if code != 0 || errs != "" || !strings.Contains(out, stray+": this is no day's name") || !strings.Contains(out, "settings.toml:1:1: ") || !strings.Contains(out, "with 2 remarks") {
		t.Errorf("%d %q\n%s", code, errs, out)
	}
}
