package book

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

// twoTables are a day of two events, small enough to be spoilt by hand.
func twoTables(t testing.TB) (days, events string) {
	t.Helper()
	data, ends := sampleFile(t)
	x := Export(undated, []Leaf{{"garden-bin", "2026-11-25", data[:ends[2]]}})
	return string(x.text(t, DaysFile)), string(x.text(t, EventsFile))
}

func TestImportRefusals(t *testing.T) {
	days, events := twoTables(t)
	for _, c := range []struct{ name, in, old, repl, says string }{
		{"no such table", "days", days, "", `days.csv:1: the table is empty; its head line names the columns vat, day, head`},
		{"nor events", "events", events, "", `events.csv:1: the table is empty; its head line names the columns vat, day, seq, at, kind, fields`},
		{"a column less", "days", "events,head", "events,top", `days.csv:1: there is no column "head"; the head line names the columns vat, day, head`},
		{"a column twice", "events", "vat,day,", "day,day,", `events.csv:1: two columns are called "day"; one is enough`},
		{"another alphabet", "events", `"glass [old]"`, "\xb0", `events.csv:6: this line is not UTF-8; save the table as CSV in UTF-8`},
		{"and read as one", "days", "°", "Â°", `days.csv:2, column head: the table was opened as another alphabet than UTF-8, ° has become Â°; open it as UTF-8 and save it again`},
		{"a quote too few", "events", `opened,"how`, `opened,how`, `events.csv:2: a quote stands where none can; a cell with quotes in it is written "so ""called"""`},
		{"a quote too many", "events", `2026-11-25,2,`, `2026-11-25,"2,`, `events.csv:3: a quote stands where none can; a cell with quotes in it is written "so ""called"""`},
		{"a cell too many", "events", "garden-bin,2026-11-25,2,", "garden-bin,2026-11-25,,2,", `events.csv:3: this row has 10 cells, and the head line has 9; a cell with a comma in it stands in quotes`},
		{"a cell cut off", "events", `how = ""tend""`, "# " + strings.Repeat("x", cellMost-2), `events.csv:2, column fields: this cell is 32767 characters long, where spreadsheets cut one off; take it from a table that was not saved by one`},
		{"no vat", "days", "garden-bin,2026", ",2026", `days.csv:2, column vat: "" is no name; write it as garden-bin`},
		{"a date of another form", "days", "garden-bin,2026-11-25", "garden-bin,25.11.2026", `days.csv:2, column day: "25.11.2026" is not how the book names a day; write its date as 2026-11-25, a second day of that date as 2026-11-25-2`},
		{"no such date", "days", "garden-bin,2026-11-25", "garden-bin,2026-02-30", `days.csv:2, column day: there is no date 2026-02-30`},
		{"no number of events", "days", ",2,\"format", ",two,\"format", `days.csv:2, column events: "two" is not a number of events; write how many rows of events.csv the day has, or nothing`},
		{"an event too few", "days", ",2,\"format", ",3,\"format", `days.csv:2, column events: it says 3, and events.csv has 2 of garden-bin/2026-11-25; write how many rows it has, or nothing`},
		{"another format", "days", "format = 1", "format = 9", `days.csv:2, column head: the head cannot be read: it is of format 9, which another version of the program writes; it is the first block of a day's file, as the export writes it`},
		{"a head in two", "days", "[recipe]", "# end 0 00000000", `days.csv:2, column head: the head cannot be read: it holds no recipe; it is the first block of a day's file, as the export writes it`},
		{"more than a head", "days", "do = \"\"check\"\"", "do = \"\"check\"\"\n# end 0 00000000", `days.csv:2, column head: this is not one head and nothing else; it is the first block of a day's file, without its end line`},
		{"events of no day", "days", "garden-bin,2026-11-25", "garden-bin,2026-11-26", `events.csv:2, column day: days.csv has no day garden-bin/2026-11-25; each event belongs to a row there, by vat and day`},
		{"no number", "events", "2026-11-25,2,", "2026-11-25,x,", `events.csv:3, column seq: "x" is not the number of an event; write a whole number from 1`},
		{"number nought", "events", "2026-11-25,2,", "2026-11-25,0,", `events.csv:3, column seq: "0" is not the number of an event; write a whole number from 1`},
		{"a number twice", "events", "2026-11-25,2,", "2026-11-25,1,", `events.csv:3, column seq: event 1 of garden-bin/2026-11-25 stands in line 2 already; each has a number of its own`},
		{"a time of another form", "events", "2026-11-25T09:04:00+01:00", "25.11.2026 09:04", `events.csv:3, column at: "25.11.2026 09:04" is not a time as the book has it; write it as 2026-11-25T09:30:00+01:00`},
		{"a time without its offset", "events", "2026-11-25T09:04:00+01:00", "2026-11-25T09:04:00", `events.csv:3, column at: "2026-11-25T09:04:00" is not a time as the book has it; write it as 2026-11-25T09:30:00+01:00`},
		{"year nought", "events", "2026-11-25T09:04:00", "0000-11-25T09:04:00", `events.csv:3, column at: the year 0 has no place in the book`},
		{"a boot", "events", "0f3a9c21,1052.250", "0f3a,1052.250", `events.csv:3, column boot: "0f3a" is no boot clock; it has 8 figures of 0 to 9 and a to f, or leave it empty`},
		{"a boot without its clock", "events", "0f3a9c21,1052.250", "0f3a9c21,", `events.csv:3, column up: "" is no number of seconds; write it as 812.25, or leave boot empty too`},
		{"no kind", "events", ",reading,", ",,", `events.csv:3, column kind: the event has no kind; write one such as reading or note`},
		{"no TOML", "events", "ph = 11.0", "pH 11", `events.csv:3, column fields: they cannot be read: it is not TOML: expected '.' or '=', but got '1' instead; each line is key = "value", as the export writes them`},
		{"a figure without its unit", "events", `temp = ""33.5 °C""`, `temp = 33.5`, `events.csv:3, column fields: they cannot be read: temp: it is not a text with its unit; each line is key = "value", as the export writes them`},
		{"a key of a column", "events", "ph = 11.0", "seq = 3", `events.csv:3, column fields: they cannot be read: it is not TOML: Key 'seq' has already been defined; each line is key = "value", as the export writes them`},
		{"a slip of the pen", "events", `how = ""tend""`, `hwo = ""tend""`, `events.csv:2, column fields: it has no how; its key "hwo" is unknown; look for a typing mistake`},
		{"an end line", "events", "ph = 11.0", "# end 2 00000000", `events.csv:3, column fields: an end line or the first line of a block stands among them; they are the lines between those`},
		{"a control character", "events", `how = ""tend""`, `how = ""te\u001b[31mnd""`, `events.csv:2, column fields: "te` + "\ufffd" + `[31mnd" holds the character U+001B, which cannot be shown: write it without`},
		{"one as it is", "events", `how = ""tend""`, "how = \"\"te\u202end\"\"", `events.csv:2, column fields: here stands the character U+202E, which cannot be shown: write it without`},
		{"one in the head", "days", `name = ""`, `name = ""\u009b`, `days.csv:2, column head: "` + "\ufffd" + `Garden bin!" holds the character U+009B, which cannot be shown: write it without`},
		{"one in the recipe", "days", `# Grandmother's`, "# Grand\u2028mother's", `days.csv:2, column head: here stands the character U+2028, which cannot be shown: write it without`},
		{"one in a kind", "events", ",reading,", ",read\a,", `events.csv:3, column kind: "read` + "\ufffd" + `" holds the character U+0007, which cannot be shown: write it without`},
		{"another event", "events", "ph = 11.0", "[[event]]", `events.csv:3, column fields: an end line or the first line of a block stands among them; they are the lines between those`},
	} {
		d, e := days, events
		on := &d
		if c.in == "events" {
			on = &e
		}
		if !strings.Contains(*on, c.old) {
			t.Fatalf("%s: no %q in\n%s", c.name, c.old, *on)
		}
		*on = strings.Replace(*on, c.old, c.repl, 1)
		m := Import(undated, []byte(d), []byte(e), func(vat string) error {
			if vat == "" {
				return errors.New(`"" is no name`)
			}
			return nil
		})
		if len(m.Wrong) == 0 {
			t.Errorf("%s: taken", c.name)
			continue
		}
		if got := m.Wrong[0].Error(); got != c.says {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.says)
		}
		if len(m.Leaves) > 0 && m.Wrong[0].File == DaysFile {
			t.Errorf("%s: a day was made of it", c.name)
		}
	}
}

// All that is wrong is told in one run, each at its own place.
func TestAllIsTold(t *testing.T) {
	days, events := twoTables(t)
	events = strings.Replace(events, "2026-11-25,1,", "2026-11-25,one,", 1)
	events = strings.Replace(events, "2026-11-25T09:04:00+01:00", "yesterday", 1)
	m := Import(undated, []byte(days), []byte(events), anyVat)
	if len(m.Wrong) != 2 || m.Wrong[0].Line != 2 || m.Wrong[1].Line != 3 || len(m.Leaves) > 0 {
		t.Errorf("%v", m.Wrong)
	}
}

// What a later version wrote comes back as it stood: its kinds, and the keys it has more in a kind that is known.
func TestLaterVersionComesBack(t *testing.T) {
	data, ends := sampleFile(t)
	for _, text := range []string{
		"[[event]]\nseq = 1\nat = 2026-11-25T09:00:00.125Z\nkind = \"moon watched\"\nboot = \"0f3a9c21\"\nup = 12.500\nphase = 0.25\n-x = [1, 2]\n\n[[event.seen]]\nseq = 9\nby = \"=me\"\n",
		"[[event]]\nseq = 1\nat = 2026-11-25T09:00:00+01:00\nkind = \"opened\"\nhow = \"tend\"\nmood = \"blue\"\n",
	} {
		file := append(append([]byte(nil), data[:ends[0]]...), '\n')
		file = append(file, closed([]byte(text), 1)...)
		m := Export(undated, []Leaf{{"garden-bin", "2026-11-25", file}}).whole(t)
		if len(m.Leaves) != 1 || string(m.Leaves[0].Text) != string(file) {
			t.Errorf("came back as\n%s", m.Leaves)
		}
		if len(m.Remarks) != 1 {
			t.Errorf("remarks %v", m.Remarks)
		}
	}
}

// A day that a hand has mended comes back with the same events, in the form of the book.
func TestMendedDayComesBack(t *testing.T) {
	data, _ := sampleFile(t)
	mended := strings.NewReplacer(
		"[[event]]\nseq = 2\nat = 2026-11-25T09:04:00+01:00\nkind = \"reading\"\n", "[event]\n# mended\nkind = \"reading\"\n  at = 2026-11-25T09:04:00+01:00\n\"seq\" = 2\n",
		"boot = \"0f3a9c21\"\nup = 812.250\n", "boot = \"seven\"\nup = 8\n",
	).Replace(string(data))
	was := Leaf{"garden-bin", "2026-11-25", []byte(strings.ReplaceAll(mended, "\n", "\r\n"))}
	x := Export(undated, []Leaf{was})
	if len(x.LeftOut) > 0 {
		t.Fatal(x.LeftOut)
	}
	m := x.whole(t)
	b, want := Read("", m.Leaves[0].Text), Read("", was.Text)
	if len(b.Events) != len(want.Events) || len(Verify(b)) > 0 {
		t.Fatalf("%d events of %d, %v\n%s", len(b.Events), len(want.Events), Verify(b), m.Leaves[0].Text)
	}
	for i, e := range b.Events {
		w := want.Events[i]
		if fmt.Sprint(Fields("v", "d", e)) != fmt.Sprint(Fields("v", "d", w)) || e.Boot != w.Boot || e.Up != w.Up {
			t.Errorf("event %d came back as %+v, was %+v", e.Seq, e, w)
		}
	}
	if !SameDay(m.Leaves[0], was) {
		t.Error("it is taken for another day")
	}
}

// What cannot be read is told and left out.
func TestExportLeavesOut(t *testing.T) {
	data, ends := sampleFile(t)
	spoilt := strings.Replace(string(data), "ph = 11.0", "ph = ", 1)
	x := Export(undated, []Leaf{
		{"garden-bin", "2026-11-25", []byte(spoilt)},
		{"garden-bin", "2026-11-26", data[:ends[2]-4]},
		{"garden-bin", "2026-11-27", data[:40]},
		{"garden-bin", "2026-11-28", []byte(strings.Replace(string(data), "format = 1", "format = 9", 1))},
	})
	var told []string
	for _, f := range x.LeftOut {
		told = append(told, f.String())
	}
	if len(told) != 4 || !strings.HasPrefix(told[0], "garden-bin/2026-11-25:") || !strings.Contains(told[0], "an event is left out") ||
		!strings.Contains(told[1], "torn") || told[2] != "garden-bin/2026-11-27:1: the day is left out: the file ends inside its head." ||
		!strings.HasPrefix(told[3], "garden-bin/2026-11-28:1: the day is left out") {
		t.Errorf("%q", told)
	}
	if x.Tables[0].Rows != 2 || x.Tables[1].Rows != 11+1 || fmt.Sprint(x.PassedOver) != "[garden-bin/2026-11-27 garden-bin/2026-11-28]" {
		t.Errorf("%d days, %d events, %v", x.Tables[0].Rows, x.Tables[1].Rows, x.PassedOver)
	}
	m := x.whole(t)
	if len(m.Remarks) != 2 || !strings.Contains(m.Remarks[0].What, "event 2 is missing") || m.Remarks[1].What != "it is the head of garden-bin/2026-11-25" {
		t.Errorf("%v", m.Remarks)
	}
}

func TestSameDay(t *testing.T) {
	data, ends := sampleFile(t)
	a := Leaf{"a", "2026-11-25", data}
	for name, c := range map[string]struct {
		text string
		same bool
	}{
		"itself":         {string(data), true},
		"CRLF":           {strings.ReplaceAll(string(data), "\n", "\r\n"), true},
		"an event less":  {string(data[:ends[11]]), false},
		"another figure": {strings.Replace(string(data), "120.5 g", "120.6 g", 1), false},
		"another head":   {strings.Replace(string(data), "Garden bin!", "Garden bin", 1), false},
		"no head":        {string(data[ends[0]:]), false},
		"nothing":        {"", false},
	} {
		if got := SameDay(a, Leaf{"a", "2026-11-25", []byte(c.text)}); got != c.same {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// Whatever the tables hold, the import ends; what it takes is whole, and comes back once more.
func FuzzImport(f *testing.F) {
	days, events := twoTables(f)
	f.Add([]byte(days), []byte(events))
	f.Add([]byte(strings.ReplaceAll(days, "\r\n", "\n")), []byte("\ufeff"+events))
	f.Add([]byte(days), []byte(strings.Replace(events, "reading", "moon watched", 1)))
	f.Add([]byte("vat;day;head\r\n"), []byte("vat;day;seq;at;kind;fields\r\na;2026-11-25;1;2026-11-25T09:00:00Z;note;\"text = \"\"x\"\"\"\r\n"))
	f.Add([]byte("vat,day,head\n\"a,b"), []byte("vat,day,seq,at,kind,fields\n,,,,,\n'=a,2026-11-25,1,,,\n"))
	f.Fuzz(func(t *testing.T, days, events []byte) {
		m := Import(undated, days, events, anyVat)
		for _, w := range append(m.Wrong, m.Remarks...) {
			if w.Error() == "" {
				t.Fatal("an empty sentence")
			}
		}
		if len(m.Wrong) > 0 {
			return
		}
		for _, l := range m.Leaves {
			for _, f := range Verify(Read("", l.Text)) {
				if f.Lost {
					t.Fatalf("%v\n%s", f, l.Text)
				}
			}
		}
		x := Export(undated, m.Leaves)
		again := Import(undated, x.Tables[0].Text, x.Tables[1].Text, anyVat)
		if len(again.Wrong) > 0 || len(again.Leaves) != len(m.Leaves) {
			t.Fatalf("%v", again.Wrong)
		}
		for i, l := range again.Leaves {
			if !SameDay(l, m.Leaves[i]) {
				t.Fatalf("came back as\n%s\nwas\n%s", l.Text, m.Leaves[i].Text)
			}
		}
	})
}
