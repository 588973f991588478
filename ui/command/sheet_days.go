package command

import (
	"errors"
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
// it is the vat that was last worked on. There is at least one, or an error.
func (p *program) daysOf(h shelf.Home, vat, name string) ([]sheet.Day, error) {
	if vat == "" {
		all, err := p.survey(h)
		if err != nil {
			return nil, err
		}
		if len(all) == 0 {
			return nil, errors.New("no vat is in the book yet: vatside begin VAT opens one")
		}
		vat = slices.MaxFunc(all, func(a, b library.Day) int { return a.State.At.Compare(b.State.At) }).Vat
	}
	vat, names, err := daysNamed(h, vat, name)
	if err != nil {
		return nil, err
	}
	out, errs := library.Days(h, vat, names)
	p.warn(errs...)
	if len(out) == 0 {
		return nil, fmt.Errorf("no day of vat %s can be read", vat)
	}
	return out, nil
}

// piecesToCome are those of --pieces and --piece.
func piecesToCome(file string, typed []string, sys quantity.System) ([]load.Piece, error) {
	var out []load.Piece
	if file != "" {
		text, err := shelf.ReadArgument(file)
		if err != nil {
			return nil, err
		}
		pieces, faults := piecefile.Parse(file, string(text), 0)
		if len(faults) > 0 {
			return nil, faults.Err()
		}
		out = pieces
	}
	for _, text := range typed {
		piece, err := pieceToCome(text, len(out)+1, sys)
		if err != nil {
			return nil, fmt.Errorf("--piece %q: %w", text, err)
		}
		if slices.ContainsFunc(out, func(o load.Piece) bool { return o.Tag == piece.Tag }) {
			return nil, fmt.Errorf("--piece %q: %s is there already, each piece has a tag of its own", text, piece.Tag)
		}
		out = append(out, piece)
	}
	return out, nil
}

// pieceToCome reads a piece, 'A1=420 g linen, dark, table runner, of Mo': its tag, else A with its number; dry weight and fibre;
// then, in any order, a depth or dips, whose it is, and what it is.
func pieceToCome(text string, no int, sys quantity.System) (load.Piece, error) {
	piece := load.Piece{Tag: "A" + strconv.Itoa(no)}
	if tag, rest, tagged := strings.Cut(text, "="); tagged {
		if piece.Tag, text = strings.TrimSpace(tag), rest; piece.Tag == "" {
			return piece, errors.New("the tag is missing before =")
		}
	}
	parts := strings.Split(text, ",")
	goods, err := vessel.ParseGoods(parts[0], sys)
	if err != nil {
		return piece, err
	}
	if !(goods.Dry > 0) {
		return piece, errors.New("it weighs nothing; write its dry weight, such as '420 g linen'")
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
				return piece, fmt.Errorf("%d dips cannot be planned; 1 to %d can", n, load.MostDips)
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
		return piece, errors.New("say how dark, or how many dips, such as '420 g linen, dark' or '420 g linen, 5 dips'")
	}
	return piece.Fill()
}
