package main

import (
	"strings"
	"testing"
)

// The most telling edges hold; the others are in the bench.
func TestEdges(t *testing.T) {
	t.Chdir("../../..")
	b := &setup{work: t.TempDir(), short: true}
	b.wakers()
	var err error
	if b.program, err = b.build("vatside", "example.org/vatside"); err != nil {
		t.Fatal(err)
	}
	for _, one := range b.tried(edges(), 6) {
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
