package command

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/vatside/model/load"
	"example.org/vatside/model/piecefile"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/sheet"
	"example.org/vatside/model/vessel"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

// daysOf are the days of the vat that was named, the oldest first: all, or the one that was asked for alone. Without a name
// it is the vat that was last worked on. There is at least one, or the command stops.
func (p *program) daysOf(h shelf.Home, vat, name string) []sheet.Day {
	if vat == "" {
		all := got(p.survey(h))
		if len(all) == 0 {
			stop("no vat is in the book yet: vatside begin VAT opens one")
		}
		vat = slices.MaxFunc(all, func(a, b library.Day) int { return a.State.At.Compare(b.State.At) }).Vat
	}
	vat = got(library.VatNamed(h, vat))
	out, errs := library.Days(h, vat, daysNamed(h, vat, name))
	p.warn(errs...)
	if len(out) == 0 {
		stop("no day of vat %s can be read", vat)
	}
	return out
}

// piecesToCome are those of --pieces and --piece.
func piecesToCome(file string, typed []string, sys quantity.System) (out []load.Piece) {
	if file != "" {
		out = piecesIn(file, 0)
	}
	for _, text := range typed {
		within(fmt.Sprintf("--piece %q", text), func() {
			piece := pieceToCome(text, len(out)+1, sys)
			if slices.ContainsFunc(out, func(o load.Piece) bool { return o.Tag == piece.Tag }) {
				stop("%s is there already, each piece has a tag of its own", piece.Tag)
			}
			out = append(out, piece)
		})
	}
	return out
}

// piecesIn are the pieces of a file, of a day that begins so long after midnight.
func piecesIn(file string, begins quantity.Span) []load.Piece {
	pieces, faults := piecefile.Parse(file, string(got(shelf.ReadArgument(file))), begins)
	if len(faults) > 0 {
		must(faults.Err())
	}
	return pieces
}

// pieceToCome reads a piece, 'A1=420 g linen, dark, table runner, of Mo': its tag, else A with its number; dry weight and fibre;
// then, in any order, a depth or dips, whose it is, and what it is.
func pieceToCome(text string, no int, sys quantity.System) load.Piece {
	piece := load.Piece{Tag: "A" + strconv.Itoa(no)}
	if tag, rest, tagged := strings.Cut(text, "="); tagged {
		if piece.Tag, text = strings.TrimSpace(tag), rest; piece.Tag == "" {
			stop("the tag is missing before =")
		}
	}
	parts := strings.Split(text, ",")
	goods := got(vessel.ParseGoods(parts[0], sys))
	if !(goods.Dry > 0) {
		stop("it weighs nothing; write its dry weight, such as '420 g linen'")
	}
	piece.Fibre, piece.Dry = goods.Fibre, goods.Dry
	for _, part := range parts[1:] {
		part = strings.TrimSpace(part)
		number, word, _ := strings.Cut(part, " ")
		n, err := strconv.Atoi(number)
		depth, depthErr := shade.ByName(part)
		switch {
		case part == "":
		case err == nil && (word == "dips" || word == "dip"):
			if n < 1 || n > load.MostDips {
				stop("%d dips cannot be planned; 1 to %d can", n, load.MostDips)
			}
			piece.Dips = n
		case depthErr == nil:
			piece.Depth = depth.Name
		case number == "of" && word != "":
			piece.Who = word
		default:
			piece.What = part
		}
	}
	if piece.Depth == "" && piece.Dips == 0 {
		stop("say how dark, or how many dips, such as '420 g linen, dark' or '420 g linen, 5 dips'")
	}
	return got(piece.Fill())
}
