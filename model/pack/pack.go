// Package pack writes values in few bytes, for what can be thrown away and made again: a struct is a mask of the fields that are
// not zero and those fields, a text that came before is its number, a time is what has passed since the one before it. It holds
// for one version of the types; whoever keeps such bytes keeps a checksum and the version with them.
package pack

import (
	"encoding/binary"
	"fmt"
	"math"
	"reflect"
	"sync"
	"time"
)

// Packer packs values one behind the other. The zero Packer is ready for use.
type Packer struct {
	Out            []byte
	Earliest, Last time.Time      // of all times that were written
	texts          map[string]int // those that were written, by their numbers from 1
	before         time.Time      // the last time that was written
}

// Unpacker takes them off again. Bad says that the bytes were not packed so: what was taken off is then worth nothing. What it
// gives may share the bytes.
type Unpacker struct {
	In     []byte
	Bad    bool
	texts  []string
	before time.Time
	zone   *time.Location // of the last time that had an offset
	offset int            // that offset, in seconds
}

// Uint writes a number that is not below zero.
func (w *Packer) Uint(n uint64) { w.Out = binary.AppendUvarint(w.Out, n) }

// Int writes a number.
func (w *Packer) Int(n int64) { w.Out = binary.AppendVarint(w.Out, n) }

// Float writes a number with all its bits.
func (w *Packer) Float(f float64) {
	w.Out = binary.LittleEndian.AppendUint64(w.Out, math.Float64bits(f))
}

// Uint takes off what Packer.Uint wrote.
func (u *Unpacker) Uint() uint64 {
	n, size := binary.Uvarint(u.In)
	return past(u, n, size)
}

// Int takes off what Packer.Int wrote.
func (u *Unpacker) Int() int64 {
	n, size := binary.Varint(u.In)
	return past(u, n, size)
}

// past is a number that was read, and goes on behind it; 0 where there was none.
func past[T uint64 | int64](u *Unpacker, n T, size int) T {
	if size <= 0 {
		u.Bad, u.In = true, nil
		return 0
	}
	u.In = u.In[size:]
	return n
}

func (u *Unpacker) bytes(n uint64) []byte {
	if n > uint64(len(u.In)) {
		u.Bad, u.In = true, nil
		return nil
	}
	out := u.In[:n]
	u.In = u.In[n:]
	return out
}

// Float takes off what Packer.Float wrote.
func (u *Unpacker) Float() float64 {
	if b := u.bytes(8); b != nil {
		return math.Float64frombits(binary.LittleEndian.Uint64(b))
	}
	return 0
}

// Text writes a text, or the number of one that came before; 0 goes before a new one.
func (w *Packer) Text(s string) {
	if n, there := w.texts[s]; there {
		w.Uint(uint64(n))
		return
	}
	if w.texts == nil {
		w.texts = map[string]int{}
	}
	w.texts[s] = len(w.texts) + 1
	w.Uint(0)
	w.Uint(uint64(len(s)))
	w.Out = append(w.Out, s...)
}

// Text takes off what Packer.Text wrote.
func (u *Unpacker) Text() string {
	switch n := u.Uint(); {
	case n == 0:
		s := string(u.bytes(u.Uint()))
		u.texts = append(u.texts, s)
		return s
	case n <= uint64(len(u.texts)):
		return u.texts[n-1]
	}
	u.Bad = true
	return ""
}

// mostGrown is how many bytes of memory a list takes at most for each byte that is left of what was packed: ten are usual.
const mostGrown = 64

// How a time tells its zone.
const (
	inUTC = iota
	asBefore
	atOffset
)

// Time writes an instant with its offset. Which zone of that offset it is read back in is for the reader's machine, as it is
// of the text of a book.
func (w *Packer) Time(t time.Time) {
	if w.Earliest.IsZero() || t.Before(w.Earliest) {
		w.Earliest = t
	}
	if t.After(w.Last) {
		w.Last = t
	}
	w.Int(t.Unix() - w.before.Unix())
	w.Uint(uint64(t.Nanosecond()))
	_, offset := t.Zone()
	_, was := w.before.Zone()
	switch {
	case t.Location() == time.UTC:
		w.Uint(inUTC)
	case w.before.Location() != time.UTC && offset == was:
		w.Uint(asBefore)
	default:
		w.Uint(atOffset)
		w.Int(int64(offset))
	}
	w.before = t
}

// Time takes off what Packer.Time wrote.
func (u *Unpacker) Time() time.Time {
	t := time.Unix(u.before.Unix()+u.Int(), int64(u.Uint()))
	switch u.Uint() {
	case inUTC:
		t = t.UTC()
	case atOffset:
		if offset := u.Int(); u.zone == nil || int(offset) != u.offset {
			u.offset = int(offset)
			u.zone = time.FixedZone("", u.offset)
		}
		fallthrough
	case asBefore:
		if u.zone == nil {
			u.Bad = true
			return t
		}
		if _, here := t.Zone(); here != u.offset { // else it stays in this machine's own zone, as time.Parse has it
			t = t.In(u.zone)
		}
	default:
		u.Bad = true
	}
	u.before = t
	return t
}

// Value writes a value. It errs for a type that has no packed form: a map, an interface, a struct with fields of its own.
func (w *Packer) Value(v reflect.Value) error {
	if v.Type() == reflect.TypeFor[time.Time]() {
		w.Time(v.Interface().(time.Time))
		return nil
	}
	switch v.Kind() {
	case reflect.Bool:
		w.Out = append(w.Out, 1) // one that is false is left out, but in a list
		if !v.Bool() {
			w.Out[len(w.Out)-1] = 0
		}
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		w.Int(v.Int())
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		w.Uint(v.Uint())
	case reflect.Float64:
		w.Float(v.Float())
	case reflect.String:
		w.Text(v.String())
	case reflect.Pointer:
		return w.Value(v.Elem())
	case reflect.Slice, reflect.Array:
		w.Uint(uint64(v.Len()))
		if v.Type() == reflect.TypeFor[[]byte]() {
			w.Out = append(w.Out, v.Bytes()...)
			return nil
		}
		for i := range v.Len() {
			if err := w.Value(v.Index(i)); err != nil {
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
		w.Uint(mask)
		for i := range fields {
			if mask&(1<<i) != 0 {
				if err := w.Value(v.Field(i)); err != nil {
					return err
				}
			}
		}
	default:
		return fmt.Errorf("a %s has no packed form", v.Type())
	}
	return nil
}

// Value fills a value, which is zero.
func (u *Unpacker) Value(v reflect.Value) {
	if u.Bad {
		return
	}
	switch v.Kind() {
	case reflect.Bool:
		if b := u.bytes(1); b != nil {
			v.SetBool(b[0] == 1)
		}
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		v.SetInt(u.Int())
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		v.SetUint(u.Uint())
	case reflect.Float64:
		v.SetFloat(u.Float())
	case reflect.String:
		v.SetString(u.Text())
	case reflect.Pointer:
		x := reflect.New(v.Type().Elem())
		u.Value(x.Elem())
		v.Set(x)
	case reflect.Slice, reflect.Array:
		n := u.Uint()
		left := uint64(len(u.In))
		if v.Kind() == reflect.Array && n != uint64(v.Len()) || n > left || n*uint64(v.Type().Elem().Size()) > mostGrown*left {
			u.Bad = true
			return
		}
		if v.Type() == reflect.TypeFor[[]byte]() {
			v.SetBytes(u.bytes(n))
			return
		}
		if v.Kind() == reflect.Slice {
			v.Set(reflect.MakeSlice(v.Type(), int(n), int(n)))
		}
		for i := range int(n) {
			u.Value(v.Index(i))
		}
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[time.Time]() {
			v.Set(reflect.ValueOf(u.Time()))
			return
		}
		fields, err := packedFields(v.Type())
		mask := u.Uint()
		if err != nil || mask>>fields != 0 {
			u.Bad = true
			return
		}
		for i := 0; mask != 0; i++ {
			if mask&1 != 0 {
				u.Value(v.Field(i))
			}
			mask >>= 1
		}
	default:
		u.Bad = true
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
