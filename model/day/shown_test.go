package day_test

import (
	"reflect"
	"strings"
	"testing"

	"example.org/vatside/model/day"
)

// filled is a value of a type with the text of a function in every string of it, lists of one.
func filled(t reflect.Type, text func() string) reflect.Value {
	v := reflect.New(t).Elem()
	switch t.Kind() {
	case reflect.String:
		v.SetString(text())
	case reflect.Struct:
		for i := range t.NumField() {
			if t.Field(i).IsExported() {
				v.Field(i).Set(filled(t.Field(i).Type, text))
			}
		}
	case reflect.Slice:
		v.Set(reflect.Append(v, filled(t.Elem(), text)))
	}
	return v
}

// No command and no event puts into the book what cannot be shown, in whichever of its words it stands.
func TestWhatCannotBeShownIsRefused(t *testing.T) {
	p := begin(t, head(t, "soda"))
	refused := func(of reflect.Type, as func(reflect.Value) day.Command) (words int) {
		filled(of, func() string { words++; return "A1" })
		for bad := range words {
			n := -1
			c := as(filled(of, func() string {
				if n++; n == bad {
					return "A1\x1b]52;c;aGFja2Vk\a"
				}
				return "A1"
			}))
			_, err := day.Decide(p.s, c, p.now)
			if err == nil || !strings.Contains(err.Error(), "U+001B") || strings.ContainsAny(err.Error(), "\x1b\a") {
				t.Errorf("%#v: %v", c, err)
			}
		}
		return words
	}
	for _, c := range []day.Command{day.Skip{}, day.Judge{}, day.Lower{}, day.Lift{}, day.Finish{}, day.AddPiece{}, day.Stretch{}, day.Dose{},
		day.Treat{}, day.Bench{}, day.LeaveOut{}, day.Close{}} {
		if refused(reflect.TypeOf(c), func(v reflect.Value) day.Command { return v.Interface().(day.Command) }) == 0 {
			t.Errorf("%T has no words", c)
		}
	}
	words := 0
	for _, b := range day.Kinds() {
		words += refused(reflect.TypeOf(b), func(v reflect.Value) day.Command { return day.Record{Body: v.Interface().(day.Body)} })
	}
	if words < 80 {
		t.Errorf("only %d words in all the kinds of event: the test does not look at them", words)
	}
}

// A note may have lines, and what stands in a book already is gone on with.
func TestWhatStandsInTheBookIsGoneOnWith(t *testing.T) {
	p := dyeing(t, 0)
	p.do(day.Record{Body: day.Note{Text: "sun on the bin\n\tat noon"}})
	p.happen(day.PieceAdded{OfPiece: day.OfPiece{Tag: "B\ufffd"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3}})
	p.do(day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "B\ufffd"}}})
}
