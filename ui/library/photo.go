package library

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/photo"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/shelf"
)

// Photo is one photograph of the card as it was read, with its pieces placed between rungs where rungs were named.
type Photo struct {
	photo.Reading
	Placed   []photo.Placed
	Warnings []string
}

// ReadPhoto reads the photograph in a file. What is wrong with the picture itself stands in its warnings; the error is one sentence
// that names the file.
func ReadPhoto(path string, rungs []int) (Photo, error) {
	data, err := shelf.ReadArgument(path)
	if err != nil {
		return Photo{}, err
	}
	img, err := photo.Decode(data)
	if err != nil {
		return Photo{}, fmt.Errorf("%s: %w", path, err)
	}
	p := Photo{Reading: photo.Read(img)}
	p.Warnings = wording.Each(p.Warning, photo.Warning.String)
	p.Placed = photo.Unplaced(p.Seen)
	if len(rungs) > 0 && len(p.Seen) > 0 {
		if p.Placed, err = photo.Place(p.Seen, rungs); err != nil {
			return Photo{}, fmt.Errorf("%s: %w", path, err)
		}
	}
	return p, nil
}

// Look is what all holes say of the one piece below them, in the words of a look.
func (p Photo) Look(g shade.Ground, wet bool) (string, error) {
	if len(p.Placed) == 0 {
		return "", errors.New("nothing is recorded: no hole shows cloth that can be read")
	}
	words := photo.Together(p.Placed, g, wet)
	if words == "" {
		return "", errors.New("nothing is recorded: the photograph does not say how dark the piece is; put rungs on the card, and name them with --rungs")
	}
	_, err := day.ParseLook(words)
	return words, err
}

// GroundOf is the usual ground of a fibre by its name; unknown counts as cotton.
func GroundOf(name string) shade.Ground {
	f, _ := fibre.Parse(name)
	return shade.GroundOf(f)
}

// MostRung is the highest rung of a ladder.
const MostRung = 30

// Rungs reads the rungs on the card in the order of their places, such as 1,3,5.
func Rungs(text string) ([]int, error) {
	var out []int
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' }) {
		n, err := strconv.Atoi(word)
		if err != nil || n < 1 || n > MostRung {
			return nil, fmt.Errorf("a rung has a number from 1 to %d, such as 1,3,5, not %q", MostRung, word)
		}
		if slices.Contains(out, n) {
			return nil, fmt.Errorf("rung %d is named twice", n)
		}
		out = append(out, n)
	}
	if len(out) > photo.Places {
		return nil, fmt.Errorf("the card has places for %d rungs", photo.Places)
	}
	return out, nil
}

// Seen is what a photograph says of a piece on a screen: the words of its look, and a sentence that tells of them; or in the reader's
// words why it has none.
type Seen struct {
	Words, Told string
	Err         error
}

// SeePiece reads the photographs that were asked for, each as a look of a piece of its own, as look --piece does.
func SeePiece(a PhotoAsked, p day.Piece) (all []Seen) {
	for _, path := range a.Paths {
		s, err := seePiece(path, a, p)
		s.Err = err
		all = append(all, s)
	}
	return all
}

func seePiece(path string, a PhotoAsked, p day.Piece) (Seen, error) {
	name := wording.Show(filepath.Base(path)).String()
	rungs, err := Rungs(a.Rungs)
	if err != nil {
		return Seen{}, err
	}
	read, err := ReadPhoto(path, rungs)
	if err != nil {
		return Seen{}, wording.ShowError(err)
	}
	warned := strings.Join(read.Warnings, "; ")
	onCard := len(read.Seen) - len(photo.Unplaced(read.Seen))
	words, err := read.Look(GroundOf(p.Spec.Fibre), a.Wet)
	switch {
	case err == nil:
	case len(read.Placed) == 0 && warned != "":
		return Seen{}, fmt.Errorf("%s: not read: %s", name, warned)
	case len(read.Placed) == 0:
		return Seen{}, fmt.Errorf("%s: no hole shows cloth that can be read", name)
	case onCard > 1 && len(rungs) == 0:
		return Seen{}, fmt.Errorf("%s: %s lie on the card: type their numbers, such as 1,3,6, and give the photograph again", name, wording.Counted(onCard, "rung"))
	default:
		return Seen{}, fmt.Errorf("%s does not say how dark %s is: put two rungs or more on the card, and type their numbers before the photograph", name, p.Tag)
	}
	told := name + ": " + words
	if l, err := day.ParseLook(words); err == nil && l.Rung > 0 && l.Error > 0 {
		at := float64(l.Rung)
		if l.Place > 0 {
			at = l.Place
		}
		r := photo.Between(at, l.Error)
		told = fmt.Sprintf("%s: rung %.1f, from %.1f to %.1f eight times in ten", name, r.Likely, r.Low, r.High)
	} else if onCard > 1 && len(rungs) == 0 {
		told += fmt.Sprintf("; the numbers of the %d rungs on the card, typed before it, say more", onCard)
	}
	if read.Coded && read.Code.Piece != 0 && read.Code.Piece != photo.CodeOf("", p.Tag).Piece {
		told += "; the card's code is of another piece than " + p.Tag
	}
	return Seen{Words: words, Told: wording.Joined("; ", told, warned)}, nil
}
