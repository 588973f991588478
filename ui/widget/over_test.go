package widget

import (
	"testing"

	"example.org/vatside/ui/style"
)

// Under a call in large letters a low window has the act's rows for the list; a high one has both.
func TestALowWindowUnderALargeCallHasItsList(t *testing.T) {
	s := Sheet{Head: Head{Left: "crock"}, Act: "LAST LIFT 14:18", ActBig: true, Call: CallRow{Words: "BLUE YET? 0:04"}}
	for _, c := range []struct {
		height int
		large  bool // whether the act keeps its letters under the large call
	}{{24, false}, {40, true}} {
		under := s
		under.Call.Big = "BLUE YET? 0:04"
		st := style.Style{}
		height := c.height - under.Call.Rows(80, c.height, st)
		if got := planFor(under, 80, height, st).actIsBig; got != c.large {
			t.Errorf("in %d rows the act under the call is large: %v", c.height, got)
		}
		if !planFor(s, 80, height, st).actIsBig {
			t.Errorf("in %d rows the act under a call in words is not large", c.height)
		}
	}
	_, words := Room(s, 80, 24, style.Style{})
	s.Call.Big = "BLUE YET? 0:04"
	if _, large := Room(s, 80, 24, style.Style{}); large < words-1 {
		t.Errorf("a list has %d rows under a call in words, %d under a large one", words, large)
	}
}
