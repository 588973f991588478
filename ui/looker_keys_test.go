package ui

import (
	"slices"
	"testing"

	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/widget"
)

// On a day that another program writes no key is named that would be refused; the writer's window names it.
func TestALookersKeysAreTheOnesThatWork(t *testing.T) {
	home := shelf.Open(t.TempDir())
	_, writer := first(t, home)
	defer writer.Close()
	two := openWindow(t, home)
	two.shows("open elsewhere")
	two.take(enter)
	two.shows(onlyLooked)
	named := func(name string) bool {
		top := two.m.stack[len(two.m.stack)-1]
		return slices.ContainsFunc(two.m.keysOf(top, two.m.env(), 20), func(k widget.Key) bool { return k.Key == name })
	}
	if top := two.m.stack[len(two.m.stack)-1]; top.at != screen.AtDay {
		t.Fatalf("it is on %s", top.at)
	}
	if named("space") || !named("!") {
		t.Error("a looker is told of the press")
	}
	two.m.snap.Days[0].Looking = false
	if !named("space") {
		t.Error("a writer is not")
	}
}
