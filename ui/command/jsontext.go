package command

import (
	"cmp"
	"encoding"
	"errors"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// encoding/json and the encoder of toml were 155 KB of the program: here is as much of JSON as the commands need, with the same text
// (TestJSON). Structs go by their json tags, of whose options there is omitempty.

// appendJSON writes a value as JSON, a line a key and an element; line is how its own line begins, after a line's end. < > and & stay.
func appendJSON(b []byte, v reflect.Value, line string) (_ []byte, err error) {
	for v.Kind() == reflect.Interface || v.Kind() == reflect.Pointer {
		v = v.Elem()
	}
	if !v.IsValid() || (v.Kind() == reflect.Slice || v.Kind() == reflect.Map) && v.IsNil() {
		return append(b, "null"...), nil
	}
	if x, is := v.Interface().(encoding.TextMarshaler); is {
		text, err := x.MarshalText()
		return appendText(b, string(text)), err
	}
	var all []member
	brackets := "{}"
	switch kind := v.Kind(); {
	case v.CanInt():
		return strconv.AppendInt(b, v.Int(), 10), nil
	case v.CanUint():
		return strconv.AppendUint(b, v.Uint(), 10), nil
	case v.CanFloat():
		return appendFigure(b, v.Float())
	case kind == reflect.Bool:
		return strconv.AppendBool(b, v.Bool()), nil
	case kind == reflect.String:
		return appendText(b, v.String()), nil
	case kind == reflect.Struct, kind == reflect.Map, v.Type() == reflect.TypeFor[object]():
		all = membersOf(nil, v)
	case kind == reflect.Slice, kind == reflect.Array:
		brackets = "[]"
		for i := range v.Len() {
			all = append(all, member{value: v.Index(i)})
		}
	default:
		return b, fmt.Errorf("a %s has no form in JSON", v.Type())
	}
	b = append(b, brackets[0])
	for i, m := range all {
		b = append(append(b, ","[:min(i, 1)]...), line+"  "...)
		if brackets == "{}" {
			b = append(appendText(b, m.key), ": "...)
		}
		if b, err = appendJSON(b, m.value, line+"  "); err != nil {
			return b, err
		}
	}
	if len(all) > 0 {
		b = append(b, line...)
	}
	return append(b, brackets[1]), nil
}

// member is a key with its value, of a list the value alone.
type member struct {
	key   string
	value reflect.Value
}

// membersOf are the keys of a value with what they hold, after others: of a map in the order of the alphabet.
func membersOf(all []member, v reflect.Value) []member {
	var is any
	if v.CanInterface() { // else it is laid flat
		is = v.Interface()
	}
	switch x := is.(type) {
	case object:
		return append(all, wording.Each(x, func(f field) member { return member{f.key, reflect.ValueOf(f.value)} })...)
	case sheetedBlock:
		return membersOf(append(all, member{"kind", reflect.ValueOf(x.Kind())}), reflect.ValueOf(x.body()))
	}
	if v.Kind() == reflect.Map {
		for pairs := v.MapRange(); pairs.Next(); {
			all = append(all, member{pairs.Key().String(), pairs.Value()})
		}
		sorted.By(all, func(a, b member) int { return strings.Compare(a.key, b.key) })
		return all
	}
	for i := range v.NumField() {
		f, of := v.Type().Field(i), v.Field(i)
		key, option, _ := strings.Cut(f.Tag.Get("json"), ",")
		list := of.Kind() == reflect.Slice || of.Kind() == reflect.Map
		switch {
		case f.Anonymous && key == "" && of.Kind() == reflect.Struct:
			all = membersOf(all, of)
		case f.IsExported() && key != "-" && (option == "" || of.Kind() == reflect.Struct || !of.IsZero() && (!list || of.Len() > 0)):
			all = append(all, member{cmp.Or(key, f.Name), of})
		}
	}
	return all
}

// appendFigure writes a number, the shortest figures that read back as the same.
func appendFigure(b []byte, f float64) ([]byte, error) {
	size := math.Abs(f)
	switch {
	case math.IsNaN(f) || math.IsInf(f, 0):
		return b, errors.New("what is not finite has no form in JSON")
	case size == 0 || size >= 1e-6 && size < 1e21:
		return strconv.AppendFloat(b, f, 'f', -1, 64), nil
	}
	return append(b, strings.Replace(strconv.FormatFloat(f, 'e', -1, 64), "e-0", "e-", 1)...), nil
}

// appendText writes a text between quotes.
func appendText(b []byte, s string) []byte {
	b = append(b, '"')
	for i, r := range s {
		switch at := strings.IndexRune("\"\\\b\f\n\r\t", r); {
		case r == utf8.RuneError && !strings.HasPrefix(s[i:], "\ufffd"): // bytes that are no text
			b = append(b, `\ufffd`...)
		case at >= 0:
			b = append(b, '\\', `"\bfnrt`[at])
		case r < ' ', r == '\u2028', r == '\u2029':
			b = fmt.Appendf(b, `\u%04x`, r)
		default:
			b = utf8.AppendRune(b, r)
		}
	}
	return append(b, '"')
}
