package shelf

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"os"
	"path/filepath"
	"reflect"
	"sync"

	"example.org/vatside/model/pack"
	"example.org/vatside/model/sorted"
)

// written is an index as it stands in its file: how it begins, what is in it packed, and the sum of both.
type written struct {
	Recipes [][]byte
	Days    []writtenDay
	Answers []writtenAnswer
}

type writtenDay struct {
	Name string // VAT/DAY
	Is   indexed
}

type writtenAnswer struct {
	To question
	Is answer
}

// indexKept: of so many homes the indices are kept, the newest.
const indexKept = 16

// castagnoli is the second of the two checksums of textSum.
var castagnoli = sync.OnceValue(func() *crc32.Table { return crc32.MakeTable(crc32.Castagnoli) })

// textSum is the checksum of a text: its CRC-32s by IEEE and by Castagnoli, which together tell as much as one CRC of 64 bits, the
// product of both. Each has a machine instruction.
func textSum(text []byte) uint64 {
	return uint64(crc32.ChecksumIEEE(text))<<32 | uint64(crc32.Checksum(text, castagnoli()))
}

// readIndex reads an index that begins so; an empty one where there is none.
func readIndex(path, begins string) (w written) {
	if ownFolder(filepath.Dir(path)) != nil {
		return w
	}
	data, err := readFile(path)
	if err != nil {
		return w
	}
	at := len(data) - 8
	if at < len(begins) || !bytes.HasPrefix(data, []byte(begins)) || binary.LittleEndian.Uint64(data[at:]) != textSum(data[:at]) {
		return w
	}
	u := pack.Unpacker{In: data[len(begins):at]}
	if u.Value(reflect.ValueOf(&w).Elem()); u.Bad || len(u.In) > 0 {
		return written{}
	}
	return w
}

// write puts the index into the place of the old one. Of too many indices the oldest are taken away.
func (w written) write(path, begins string) error {
	room := len(begins) + 64*(len(w.Days)+len(w.Answers)+1)
	for _, d := range w.Days {
		room += len(d.Name) + len(d.Is.Day) + lastBytes
	}
	for _, a := range w.Answers {
		room += len(a.To.Of) + len(a.Is.Data)
	}
	p := pack.Packer{Out: append(make([]byte, 0, room), begins...)}
	if err := p.Value(reflect.ValueOf(w)); err != nil {
		return err
	}
	dir := filepath.Dir(path)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	if err := ownFolder(dir); err != nil {
		return err
	}
	unsynced := func(*os.File) error { return nil } // what a power cut leaves of it does not fit its sum
	if err := swapIn(path, ".new-*", binary.LittleEndian.AppendUint64(p.Out, textSum(p.Out)), unsynced); err != nil {
		return err
	}
	return thinOut(dir)
}

// thinOut takes the oldest of too many indices away, and what writers that were killed left of theirs.
func thinOut(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) <= indexKept {
		return err
	}
	type old struct {
		name string
		at   int64
	}
	var all []old
	for _, e := range entries {
		if info, err := e.Info(); err == nil {
			all = append(all, old{e.Name(), info.ModTime().UnixNano()})
		}
	}
	sorted.By(all, func(a, b old) int { return int(min(max(b.at-a.at, -1), 1)) })
	for _, o := range all[min(indexKept, len(all)):] {
		err = errors.Join(err, os.Remove(filepath.Join(dir, o.name)))
	}
	return err
}
