package pack

import (
	"fmt"
	"hash/crc32"
	"reflect"
	"strings"
)

// Form names how values of some types are packed: the checksum of the types, and of all that are in them. What another Form packed
// cannot be unpacked.
func Form(types ...reflect.Type) string {
	var b strings.Builder
	told := map[reflect.Type]bool{}
	var tell func(reflect.Type)
	tell = func(t reflect.Type) {
		fmt.Fprint(&b, t, ";")
		if told[t] {
			return
		}
		told[t] = true
		switch t.Kind() {
		case reflect.Struct:
			for i := range t.NumField() {
				b.WriteString(t.Field(i).Name + " ")
				tell(t.Field(i).Type)
			}
		case reflect.Slice, reflect.Array, reflect.Pointer:
			tell(t.Elem())
		default:
			b.WriteString(t.Kind().String())
		}
	}
	for _, t := range types {
		tell(t)
	}
	return fmt.Sprintf("%08x", crc32.ChecksumIEEE([]byte(b.String())))
}
