package book

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// anyVat takes every name of a vat.
func anyVat(string) error { return nil }

// played are the days of testdata/days, as they stand on disk.
func played(t testing.TB) []Leaf {
	t.Helper()
	files, err := filepath.Glob("../../testdata/days/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no played days: %v", err)
	}
	var leaves []Leaf
	for _, f := range append(files, "../../testdata/old/format-1.toml") {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		b := Read(f, data)
		leaves = append(leaves, Leaf{b.Head.Vat, b.Head.Day, data})
	}
	return leaves
}

// text is one of the tables.
func (x Exported) text(t testing.TB, name string) []byte {
	t.Helper()
	for _, table := range x.Tables {
		if table.Name == name {
			return table.Text
		}
	}
	t.Fatalf("no table %s", name)
	return nil
}

// cells reads a table as any program does: by column, with what guards a cell still there.
func (x Exported) cells(t testing.TB, name string) []map[string]string {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(x.text(t, name))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := []map[string]string{}
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, c := range row {
			m[rows[0][i]] = c
		}
		out = append(out, m)
	}
	return out
}

// whole imports what was exported, with nothing wrong.
func (x Exported) whole(t testing.TB) Imported {
	t.Helper()
	m := Import(undated, x.text(t, DaysFile), x.text(t, EventsFile), anyVat)
	for _, w := range m.Wrong {
		t.Fatal(w)
	}
	return m
}

// The played days come back byte for byte, so that their events and sentences do.
func TestPlayedDaysComeBack(t *testing.T) {
	want := played(t)
	x := Export(undated, want)
	if len(x.LeftOut)+len(x.PassedOver) > 0 {
		t.Fatal(x.LeftOut, x.PassedOver)
	}
	m := x.whole(t)
	if len(m.Leaves) != len(want) || len(m.Remarks) > 0 {
		t.Fatalf("%d of %d days, remarks %v", len(m.Leaves), len(want), m.Remarks)
	}
	events := 0
	for i, l := range m.Leaves {
		if l.Path() != want[i].Path() || string(l.Text) != string(want[i].Text) {
			t.Errorf("%s is another day now:\n%s", want[i].Path(), l.Text)
		}
		if fs := Verify(Read("", l.Text)); len(fs) > 0 {
			t.Errorf("%s: %v", l.Path(), fs)
		}
		events += len(Read("", l.Text).Events)
	}
	if x.Tables[0].Rows != len(want) || x.Tables[1].Rows != events {
		t.Errorf("%d days, %d events are told, not %d, %d", x.Tables[0].Rows, x.Tables[1].Rows, len(want), events)
	}
}

// However a spreadsheet saves the tables again, they are the same days.
func TestResaved(t *testing.T) {
	want := played(t)
	x := Export(undated, want)
	for name, save := range map[string]func([]byte) []byte{
		"CRLF everywhere": func(b []byte) []byte {
			return bytes.ReplaceAll(bytes.ReplaceAll(b, []byte("\r\n"), []byte("\n")), []byte("\n"), []byte("\r\n"))
		},
		"LF everywhere":     func(b []byte) []byte { return bytes.ReplaceAll(b, []byte("\r\n"), []byte("\n")) },
		"a byte order mark": func(b []byte) []byte { return append([]byte("\ufeff"), b...) },
		"semicolons": func(b []byte) []byte {
			return written(t, b, ';', func(rows [][]string) [][]string {
				for i := range rows {
					for j, c := range rows[i] {
						if c == "5120.000" {
							rows[i][j] = "5120,000"
						}
					}
				}
				return rows
			})
		},
		"tabs": func(b []byte) []byte { return written(t, b, '\t', nil) },
		"another order, an empty row, a column more": func(b []byte) []byte {
			return written(t, b, ',', func(rows [][]string) [][]string {
				out := [][]string{append([]string{"mine"}, rows[0]...), make([]string, len(rows[0])+1)}
				for i := len(rows) - 1; i > 0; i-- {
					out = append(out, append([]string{"x"}, rows[i]...))
				}
				return out
			})
		},
	} {
		m := Import(undated, save(x.text(t, DaysFile)), save(x.text(t, EventsFile)), anyVat)
		if len(m.Wrong)+len(m.Remarks) > 0 || len(m.Leaves) != len(want) {
			t.Errorf("%s: %d days, %v %v", name, len(m.Leaves), m.Wrong, m.Remarks)
			continue
		}
		for _, w := range want {
			found := false
			for _, l := range m.Leaves {
				found = found || l.Path() == w.Path() && string(l.Text) == string(w.Text)
			}
			if !found {
				t.Errorf("%s: %s is another day now", name, w.Path())
			}
		}
	}
}

// written is a table in another program's hand.
func written(t testing.TB, table []byte, comma rune, change func([][]string) [][]string) []byte {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(table)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if change != nil {
		rows = change(rows)
	}
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.Comma = comma
	if err := w.WriteAll(rows); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Any texts in names, notes and all the other fields of all kinds come back, byte for byte; but for those that hold what cannot
// be shown, which are refused with their place.
func TestAnyDayComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		texts := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{
			"=1+1", "+4", "-4", "@x", "'", "'=", "''tis", "007", "1e5", "\t", "\r", "\r\n", "a,b;c\td\"e\"", "\ufeff", "# end 1 00000000\n[[event]]\n",
		}))
		h := emptyHead(t)
		h.Setup.Name = wording.Fit(texts.Draw(t, "name"))
		h.Vat = rapid.SampledFrom([]string{"bin", "=bin", "'bin", "007", "-1", "1e5", "a,b"}).Draw(t, "vat")
		file, err := EncodeHead(h)
		if err != nil {
			t.Fatal(err)
		}
		kinds, unfit := day.Kinds(), 0
		seq := 0
		for range rapid.IntRange(0, 8).Draw(t, "events") {
			body := reflect.New(reflect.TypeOf(rapid.SampledFrom(kinds).Draw(t, "kind"))).Elem()
			draw(t, body, signed(body.Interface().(day.Body).Kind()))
			e := day.Event{Seq: seq + 1, Body: body.Interface().(day.Body)}
			if rapid.Bool().Draw(t, "note") {
				e.Body = day.Note{Text: texts.Draw(t, "text")}
			}
			if rapid.Bool().Draw(t, "fit") {
				e.Body = fitted(reflect.ValueOf(e.Body)).Interface().(day.Body)
			}
			draw(t, reflect.ValueOf(&e.At).Elem(), false)
			if rapid.Bool().Draw(t, "boot") {
				e.Boot = rapid.SampledFrom([]string{"0123abcd", "00000001", "12e00005", "12345678"}).Draw(t, "id")
				e.Up = float64(rapid.IntRange(0, 1e9).Draw(t, "up")) / 1000
			}
			e.At = time.Unix(1e9+e.At.Unix()/2, 0).In(e.At.Location()) // the times of a day lie within a lifetime
			if impossible(e, time.Time{}) != "" {
				continue
			}
			if wording.RefusalIn(e.Body) != nil {
				unfit++
			}
			seq++
			block, err := EncodeEvent(e)
			if err != nil {
				t.Fatal(err)
			}
			file = append(append(file, '\n'), block...)
		}
		want := Leaf{h.Vat, h.Day, file}
		x := Export(undated, []Leaf{want})
		m := Import(undated, x.Tables[0].Text, x.Tables[1].Text, anyVat)
		if unfit > 0 {
			if len(m.Wrong) != unfit || m.Wrong[0].Column != "fields" || m.Wrong[0].Row < 2 || !strings.Contains(m.Wrong[0].What, "write it without") {
				t.Fatalf("%d events cannot be shown: %v", unfit, m.Wrong)
			}
			return
		}
		if len(m.Wrong)+len(m.Remarks) > 0 || len(m.Leaves) != 1 || m.Leaves[0].Path() != want.Path() {
			t.Fatalf("%v %v %v", m.Wrong, m.Remarks, m.Leaves)
		}
		if got := m.Leaves[0].Text; string(got) != string(file) || !SameDay(m.Leaves[0], want) {
			t.Fatalf("came back as\n%s\nwas\n%s", got, file)
		}
	})
}

// emptyHead is a head without a name.
func emptyHead(t *rapid.T) day.Head {
	h := day.Head{Day: "2026-11-25", Zone: "Europe/Berlin", Setup: day.Setup{Fill: 60}}
	r, faults := parseSample()
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	h.Recipe = r
	return h
}

// No cell of a text column can be taken for a formula, and no number for a text.
func TestCellsAreHarmless(t *testing.T) {
	for text, cell := range map[string]string{
		"": "", "blue": "blue", "=1+1": "'=1+1", "+1": "'+1", "-1": "'-1", "@a": "'@a", "\tx": "'\tx", "\rx": "'\rx", "'x": "''x", "''": "'''",
		"007": "'007", "1e5": "'1e5", "12": "12", "1.5": "1.5", "A1": "A1", " =1": " =1", "0": "0",
	} {
		if guard(text) != cell || unguard(cell) != text {
			t.Errorf("%q stands as %q, and comes back as %q", text, guard(text), unguard(guard(text)))
		}
	}
	if unguard("'tis") != "'tis" {
		t.Error("an apostrophe that a person wrote is gone")
	}
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "s")
		if unguard(guard(s)) != s {
			t.Fatalf("%q comes back as %q", s, unguard(guard(s)))
		}
	})
}

func TestWhatTheTablesTell(t *testing.T) {
	x := Export(undated, played(t))
	// testdata/days/soda-bin.txt: the day, its runner and its readings
	days := x.cells(t, DaysFile)
	d := days[slices.IndexFunc(days, func(d map[string]string) bool { return d["day"] == "2026-05-09" })]
	for column, want := range map[string]string{"vat": "garden-bin", "day": "2026-05-09", "name": "Garden bin", "recipe": "Soda vat", "fill_l": "60",
		"opened": "2026-05-09T09:00:00+02:00", "closed": "2026-05-09T11:43:10+02:00", "events": "84"} {
		if d[column] != want {
			t.Errorf("days: %s is %q, not %q", column, d[column], want)
		}
	}
	var a1, b1 map[string]string
	for _, p := range x.cells(t, PiecesFile) {
		if p["day"] == "2026-05-09" && p["vat"] == "garden-bin" {
			switch p["tag"] {
			case "A1":
				a1 = p
			case "B1":
				b1 = p
			}
		}
	}
	// A1: 10:14:20 to 10:22:20, 10:40:45 to 10:48:50; B1: 10:15:50 to 10:17:50, 10:32:36 to 10:35:10 (#58, moved by #59)
	for column, want := range map[string]string{"what": "long runner", "fibre": "linen", "dry_g": "435", "depth": "dark", "dips": "3",
		"first_in": "2026-05-09T10:14:20+02:00", "last_out": "2026-05-09T10:48:50+02:00", "in_vat_min": "16.08", "who": "4", "last_look": "mid", "state": "carried over", "finished": ""} {
		if a1[column] != want {
			t.Errorf("A1: %s is %q, not %q", column, a1[column], want)
		}
	}
	for column, want := range map[string]string{"dips": "2", "last_out": "2026-05-09T10:35:10+02:00", "in_vat_min": "4.57", "last_look": "", "state": "finished", "finished": "2026-05-09T11:37:10+02:00"} {
		if b1[column] != want {
			t.Errorf("B1: %s is %q, not %q", column, b1[column], want)
		}
	}
	var told []string
	for _, r := range x.cells(t, ReadingsFile) {
		if r["day"] == "2026-05-09" && r["vat"] == "garden-bin" {
			told = append(told, fmt.Sprint(r["seq"], " ", r["temp_c"], " ", r["ph"], " ", r["ph_temp_c"], " ", r["strip_s"], " ", r["below_rim_cm"], " ", r["of"]))
		}
	}
	want := "26 38.5    13.5 vat|38  10.8 25   vat|41    20  vat|45    45  vat|74 36     vat"
	if strings.Join(told, "|") != want {
		t.Errorf("readings\n%s, not\n%s", strings.Join(told, "|"), want)
	}
	for _, e := range x.cells(t, EventsFile) {
		if e["vat"] == "garden-bin" && e["day"] == "2026-05-09" && e["seq"] == "5" && e["sentence"] != "took 2 g of pre-reduced indigo grains off the scale" {
			t.Errorf("event 5: %q", e["sentence"])
		}
	}
}

// A number below zero stays one: it gets no apostrophe, and reads as a number.
func TestNumbersBelowZero(t *testing.T) {
	data, _ := sampleFile(t)
	frost := day.Event{Seq: 13, At: morning, Body: day.Reading{Temp: ptr(quantity.Temperature(-3.5))}}
	block, err := EncodeEvent(frost)
	if err != nil {
		t.Fatal(err)
	}
	x := Export(undated, []Leaf{{"garden-bin", "2026-11-25", append(append(data, '\n'), block...)}})
	rows := x.cells(t, ReadingsFile)
	if got := rows[len(rows)-1]["temp_c"]; got != "-3.5" {
		t.Errorf("%q, not -3.5", got)
	}
	x.whole(t)
}
