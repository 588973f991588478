package piecefile_test

import (
	"strings"
	"testing"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/load"
	"example.org/vatside/model/piecefile"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/tree"
)

const table3 = `
# three pieces
[[piece]]
tag = "A1"
what = "table runner"
fibre = "linen"
dry = "420 g"
depth = "dark"
form = "cloth"
work = "moved"
who = "4"
dip = "8 min"
air = "12 min"

[[piece]]
tag = "B"
fibre = "wool"
dry = "150 g"
dips = 3
form = "skein"
work = "hung"
from = "10:45"
till = "15:00"
demo = true

[[piece]]
tag = "C"
fibre = "cotton"
dry = "80 g"
rung = 2
form = "bound"
from = 90
`

// The text form, with what is left out filled in by common practice.
func TestParsePieces(t *testing.T) {
	ps, faults := piecefile.Parse("day.toml", table3, quantity.Hours(10))
	if len(faults) > 0 || len(ps) != 3 {
		t.Fatal(len(ps), faults)
	}
	if a := ps[0]; a.Tag != "A1" || a.What != "table runner" || a.Who != "4" || a.Fibre != fibre.Linen || a.Dry != 420 || a.Dips != 7 ||
		a.Dip != quantity.Minutes(8) || a.Air != quantity.Minutes(12) || a.FinalAir != quantity.Minutes(30) || a.Finish != quantity.Minutes(25) || a.Dark != 4 ||
		a.Takes < 1.31 || a.Takes > 1.33 { // 420 g × 2.2 % / 7
		t.Errorf("%+v", a)
	}
	if b := ps[1]; b.Dips != 3 || b.Dip != quantity.Minutes(5) || b.Air != quantity.Minutes(5) || b.FinalAir != quantity.Minutes(20) || b.From != quantity.Minutes(45) || b.Till != quantity.Minutes(300) || !b.Demo || b.Work != load.Hung {
		t.Errorf("%+v", b)
	}
	if c := ps[2]; c.Dips != 2 || c.Air != quantity.Minutes(20) || c.FinalAir != quantity.Minutes(120) || c.From != quantity.Minutes(90) || c.Work != load.Moved {
		t.Errorf("%+v", c)
	}
}

// Every fault is told in a sentence with its line.
func TestParseFaults(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", `day.toml:1:1: there are no pieces`},
		{"[[piece]\n", `day.toml:1:8: this is not TOML: expected end of table array name delimiter`},
		{"pieces = 1\n", `day.toml:1:1: "pieces" is not known here; pieces stand in [[piece]] blocks.`},
		{"[[piece]]\ntag = \"A\"\nfibre = \"cotton\"\ndry = \"1 kg\"\ndips = 2\n  colour = \"blue\"\n", `day.toml:6:3: "colour" is not known in a piece`},
		{"[[piece]]\ntag = \"A\"\nfibre = \"cotton\"\ndry = \"heavy\"\ndips = 2\n", `day.toml:4:1: dry: `},
		{"[[piece]]\ntag = \"A\"\nfibre = \"nylon\"\ndry = \"1 kg\"\ndips = 2\n", `day.toml:3:1: `},
		{"[[piece]]\ntag = \"A\"\nfibre = \"cotton\"\ndry = \"1 kg\"\n", `day.toml:1:1: piece A has neither a depth nor dips`},
		{"[[piece]]\ntag = \"A\"\nfibre = \"cotton\"\ndry = \"1 kg\"\ndepth = \"teal\"\n", `day.toml:5:1: piece A: no depth is called "teal"`},
		{"[[piece]]\ntag = \"A\"\nfibre = \"cotton\"\ndry = \"1 kg\"\ndips = 0\n", `day.toml:5:1: dips is not a number of dips; say 1 to 60.`},
		{"[[piece]]\ntag = \"A\"\nfibre = \"cotton\"\ndry = \"1 kg\"\ndips = 2\nlab = [1.0, 2.0, 3.0]\n", `day.toml:6:1: a timetable cannot be made from lab`},
		{"[[piece]]\ntag = \"A\"\nfibre = \"cotton\"\ndry = \"1 kg\"\ndips = 2\ndepth = \"pale\"\n", `day.toml:5:1: depth, dips and rung are given together`},
		{"[[piece]]\ntag = \"A\"\nfibre = \"cotton\"\ndry = \"1 kg\"\ndips = 2\nfrom = \"25:00\"\n", `day.toml:6:1: from is not a time`},
		{"[[piece]]\ntag = \"A\"\nfibre = \"cotton\"\ndry = \"1 kg\"\ndips = 2\nfrom = 90\ntill = 80\n", `day.toml:7:1: till is not after the start, or after from`},
		{"[[piece]]\ntag = \"A\"\nfibre = \"cotton\"\ndry = \"1 kg\"\ndips = 2\ntill = \"never\"\n", `day.toml:6:1: till is not a time`},
		{"[[piece]]\ntag = \"A\"\nfibre = \"cotton\"\ndry = \"1 kg\"\ndips = 2\ndemo = 1\n", `day.toml:6:1: demo is neither true nor false`},
		{"[[piece]]\ntag = \"A\"\nfibre = \"cotton\"\ndry = \"1 kg\"\ndips = 2\nwork = \"stirred\"\n", `day.toml:6:1: work "stirred" is not known; say one of moved, hung.`},
		{"[[piece]]\nfibre = \"cotton\"\ndry = \"1 kg\"\ndips = 2\n", `day.toml:1:1: the piece has no tag`},
		{"[[piece]]\ntag = \"A\"\nfibre = \"cotton\"\ndry = \"1 kg\"\ndips = 2\n[[piece]]\ntag = \"A\"\nfibre = \"cotton\"\ndry = \"1 kg\"\ndips = 2\n", `day.toml:7:1: another piece is called "A"`},
		{"[[piece]]\ntag = \"A\"\nwhat = \"a\\u009b31m\"\nfibre = \"cotton\"\ndry = \"1 kg\"\ndips = 2\n", `day.toml:3:1: what holds the character U+009B, which cannot be shown; write plain text on one line.`},
		{"[[piece]]\ntag = \"A\"\nwhat = \"a\u202e\"\nfibre = \"cotton\"\ndry = \"1 kg\"\ndips = 2\n", `day.toml:3:1: what holds the character U+202E, which cannot be shown; write plain text on one line.`},
		{"[[piece]]\ntag = \"A\"\nfibre = \"cotton\"\ndry = \"1 kg\"\ndips = 2\ndip = \"1:30\"\n", `day.toml:6:1: dip: `},
	} {
		_, faults := piecefile.Parse("day.toml", c.text, 0)
		if got := faults.String(); !strings.HasPrefix(got, c.want) || strings.Contains(got, "\n") {
			t.Errorf("%q gives %q, not %q", c.text, got, c.want)
		}
	}
}

// No text makes the reader panic, and what is read without faults can be planned.
// Goods with a resist of paste hang still, for short dips.
func TestPastedPieces(t *testing.T) {
	ps, faults := piecefile.Parse("day.toml", "[[piece]]\ntag = \"P1\"\nfibre = \"cotton\"\ndry = \"300 g\"\ndepth = \"dark\"\nform = \"pasted\"\n", 0)
	if len(faults) > 0 || len(ps) != 1 || ps[0].Form != load.Pasted || ps[0].Work != load.Hung || ps[0].Dip > quantity.Minutes(3) {
		t.Errorf("%+v, %v", ps, faults)
	}
}

func FuzzParsePieces(f *testing.F) {
	f.Add(table3)
	f.Add("[[piece]]\ntag = \"\"\"A\nB\"\"\"\n")
	f.Add("[piece]\n")
	f.Add("piece = [{tag = \"A\"}]\n")
	f.Add("[[piece]]\nfrom = nan\n")
	f.Fuzz(func(t *testing.T, text string) {
		ps, faults := piecefile.Parse("f", text, 0)
		if len(faults) > 0 || len(ps) > 10 {
			return
		}
		if _, err := load.Make(ps, load.Limits{Effort: 1000}); err != nil {
			t.Errorf("%v\n%s", err, text)
		}
	})
}

func TestDeepPiecesAreOneFault(t *testing.T) {
	_, faults := piecefile.Parse("pieces.toml", "[[piece]]\n"+strings.Repeat("a.", 50_000)+"a = 1\n", 0)
	if len(faults) != 1 || faults[0].Line != 2 || faults[0].What != tree.DeepWords {
		t.Errorf("%.300v", faults)
	}
}
