package book

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.org/vatside/model/day"
)

// sampleBlocks are the blocks of the sample file by their numbers, each with the blank line before it; the head is block 0.
func sampleBlocks(t testing.TB) [][]byte {
	data, ends := sampleFile(t)
	blocks := [][]byte{data[:ends[0]]}
	for i := 1; i < len(ends); i++ {
		blocks = append(blocks, data[ends[i-1]:ends[i]])
	}
	return blocks
}

// in is a file of these blocks, the head first.
func in(blocks [][]byte, seqs ...int) []byte {
	out := bytes.Clone(blocks[0])
	for _, s := range seqs {
		out = append(out, blocks[s]...)
	}
	return out
}

// noteAs is the block of a note with any number.
func noteAs(t testing.TB, seq int, text string) []byte {
	t.Helper()
	block, err := EncodeEvent(day.Event{Seq: seq, At: morning, Body: day.Note{Text: text}})
	if err != nil {
		t.Fatal(err)
	}
	return append([]byte{'\n'}, block...)
}

// asRead reads as the shelf does.
func asRead(data []byte) Book { return Read("day.toml", data) }

// told are the steps in one text, with the lines left out.
func told(m Mending) string {
	var out []string
	for _, s := range m.Steps {
		out = append(out, s.What)
	}
	return strings.Join(out, "; ")
}

// kindsOf are the numbers and kinds of a file's events, and what a correction is of.
func kindsOf(b Book) string {
	var out []string
	for _, e := range b.Events {
		s := fmt.Sprintf("%d %s", e.Seq, e.Body.Kind())
		switch b := e.Body.(type) {
		case day.Corrected:
			s += fmt.Sprintf(" of %d", b.Of)
		case day.Note:
			s += " " + b.Text
		}
		out = append(out, s)
	}
	return strings.Join(out, ", ")
}

func TestMend(t *testing.T) {
	all := sampleBlocks(t)
	whole := in(all, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12)
	note := all[7]
	all[7] = noteAs(t, 7, "sun")
	const from8 = ", 8 dip begun, 9 dip ended, 10 clock stepped, 11 corrected of 9, 12 closed"
	const to6 = "1 opened, 2 reading, 3 powder weighed, 4 powder weighed, 5 strip test, 6 vat judged"
	replaced := func(old, repl string) []byte {
		if !bytes.Contains(whole, []byte(old)) {
			t.Fatalf("no %q", old)
		}
		return bytes.Replace(whole, []byte(old), []byte(repl), 1)
	}
	later := bytes.Replace(noteAs(t, 7, "sun"), []byte("text ="), []byte("mood = \"calm\" # a later version's\ntext ="), 1)
	for _, c := range []struct {
		name  string
		file  []byte
		steps string // of them, in it
		want  string // the events that come of it
	}{
		{"a torn tail", append(in(all, 1, 2), "\n[[event]]\nseq = 3\nat = 20"...), "the torn tail of 26 bytes, which was never saved, is left out", "1 opened, 2 reading"},
		{"a gap", in(all, 1, 2, 5, 6), "events 3 to 4 are missing: an event that says so takes each place", "1 opened, 2 reading, 3 lost, 4 lost, 5 strip test, 6 vat judged"},
		{"no first event", in(all, 2, 3), "event 1 is missing", "1 lost, 2 reading, 3 powder weighed"},
		{"out of order", in(all, 1, 4, 3, 2, 5), "event 3 stands after event 4: it is put in its order; event 2 stands after event 4", "1 opened, 2 reading, 3 powder weighed, 4 powder weighed, 5 strip test"},
		{"twice", in(all, 1, 2, 2, 3, 1), "event 2 stands twice, word for word: it is kept once; event 1 stands twice", "1 opened, 2 reading, 3 powder weighed"},
		{"two of a number", slices.Concat(in(all, 1, 2, 3, 4, 5, 6, 7), noteAs(t, 7, "wind"), all[8], all[9], all[10], all[11], all[12]),
			"events 7 to 12 get the numbers 8 to 13; event 12 corrects event 10, not event 9",
			to6 + ", 7 note sun, 8 note wind, 9 dip begun, 10 dip ended, 11 clock stepped, 12 corrected of 10, 13 closed"},
		{"two branches", slices.Concat(in(all, 1, 2, 3, 4), noteAs(t, 3, "a"), noteAs(t, 4, "b"), noteAs(t, 5, "c")),
			"events 3 to 5 get the numbers 5 to 7", "1 opened, 2 reading, 3 powder weighed, 4 powder weighed, 5 note a, 6 note b, 7 note c"},
		{"a number typed twice", slices.Concat(in(all, 1, 2), noteAs(t, 2, "three"), all[4]), "event 2 gets the number 3", "1 opened, 2 reading, 3 note three, 4 powder weighed"},
		{"a spoilt number", append(in(all, 1, 2, 3, 4, 5, 6, 7), bytes.Replace(slices.Concat(all[8], all[9]), []byte("seq = 8"), []byte("seq = 3"), 1)...),
			"event 8 gets its first lines back: its checksum fits with them", to6 + ", 7 note sun, 8 dip begun, 9 dip ended"},
		{"a spoilt first line", append(in(all, 1, 2, 3), bytes.Replace(slices.Concat(all[4], all[5]), []byte("[[event]]\nseq"), []byte("[[event]]*seq"), 1)...),
			"event 4 gets its first lines back", "1 opened, 2 reading, 3 powder weighed, 4 powder weighed, 5 strip test"},
		{"not readable", replaced(`stayed = "45 s"`, `stayed = "45 s`), "event 5 cannot be read: an event that says so takes its place and keeps its text",
			strings.Replace(to6, "strip test", "lost", 1) + ", 7 note " + sampleEvents()[6].Body.(day.Note).Text + from8},
		{"by hand, and a gap", bytes.Replace(in(all, 1, 2, 4), []byte("33.5"), []byte("34.5"), 1), "event 2 gets its right end line; event 3 is missing", "1 opened, 2 reading, 3 lost, 4 powder weighed"},
		{"the head by hand, and a gap", bytes.Replace(in(all, 2), []byte("Europe/Berlin"), []byte("Europe/Vienna"), 1), "the head gets its right end line", "1 lost, 2 reading"},
		{"a key of a later version, and two of a number", slices.Concat(in(all, 1, 2, 3, 4, 5, 6, 6), later, bytes.Replace(later, []byte("sun"), []byte("rain"), 1)), "event 7 gets the number 8", to6 + ", 7 note sun, 8 note rain"},
		{"a correction of what is missing", slices.Concat(in(all, 1, 2), noteAs(t, 2, "x"), noteAs(t, 3, "y"), noteAs(t, 5, "z"), bytes.ReplaceAll(all[11], []byte("of = 9"), []byte("of = 4"))),
			"event 11 corrects event 4, which is missing: it corrects none now", "1 opened, 2 reading, 3 note x, 4 note y, 5 note z, 6 lost, 7 lost, 8 lost, 9 lost, 10 lost, 11 corrected of 0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			m, err := Mend(asRead, c.file)
			if err != nil || m.Whole || !strings.Contains(told(m), c.steps) {
				t.Fatalf("%v, whole %v: %s", err, m.Whole, told(m))
			}
			b := Read("day.toml", m.Text)
			if b.Damage() != "" || len(b.Marks) > 0 && c.name != "a key of a later version, and two of a number" {
				t.Errorf("not whole: %v\n%s", Verify(b), m.Text)
			}
			if got := kindsOf(b); got != c.want {
				t.Errorf("%s\nwant %s", got, c.want)
			}
			if again, err := Mend(asRead, m.Text); err != nil || !again.Whole {
				t.Errorf("mended once more: %v %s", err, told(again))
			}
		})
	}
	all[7] = note
	if m, err := Mend(asRead, in(all, 1, 2, 3, 4, 5, 6, 6, 7)); err != nil || string(m.Text) != string(in(all, 1, 2, 3, 4, 5, 6, 7)) {
		t.Errorf("%v: not byte for byte as before\n%s", err, m.Text)
	}
}

// Keys of a later version stay, and so do comments and the lines that need no change, in a file of either line ends.
func TestMendKeepsWhatItNeedNotChange(t *testing.T) {
	all := sampleBlocks(t)
	own := bytes.Replace(noteAs(t, 3, "sun"), []byte("text ="), []byte("mood = \"calm\" # a later version's\ntext ="), 1)
	unknown := "\n[[event]]\nseq = 4\nat = 2026-11-25T09:00:00+01:00\nkind = \"vat sung to\"\nsong = \"blue\"\n# end 4 00000000\n"
	file := slices.Concat(in(all, 1, 2), []byte("\n# about the lid\n"), noteAs(t, 2, "lid")[1:], own, []byte(unknown), []byte("# the end\n"))
	m, err := Mend(asRead, file)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"\n# about the lid\n[[event]]\nseq = 3\n", "seq = 4\nat = ", "mood = \"calm\" # a later version's\n", "kind = \"vat sung to\"\nsong = \"blue\"\n# end 5 ", "\n# the end\n"} {
		if !strings.Contains(string(m.Text), want) {
			t.Errorf("no %q in\n%s", want, m.Text)
		}
	}
	windows := bytes.ReplaceAll(file, []byte("\n"), []byte("\r\n"))
	w, err := Mend(asRead, windows)
	if err != nil || !bytes.HasPrefix(w.Text, windows[:bytes.Index(windows, []byte("# about"))]) || string(unixLines(w.Text)) != string(m.Text) {
		t.Errorf("%v\n%s", err, w.Text)
	}
}

func TestMendIsImpossible(t *testing.T) {
	all := sampleBlocks(t)
	whole := in(all, 1, 2, 3)
	for _, c := range []struct {
		name string
		file []byte
		why  string
	}{
		{"empty", nil, "the file is empty"},
		{"cut inside its head", whole[:200], "the file ends inside its head"},
		{"no head", whole[len(all[0]):], "its first lines cannot be read: it does not say its format"},
		{"a later format", bytes.Replace(whole, []byte("format = 1"), []byte("format = 9"), 1), "its first lines cannot be read: it is of format 9"},
		{"garbage", []byte("garbage"), "its first lines cannot be read: nothing in the file is of a book"},
		{"a number beyond all", append(in(all, 1, 2), noteAs(t, 20_000, "x")...), "more than 10000 events are missing before event 20000"},
		{"nothing readable", append(in(all), bytes.Replace(all[1], []byte("at = "), []byte("at = = "), 1)...), "no event in it can be read"},
	} {
		if m, err := Mend(asRead, c.file); err == nil || !strings.HasPrefix(err.Error(), c.why) || m.Text != nil || m.Whole {
			t.Errorf("%s: %v, %s", c.name, err, told(m))
		}
	}
	if m, err := Mend(asRead, append(in(all, 1, 2), noteAs(t, 10_003, "x")...)); err != nil || len(Read("", m.Text).Events) != 10_003 {
		t.Errorf("a gap of 10,000: %v", err)
	}
}

// What lies in spill files comes into the day once and in its order, with a head or without one.
func TestMendTakesSpillsIn(t *testing.T) {
	all := sampleBlocks(t)
	file := in(all, 1, 2, 3)
	for name, spill := range map[string][]byte{
		"blocks alone": slices.Concat(all[3], all[5], all[4]),
		"with a head":  slices.Concat(all[0], all[3], all[4], all[5]),
		"torn":         slices.Concat(all[4], all[5], all[6][:20]),
	} {
		m, err := Mend(asRead, file, spill)
		if err != nil || m.Whole || string(m.Text) != string(in(all, 1, 2, 3, 4, 5)) || !strings.Contains(told(m), "a spill file is") {
			t.Errorf("%s: %v %s\n%s", name, err, told(m), m.Text)
		}
	}
}

// playedFiles are whole days as they were played, and the sample.
func playedFiles(t testing.TB) [][]byte {
	data, _ := sampleFile(t)
	files := [][]byte{data}
	paths, _ := filepath.Glob("../../testdata/days/*.toml")
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, data)
	}
	if len(files) < 6 {
		t.Fatalf("%d days", len(files))
	}
	return files
}

// A whole day is left as it is.
func TestMendLeavesWholeDays(t *testing.T) {
	for _, data := range playedFiles(t) {
		if m, err := Mend(asRead, data); err != nil || !m.Whole || m.Text != nil || m.Steps != nil {
			t.Errorf("%v %s", err, told(m))
		}
	}
}

// essentials are what the events of a book say, but for their numbers and those they refer to.
func essentials(t *rapid.T, b Book) map[string]bool {
	out := map[string]bool{}
	for _, e := range b.Events {
		switch body := e.Body.(type) {
		case day.Corrected:
			body.Of = 0
			e.Body = body
		case day.Unknown:
			body.Text = string(renumbered([]byte(body.Text), seqKey(), 1))
			e.Body = body
		}
		e.Seq = 1
		out[fmt.Sprintf("%s %s %v %#v", e.At, e.Boot, e.Up, Fields("", "", e))] = true
	}
	return out
}

// spoil does one thing to a file that a hand, a disk or a cable could do. head tells whether the head may have been hit.
func spoil(t *rapid.T, data []byte) (out []byte, head bool) {
	blocks := cut(data)
	if len(blocks) < 3 {
		return data, true
	}
	at := func(name string) int { return rapid.IntRange(1, len(blocks)-1).Draw(t, name) }
	ends := func(i int) (int, int) { // a block with its end line
		if i+1 < len(blocks) {
			return blocks[i].from, blocks[i+1].from
		}
		return blocks[i].from, len(data)
	}
	from, to := ends(at("block"))
	switch rapid.IntRange(0, 6).Draw(t, "what") {
	case 0: // blocks are cut out
		_, to = ends(min(len(blocks)-1, at("to")))
		return slices.Concat(data[:min(from, to)], data[max(from, to):]), false
	case 1: // a block is doubled, right there or elsewhere
		other, _ := ends(at("where"))
		return slices.Concat(data[:other], lined(data[from:to]), data[other:]), false
	case 2: // a block is moved
		rest := slices.Concat(data[:from], data[to:])
		other := min(cut(rest)[len(cut(rest))-1].to, len(rest))
		if i := rapid.IntRange(0, len(blocks)-2).Draw(t, "where"); i > 0 {
			other = cut(rest)[min(i, len(cut(rest))-1)].from
		}
		if rapid.Bool().Draw(t, "end") {
			other = len(rest)
		}
		return slices.Concat(rest[:other], lined(data[from:to]), rest[other:]), false
	case 3: // bits
		out = bytes.Clone(data)
		for range rapid.IntRange(1, 4).Draw(t, "bits") {
			out[rapid.IntRange(blocks[1].from, len(out)-1).Draw(t, "byte")] ^= 1 << rapid.IntRange(0, 7).Draw(t, "bit")
		}
		return out, false
	case 4: // bytes are cut out of the events
		a := rapid.IntRange(blocks[1].from, len(data)).Draw(t, "from")
		z := min(len(data), a+rapid.IntRange(0, 600).Draw(t, "long"))
		return slices.Concat(data[:a], data[z:]), false
	case 5: // the file is cut off
		return data[:rapid.IntRange(blocks[1].from, len(data)).Draw(t, "length")], false
	}
	// anything, anywhere
	out = bytes.Clone(data)
	out[rapid.IntRange(0, len(out)-1).Draw(t, "byte")] = rapid.Byte().Draw(t, "value")
	return out, true
}

// Whatever happens to a played day: it is mended or it is said why not, nothing that can be read is lost, and mending once is enough.
func TestMendAnything(t *testing.T) {
	files := playedFiles(t)
	rapid.Check(t, func(t *rapid.T) {
		data := rapid.SampledFrom(files).Draw(t, "day")
		head := false
		for range rapid.IntRange(1, 5).Draw(t, "times") {
			hit := false
			data, hit = spoil(t, data)
			head = head || hit
		}
		before := Read("", data)
		m, err := Mend(asRead, data)
		switch {
		case err != nil:
			beyond := strings.HasPrefix(err.Error(), "more than 10000 events") || strings.HasPrefix(err.Error(), "no event in it")
			if !head && !beyond {
				t.Fatalf("%v", err)
			}
			if head && !beyond && before.HeadErr == nil && before.Lacks() == "" {
				t.Fatalf("%v", err)
			}
			return
		case m.Whole:
			if before.Damage() != "" || m.Text != nil {
				t.Fatalf("whole, and %s", before.Damage())
			}
			return
		case before.Damage() == "" || len(m.Steps) == 0:
			t.Fatalf("nothing was wrong, and %s", told(m))
		}
		after := Read("", m.Text)
		if after.Damage() != "" || !after.HeadWhole {
			t.Fatalf("not whole: %v", Verify(after))
		}
		have := essentials(t, after)
		for what := range essentials(t, before) {
			if !have[what] {
				t.Fatalf("it is gone: %s", what)
			}
		}
		for i, e := range after.Events {
			if e.Seq != i+1 {
				t.Fatalf("event %d has the number %d", i+1, e.Seq)
			}
		}
		s, errs := day.Replay(after.Head, after.Events)
		if len(s.Plan) == 0 || len(s.Log) != len(after.Events) {
			t.Fatalf("it is not replayed: %v", errs)
		}
		if again, err := Mend(asRead, m.Text); err != nil || !again.Whole {
			t.Fatalf("mended once more: %v %s", err, told(again))
		}
	})
}
