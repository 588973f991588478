package paper_test

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"example.org/vatside/model/photo"
	"example.org/vatside/model/shade"
	"example.org/vatside/testdata/photographs"
)

// printedCard is the card of vat soda-bin and piece A1 as ui/paper sets it, a golden sheet.
func printedCard(t testing.TB) photographs.Card {
	t.Helper()
	page, err := os.ReadFile("../../testdata/sheets/soda-bin-card.html")
	if err != nil {
		t.Fatal(err)
	}
	card, err := photographs.CardOf(string(page))
	if err != nil || card.Holes != 4 || card.Rungs != photo.Places {
		t.Fatalf("%v %+v", err, card)
	}
	return card
}

// smallShot is a quickly taken photograph with three rungs on the card and a piece of three dips in the holes.
func smallShot(seed uint64) photographs.Shot {
	s := photographs.Plain(rand.New(rand.NewPCG(seed, 18)))
	s.W, s.H, s.Fill, s.Quality, s.Level, s.Rough = 330, 330, 0.95, 90, 0.6, true
	for _, dips := range []float64{1, 3, 6} {
		c := photographs.Indigo(dips, 1.5, 0.9, 1)
		s.Ladder = append(s.Ladder, &c)
	}
	return s
}

func readShot(t *testing.T, c photographs.Card, s photographs.Shot) photo.Reading {
	t.Helper()
	img, err := photo.Decode(s.JPEG(c))
	if err != nil {
		t.Fatal(err)
	}
	return photo.Read(img)
}

// The whole study is testdata/bench/photo; these are a few of its pictures, small.
func TestReadsPhotographs(t *testing.T) {
	card := printedCard(t)
	for name, change := range map[string]func(*photographs.Shot){
		"plain":        func(*photographs.Shot) {},
		"tilted":       func(s *photographs.Shot) { s.Tilt, s.Toward, s.Turn = 38, 130, 200 },
		"light 3 to 1": func(s *photographs.Shot) { s.Uneven, s.From = 3, 40 },
		"warm, noisy":  func(s *photographs.Shot) { s.Light, s.Noise, s.Quality = photographs.Cloth{1.3, 1, 0.6}, 0.06, 60 },
		"cool, on brightened paper": func(s *photographs.Shot) {
			s.Light, s.Paper = photographs.Cloth{0.8, 1, 1.25}, photographs.Cloth{0.83, 0.86, 0.93}
		},
		"on dark cloth": func(s *photographs.Shot) { s.Around, s.Turn = photographs.Indigo(9, 2, 1, 1), 90 },
	} {
		s := smallShot(3)
		change(&s)
		r := readShot(t, card, s)
		if !r.Coded || r.Code != photo.CodeOf("soda-bin", "A1") || len(r.Seen) != 7 {
			t.Errorf("%s: code %v, %d windows, %v", name, r.Code, len(r.Seen), r.Warning)
			continue
		}
		placed, err := photo.Place(r.Seen, []int{1, 3, 6})
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		for _, p := range placed {
			if p.Rung == nil || math.Abs(p.Rung.Likely-3) > 0.6 || p.Rung.Low > 3 || p.Rung.High < 3 {
				t.Errorf("%s: column %d is %+v %q for rung 3", name, p.Column, p.Rung, p.Words)
			}
		}
	}
}

// What cannot be read is refused with its reason, and nothing is said of it.
func TestRefusesPhotographs(t *testing.T) {
	card := printedCard(t)
	hole := 70.0 // the left side of the second hole is at 58 mm
	for want, change := range map[photo.Kind]func(*photographs.Shot){
		photo.Blur:       func(s *photographs.Shot) { s.Blur = 6 },
		photo.FewPixels:  func(s *photographs.Shot) { s.W, s.H = 110, 110 },
		photo.NoCard:     func(s *photographs.Shot) { s.Cover = &[4]float64{-5, -5, 24, 30} },
		photo.Clipped:    func(s *photographs.Shot) { s.Level = 3 },
		photo.ShadowEdge: func(s *photographs.Shot) { s.Shadow = &hole },
		photo.Glare:      func(s *photographs.Shot) { s.Glare = &[3]float64{71, 80, 0.9} },
		photo.Tinted:     func(s *photographs.Shot) { s.Paper = photographs.Cloth{0.85, 0.5, 0.6} },
	} {
		s := smallShot(4)
		change(&s)
		r, told := readShot(t, card, s), false
		for _, w := range r.Warning {
			told = told || w.Kind == want && w.Unread
		}
		if !told {
			t.Errorf("%s is told as %v", want, r.Warning)
		}
		for _, w := range r.Seen {
			if w.Row == 2 && w.Column == 2 {
				t.Errorf("%s: the second hole was read all the same", want)
			}
		}
	}
}

// However the camera turned the picture, and mirrored too: the card is read the right way up, so that the turn that is noted in
// the file (EXIF) changes nothing.
func TestAnyTurn(t *testing.T) {
	card := printedCard(t)
	s := smallShot(5)
	s.Pieces = []photographs.Cloth{photographs.Indigo(1, 1.5, 0.9, 1), photographs.Indigo(3, 1.5, 0.9, 1), photographs.Indigo(6, 1.5, 0.9, 1)}
	taken := s.Take(card)
	for turn := range 8 {
		img := image.NewRGBA(taken.Bounds())
		for y := range s.H {
			for x := range s.W {
				u, v := x, y
				if turn&1 > 0 {
					u = s.W - 1 - u
				}
				if turn&2 > 0 {
					v = s.H - 1 - v
				}
				if turn&4 > 0 {
					u, v = v, u
				}
				img.SetRGBA(u, v, taken.RGBAAt(x, y))
			}
		}
		placed, err := photo.Place(photo.Read(img).Seen, []int{1, 3, 6})
		if err != nil || len(placed) != 4 {
			t.Errorf("turn %d: %d pieces, %v", turn, len(placed), err)
			continue
		}
		for i, want := range []float64{1, 3, 6} {
			if r := placed[i].Rung; r == nil || math.Abs(r.Likely-want) > 0.7 {
				t.Errorf("turn %d: hole %d is %+v for %g", turn, i+1, r, want)
			}
		}
	}
}

// Between rungs or not at all: what lies clearly outside gets no number, and rungs out of order are asked after.
func TestPlacesOnlyBetweenRungs(t *testing.T) {
	window := map[int]photo.Window{}
	for i, w := range photo.Windows() {
		window[i] = w
	}
	of := func(i int, dips float64) photo.Seen {
		return photo.Seen{Window: window[i], Lab: shade.White.Colour(shade.KS(2 * dips))}
	}
	ladder := []photo.Seen{of(0, 2), of(1, 4), of(2, 6)}
	for _, c := range []struct {
		dips  float64
		words string
	}{{2, ""}, {3, ""}, {6, ""}, {0.7, "paler than rung 2, the palest there"}, {14, "darker than rung 6, the darkest there"}} {
		p, err := photo.Place(append(ladder[:3:3], of(4, c.dips)), []int{2, 4, 6})
		if err != nil || len(p) != 1 || p[0].Words != c.words || (p[0].Rung == nil) != (c.words != "") {
			t.Errorf("%g dips: %+v %v", c.dips, p, err)
			continue
		}
		if r := p[0].Rung; r != nil && (math.Abs(r.Likely-c.dips) > 0.35 || !(r.Low < r.Likely && r.Likely < r.High)) {
			t.Errorf("%g dips: %+v", c.dips, *r)
		}
	}
	for _, rungs := range [][]int{{6, 4, 2}, {2, 4}, {2, 2, 4}, nil} {
		if p, err := photo.Place(append(ladder[:3:3], of(4, 3)), rungs); err == nil {
			t.Errorf("rungs %v are taken: %+v", rungs, p)
		}
	}
	if p := photo.Unplaced([]photo.Seen{of(0, 2), of(4, 3)}); len(p) != 1 || p[0].Rung != nil {
		t.Errorf("without rungs: %+v", p)
	}
	for ks, want := range map[shade.KS]string{1: "pale", 10: "mid", 22: "dark", 60: ""} {
		if got := photo.Alone(shade.White.Colour(ks), shade.White); got != want {
			t.Errorf("K/S %g alone is %q, not %q", float64(ks), got, want)
		}
	}
}

// Of several holes over one piece one look is made.
func TestTogether(t *testing.T) {
	at := func(likely, e float64) photo.Placed {
		return photo.Placed{Rung: &photo.Rung{Likely: likely, Error: e}}
	}
	dark := photo.Placed{Seen: photo.Seen{Lab: shade.White.Colour(22)}}
	for want, placed := range map[string][]photo.Placed{
		"rung 4.3 ±0.3": {at(4.3, 0.3)},
		"rung 4.0 ±1.0": {at(3, 0.2), at(5, 0.2)},
		"dark":          {dark, dark},
		"":              {dark, {Seen: photo.Seen{Lab: shade.White.Colour(1)}}},
	} {
		if got := photo.Together(placed, shade.White, false); got != want {
			t.Errorf("%q, not %q", got, want)
		}
	}
	if got := photo.Together([]photo.Placed{dark}, shade.White, true); got != "" {
		t.Errorf("wet cloth alone is %q", got)
	}
}

// The sheet's marks, windows and code keep off one another, with paper around each window to read the light from.
func TestCardsParts(t *testing.T) {
	var all []photo.Square
	for _, w := range photo.Windows() {
		all = append(all, w.Inset(-4)) // half of the paper between two
	}
	for _, m := range photo.Marks() {
		all = append(all, m.Inset(-3))
	}
	for i, a := range all {
		for _, b := range append(all[i+1:len(all):len(all)], photo.CodeOf("a", "b").Cells()...) {
			if a.X < b.X+b.Side && b.X < a.X+a.Side && a.Y < b.Y+b.Side && b.Y < a.Y+a.Side {
				t.Errorf("%+v and %+v overlap", a, b)
			}
		}
	}
	if photo.CodeOf("", "") != (photo.Code{}) || photo.CodeOf("a", "") == photo.CodeOf("b", "") {
		t.Error("codes")
	}
}

func TestDecodeRefuses(t *testing.T) {
	var whole bytes.Buffer
	if err := jpeg.Encode(&whole, image.NewGray(image.Rect(0, 0, 40, 40)), nil); err != nil {
		t.Fatal(err)
	}
	for words, data := range map[string]string{
		"JPEG or a PNG": "GIF89a", "export the photograph as JPEG": "\x00\x00\x00\x18ftypheic\x00\x00\x00\x00", "cut off or spoilt": whole.String()[:whole.Len()-20],
		"spoilt at its beginning": "\xff\xd8\xff", "too many": huge(60_000, 60_000), "100000 × 10 pixels": huge(100_000, 10),
	} {
		if _, err := photo.Decode([]byte(data)); err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("%q: %v", words, err)
		}
	}
}

// huge is the head of a PNG of so many pixels.
func huge(w, h uint32) string {
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32([]byte("IHDR"), w), h)
	head = append(head, 8, 2, 0, 0, 0)
	out := binary.BigEndian.AppendUint32([]byte("\x89PNG\r\n\x1a\n"), 13)
	return string(binary.BigEndian.AppendUint32(append(out, head...), crc32.ChecksumIEEE(head)))
}

// Whatever a picture holds, it is read or refused with a word.
func TestStrangePictures(t *testing.T) {
	for _, r := range []image.Rectangle{{}, image.Rect(0, 0, 1, 1), image.Rect(-5, -5, 3, 300), image.Rect(0, 0, 3000, 2)} {
		for _, img := range []image.Image{image.NewGray(r), image.NewYCbCr(r, image.YCbCrSubsampleRatio420), image.NewNRGBA64(r), image.NewUniform(color.White)} {
			if _, is := img.(*image.Uniform); is { // as good as endless
				continue
			}
			if got := photo.Read(img); len(got.Seen) > 0 || len(got.Warning) == 0 {
				t.Errorf("%v: %+v", r, got)
			}
		}
	}
}

func FuzzReadPhotograph(f *testing.F) {
	card := printedCard(f)
	s := smallShot(6)
	s.W, s.H = 160, 160
	f.Add(s.JPEG(card))
	var b bytes.Buffer
	if err := png.Encode(&b, s.Take(card).SubImage(image.Rect(50, 50, 80, 70))); err != nil {
		f.Fatal(err)
	}
	f.Add(b.Bytes())
	f.Add([]byte("\xff\xd8"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if c, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil && c.Width*c.Height > 30_000 {
			return // it takes long, and nothing else
		}
		img, err := photo.Decode(data)
		if err != nil {
			return
		}
		r := photo.Read(img)
		if len(r.Seen) == 0 && len(r.Warning) == 0 && !r.Coded {
			t.Error("neither read nor refused")
		}
		for _, s := range r.Seen {
			if !(s.Lab.L >= -1 && s.Lab.L <= 200) || math.IsNaN(s.Spread) {
				t.Errorf("%+v", s)
			}
		}
		_, _ = photo.Place(r.Seen, []int{1, 2, 3})
	})
}

// A photograph of 1 megapixel, unpacked already.
func BenchmarkReadPhotograph(b *testing.B) {
	s := smallShot(7)
	s.W, s.H = 1000, 1000
	img := s.Take(printedCard(b))
	for b.Loop() {
		photo.Read(img)
	}
}
