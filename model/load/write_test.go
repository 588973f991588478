package load_test

import (
	"encoding/csv"
	"regexp"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
)

// The timetable as comma-separated values.
func TestCSV(t *testing.T) {
	a := dips("A, the \"first\"", 2)
	a.Form = load.Skein
	p := plan(t, []load.Piece{a}, load.Limits{})
	want := "tag,dip,vat,lower_min,in_min,out_min,lifted_min,past\n" +
		"\"A, the \"\"first\"\"\",1,1,0,0.5,10.5,11,\n" + "\"A, the \"\"first\"\"\",2,1,31,31.5,41.5,42,\n"
	if got := p.CSV(); got != want {
		t.Errorf("%q", got)
	}
	if rows, err := csv.NewReader(strings.NewReader(p.CSV())).ReadAll(); err != nil || len(rows) != 3 {
		t.Error(err)
	}
}

// unfolded is a calendar's lines as they were before they were folded.
func unfolded(t *testing.T, text string) []string {
	t.Helper()
	for _, l := range strings.SplitAfter(text, "\r\n") {
		if l != "" && !strings.HasSuffix(l, "\r\n") || strings.ContainsAny(strings.TrimSuffix(l, "\r\n"), "\r\n") {
			t.Errorf("a line does not end in CR LF: %q", l)
		}
		if len(strings.TrimSuffix(l, "\r\n")) > 75 {
			t.Errorf("a line of %d octets: %q", len(l), l)
		}
		if !strings.HasPrefix(l, " ") && strings.Contains(l, "\uFFFD") {
			t.Errorf("a character is cut: %q", l)
		}
	}
	return strings.Split(strings.TrimSuffix(strings.ReplaceAll(text, "\r\n ", ""), "\r\n"), "\r\n")
}

// The calendar: UTC, folded, escaped, each event with a UID of its own that stays when its time changes.
func TestICalendar(t *testing.T) {
	pieces := []load.Piece{dips("A; ünglaublich lang, ein Tischläufer mit sehr vielen Umlauten: äöüäöüäöü", 2), dips("B", 1)}
	pieces[0].Who = "4"
	l := load.Limits{Capacity: 100, Handling: map[string]quantity.Span{}, Rest: load.Pause{After: minutes(20), For: minutes(30)}}
	p := plan(t, pieces, l)
	start := time.Date(2026, 11, 25, 23, 30, 0, 0, time.FixedZone("", 3600))
	text := p.ICalendar(start, "Indigo, day 1")
	if text != p.ICalendar(start.UTC(), "Indigo, day 1") {
		t.Error("the same moment in another zone gives another calendar")
	}
	lines := unfolded(t, text)
	uid := map[string]bool{}
	depth, events := 0, 0
	stamp := regexp.MustCompile(`^\d{8}T\d{6}Z$`)
	for _, line := range lines {
		name, value, ok := strings.Cut(line, ":")
		if !ok {
			t.Errorf("no value in %q", line)
		}
		switch name {
		case "BEGIN":
			depth++
			if value == "VEVENT" {
				events++
			}
		case "END":
			depth--
		case "UID":
			if uid[value] {
				t.Errorf("two events are %s", value)
			}
			uid[value] = true
		case "DTSTART", "DTEND", "DTSTAMP":
			if !stamp.MatchString(value) {
				t.Errorf("%q is not a time in UTC", line)
			}
		}
	}
	if depth != 0 || events != len(p.Rows)+len(p.Stands)+len(p.Done) || len(uid) != events || lines[0] != "BEGIN:VCALENDAR" {
		t.Errorf("%d events, %d names\n%s", events, len(uid), text)
	}
	if !strings.Contains(text, "X-WR-CALNAME:Indigo\\, day 1\r\n") || !strings.Contains(text, "DTSTART:20261125T223000Z\r\n") {
		t.Error(text)
	}
	if !strings.Contains(strings.Join(lines, "\n"), `SUMMARY:A\; ünglaublich lang\, ein Tischläufer`) {
		t.Error(text)
	}
	pieces[1].From = minutes(200)
	later := plan(t, pieces, l)
	for _, line := range unfolded(t, later.ICalendar(start, "Indigo, day 1")) {
		if name, value, _ := strings.Cut(line, ":"); name == "UID" && !uid[value] && len(later.Stands) == len(p.Stands) {
			t.Errorf("%s is new", value)
		}
	}
}
