package command

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// heads changes a line of the head of a day's file.
func (s *spoken) heads(day, was, is string) {
	s.t.Helper()
	file := filepath.Join(s.home, "vats", "bin", day+".toml")
	text, err := os.ReadFile(file)
	if err != nil || !strings.Contains(string(text), was) {
		s.t.Fatalf("%s has no %q: %v", file, was, err)
	}
	if err := os.WriteFile(file, []byte(strings.Replace(string(text), was, is, 1)), 0o644); err != nil {
		s.t.Fatal(err)
	}
}

// begunAt is a new vat whose day begins at an instant, in the zone of Berlin.
func begunAt(t *testing.T, at string) *spoken {
	s := newSpoken(t)
	begins, err := time.Parse(time.RFC3339, at)
	if err != nil {
		t.Fatal(err)
	}
	s.wall = begins.Add(48 * time.Hour)
	s.ok("begin", "bin", "--recipe", "soda", "--fill", "60L", "--place", "outdoors", "--built", "--at", at)
	s.heads(at[:10], "zone = \""+begins.Format("-07:00")+"\"", "zone = \"Europe/Berlin\"")
	return s
}

// Of the hour that comes twice it is the first that is not before the last event; that which is left out is no time; a time past
// midnight has its date.
func TestSayOverAChangeOfTheClocks(t *testing.T) {
	s := begunAt(t, "2026-10-25T01:30:00+02:00")
	for _, c := range [][2]string{{"02:40", "02:40:00+02:00"}, {"02:30", "02:30:00+01:00"}, {"02:50", "02:50:00+01:00"}} {
		if got := s.ok("say", "bin", "note "+c[0], "--at", c[0]); len(got.Events) != 1 || got.Events[0].At != "2026-10-25T"+c[1] {
			t.Errorf("%s is %+v", c[0], got.Events)
		}
	}
	s.ends(1, "--at 02:45 is on 2026-10-25, before the last event, which was at 02:50:00: past midnight say it with its date", "say", "bin", "note x", "--at", "02:45")
	s = begunAt(t, "2026-03-29T01:30:00+01:00")
	s.ends(1, "02:30 does not exist on 2026-03-29", "say", "bin", "note x", "--at", "02:30")
	s.ok("say", "bin", "note x", "--at", "03:00")
}

// A head whose date was spoilt by hand ends nothing.
func TestSayToADayWithoutADate(t *testing.T) {
	s := begunAt(t, "2026-10-25T01:30:00+02:00")
	s.heads("2026-10-25", `day = "2026-10-25"`, `day = ""`)
	if got := s.ok("say", "bin", "note x", "--at", "09:00"); len(got.Events) != 1 || got.Events[0].At != "2026-10-25T09:00:00+01:00" {
		t.Errorf("it writes %+v", got.Events)
	}
}
