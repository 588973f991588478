package command

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"
	"time"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sheet"
)

func (p *program) asJSON(v any) error {
	text, err := inJSON(v, "  ")
	if err != nil {
		return err
	}
	_, err = p.Out.Write(text)
	return err
}

// inJSON is a value as JSON, with < > and & as they are.
func inJSON(v any, indent string) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetIndent("", indent)
	e.SetEscapeHTML(false)
	err := e.Encode(v)
	return b.Bytes(), err
}

// object is a JSON object with its keys in the order given; nil is null.
type object []struct {
	key   string
	value any
}

// MarshalJSON writes the keys and their values.
func (o object) MarshalJSON() ([]byte, error) {
	if o == nil {
		return []byte("null"), nil
	}
	b := []byte{'{'}
	for i, f := range o {
		if i > 0 {
			b = append(b, ',')
		}
		value, err := inJSON(f.value, "")
		if err != nil {
			return nil, err
		}
		b = append(append(strconv.AppendQuote(b, f.key), ':'), bytes.TrimSpace(value)...)
	}
	return append(b, '}'), nil
}

// and adds a key where there is something to say.
func (o object) and(is bool, key string, value any) object {
	if is {
		o = append(o, object{{key, value}}...)
	}
	return o
}

// each is a list as JSON has it; [] where it is empty.
func each[T, J any](list []T, as func(T) J) []J {
	out := make([]J, 0, len(list))
	for _, v := range list {
		out = append(out, as(v))
	}
	return out
}

// list is a list of texts as JSON has it; [] where it is empty.
func list(texts []string) []string { return append([]string{}, texts...) }

// when is a value where it applies; else nil.
func when[T any](applies bool, v T) *T {
	if !applies {
		return nil
	}
	return &v
}

// tidy drops the dust of floating point: a tenth of a milligram is finer than any scale in a dye house. Inlined
// where it is used it was 41 KB of the program.
//
//go:noinline
func tidy(f float64) float64 { return math.Round(f*1e4) / 1e4 }

// tidy6 is tidy for small figures, such as areas.
func tidy6(f float64) float64 { return math.Round(f*1e6) / 1e6 }

type spread struct {
	Low    float64 `json:"low"`
	Likely float64 `json:"likely"`
	High   float64 `json:"high"`
}

// spreadOf is a range as JSON has it.
func spreadOf[T interface {
	~int | ~int64 | ~float64
}](r quantity.Range[T], of func(T) float64) spread {
	return spread{tidy(of(r.Low)), tidy(of(r.Likely)), tidy(of(r.High))}
}

func whole(n int) float64 { return float64(n) }

// some is what is there: nil for an empty text, for nought and for a range of noughts.
func some[T comparable](v T) *T {
	if v == *new(T) {
		return nil
	}
	return &v
}

// money is a sum in the dyer's own currency.
func money(m quantity.Money) float64 { return float64(m.Hundredths()) / 100 }

// stamp is an instant as JSON has it: RFC 3339, whole seconds.
func stamp(t time.Time) string { return t.Truncate(time.Second).Format(time.RFC3339) }

// knownAs is how a figure is known; nil where it is not.
func knownAs(k outlook.Known) *string { return when(k != outlook.Unknown, k.String()) }

// instant is a time as JSON has it; nil where there is none.
func instant(t time.Time) *string { return when(!t.IsZero(), stamp(t)) }

// as is what a value is in JSON; nil where there is none.
func as[T, J any](v *T, as func(T) J) *J {
	if v == nil {
		return nil
	}
	return new(as(*v))
}

// celsius is a temperature as JSON has it; nil where there is none.
func celsius(t *quantity.Temperature) *float64 {
	return as(t, func(t quantity.Temperature) float64 { return tidy(t.Celsius()) })
}

func figures(l colour.Lab) [3]float64 { return [3]float64{tidy(l.L), tidy(l.A), tidy(l.B)} }

// tenth is as well as hands keep a time.
func tenth(minutes float64) float64 { return math.Round(10*minutes) / 10 }

func dueAt(d day.Due) string { return stamp(d.At) }

// callKeys are the keys of a call.
func callKeys(c day.Call) object {
	return object{
		{"id", c.ID}, {"verb", c.Verb}, {"object", c.Object}, {"short", c.Short}, {"figure", c.Figure}, {"unit", c.Unit}, {"due_at", as(c.Due, dueAt)},
		{"press", some(c.Press)}, {"danger", c.Danger},
	}
}

type sheetedBlock struct{ sheet.Block }

// MarshalJSON puts the kind before the block's own keys.
func (b sheetedBlock) MarshalJSON() ([]byte, error) {
	var body any = b.Block
	if p, is := b.Block.(sheet.Plot); is {
		body = object{{"plot", plotted(p)}}
	}
	keys, err := inJSON(body, "")
	kind := `{"kind":"` + b.Kind() + `"`
	if keys = bytes.TrimSpace(keys); len(keys) > len("{}") {
		kind += ","
	}
	return append([]byte(kind), bytes.TrimPrefix(keys, []byte("{"))...), err
}

// sheetOf are the keys of sheet --json: the blocks in their order, each with its kind and that kind's keys, as model/sheet has
// them. The words have their units in them, as on paper.
func sheetOf(s sheet.Sheet) object {
	return object{{"title", s.Title}, {"subtitle", s.Subtitle}, {"edge_srgb", s.Edge},
		{"blocks", each(s.Blocks, func(b sheet.Block) sheetedBlock { return sheetedBlock{b} })}, {"foot", s.Foot}}
}

// plotted is what was read; the levels of a series are in its unit, which is empty for pH.
func plotted(p sheet.Plot) object {
	level := func(l sheet.Level) float64 { return tidy(float64(l)) }
	return object{{"from", stamp(p.From)}, {"till", stamp(p.Till)}, {"series", each(p.Series, func(s sheet.Series) object {
		keys := object{{"name", s.Name}, {"unit", s.Unit}, {"axis_low", level(s.Low)}, {"axis_high", level(s.High)}}
		if s.Works != nil {
			keys = keys.and(true, "works_at", [2]float64{level(s.Works[0]), level(s.Works[1])})
		}
		return keys.and(true, "points", each(s.Points, func(q sheet.Point) object {
			return object{{"at", stamp(q.At)}, {"level", level(q.Level)}, {"words", q.Words}, {"known", q.Known.String()}}.and(q.Hex != "", "srgb", q.Hex)
		}))
	})}}
}
