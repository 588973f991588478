package command

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/water"
)

// reader reads flags one after the other and keeps the first fault. A flag that was left out leaves its value as it is.
type reader struct {
	sys quantity.System
	c   *cobra.Command
	err error
}

func read[T any](r *reader, into *T, flag, text string, parse func(string, quantity.System) (T, error)) {
	if r.err != nil {
		return
	}
	if strings.TrimSpace(text) == "" {
		if r.given(flag) {
			r.err = emptyFlag(flag)
		}
		return
	}
	v, err := parse(text, r.sys)
	if err != nil {
		r.err = fmt.Errorf("%s: %w", flag, err)
		return
	}
	*into = v
}

// given tells whether a flag was on the command line.
func (r *reader) given(flag string) bool {
	return r.c.Flags().Changed(strings.TrimPrefix(flag, "--"))
}

func volume(r *reader, into *quantity.Volume, flag, text string) {
	read(r, into, flag, text, quantity.ParseVolume)
}

// The most that warm and heat reckon with: what recipes go up to, and water.Standing.
const (
	mostFill  = quantity.Volume(10000)
	mostPower = quantity.Power(100e3)
	mostGoods = quantity.Mass(1e6)
)

// upTo refuses what no dyer has, so that a slip of the keys is told of.
func upTo[T cmp.Ordered](r *reader, v, most T, flag, text, limit string) {
	if r.err == nil && v > most {
		r.err = fmt.Errorf("%s: %s is more than is reckoned here; %s at most", flag, strings.TrimSpace(text), limit)
	}
}

func fillUpTo(r *reader, into *quantity.Volume, flag, text string) {
	volume(r, into, flag, text)
	upTo(r, *into, mostFill, flag, text, mostFill.Format(r.sys))
}

func power(r *reader, into *quantity.Power, flag, text string) {
	read(r, into, flag, text, quantity.ParsePower)
	upTo(r, *into, mostPower, flag, text, mostPower.Format(r.sys))
}

func temperature(r *reader, into *quantity.Temperature, flag, text string) {
	read(r, into, flag, text, quantity.ParseTemperature)
}

// holding reads --vessel.
func holding(r *reader, into *vessel.Vessel, text string) {
	read(r, into, "--vessel", text, vessel.Parse)
}

// number reads a plain number, with a point or a comma.
func number(s string, _ quantity.System) (float64, error) {
	s = strings.TrimSpace(s)
	f, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	if err != nil || math.IsNaN(f) || math.IsInf(f, 0) || strings.ContainsAny(s, "xX_") {
		return 0, fmt.Errorf("%s is not a number", s)
	}
	return f, nil
}

// phRead reads a pH as it was read.
func phRead(s string, sys quantity.System) (quantity.PH, error) {
	f, err := number(s, sys)
	switch {
	case err != nil:
		return 0, fmt.Errorf("%w; a pH is needed, such as 9.8", err)
	case f < 0 || f > 14:
		return 0, fmt.Errorf("a vat has no pH of %s; it goes from 0 to 14", strings.TrimSpace(s))
	}
	return quantity.PH(f), nil
}

// hoursRead reads a time, and takes a plain number as hours.
func hoursRead(s string, sys quantity.System) (quantity.Span, error) {
	if f, err := number(s, sys); err == nil {
		if f < 0 {
			return 0, fmt.Errorf("%s is negative; a time is never below zero", strings.TrimSpace(s))
		}
		return quantity.Hours(f), nil
	}
	return quantity.ParseSpan(s, sys)
}

// inAVat reads --temp, and refuses what no liquor has.
func inAVat(r *reader, into *quantity.Temperature, text string) {
	temperature(r, into, "--temp", text)
	if t := *into; r.err == nil && (t < water.Coldest || t > water.Hottest) {
		r.err = fmt.Errorf("--temp: %s is outside what liquor can be; it goes from %s to %s", t.Format(r.sys), water.Coldest.Format(r.sys), water.Hottest.Format(r.sys))
	}
}

// stands is how deep a volume stands in a vessel, with the limit in the dyer's own units.
func stands(v vessel.Vessel, fill quantity.Volume, flag string, sys quantity.System) (quantity.Length, error) {
	if fill > v.Brim()*(1+1e-12) {
		return 0, fmt.Errorf("%s: %s is above the brim; this vessel holds %s", flag, fill.Format(sys), v.Brim().Format(sys))
	}
	depth, err := v.Depth(min(fill, v.Brim()))
	if err != nil {
		return 0, fmt.Errorf("%s: %w", flag, err)
	}
	return depth, nil
}

// said puts a limit into the dyer's own units.
func said(err error, sys quantity.System) error {
	var limit *water.LimitError
	if errors.As(err, &limit) {
		return errors.New(strings.TrimSpace(limit.In(sys)))
	}
	return err
}
