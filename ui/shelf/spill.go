package shelf

import (
	"cmp"
	"errors"
	"fmt"
	"hash/crc32"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.org/vatside/model/book"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// A spill keeps the events that a day's file refused, in a folder away from the home. The policy:
//   - it is written only by who holds the lock of the vat, one write and one fsync an event, as the day itself is;
//   - every reader reads the day and its spill as one;
//   - when the day takes writes again, or is next opened, its events are appended to it, in order and once, and the spill is
//     kept as FILE.merged-N. It is never deleted;
//   - a block that cannot be read goes along as it stands; a spill that cannot be merged stays, holds no other up, and is told.

// Away tells of the events of a day that lie in a spill. The zero Away is none.
type Away struct {
	File    string // the newest spill
	Events  int    // not in the day's file yet
	Passing bool   // the spill does not outlive a restart of the machine
	Why     error  // what the day's file refuses them with
}

// spillName begins the names of a day's spills.
func spillName(vat, day string) string { return vat + "." + day + "." }

// spills are those of a day, with the path of each; f is the day's file. One whose head names this home belongs to the day if
// it is of the same head: another day of that name may have been there before. One whose home is gone from where it was belongs
// to the day with that head, since a home may have been moved, or a stick mounted elsewhere. One that cannot be read is known
// by its name.
func (h Home) spills(vat, day string, f book.Frame) []book.Spill {
	real := h.real()
	var out []book.Spill
	for _, p := range h.places {
		for _, path := range h.spillsIn(p, spillName(vat, day)) {
			data, err := readFile(path)
			s := book.ReadSpill(h.now(), path, data)
			if err != nil {
				s.HeadErr = err
			}
			same := s.HeadCRC == f.HeadCRC || s.HeadCRC == f.HeadWas // a hand may have mended it since
			switch {
			case s.HeadErr != nil:
				if strings.HasPrefix(filepath.Base(path), spillFile(book.SpillHead{Home: real, Vat: vat, Day: day})) {
					out = append(out, s)
				}
			case s.Vat != vat || s.Day != day || s.Holds() == 0:
			case s.Home == real && (same || f.HeadWas == 0), same && gone(Open(s.Home).DayFile(vat, day)):
				out = append(out, s)
			}
		}
	}
	sorted.By(out, func(a, b book.Spill) int { return cmp.Compare(a.First(), b.First()) })
	return out
}

// spillFile is how the names of the spills of a home's day begin.
func spillFile(of book.SpillHead) string {
	return fmt.Sprintf("%s%08x", spillName(of.Vat, of.Day), crc32.ChecksumIEEE([]byte(of.Home)))
}

// spillFiles are the names of the files that may be spills of a vat.
func (h Home) spillFiles(vat string) []string {
	var out []string
	for _, p := range h.places {
		for _, path := range h.spillsIn(p, vat+".") {
			out = append(out, filepath.Base(path))
		}
	}
	return out
}

// spillsIn are the spills in a place whose names begin so. A home with an index lists a folder that has been still once.
func (h Home) spillsIn(p place, begin string) []string {
	info, err := os.Lstat(p.dir)
	if h.index == nil || err != nil || !h.still(info) {
		return p.files(begin)
	}
	if ownFolder(p.dir) != nil {
		return nil
	}
	x := h.index
	x.lists.Lock()
	defer x.lists.Unlock()
	l, there := x.spills[p.dir]
	if !there || !l.changed.Equal(info.ModTime()) {
		if x.spills == nil {
			x.spills = map[string]listed{}
		}
		l = listed{info.ModTime(), p.files("")}
		x.spills[p.dir] = l
	}
	return wording.Only(l.paths, func(path string) bool { return strings.HasPrefix(filepath.Base(path), begin) })
}

// files are the spills in a place whose names begin so. A folder that others can write to is not looked into.
func (p place) files(begin string) []string {
	if ownFolder(p.dir) != nil {
		return nil
	}
	entries, _ := readDir(p.dir) // a place that is not there has none
	return wording.Some(entries, func(e fs.DirEntry) (string, bool) {
		return filepath.Join(p.dir, e.Name()), strings.HasPrefix(e.Name(), begin) && strings.HasSuffix(e.Name(), ".toml") && e.Type().IsRegular()
	})
}

// makeOwnFolder makes a folder that nobody else can look into.
func makeOwnFolder(dir string) error {
	if err := makeDir(filepath.Dir(dir)); err != nil {
		return err
	}
	if err := os.Mkdir(dir, 0o700); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	return ownFolder(dir)
}

// real is the home's folder without links, so that a spill finds its home by either name.
func (h Home) real() string {
	if dir, err := filepath.EvalSymlinks(h.dir); err == nil {
		return dir
	}
	return h.dir
}

// refuge is the spill of a writer: the file, and the events in it that the day's file does not have yet.
type refuge struct {
	pen
	passing bool
	texts   [][]byte // in the spill and not in the day
	why     error    // what the day's file refused them with
}

// keep appends a block to the spill, which it begins in the first place that takes it.
func (r *refuge) keep(h Home, whose book.SpillHead, texts ...[]byte) error {
	whole := slices.Concat(texts...)
	if r.path != "" {
		if err := r.add(whole); err == nil {
			r.texts = append(r.texts, texts...)
			return nil
		}
	}
	if len(h.places) == 0 {
		return errors.New("there is none")
	}
	var errs []error
	for _, p := range h.places {
		err := r.begin(h, p, whose, whole)
		if err == nil {
			r.texts, r.passing = append(r.texts, texts...), p.passing
			return nil
		}
		errs = append(errs, fmt.Errorf("%s: %w", p.dir, err))
	}
	return errors.Join(errs...)
}

// goOn takes up a spill that lies there already; texts are its events that the day does not have.
func (r *refuge) goOn(h Home, path string, texts [][]byte) {
	if r.path != path {
		r.pen = pen{home: h, path: path}
	}
	r.texts = texts
	for _, p := range h.places {
		if filepath.Dir(path) == p.dir {
			r.passing = p.passing
		}
	}
}

// begin writes a new spill with its first events, whole or not at all.
func (r *refuge) begin(h Home, p place, whose book.SpillHead, events []byte) error {
	if err := makeOwnFolder(p.dir); err != nil {
		return err
	}
	name := spillFile(whose)
	data := slices.Concat(book.EncodeSpillHead(whose), []byte{'\n'}, events)
	f, path, err := h.createFirst(func(n int) string { return filepath.Join(p.dir, numbered(name, n)+".toml") }, data)
	if err != nil {
		return err
	}
	if r.file != nil {
		_ = r.file.Close() // the spill before, in a place that takes no more
	}
	r.pen = pen{home: h, path: path, file: f, size: int64(len(data))}
	return nil
}

// setMerged gives a spill whose events are in their day its last name.
func setMerged(path string) error {
	name := beside(strings.TrimSuffix(path, ".toml"), "merged")
	for n := 1; ; n++ {
		switch _, err := os.Lstat(name(n)); {
		case err == nil:
			continue
		case !errors.Is(err, fs.ErrNotExist):
			return err
		}
		if err := os.Rename(path, name(n)); err != nil {
			return err
		}
		return syncDir(filepath.Dir(path))
	}
}
