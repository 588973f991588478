package command

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
	answers "example.org/vatside/ui/answer"
	"example.org/vatside/ui/shelf"
)

// reader is the command line of one command: its flags, which are declared before it is parsed, and what was typed. A flag whose
// figure may hang on --units is read once all are known, in the order in which they were declared; the first fault is kept.
type reader struct {
	*pflag.FlagSet
	args   []string
	sys    quantity.System
	err    error
	units  *string       // of --units; nil: the command has none
	needs  []string      // the flags without which it is wrong usage
	rules  func() []rule // what else is wrong usage; nil: nothing
	values []func()      // reads one flag each

	refused func(error) error // what is done where a value is refused; nil: it is the error of the command
}

// command is a command with --json, with what is said of it in a line, and without arguments where args does not say otherwise. flags
// declares its flags; run is called once they are read and stand for something that can be.
func (p *program) command(use, short string, args cobra.PositionalArgs, flags func(*reader), run func(*reader) error) *cobra.Command {
	c := p.withoutJSON(use, short, args, flags, run)
	p.jsonFlag(c)
	return c
}

func (p *program) withoutJSON(use, short string, args cobra.PositionalArgs, flags func(*reader), run func(*reader) error) *cobra.Command {
	if args == nil {
		args = cobra.NoArgs
	}
	c := &cobra.Command{Use: use, Short: short, Args: usage(args)}
	r := &reader{FlagSet: c.Flags()}
	if flags != nil {
		flags(r)
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		r.args = args
		if missing := slices.DeleteFunc(slices.Clone(r.needs), r.Changed); len(missing) > 0 {
			return usageError{fmt.Errorf("%s needs --%s", strings.TrimPrefix(c.CommandPath(), "vatside "), strings.Join(missing, ", --"))}
		}
		if r.rules != nil {
			for _, is := range r.rules() {
				if is.broken {
					return usageError{errors.New(is.words)}
				}
			}
		}
		if r.units != nil {
			r.sys, r.err = p.units(*r.units)
		}
		for _, read := range r.values {
			read()
		}
		switch {
		case r.err != nil && r.refused != nil:
			return r.refused(r.err)
		case r.err != nil:
			return r.err
		}
		return through(func() error { return run(r) })
	}
	return c
}

// inHome is what a command does in the dyer's home.
func (p *program) inHome(run func(shelf.Home, *reader) error) func(*reader) error {
	return func(r *reader) error { return run(got(p.shelf()), r) }
}

// reckoning is a command of reckon.
func (p *program) reckoning(use, short string, flags func(*reader), run func(*reader) error) *cobra.Command {
	return p.command(use, short, nil, func(r *reader) { flags(r); r.withUnits() },
		func(r *reader) error { return said(through(func() error { return run(r) }), r.sys) })
}

// rule is one of the combinations of flags that say nothing: whether it was typed, and what is said of it.
type rule struct {
	broken bool
	words  string
}

// typed are those of the flags that were on the command line, as they are written.
func (r *reader) typed(names ...string) []string {
	return wording.Some(names, func(name string) (string, bool) { return "--" + name, r.Changed(name) })
}

// shared are the flags of text that several commands have, with what is said of them.
var shared = map[string]string{
	"fill":            "`volume` of the whole liquor, such as 60L",
	"indigo-strength": "`strength` of your indigo, such as 45%",
	"lab":             "the `colour` of dry cloth, such as 31,-3,-20 (D65/2) or 'lab@D65/10 31 -3 -20'",
	"recipe":          "`id` of a recipe, or a recipe file",
	"temp":            "`°C` of the liquor",
	"units":           "`system` of units: metric, us or imperial (else as in the settings)",
	"vessel":          "a `vessel` by its inside measures, diameters: 'frustum BOTTOM TOP HEIGHT', 'cylinder DIAMETER HEIGHT', 'box LENGTH WIDTH HEIGHT', 'jug 5L=8.4cm 10L=16.1cm HEIGHT'",
}

// recipe declares --recipe, withUnits --units.
func (r *reader) recipe(into *string) { r.StringVar(into, "recipe", "", shared["recipe"]) }

func (r *reader) withUnits() { r.units = r.String("units", "", shared["units"]) }

// value declares a flag that is read by parse. A flag that is left out, without a usual text, leaves its value as it is.
func value[T any](r *reader, into *T, name, usual, says string, parse func(string, quantity.System) (T, error)) {
	text := r.String(name, usual, cmp.Or(says, shared[name]))
	r.values = append(r.values, func() { read(r, into, "--"+name, *text, parse) })
}

// optional reads a value that is told from one that was left out, which is nil.
func optional[T any](parse func(string, quantity.System) (T, error)) func(string, quantity.System) (*T, error) {
	return func(s string, sys quantity.System) (*T, error) {
		v, err := parse(s, sys)
		return &v, err
	}
}

// anywhere reads what is the same in each system of units.
func anywhere[T any](parse func(string) (T, error)) func(string, quantity.System) (T, error) {
	return func(s string, _ quantity.System) (T, error) { return parse(s) }
}

func read[T any](r *reader, into *T, flag, text string, parse func(string, quantity.System) (T, error)) {
	if r.err != nil || text == "" {
		return
	}
	v, err := parse(text, r.sys)
	if err != nil {
		r.err = fmt.Errorf("%s: %w", flag, err)
		return
	}
	*into = v
}

// The most that warm and heat reckon with: what recipes go up to, and water.Standing.
const (
	mostFill  = quantity.Volume(10000)
	mostPower = quantity.Power(100e3)

	leastPower = quantity.Power(1)
	mostGoods  = quantity.Mass(1e6)
)

// upTo reads what no dyer has more of, so that a slip of the keys is told of.
func upTo[T formatted](most T, parse func(string, quantity.System) (T, error)) func(string, quantity.System) (T, error) {
	return func(s string, sys quantity.System) (T, error) {
		v, err := parse(s, sys)
		if err == nil && v > most {
			err = fmt.Errorf("%s is more than is reckoned here; %s at most", strings.TrimSpace(s), most.Format(sys))
		}
		return v, err
	}
}

var (
	fillRead  = upTo(mostFill, quantity.ParseVolume)
	powerRead = upTo(mostPower, func(s string, sys quantity.System) (quantity.Power, error) {
		by, err := quantity.ParsePower(s, sys)
		if err == nil && by > 0 && by < leastPower {
			err = fmt.Errorf("%s is less than warms a vat; %s at least", strings.TrimSpace(s), leastPower)
		}
		return by, err
	})
)

// goodsRead reads goods by their dry weight and fibre.
func goodsRead(s string, sys quantity.System) (vessel.Goods, error) {
	g, err := vessel.ParseGoods(s, sys)
	if err == nil && g.Dry > mostGoods {
		err = fmt.Errorf("%s is more than is reckoned here; %s at most", strings.TrimSpace(s), mostGoods.Format(sys))
	}
	return g, err
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

// countRead reads a whole number of a range; of says of what, and what to write.
func countRead(least, most int, of string) func(string, quantity.System) (int, error) {
	return func(s string, _ quantity.System) (int, error) {
		n, err := strconv.Atoi(strings.TrimSpace(s))
		if err != nil || n < least || n > most {
			return 0, fmt.Errorf("%s is no number of %s", strings.TrimSpace(s), of)
		}
		return n, nil
	}
}

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

// liquorRead reads a temperature of liquor, and refuses what none has.
func liquorRead(s string, sys quantity.System) (quantity.Temperature, error) {
	t, err := quantity.ParseTemperature(s, sys)
	if err == nil && (t < water.Coldest || t > water.Hottest) {
		err = fmt.Errorf("%s is outside what liquor can be; it goes from %s to %s", t.Format(sys), water.Coldest.Format(sys), water.Hottest.Format(sys))
	}
	return t, err
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

// parseHave reads powders with a mass each, as a flag gives them.
func parseHave(flag string, args []string, sys quantity.System) (map[string]quantity.Mass, error) {
	have := map[string]quantity.Mass{}
	for _, a := range args {
		id, amount, ok := strings.Cut(a, "=")
		id = strings.TrimSpace(id)
		if !ok || id == "" {
			return nil, fmt.Errorf("%s %q: write powder=mass, such as 'indigo=38 g'", flag, a)
		}
		m, err := quantity.ParseMass(strings.TrimSpace(amount), sys)
		if err != nil {
			return nil, fmt.Errorf("%s %q: %w", flag, a, err)
		}
		if _, twice := have[id]; twice && flag == "--spoon" {
			return nil, fmt.Errorf("%s %q: %s was weighed already; say it once", flag, a, id)
		}
		have[id] += m
	}
	return have, nil
}

// oneOf reads one of some words, which are typed with a dash or a space; none is what is said of another.
func oneOf[T ~string](of []T, none string) func(string, quantity.System) (T, error) {
	plain := func(s string) string {
		return strings.ToLower(strings.Join(strings.Fields(strings.ReplaceAll(s, "-", " ")), " "))
	}
	return func(s string, _ quantity.System) (T, error) {
		for _, word := range of {
			if plain(s) == plain(string(word)) {
				return word, nil
			}
		}
		return "", fmt.Errorf("%s is no %s", strings.TrimSpace(s), none)
	}
}

var (
	placeRead = oneOf([]string{day.Outdoors, day.CrossDraught, day.ClosedRoom}, "place of a vat; write outdoors, cross-draught or closed-room")
	keptRead  = oneOf(day.Keepings, "way to keep a vat warm; write heater, wrapped, sun or not")
)

// bears refuses a vessel in which no vat is set.
func bears(v vessel.Vessel) error {
	if no := v.Material.Refusal(true); no != "" {
		return fmt.Errorf("--vessel: %s", strings.TrimSuffix(no, "."))
	}
	return nil
}

func ksRead(s string, sys quantity.System) (shade.KS, error) {
	if strings.TrimSpace(s) == "" {
		return 0, errors.New("the K/S is missing; write a number from 0 to 500, such as 9")
	}
	f, err := number(s, sys)
	switch {
	case err != nil:
		return 0, fmt.Errorf("%w; a K/S is needed, such as 9", err)
	case f < 0 || f > mostKS:
		return 0, fmt.Errorf("a K/S goes from 0, undyed, to %d, not %s", mostKS, strings.TrimSpace(s))
	}
	return shade.KS(f), nil
}

// mostKS is the greatest K/S that is reckoned with: deeper, only the surface of the cloth is seen.
const mostKS = 500

func groundNames() []string { return wording.Each(shade.Grounds(), shade.Ground.String) }

// nextAt is the next time that the clock on the wall shows a time of day. Where the clocks are put forward over it, it is
// that of a later day; where they are put back, it is there twice.
func nextAt(s string, now time.Time) time.Time {
	of, err := time.Parse("15:04", strings.TrimSpace(s))
	if err != nil {
		stop("%s is no time of day; write it from 0:00 to 23:59, such as 10:00", strings.TrimSpace(s))
	}
	for d := range 3 {
		on := time.Date(now.Year(), now.Month(), now.Day()+d, of.Hour(), of.Minute(), 0, 0, time.UTC)
		for _, t := range answers.Showing(on, now.Location()) {
			if t.After(now) {
				return t
			}
		}
	}
	stop("%s does not come within two days", strings.TrimSpace(s))
	return time.Time{}
}
