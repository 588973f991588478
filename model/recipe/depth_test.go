package recipe

import (
	"strings"
	"testing"

	"example.org/vatside/model/tree"
)

// What the decoder takes goes before it is measured: no text may take it long. A decoding of such a text without the bound took
// 12 s.
func TestADeepRecipeIsOneFault(t *testing.T) {
	for _, deep := range []string{strings.Repeat("a.", 50_000) + "a = 1\n", "x = " + strings.Repeat("[\n", 50_000), "[" + strings.Repeat("a.", 50_000) + "a]\n"} {
		_, faults := Parse("deep.toml", []byte("format = 1\n"+deep))
		if len(faults) != 1 || !strings.Contains(faults[0].Error(), "deep.toml:") || !strings.Contains(faults[0].Error(), tree.DeepWords) {
			t.Errorf("%.20s: %v", deep, faults)
		}
	}
}
