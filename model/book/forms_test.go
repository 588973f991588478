package book

import (
	"bytes"
	"regexp"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// The forms as they were written before they were read by hand: what these take is the form of the book.
var (
	endWas    = regexp.MustCompile(`^# end (\d{1,9}) ([0-9a-fA-F]{8})$`)
	withinWas = regexp.MustCompile(`^[ \t]*recipe[ \t]*\.`)
)

func TestFormsReadByHand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		end := []byte(rapid.StringMatching(`#? ?(end|End)? ?[0-9a]{0,11} ?[0-9a-gA-F]{6,10}\n?`).Draw(t, "end"))
		seq, crc, ok := endLine(end)
		m := endWas.FindSubmatch(end)
		if ok != (m != nil) {
			t.Fatalf("%q: taken %v", end, ok)
		}
		if ok {
			n, _ := strconv.Atoi(string(m[1]))
			sum, _ := strconv.ParseUint(string(m[2]), 16, 32)
			if seq != n || crc != uint32(sum) {
				t.Fatalf("%q: %d %08x", end, seq, crc)
			}
		}
		header := []byte(rapid.StringMatching(`[ \t\n]{0,2}(recipe|recip|recipe2)?[ \t]{0,2}\.?[a-z\]]{0,3}`).Draw(t, "header"))
		if got, want := within(header), len(withinWas.Find(header)); got != want {
			t.Fatalf("%q: %d, not %d", header, got, want)
		}
	})
}

func TestEndLine(t *testing.T) {
	for text, want := range map[string]bool{
		"# end 3 6b345511": true, "# end 999999999 FFFFFFFF": true, "# end 0 00000000": true,
		"# end 1000000000 6b345511": false, "# end 3 6b34551": false, "# end 3  6b345511": false, "# end  6b345511": false,
		"# end 3 6b345511 ": false, "# end 3 6b3455 1": false, "# End 3 6b345511": false, "": false, "# end ": false,
	} {
		if _, _, ok := endLine([]byte(text)); ok != want || ok != endWas.Match([]byte(text)) {
			t.Errorf("%q: taken %v", text, ok)
		}
	}
	if !bytes.HasPrefix([]byte(recipeLine), []byte("["+string(recipeName))) {
		t.Error("the recipe has two names")
	}
}
