package day

import (
	"cmp"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Bounds of what a figure in a book can be. Beyond them it is a slip of a hand or a fault of a disk: a reader sets what
// holds it aside, and Decide lets nothing through that a reader would set aside. They are no advice, and far wider than
// what is asked for anywhere. The fill goes up to 10,000 L, and all amounts go with it.

// limits are from least to most, in the base unit of a type.
type limits struct {
	least, most float64
	unit        string
	words       string // what can be
}

// year is one of the calendar, in nanoseconds.
const year = float64(365.25 * 24 * float64(time.Hour))

// anySpan is for spans that are the difference of two times: of a clock that begins in 1970 with each start, and of what was
// left standing. Two times of a book are at most 200 years apart.
var anySpan = limits{-200 * year, 200 * year, "", "no time here is longer than 200 years"}

// The bounds of types.
var bounds = map[reflect.Type]limits{
	reflect.TypeFor[quantity.Mass]():          {-1e9, 1e9, "g", "no vat takes 1,000 t"},                     // ten times the largest dose in the largest fill: 200 t
	reflect.TypeFor[quantity.Volume]():        {0, 1e6, "L", "no vat holds 1,000 m³"},                       // 10,000 L
	reflect.TypeFor[quantity.Length]():        {0, 100, "m", "no vessel is 100 m deep"},                     // 5 m
	reflect.TypeFor[quantity.Temperature]():   {-100, 300, "°C", "no liquor is below -100 or above 300 °C"}, // -50 to 150 °C
	reflect.TypeFor[quantity.Power]():         {0, 1e8, "W", "no heater has 100 MW"},                        // 100 kW
	reflect.TypeFor[quantity.Molarity]():      {0, 1e6, "mmol/L", "nothing dissolves to 1,000,000 mmol/L"},  // water itself has 55,000
	reflect.TypeFor[quantity.Concentration](): {0, 1e6, "g/L", "nothing dissolves to 1,000,000 g/L"},        // 2,000 g/L by a recipe's ratios
	reflect.TypeFor[quantity.Share]():         {0, 1, "of the whole", "a share goes from 0 to 1"},           // as it is typed
	reflect.TypeFor[quantity.Money]():         {0, 1e16, "", "nothing on the shelf costs that much"},        // ten thousand times a tin in the smallest currency
	reflect.TypeFor[quantity.Span]():          anySpan,
	reflect.TypeFor[float64]():                {-1000, 1000, "", "it goes from -1000 to 1000"}, // figures of a colour: 160
	reflect.TypeFor[int]():                    {0, 1e6, "", "it goes from 0 to 1,000,000"},     // days of a vat
}

// shortSpan is for what the dyer gives a piece or a treatment: a month at most.
var shortSpan = limits{0, year, "", "nothing here takes longer than a year"}

// countOf is for the dips and rinses of a piece over all its days: some tens.
var countOf = limits{0, 1e4, "", "no piece has more than 10,000"}

// The bounds of single keys, by their type, narrower than their type's; with the kind before it for those of one kind alone.
var boundsOf = map[string]limits{
	"float64 ph":          {-2, 16, "", "a pH goes from 0 to 14"}, // 0 to 14.5, and reckoned ones
	"int step":            {0, 1e5, "", "no recipe has more than 100,000 steps"},
	"int of":              {0, 9e8, "", "no act has that number"}, // as the numbers of events; 0 where a mended day has lost it
	"int rung":            {0, 1000, "", "no ladder has 1,000 rungs"},
	"int hands":           {0, 1000, "", "nobody has 1,000 pairs of hands"},
	"int dip":             countOf,
	"int dips":            countOf,
	"int had":             countOf,
	"int rinses":          countOf,
	"Span dip":            shortSpan,
	"Span air":            shortSpan,
	"Span count_in":       shortSpan,
	"Span wait":           shortSpan,
	"dip begun Span for":  shortSpan,
	"bath begun Span for": shortSpan,
}

// Beyond finds the first figure of a body or any other part of a book that cannot be: its key, and a sentence without its
// full stop that says what it is and what can be. Both are empty where there is none. Times are not looked at.
func Beyond(v any) (key, what string) { return BeyondAt("", v) }

// BeyondAt is Beyond for what stands under a key.
func BeyondAt(key string, v any) (at, what string) {
	kind := ""
	if b, ok := v.(interface{ Kind() string }); ok {
		kind = b.Kind() + " "
	}
	return beyond(reflect.ValueOf(v), kind, key)
}

func beyond(v reflect.Value, kind, key string) (string, string) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			return beyond(v.Elem(), kind, key)
		}
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[time.Time]() {
			return "", ""
		}
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if !f.IsExported() {
				continue
			}
			name, _, _ := strings.Cut(f.Tag.Get("toml"), ",")
			name = cmp.Or(name, key)
			if key, what := beyond(v.Field(i), kind, name); what != "" {
				return key, what
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if key, what := beyond(v.Index(i), kind, key); what != "" {
				return key, what
			}
		}
	case reflect.Float64, reflect.Int64, reflect.Int:
		if what := beyondBound(v, kind, key); what != "" {
			return key, what
		}
	}
	return "", ""
}

func beyondBound(v reflect.Value, kind, key string) string {
	b, known := boundsOf[kind+v.Type().Name()+" "+key]
	if !known {
		b, known = boundsOf[v.Type().Name()+" "+key]
	}
	if !known {
		if b, known = bounds[v.Type()]; !known {
			return ""
		}
	}
	f := 0.0
	if v.CanInt() {
		f = float64(v.Int())
	} else {
		f = v.Float()
	}
	if f >= b.least && f <= b.most { // false also of what is no number
		return ""
	}
	is := strings.TrimSpace(fmt.Sprintf("%.6g %s", f, b.unit))
	switch x := v.Interface().(type) {
	case int:
		is = strconv.Itoa(x)
	case quantity.Money:
		is = x.String()
	case quantity.Span:
		if is = x.String(); math.Abs(f) > 2*year {
			is = wording.Thousands(int(math.Round(f/year))) + " years"
		}
	}
	return is + " cannot be: " + b.words
}

// farthest is how far ahead a time of day is meant at which somebody comes or leaves: one that is farther has gone by. M
const farthest = 16 * time.Hour
