package book

import (
	"encoding/json"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// draw fills a value with whatever its type can hold.
func draw(t *rapid.T, v reflect.Value, signed bool) {
	switch v.Interface().(type) {
	case time.Time:
		at := time.Unix(rapid.Int64Range(0, 4e9).Draw(t, "at"), 0).In(time.FixedZone("", rapid.IntRange(-14*4, 14*4).Draw(t, "zone")*900))
		v.Set(reflect.ValueOf(at))
		return
	case quantity.Span:
		n := rapid.Int64Range(0, 1e13).Draw(t, "span") // to the nanosecond for a few hours, to the second for months
		if rapid.Bool().Draw(t, "long") {
			n = rapid.Int64Range(0, 1e7).Draw(t, "seconds") * 1e9
		}
		if signed && rapid.Bool().Draw(t, "minus") {
			n = -n
		}
		v.SetInt(n)
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		if rapid.Bool().Draw(t, "there") {
			v.Set(reflect.New(v.Type().Elem()))
			draw(t, v.Elem(), signed)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			draw(t, v.Field(i), signed)
		}
	case reflect.Slice:
		if n := rapid.IntRange(0, 3).Draw(t, "long"); n > 0 {
			v.Set(reflect.MakeSlice(v.Type(), n, n))
			for i := range n {
				draw(t, v.Index(i), true)
			}
		}
	case reflect.Array:
		for i := range v.Len() {
			draw(t, v.Index(i), true)
		}
	case reflect.String:
		v.SetString(rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"", "A1", "x\n# end 1 00000000\n[[event]]", `\"'`, "\x00\x7f\u0085\u2028\u202e\u2069\ufffd"})).Draw(t, "text"))
	case reflect.Bool:
		v.SetBool(rapid.Bool().Draw(t, "yes"))
	case reflect.Int:
		v.SetInt(rapid.Int64Range(-5, 1e6).Draw(t, "n"))
	case reflect.Float64:
		f := rapid.Float64Range(0, 5000).Draw(t, "f")
		if _, isShare := v.Interface().(quantity.Share); isShare {
			f /= 5000
		}
		if signed && rapid.Bool().Draw(t, "minus") {
			f = -f
		}
		v.SetFloat(f)
	}
}

// Every kind, with every field filled or empty, reads back as what was written.
func TestEveryKindReadsBack(t *testing.T) {
	for _, kind := range day.Kinds() {
		t.Run(kind.Kind(), rapid.MakeCheck(func(t *rapid.T) {
			body := reflect.New(reflect.TypeOf(kind)).Elem()
			if rapid.IntRange(0, 9).Draw(t, "filled") > 0 {
				draw(t, body, signed(kind.Kind()))
			}
			want := day.Event{Seq: rapid.IntRange(1, 1e6).Draw(t, "seq"), Body: body.Interface().(day.Body)}
			draw(t, reflect.ValueOf(&want.At).Elem(), false)
			if rapid.Bool().Draw(t, "boot") {
				want.Boot, want.Up = "0123abcd", float64(rapid.IntRange(0, 1e9).Draw(t, "up"))/1000
			}
			block, err := EncodeEvent(want)
			if err != nil {
				t.Fatal(err)
			}
			blocks := cut(append([]byte("format = 1\n# end 0 00000000\n"), block...))
			if len(blocks) != 2 || !blocks[1].ended {
				t.Fatalf("not one block:\n%s", block)
			}
			got, slips, err := readEvent(block[:strings.LastIndex(string(block), "# end")], kinds)
			if err != nil || len(slips) > 0 {
				t.Fatalf("%v %v\n%s", err, slips, block)
			}
			want.Body = fitted(reflect.ValueOf(want.Body)).Interface().(day.Body) // what cannot be shown stands in the file alone
			if block, err = EncodeEvent(want); err != nil {
				t.Fatal(err)
			}
			again, err := EncodeEvent(got)
			if err != nil || string(again) != string(block) {
				t.Fatalf("written\n%s\nread and written again\n%s", block, again)
			}
			if got.Seq != want.Seq || !got.At.Equal(want.At) || got.Boot != want.Boot || got.Up != want.Up || !same(reflect.ValueOf(got.Body), reflect.ValueOf(want.Body)) {
				t.Fatalf("read %+v\nwant %+v\n%s", got, want, block)
			}
		}))
	}
}

// fitted is a copy of a value with each text of it made fit to be shown.
func fitted(v reflect.Value) reflect.Value {
	out := reflect.New(v.Type()).Elem()
	out.Set(v)
	switch v.Kind() {
	case reflect.String:
		out.SetString(wording.Fit(v.String()))
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				out.Field(i).Set(fitted(v.Field(i)))
			}
		}
	case reflect.Slice:
		if !v.IsNil() {
			out.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
		}
		for i := range v.Len() {
			out.Index(i).Set(fitted(v.Index(i)))
		}
	}
	return out
}

// same is DeepEqual of what is exported, with times that are Equal.
func same(a, b reflect.Value) bool {
	if x, ok := a.Interface().(time.Time); ok {
		return x.Equal(b.Interface().(time.Time))
	}
	switch a.Kind() {
	case reflect.Struct:
		for i := range a.NumField() {
			if a.Type().Field(i).IsExported() && !same(a.Field(i), b.Field(i)) {
				return false
			}
		}
		return true
	case reflect.Slice, reflect.Array:
		if a.Len() != b.Len() {
			return false
		}
		for i := range a.Len() {
			if !same(a.Index(i), b.Index(i)) {
				return false
			}
		}
		return true
	case reflect.Pointer:
		return a.IsNil() == b.IsNil() && (a.IsNil() || same(a.Elem(), b.Elem()))
	}
	return a.Interface() == b.Interface()
}

func TestEventText(t *testing.T) {
	block, err := EncodeEvent(sampleEvents()[3])
	if err != nil {
		t.Fatal(err)
	}
	want := "[[event]]\nseq = 4\nat = 2026-11-25T09:12:00+01:00\nkind = \"powder weighed\"\n" +
		"step = 3\npowder = \"soda\"\nmaterial = \"soda ash\"\nmass = \"-0.5 g\"\n# end 4 "
	if !strings.HasPrefix(string(block), want) || len(block) != len(want)+9 {
		t.Errorf("%s\nwant\n%s", block, want)
	}
	block, _ = EncodeEvent(sampleEvents()[0])
	if !strings.Contains(string(block), "boot = \"0f3a9c21\"\nup = 812.250\n") {
		t.Errorf("%s", block)
	}
}

func TestEventRefused(t *testing.T) {
	at := morning
	for name, e := range map[string]day.Event{
		"no number":     {At: at, Body: day.Note{}},
		"no body":       {Seq: 1, At: at},
		"not a number":  {Seq: 1, At: at, Body: day.Reading{PH: ptr(math.NaN())}},
		"a boot":        {Seq: 1, At: at, Boot: "x\"\n", Body: day.Note{}},
		"below nothing": {Seq: 1, At: at, Body: day.ToppedUp{Water: -1}},
		"no such text":  {Seq: 2, At: at, Body: day.Unknown{Name: "x", Text: "[[event]]\nseq = 1\n"}},
	} {
		if block, err := EncodeEvent(e); err == nil {
			t.Errorf("%s: written as\n%s", name, block)
		}
	}
}

// Local times of long ago had seconds in their offset; RFC 3339 has none.
func TestOddOffset(t *testing.T) {
	e := day.Event{Seq: 1, At: time.Date(2026, 11, 25, 9, 0, 0, 0, time.FixedZone("LMT", 3208)), Body: day.HeaterOff{}}
	block, err := EncodeEvent(e)
	if err != nil {
		t.Fatal(err)
	}
	if got, _, err := readEvent(block, kinds); err != nil || !got.At.Equal(e.At) {
		t.Errorf("%v %v\n%s", got.At, err, block)
	}
}

func TestFields(t *testing.T) {
	f := Fields("garden-bin", "2026-11-25", sampleEvents()[10])
	got, err := json.Marshal(f)
	if err != nil {
		t.Fatal(err)
	}
	want := `{"at":"2026-11-25T09:40:00+01:00","boot":"0f3a9c21","day":"2026-11-25","kind":"corrected","of":9,"seq":11,` +
		`"to":"2026-11-25T09:31:00+01:00","up":3212.25,"vat":"garden-bin","way":"moved"}`
	if string(got) != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
}

func BenchmarkRead300(b *testing.B) {
	data, ends := sampleFile(b)
	file := append([]byte{}, data[:ends[0]]...)
	for i := range 300 {
		e := sampleEvents()[i%12]
		e.Seq = i + 1
		block, err := EncodeEvent(e)
		if err != nil {
			b.Fatal(err)
		}
		file = append(append(file, '\n'), block...)
	}
	b.ResetTimer()
	for b.Loop() {
		if got := Read("", file); len(got.Events) != 300 {
			b.Fatal(len(got.Events))
		}
	}
}
