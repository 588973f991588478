package library_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/library"
)

const twoPieces = `[[piece]]
tag = "A1"
fibre = "linen"
dry = "420 g"
depth = "dark"
[[piece]]
tag = "B1"
fibre = "cotton"
dry = "90 g"
dips = 3
dip = "4 min"
who = "4"
from = "13:30"
till = 180
demo = true
`

var noon = time.Date(2026, 11, 25, 12, 0, 40, 0, time.UTC)

// A file of pieces goes onto the list as it is written; what usual practice would fill in is left to the vat.
func TestPiecesOfAFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "pieces.toml")
	if err := os.WriteFile(path, []byte(twoPieces), 0o644); err != nil {
		t.Fatal(err)
	}
	adds, err := library.Listed(path, noon)
	if err != nil || len(adds) != 2 || adds[0].Tag != "A1" || adds[0].Spec.Depth != "dark" || adds[0].Spec.Dips != 0 ||
		adds[1].Spec.Dips != 3 || adds[1].Spec.Dip != quantity.Minutes(4) || adds[1].Spec.Who != "4" ||
		adds[1].Spec.From != "13:30" || adds[1].Spec.Till != "15:00" || !adds[1].Spec.Demo || adds[0].Spec.From+adds[0].Spec.Till != "" || adds[0].Spec.Demo {
		t.Errorf("%+v, %v", adds, err)
	}
	if err := os.WriteFile(path, []byte("[[piece]]\ntag = \"A1\"\ncolour = 3\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := library.Listed(path, noon); err == nil || !strings.Contains(err.Error(), "pieces.toml:") {
		t.Errorf("a faulty file: %v", err)
	}
	if _, err := library.Listed(filepath.Join(t.TempDir(), "none.toml"), noon); err == nil {
		t.Error("a file that is not there is read")
	}
}
