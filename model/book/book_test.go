package book

import (
	"bytes"
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
)

func TestHeadReadsBack(t *testing.T) {
	want := sampleHead(t)
	data, err := EncodeHead(want)
	if err != nil {
		t.Fatal(err)
	}
	b := Read("day.toml", data)
	if !b.HeadWhole || b.HeadErr != nil || len(b.Marks) > 0 || len(b.Faults) > 0 {
		t.Fatalf("head not whole: %v %v %v\n%s", b.HeadErr, b.Marks, b.Faults, data)
	}
	if b.Head.Recipe.Text != sampleRecipe {
		t.Errorf("the recipe's text changed:\n%s", b.Head.Recipe.Text)
	}
	if !b.Head.Opening.Since.Equal(*want.Opening.Since) {
		t.Errorf("since %v, want %v", b.Head.Opening.Since, want.Opening.Since)
	}
	b.Head.Opening.Since = want.Opening.Since
	if !reflect.DeepEqual(b.Head, want) {
		t.Errorf("read %+v\nwant %+v", b.Head, want)
	}
}

// A recipe typed on another system, or without a last line feed, is the same recipe.
func TestHeadTakesAnyLineEnds(t *testing.T) {
	h := sampleHead(t)
	h.Recipe.Text = "\ufeff" + strings.ReplaceAll(strings.TrimSuffix(sampleRecipe, "\n"), "\n", "\r\n")
	data, err := EncodeHead(h)
	if err != nil {
		t.Fatal(err)
	}
	if got := Read("", data).Head.Recipe.Text; got != sampleRecipe {
		t.Errorf("read %q", got)
	}
}

func TestHeadRefusesAnotherRecipe(t *testing.T) {
	for name, spoil := range map[string]func(*day.Head){
		"no text":      func(h *day.Head) { h.Recipe.Text = "" },
		"another text": func(h *day.Head) { h.Recipe.Text = strings.Replace(sampleRecipe, "1.5 g/L", "2.5 g/L", 1) },
		"a false end": func(h *day.Head) {
			h.Recipe.Text = strings.Replace(sampleRecipe, "\n[liquor]", "\n# end 0 00000000\n[liquor]", 1)
		},
		"not TOML":      func(h *day.Head) { h.Recipe.Text = "soda" },
		"a second head": func(h *day.Head) { h.Recipe.Text += "[[event]]\nseq = 1\n" },
	} {
		h := sampleHead(t)
		spoil(&h)
		if data, err := EncodeHead(h); err == nil {
			t.Errorf("%s: written as\n%s", name, data)
		}
	}
}

// A new day with a word that cannot be shown is not begun; a day that has such words is read, and they are shown as U+FFFD.
func TestHeadWithWhatCannotBeShown(t *testing.T) {
	for _, spoil := range []func(*day.Head){
		func(h *day.Head) { h.Setup.Name = "Bin\x1b]52;c;aGFja2Vk\a" },
		func(h *day.Head) { h.Setup.Place = "\x1b" },
		func(h *day.Head) { h.Zone = "\x1b" },
		func(h *day.Head) { h.Opening.Pieces = []day.CarriedPiece{{OfPiece: day.OfPiece{Tag: "\x1b"}}} },
	} {
		h := sampleHead(t)
		spoil(&h)
		if data, err := EncodeHead(h); err == nil || !strings.Contains(err.Error(), "U+001B") || strings.Contains(err.Error(), "\x1b") {
			t.Errorf("%v\n%s", err, data)
		}
	}
	data, _ := sampleFile(t)
	text := strings.NewReplacer(`name = "`, `name = "\u001b]52;c;\u0007`, "# Grandmother's", "# Grand\u202emother\u009b's", `material = "soda`, `material = "\u009bsoda`).Replace(string(data))
	b := Read("day.toml", []byte(text))
	if !b.HeadWhole || b.Head.Setup.Name != "\ufffd]52;c;\ufffdGarden bin!" || len(b.Events) != 12 {
		t.Fatalf("%v %q %d", b.HeadErr, b.Head.Setup.Name, len(b.Events))
	}
	if err := wording.RefusalIn(b.Head); err != nil {
		t.Error(err)
	}
	if r := b.Head.Recipe; r.Name == "" || strings.Contains(r.Text, "\u009b") || strings.Contains(r.Text, "\u202e") {
		t.Errorf("%q\n%s", r.Name, r.Text)
	}
}

func TestDayReadsBack(t *testing.T) {
	data, _ := sampleFile(t)
	b := Read("day.toml", data)
	if fs := Verify(b); len(fs) > 0 {
		t.Fatal(fs)
	}
	want := sampleEvents()
	if len(b.Events) != len(want) {
		t.Fatalf("%d events, want %d", len(b.Events), len(want))
	}
	for i := range want {
		sameEvent(t, b.Events[i], want[i])
	}
	if b.NextSeq() != 13 || b.Empty() || b.TornAt != len(data) {
		t.Errorf("next %d, empty %v, torn at %d of %d", b.NextSeq(), b.Empty(), b.TornAt, len(data))
	}
	var tree map[string]any
	if _, err := toml.Decode(string(data), &tree); err != nil {
		t.Errorf("the file is not plain TOML: %v", err)
	}
}

// A kill can leave any prefix of a file. Whole events are all there, and a torn one is set aside.
func TestEveryPrefixOpens(t *testing.T) {
	data, ends := sampleFile(t)
	want, later := sampleEvents(), Read("", data)
	for n := range len(data) + 1 {
		b := Read("", data[:n])
		whole := -1 // blocks whose end line stands there, with or without its line feed; the head is block 0
		for _, end := range ends {
			if n >= end-1 {
				whole++
			}
		}
		if b.HeadWhole != (whole >= 0) || b.HeadErr != nil || len(b.Marks)+len(b.Unread)+len(b.Gaps) > 0 {
			t.Fatalf("%d bytes: head %v %v, marks %v, unread %v, gaps %v", n, b.HeadWhole, b.HeadErr, b.Marks, b.Unread, b.Gaps)
		}
		if whole < 0 {
			// The newest day of a vat may have been killed as it was begun; an empty file tells nothing, and an older day is lost.
			newest, older := VerifyVat([]Book{b}), VerifyVat([]Book{b, later})
			if !b.Empty() || b.Lacks() == "" || len(newest) != 1 || newest[0].Lost != (n == 0) || len(older) != 1 || !older[0].Lost {
				t.Fatalf("%d bytes: %v, %v", n, newest, older)
			}
			continue
		}
		if len(b.Events) != whole {
			t.Fatalf("%d bytes: %d events, want %d", n, len(b.Events), whole)
		}
		if whole > 0 && !reflect.DeepEqual(b.Events[whole-1].Seq, want[whole-1].Seq) {
			t.Fatalf("%d bytes: the last event is %d", n, b.Events[whole-1].Seq)
		}
		if torn := n > ends[whole]+1; torn != (len(b.Torn) > 0) {
			t.Fatalf("%d bytes: torn %q", n, b.Torn)
		}
		if len(b.Torn) > 0 && (string(data[b.TornAt:n]) != string(b.Torn) || b.TornAt < ends[whole]-1) {
			t.Fatalf("%d bytes: torn at %d", n, b.TornAt)
		}
		for _, f := range Verify(b) {
			if f.Lost {
				t.Fatalf("%d bytes: %v", n, f)
			}
		}
	}
}

// mend changes the sample file by replacing old, which must stand there, once.
func mend(t *testing.T, old, repl string) Book {
	t.Helper()
	data, _ := sampleFile(t)
	if !bytes.Contains(data, []byte(old)) {
		t.Fatalf("no %q in\n%s", old, data)
	}
	return Read("day.toml", bytes.Replace(data, []byte(old), []byte(repl), 1))
}

func TestMendedByHand(t *testing.T) {
	data, _ := sampleFile(t)
	endOf := func(seq int) string {
		s := string(data)
		at := strings.Index(s, fmt.Sprintf("\n# end %d ", seq)) + 1
		return s[at : at+strings.IndexByte(s[at:], '\n')+1]
	}
	for _, c := range []struct{ name, old, repl, told string }{
		{"a figure", `"120.5 g"`, `"121.5 g"`, "event 3 was mended by hand: its checksum fails"},
		{"no end", endOf(5), "", "event 5 was mended by hand: its end line is missing"},
		{"cut end", endOf(5), endOf(5)[:9] + "\n", "event 5 was mended by hand: its end line is missing"},
		{"wrong number", endOf(5), strings.Replace(endOf(5), "# end 5", "# end 6", 1), "event 5 was mended by hand: its end line says 6"},
		{"spoilt first line", "[[event]]\nseq = 5", "[event]\nseq = 5", "event 5 was mended by hand"},
		{"no first line", "[[event]]\nseq = 5", "seq = 5", "event 5 was mended by hand"},
		{"slip of the pen", `stayed = "45 s"`, `staid = "45 s"`, `its checksum fails; it has no stayed; its key "staid" is unknown`},
		{"the head", `zone = "Europe/Berlin"`, `zone = "Europe/Vienna"`, "the head was mended by hand: its checksum fails"},
		{"the head's end", endOf(0), "", "the head was mended by hand: its end line is missing"},
		{"stray text", endOf(5), endOf(5) + "remember the lid\n", "this text belongs to no event"},
	} {
		b := mend(t, c.old, c.repl)
		if len(b.Events) != 12 || len(b.Unread) > 0 || len(b.Gaps) > 0 || !b.HeadWhole {
			t.Errorf("%s: %d events, unread %v, gaps %v", c.name, len(b.Events), b.Unread, b.Gaps)
		}
		fs := Verify(b)
		if len(fs) != 1 || fs[0].Lost || !strings.Contains(fs[0].What, c.told) {
			t.Errorf("%s: told %v", c.name, fs)
		}
	}
	if b := mend(t, endOf(5), endOf(5)+"# remember the lid\n"); len(Verify(b)) > 0 || len(b.Events) != 12 {
		t.Errorf("a comment between blocks is nobody's business: %v", Verify(b))
	}
}

func TestUnreadHidesNothingElse(t *testing.T) {
	for _, c := range []struct{ old, repl, told string }{
		{`stayed = "45 s"`, `stayed = 45`, "event 5 cannot be read: stayed: it is not a text with its unit"},
		{`stayed = "45 s"`, `stayed = "45 s`, "event 5 cannot be read: it is not TOML"},
		{`stayed = "45 s"`, `stayed = "-45 s"`, "event 5 cannot be read: stayed"},
		{"seq = 5\n", "seq = \"five\"\n", "an event cannot be read: it has no seq"},
		{"at = 2026-11-25T09:16:00+01:00\nkind = \"strip test\"", "at = 2026-11-25T09:16:00\nkind = \"strip test\"", "event 5 cannot be read: at"},
		{"kind = \"strip test\"\n", "", "event 5 cannot be read: it has no kind"},
		{`stayed = "45 s"`, "stayed = " + strings.Repeat("[", 100_001), "event 5 cannot be read"},
	} {
		b := mend(t, c.old, c.repl)
		if len(b.Events) != 11 || len(b.Unread) != 1 {
			t.Errorf("%q: %d events, unread %v", c.repl[:min(40, len(c.repl))], len(b.Events), b.Unread)
			continue
		}
		lost := 0
		for _, f := range Verify(b) {
			if f.Lost && strings.Contains(f.What, c.told) && f.Line > 1 && f.File == "day.toml" {
				lost++
			}
		}
		if lost != 1 {
			t.Errorf("told %v, want %q", Verify(b), c.told)
		}
	}
}

func TestUnreadHead(t *testing.T) {
	b := mend(t, "format = 1", "format = 2")
	if b.HeadWhole || b.HeadErr == nil || len(b.Events) != 12 || b.Empty() {
		t.Errorf("head %v, %v; %d events", b.HeadWhole, b.HeadErr, len(b.Events))
	}
	b = Read("", []byte("[[event]]\nseq = 1\n# end 1 00000000\n[[event]]\n"))
	if b.HeadErr == nil || len(b.Unread) != 1 || len(b.Torn) == 0 {
		t.Errorf("%+v", b)
	}
}

func TestGapsAndDoubles(t *testing.T) {
	data, ends := sampleFile(t)
	block := func(seq int) []byte { return data[ends[seq-1]:ends[seq]] }
	build := func(seqs ...int) Book {
		out := bytes.Clone(data[:ends[0]])
		for _, s := range seqs {
			out = append(out, block(s)...)
		}
		return Read("day.toml", out)
	}
	b := build(1, 2, 5, 6)
	if len(b.Gaps) != 1 || b.Gaps[0].From != 3 || b.Gaps[0].To != 4 || len(b.Events) != 4 {
		t.Errorf("gaps %v", b.Gaps)
	}
	if fs := Verify(b); len(fs) != 1 || fs[0].Lost || fs[0].What != "events 3 to 4 are missing before this line" {
		t.Errorf("told %v", fs)
	}
	if b := build(2); len(b.Gaps) != 1 || b.Gaps[0].From != 1 {
		t.Errorf("gaps %v", b.Gaps)
	}
	if b := build(1, 4, 3, 2, 5); len(b.Gaps) != 0 || len(b.Marks) != 2 || len(b.Events) != 5 {
		t.Errorf("out of order: gaps %v, marks %v", b.Gaps, b.Marks)
	}
	if b := build(1, 2, 2, 3); len(b.Events) != 3 || len(b.Marks) != 1 || len(b.Gaps) != 0 {
		t.Errorf("double: %d events, marks %v", len(b.Events), b.Marks)
	}
}

func TestCRLF(t *testing.T) {
	data, _ := sampleFile(t)
	for name, text := range map[string][]byte{
		"CRLF":     bytes.ReplaceAll(data, []byte("\n"), []byte("\r\n")),
		"with BOM": append([]byte("\ufeff"), data...),
	} {
		b := Read("", text)
		if fs := Verify(b); len(fs) > 0 || len(b.Events) != 12 || b.Head.Recipe.Text != sampleRecipe {
			t.Errorf("%s: %d events, told %v", name, len(b.Events), fs)
		}
	}
}

func TestUnknownKind(t *testing.T) {
	data, ends := sampleFile(t)
	text := "[[event]]\nseq = 1\nat = 2026-11-25T09:00:00+01:00\nkind = \"vat sung to\"\nsong = \"blue\"\nfor = \"5 min\"\n"
	b := Read("", append(append(bytes.Clone(data[:ends[0]]), '\n'), closed([]byte(text), 1)...))
	if len(b.Events) != 1 || len(Verify(b)) > 0 {
		t.Fatalf("%+v", b.Unread)
	}
	u, ok := b.Events[0].Body.(day.Unknown)
	if !ok || u.Name != "vat sung to" || u.Text != text {
		t.Errorf("%+v", b.Events[0].Body)
	}
	if f := Fields("v", "d", b.Events[0]); f["song"] != "blue" || f["kind"] != "vat sung to" {
		t.Errorf("%v", f)
	}
	if again, err := EncodeEvent(b.Events[0]); err != nil || string(again) != string(closed([]byte(text), 1)) {
		t.Errorf("%s %v", again, err)
	}
}

// testdata/old has a file of every format there ever was, with every kind of event, and keeps it for ever.
func TestOldFiles(t *testing.T) {
	for _, file := range []string{"../../testdata/old/format-1.toml", "../../testdata/old/format-1-crlf.toml"} {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		b := Read(file, data)
		if !b.HeadWhole || len(b.Marks)+len(b.Unread)+len(b.Gaps)+len(b.Torn) > 0 {
			t.Fatalf("%s: head %v, told %v", file, b.HeadErr, Verify(b))
		}
		if b.Head.Vat != "garden-bin" || b.Head.Recipe.ID != "soda" || len(b.Head.Recipe.Steps) != 13 || len(b.Head.Opening.Pieces) != 2 {
			t.Errorf("%s: head %+v", file, b.Head)
		}
		kinds := map[string]bool{}
		text := string(unixLines(data))
		for _, e := range b.Events {
			if _, unknown := e.Body.(day.Unknown); unknown {
				t.Errorf("%s: event %d is not known any more", file, e.Seq)
			}
			kinds[e.Body.Kind()] = true
			block, err := EncodeEvent(e)
			if err != nil || !strings.Contains(text, "\n"+string(block)) {
				t.Errorf("%s: event %d is written otherwise today: %v\n%s", file, e.Seq, err, block)
			}
		}
		if len(kinds) != len(b.Events) || len(kinds) < 48 {
			t.Errorf("%s: %d kinds in %d events", file, len(kinds), len(b.Events))
		}
	}
}

func FuzzRead(f *testing.F) {
	data, ends := sampleFile(f)
	f.Add(data)
	f.Add(data[:ends[3]+7])
	f.Add(bytes.ReplaceAll(data[:ends[2]], []byte("\n"), []byte("\r\n")))
	f.Add([]byte("[[event]]\nseq = 1\nat = 2026-11-25T09:00:00Z\nkind = \"note\"\ntext = \"x\"\n# end 1 00000000\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		b := Read("", data)
		Verify(b)
		if b.TornAt+len(b.Torn) != len(data) {
			t.Fatalf("torn at %d, %d bytes of %d", b.TornAt, len(b.Torn), len(data))
		}
		for _, e := range b.Events {
			block, err := EncodeEvent(e)
			if err != nil {
				continue // a boot id or a year that only a hand could have written
			}
			got, _, err := readEvent(block[:bytes.LastIndex(block, []byte("# end"))], kinds)
			if err != nil {
				t.Fatalf("written again it cannot be read: %v\n%s", err, block)
			}
			again, err := EncodeEvent(got)
			if err != nil || !bytes.Equal(again, block) {
				t.Fatalf("written again it is not the same: %v\n%s\n%s", err, block, again)
			}
			Fields("v", "d", e)
		}
	})
}
