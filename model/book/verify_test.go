package book

import (
	"bytes"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.org/vatside/model/day"
)

// What is missing, doubled, displaced, torn, spilled or unreadable leaves a day that is not whole; what a hand has mended does not.
func TestDamage(t *testing.T) {
	all := sampleBlocks(t)
	for _, c := range []struct {
		name string
		file []byte
		want string
	}{
		{"whole", in(all, 1, 2, 3), ""},
		{"a figure mended by hand", bytes.Replace(in(all, 1, 2, 3), []byte("33.5"), []byte("34.5"), 1), ""},
		{"an end line that is missing", slices.Concat(all[0], all[1][:bytes.Index(all[1], []byte("# end"))], all[2]), ""},
		{"one gap", in(all, 1, 2, 4), "event 3 is missing before line 148"},
		{"two gaps", in(all, 1, 5, 7), "events 2 to 4 are missing before line 136, and 1 more"},
		{"no first", in(all, 2), "event 1 is missing before line 127"},
		{"twice", in(all, 1, 2, 2, 3), "event 2 stands here twice, word for word; it counts once (line 148)"},
		{"two of a number", slices.Concat(in(all, 1), noteAs(t, 1, "x")), "there are two events 1 (line 136)"},
		{"displaced", in(all, 1, 3, 2), "event 2 stands after event 3 (line 148)"},
		{"torn", append(in(all, 1), "\n[[event]]\nseq"...), "the last block is torn and was never saved; its 14 bytes are set aside (line 136)"},
		{"unreadable", bytes.Replace(in(all, 1, 2), []byte(`how = "tend"`), []byte("how = 3"), 1), "event 1 cannot be read: how: it is not a text in quotes (line 127)"},
		{"the head", bytes.Replace(in(all, 1), []byte("format = 1"), []byte("format = 2"), 1),
			"its first lines cannot be read: it is of format 2, which another version of the program writes (line 1)"},
		{"torn in its head", all[0][:100], "the file ends inside its head (line 1)"},
		{"empty", nil, "the file is empty (line 1)"},
	} {
		b := Read("day.toml", c.file)
		if got := b.Damage(); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
		for _, f := range VerifyVat([]Book{b}) {
			if f.File != "day.toml" || f.Line < 1 || f.Whole != (c.want == "") && !strings.HasPrefix(f.What, "the head was mended by hand") {
				t.Errorf("%s: %+v", c.name, f)
			}
		}
	}
	b := Read("day.toml", in(all, 1, 2))
	b.Spilled = []Spilled{{File: "/state/spill", Events: 3}, {File: "/tmp/spill", Events: 1, Err: errors.New("the day went on")}}
	fs := Verify(b)
	if len(fs) != 2 || fs[0].Lost || fs[0].Whole || fs[0].String() != "day.toml: 3 events lie in /state/spill, not yet in the day: open the day, or `vatside book mend`." ||
		!strings.HasPrefix(fs[1].What, "1 event lies in /tmp/spill, not in the day (the day went on): ") || !strings.HasSuffix(b.Damage(), ", and 1 more") {
		t.Errorf("%v", fs)
	}
}

// The stock's file is looked at in the same way.
func TestStockVerify(t *testing.T) {
	head := EncodeStockHead()
	block := func(seq int) []byte {
		return append([]byte{'\n'}, closed([]byte(strings.ReplaceAll("[[event]]\nseq = N\nat = 2026-11-25T09:00:00Z\nkind = \"tin opened\"\ntin = \"T1\"\n", "N", string(rune('0'+seq)))), seq)...)
	}
	for want, file := range map[string][]byte{
		"":                                       slices.Concat(head, block(1), block(2)),
		"event 2 is missing before line 11":      slices.Concat(head, block(1), block(3)),
		"event 1 stands after event 2 (line 11)": slices.Concat(head, block(2), block(1)),
		"event 1 stands here twice, word for word; it counts once (line 11)":              slices.Concat(head, block(1), block(1)),
		"the last block is torn and was never saved; its 9 bytes are set aside (line 11)": slices.Concat(head, block(1), block(2)[:9]),
	} {
		if got := ReadStock(undated, "stock.toml", file).Damage(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A day.Lost changes nothing in the fold but the log and its highest number.
func TestLostChangesNothing(t *testing.T) {
	h, events := sampleHead(t), sampleEvents()[:10] // to a lift that was assumed
	plain, _ := day.Replay(h, events)
	var mixed []day.Event
	for _, e := range events {
		mixed = append(mixed, e, day.Event{Seq: 100 + e.Seq, At: e.At, Boot: e.Boot, Up: e.Up, Body: day.Lost{Text: "x"}})
	}
	s, _ := day.Replay(h, mixed)
	if len(s.Log) != 2*len(events) || s.At != plain.At {
		t.Fatalf("%d events, at %s", len(s.Log), s.At)
	}
	if last := events[len(events)-1].Seq; s.Seq != 100+last || plain.Seq != last {
		t.Errorf("the highest numbers are %d and %d", s.Seq, plain.Seq)
	}
	s.Seq = plain.Seq
	if s.Log, plain.Log = nil, nil; !same(reflect.ValueOf(s), reflect.ValueOf(plain)) {
		t.Errorf("%+v\nwant %+v", s, plain)
	}
}
