package colour

import (
	"fmt"
	"strconv"
	"strings"

	"example.org/vatside/model/wording"
)

// The wavelengths that a spectrum in a file may have, and those it must reach so that the parts that are held constant
// weigh little: 400 to 700 nm is what the simplest instruments give.
const (
	shortest, longest = 300, 1100 // nm
	reachLow          = 400       // nm
	reachHigh         = 700       // nm
)

// header is the first line of a spectrum.
const header = "wavelength_nm,reflectance"

// ParseSpectrum reads a reflectance spectrum from text: the header "wavelength_nm,reflectance", then a line a sample, with
// rising wavelengths in nm and reflectance from 0 to 1 (to 2 for brightened cloth and noise), points for decimals. The
// samples must reach from 400 to 700 nm; 380 to 780 nm in steps of 10 nm or less is best. Blank lines and lines that begin
// with # are passed over; CRLF, spaces and a byte order mark are accepted.
//
// The error is an *Error with one sentence, and with the line where one is at fault. Percent is refused.
func ParseSpectrum(csv string) (Spectrum, error) {
	var samples []Sample
	var lines []int // of the samples
	headed := false
	number := 0
	for line := range strings.Lines(strings.TrimPrefix(csv, "\ufeff")) {
		number++
		line = strings.TrimSpace(line)
		switch {
		case line == "" || strings.HasPrefix(line, "#"):
		case !headed:
			if !strings.EqualFold(strings.ReplaceAll(strings.ReplaceAll(line, " ", ""), `"`, ""), header) {
				return Spectrum{}, &Error{number, fmt.Sprintf("the first line must be %s, this is %q", header, wording.Typed(line))}
			}
			headed = true
		default:
			s, reason := sample(line)
			if reason == "" && len(samples) > 0 && s.Nanometres <= samples[len(samples)-1].Nanometres {
				reason = fallen(samples[len(samples)-1], s)
			}
			if reason != "" {
				return Spectrum{}, &Error{number, reason}
			}
			samples, lines = append(samples, s), append(lines, number)
		}
	}
	if !headed {
		return Spectrum{}, fault("the text is empty: begin with the line " + header)
	}
	if err := reflects(samples, lines); err != nil {
		return Spectrum{}, err
	}
	if n := len(samples); n >= 2 && (samples[0].Nanometres > reachLow || samples[n-1].Nanometres < reachHigh) {
		return Spectrum{}, fault(fmt.Sprintf("the spectrum goes from %g to %g nm: it must reach from %d to %d nm, better from 380 to 780",
			samples[0].Nanometres, samples[n-1].Nanometres, reachLow, reachHigh))
	}
	return NewSpectrum(samples)
}

// sample reads one line, all but the bound of its reflectance.
func sample(line string) (Sample, string) {
	fields := strings.Split(line, ",")
	if len(fields) != 2 {
		return Sample{}, fmt.Sprintf("%q is not two numbers with a comma between: write 450,0.38, with a point for decimals", wording.Typed(line))
	}
	var v [2]float64
	for i, f := range fields {
		f = strings.TrimSpace(f)
		x, err := strconv.ParseFloat(f, 64)
		if err != nil || strings.Trim(f, "+-.eE0123456789") != "" {
			return Sample{}, fmt.Sprintf("%q is not a number: write 450,0.38", wording.Typed(f))
		}
		v[i] = x
	}
	s := Sample{v[0], v[1]}
	switch {
	case s.Nanometres < shortest || s.Nanometres > longest:
		return Sample{}, fmt.Sprintf("%g is not a wavelength of light in nm: write 380 to 780", s.Nanometres)
	case s.Reflectance < 0:
		return Sample{}, wrong(s)
	}
	return s, ""
}

// reflects faults the first reflectance that is too high, and tells percent where all of them are.
func reflects(samples []Sample, lines []int) error {
	above, first := 0, 0
	for i, s := range samples {
		if s.Reflectance > mostReflectance {
			if above == 0 {
				first = i
			}
			above++
		}
	}
	switch {
	case above == 0:
		return nil
	case above == len(samples):
		s := samples[0]
		return &Error{lines[0], fmt.Sprintf("all reflectances are above %d, as in percent: divide them by 100, %g becomes %g",
			mostReflectance, s.Reflectance, s.Reflectance/100)}
	}
	return &Error{lines[first], wrong(samples[first])}
}
