package command

import (
	"strings"
	"testing"
	"time"

	"github.com/emersion/go-ical"
)

func TestCareAsCalendar(t *testing.T) {
	home := playedDays(t, append(theBin, "sugar-lime-pail:pail/2026-05-16")...)
	now := time.Date(2026, 5, 19, 9, 0, 0, 0, time.FixedZone("", 7200))
	read := func(now time.Time, args ...string) map[string]string {
		t.Helper()
		out, errs, code := runAt(t, now, append([]string{"care", "--home", home, "--as", "ical"}, args...)...)
		c, err := ical.NewDecoder(strings.NewReader(out)).Decode()
		if err != nil || code != 0 || errs != "" {
			t.Fatalf("%v %d %q\n%s", err, code, errs, out)
		}
		all := map[string]string{}
		for _, e := range c.Events() {
			words, _ := e.Props.Text(ical.PropSummary)
			all[e.Props.Get(ical.PropUID).Value] = e.Props.Get(ical.PropDateTimeStart).Value + " " + words
		}
		return all
	}
	has := func(all map[string]string, want string) bool {
		for _, words := range all {
			if strings.HasPrefix(words, want) {
				return true
			}
		}
		return false
	}
	four, one := read(now), read(now, "--weeks", "1")
	for _, want := range []string{"20260519T091500 Garden bin: Look at it", "20260526T091500 Garden bin: Look at it", "20260519T091500 Garden bin: Top it up, 2.2 L", "20260519T091500 Pail: See if it is ready"} {
		if !has(four, want) {
			t.Errorf("no %q in %q", want, four)
		}
	}
	if has(one, "20260526") || len(one) >= len(four) {
		t.Errorf("one week has %q", one)
	}
	later := read(now.Add(time.Hour), "--vat", "garden-bin")
	for uid, words := range later {
		if old, ok := four[uid]; !ok || old[16:] != words[16:] || !strings.Contains(words, "Garden bin") {
			t.Errorf("an hour later %q is %q", old, words)
		}
	}
	for _, c := range []struct {
		code int
		says string
		args []string
	}{
		{2, `--as is ical, not "csv"`, []string{"--as", "csv"}},
		{2, "--weeks goes with --as ical", []string{"--weeks", "2"}},
		{1, "--weeks: 0; write 1 to 26", []string{"--as", "ical", "--weeks", "0"}},
	} {
		out, errs, code := runAt(t, now, append([]string{"care", "--home", home}, c.args...)...)
		if code != c.code || out != "" || !strings.Contains(errs, c.says) {
			t.Errorf("care %v: %d %q %q", c.args, code, out, errs)
		}
	}
	// Rehearsed vats have a time of their own.
	out, errs, code := runAt(t, now, "care", "--home", rehearsed(t, 1), "--as", "ical")
	if code != 0 || !strings.Contains(errs, "the calendar is empty") || strings.Contains(out, "VEVENT") {
		t.Errorf("rehearsed: %d %q\n%s", code, errs, out)
	}
}
