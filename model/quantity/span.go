package quantity

import (
	"math"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/wording"
)

// colon refuses "1:30", which is an hour and a half on one clock and a minute and a half on another.
func colon(s string) error {
	a, b, found := strings.Cut(tidied(s), ":")
	if !found {
		return nil
	}
	reason := wording.Typed(s) + " cannot be read with a colon; write the time with its units, such as 1 h 30 min"
	if a != "" && b != "" && digits(a, 0) == len(a) && digits(b, 0) == len(b) && len(a) < 6 && len(b) < 6 {
		reason = wording.Typed(s) + " could be " + a + " h " + b + " min or " + a + " min " + b + " s; write which"
	}
	return &ParseError{Input: s, Want: "time", Code: Ambiguous, Reason: reason}
}

// inWords writes a span of nanoseconds exactly: "45 s", "30 min", "1 h 30 min"; days from 48 hours up.
func inWords(d time.Duration) string {
	if d == 0 {
		return "0 s"
	}
	sign := ""
	u := uint64(d)
	if d < 0 {
		sign, u = "-", -u
	}
	var parts []string
	add := func(n uint64, unit string) {
		if n != 0 {
			parts = append(parts, strconv.FormatUint(n, 10)+" "+unit)
		}
	}
	const day, hour, minute, second = uint64(24 * time.Hour), uint64(time.Hour), uint64(time.Minute), uint64(time.Second)
	if u >= 2*day {
		add(u/day, "days")
		u %= day
	}
	add(u/hour, "h")
	add(u%hour/minute, "min")
	switch s, ns := u%minute/second, u%second; {
	case ns != 0:
		decimals := strings.TrimRight(strconv.FormatUint(second+ns, 10)[1:], "0")
		parts = append(parts, strconv.FormatUint(s, 10)+"."+decimals+" s")
	default:
		add(s, "s")
	}
	return sign + strings.Join(parts, " ")
}

// rounded is the span as a dyer says it: to the second below an hour, to the minute below two days, to the hour above.
func (s Span) rounded() time.Duration {
	d := time.Duration(s)
	r := d.Round(time.Second)
	if r.Abs() >= time.Hour {
		r = d.Round(time.Minute)
	}
	if r.Abs() >= 48*time.Hour {
		r = d.Round(time.Hour)
	}
	return r
}

// Format is the span to the second below an hour, to the minute below two days, to the hour above.
// It is the same in every system of units.
func (s Span) Format(System) string { return inWords(s.rounded()) }

// Clock is the span as a countdown shows it, whole seconds: "4:10" below an hour, "3:02:00" from there up.
func (s Span) Clock() string {
	d := time.Duration(s).Round(time.Second)
	sign := ""
	if d < 0 {
		sign, d = "-", d.Abs()
	}
	two := func(n int64) string {
		t := strconv.FormatInt(n%60, 10)
		if len(t) == 1 {
			return "0" + t
		}
		return t
	}
	total := int64(d / time.Second)
	if total < 3600 {
		return sign + strconv.FormatInt(total/60, 10) + ":" + two(total)
	}
	return sign + strconv.FormatInt(total/3600, 10) + ":" + two(total/60) + ":" + two(total)
}

// Figure is the countdown and the unit of its first part.
func (s Span) Figure(System) (number, unit string) {
	if time.Duration(s).Round(time.Second).Abs() < time.Hour {
		return s.Clock(), "min"
	}
	return s.Clock(), "h"
}

// MarshalText writes the span exactly, such as "1 h 30 min". A span below zero has no text form.
func (s Span) MarshalText() ([]byte, error) {
	if s < 0 {
		return nil, &ParseError{Want: "time", Code: OutOfRange, Reason: inWords(time.Duration(s)) + " is negative; a time is never below zero"}
	}
	return []byte(inWords(time.Duration(s))), nil
}

// UnmarshalText reads what ParseSpan reads in Metric.
func (s *Span) UnmarshalText(b []byte) error {
	return wording.Read(s, b, metric(ParseSpan))
}

// ParseSpan reads a stretch of time, such as "30 min", "1h30", "1 h 30 min", "45 s" or "2 days".
// It is rounded to the nanosecond; more than 292 years is refused.
func ParseSpan(s string, sys System) (Span, error) {
	if err := colon(s); err != nil {
		return 0, err
	}
	v, err := parse(s, sys, span)
	if err != nil {
		return 0, err
	}
	if v*float64(time.Second) >= math.MaxInt64 {
		return 0, &ParseError{Input: s, Want: "time", Code: OutOfRange, Reason: wording.Typed(s) + " is longer than any vat has been kept"}
	}
	return Seconds(v), nil
}
