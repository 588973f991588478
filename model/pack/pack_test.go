package pack

import (
	"bytes"
	"encoding/binary"
	"reflect"
	"testing"
)

// wide takes much memory and, empty, one packed byte.
type wide struct{ Figures [100]int }

// A list that would take far more memory than what is packed could fill is refused before it is made.
func TestListsTakeNoMoreThanTheyCanFill(t *testing.T) {
	const many = 1 << 16
	for _, n := range []uint64{many, 1 << 40, 1 << 63, 1<<64 - 1} {
		u := Unpacker{In: append(binary.AppendUvarint(nil, n), make([]byte, many)...)}
		var list []wide
		if u.Value(reflect.ValueOf(&list).Elem()); !u.Bad || list != nil {
			t.Errorf("%d: a list of %d was made", n, len(list))
		}
	}
	var w Packer
	full := []wide{{[100]int{1, 2, 3}}, {[100]int{4}}}
	if err := w.Value(reflect.ValueOf(full)); err != nil {
		t.Fatal(err)
	}
	u := Unpacker{In: bytes.Clone(w.Out)}
	var list []wide
	if u.Value(reflect.ValueOf(&list).Elem()); u.Bad || !reflect.DeepEqual(list, full) {
		t.Errorf("unpacked is %v", list)
	}
}

// Types that are packed otherwise have another form, also where they are deep in others.
func TestForm(t *testing.T) {
	type inner struct{ A, B string }
	type swapped struct{ B, A string }
	told := map[string]string{}
	for what, of := range map[string]reflect.Type{
		"a struct": reflect.TypeFor[inner](), "its fields the other way": reflect.TypeFor[swapped](), "a list": reflect.TypeFor[[]inner](), "another list": reflect.TypeFor[[]swapped](),
		"in a field": reflect.TypeFor[struct{ X []inner }](), "another in it": reflect.TypeFor[struct{ X []swapped }](), "a pointer": reflect.TypeFor[*inner](), "a number": reflect.TypeFor[int](),
	} {
		form := Form(of)
		if other, there := told[form]; there {
			t.Errorf("%s has the form of %s", what, other)
		}
		if told[form] = what; Form(of) != form {
			t.Errorf("%s has two forms", what)
		}
	}
}
