package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"example.org/vatside/testdata/bench/internal/apart"
)

// strangeFiles puts what is no day, or a day out of all measure, under a day's name: nothing may wait for it, and the good
// days beside it must still be told.
func (b *bench) strangeFiles(r *row) {
	files := []struct {
		name string
		put  func(path string) error
	}{
		{"a named pipe", func(path string) error { return syscall.Mkfifo(path, 0o644) }},
		{"a link to an endless device", func(path string) error { return os.Symlink("/dev/zero", path) }},
		{"a link to itself", func(path string) error { return os.Symlink(path, path) }},
		{"a folder", func(path string) error { return os.Mkdir(path, 0o755) }},
		{"a hole of 4 GB", func(path string) error {
			if err := os.WriteFile(path, nil, 0o644); err != nil {
				return err
			}
			return os.Truncate(path, 4<<30)
		}},
		{"a table name 50,000 deep", func(path string) error {
			return os.WriteFile(path, []byte("format = 1\n["+strings.Repeat("a.", 50_000)+"a]\nx = 1\n"), 0o644)
		}},
		{"lists 50,000 deep", func(path string) error {
			return os.WriteFile(path, []byte("format = 1\nx = "+strings.Repeat("[", 50_000)+"\n"), 0o644)
		}},
		{"a text of 40 MB", func(path string) error {
			return os.WriteFile(path, append([]byte("format = 1\nvat = \""), bytes.Repeat([]byte("x"), 40<<20)...), 0o644)
		}},
		{"nothing that may be read", func(path string) error { return os.WriteFile(path, apart.Day("soda-bin"), 0) }},
	}
	lines := [][]string{{"now"}, {"book", "verify"}, {"book", "garden-bin"}, {"care"}, {"sheet", "garden-bin", "--what", "vat"}, {"--plain"}}
	if b.short {
		lines = lines[:3]
	}
	type try struct {
		file int
		line []string
	}
	var tries []try
	for i := range files {
		for _, l := range lines {
			tries = append(tries, try{i, l})
		}
	}
	homes := make([]*home, len(files))
	for i, f := range files {
		homes[i], _ = b.library()
		apart.Must(f.put(filepath.Join(homes[i].dir, "vats", "garden-bin", "2026-12-24.toml")))
	}
	apart.Together(3, tries, func(t try) {
		a := b.ask(homes[t.file], append(t.line, "--home", homes[t.file].dir), "q\n")
		r.count(1, 0)
		r.ended(a.code, lastLine(a.errs))
		what := files[t.file].name + ": vatside " + strings.Join(t.line, " ")
		if w := a.broken(); w != "" {
			r.bad("%s: %s", what, w)
		} else if t.line[0] == "book" && t.line[1] == "garden-bin" && !strings.Contains(a.out, "2026-05-09") {
			r.bad("%s: the good days are not told", what)
		}
	})
}
