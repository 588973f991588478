package command

import (
	"regexp"
	"strings"
	"testing"
)

// Plain mode ends with leave and at the end of its input, with 0 wherever it stands, and says no name of a file, no number of an event.
func TestPlainEndsWithItsInput(t *testing.T) {
	const build = "1\n1\n20\n12 55\nA1 linen 200 g 3 dips\n\n\n2\nHDPE\nyou alone\n\nyes\nhow does it stand\nclass\n"
	home := t.TempDir()
	for _, lines := range []string{"", "leave\n", "1\n", "1\n1\n20\n", "2\n", build, build + "leave\n", "help\n?\ncare\ncost\nsigns\n4\n", "look\nplan\nladder\nnew\n", "leave\n"} {
		out, errs, code := typed(t, home, lines, "--plain")
		if code != 0 || errs != "" {
			t.Errorf("%q ends with %d %q", lines, code, errs)
		}
		if id := regexp.MustCompile(`#\d+\b|vat-1/|\d{4}-\d\d-\d\d`).FindString(out); id != "" {
			t.Errorf("%q says %s:\n%s", lines, id, out)
		}
		if strings.Contains(out, "..") || strings.Contains(out, "?.") {
			t.Errorf("%q: a stop too many:\n%s", lines, out)
		}
	}
}
