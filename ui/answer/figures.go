package answer

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Mass reads a weight; bare figures are in the scale's unit, with a minus what was taken out.
func Mass(text string, sys quantity.System) (quantity.Mass, error) {
	rest, minus := strings.CutPrefix(strings.Replace(strings.TrimSpace(text), "−", "-", 1), "-")
	m, err := quantity.ParseMass(quantity.WithUnit(rest, sys.MassUnit()), sys)
	if minus {
		m = -m
	}
	return m, err
}

// Temperature reads a temperature; bare figures are in the dyer's own degrees.
func Temperature(text string, sys quantity.System) (quantity.Temperature, error) {
	return quantity.ParseTemperature(quantity.WithUnit(text, sys.DegreeUnit()), sys)
}

// PH reads a pH, with a point or a comma.
func PH(text string) (float64, error) {
	p, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 64)
	if err != nil || math.IsNaN(p) || p < 0 || p > 14 {
		return 0, errors.New("pH is a number between 0 and 14, such as 10.5")
	}
	return p, nil
}

// PHReading reads a pH as it is noted at the vat: "10.4", with the temperature at which it was read behind it where that is
// not the vat's, "10.4 25" or "10.4 at 25 °C", and the word meter where it was one.
func PHReading(text string, sys quantity.System) (day.Reading, error) {
	text, meter := strings.CutSuffix(strings.TrimSpace(strings.ToLower(text)), "meter")
	figure, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	p, err := PH(figure)
	if err != nil {
		return day.Reading{}, err
	}
	r := day.Reading{PH: &p, With: "paper strip"}
	if meter {
		r.With = "meter"
	}
	rest = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(rest), "at"))
	if rest == "" {
		return r, nil
	}
	at, err := Temperature(strings.ToUpper(rest), sys)
	if err != nil {
		return day.Reading{}, fmt.Errorf("behind the pH stands the temperature at which it was read, such as %s 25: %w", figure, err)
	}
	r.PHTemp = &at
	return r, nil
}

// longestStrip is longer than any strip stays yellow.
const longestStrip = quantity.Span(time.Hour)

// Strip reads how long a strip stayed yellow; bare figures are seconds, 0 is not at all.
func Strip(text string, sys quantity.System) (quantity.Span, error) {
	stayed, err := quantity.ParseSpan(quantity.WithUnit(text, "s"), sys)
	if err != nil || stayed < 0 || stayed > longestStrip {
		return 0, errors.New("type for how many seconds the strip was yellow, such as 12; 0 where it showed no yellow")
	}
	return stayed, nil
}

// Level reads how full the vat is: bare figures are the distance from the rim down to the liquor, litres where the vessel was
// not measured.
func Level(s day.State, text string) (day.Reading, error) {
	sys := s.Head.Setup.System()
	measured := s.Head.Setup.Measured().Shape != nil
	unit := wording.Either(measured, sys.LengthUnit(), sys.VolumeUnit())
	text = quantity.WithUnit(text, unit)
	var r day.Reading
	l, wrong := quantity.ParseLength(text, sys)
	v, err := quantity.ParseVolume(text, sys)
	switch {
	case wrong == nil:
		r.BelowRim = &l
	case err == nil:
		r.Holds = &v
	case measured:
		return r, wrong
	default:
		return r, err
	}
	return r, nil
}

// Hour reads a time of day, "10:42", as the last such instant that is not after now.
func Hour(text string, now time.Time) (time.Time, error) {
	clean := strings.NewReplacer(".", ":", "h", ":", " ", "").Replace(strings.TrimSpace(text))
	clock, err := time.Parse("15:4", clean)
	if err != nil {
		return time.Time{}, fmt.Errorf("type the time of day, such as %s", day.Clock(now))
	}
	at := func(date time.Time) []time.Time {
		return Showing(time.Date(date.Year(), date.Month(), date.Day(), clock.Hour(), clock.Minute(), 0, 0, time.UTC), now.Location())
	}
	today := at(now)
	if len(today) == 0 {
		return time.Time{}, fmt.Errorf("no clock showed %s today: it was set on", clock.Format("15:04"))
	}
	for _, t := range slices.Backward(append(at(now.AddDate(0, 0, -1)), today...)) {
		if !t.After(now) {
			return t, nil
		}
	}
	return time.Time{}, fmt.Errorf("no clock showed %s since yesterday", clock.Format("15:04"))
}

// Showing are the instants at which the clocks of a zone show a date and a time, the earlier first: none in the hour that is left out
// in spring, two in that which comes twice in autumn. The zone of the time that is given does not count.
func Showing(date time.Time, zone *time.Location) []time.Time {
	at := time.Date(date.Year(), date.Month(), date.Day(), date.Hour(), date.Minute(), date.Second(), 0, zone)
	return wording.Some([]time.Duration{-time.Hour, -30 * time.Minute, 0, 30 * time.Minute, time.Hour}, func(by time.Duration) (time.Time, bool) {
		return at.Add(by), at.Add(by).Format(time.DateTime) == date.Format(time.DateTime)
	})
}

// when reads when something was: "2 min ago", "at 10:42", "10:42"; nothing, or "now", is the zero time.
func when(text string, sys quantity.System, now time.Time) (time.Time, error) {
	text = strings.TrimSpace(text)
	switch strings.ToLower(text) {
	case "", "now", "just now":
		return time.Time{}, nil
	}
	if ago, ok := strings.CutSuffix(strings.ToLower(text), "ago"); ok {
		d, err := quantity.ParseSpan(quantity.WithUnit(ago, "min"), sys)
		if err != nil || d < 0 {
			return time.Time{}, fmt.Errorf("%q is no time: say how long ago, such as 2 min ago", text)
		}
		return now.Add(-d.Duration()), nil
	}
	at, err := Hour(strings.TrimPrefix(strings.ToLower(text), "at "), now)
	if err != nil {
		return at, fmt.Errorf("%q is no time: say when it was, such as 2 min ago or at %s", text, day.Clock(now))
	}
	return at, nil
}

// minutes reads a stretch of time; bare figures are minutes.
func minutes(text string, sys quantity.System) (quantity.Span, error) {
	return quantity.ParseSpan(quantity.WithUnit(text, "min"), sys)
}

// volumeAt reads litres with the temperature that they had, "2 L at 12 °C"; nil where none is told.
func volumeAt(text string, sys quantity.System) (quantity.Volume, *quantity.Temperature, error) {
	amount, at, told := strings.Cut(strings.TrimSpace(text), " at ")
	v, err := quantity.ParseVolume(quantity.WithUnit(amount, sys.VolumeUnit()), sys)
	if err != nil || !told {
		return v, nil, err
	}
	t, err := Temperature(at, sys)
	return v, &t, err
}

// amounts reads powders with their weights: "reducer 20 g", and more of them behind "and". A name may be of several words.
func amounts(text, example string, sys quantity.System) ([]day.Amount, error) {
	var out []day.Amount
	for _, part := range strings.Split(text, " and ") {
		at := strings.IndexAny(part, "0123456789.,")
		if at < 1 {
			return nil, fmt.Errorf("type the powder and how much of it: %s", example)
		}
		id := strings.ToLower(strings.TrimSpace(part[:at]))
		m, err := Mass(part[at:], sys)
		if err != nil {
			return nil, err
		}
		if id == "" || strings.HasSuffix(id, "-") || strings.HasSuffix(id, "−") {
			return nil, fmt.Errorf("type the powder and how much of it: %s", example)
		}
		out = append(out, day.Amount{Powder: id, Mass: m})
	}
	return out, nil
}

// numbered reads the number of an event, 0 where none is given.
func numbered(text string) (int, error) {
	if text = strings.TrimPrefix(strings.TrimSpace(text), "#"); text == "" {
		return 0, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 {
		return 0, fmt.Errorf("%q is not the number of an act", text)
	}
	return n, nil
}

// lately is the last event that stands and is such a one.
func lately(s day.State, is func(day.Body) bool) (last day.Event, ok bool) {
	for e := range s.Corrected() {
		if is(e.Body) {
			last, ok = e, true
		}
	}
	return last, ok
}

// assumed is the last act that was taken as planned.
func assumed(s day.State) (day.Event, bool) {
	if all := s.Unsaid(); len(all) > 0 {
		return all[len(all)-1], true
	}
	return day.Event{}, false
}

// handsTold reads how many pairs of hands are at the vat, and how many people at most: "2", "2 at most 5".
func handsTold(l Line) ([]day.Command, error) {
	hands, people, limited := strings.Cut(l.Rest, "at most")
	var out day.HandsTold
	var err, many error
	out.Hands, err = strconv.Atoi(strings.TrimSpace(hands))
	if limited {
		if out.People, many = strconv.Atoi(strings.TrimSpace(people)); many == nil && out.People < 1 {
			return nil, fmt.Errorf("at most %d people at the vat: say 1 or more, or hands %d alone for no limit", out.People, max(out.Hands, 1))
		}
	}
	if err != nil || many != nil {
		return nil, fmt.Errorf("say how many pairs of hands, such as hands 2, or hands 2 at most 5: pieces of 5 people at once")
	}
	return record(out, nil)
}
