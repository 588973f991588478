package calendar_test

import (
	"fmt"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the zones of the tests

	ics "github.com/arran4/golang-ical"
	"github.com/emersion/go-ical"

	"example.org/vatside/model/calendar"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
)

func zone(t *testing.T, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

// checkLines holds the form of the text: CR LF, at most 75 octets, no character cut.
func checkLines(t *testing.T, text string) {
	t.Helper()
	for _, l := range strings.SplitAfter(text, "\r\n") {
		bare := strings.TrimSuffix(l, "\r\n")
		if l != "" && bare == l || strings.ContainsAny(bare, "\r\n") || len(bare) > 75 || strings.ToValidUTF8(bare, "\uFFFD") != bare {
			t.Errorf("a line of %d octets: %q", len(bare), l)
		}
	}
}

// read is a calendar as two parsers that are not ours read it, by UID: they must agree.
func read(t *testing.T, text string) map[string]ical.Event {
	t.Helper()
	checkLines(t, text)
	one, err := ical.NewDecoder(strings.NewReader(text)).Decode()
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	two, err := ics.ParseCalendar(strings.NewReader(text))
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	events := one.Events()
	if len(events) != len(two.Events()) {
		t.Fatalf("one reads %d events, the other %d", len(events), len(two.Events()))
	}
	out := map[string]ical.Event{}
	for i, e := range events {
		uid := e.Props.Get(ical.PropUID).Value
		if _, twice := out[uid]; twice {
			t.Errorf("two events are %s", uid)
		}
		out[uid] = e
		other := two.Events()[i]
		from, err1 := e.DateTimeStart(nil)
		to, err2 := e.DateTimeEnd(nil)
		from2, err3 := other.GetStartAt()
		to2, err4 := other.GetEndAt()
		if err1 != nil || err2 != nil || err3 != nil || err4 != nil || other.Id() != uid || !from.Equal(from2) || !to.Equal(to2) || !to.After(from) {
			t.Errorf("%s: %v %v, and %v %v: %v %v %v %v", uid, from, to, from2, to2, err1, err2, err3, err4)
		}
		if len(other.Alarms()) != len(e.Children) {
			t.Errorf("%s: %d alarms, and %d", uid, len(e.Children), len(other.Alarms()))
		}
	}
	return out
}

func summary(e ical.Event) string {
	s, _ := e.Props.Text(ical.PropSummary) // empty is found by the test
	return s
}

func begins(t *testing.T, e ical.Event) time.Time {
	t.Helper()
	at, err := e.DateTimeStart(nil)
	if err != nil {
		t.Fatal(err)
	}
	return at
}

func sequence(t *testing.T, e ical.Event) int {
	t.Helper()
	n, err := e.Props.Get(ical.PropSequence).Int()
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// rings are the instants at which an event's alarms call.
func rings(t *testing.T, e ical.Event) (out []time.Time) {
	t.Helper()
	for _, a := range e.Children {
		trigger := a.Props.Get(ical.PropTrigger)
		d, err := trigger.Duration()
		if err != nil || a.Name != ical.CompAlarm || a.Props.Get(ical.PropAction).Value != "DISPLAY" || a.Props.Get(ical.PropDescription).Value == "" {
			t.Fatalf("%v %+v", err, a)
		}
		at := begins(t, e)
		if trigger.Params.Get(ical.ParamRelated) == "END" {
			if at, err = e.DateTimeEnd(nil); err != nil {
				t.Fatal(err)
			}
		}
		out = append(out, at.Add(d))
	}
	return out
}

func minutes(n int) quantity.Span { return quantity.Minutes(float64(n)) }

func classDay(t *testing.T, from quantity.Span) load.Plan {
	t.Helper()
	piece := load.Piece{Tag: "A; ünglaublich lang, ein Tischläufer mit sehr vielen Umlauten: äöüäöüäöü", Who: "4", Dry: 100, Dips: 2, Dip: minutes(10),
		Air: minutes(20), Fibre: fibre.Cotton, Form: load.Skein}
	other := piece
	other.Tag, other.Who, other.Dips, other.From = "B", "", 1, from
	p, err := load.Make([]load.Piece{piece, other}, load.Limits{Capacity: 100, Rest: load.Pause{After: minutes(20), For: minutes(30)}})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// A plan as other programs read it: its times, its alarms, its words.
func TestOfPlan(t *testing.T) {
	start := time.Date(2026, 11, 25, 23, 30, 0, 0, zone(t, "Europe/Berlin"))
	p := classDay(t, 0)
	c := calendar.Calendar{Name: "Indigo, day 1", At: start.Add(-time.Hour), Events: calendar.OfPlan(p, start)}
	text := c.Text()
	events := read(t, text)
	if len(events) != len(p.Rows)+len(p.Stands)+len(p.Done) || len(p.Stands) == 0 || text != c.Text() {
		t.Errorf("%d events of %d dips, %d stands", len(events), len(p.Rows), len(p.Stands))
	}
	for _, want := range []string{"X-WR-CALNAME:Indigo\\, day 1\r\n", "DTSTART;TZID=Europe/Berlin:20261125T233000\r\n", "DTSTAMP:20261125T213000Z\r\n", "DESCRIPTION:In at 23:30:30\\, out at 23:40:30.\r\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	dipped := 0
	for _, r := range p.Rows {
		what := fmt.Sprintf("%s dip %d", r.Tag, r.Dip)
		for _, e := range events {
			if !strings.HasPrefix(summary(e), what) {
				continue
			}
			dipped++
			low, lift := start.Add(r.Lower.Duration()), start.Add(r.Out.Duration())
			got := rings(t, e)
			if !begins(t, e).Equal(low) || len(got) != 2 || !got[0].Equal(low.Add(-2*time.Minute)) || !got[1].Equal(lift) {
				t.Errorf("%s: %v, alarms %v", what, begins(t, e), got)
			}
		}
	}
	done := 0
	for _, e := range events {
		if to, _ := e.DateTimeEnd(nil); strings.Contains(summary(e), "is done") && to.Sub(begins(t, e)) == 5*time.Minute {
			done++
		}
	}
	if dipped != len(p.Rows) || done != len(p.Done) {
		t.Errorf("%d dips, %d done", dipped, done)
	}
}

// A day that begins later, and one that is planned anew, move the events that a calendar has.
func TestLaterExportMoves(t *testing.T) {
	start := time.Date(2026, 11, 25, 9, 0, 0, 0, zone(t, "Europe/Berlin"))
	export := func(p load.Plan, start, at time.Time) map[string]ical.Event {
		return read(t, calendar.Calendar{Name: "class", At: at, Events: calendar.OfPlan(p, start)}.Text())
	}
	p := classDay(t, 0)
	first := export(p, start, start.Add(-time.Hour))
	shifted := export(p, start.AddDate(0, 0, 1), start.Add(-time.Hour+time.Second))
	later := export(classDay(t, minutes(200)), start, start)
	for uid, e := range first {
		s, ok := shifted[uid]
		if !ok || summary(s) != summary(e) || begins(t, s).Sub(begins(t, e)) != 24*time.Hour || sequence(t, s) != sequence(t, e)+1 {
			t.Errorf("a day later: %q is %+v", summary(e), s)
		}
		if l, ok := later[uid]; strings.HasPrefix(summary(e), "B") && (!ok || !begins(t, l).After(begins(t, e))) {
			t.Errorf("planned anew: %q is %+v", summary(e), l)
		}
	}
	if other := read(t, (calendar.Calendar{Name: "other", At: start, Events: calendar.OfPlan(p, start)}).Text()); len(other) == 0 {
		t.Error("no events")
	} else {
		for uid := range other {
			if _, ok := first[uid]; ok {
				t.Errorf("two calendars have %s", uid)
			}
		}
	}
}

// Times in the zone in which the calendar is written, and the rules of that zone as far as they are needed.
func TestZones(t *testing.T) {
	summer := time.Date(2026, 10, 24, 12, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		zone        *time.Location
		days        int
		has, hasNot []string
	}{
		{zone(t, "Europe/Berlin"), 0, []string{"TZID:Europe/Berlin\r\nBEGIN:DAYLIGHT\r\nDTSTART:20260329T020000\r\nTZOFFSETFROM:+0100\r\nTZOFFSETTO:+0200\r\nTZNAME:CEST\r\n"}, []string{"STANDARD"}},
		{zone(t, "Europe/Berlin"), 2, []string{"BEGIN:STANDARD\r\nDTSTART:20261025T030000\r\nTZOFFSETFROM:+0200\r\nTZOFFSETTO:+0100\r\n"}, nil},
		{zone(t, "Asia/Kathmandu"), 0, []string{"DTSTART;TZID=Asia/Kathmandu:20261024T174500\r\n", "TZOFFSETTO:+0545"}, nil},
		{time.UTC, 2, []string{"DTSTART:20261024T120000Z\r\n"}, []string{"TZID"}},
		{time.FixedZone("", 2*3600), 2, []string{"DTSTART;TZID=Etc/GMT-2:20261024T140000\r\n", "DTSTART:19700101T000000\r\nTZOFFSETFROM:+0200\r\n"}, nil},
		{time.FixedZone("", -3*3600), 2, []string{"DTSTART;TZID=Etc/GMT+3:20261024T090000\r\n", "TZOFFSETTO:-0300"}, nil},
		{time.FixedZone("", 5*3600+1800), 2, []string{"DTSTART:20261024T120000Z\r\n"}, []string{"TZID"}},
	} {
		at := summer.In(c.zone)
		e := calendar.Event{ID: "1", From: at.UTC(), To: at.Add(time.Hour), Summary: "look"}
		f := calendar.Event{ID: "2", From: at.AddDate(0, 0, c.days), To: at.AddDate(0, 0, c.days), Summary: "stir"}
		text := calendar.Calendar{Name: "vats", At: at, Events: []calendar.Event{e, f}}.Text()
		for _, got := range read(t, text) {
			if want := map[string]time.Time{"look": e.From, "stir": f.From}[summary(got)]; !begins(t, got).Equal(want) {
				t.Errorf("%v: %v is read as %v", c.zone, want, begins(t, got))
			}
		}
		for _, want := range c.has {
			if !strings.Contains(text, want) {
				t.Errorf("%v: no %q in\n%s", c.zone, want, text)
			}
		}
		for _, not := range c.hasNot {
			if strings.Contains(text, not) {
				t.Errorf("%v: %q in\n%s", c.zone, not, text)
			}
		}
	}
	// The hour that comes twice: its second is told in UTC.
	night := time.Date(2026, 10, 25, 1, 30, 0, 0, time.UTC).In(zone(t, "Europe/Berlin")) // 02:30, for the second time
	text := calendar.Calendar{At: night, Events: []calendar.Event{{ID: "1", From: night, To: night.Add(time.Hour)}, {ID: "2", From: night.Add(-time.Hour), To: night}}}.Text()
	if !strings.Contains(text, "DTSTART:20261025T013000Z\r\n") || !strings.Contains(text, "DTSTART;TZID=Europe/Berlin:20261025T023000\r\n") {
		t.Error(text)
	}
}

// A calendar without events is one all the same: it has a component, by RFC 5545, and both parsers read it.
func TestACalendarWithoutEvents(t *testing.T) {
	for _, zone := range []*time.Location{time.UTC, time.FixedZone("", 3600), time.FixedZone("", 5*3600+1800)} {
		text := calendar.Calendar{Name: "vats", At: time.Date(2026, 11, 30, 9, 0, 0, 0, zone)}.Text()
		if events := read(t, text); len(events) > 0 {
			t.Errorf("%s: it has %d events", zone, len(events))
		}
		one, err := ical.NewDecoder(strings.NewReader(text)).Decode()
		if err != nil || len(one.Children) == 0 {
			t.Errorf("%s: %v, no component in it\n%s", zone, err, text)
		}
		if strings.Contains(text, "Etc/UTC") && !strings.Contains(text, "TZOFFSETTO:+0000") {
			t.Errorf("%s: UTC is said to be elsewhere\n%s", zone, text)
		}
	}
}
