package command

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime/metrics"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/testdata/bench/days"
)

// The limits of one command over a spoilt day. The time is generous: other workers of the fuzzing are on the machine too.
const (
	mostFuzzTime   = 20 * time.Second
	mostFuzzMemory = 600 << 20 // bytes of the heap of the test, in which one command runs at a time
)

// watch ends the test process when one command takes too long or too much: nothing else can end a command that hangs.
type watch struct {
	since atomic.Int64 // when the command began, ns; 0: none runs
	what  atomic.Pointer[string]
}

func (w *watch) begin(what string) {
	w.what.Store(&what)
	w.since.Store(time.Now().UnixNano())
}

func (w *watch) end() { w.since.Store(0) }

func (w *watch) run() {
	heap := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
	for range time.Tick(100 * time.Millisecond) {
		since := w.since.Load()
		if since == 0 {
			continue
		}
		if metrics.Read(heap); heap[0].Value.Uint64() > mostFuzzMemory {
			panic(fmt.Sprintf("%s: %d MB", *w.what.Load(), heap[0].Value.Uint64()>>20))
		}
		if took := time.Since(time.Unix(0, since)); took > mostFuzzTime {
			panic(fmt.Sprintf("%s: no end after %s", *w.what.Load(), took.Round(time.Second)))
		}
	}
}

// fuzzedCommands is how many commands one input goes through: all of them take half a second, and the inputs choose.
const fuzzedCommands = 3

// FuzzCommands spoils a whole day by edits and asks commands that read a home: each ends in time, with 0, 1 or 3, and says
// why when it is not 0. The first byte of the input chooses the day and whether it is signed anew, the second the commands.
func FuzzCommands(f *testing.F) {
	f.Add([]byte{0, 0})
	f.Add([]byte{1, 5, 3, 1, 200, 7, 9})
	f.Add([]byte{2, 10, 5, 0, 30, 0, 0, 6, 0, 9, 0, 0})
	f.Add([]byte{3, 15, 0, 0, 70, 4, 11, 4, 0, 12, 1, 1})
	f.Add([]byte{4, 20, 7, 0, 20, 1, 9, 9, 0, 40, 0, 0})
	f.Add([]byte{5, 25, 8, 1, 30, 17, 2, 10, 0, 8, 3, 1, 11, 0, 5, 0, 9})
	f.Add([]byte("\x00\x09\x02\x02\x29\xc9\x2c")) // one event in the year 3026
	names := []string{"soda-bin", "soda-bin-second-day", "soda-bin-last-day", "soda-bin-gone", "sugar-lime-pail", "sugar-lime-pail-next-day"}
	dir := f.TempDir()
	home, texts, paths := filepath.Join(dir, "home"), make([][]byte, len(names)), make([]string, len(names))
	heads := make([]days.Place, len(names))
	for i, name := range names {
		text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "days", name+".toml"))
		if err != nil {
			f.Fatal(err)
		}
		h := book.Read(name, text).Head
		texts[i], paths[i] = text, filepath.Join(home, "vats", h.Vat, h.Day+".toml")
		heads[i] = days.Place{Home: home, Vat: h.Vat, Day: h.Day, Tag: "A1", Out: filepath.Join(dir, "out")}
		if err := os.MkdirAll(filepath.Dir(paths[i]), 0o755); err != nil {
			f.Fatal(err)
		}
		if err := os.WriteFile(paths[i], text, 0o644); err != nil {
			f.Fatal(err)
		}
	}
	w := &watch{}
	go w.run()
	f.Fuzz(func(t *testing.T, edits []byte) {
		if len(edits) < 2 || len(edits) > 2+8*days.EditSize {
			return
		}
		i := int(edits[0]) % len(names)
		spoilt := days.Spoil(texts[i], edits[2:], int(edits[0])/len(names)%2 == 1)
		if err := os.WriteFile(paths[i], spoilt, 0o644); err != nil {
			t.Fatal(err)
		}
		all := heads[i].Commands()
		for n := range fuzzedCommands {
			args := all[(int(edits[1])+n)%len(all)]
			line := "vatside " + strings.Join(args[:len(args)-2], " ")
			var out, errs bytes.Buffer
			w.begin(line)
			code := Main(args, World{In: strings.NewReader(""), Out: &out, Err: &errs, Getenv: func(string) string { return "" }})
			w.end()
			if code != 0 && code != 1 && code != 3 || code != 0 && out.Len()+errs.Len() == 0 {
				t.Errorf("%s: ended with %d: %s", line, code, errs.Bytes())
			}
		}
		for _, path := range written(t, paths) {
			if err := os.Remove(path); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.WriteFile(paths[i], texts[i], 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.RemoveAll(heads[i].Out); err != nil {
			t.Fatal(err)
		}
	})
}

// written are the files beside those of the home's own days: what begin and say made.
func written(t *testing.T, own []string) (out []string) {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(filepath.Dir(filepath.Dir(own[0])), "*", "*"))
	if err != nil {
		t.Fatal(err)
	}
	return slices.DeleteFunc(all, func(path string) bool { return slices.Contains(own, path) })
}
