package command

import (
	"os"
	"strings"
	"testing"
	"time"
)

// A time that cannot be is told, and holds nobody up: with a year of 3026 or 1 in the midst of a day each of these commands
// ran for ever.
func TestAYearThatCannotBeHoldsNobodyUp(t *testing.T) {
	now := time.Date(2026, 5, 19, 9, 0, 0, 0, time.FixedZone("", 7200))
	for _, year := range []string{"3026", "0001"} {
		home := playedDays(t, theBin...)
		file := fileOf(home, "garden-bin", "2026-05-10")
		whole, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		at := strings.LastIndex(string(whole), "\nat = 2026")
		spoilt := string(whole[:at]) + "\nat = " + year + string(whole[at+len("\nat = 2026"):])
		if err := os.WriteFile(file, []byte(spoilt), 0o644); err != nil {
			t.Fatal(err)
		}
		for _, line := range []string{"care", "now", "cost garden-bin", "sheet garden-bin --what vat", "like --lab 31,-3,-20", "signs --vat garden-bin --seen milky"} {
			_, errs, _ := runAt(t, now, append(strings.Fields(line), "--home", home)...)
			if line != "now" && strings.Count(errs, "garden-bin/2026-05-10 is not whole: event 53 cannot be read: its time is in the year "+strings.TrimLeft(year, "0")+", ") != 1 {
				t.Errorf("%s, %s: %q", year, line, errs)
			}
		}
		out, _, code := runAt(t, now, "book", "verify", "--home", home)
		if code != 1 || !strings.Contains(out, "its time is in the year "+strings.TrimLeft(year, "0")+", ") {
			t.Errorf("verify: %d %q", code, out)
		}
		out, errs, code := runAt(t, now, "book", "export", "--csv", t.TempDir(), "--home", home)
		if code != 0 || !strings.Contains(errs, "an event is left out, it cannot be read: its time is in the year") {
			t.Errorf("export: %d %q %q", code, out, errs)
		}
	}
}
