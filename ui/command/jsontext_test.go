package command

import (
	"bytes"
	"encoding/json"
	"math"
	"reflect"
	"testing"
	"time"

	"example.org/vatside/model/quantity"
)

type flat struct {
	Low  float64 `json:"low"`
	Note string  `json:"note,omitempty"`
}

type keyed struct {
	flat
	Name   string          `json:"name"`
	Hidden int             `json:"-"`
	None   []string        `json:"none"`
	Empty  []int           `json:"empty"`
	Left   map[string]any  `json:"left,omitempty"`
	Mass   quantity.Mass   `json:"mass,omitempty"`
	Some   *bool           `json:"some"`
	Odd    *int            `json:"odd,omitempty"`
	Any    any             `json:"any"`
	Of     [2]uint         `json:"of"`
	Sys    quantity.System `json:"sys"`
	Plain  int
}

// Every value is written as encoding/json writes it, to the byte.
func TestJSON(t *testing.T) {
	is := true
	var none any
	for _, v := range []any{
		nil, none, true, -7, uint(9), "", "plain", "a \"b\" \\ \b\f\n\r\t\x00\x1f\x7f <&> é \u2028\u2029 \xff\ufffd 🜁", []string(nil), []string{}, [][]int{{1}, {}, nil},
		0.0, math.Copysign(0, -1), 1.5, 1e-7, 1.25e-9, 3e-10, 1e-6, 1e20, 1e21, 2.5e300, math.MaxFloat64, math.SmallestNonzeroFloat64, 1.0 / 3,
		map[string]any{}, map[string]int(nil), map[string]any{"b": 1, "a": []any{"x", 2.5, nil, map[string]any{"z": "é"}}, "": []map[string]any{{"k": false}}},
		struct{}{}, &keyed{}, keyed{Name: "n", Empty: []int{}, Some: &is, Any: &flat{Low: 2}, flat: flat{1, "x"}, Left: map[string]any{"q": 1}, Mass: 3},
		time.Date(2026, 5, 9, 8, 0, 0, 120, time.UTC), quantity.Metric, []any{keyed{}, quantity.US},
	} {
		var want bytes.Buffer
		e := json.NewEncoder(&want)
		e.SetIndent("  ", "  ")
		e.SetEscapeHTML(false)
		if err := e.Encode(v); err != nil {
			t.Fatal(err)
		}
		got, err := appendJSON(nil, reflect.ValueOf(v), "\n  ")
		if err != nil || string(got)+"\n" != want.String() {
			t.Errorf("%#v is\n%s, %v, and not\n%s", v, got, err, want.String())
		}
	}
	for _, v := range []any{math.NaN(), math.Inf(1), []any{make(chan int)}, map[string]any{"f": func() {}}} {
		if got, err := appendJSON(nil, reflect.ValueOf(v), "\n"); err == nil {
			t.Errorf("%v is %s", v, got)
		}
	}
	of := object{{"list", each([]int{1, 2}, func(n int) object { return object{{"n", n}} })}, {"none", object(nil)}, {"empty", object{}}, {"some", some("")}}
	const want = `{
  "list": [
    {
      "n": 1
    },
    {
      "n": 2
    }
  ],
  "none": null,
  "empty": {},
  "some": null
}`
	if got, err := appendJSON(nil, reflect.ValueOf(of), "\n"); err != nil || string(got) != want {
		t.Errorf("%s, %v", got, err)
	}
}
