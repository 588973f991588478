package library

import (
	"fmt"
	"reflect"
	"sync"

	"example.org/vatside/model/history"
	"example.org/vatside/model/pack"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/shelf"
)

// What was reckoned of days is kept in the index of their home, by the sum of all that stands in them and by the version of the
// reckoning and the form of what is kept: the colours of each day, so that a vat with a new day is not reckoned anew, and the pieces of each vat, so that none
// of its days need be read.
var (
	coloursKept = sync.OnceValue(func() string { return keptAs[keptColour]("colours") })
	piecesKept  = sync.OnceValue(func() string { return keptAs[Piece]("pieces") })
)

func keptAs[T any](what string) string {
	return fmt.Sprint(what, " ", history.Reckoning, " ", pack.Form(reflect.TypeFor[T]()))
}

// keptColour is a history.KnownColour with what it is the colour of.
type keptColour struct {
	Of string
	Is history.KnownColour
}

// knowing gives the days of a vat the colours that are known of them; keep keeps what was reckoned since.
func knowing(h shelf.Home, vat string, days history.Vat) (keep func()) {
	had := make([]int, len(days))
	for i, d := range days {
		days[i].Known = history.Known{}
		sum, whole := h.Sum(vat, []string{d.Name})
		if !whole {
			continue
		}
		var kept []keptColour
		if data, ok := h.Answer(vat+"/"+d.Name, coloursKept(), sum); ok && unpacked(data, &kept) {
			for _, k := range kept {
				days[i].Known[k.Of] = k.Is
			}
		}
		had[i] = len(days[i].Known)
	}
	return func() {
		for i, d := range days {
			if len(d.Known) == had[i] {
				continue
			}
			var kept []keptColour
			for of, is := range d.Known {
				kept = append(kept, keptColour{of, is})
			}
			remember(h, vat, d.Name, coloursKept(), []string{d.Name}, kept)
		}
	}
}

// piecesKnown are the pieces of a vat, if they are known of all its days.
func piecesKnown(h shelf.Home, vat string, names []string) (pieces []Piece, ok bool) {
	sum, whole := h.Sum(vat, names)
	if !whole {
		return nil, false
	}
	data, ok := h.Answer(vat, piecesKept(), sum)
	return pieces, ok && unpacked(data, &pieces)
}

// remember keeps what was reckoned of a vat, or of one of its days, by days of it that the index has.
func remember(h shelf.Home, vat, day, what string, by []string, v any) {
	sum, whole := h.Sum(vat, by)
	if !whole {
		return
	}
	of := vat
	of += wording.If(day != "", "/"+day)
	var p pack.Packer
	if err := p.Value(reflect.ValueOf(v)); err == nil {
		h.Remember(of, what, sum, p.Out)
	}
}

// unpacked fills what to points at; false where the bytes are of something else.
func unpacked(data []byte, to any) bool {
	u := pack.Unpacker{In: data}
	u.Value(reflect.ValueOf(to).Elem())
	return !u.Bad && len(u.In) == 0
}
