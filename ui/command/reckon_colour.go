package command

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/shelf"
)

func (p *program) reckonColour() *cobra.Command {
	var ks shade.KS
	var file string
	var lab labSeen
	var g shade.Ground
	return p.reckoning("colour --ks N|--spectrum FILE|--lab COLOUR", "The colour of a depth of blue, and the depth of a colour or a measured spectrum",
		func(r *reader) {
			r.rules = func() []rule {
				given := r.typed("ks", "spectrum", "lab")
				return []rule{
					{len(given) == 0, "reckon colour needs --ks, --spectrum or --lab"},
					{len(given) > 1, "give one of --ks, --spectrum and --lab, not " + strings.Join(given, " and ")},
				}
			}
			value(r, &g, "ground", "white", "the undyed `cloth`: "+wording.List(groundNames()), anywhere(shade.ParseGround))
			value(r, &ks, "ks", "", "`K/S` of the dye at 660 nm, the undyed cloth's own taken off", ksRead)
			r.StringVar(&file, "spectrum", "", "`file` with the header wavelength_nm,reflectance, then a line a sample: 380 to 780 nm, 0 to 1")
			value(r, &lab, "lab", "", "", labRead)
		},
		func(r *reader) error {
			switch {
			case r.Changed("ks"):
				return p.tellColour(g.Colour(ks), ks, g.KS660(ks), 0, g)
			case r.Changed("lab"):
				lab := inDaylight(lab, g)
				ks, off := g.Depth(lab)
				return p.tellColour(lab, ks, g.KS660(ks), off, g)
			}
			return p.colourOfSpectrum(file, g)
		})
}

type labSeen struct {
	lab colour.Lab
	at  colour.Observer
}

func labRead(s string, _ quantity.System) (labSeen, error) {
	lab, at, err := colour.ParseLab(s)
	return labSeen{lab, at}, plainly(err)
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
	s := spectrumIn(file)
	at := s.At(red)
	if at <= 0 {
		return fmt.Errorf("%s: at %d nm it reflects nothing, of which no K/S can be made; the least that cloth reflects is about 0.005", file, red)
	}
	lab := s.XYZ(colour.D65At2).Lab(colour.D65At2)
	ks, off := g.Depth(lab)
	return p.tellColour(lab, ks, shade.KS((1-at)*(1-at)/(2*at)), off, g)
}

// spectrumIn reads a spectrum from a file; a fault names the file and, where one is at fault, the line.
func spectrumIn(file string) colour.Spectrum {
	s, err := colour.ParseSpectrum(string(got(shelf.ReadArgument(file))))
	if fault := (*colour.Error)(nil); errors.As(err, &fault) && fault.Line > 0 {
		stop("%s:%d: %s", file, fault.Line, fault.Reason)
	}
	must(about(file, err))
	return s
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
		func(r *reader) {
			r.rules = func() []rule {
				often := wording.Either(len(labs) == 1, "once", fmt.Sprintf("%d times", len(labs)))
				return []rule{
					{len(labs) == 0, "reckon difference needs --lab, twice"},
					{len(labs) != 2, "reckon difference compares two colours: give --lab twice; it was given " + often},
				}
			}
			r.StringArrayVar(&labs, "lab", nil, "a `colour`, such as 31,-3,-20 (D65/2) or 'lab@D65/10 31 -3 -20'; twice")
		},
		func(r *reader) error {
			var a, b labSeen
			read(r, &a, "--lab", labs[0], labRead)
			read(r, &b, "--lab", labs[1], labRead)
			must(cmp.Or(r.err, alike(a, b)))
			de := colour.Difference(a.lab, b.lab)
			return p.giveLine(object{{"de00", tidy6(de)}, {"words", colour.Seen(de)}}, "%.1f by CIEDE2000: %s.", de, colour.Seen(de))
		})
}

// alike refuses two colours that were not measured under one light and observer.
func alike(a, b labSeen) error {
	if a.at != b.at {
		return fmt.Errorf("one colour is of %s and the other of %s, and they cannot be compared: measure both under one light and observer", a.at, b.at)
	}
	return nil
}

// reckonRub is the grade of a rubbing test by a colour meter.
func (p *program) reckonRub() *cobra.Command {
	var a, b labSeen
	return p.reckoning("rub --white COLOUR --rubbed COLOUR", "The grade of a rubbing test by a colour meter, on the grey scale for staining",
		func(r *reader) {
			r.needs = []string{"white", "rubbed"}
			value(r, &a, "white", "", "the clean white cotton's `colour`, such as 94,0,2", labRead)
			value(r, &b, "rubbed", "", "the `colour` of the cotton after rubbing", labRead)
		},
		func(*reader) error {
			must(alike(a, b))
			de := colour.Distance(a.lab, b.lab)
			grade := got(practice.StainGrade(de))
			var tell telling
			tell.line("Grade %g of 5, from a difference of %.1f by CIELAB.", grade, de)
			tell.note("How", practice.Rubbing)
			tell.note("Note", "the scale's differences are from memory: where it counts, look at the card of ISO 105-A03 itself")
			return p.give(object{{"de76", tidy6(de)}, {"grade", grade}, {"how", practice.Rubbing}}, tell)
		})
}
