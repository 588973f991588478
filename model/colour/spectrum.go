package colour

import (
	"fmt"
	"slices"
	"sort"
)

// Sample is the reflectance at one wavelength: the share of the light thrown back, 1 for the perfect white.
type Sample struct{ Nanometres, Reflectance float64 }

// Spectrum is reflectance over wavelength: linear between its samples and held constant outside them. The zero value
// reflects nothing. It never changes once it is made.
type Spectrum struct{ samples []Sample }

// mostReflectance is the most that a sample may have: brightened cloth and noise pass 1 by a little, percent by far.
const mostReflectance = 2

// NewSpectrum makes a spectrum of at least two samples with rising wavelengths, in nm above 0, and reflectances from 0
// to 2. Other samples are refused with an *Error of one sentence. The samples are copied.
func NewSpectrum(samples []Sample) (Spectrum, error) {
	if len(samples) < 2 {
		return Spectrum{}, fault(fmt.Sprintf("a spectrum needs at least two samples, this has %d", len(samples)))
	}
	for i, s := range samples {
		if reason := wrong(s); reason != "" {
			return Spectrum{}, fault(reason)
		}
		if i > 0 && s.Nanometres <= samples[i-1].Nanometres {
			return Spectrum{}, fault(fallen(samples[i-1], s))
		}
	}
	return Spectrum{slices.Clone(samples)}, nil
}

// wrong says what is wrong with a sample by itself, "" for nothing.
func wrong(s Sample) string {
	switch {
	case !(s.Nanometres > 0 && s.Nanometres < 1e6):
		return fmt.Sprintf("%g is not a wavelength of light: write nm, such as 380 to 780", s.Nanometres)
	case !(s.Reflectance >= 0):
		return fmt.Sprintf("the reflectance at %g nm is %g: it must be from 0 to 1", s.Nanometres, s.Reflectance)
	case s.Reflectance > mostReflectance:
		return fmt.Sprintf("the reflectance at %g nm is %g, which is above %d: write it from 0 to 1, and divide percent by 100",
			s.Nanometres, s.Reflectance, mostReflectance)
	}
	return ""
}

// fallen is the refusal of a sample whose wavelength is not above that of the one before.
func fallen(before, s Sample) string {
	return fmt.Sprintf("%g nm comes after %g nm: put the wavelengths in rising order, each once", s.Nanometres, before.Nanometres)
}

// At is the reflectance at a wavelength in nm.
func (s Spectrum) At(nm float64) float64 {
	n := len(s.samples)
	if n == 0 {
		return 0
	}
	i := sort.Search(n, func(i int) bool { return s.samples[i].Nanometres > nm })
	switch i {
	case 0:
		return s.samples[0].Reflectance
	case n:
		return s.samples[n-1].Reflectance
	}
	return between(s.samples[i-1], s.samples[i], nm)
}

// between is the straight line from one sample to the next.
func between(a, b Sample, nm float64) float64 {
	return a.Reflectance + (b.Reflectance-a.Reflectance)*((nm-a.Nanometres)/(b.Nanometres-a.Nanometres))
}

// XYZ is the colour that the spectrum has under a viewing condition: a weighted sum of the reflectances every 10 nm from 380
// to 780 nm, set against the condition's own white by the same sum (ISO/CIE 11664-3). Finer samples than 10 nm in
// between are not looked at.
func (s Spectrum) XYZ(o Observer) XYZ {
	t := o.table()
	n := len(s.samples)
	if n == 0 {
		return XYZ{}
	}
	var sum XYZ
	next := 0 // the first sample beyond nm
	for i := range t.weight {
		nm := sumFrom + sumStep*float64(i)
		for next < n && s.samples[next].Nanometres <= nm {
			next++
		}
		var r float64
		switch next {
		case 0:
			r = s.samples[0].Reflectance
		case n:
			r = s.samples[n-1].Reflectance
		default:
			r = between(s.samples[next-1], s.samples[next], nm)
		}
		sum.add(t.weight[i], r)
	}
	return sum.per(t.y)
}
