package photo

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"sync"
)

// A picture takes at most so many pixels, and so many on a side: four times what a phone makes, and in memory below 0.5 GB.
const (
	mostPixels = 50_000_000
	mostSide   = 30_000
)

// Decode makes a picture of a JPEG or PNG file. What is too large is refused before it is unpacked.
func Decode(data []byte) (image.Image, error) {
	config, decode := jpeg.DecodeConfig, jpeg.Decode
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xd8")):
	case bytes.HasPrefix(data, []byte("\x89PNG")):
		config, decode = png.DecodeConfig, png.Decode
	case len(data) > 12 && string(data[4:8]) == "ftyp":
		return nil, errors.New("it is HEIC or AVIF, which is not read here: set the camera to JPEG, or export the photograph as JPEG")
	default:
		return nil, errors.New("it is no photograph that can be read: give a JPEG or a PNG")
	}
	c, err := config(bytes.NewReader(data))
	switch {
	case err != nil:
		return nil, errors.New("the file is spoilt at its beginning: copy it anew from the camera")
	case c.Width > mostSide || c.Height > mostSide || c.Width*c.Height > mostPixels:
		return nil, fmt.Errorf("%d × %d pixels are too many: make it 50 megapixels or fewer", c.Width, c.Height)
	}
	img, err := decode(bytes.NewReader(data))
	if err != nil {
		return nil, errors.New("the file is cut off or spoilt: copy it anew from the camera")
	}
	return img, nil
}

// grey is brightness as the picture has it coded, 0 to 255.
type grey struct {
	w, h int
	pix  []uint8
}

// greyOf is a picture made smaller by a whole number: each pixel the mean of by × by of the picture's.
func greyOf(img image.Image, by int) grey {
	b := img.Bounds()
	g := grey{w: b.Dx() / by, h: b.Dy() / by}
	g.pix = make([]uint8, g.w*g.h)
	row := make([]uint32, g.w)
	luma := lumaRow(img)
	for y := range g.h {
		clear(row)
		for dy := range by {
			luma(b.Min.Y+y*by+dy, by, row)
		}
		for x, sum := range row {
			g.pix[y*g.w+x] = uint8(sum / uint32(by*by))
		}
	}
	return g
}

// lumaRow adds the brightness of one row of pixels into sums of by pixels each.
func lumaRow(img image.Image) func(y, by int, into []uint32) {
	b := img.Bounds()
	switch p := img.(type) {
	case *image.YCbCr:
		return func(y, by int, into []uint32) {
			line := p.Y[p.YOffset(b.Min.X, y):]
			for x := range into {
				for _, v := range line[x*by : x*by+by] {
					into[x] += uint32(v)
				}
			}
		}
	case *image.Gray:
		return func(y, by int, into []uint32) {
			line := p.Pix[p.PixOffset(b.Min.X, y):]
			for x := range into {
				for _, v := range line[x*by : x*by+by] {
					into[x] += uint32(v)
				}
			}
		}
	}
	return func(y, by int, into []uint32) {
		for x := range into {
			for i := range by {
				r, g, bl, _ := img.At(b.Min.X+x*by+i, y).RGBA()
				into[x] += (299*r + 587*g + 114*bl) / 1000 >> 8
			}
		}
	}
}

// seen is the colour of one pixel: light in red, green and blue, 0 to 1, as sRGB has it decoded (IEC 61966-2-1).
type seen [3]float64

// at is the colour of the pixel under a point, and whether a channel stands at its end; false outside the picture.
func at(img image.Image, p Point) (s seen, clipped, ok bool) {
	b := img.Bounds()
	if !(p.X >= 0 && p.Y >= 0 && p.X < float64(b.Dx()) && p.Y < float64(b.Dy())) {
		return s, false, false
	}
	x, y := b.Min.X+int(p.X), b.Min.Y+int(p.Y)
	var c [3]uint8
	if j, is := img.(*image.YCbCr); is {
		at := j.YCbCrAt(x, y)
		c[0], c[1], c[2] = color.YCbCrToRGB(at.Y, at.Cb, at.Cr)
	} else {
		r, g, bl, _ := img.At(x, y).RGBA()
		c = [3]uint8{uint8(r >> 8), uint8(g >> 8), uint8(bl >> 8)}
	}
	light := linear()
	for i, v := range c {
		s[i] = light[v]
		clipped = clipped || v >= 253
	}
	return s, clipped, true
}

// linear is the light behind a coded value.
var linear = sync.OnceValue(func() *[256]float64 {
	out := new([256]float64)
	for i := range out {
		v := float64(i) / 255
		if out[i] = v / 12.92; v > 0.04045 {
			out[i] = math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	return out
})
