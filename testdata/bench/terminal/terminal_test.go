package main

import (
	"slices"
	"strings"
	"testing"
)

// The most telling edges hold; the others, and the panics, are in the bench.
func TestEdges(t *testing.T) {
	t.Chdir("../../..")
	b := &setup{work: t.TempDir(), short: true}
	b.wakers()
	var err error
	if b.program, err = b.build("vatside", "example.org/vatside"); err != nil {
		t.Fatal(err)
	}
	chosen := slices.DeleteFunc(edges(), func(e edge) bool { return e.group == "panic" })
	for _, one := range b.tried(chosen, 6) {
		t.Run(one.group+" "+one.name, func(t *testing.T) {
			if one.without != "" {
				t.Skip(one.without)
			}
			for _, w := range one.wrong {
				t.Error(w)
			}
		})
	}
}

// What an output leaves behind is told.
func TestLeftBy(t *testing.T) {
	for out, want := range map[string]string{
		"one\r\n\x1b[1;31mtwo\x1b[0m": "",
		"\x1b[?1049h\x1b[?25l\x1b[?1002;1006h\x1b[22;2t\x1b]2;lift A1\a\x1b[23;2t\x1b[?1006;1002l\x1b[?25h\x1b[?1049l": "",
		"\x1b[?1049h\x1b[?1004h\x1b[?2026h":                                      "a frame that is not closed, alternate screen, reports of the focus",
		"\x1b[?25l\x1b[?25h\x1b[?7l\x1b[4mx":                                     "colours, lines that do not wrap",
		"\x1b]0;lift A1\x1b\\\x1b[2;20r\x1b[>1u\x1b=\x1b[3 q":                    "its title, keypad of applications, scrolling rows, shape of the cursor, the kitty keyboard",
		"\x1b]0;lift A1\x1b\\\x1b[2;20r\x1b[>1u\x1b=\x1b[r\x1b[<u\x1b>\x1b]0;\a": "",
	} {
		left := leftBy(out)
		slices.Sort(left)
		if got := strings.Join(left, ", "); got != want {
			t.Errorf("%q: %s, not %s", out, got, want)
		}
	}
}

// Each way for a reply to come is all of it.
func TestWays(t *testing.T) {
	const reply = "\x1b[24;80R"
	all := ways(reply, false)
	if len(all) != 3+2*(len(reply)-1) {
		t.Errorf("%d ways", len(all))
	}
	for _, w := range all {
		if got := strings.Join(w.pieces, ""); got != reply {
			t.Errorf("%s: %q", w.name, got)
		}
	}
}
