package command

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/shelf"
)

func (p *program) reckonColour() *cobra.Command {
	var ks, file, lab, on string
	return p.reckoning("colour --ks N|--spectrum FILE|--lab COLOUR", "The colour of a depth of blue, and the depth of a colour or a measured spectrum",
		"colour --ks 9\ncolour --spectrum strip.csv\ncolour --lab 'lab@D65/10 31 -3 -20' --ground greige", nil,
		func(r *reader) error {
			var given []string
			for _, f := range []string{"--ks", "--spectrum", "--lab"} {
				if r.given(f) {
					given = append(given, f)
				}
			}
			switch len(given) {
			case 0:
				return usageError{errors.New("reckon colour needs --ks, --spectrum or --lab")}
			case 1:
			default:
				return usageError{fmt.Errorf("give one of --ks, --spectrum and --lab, not %s", strings.Join(given, " and "))}
			}
			g, err := ground(r, on, shade.White)
			if err != nil {
				return err
			}
			switch given[0] {
			case "--ks":
				return p.colourOfDepth(r, ks, g)
			case "--lab":
				return p.colourOfLab(r, lab, g)
			}
			return p.colourOfSpectrum(file, g)
		},
		func(c *cobra.Command) {
			f := c.Flags()
			f.StringVar(&ks, "ks", "", "`K/S` of the dye at 660 nm, the undyed cloth's own taken off")
			f.StringVar(&file, "spectrum", "", "`file` with the header wavelength_nm,reflectance, then a line a sample: 380 to 780 nm, 0 to 1")
			texts(c, texted{"lab": &lab})
			f.StringVar(&on, "ground", "white", "the undyed `cloth`: "+wording.List(groundNames()))
		})
}

func (p *program) colourOfDepth(r *reader, text string, g shade.Ground) error {
	var ks shade.KS
	read(r, &ks, "--ks", text, ksRead)
	if r.err != nil {
		return r.err
	}
	return p.tellColour(g.Colour(ks), ks, g.KS660(ks), 0, g)
}

type labSeen struct {
	lab colour.Lab
	at  colour.Observer
}

func labRead(s string, _ quantity.System) (labSeen, error) {
	lab, at, err := colour.ParseLab(s)
	if err != nil {
		return labSeen{}, plainly(err)
	}
	return labSeen{lab, at}, nil
}

func (p *program) colourOfLab(r *reader, text string, g shade.Ground) error {
	var seen labSeen
	read(r, &seen, "--lab", text, labRead)
	if r.err != nil {
		return r.err
	}
	lab := inDaylight(seen, g)
	ks, off := g.Depth(lab)
	return p.tellColour(lab, ks, g.KS660(ks), off, g)
}

// inDaylight is a colour as it is at D65 for the 2° observer.
func inDaylight(s labSeen, g shade.Ground) colour.Lab {
	if s.at == colour.D65At2 {
		return s.lab
	}
	return shade.FromMeter(s.lab, s.at, g)
}

// The wavelength of ks_660.
const red = 660 // nm

func (p *program) colourOfSpectrum(file string, g shade.Ground) error {
	s, err := spectrumIn(file)
	if err != nil {
		return err
	}
	at := s.At(red)
	if at <= 0 {
		return fmt.Errorf("%s: at %d nm it reflects nothing, of which no K/S can be made; the least that cloth reflects is about 0.005", file, red)
	}
	lab := s.XYZ(colour.D65At2).Lab(colour.D65At2)
	ks, off := g.Depth(lab)
	return p.tellColour(lab, ks, shade.KS((1-at)*(1-at)/(2*at)), off, g)
}

// spectrumIn reads a spectrum from a file; a fault names the file and, where one is at fault, the line.
func spectrumIn(file string) (colour.Spectrum, error) {
	text, err := shelf.ReadArgument(file)
	if err != nil {
		return colour.Spectrum{}, err
	}
	s, err := colour.ParseSpectrum(string(text))
	switch fault := (*colour.Error)(nil); {
	case errors.As(err, &fault) && fault.Line > 0:
		return s, fmt.Errorf("%s:%d: %s", file, fault.Line, fault.Reason)
	case err != nil:
		return s, fmt.Errorf("%s: %w", file, err)
	}
	return s, nil
}

func (p *program) tellColour(lab colour.Lab, ks, ks660 shade.KS, off float64, g shade.Ground) error {
	srgb, depth, depth660, off := lab.RGB().Hex(), tidy(float64(ks)), tidy(float64(ks660)), tidy(off)
	var rows table
	rows.add(depthFigure(depth), fmt.Sprintf("K/S of the dye on %s cloth: %s", g, shade.Name(ks)))
	rows.add(depthFigure(depth660), "K/S at 660 nm as an instrument reads it, cloth and surface in it")
	rows.add(strings.TrimPrefix(lab.String(), "lab "), "L*, a*, b* of the dry cloth, D65 and 2°")
	rows.add(srgb, "on a screen")
	if off >= 0.05 {
		rows.add(fmt.Sprintf("%.1f", off), fmt.Sprintf("off what indigo gives on such cloth, by CIEDE2000: %s", colour.Seen(off)))
	}
	var tell telling
	tell.table(rows)
	if !lab.RGB().Inside() {
		tell.note("Note", "no screen of that kind shows this colour: the nearest is given")
	}
	if g != shade.White {
		tell.note("Note", "the "+g.String()+" cloth is "+g.Evidence())
	}
	return p.give(object{{"lab", figures(lab)}, {"srgb", srgb}, {"ks", depth}, {"ks_660", depth660}, {"off_de00", off}}, tell)
}

func (p *program) reckonDifference() *cobra.Command {
	var labs []string
	return p.reckoning("difference --lab COLOUR --lab COLOUR", "How far apart two colours look, by CIEDE2000",
		"difference --lab 31,-3,-20 --lab 33,-3,-21", nil,
		func(r *reader) error {
			switch n := len(labs); {
			case n == 0:
				return usageError{errors.New("reckon difference needs --lab, twice")}
			case n != 2:
				return usageError{fmt.Errorf("reckon difference compares two colours: give --lab twice; it was given %s", oftenAs(n))}
			}
			var two [2]labSeen
			for i, text := range labs {
				read(r, &two[i], "--lab", text, labRead)
			}
			if r.err != nil {
				return r.err
			}
			a, b := two[0], two[1]
			if err := alike(a, b); err != nil {
				return err
			}
			de := colour.Difference(a.lab, b.lab)
			return p.giveLine(object{{"de00", tidy6(de)}, {"words", colour.Seen(de)}}, "%.1f by CIEDE2000: %s.", de, colour.Seen(de))
		},
		func(c *cobra.Command) {
			c.Flags().StringArrayVar(&labs, "lab", nil, "a `colour`, such as 31,-3,-20 (D65/2) or 'lab@D65/10 31 -3 -20'; twice")
		})
}

// alike refuses two colours that were not measured under one light and observer.
func alike(a, b labSeen) error {
	if a.at != b.at {
		return fmt.Errorf("one colour is of %s and the other of %s, and they cannot be compared: measure both under one light and observer", a.at, b.at)
	}
	return nil
}

func oftenAs(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}
