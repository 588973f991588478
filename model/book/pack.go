package book

import (
	"cmp"
	"errors"
	"fmt"
	"hash/crc32"
	"reflect"
	"slices"
	"sync"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/pack"
	"example.org/vatside/model/recipe"
)

// A packed day is what a whole day's file said, in few bytes that are read back some twenty times as fast as the text: for an
// index beside the books, which can be thrown away. It holds for the version that packed it, and stands in for no file.

// packing is the number of the form of a packed day, and of what the reader makes of a text: it is raised with each change of
// either that Packing does not see.
const packing = 1

// Packing names the form of packed days: its number, the kinds of events, and the form of the types. What another Packing packed
// cannot be unpacked.
var Packing = sync.OnceValue(func() string {
	kinds := ""
	types := []reflect.Type{reflect.TypeFor[day.Unknown](), reflect.TypeFor[day.Head](), reflect.TypeFor[frameKept]()}
	for _, k := range day.Kinds() {
		kinds, types = kinds+k.Kind()+" ", append(types, reflect.TypeOf(k))
	}
	return fmt.Sprintf("%d-%08x-%s", packing, crc32.ChecksumIEEE([]byte(kinds)), pack.Form(types...))
})

// Recipes are the recipes of packed days, each once: most days of a home have one of a few. It is not for more than one
// goroutine.
type Recipes struct {
	packed [][]byte
	at     map[string]int // in packed, by what is packed
	read   []*recipe.Recipe
}

// RecipesOf takes up what Packed gave.
func RecipesOf(packed [][]byte) *Recipes {
	r := &Recipes{packed: slices.Clip(packed), at: map[string]int{}, read: make([]*recipe.Recipe, len(packed))}
	for i, p := range packed {
		r.at[string(p)] = i
	}
	return r
}

// Packed are the recipes, to be kept with the days.
func (r *Recipes) Packed() [][]byte { return r.packed }

// number is the place of a recipe among them.
func (r *Recipes) number(x recipe.Recipe) (int, error) {
	w := &pack.Packer{}
	if err := w.Value(reflect.ValueOf(x)); err != nil {
		return 0, err
	}
	n, there := r.at[string(w.Out)]
	if !there {
		n = len(r.packed)
		r.at[string(w.Out)] = n
		r.packed, r.read = append(r.packed, w.Out), append(r.read, nil)
	}
	return n, nil
}

// numbered is the recipe of a place. Days of one recipe share its lists.
func (r *Recipes) numbered(n int) (recipe.Recipe, error) {
	if n < 0 || n >= len(r.packed) {
		return recipe.Recipe{}, errPacked
	}
	if r.read[n] == nil {
		u := &pack.Unpacker{In: r.packed[n]}
		var x recipe.Recipe
		u.Value(reflect.ValueOf(&x).Elem())
		if u.Bad || len(u.In) > 0 {
			return recipe.Recipe{}, errPacked
		}
		r.read[n] = &x
	}
	return *r.read[n], nil
}

// errPacked says that bytes are no packed day of this version.
var errPacked = errors.New("it is no packed day of this version")

// frameKept is what a packed day keeps of its Frame.
type frameKept struct {
	HeadCRC, HeadWas uint32
	TornAt, LastSeq  int
}

// Packed is a day that was packed.
type Packed struct {
	Data           []byte
	Earliest, Last time.Time // of all times in it: the day reads as it did while both of them CanBe
}

// Pack packs a day of whose file there is nothing to tell: no finding, no remark, no spill. It errs for any other, and for one
// that would not read back as it is.
func Pack(b Book, r *Recipes) (Packed, error) {
	kept := frameKept{b.HeadCRC, b.HeadWas, b.TornAt, b.lastSeq}
	if !b.HeadWhole || len(Verify(b)) > 0 || len(b.Spilled) > 0 {
		return Packed{}, errors.New("the day is not whole")
	}
	head := b.Head
	head.Recipe = recipe.Recipe{}
	n, err := r.number(b.Head.Recipe)
	w := &pack.Packer{}
	w.Uint(uint64(n))
	err = cmp.Or(err, w.Value(reflect.ValueOf(kept)), w.Value(reflect.ValueOf(head)))
	w.Uint(uint64(len(b.Events)))
	for i, e := range b.Events {
		err = cmp.Or(err, packEvent(w, i, e))
	}
	if err != nil {
		return Packed{}, err
	}
	if again, err := Unpack(b.File, w.Out, r); err != nil || !sameBook(again, b) {
		return Packed{}, errors.New("the day would not read back as it is")
	}
	return Packed{w.Out, w.Earliest, w.Last}, nil
}

// sameBook compares two whole days. An empty list is as good as none.
func sameBook(a, b Book) bool {
	if !slices.EqualFunc(a.Events, b.Events, func(x, y day.Event) bool { return reflect.DeepEqual(x, y) }) {
		return false
	}
	plain := func(b Book) Book {
		b.Events, b.Faults, b.Marks, b.Unread, b.Gaps, b.Spilled, b.Torn = nil, nil, nil, nil, nil, nil, nil
		return b
	}
	return reflect.DeepEqual(plain(a), plain(b))
}

// headOf is a packed day up to its events.
func headOf(file string, data []byte, r *Recipes) (Book, *pack.Unpacker) {
	u := &pack.Unpacker{In: data}
	n := u.Uint()
	var kept frameKept
	b := Book{Frame: Frame{File: file, HeadWhole: true}}
	u.Value(reflect.ValueOf(&kept).Elem())
	u.Value(reflect.ValueOf(&b.Head).Elem())
	x, err := r.numbered(int(n))
	u.Bad = u.Bad || err != nil
	b.Head.Recipe = x
	b.HeadCRC, b.HeadWas, b.TornAt, b.lastSeq = kept.HeadCRC, kept.HeadWas, kept.TornAt, kept.LastSeq
	return b, u
}

// Unpack is the day that was packed, as ReadOn gave it. file is only for the telling.
func Unpack(file string, data []byte, r *Recipes) (Book, error) {
	b, u := headOf(file, data, r)
	n := u.Uint()
	if u.Bad || n > uint64(len(u.In)) { // an event takes more than a byte
		return Book{}, errPacked
	}
	b.Events = make([]day.Event, n)
	rooms := map[string]reflect.Value{}
	for i := range b.Events {
		if unpackEvent(u, i, &b.Events[i], rooms); u.Bad {
			return Book{}, errPacked
		}
	}
	if len(u.In) > 0 {
		return Book{}, errPacked
	}
	return b, nil
}

// packEvent packs the event at a place in its list.
func packEvent(w *pack.Packer, i int, e day.Event) error {
	if e.Body == nil {
		return errPacked
	}
	w.Int(int64(e.Seq - i))
	w.Time(e.At)
	w.Text(e.Boot)
	if e.Boot != "" {
		w.Float(e.Up)
	}
	w.Text(e.Body.Kind())
	t := reflect.TypeOf(e.Body)
	if known, is := kinds[e.Body.Kind()]; is && known == t {
		w.Uint(0)
	} else if t == reflect.TypeFor[day.Unknown]() {
		w.Uint(1)
	} else {
		return fmt.Errorf("a %s has no packed form", t)
	}
	return w.Value(reflect.ValueOf(e.Body))
}

// unpackEvent takes an event off again; rooms are for bodies of each kind, of which the event gets a copy.
func unpackEvent(u *pack.Unpacker, i int, e *day.Event, rooms map[string]reflect.Value) {
	e.Seq = int(u.Int()) + i
	e.At = u.Time()
	if e.Boot = u.Text(); e.Boot != "" {
		e.Up = u.Float()
	}
	kind := u.Text()
	if u.Uint() == 1 {
		kind = "" // no event is of that kind
	}
	body, there := rooms[kind]
	if !there {
		t, known := kinds[kind]
		if kind == "" {
			t, known = reflect.TypeFor[day.Unknown](), true
		}
		if u.Bad = u.Bad || !known; u.Bad {
			return
		}
		body = reflect.New(t).Elem()
		rooms[kind] = body
	}
	body.SetZero()
	u.Value(body)
	e.Body = body.Interface().(day.Body)
}
