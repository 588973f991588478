package shelf

import (
	"errors"
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// A vat that could not be begun leaves nothing: not its folder, nor the home that was made for it. What was there before
// stays.
func TestAFailedVatLeavesNoFolder(t *testing.T) {
	h := Open(filepath.Join(t.TempDir(), "data", "home"))
	full := &disk{room: 0, writeErrs: true}
	h.open = full.open
	for range 3 {
		vat, err := h.FreeVat("Garden bin")
		must(t, err)
		hd := head(t)
		hd.Vat = vat
		if _, err := h.NewDay(hd); !errors.Is(err, syscall.ENOSPC) {
			t.Fatal(err)
		}
		if _, err := os.Lstat(filepath.Dir(h.Dir())); !os.IsNotExist(err) {
			t.Fatalf("%s is left behind: %v", filepath.Dir(h.Dir()), err)
		}
		full.room = 0
	}
	mine := filepath.Join(h.VatDir("shed"), "card.jpg")
	must(t, makeDir(h.VatDir("shed")))
	must(t, os.WriteFile(mine, nil, 0o644))
	hd := head(t)
	hd.Vat = "shed"
	if _, err := h.NewDay(hd); err == nil {
		t.Fatal("a day was begun on a full disk")
	}
	if _, err := os.Lstat(mine); err != nil {
		t.Error(err)
	}
	full.room = -1
	hd.Vat = "garden-bin"
	w, err := h.NewDay(hd)
	must(t, err)
	must(t, w.Close())
}
