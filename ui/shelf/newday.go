package shelf

import (
	"errors"
	"io/fs"
	"os"
	"runtime"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"github.com/gofrs/flock"
)

// NewDay begins a day's file: DAY.toml, or DAY-2.toml if the vat has a day of that date, and so on. head.Day is the
// date; Head has the name that the day got. With an error nothing is left behind that was not there before.
func (h Home) NewDay(head day.Head) (*Writer, error) {
	if err := checkDay(head.Vat, head.Day); err != nil {
		return nil, err
	}
	return h.BeginDay(head.Vat, func() (day.Head, []day.Event, error) { return head, nil, nil })
}

// BeginDay is NewDay with the day's first events: the head and they are one file, there whole or not at all. first makes them
// while the vat is locked, so that what it reads of the vat is still so when the day stands there; its error is given back.
func (h Home) BeginDay(vat string, first func() (day.Head, []day.Event, error)) (w *Writer, err error) {
	if err := CheckVat(vat); err != nil {
		return nil, err
	}
	made, err := makeDirs(h.VatDir(vat))
	var lock *flock.Flock
	defer func() {
		if err == nil {
			return
		}
		if lock != nil {
			isNew := len(made) > 0 // the folder, and so its lock; if that stays, so does the folder
			if isNew {
				_ = os.Remove(lock.Path())
			}
			err = errors.Join(err, lock.Unlock())
			if isNew && runtime.GOOS == "windows" { // which removes no file that is open, so no lock that another holds by now
				_ = os.Remove(lock.Path())
			}
		}
		unmake(made)
	}()
	if err != nil {
		return nil, err
	}
	if lock, err = h.lockVat(vat); err != nil {
		return nil, err
	}
	head, events, err := first()
	if err != nil {
		return nil, err
	}
	if err := checkDay(head.Vat, head.Day); err != nil {
		return nil, err
	}
	var texts []byte
	last := 0
	for _, e := range events {
		text, err := book.EncodeEvent(e)
		if err != nil {
			return nil, err
		}
		texts, last = append(append(texts, '\n'), text...), max(last, e.Seq)
	}
	date, _ := dateOf(head.Day) // it was checked
	for n := 1; ; n++ {
		head.Day = numbered(date, n)
		data, err := book.EncodeHead(head)
		if err != nil {
			return nil, err
		}
		path := h.DayFile(head.Vat, head.Day)
		if _, err := os.Lstat(path); err == nil {
			continue
		}
		data = append(data, texts...)
		err = h.place([]book.Leaf{{Vat: head.Vat, Day: head.Day, Text: data}}) // a kill leaves no half of it
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return nil, err
		}
		w := &Writer{pen: pen{home: h, path: path, lock: lock, size: int64(len(data))}, head: head, last: last}
		w.whose = h.whose(head.Vat, head.Day, book.ReadOn(h.now(), path, data).HeadCRC)
		return w, nil
	}
}
