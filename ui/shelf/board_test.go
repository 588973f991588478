package shelf

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/vatside/model/wording"
)

// A board takes the place of the one before it; a file of that name that the program did not write stays, and so does everything in
// a vat's folder.
func TestABoardReplacesOnlyABoard(t *testing.T) {
	const mark = "<!-- ours -->"
	h := Open(t.TempDir())
	dir := h.VatDir("bin")
	for _, text := range []string{mark + " one", mark + " two"} {
		if err := h.WriteBoard("bin", wording.ShowPage(text), mark); err != nil {
			t.Fatal(err)
		}
		got, err := os.ReadFile(filepath.Join(dir, "board.html"))
		if err != nil || string(got) != text {
			t.Errorf("%q: %v", got, err)
		}
	}
	if files, _ := os.ReadDir(dir); len(files) != 1 {
		t.Errorf("%d files lie there", len(files))
	}
	if vats, err := h.Days("bin"); len(vats) > 0 || err != nil {
		t.Errorf("%q are its days: %v", vats, err)
	}
	own := filepath.Join(dir, "board.html")
	if err := os.WriteFile(own, []byte("my own page"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := h.WriteBoard("bin", wording.ShowPage(mark), mark); err == nil || !strings.Contains(err.Error(), "stays") {
		t.Errorf("%v", err)
	}
	if got, _ := os.ReadFile(own); string(got) != "my own page" {
		t.Errorf("it is %q now", got)
	}
	if err := h.WriteBoard("../bin", wording.ShowPage(mark), mark); err == nil {
		t.Error("a board outside of the vats is written")
	}
}
