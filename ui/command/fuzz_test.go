package command

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/testdata/bench/days"
)

// The limits of one command over a spoilt day. The time is generous: other workers of the fuzzing are on the machine too. Go itself ends
// a worker whose input takes longer than 10 s.
const (
	mostFuzzTime   = 20 * time.Second
	mostFuzzMemory = 600 << 20 // bytes that are in use beyond what was kept before the command
)

// watch ends the test process when one command takes too long or too much: nothing else can end a command that hangs.
type watch struct {
	most  uint64       // bytes that a command may use
	since atomic.Int64 // when the command began, ns; 0: none runs
	what  atomic.Pointer[string]
	kept  atomic.Uint64 // bytes in use between two commands: Go's mutator has 100 MB, cobra keeps each command's flags
	begun int
}

func (w *watch) begin(what string) {
	if w.begun%256 == 0 {
		w.kept.Store(inUse())
	}
	w.begun++
	w.what.Store(&what)
	w.since.Store(time.Now().UnixNano())
}

func (w *watch) end() { w.since.Store(0) }

// inUse is the heap without garbage, bytes.
func inUse() uint64 {
	runtime.GC()
	return heap()
}

// heap is the heap with the garbage that is not collected yet, bytes.
func heap() uint64 {
	heap := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
	metrics.Read(heap)
	return heap[0].Value.Uint64()
}

// over is how much the command uses, bytes, when that is too much, else 0. Garbage does not count: the tests let five times of what is in
// use gather (main_test.go).
func (w *watch) over() uint64 {
	if heap() <= w.most {
		return 0
	}
	if used := inUse(); used > w.kept.Load()+w.most {
		return used - w.kept.Load()
	}
	return 0
}

func (w *watch) run() {
	for range time.Tick(100 * time.Millisecond) {
		since := w.since.Load()
		if since == 0 {
			continue
		}
		if used := w.over(); used > 0 {
			panic(fmt.Sprintf("%s: %d MB", *w.what.Load(), used>>20))
		}
		if took := time.Since(time.Unix(0, since)); took > mostFuzzTime {
			panic(fmt.Sprintf("%s: no end after %s", *w.what.Load(), took.Round(time.Second)))
		}
	}
}

// Garbage is not held against a command; what it holds is.
func TestWatchCountsWhatIsInUse(t *testing.T) {
	defer debug.SetGCPercent(debug.SetGCPercent(-1))
	w := &watch{most: 32 << 20}
	w.begin("nothing")
	w.most += heap()
	for range 1 + w.most>>20 {
		garbage = make([]byte, 1<<20)
	}
	garbage = nil
	if got := w.over(); got > 0 {
		t.Errorf("garbage counts: %d MB", got>>20)
	}
	garbage = make([]byte, 2*w.most)
	if w.over() == 0 {
		t.Errorf("%d MB in use are not seen", len(garbage)>>20)
	}
	garbage = nil
}

var garbage []byte // on the heap

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
	// A worker of the fuzzing writes to /dev/null; the bench shows what this file has.
	if dir := os.Getenv("VATSIDE_FUZZ_CRASH"); dir != "" {
		crash, err := os.CreateTemp(dir, "crash")
		if err != nil {
			f.Fatal(err)
		}
		if err := debug.SetCrashOutput(crash, debug.CrashOptions{}); err != nil {
			f.Fatal(err)
		}
	}
	w := &watch{most: mostFuzzMemory}
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
			w.begin(fmt.Sprintf("%s (input %q)", line, edits))
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
