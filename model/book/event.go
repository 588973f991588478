package book

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strconv"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/tree"
	"example.org/vatside/model/wording"
)

// kinds are the bodies of a day that this version knows, by the name they have in the book.
var kinds = named(day.Kinds())

// named are bodies by their kind.
func named[B day.Body](all []B) map[string]reflect.Type {
	m := map[string]reflect.Type{}
	for _, b := range all {
		m[b.Kind()] = reflect.TypeOf(b)
	}
	return m
}

// bootForm is a boot id as it stands in the book.
var bootForm = wording.Pattern(`^[0-9a-f]{8}$`)

// common are the keys that every event has; the rest are its kind's own.
var common = []string{"seq", "at", "kind", "boot", "up"}

// EncodeEvent is the block of an event, from its [[event]] line to the line feed after its end line. The time is
// written to whole seconds. Bytes of a text that are no UTF-8 are written as the replacement character.
func EncodeEvent(e day.Event) ([]byte, error) { return encode(e, kinds) }

// encode is the block of an event of one of the kinds.
func encode(e day.Event, kinds map[string]reflect.Type) ([]byte, error) {
	if e.Body == nil || e.Seq < 1 || e.Seq > seqMost {
		return nil, fmt.Errorf("event %d has no number that can be, or no kind", e.Seq)
	}
	if u, ok := e.Body.(day.Unknown); ok {
		return again(e, u, kinds)
	}
	if _, ok := kinds[e.Body.Kind()]; !ok {
		return nil, fmt.Errorf("event %d: the kind %q has no form in the book", e.Seq, e.Body.Kind())
	}
	var w bytes.Buffer
	if e.Boot != "" && (!bootForm().MatchString(e.Boot) || math.IsNaN(e.Up) || math.IsInf(e.Up, 0)) {
		return nil, fmt.Errorf("event %d: boot %q, up %g is no boot clock", e.Seq, e.Boot, e.Up)
	}
	e.At = e.At.Truncate(time.Second)
	writeCommon(&w, e, e.Body.Kind())
	if err := writeFields(&w, "event", reflect.ValueOf(e.Body), signed(e.Body.Kind())); err != nil {
		return nil, fmt.Errorf("event %d (%s): %w", e.Seq, e.Body.Kind(), err)
	}
	return closed(w.Bytes(), e.Seq), nil
}

// writeCommon writes the first line of a block and the keys that every event has.
func writeCommon(w *bytes.Buffer, e day.Event, kind string) {
	fmt.Fprintf(w, "%s\nseq = %d\nat = %s\nkind = %s\n", eventLine, e.Seq, stamp(e.At), quote(kind))
	if e.Boot != "" {
		fmt.Fprintf(w, "boot = %s\nup = %s\n", quote(e.Boot), upText(e.Up))
	}
}

// upText is the boot clock to the millisecond.
func upText(up float64) string { return strconv.FormatFloat(up, 'f', 3, 64) }

// again writes an event of a later version as it was read.
func again(e day.Event, u day.Unknown, kinds map[string]reflect.Type) ([]byte, error) {
	text := []byte(u.Text)
	if got, _, err := readEvent(text, kinds); err != nil || got.Seq != e.Seq {
		return nil, fmt.Errorf("event %d (%s): its text is not that of the event", e.Seq, u.Name)
	}
	return closed(bytes.Clone(text), e.Seq), nil
}

// signed are the kinds whose amounts can lie below zero: what was taken off the scale again, and a clock set back.
func signed(kind string) bool {
	return kind == day.PowderWeighed{}.Kind() || kind == day.ClockStepped{}.Kind()
}

// readEvent decodes one block. slips are what is odd about it: keys that nobody knows, keys that are left out.
// They are no fault, for a later version may have written them, but a mended block is told with them.
func readEvent(text []byte, kinds map[string]reflect.Type) (e day.Event, slips []string, err error) {
	fields := text
	if trimmed := bytes.TrimLeft(fields, " \t"); len(trimmed) > 0 && trimmed[0] == '[' { // also when a hand has spoilt the word
		fields = fields[lineEnd(fields, 0):]
	}
	values, err := decode(fields)
	if err != nil {
		return e, nil, err
	}
	seq, ok := values["seq"].(int64)
	if !ok || seq < 1 {
		return e, nil, errors.New("it has no seq, a number from 1")
	}
	if seq > seqMost {
		return e, nil, fmt.Errorf("its seq %d cannot be: no day has so many events; mend the number", seq)
	}
	e.Seq = int(seq)
	if err := readInto(&e.At, values["at"]); err != nil {
		return e, nil, fmt.Errorf("at: %w", err)
	}
	name, _ := values["kind"].(string)
	if name == "" {
		return e, nil, errors.New("it has no kind")
	}
	if e.Boot, _ = values["boot"].(string); e.Boot != "" {
		if up, ok := tree.Number(values["up"]); ok && math.Abs(up) <= upMost {
			e.Up = up
		} else {
			e.Boot = "" // without its clock a boot says nothing
		}
	}
	kind, known := kinds[name]
	if !known {
		e.Body = day.Unknown{Name: wording.Fit(name), Text: string(text)}
		return e, nil, nil
	}
	body := reflect.New(kind).Elem()
	if slips, err = readFields(values, body, signed(name), common); err != nil {
		return e, nil, err
	}
	e.Body = body.Interface().(day.Body)
	return e, slips, nil
}

// Fields is an event as stable keys and plain values, as `book --json` shows it: the keys of its block, and vat and day.
// Quantities are texts with their units, times are RFC 3339.
func Fields(vat, dayName string, e day.Event) map[string]any {
	tree := map[string]any{}
	if block, err := EncodeEvent(e); err == nil {
		if t, err := decode(block[lineEnd(block, 0):]); err == nil {
			tree = t
		}
	}
	plain(tree)
	tree["vat"], tree["day"] = vat, dayName
	tree["seq"], tree["at"] = e.Seq, stamp(e.At.Truncate(time.Second))
	if e.Body != nil {
		tree["kind"] = e.Body.Kind()
	}
	return tree
}

// plain replaces what JSON cannot hold, or would write in another way, and what cannot be shown.
func plain(tree map[string]any) {
	for _, key := range slices.Sorted(maps.Keys(tree)) {
		v := tree[key]
		if fit := wording.Fit(key); fit != key {
			delete(tree, key)
			key = fit
			tree[key] = v
		}
		switch v := v.(type) {
		case string:
			tree[key] = wording.Fit(v)
		case time.Time:
			tree[key] = stamp(v)
		case float64:
			if math.IsNaN(v) || math.IsInf(v, 0) {
				tree[key] = fmt.Sprint(v)
			}
		case map[string]any:
			plain(v)
		case []map[string]any:
			for _, t := range v {
				plain(t)
			}
		case []any:
			list := map[string]any{}
			for i, x := range v {
				list[strconv.Itoa(i)] = x
			}
			plain(list)
			for i := range v {
				v[i] = list[strconv.Itoa(i)]
			}
		}
	}
}
