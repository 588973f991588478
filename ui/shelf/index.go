package shelf

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"runtime/debug"
	"slices"
	"sync"
	"time"

	"github.com/adrg/xdg"

	"example.org/vatside/model/book"
	"example.org/vatside/model/pack"
	"example.org/vatside/model/wording"
)

// An index remembers what the days of a home said when they were last read, so that they need not be understood again. The
// policy:
//   - it is one file a home in the platform's cache folder, never in the home; what is in it can be made again, and is, by
//     whatever reads the days next;
//   - it is never believed against the files: which days there are the folders say, and a day of it holds only while its file has
//     the length, the time of change and the last bytes, with the last checksum, that it had. A day with a spill is always read;
//   - it has only days whose files have been still for a minute: a disk may tell two changes as one time. Of a file that is whole
//     it has all that stands in it, of others only when they were;
//   - one that cannot be read, does not fit its checksum, or is of another home, version of the program or year counts as none;
//   - it is written whole and renamed into place. Of two programs that write at once one is forgotten. What the cache folder
//     refuses is no matter: nothing is told, and the files are read.

// indexForm is the number of what the index says of a day, raised when it says something else of the same file: when that was, and
// whether it is open. Which fields it has goes besides.
const indexForm = 1

const (
	stillFor  = time.Minute // for so long a file has not changed
	lastBytes = 32          // of a file, with its last end line
)

// index is the index of one home, shared by the copies of its Home. Nil remembers nothing.
type index struct {
	dir     string
	mu      sync.Mutex
	read    bool // the file was looked at
	changed bool // there is something to write
	days    map[string]*indexed
	answers map[question]answer
	recipes *book.Recipes

	lists  sync.Mutex
	spills map[string]listed // by the folder of their place
}

// listed are the spills that lay in a folder when that was last changed.
type listed struct {
	changed time.Time
	paths   []string
}

// indexed is what an index has of a day.
type indexed struct {
	Size    int64
	Changed int64 // nanoseconds since 1970
	Last    string
	From    int64 // of its events, nanoseconds since 1970
	To      int64
	Timed   bool // From and To are known
	Open    bool
	Sum     uint64 // of the whole file; 0 where only its ends were looked at
	Early   int64  // the earliest and the latest time in it that is known, in seconds since 1970: it says the same while both can be
	Late    int64
	Day     []byte // packed; nil where the file is not whole, or Sum is 0

	Held bool // its last bytes were compared by this program
}

// question is what was reckoned of a day or a vat.
type question struct{ Of, What string }

// answer is what came of it, and the sum of the days by which it was reckoned.
type answer struct {
	By   uint64
	Data []byte
}

// IndexFolder is where the indices of this machine lie; empty where the platform has no place for them.
func IndexFolder() string {
	return wording.If(filepath.IsAbs(xdg.CacheHome), filepath.Join(xdg.CacheHome, "vatside", "index"))
}

// Indexed is the home with its index in a folder, which is made when it is first written; without one where the folder is empty.
func (h Home) Indexed(dir string) Home {
	if h.index = nil; dir != "" && h.today != nil {
		h.index = &index{dir: dir}
	}
	return h
}

// indexFile is the index of the home, and how it begins.
func (h Home) indexFile() (path, begins string) {
	home := h.real()
	build := ""
	if info, ok := debug.ReadBuildInfo(); ok {
		build = info.Main.Version
	}
	return filepath.Join(h.index.dir, fmt.Sprintf("%016x", checksum(home))),
		fmt.Sprintf("vatside index %d %s %s %s\n%q %d\n", indexForm, pack.Form(reflect.TypeFor[written]()), book.Packing(), build, home, h.now().Year())
}

// opened locks the index, which is read the first time; an empty one where there is none.
func (h Home) opened() (x *index, unlock func()) {
	if x = h.index; x == nil {
		return &index{}, func() {}
	}
	x.mu.Lock()
	if !x.read {
		x.read = true
		path, begins := h.indexFile()
		w := readIndex(path, begins)
		x.recipes, x.days, x.answers = book.RecipesOf(w.Recipes), map[string]*indexed{}, map[question]answer{}
		for i := range w.Days {
			x.days[w.Days[i].Name] = &w.Days[i].Is
		}
		for _, a := range w.Answers {
			x.answers[a.To] = a.Is
		}
	}
	return x, x.mu.Unlock
}

// held is what the index has of a day, if the day's file is as it was; info is of the file as it is now.
func (x *index) held(h Home, vat, day string, info fs.FileInfo) (*indexed, bool) {
	e := x.days[vat+"/"+day]
	if e == nil || info.Size() != e.Size || info.ModTime().UnixNano() != e.Changed || !e.canBe(h.now()) {
		return nil, false
	}
	if !e.Held {
		if e.Held = h.endOf(h.DayFile(vat, day), info) == e.Last; !e.Held {
			delete(x.days, vat+"/"+day)
			return nil, false
		}
	}
	return e, true
}

// endOf are the last bytes of a file; info is of the file as it is now.
func (h Home) endOf(path string, info fs.FileInfo) string {
	if text, ok := h.seen(path, info); ok {
		return string(text[max(0, len(text)-lastBytes):])
	}
	f, err := openToRead(path)
	if err != nil {
		return ""
	}
	defer f.Close()
	end := make([]byte, min(info.Size(), lastBytes))
	if _, err := f.ReadAt(end, info.Size()-int64(len(end))); err != nil {
		return ""
	}
	return string(end)
}

// canBe tells whether the times in the day can be, as today goes.
func (e *indexed) canBe(today time.Time) bool {
	return book.CanBe(time.Unix(e.Early, 0), today) && book.CanBe(time.Unix(e.Late, 0), today)
}

// book is the day that the index has; false where it has not all of it, or where a time in it cannot be by now.
func (x *index) book(h Home, vat, day string, e *indexed) (book.Book, bool) {
	if e.Day == nil || !e.canBe(h.now()) {
		return book.Book{}, false
	}
	b, err := book.Unpack(h.DayFile(vat, day), e.Day, x.recipes)
	return b, err == nil
}

// recalled is a day as the index has it; false where it has to be read.
func (h Home) recalled(vat, day string) (book.Book, bool) {
	if h.index == nil || checkDay(vat, day) != nil || h.maySpill(vat, day) {
		return book.Book{}, false
	}
	info, err := os.Stat(h.DayFile(vat, day))
	if err != nil {
		return book.Book{}, false
	}
	x, unlock := h.opened()
	defer unlock()
	if e, held := x.held(h, vat, day, info); held {
		return x.book(h, vat, day, e)
	}
	return book.Book{}, false
}

// same is the day of a text that was read just now, if the index has it of the very same text.
func (h Home) same(vat, day string, text []byte) (book.Book, bool) {
	x, unlock := h.opened()
	defer unlock()
	if h.maySpill(vat, day) {
		return book.Book{}, false
	}
	if e := x.days[vat+"/"+day]; e != nil && e.Day != nil && e.Size == int64(len(text)) && e.Sum == textSum(text) {
		return x.book(h, vat, day, e)
	}
	return book.Book{}, false
}

// indexedExtent is when a day was, as the index has it.
func (h Home) indexedExtent(vat, day string, info fs.FileInfo) (extent, bool) {
	x, unlock := h.opened()
	defer unlock()
	e, held := x.held(h, vat, day, info)
	if !held {
		return extent{}, false
	}
	out := extent{open: e.Open}
	if e.Timed {
		out.from, out.to = time.Unix(0, e.From), time.Unix(0, e.To)
	}
	return out, true
}

// still tells whether a file has not changed for so long that its time of change tells of each change.
func (h Home) still(info fs.FileInfo) bool { return h.now().Sub(info.ModTime()) >= stillFor }

// learnExtent keeps when a day was. info is of the file before it was looked at.
func (h Home) learnExtent(vat, day string, info fs.FileInfo, is extent) {
	if h.index == nil || !h.still(info) {
		return
	}
	if e, ok := entryOf(info, h.endOf(h.DayFile(vat, day), info), is); ok {
		h.learn(vat, day, e)
	}
}

// learnDay keeps a day that was read whole. info is of the file before it was read.
func (h Home) learnDay(vat, day string, info fs.FileInfo, text []byte, b book.Book) {
	if h.index == nil || !h.still(info) || info.Size() != int64(len(text)) {
		return
	}
	is, err := h.extentIn(vat, day, text)
	if err != nil {
		return
	}
	e, ok := entryOf(info, string(text[max(0, len(text)-lastBytes):]), is)
	if !ok {
		return
	}
	e.Sum = textSum(text)
	if p, err := h.packed(b); err == nil {
		e.Day, e.Early, e.Late = bytes.Clone(p.Data), p.Earliest.Unix(), p.Last.Unix()
	}
	h.learn(vat, day, e)
}

func (h Home) packed(b book.Book) (book.Packed, error) {
	x, unlock := h.opened()
	defer unlock()
	return book.Pack(b, x.recipes)
}

// entryOf is what the index has of a day that is known by its extent; false where that cannot be kept.
func entryOf(info fs.FileInfo, last string, is extent) (*indexed, bool) {
	e := &indexed{Size: info.Size(), Changed: info.ModTime().UnixNano(), Last: last, Held: true, Open: is.open}
	e.Timed = !is.from.IsZero() && !is.to.IsZero()
	if !e.Timed {
		return e, is.from.IsZero() && is.to.IsZero()
	}
	e.From, e.To, e.Early, e.Late = is.from.UnixNano(), is.to.UnixNano(), is.from.Unix(), is.to.Unix()
	return e, time.Unix(0, e.From).Equal(is.from) && time.Unix(0, e.To).Equal(is.to) // some three centuries from 1970 it is not
}

// learn puts what was read of a day into the index, unless that has the same already, or more.
func (h Home) learn(vat, day string, e *indexed) {
	x, unlock := h.opened()
	defer unlock()
	if was := x.days[vat+"/"+day]; was != nil && was.Size == e.Size && was.Changed == e.Changed && was.Last == e.Last && (e.Sum == 0 || e.Sum == was.Sum) {
		return
	}
	x.days[vat+"/"+day], x.changed = e, true
}

// Sum is the checksum of all that stands in days of a vat; false where the index does not have each of them.
func (h Home) Sum(vat string, days []string) (uint64, bool) {
	x, unlock := h.opened()
	defer unlock()
	var all []byte
	for _, d := range days {
		info, err := os.Stat(h.DayFile(vat, d))
		if err != nil || h.maySpill(vat, d) {
			return 0, false
		}
		e, held := x.held(h, vat, d, info)
		if !held || e.Day == nil {
			return 0, false
		}
		all = append(all, d...)
		all = binary.LittleEndian.AppendUint64(binary.LittleEndian.AppendUint64(all, uint64(e.Size)), e.Sum)
	}
	return textSum(all), true
}

// Answer is what was reckoned of a vat or of VAT/DAY by days of a sum.
func (h Home) Answer(of, what string, by uint64) ([]byte, bool) {
	x, unlock := h.opened()
	defer unlock()
	a, there := x.answers[question{of, what}]
	return a.Data, there && a.By == by
}

// Remember keeps what was reckoned of a vat or of VAT/DAY by days of a sum.
func (h Home) Remember(of, what string, by uint64, data []byte) {
	if h.index == nil {
		return
	}
	x, unlock := h.opened()
	defer unlock()
	x.answers[question{of, what}], x.changed = answer{by, data}, true
}

// maySpill tells whether a file of a day's events may lie elsewhere.
func (h Home) maySpill(vat, day string) bool {
	begin := spillName(vat, day)
	return slices.ContainsFunc(h.places, func(p place) bool { return len(h.spillsIn(p, begin)) > 0 })
}

// KeepIndex writes the index if there is something new in it. It tells of no failure: without an index the files are read.
func (h Home) KeepIndex() {
	x := h.index
	if x == nil {
		return
	}
	x.mu.Lock()
	defer x.mu.Unlock()
	if !x.changed { // nor read, if nobody asked for a day
		return
	}
	x.changed = false
	vats, err := h.Vats()
	if err != nil {
		return
	}
	there := map[string]bool{}
	for _, v := range vats {
		there[v] = true
		days, err := h.named(v)
		if err != nil {
			return
		}
		for _, d := range days {
			there[v+"/"+d] = true
		}
	}
	w := written{Recipes: x.recipes.Packed()}
	for name, e := range x.days {
		if there[name] {
			w.Days = append(w.Days, writtenDay{name, *e})
			w.Days[len(w.Days)-1].Is.Held = false
		}
	}
	for to, a := range x.answers {
		if there[to.Of] {
			w.Answers = append(w.Answers, writtenAnswer{to, a})
		}
	}
	path, begins := h.indexFile()
	_ = w.write(path, begins) // no matter
}
