package book

import (
	"encoding/binary"
	"fmt"
	"math"
	"reflect"
	"sync"
	"time"
)

// Values in few bytes: a struct is a mask of the fields that are not zero and those fields, a text that came before is its
// number, a time is what has passed since the one before it.

// packer packs values one behind the other.
type packer struct {
	out            []byte
	texts          map[string]int // those that were written, by their numbers from 1
	before         time.Time      // the last time that was written
	earliest, last time.Time      // of all that were
}

// unpacker takes them off again; bad says that the bytes were not packed here.
type unpacker struct {
	in     []byte
	bad    bool
	texts  []string
	before time.Time
	zone   *time.Location // of the last time that had an offset
	offset int            // that offset, in seconds
}

func (w *packer) uint(n uint64) { w.out = binary.AppendUvarint(w.out, n) }
func (w *packer) int(n int64)   { w.out = binary.AppendVarint(w.out, n) }
func (w *packer) float(f float64) {
	w.out = binary.LittleEndian.AppendUint64(w.out, math.Float64bits(f))
}

func (u *unpacker) uint() uint64 {
	n, size := binary.Uvarint(u.in)
	if size <= 0 {
		u.bad, u.in = true, nil
		return 0
	}
	u.in = u.in[size:]
	return n
}

func (u *unpacker) int() int64 {
	n, size := binary.Varint(u.in)
	if size <= 0 {
		u.bad, u.in = true, nil
		return 0
	}
	u.in = u.in[size:]
	return n
}

// bytes are the next n bytes.
func (u *unpacker) bytes(n uint64) []byte {
	if n > uint64(len(u.in)) {
		u.bad, u.in = true, nil
		return nil
	}
	out := u.in[:n]
	u.in = u.in[n:]
	return out
}

func (u *unpacker) float() float64 {
	if b := u.bytes(8); b != nil {
		return math.Float64frombits(binary.LittleEndian.Uint64(b))
	}
	return 0
}

// text writes a text, or the number of one that came before; 0 goes before a new one.
func (w *packer) text(s string) {
	if n, there := w.texts[s]; there {
		w.uint(uint64(n))
		return
	}
	if w.texts == nil {
		w.texts = map[string]int{}
	}
	w.texts[s] = len(w.texts) + 1
	w.uint(0)
	w.uint(uint64(len(s)))
	w.out = append(w.out, s...)
}

func (u *unpacker) text() string {
	switch n := u.uint(); {
	case n == 0:
		s := string(u.bytes(u.uint()))
		u.texts = append(u.texts, s)
		return s
	case n <= uint64(len(u.texts)):
		return u.texts[n-1]
	}
	u.bad = true
	return ""
}

// How a time tells its zone.
const (
	inUTC = iota
	asBefore
	atOffset
)

// time writes an instant with its offset. Which zone of that offset it is read back in is for the reader's machine, as it is
// of the text of a book.
func (w *packer) time(t time.Time) {
	if w.earliest.IsZero() || t.Before(w.earliest) {
		w.earliest = t
	}
	if t.After(w.last) {
		w.last = t
	}
	w.int(t.Unix() - w.before.Unix())
	w.uint(uint64(t.Nanosecond()))
	_, offset := t.Zone()
	_, was := w.before.Zone()
	switch {
	case t.Location() == time.UTC:
		w.uint(inUTC)
	case w.before.Location() != time.UTC && offset == was:
		w.uint(asBefore)
	default:
		w.uint(atOffset)
		w.int(int64(offset))
	}
	w.before = t
}

func (u *unpacker) time() time.Time {
	t := time.Unix(u.before.Unix()+u.int(), int64(u.uint()))
	switch u.uint() {
	case inUTC:
		t = t.UTC()
	case atOffset:
		if offset := u.int(); u.zone == nil || int(offset) != u.offset {
			u.offset = int(offset)
			u.zone = time.FixedZone("", u.offset)
		}
		fallthrough
	case asBefore:
		if u.zone == nil {
			u.bad = true
			return t
		}
		if _, here := t.Zone(); here != u.offset { // else it stays in this machine's own zone, as time.Parse has it
			t = t.In(u.zone)
		}
	default:
		u.bad = true
	}
	u.before = t
	return t
}

// value writes a value of one of the types of a day. It errs for a type that has no packed form.
func (w *packer) value(v reflect.Value) error {
	if v.Type() == reflect.TypeFor[time.Time]() {
		w.time(v.Interface().(time.Time))
		return nil
	}
	switch v.Kind() {
	case reflect.Bool:
		w.out = append(w.out, 1) // one that is false is left out, but in a list
		if !v.Bool() {
			w.out[len(w.out)-1] = 0
		}
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		w.int(v.Int())
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		w.uint(v.Uint())
	case reflect.Float64:
		w.float(v.Float())
	case reflect.String:
		w.text(v.String())
	case reflect.Pointer:
		return w.value(v.Elem())
	case reflect.Slice, reflect.Array:
		w.uint(uint64(v.Len()))
		for i := range v.Len() {
			if err := w.value(v.Index(i)); err != nil {
				return err
			}
		}
	case reflect.Struct:
		fields, err := packedFields(v.Type())
		if err != nil {
			return err
		}
		var mask uint64
		for i := range fields {
			if !v.Field(i).IsZero() {
				mask |= 1 << i
			}
		}
		w.uint(mask)
		for i := range fields {
			if mask&(1<<i) != 0 {
				if err := w.value(v.Field(i)); err != nil {
					return err
				}
			}
		}
	default:
		return fmt.Errorf("a %s has no packed form", v.Type())
	}
	return nil
}

// value fills a value, which is zero.
func (u *unpacker) value(v reflect.Value) {
	if u.bad {
		return
	}
	switch v.Kind() {
	case reflect.Bool:
		if b := u.bytes(1); b != nil {
			v.SetBool(b[0] == 1)
		}
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		v.SetInt(u.int())
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		v.SetUint(u.uint())
	case reflect.Float64:
		v.SetFloat(u.float())
	case reflect.String:
		v.SetString(u.text())
	case reflect.Pointer:
		x := reflect.New(v.Type().Elem())
		u.value(x.Elem())
		v.Set(x)
	case reflect.Slice, reflect.Array:
		n := u.uint()
		if v.Kind() == reflect.Array && n != uint64(v.Len()) || n > uint64(len(u.in)) {
			u.bad = true
			return
		}
		if v.Kind() == reflect.Slice {
			v.Set(reflect.MakeSlice(v.Type(), int(n), int(n)))
		}
		for i := range int(n) {
			u.value(v.Index(i))
		}
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[time.Time]() {
			v.Set(reflect.ValueOf(u.time()))
			return
		}
		fields, err := packedFields(v.Type())
		mask := u.uint()
		if err != nil || mask>>fields != 0 {
			u.bad = true
			return
		}
		for i := 0; mask != 0; i++ {
			if mask&1 != 0 {
				u.value(v.Field(i))
			}
			mask >>= 1
		}
	default:
		u.bad = true
	}
}

// packable are the struct types that were looked at.
var packable sync.Map

type packedForm struct {
	fields int
	err    error // why there is no packed form
}

// packedFields is how many fields a struct type has. It errs where one of them is not exported, or where there are too many for
// a mask.
func packedFields(t reflect.Type) (int, error) {
	if f, known := packable.Load(t); known {
		return f.(packedForm).fields, f.(packedForm).err
	}
	f := packedForm{fields: t.NumField()}
	if f.fields > 63 {
		f.err = fmt.Errorf("a %s has too many fields to be packed", t)
	}
	for i := range f.fields {
		if !t.Field(i).IsExported() {
			f.err = fmt.Errorf("a %s has a field of its own, which cannot be packed", t)
		}
	}
	packable.Store(t, f)
	return f.fields, f.err
}
