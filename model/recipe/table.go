package recipe

import (
	"encoding"
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/tree"
	"example.org/vatside/model/wording"
)

// reading is one recipe text on its way to a Recipe: it collects faults and goes on.
type reading struct {
	file   string
	places func() *tree.Places // found at the first fault
	faults Faults
}

func (r *reading) fault(at tree.Spot, what, right string) {
	r.faults = append(r.faults, Fault{r.file, at.Line, at.Col, wording.Show(what).String(), wording.Show(right).String(), at.Width})
}

// table is one TOML table that is being read strictly: what was not asked for is unknown.
type table struct {
	r      *reading
	path   string // "" for the head, "liquor", "powder.2"
	name   string // as a sentence says it
	keys   map[string]any
	asked  []string
	broken map[string]bool // keys with a fault of their own, so that no second fault follows from it
}

// newTable begins the reading of a table.
func newTable(r *reading, path, name string, keys map[string]any) *table {
	return &table{r, path, name, keys, nil, map[string]bool{}}
}

func (t *table) full(key string) string {
	if t.path == "" {
		return key
	}
	return t.path + "." + key
}

// wrong notes a fault at the value of a key, or at the table's header if it has none.
func (t *table) wrong(key, what, right string) {
	t.broken[key] = true
	t.r.fault(t.r.places().Value(t.full(key)), what, right)
}

// missing notes a key that must be there.
func (t *table) missing(key, right string) {
	t.broken[key] = true
	t.r.fault(t.r.places().Head(t.path), fmt.Sprintf("%s has no %s", t.name, key), right)
}

// stray notes a key that is known but has no place here.
func (t *table) stray(key, why, right string) {
	t.broken[key] = true
	t.r.fault(t.r.places().Key(t.full(key)), why, right)
}

func (t *table) has(key string) bool { _, ok := t.keys[key]; return ok }

// get is the raw value of a key; the key is now known.
func (t *table) get(key string) (any, bool) {
	t.asked = append(t.asked, key)
	v, ok := t.keys[key]
	return v, ok
}

// text is a text of one line. If must, it has to be there and not be empty; such is an example of a right one.
func (t *table) text(key string, must bool, such string) string {
	v, ok := t.get(key)
	if !ok {
		if must {
			t.missing(key, fmt.Sprintf("write %s = %q", key, such))
		}
		return ""
	}
	s, ok := v.(string)
	unfit, _ := wording.Unfitness(s)
	switch {
	case !ok:
		t.wrong(key, fmt.Sprintf("%s is %s, not a text", key, called(v)), fmt.Sprintf("write it in quotes, as %s = %q", key, such))
	case must && strings.TrimSpace(s) == "":
		t.wrong(key, key+" is empty", fmt.Sprintf("write it as %s = %q", key, such))
	case unfit != "":
		t.wrong(key, key+" holds "+unfit, "write it without")
		return wording.Show(s).String() // a day that was begun on it goes on
	case s != printable(s):
		t.wrong(key, key+" has line breaks or tabs in it", "keep it on one line")
	default:
		return s
	}
	return ""
}

// oneOf is a text that must be one of a list; a near miss is taken for the likely word so that no second fault follows.
func oneOf[T ~string](t *table, key string, must bool, list []T) T {
	s := t.text(key, must, string(list[0]))
	if s == "" || slices.Contains(list, T(s)) {
		return T(s)
	}
	t.wrong(key, fmt.Sprintf("%s %q is unknown", key, s), suggestion(s, names(list)))
	near, _ := wording.Nearest(s, names(list))
	return T(near)
}

// names turns a list of words into strings.
func names[T ~string](list []T) []string {
	return wording.Each(list, func(w T) string { return string(w) })
}

// limit is what a quantity has to be, for the sentence and for its range. The range is a bound of sense, not a
// recommendation.
type limit struct {
	what, such string // "a temperature", "35 °C"
	low, high  float64
	bounds     string // "between 0 °C and 100 °C"
}

// number is any quantity type.
type number interface{ ~float64 | ~int64 }

// measure is a quantity with its unit, as a text. It is 0 and false if it is not there or has a fault.
func measure[T number, P interface {
	*T
	encoding.TextUnmarshaler
}](t *table, key string, must bool, l limit) (q T, ok bool) {
	if !t.measure(key, must, l, P(&q), func() float64 { return float64(q) }) {
		return 0, false
	}
	return q, true
}

// measure is the same for a quantity q of any type, which figure is the number of.
func (t *table) measure(key string, must bool, l limit, q encoding.TextUnmarshaler, figure func() float64) bool {
	v, ok := t.get(key)
	if !ok {
		if must {
			t.missing(key, fmt.Sprintf("write %s = %q", key, l.such))
		}
		return false
	}
	s, ok := v.(string)
	if !ok {
		t.wrong(key, fmt.Sprintf("%s is %s; %s is a text with its unit", key, called(v), l.what), fmt.Sprintf("write %s = %q", key, l.such))
		return false
	}
	if err := q.UnmarshalText([]byte(s)); err != nil {
		t.wrong(key, fmt.Sprintf("%s %q is not %s", key, s, l.what), fmt.Sprintf("write it as %q", l.such))
		return false
	}
	if f := figure(); !(f >= l.low && f <= l.high) {
		t.wrong(key, fmt.Sprintf("%s %q is out of all bounds", key, s), "it must be "+l.bounds)
		return false
	}
	return true
}

func (t *table) degrees(key string, l limit) *quantity.Temperature {
	q, ok := measure[quantity.Temperature](t, key, false, l)
	if !ok {
		return nil
	}
	return &q
}

// share is a part of a whole, as 0.6 or as "60 %". It is otherwise, if left out.
func (t *table) share(key string, otherwise quantity.Share) quantity.Share {
	v, ok := t.get(key)
	if !ok {
		return otherwise
	}
	f, ok := tree.Number(v)
	if s, isText := v.(string); isText {
		var q quantity.Share
		ok = q.UnmarshalText([]byte(s)) == nil
		f = float64(q)
	}
	switch {
	case !ok:
		t.wrong(key, fmt.Sprintf("%s %s is not a share", key, shown(v)), fmt.Sprintf("write it as %s = 0.60", key))
	case !(f > 0 && f <= 1):
		t.wrong(key, fmt.Sprintf("%s %s is not above 0 and at most 1", key, shown(v)), fmt.Sprintf("60 parts in 100 are %s = 0.60", key))
	default:
		return quantity.Share(f)
	}
	return otherwise
}

func (t *table) acidity(key string, v any) (float64, bool) {
	f, ok := tree.Number(v)
	switch {
	case !ok:
		t.wrong(key, fmt.Sprintf("%s %s is not a number", key, shown(v)), "write pH as a number, 11.0")
	case !(f >= 7 && f <= 14):
		t.wrong(key, fmt.Sprintf("%s %s is not the pH of a vat", key, shown(v)), "it must be between 7 and 14")
	default:
		return f, true
	}
	return 0, false
}

// close faults every key that was never asked for.
func (t *table) close() {
	for key := range t.keys {
		if !slices.Contains(t.asked, key) {
			t.r.fault(t.r.places().Key(t.full(key)), fmt.Sprintf("%s has an unknown key %q", t.name, printable(key)), suggestion(key, t.asked))
		}
	}
}

// called names the kind of a TOML value.
func called(v any) string {
	switch v.(type) {
	case string:
		return "a text"
	case int64, float64:
		return "a bare number"
	case bool:
		return "true or false"
	case []any, []map[string]any:
		return "a list"
	case map[string]any:
		return "a table"
	}
	return "a time"
}

// shown is a TOML value as the fault repeats it.
func shown(v any) string {
	switch v := v.(type) {
	case string:
		return fmt.Sprintf("%q", v)
	case int64, float64, bool:
		return fmt.Sprint(v)
	}
	return "(" + called(v) + ")"
}

// suggestion says which of the words was meant, or lists them; only of powders there may be none.
func suggestion(s string, words []string) string {
	if near, ok := wording.Nearest(s, words); ok {
		return fmt.Sprintf("did you mean %q?", near)
	}
	switch len(words) {
	case 0:
		return "no [[powder]] here has an id"
	case 1:
		return "the only one here is " + words[0]
	}
	return "it can be " + strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}
