package book

import (
	"bytes"
	"encoding"
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
	"unicode/utf8"

	"github.com/BurntSushi/toml"

	"example.org/vatside/model/tree"
	"example.org/vatside/model/wording"
)

// The form of a struct in the book: a line a field, named by its toml tag, in the order of the struct; embedded structs
// laid flat; lists of structs as tables after the lines. The toml package reads it; writing is done here, because the
// book needs every text on one line, exact times, and amounts below zero where a kind has them.

// field is one field of a struct, with embedded structs laid flat.
type field struct {
	name     string
	index    []int
	optional bool // left out when it is zero
}

func fieldsOf(t reflect.Type) []field {
	if fs, known := formOf.Load(t); known {
		return fs.([]field)
	}
	fs := listFields(t)
	formOf.Store(t, fs)
	return fs
}

// formOf are the fields of the types that were asked for.
var formOf sync.Map

func listFields(t reflect.Type) []field {
	var fs []field
	for i := range t.NumField() {
		f := t.Field(i)
		name, opts, _ := strings.Cut(f.Tag.Get("toml"), ",")
		switch {
		case f.Anonymous && name == "" && f.Type.Kind() == reflect.Struct:
			for _, sub := range listFields(f.Type) {
				sub.index = append([]int{i}, sub.index...)
				fs = append(fs, sub)
			}
			continue
		case !f.IsExported() || name == "-":
			continue
		case name == "":
			name = strings.ToLower(f.Name)
		}
		fs = append(fs, field{name, []int{i}, opts != "" || f.Type.Kind() == reflect.Pointer || isTables(f.Type)})
	}
	return fs
}

func isTables(t reflect.Type) bool {
	return t.Kind() == reflect.Slice && t.Elem().Kind() == reflect.Struct && t.Elem() != reflect.TypeFor[time.Time]()
}

// writeFields writes the struct v under the header that is already written; path is for the headers of its lists.
func writeFields(w *bytes.Buffer, path string, v reflect.Value, signed bool) error {
	var lists []field
	for _, f := range fieldsOf(v.Type()) {
		fv := v.FieldByIndex(f.index)
		switch {
		case isTables(fv.Type()):
			lists = append(lists, f)
			continue
		case f.optional && fv.IsZero(), fv.Kind() == reflect.Pointer && fv.IsNil():
			continue
		}
		s, err := value(fv, signed)
		if err != nil {
			return fmt.Errorf("%s: %w", f.name, err)
		}
		fmt.Fprintf(w, "%s = %s\n", f.name, s)
	}
	for _, f := range lists {
		list := v.FieldByIndex(f.index)
		for i := range list.Len() {
			fmt.Fprintf(w, "\n[[%s.%s]]\n", path, f.name)
			if err := writeFields(w, path+"."+f.name, list.Index(i), signed); err != nil {
				return fmt.Errorf("%s %d: %w", f.name, i+1, err)
			}
		}
	}
	return nil
}

// Lines are the lines of a struct in a file of TOML, by key, but for those of structs within it. What is optional and zero has none.
func Lines(of any) (map[string]string, error) {
	lines, v := map[string]string{}, reflect.ValueOf(of)
	for _, f := range fieldsOf(v.Type()) {
		fv := v.FieldByIndex(f.index)
		if f.optional && fv.IsZero() || fv.Kind() == reflect.Struct {
			continue
		}
		s, err := value(fv, false)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f.name, err)
		}
		lines[f.name] = f.name + " = " + s
	}
	return lines, nil
}

// value is one value as TOML on one line.
func value(v reflect.Value, signed bool) (string, error) {
	if v.Kind() == reflect.Pointer {
		v = v.Elem()
	}
	switch x := v.Interface().(type) {
	case time.Time:
		if y := x.UTC().Year(); y < 1 || y > 9998 {
			return "", fmt.Errorf("the year %d has no place in the book", y)
		}
		return stamp(x), nil
	case encoding.TextMarshaler:
		b, err := x.MarshalText()
		if err != nil && signed {
			if minus, ok := negated(v); ok {
				if b, err = minus.Interface().(encoding.TextMarshaler).MarshalText(); err == nil {
					b = append([]byte("-"), b...)
				}
			}
		}
		return quote(string(b)), err
	}
	switch v.Kind() {
	case reflect.String:
		return quote(v.String()), nil
	case reflect.Bool:
		return strconv.FormatBool(v.Bool()), nil
	case reflect.Int, reflect.Int64, reflect.Int32:
		return strconv.FormatInt(v.Int(), 10), nil
	case reflect.Float64:
		f := v.Float()
		if math.IsNaN(f) || math.IsInf(f, 0) {
			return "", fmt.Errorf("%g is not a number", f)
		}
		s := strconv.FormatFloat(f, 'g', -1, 64)
		if !strings.ContainsAny(s, ".e") {
			s += ".0"
		}
		return s, nil
	case reflect.Slice, reflect.Array:
		parts := make([]string, v.Len())
		for i := range parts {
			s, err := value(v.Index(i), signed)
			if err != nil {
				return "", err
			}
			parts[i] = s
		}
		return "[" + strings.Join(parts, ", ") + "]", nil
	}
	return "", fmt.Errorf("a %s has no form in the book", v.Type())
}

// negated is a number below zero with its sign turned.
func negated(v reflect.Value) (reflect.Value, bool) {
	n := reflect.New(v.Type()).Elem()
	switch {
	case v.CanInt() && v.Int() < 0:
		n.SetInt(-v.Int())
	case v.CanFloat() && v.Float() < 0:
		n.SetFloat(-v.Float())
	default:
		return v, false
	}
	return n, true
}

// stamp is an instant with its offset. RFC 3339 has no seconds in the offset: such old local times are written in UTC.
func stamp(t time.Time) string {
	if _, offset := t.Zone(); offset%60 != 0 || offset <= -24*3600 || offset >= 24*3600 {
		t = t.UTC()
	}
	return t.Format(time.RFC3339Nano)
}

// quote is a text as a TOML string on one line.
func quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range strings.ToValidUTF8(s, string(utf8.RuneError)) {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case wording.Unfit(r) || r == 0xfeff:
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// decode turns TOML into a tree. It never panics, whatever the text.
func decode(text []byte) (all map[string]any, err error) {
	defer func() {
		if r := recover(); r != nil {
			all, err = nil, fmt.Errorf("it is not TOML: %v", r)
		}
	}()
	if plainly, ok := tree.Plain(text); ok {
		return plainly, nil
	}
	if line := tree.TooDeep(text); line > 0 {
		return nil, fmt.Errorf("in its line %d %s; %s", line, tree.DeepWords, tree.DeepRight)
	}
	if _, err := toml.Decode(string(text), &all); err != nil {
		var parse toml.ParseError
		if errors.As(err, &parse) {
			return nil, fmt.Errorf("it is not TOML: %s", strings.TrimSuffix(parse.Message, "."))
		}
		return nil, fmt.Errorf("it is not TOML: %v", err)
	}
	if all == nil {
		all = map[string]any{}
	}
	return all, nil
}

// readFields fills the struct v from a tree. besides are keys of the tree that are not the struct's.
func readFields(tree map[string]any, v reflect.Value, signed bool, besides []string) (slips []string, err error) {
	known := slices.Clone(besides)
	for _, f := range fieldsOf(v.Type()) {
		known = append(known, f.name)
		raw, ok := tree[f.name]
		if !ok {
			if !f.optional {
				slips = append(slips, "it has no "+f.name)
			}
			continue
		}
		if err := readValue(raw, v.FieldByIndex(f.index), signed); err != nil {
			return nil, fmt.Errorf("%s: %w", f.name, err)
		}
	}
	for key := range tree {
		if !slices.Contains(known, key) {
			slips = append(slips, fmt.Sprintf("its key %q is unknown", key))
		}
	}
	slices.Sort(slips)
	return slips, nil
}

// readInto reads one value that must be there.
func readInto(p any, raw any) error { return readValue(raw, reflect.ValueOf(p).Elem(), false) }

// readValue sets v from one TOML value.
func readValue(raw any, v reflect.Value, signed bool) error {
	if v.Kind() == reflect.Pointer {
		p := reflect.New(v.Type().Elem())
		if err := readValue(raw, p.Elem(), signed); err != nil {
			return err
		}
		v.Set(p)
		return nil
	}
	if v.Type() == reflect.TypeFor[time.Time]() {
		t, ok := raw.(time.Time)
		if !ok || strings.HasSuffix(t.Location().String(), "-local") {
			return errors.New("it is not a time with its offset, such as 2026-11-25T09:30:00+01:00")
		}
		v.Set(reflect.ValueOf(t))
		return nil
	}
	if u, ok := v.Addr().Interface().(encoding.TextUnmarshaler); ok {
		return readText(raw, v, u, signed)
	}
	switch v.Kind() {
	case reflect.String:
		if s, ok := raw.(string); ok {
			v.SetString(wording.Fit(s))
			return nil
		}
		return errors.New("it is not a text in quotes")
	case reflect.Bool:
		if b, ok := raw.(bool); ok {
			v.SetBool(b)
			return nil
		}
		return errors.New("it is neither true nor false")
	case reflect.Int, reflect.Int64, reflect.Int32:
		if n, ok := raw.(int64); ok && !v.OverflowInt(n) {
			v.SetInt(n)
			return nil
		}
		return errors.New("it is not a whole number")
	case reflect.Float64:
		if f, ok := tree.Number(raw); ok {
			v.SetFloat(f)
			return nil
		}
		return errors.New("it is not a number")
	case reflect.Slice, reflect.Array:
		return readList(raw, v, signed)
	}
	return fmt.Errorf("a %s has no form in the book", v.Type())
}

func readText(raw any, v reflect.Value, u encoding.TextUnmarshaler, signed bool) error {
	s, ok := raw.(string)
	if !ok {
		return errors.New("it is not a text with its unit")
	}
	rest, minus := strings.CutPrefix(s, "-")
	if !signed || !minus {
		return u.UnmarshalText([]byte(s))
	}
	if err := u.UnmarshalText([]byte(rest)); err != nil {
		return err
	}
	switch { // the sign is for the whole, also of "-1 h 30 min"
	case v.CanInt():
		v.SetInt(-v.Int())
	case v.CanFloat():
		v.SetFloat(-v.Float())
	}
	return nil
}

func readList(raw any, v reflect.Value, signed bool) error {
	var list []any
	switch raw := raw.(type) {
	case []any:
		list = raw
	case []map[string]any:
		for _, t := range raw {
			list = append(list, t)
		}
	default:
		return errors.New("it is not a list")
	}
	out := reflect.New(v.Type()).Elem()
	switch {
	case v.Kind() == reflect.Slice:
		out.Set(reflect.MakeSlice(v.Type(), len(list), len(list)))
	case len(list) != v.Len():
		return fmt.Errorf("it has %d figures, not %d", len(list), v.Len())
	}
	for i, x := range list {
		var err error
		if isTables(v.Type()) {
			tree, ok := x.(map[string]any)
			if !ok {
				return fmt.Errorf("number %d is not a table", i+1)
			}
			_, err = readFields(tree, out.Index(i), signed, nil)
		} else {
			err = readValue(x, out.Index(i), signed)
		}
		if err != nil {
			return fmt.Errorf("number %d: %w", i+1, err)
		}
	}
	v.Set(out)
	return nil
}
