package shelf

import (
	"regexp"
	"testing"

	"pgregory.net/rapid"
)

func TestNamesOfDays(t *testing.T) {
	form := regexp.MustCompile(`^(\d{4}-\d{2}-\d{2})(?:-([1-9]\d{0,3}))?$`)
	same := func(t interface{ Fatalf(string, ...any) }, name string) {
		date, ok := dateOf(name)
		m := form.FindStringSubmatch(name)
		if ok != (m != nil) || ok && date != m[1] {
			t.Fatalf("%q: date %q, %v", name, date, ok)
		}
	}
	for _, name := range []string{"", "2026-11-25", "2026-11-25-2", "2026-11-25-9999", "2026-11-25-02", "2026-11-25-12345", "2026-11-25-", "2026-11-2", "2026-11-25\n", "2026/11/25"} {
		same(t, name)
	}
	rapid.Check(t, func(t *rapid.T) {
		same(t, rapid.StringMatching(`[0-9]{3,5}-[0-9a]{1,3}.[0-9]{1,3}(-?[0-9]{0,6}[a\n]?)?`).Draw(t, "name"))
	})
}
