package book

import (
	"cmp"
	"fmt"
	"math"
	"reflect"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// The gates of the reader: a block whose times or figures cannot be is set aside as one that cannot be read, and told; it
// never reaches a day. One flipped bit makes 3026 of 2026, and a day of a thousand years. In a head only what cannot be
// is left out, so that its day can still be opened.
//
// No block that a version of the program wrote falls to them: a machine whose clock begins in 1970 with each start writes
// that year.

// reach is how many years a time may be from today, and from the times beside it in the file.
const reach = 100

// The years that a time may have where nobody says what day it is.
const (
	firstYear = 1900
	lastYear  = 2199
)

// taken is an event that was read, on its way through the gates.
type taken struct {
	day.Event
	text []byte
	line int
}

// gate sets aside those of the events that cannot be. today is what day it is, the zero time where nobody says.
func (b *Frame) gate(events []taken, today time.Time) []taken {
	events = slices.DeleteFunc(events, func(e taken) bool {
		what := impossible(e.Event, today)
		if what != "" {
			b.Unread = append(b.Unread, Unread{e.line, e.Seq, what, string(e.text)})
		}
		return what != ""
	})
	events = b.neighbours(events, today)
	sorted.By(b.Unread, func(x, y Unread) int { return cmp.Compare(x.Line, y.Line) })
	return events
}

// neighbours sets aside events that are too far from those beside them. Of two the one is wrong that is further from the
// middle of all: so one wrong time at the beginning takes no right one with it.
func (b *Frame) neighbours(events []taken, today time.Time) []taken {
	if len(events) == 0 {
		return events
	}
	middle := middleOf(events, today)
	var kept []taken
	for _, e := range events {
		stays := true
		for stays && len(kept) > 0 && apart(kept[len(kept)-1].At, e.At) > reach {
			last, wrong := len(kept)-1, e
			if stays = apart(kept[last].At, middle) > apart(e.At, middle); stays {
				wrong, kept = kept[last], kept[:last]
			}
			b.Unread = append(b.Unread, Unread{wrong.line, wrong.Seq, fmt.Sprintf("its time is in the year %d, %s years from the events beside it; mend the year",
				wrong.At.Year(), wording.Thousands(years(apart(wrong.At, middle)))), string(wrong.text)})
		}
		if stays {
			kept = append(kept, e)
		}
	}
	return kept
}

// middleOf is the time in the middle of all; of two in the middle the one nearer to today.
func middleOf(events []taken, today time.Time) time.Time {
	at := wording.Each(events, func(e taken) time.Time { return e.At })
	sorted.By(at, time.Time.Compare)
	low, high := at[(len(at)-1)/2], at[len(at)/2]
	if !today.IsZero() && apart(high, today) < apart(low, today) {
		return high
	}
	return low
}

// apart is how many years lie between two times.
func apart(a, b time.Time) float64 {
	return math.Abs(float64(a.Unix()-b.Unix())) / (365.2425 * 24 * 3600)
}

func years(n float64) int { return int(math.Round(n)) }

// impossible says what of an event cannot be, a sentence without its full stop; empty where nothing is wrong.
func impossible(e day.Event, today time.Time) string {
	if what := farOff("time", e.At, today); what != "" {
		return what
	}
	if what := timesIn(reflect.ValueOf(e.Body), e.At, today); what != "" {
		return what
	}
	if key, what := day.Beyond(e.Body); what != "" {
		return fmt.Sprintf("its %s of %s; mend the figure", key, what)
	}
	return ""
}

// farOff says what is wrong with a time by today, empty where nothing is.
func farOff(name string, at, today time.Time) string {
	switch y := at.Year(); {
	case today.IsZero() && (y < firstYear || y > lastYear):
		return fmt.Sprintf("its %s is in the year %d, where no day of a vat is; mend the year", name, y)
	case !today.IsZero() && apart(at, today) > reach:
		return fmt.Sprintf("its %s is in the year %d, %s years from today; mend the year", name, y, wording.Thousands(years(apart(at, today))))
	}
	return ""
}

// CanBe tells whether an event can have a time, as today goes; the zero time where nobody knows.
func CanBe(at, today time.Time) bool { return farOff("time", at, today) == "" }

// timesIn looks at the times within a body, which are also near to its own time.
func timesIn(v reflect.Value, own, today time.Time) string {
	if v.Kind() == reflect.Pointer {
		v = v.Elem()
	}
	if v.Kind() != reflect.Struct {
		return ""
	}
	for _, f := range fieldsOf(v.Type()) {
		at, is := timeOf(v.FieldByIndex(f.index))
		if !is {
			continue
		}
		if what := farOff(f.name, at, today); what != "" {
			return what
		}
		if far := apart(at, own); far > reach {
			return fmt.Sprintf("its %s is in the year %d, %s years from its time; mend the year", f.name, at.Year(), wording.Thousands(years(far)))
		}
	}
	return ""
}

// timeOf is a field as a time, where it is one and is there.
func timeOf(v reflect.Value) (time.Time, bool) {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return time.Time{}, false
		}
		v = v.Elem()
	}
	at, is := v.Interface().(time.Time)
	return at, is
}

// gateHead leaves out of a head what cannot be: a time or a figure, with it the whole of what was reckoned where it is of
// that, and a whole piece or swatch. notes say so, sentences without their full stops. The error is of what no day can go
// without.
func gateHead(h *day.Head, today time.Time) (notes []string, err error) {
	note := func(name, what string) {
		notes = append(notes, fmt.Sprintf("the head's %s is left out: %s", name, what))
	}
	if _, what := day.Beyond(h.Setup.Fill); what != "" {
		return nil, fmt.Errorf("setup: its fill of %s; mend the figure", what)
	}
	if what := wrongIn(reflect.ValueOf(h.Opening.Held), today); what != "" {
		note("reckoning of what the liquor held", what)
		h.Opening.Held = day.Held{}
	}
	gateFields(reflect.ValueOf(&h.Setup).Elem(), "setup", today, note)
	gateFields(reflect.ValueOf(&h.Opening).Elem(), "opening", today, note)
	return notes, nil
}

// gateFields leaves out the fields of a table that cannot be.
func gateFields(v reflect.Value, table string, today time.Time, note func(name, what string)) {
	for _, f := range fieldsOf(v.Type()) {
		fv := v.FieldByIndex(f.index)
		if isTables(fv.Type()) {
			kept := reflect.MakeSlice(fv.Type(), 0, fv.Len())
			for i := range fv.Len() {
				if what := wrongIn(fv.Index(i), today); what != "" {
					note(fmt.Sprintf("%s.%s %d", table, f.name, i+1), what)
					continue
				}
				kept = reflect.Append(kept, fv.Index(i))
			}
			if kept.Len() < fv.Len() {
				fv.Set(kept)
			}
			continue
		}
		if what := wrongField(f.name, fv, today); what != "" {
			note(table+"."+f.name, what)
			fv.SetZero()
		}
	}
}

// wrongIn says what of a table cannot be, empty where nothing is.
func wrongIn(v reflect.Value, today time.Time) string {
	for _, f := range fieldsOf(v.Type()) {
		if what := wrongField(f.name, v.FieldByIndex(f.index), today); what != "" {
			return what
		}
	}
	return ""
}

// wrongField is what is wrong with one field of an event; empty: nothing.
func wrongField(name string, v reflect.Value, today time.Time) string {
	if at, is := timeOf(v); is {
		return farOff(name, at, today)
	}
	if _, what := day.BeyondAt(name, v.Interface()); what != "" {
		return fmt.Sprintf("its %s of %s; mend the figure", name, what)
	}
	return ""
}
