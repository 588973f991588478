package shelf

import (
	"os"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/book"
)

// A day is understood once for as long as its bytes and the date stay, and what one reader does to its lists no other sees.
func TestADayIsUnderstoodOnce(t *testing.T) {
	text, err := os.ReadFile("../../testdata/days/soda-bin.toml")
	if err != nil {
		t.Fatal(err)
	}
	text = append(text, "\n[[event]]\nseq = 87\nkind = \"later\"\n# end 87 00000000\n\n[[event]]\nseq = 88\n"...)
	today := time.Date(2026, 5, 9, 18, 0, 0, 0, time.UTC)
	want := book.ReadOn(today, "a", text)
	if len(want.Unread)+len(want.Marks) == 0 || len(want.Torn) == 0 || len(want.Gaps) == 0 {
		t.Fatalf("the day has nothing to spoil: %+v", want.Frame)
	}
	for range 3 {
		got := understood(today, "a", text)
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("%+v\nnot\n%+v", got.Frame, want.Frame)
		}
		clear(got.Events)
		clear(got.Marks)
		clear(got.Unread)
		clear(got.Gaps)
		clear(got.Torn)
		_ = append(got.Events[:1], want.Events[3])
	}
	for _, other := range []struct {
		name, file string
		today      time.Time
		text       []byte
	}{{"in 200 years", "a", today.AddDate(200, 0, 0), text}, {"another text", "a", today, text[:len(text)-20]}, {"another file", "b", today, text}} {
		understood(today, "a", text)
		if got := understood(other.today, other.file, other.text); reflect.DeepEqual(got, want) {
			t.Errorf("%s is taken for the day that was read before", other.name)
		}
	}
	for i := range 3 * latelyMost {
		understood(today, strings.Repeat("x", i), text)
	}
	if n := len(lately.of); n > latelyMost {
		t.Errorf("%d days are kept", n)
	}
}

func TestGlance(t *testing.T) {
	h := Open(t.TempDir())
	if _, _, ok := h.Glance("bin"); ok {
		t.Error("a vat that is not there has an open day")
	}
	put := func(name, text string) {
		t.Helper()
		if err := os.MkdirAll(h.VatDir("bin"), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(h.DayFile("bin", name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	whole, err := os.ReadFile("../../testdata/days/soda-bin.toml")
	if err != nil {
		t.Fatal(err)
	}
	open, _, _ := strings.Cut(string(whole), "\n[[event]]\nseq = 40\n")
	put("2026-05-09", open)
	name, b, ok := h.Glance("bin")
	if want, err := h.ReadDay("bin", "2026-05-09"); !ok || name != "2026-05-09" || err != nil || !reflect.DeepEqual(b, want) {
		t.Errorf("%s, %v: %d events, not %d", name, ok, len(b.Events), len(want.Events))
	}
	put("2026-05-09-10", string(whole))
	if name, _, ok := h.Glance("bin"); ok {
		t.Errorf("%s is closed, and is shown", name)
	}
	put("2026-05-09-10", "format = 1\nvat = ")
	if name, _, ok := h.Glance("bin"); ok {
		t.Errorf("%s has no head, and is shown", name)
	}
	if _, _, ok := h.Glance("../bin"); ok {
		t.Error("a folder out of the home is looked at")
	}
}
