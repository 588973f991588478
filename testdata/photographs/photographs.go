// Package photographs takes photographs that no camera took, of a printed card over cloth, for tests and testdata/bench/photo.
//
// It shares nothing with model/photo: the card is taken from the drawing on the printed sheet (its rectangles as they stand in
// the HTML), the camera is a pinhole with a place and a turn, colours go through a sensor of its own, and cloth is three bands
// of its own. What is drawn as a hole shows cloth, as if it had been cut out.
package photographs

import (
	"bytes"
	"cmp"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
)

// Card is a printed card: rectangles in millimetres.
type Card struct {
	w, h  float64
	rects []rect
	Holes int
	Rungs int
}

type rect struct {
	class      string
	x, y, w, h float64
	no         int // of its class
}

var (
	svgForm  = regexp.MustCompile(`<svg[^>]*width="([\d.]+)mm" height="([\d.]+)mm"`)
	rectForm = regexp.MustCompile(`<rect class="(\w+)" x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)"/>`)
)

// CardOf is the card that a sheet in HTML shows.
func CardOf(page string) (Card, error) {
	size := svgForm.FindStringSubmatch(page)
	if size == nil {
		return Card{}, fmt.Errorf("the sheet has no drawing in millimetres")
	}
	f := func(s string) float64 { v, _ := strconv.ParseFloat(s, 64); return v }
	c := Card{w: f(size[1]), h: f(size[2])}
	for _, m := range rectForm.FindAllStringSubmatch(page, -1) {
		r := rect{class: m[1], x: f(m[2]), y: f(m[3]), w: f(m[4]), h: f(m[5])}
		switch r.class {
		case "hole":
			r.no, c.Holes = c.Holes, c.Holes+1
		case "place":
			r.no, c.Rungs = c.Rungs, c.Rungs+1
		}
		c.rects = append(c.rects, r)
	}
	return c, nil
}

// Cloth is what it throws back of red, green and blue light.
type Cloth [3]float64

// Indigo is cloth of so many dips: three bands by Kubelka and Munk. strength is the red band's K/S of one dip, power how dips
// add up, dull what the other bands have beside a clean indigo's.
func Indigo(dips, strength, power, dull float64) Cloth {
	ks := strength * math.Pow(dips, power)
	var out Cloth
	for i, part := range [3]float64{1, 0.42 * dull, 0.13 * dull} {
		own := [3]float64{0.006, 0.007, 0.012}[i] // of the white cloth
		k := own + ks*part
		out[i] = 0.005 + 0.995*(1+k-math.Sqrt(k*k+2*k))
	}
	return out
}

// Shot is how one photograph is taken.
type Shot struct {
	W, H     int
	Tilt     float64 // degrees from straight above
	Toward   float64 // degrees: to which side it is tilted
	Turn     float64 // degrees: how the camera is turned about its own line of sight
	Fill     float64 // part of the picture's shorter side that the card takes
	Uneven   float64 // light at the bright end of the card over light at the other
	From     float64 // degrees: whence the light comes
	Light    Cloth   // colour of the light as the camera left it
	Level    float64 // of paper in full light, 1 is the end of the scale
	Noise    float64 // of a middle grey, as a part
	Blur     float64 // pixels, standard deviation
	Quality  int     // of the JPEG
	Glare    *[3]float64
	Shadow   *float64 // x in mm, right of which lies half the light
	Paper    Cloth
	Around   Cloth       // what the card lies on
	Pieces   []Cloth     // in the holes; the last one repeats
	Ladder   []*Cloth    // on the places
	Cover    *[4]float64 // x, y, w, h of something laid on the card
	Distance float64     // from the card, in its widths; 0: 2.5
	Rough    bool        // drawn quickly, for tests
	Random   *rand.Rand
}

// Plain is a photograph in good light.
func Plain(r *rand.Rand) Shot {
	return Shot{W: 1000, H: 750, Fill: 0.85, Uneven: 1, Light: Cloth{1, 1, 1}, Level: 0.8, Noise: 0.01, Quality: 90, Paper: Cloth{0.86, 0.86, 0.86},
		Around: Cloth{0.2, 0.25, 0.35}, Pieces: []Cloth{Indigo(3, 1.5, 0.9, 1)}, Random: r}
}

// Example is a small photograph, in good light, of the card on a printed page: rungs of 1, 3 and 6 dips lie on it, over a piece of three
// dips. change, before it is taken, may spoil it.
func Example(page string, change func(*Shot)) ([]byte, error) {
	card, err := CardOf(page)
	if err != nil {
		return nil, err
	}
	s := Plain(rand.New(rand.NewPCG(1, 2)))
	s.W, s.H, s.Fill, s.Level, s.Rough = 400, 400, 0.95, 0.6, true
	for _, dips := range []float64{1, 3, 6} {
		c := Indigo(dips, 1.5, 0.9, 1)
		s.Ladder = append(s.Ladder, &c)
	}
	change(&s)
	return s.JPEG(card), nil
}

// JPEG is the photograph as a file.
func (s Shot) JPEG(c Card) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, s.Take(c), &jpeg.Options{Quality: s.Quality}); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// perMM is how finely the card is laid out before it is photographed, in points a millimetre.
func (s Shot) perMM() float64 {
	if s.Rough {
		return 3
	}
	return 6
}

// margin is unprinted paper around the card, in mm.
const margin = 14.0

// laid is the card and what is in its holes.
func (s Shot) laid(c Card) (out []Cloth, w, h int) {
	perMM := s.perMM()
	w, h = int((c.w+2*margin)*perMM), int((c.h+2*margin)*perMM)
	out = make([]Cloth, w*h)
	for i := range out {
		out[i] = s.Paper
	}
	put := func(r rect, of func() Cloth) {
		for y := int((r.y + margin) * perMM); y < int((r.y+r.h+margin)*perMM); y++ {
			for x := int((r.x + margin) * perMM); x < int((r.x+r.w+margin)*perMM); x++ {
				if x >= 0 && y >= 0 && x < w && y < h {
					out[y*w+x] = of()
				}
			}
		}
	}
	woven := func(c Cloth) func() Cloth { // threads: a little lighter, a little darker
		return func() Cloth {
			f := 1 + 0.06*s.Random.NormFloat64()
			return Cloth{c[0] * f, c[1] * f, c[2] * f}
		}
	}
	for _, r := range c.rects {
		switch r.class {
		case "ink":
			put(r, func() Cloth { return Cloth{0.05, 0.05, 0.052} })
		case "paper":
			put(r, func() Cloth { return s.Paper })
		case "hole":
			put(r, woven(s.Pieces[min(r.no, len(s.Pieces)-1)]))
		case "place":
			if r.no < len(s.Ladder) && s.Ladder[r.no] != nil {
				put(r, woven(*s.Ladder[r.no]))
			}
		}
	}
	if v := s.Cover; v != nil {
		put(rect{x: v[0], y: v[1], w: v[2], h: v[3]}, func() Cloth { return Cloth{0.3, 0.25, 0.2} })
	}
	return out, w, h
}

// toCone and fromCone go to a sensor that sees colours otherwise than a screen makes them, and light falls there: in the
// screen's colours a coloured light is no mere factor. The rows of toCone add up to 1.
var (
	toCone   = [3][3]float64{{0.72, 0.25, 0.03}, {0.10, 0.82, 0.08}, {0.02, 0.12, 0.86}}
	fromCone = inverse(toCone)
)

func inverse(m [3][3]float64) (out [3][3]float64) {
	det := 0.0
	for i := range 3 {
		det += m[0][i] * (m[1][(i+1)%3]*m[2][(i+2)%3] - m[1][(i+2)%3]*m[2][(i+1)%3])
	}
	for i := range 3 {
		for j := range 3 {
			out[j][i] = (m[(i+1)%3][(j+1)%3]*m[(i+2)%3][(j+2)%3] - m[(i+1)%3][(j+2)%3]*m[(i+2)%3][(j+1)%3]) / det
		}
	}
	return out
}

func times(m [3][3]float64, v Cloth) (out Cloth) {
	for i := range 3 {
		out[i] = m[i][0]*v[0] + m[i][1]*v[1] + m[i][2]*v[2]
	}
	return out
}

// camera is where the lens is, where it looks, and how long it is.
type camera struct {
	eye, look, right, down    [3]float64
	rs, rc, focal, midX, midY float64
}

func (s Shot) camera(c Card) camera {
	sin, cos := math.Sincos(s.Tilt * math.Pi / 180)
	ts, tc := math.Sincos(s.Toward * math.Pi / 180)
	// The camera stands above the card's middle, leaning toward one side, and looks at it.
	distance := cmp.Or(s.Distance, 2.5) * c.w
	look := [3]float64{-sin * tc, -sin * ts, cos} // from the camera to the card; z goes into the table
	eye := [3]float64{sin * tc * distance, sin * ts * distance, -distance * cos}
	right := [3]float64{cos*tc*tc + ts*ts, (cos - 1) * tc * ts, sin * tc}
	down := [3]float64{(cos - 1) * tc * ts, cos*ts*ts + tc*tc, sin * ts}
	rs, rc := math.Sincos(s.Turn * math.Pi / 180)
	k := camera{eye, look, right, down, rs, rc, 1, 0, 0}
	// The lens is such that the card just fills the picture, times Fill, and shifted so that its bounds lie in the middle.
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for corner := range 4 {
		u, v := k.at(c, c.w*float64(corner%2), c.h*float64(corner/2))
		low, high = [2]float64{min(low[0], u), min(low[1], v)}, [2]float64{max(high[0], u), max(high[1], v)}
	}
	k.focal = s.Fill * min(float64(s.W)/(high[0]-low[0]), float64(s.H)/(high[1]-low[1]))
	k.midX, k.midY = float64(s.W)/2-k.focal*(low[0]+high[0])/2, float64(s.H)/2-k.focal*(low[1]+high[1])/2
	return k
}

// at is where a place of the card, in mm, falls on the picture.
func (k camera) at(c Card, x, y float64) (px, py float64) {
	to := [3]float64{x - c.w/2 - k.eye[0], y - c.h/2 - k.eye[1], -k.eye[2]}
	dot := func(a [3]float64) float64 { return a[0]*to[0] + a[1]*to[1] + a[2]*to[2] }
	u, v := dot(k.right)/dot(k.look), dot(k.down)/dot(k.look)
	return k.midX + k.focal*(u*k.rc+v*k.rs), k.midY + k.focal*(v*k.rc-u*k.rs)
}

// ray is where a point of the picture looks to from the eye.
func (k camera) ray(px, py float64) (to [3]float64) {
	u, v := (px-k.midX)/k.focal, (py-k.midY)/k.focal
	u, v = u*k.rc-v*k.rs, u*k.rs+v*k.rc
	for i := range to {
		to[i] = k.look[i] + u*k.right[i] + v*k.down[i]
	}
	return to
}

// WindowPixels is how many pixels the shortest side of a window has.
func (s Shot) WindowPixels(c Card) float64 {
	k, least := s.camera(c), math.Inf(1)
	for _, r := range c.rects {
		if r.class == "hole" || r.class == "place" {
			x, y := k.at(c, r.x, r.y)
			x1, y1 := k.at(c, r.x+r.w, r.y)
			x2, y2 := k.at(c, r.x, r.y+r.h)
			least = min(least, math.Hypot(x1-x, y1-y), math.Hypot(x2-x, y2-y))
		}
	}
	return least
}

// Take takes the photograph.
func (s Shot) Take(c Card) *image.RGBA {
	lay, lw, lh := s.laid(c)
	cam := s.camera(c)
	fs, fc := math.Sincos(s.From * math.Pi / 180)
	pix := make([]Cloth, s.W*s.H)
	fine, perMM := 2, s.perMM()
	if s.Rough {
		fine = 1
	}
	for py := range s.H {
		for px := range s.W {
			var sum Cloth
			for k := range fine * fine {
				ray := cam.ray(float64(px)+(float64(k%fine)+0.5)/float64(fine), float64(py)+(float64(k/fine)+0.5)/float64(fine))
				what, x, y := s.Around, 0.0, 0.0
				if ray[2] > 1e-6 {
					t := -cam.eye[2] / ray[2]
					x, y = cam.eye[0]+t*ray[0]+c.w/2, cam.eye[1]+t*ray[1]+c.h/2
					if lx, ly := int((x+margin)*perMM), int((y+margin)*perMM); x > -margin && y > -margin && lx < lw && ly < lh {
						what = lay[ly*lw+lx]
					}
				}
				across := min(max(((x-c.w/2)*fc+(y-c.h/2)*fs)/c.w, -0.6), 0.6)
				light := math.Pow(s.Uneven, across-0.5) * s.Level / 0.86
				if s.Shadow != nil {
					light *= 0.5 + 0.5/(1+math.Exp((x-*s.Shadow)/0.8))
				}
				shine := 0.0
				if g := s.Glare; g != nil {
					shine = g[2] * math.Exp(-(square(x-g[0])+square(y-g[1]))/(2*12*12))
				}
				cone := times(toCone, what)
				for i := range 3 {
					sum[i] += (cone[i]*light + shine) * s.Light[i] / float64(fine*fine)
				}
			}
			pix[py*s.W+px] = sum
		}
	}
	pix = blurred(pix, s.W, s.H, s.Blur)
	out := image.NewRGBA(image.Rect(0, 0, s.W, s.H))
	for i, v := range pix {
		for ch := range 3 {
			// the lens is not black, the sensor not quiet
			v[ch] += 0.004*s.Level + s.Noise*s.Random.NormFloat64()*math.Sqrt(0.2*max(v[ch], 0)+0.0004)
		}
		v = times(fromCone, v)
		out.SetRGBA(i%s.W, i/s.W, color.RGBA{coded(v[0]), coded(v[1]), coded(v[2]), 255})
	}
	return out
}

// coded is light as a camera writes it: a shoulder for the brightest, then the curve of screens.
func coded(v float64) uint8 {
	v = max(v, 0)
	if v > 0.8 {
		v = 0.8 + 0.2*(1-math.Exp(-(v-0.8)/0.2))*1.02
	}
	if v <= 0.0031308 {
		v *= 12.92
	} else {
		v = 1.055*math.Pow(v, 1/2.4) - 0.055
	}
	return uint8(min(max(math.Round(255*v), 0), 255))
}

func square(x float64) float64 { return x * x }

// blurred is three means over a box one after the other each way, near to a bell.
func blurred(pix []Cloth, w, h int, sd float64) []Cloth {
	if sd <= 0 {
		return pix
	}
	reach := int(math.Round((math.Sqrt(4*sd*sd+1) - 1) / 2))
	out := make([]Cloth, len(pix))
	run := func(from, to []Cloth, n, lines, step, across int) {
		for l := range lines {
			var sum Cloth
			at := func(i int) Cloth { return from[l*across+min(max(i, 0), n-1)*step] }
			for i := -reach; i <= reach; i++ {
				for ch, v := range at(i) {
					sum[ch] += v
				}
			}
			for i := range n {
				for ch := range 3 {
					to[l*across+i*step][ch] = sum[ch] / float64(2*reach+1)
				}
				in, gone := at(i+reach+1), at(i-reach)
				for ch := range 3 {
					sum[ch] += in[ch] - gone[ch]
				}
			}
		}
	}
	for range 3 {
		run(pix, out, w, h, 1, w)
		run(out, pix, h, w, w, 1)
	}
	return pix
}
