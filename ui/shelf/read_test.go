package shelf

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/stock"
)

// sparse makes a file of so many bytes that takes no room.
func sparse(t *testing.T, path string, size int64) {
	t.Helper()
	f, err := os.Create(path)
	must(t, err)
	must(t, f.Truncate(size))
	must(t, f.Close())
}

// What stands in the place of the shelf's files and is none is told by what it is; nothing waits for it. A link to a file
// is a file.
func TestOnlyFilesAreRead(t *testing.T) {
	for what, put := range map[string]func(t *testing.T, path string){
		"is a pipe, where a file should be":   pipe,
		"is a folder, where a file should be": func(t *testing.T, path string) { must(t, os.Mkdir(path, 0o755)) },
		"is a device, where a file should be": func(t *testing.T, path string) { must(t, os.Symlink("/dev/zero", path)) },
		"is a socket, where a file should be": func(t *testing.T, path string) {
			short := filepath.Join(t.TempDir(), "s") // a socket's path is short
			l, err := net.Listen("unix", short)
			if err != nil {
				t.Skip(err)
			}
			t.Cleanup(func() { _ = l.Close() })
			must(t, os.Symlink(short, path))
		},
		"is longer than 32 MB": func(t *testing.T, path string) { sparse(t, path, readMost+1) },
	} {
		t.Run(what, func(t *testing.T) {
			h := Open(t.TempDir())
			must(t, os.MkdirAll(h.VatDir("bin"), 0o755))
			must(t, os.MkdirAll(filepath.Join(h.Dir(), "recipes"), 0o755))
			day := h.DayFile("bin", "2026-11-25")
			for _, path := range []string{day, h.StockFile(), h.SettingsFile(), filepath.Join(h.Dir(), "recipes", "own.toml"), filepath.Join(h.VatDir("bin"), ".lock")} {
				put(t, path)
			}
			_, dayErr := h.ReadDay("bin", "2026-11-25")
			_, leafErr := h.DayText("bin", "2026-11-25")
			_, stockErr := h.Stock()
			_, _, keepErr := h.KeepStock(time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC), stock.AddTin{New: stock.NewTin{Material: "soda ash", Holds: 1000}})
			_, settingsErr := h.Settings()
			rs, recipesErr := h.Recipes()
			if what == "is a folder, where a file should be" {
				recipesErr = errors.New(what) // a folder among the recipes is passed over
			}
			for name, err := range map[string]error{"day": dayErr, "leaf": leafErr, "stock": stockErr, "keeping": keepErr, "settings": settingsErr, "recipes": recipesErr} {
				if err == nil || !strings.Contains(err.Error(), what) {
					t.Errorf("%s: %v", name, err)
				}
			}
			if len(rs) > 0 {
				t.Error("it is read as a recipe")
			}
			if strings.HasPrefix(what, "is longer") {
				return
			}
			hd := head(t)
			hd.Vat = "bin"
			if _, err := h.NewDay(hd); err == nil || !strings.Contains(err.Error(), what) {
				t.Errorf("in the place of the lock: %v", err)
			}
		})
	}
}

// What the system makes up looks like a file, and may never come to its end: /proc/kmsg waits for the next message.
func TestWhatTheSystemMakesUpIsNoFile(t *testing.T) {
	const mounts = "/proc/self/mounts" // it does end, but is told of changes as that one is
	if info, err := os.Stat(mounts); err != nil || !info.Mode().IsRegular() {
		t.Skip("no such thing here")
	}
	h := Open(t.TempDir())
	must(t, os.MkdirAll(h.VatDir("bin"), 0o755))
	must(t, os.Symlink(mounts, h.DayFile("bin", "2026-11-25")))
	_, dayErr := h.ReadDay("bin", "2026-11-25")
	_, argumentErr := ReadArgument(mounts)
	for _, err := range []error{dayErr, argumentErr} {
		if err == nil || !strings.Contains(err.Error(), "is a device, where a file should be") {
			t.Errorf("%v", err)
		}
	}
}

func TestALinkToADayIsRead(t *testing.T) {
	h := Open(t.TempDir())
	must(t, os.MkdirAll(h.VatDir("bin"), 0o755))
	real, err := filepath.Abs(oldFile)
	must(t, err)
	must(t, os.Symlink(real, h.DayFile("bin", "2026-11-25")))
	if b, err := h.ReadDay("bin", "2026-11-25"); err != nil || !b.HeadWhole {
		t.Errorf("%v %v", err, b.HeadErr)
	}
}

// A named pipe is read to its end; one that nobody writes to, one that never ends and a file that is too long are one
// sentence each.
func TestReadArgument(t *testing.T) {
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	must(t, os.WriteFile(in("file"), []byte("a text"), 0o644))
	if data, err := ReadArgument(in("file")); err != nil || string(data) != "a text" {
		t.Errorf("%q %v", data, err)
	}
	pipe(t, in("pipe"))
	whole := bytes.Repeat([]byte("a line\n"), 40_000) // more than a pipe holds
	wrote := make(chan error, 1)
	go func() { wrote <- os.WriteFile(in("pipe"), whole, 0) }()
	if data, err := ReadArgument(in("pipe")); err != nil || !bytes.Equal(data, whole) {
		t.Errorf("%d bytes, %v", len(data), err)
	}
	must(t, <-wrote)

	ended, end := context.WithCancel(context.Background())
	end()
	pipe(t, in("silent"))
	sparse(t, in("long"), readMost+1)
	sparse(t, in("longest"), readMost)
	for path, told := range map[string]string{
		in("silent"): "silent did not end within 5 s: name a file, or a pipe that somebody writes to",
		dir:          "is a folder: name a file in it",
		in("long"):   "long is longer than 32 MB",
		in("none"):   "there is no file " + in("none"),
	} {
		if _, err := readArgument(ended, path); err == nil || !strings.Contains(err.Error(), told) {
			t.Errorf("%s: %v", path, err)
		}
	}
	if _, err := ReadArgument(in("none")); !errors.Is(err, fs.ErrNotExist) {
		t.Error(err)
	}
	if _, err := readArgument(context.Background(), "/dev/zero"); err == nil || !strings.Contains(err.Error(), "/dev/zero is longer than 32 MB") {
		t.Error(err)
	}
	if data, err := readArgument(context.Background(), in("longest")); err != nil || len(data) != readMost {
		t.Errorf("%d bytes, %v", len(data), err)
	}
	must(t, os.WriteFile(in(book.EventsFile), nil, 0o644))
	pipe(t, in(book.DaysFile))
	go func() { wrote <- os.WriteFile(in(book.DaysFile), []byte("vat,day,head\r\n"), 0) }()
	if data, err := ReadTable(dir, book.DaysFile); err != nil || len(data) != 14 {
		t.Errorf("%q %v", data, err)
	}
	must(t, <-wrote)
}
