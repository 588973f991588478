package library

import (
	"fmt"
	"reflect"
	"sync"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/pack"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/shelf"
)

// What was reckoned of days is kept in the index of their home, by the sum of all that stands in them and by the version of the reckoning
// and the form of what is kept: the colours of each day, so that a vat with a new day is not reckoned anew; the pieces of each vat, so that
// none of its days need be read; what its days before the newest say of it, so that only that is.
var (
	coloursKept = sync.OnceValue(func() string { return keptAs[keptColour]("colours") })
	piecesKept  = sync.OnceValue(func() string { return keptAs[Piece]("pieces") })
	pastKept    = sync.OnceValue(func() string { return keptAs[history.Past]("past") })
)

func keptAs[T any](what string) string {
	return fmt.Sprint(what, " ", history.Reckoning, " ", pack.Form(reflect.TypeFor[T]()))
}

// keptColour is a history.KnownColour with what it is the colour of.
type keptColour struct {
	Of string
	Is history.KnownColour
}

// knowing gives days of a vat, one after the other, the colours that are known of them; keep keeps what was reckoned since.
func knowing(h shelf.Home, vat string) (know func(*history.Day), keep func()) {
	type known struct {
		name string
		is   history.Known
		had  int
	}
	var all []known
	know = func(d *history.Day) {
		d.Known = history.Known{}
		var kept []keptColour
		if sum, whole := h.Sum(vat, []string{d.Name}); whole {
			if data, ok := h.Answer(vat+"/"+d.Name, coloursKept(), sum); ok && unpacked(data, &kept) {
				for _, k := range kept {
					d.Known[k.Of] = k.Is
				}
			}
		}
		all = append(all, known{d.Name, d.Known, len(d.Known)})
	}
	return know, func() {
		for _, d := range all {
			if len(d.is) == d.had {
				continue
			}
			var kept []keptColour
			for of, is := range d.is {
				kept = append(kept, keptColour{of, is})
			}
			remember(h, vat, d.name, coloursKept(), []string{d.name}, kept)
		}
	}
}

// Life takes up days of a vat by their names, the oldest first, one after the other. What those before the newest say the index keeps.
func Life(h shelf.Home, vat string, names []string) (life *history.Life, errs []error) {
	var newest Day
	before := names
	for err := error(nil); len(before) > 0 && (newest.Name == "" || err != nil); before = before[:len(before)-1] {
		newest, err = read(h, vat, before[len(before)-1])
	}
	take := func(d Day) { life.Take(d.Past()) }
	life, known := pastKnown(h, vat, before, newest.State.Head)
	if !known {
		life = history.Begin(newest.State.Head)
		errs = readEach(h, vat, before, take)
		if past, built := life.Kept(); built && len(errs) == 0 {
			remember(h, vat, "", pastKept(), before, past)
		}
	}
	return life, append(errs, readEach(h, vat, names[len(before):], take)...)
}

// pastKnown is the life of a vat up to the days before its newest, if the index knows it and the newest day has such a head.
func pastKnown(h shelf.Home, vat string, before []string, newest day.Head) (*history.Life, bool) {
	var kept history.Past
	if !answered(h, vat, pastKept(), before, &kept) {
		return nil, false
	}
	return history.Resume(kept, newest)
}

// answered fills what to points at with what was reckoned of a vat by days of it, if the index has it.
func answered(h shelf.Home, vat, what string, by []string, to any) bool {
	sum, whole := h.Sum(vat, by)
	if !whole {
		return false
	}
	data, ok := h.Answer(vat, what, sum)
	return ok && unpacked(data, to)
}

// remember keeps what was reckoned of a vat, or of one of its days, by days of it that the index has.
func remember(h shelf.Home, vat, day, what string, by []string, v any) {
	sum, whole := h.Sum(vat, by)
	if !whole {
		return
	}
	of := vat + wording.If(day != "", "/"+day)
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
