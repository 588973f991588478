package main

import (
	"fmt"
	"go/scanner"
	"go/token"
	"image/color"
	"image/png"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/vatside/testdata/bench/emulator"
)

// white is how a test paints what has no colour.
var white = ownColours{color.RGBA{0, 0, 0, 255}, color.RGBA{255, 255, 255, 255}}

// screenOf is a screen with an output on it.
func screenOf(cols, rows int, output string) *emulator.Screen {
	s := emulator.New(cols, rows)
	_, _ = s.Write([]byte(output))
	return s
}

// Full blocks and halves join without a seam: every pixel of their cells is of their ink, none of the ground.
func TestBlocksJoin(t *testing.T) {
	const ink = "\x1b[38;2;10;20;200;48;2;1;2;3m"
	for text, inked := range map[string]int{"██\r\n██": 4 * 8, "▀▀\r\n▄▄": 4 * 4, "▌▐\r\n▐▌": 4 * 4, "▚▞\r\n▞▚": 4 * 4, "▙▜\r\n▟▛": 4 * 6, "▁▂\r\n▆▇": 1 + 2 + 6 + 7} {
		img, err := paint(screenOf(2, 2, ink+strings.ReplaceAll(text, "\r\n", "\r\n"+ink)), 2, 2, white)
		if err != nil {
			t.Fatal(err)
		}
		n, other := 0, 0
		for y := range 2 * cellHeight {
			for x := range 2 * cellWidth {
				switch img.At(x, y) {
				case color.RGBA{10, 20, 200, 255}:
					n++
				case color.RGBA{1, 2, 3, 255}:
				default:
					other++
				}
			}
		}
		if want := inked * cellWidth * cellHeight / 8; n != want || other != 0 {
			t.Errorf("%q: %d pixels of ink, not %d; %d of neither ink nor ground", text, n, want, other)
		}
	}
}

// Each quarter block has its ink where its name says.
func TestQuarters(t *testing.T) {
	for r, want := range map[rune]string{'▖': "0010", '▗': "0001", '▘': "1000", '▙': "1011", '▚': "1001", '▛': "1110", '▜': "1101", '▝': "0100", '▞': "0110", '▟': "0111"} {
		at, ok := block(r)
		if !ok {
			t.Fatalf("%q is no block", r)
		}
		got := ""
		for _, y := range []int{1, cellHeight - 2} {
			for _, x := range []int{1, cellWidth - 2} {
				got += fmt.Sprint(at(x, y) / steps)
			}
		}
		if got != want {
			t.Errorf("%q has ink in %s, not %s", r, got, want)
		}
	}
}

// Reversed cells change ink and ground; shades lie between them; the margin has the ground beside it.
func TestColours(t *testing.T) {
	img, err := paint(screenOf(2, 1, "\x1b[38;2;200;0;0;48;2;0;0;100;7m \x1b[27m▒"), 2, 1, white)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		x, y int
		want color.RGBA
	}{
		{1, 1, color.RGBA{200, 0, 0, 255}}, {-margin, 0, color.RGBA{200, 0, 0, 255}}, {1, -1, color.RGBA{200, 0, 0, 255}},
		{cellWidth + 1, 1, color.RGBA{114, 0, 43, 255}}, {2*cellWidth + margin - 1, 0, color.RGBA{0, 0, 100, 255}},
	} {
		if got := img.At(c.x, c.y); got != c.want {
			t.Errorf("at %d, %d: %v, not %v", c.x, c.y, got, c.want)
		}
	}
}

// What cannot be painted as it is seen is refused.
func TestRefused(t *testing.T) {
	for _, text := range []string{"漢", "é̂", "☂", "⅓", "\x1b[31mred", "\x1b[48;5;20mblue"} {
		if _, err := paint(screenOf(10, 1, text), 10, 1, white); err == nil {
			t.Errorf("%q was painted", text)
		}
	}
}

// Every character that screens write has a picture of its own, in both weights: none is empty, none another's.
func TestEveryGlyphOfTheScreens(t *testing.T) {
	seen := map[rune]bool{}
	for _, dir := range []string{"ui", "model", "recipes"} {
		take(t, seen, filepath.Join("../../..", dir))
	}
	if len(seen) < 130 || !seen['°'] || !seen['▟'] {
		t.Fatalf("%d characters were read", len(seen))
	}
	for _, attrs := range []emulator.Attrs{0, emulator.Bold} {
		pictures := map[string]rune{}
		for r := range seen {
			if r <= ' ' || strings.ContainsRune("⅓⅔", r) { // these are read, never written
				continue
			}
			at, err := glyph(emulator.Cell{Text: string(r), Width: 1, Look: emulator.Look{Attrs: attrs}})
			if err != nil {
				t.Error(err)
				continue
			}
			var ink strings.Builder
			for y := range cellHeight {
				for x := range cellWidth {
					ink.WriteByte(byte('0' + at(x, y)))
				}
			}
			if strings.Trim(ink.String(), "0") == "" {
				t.Errorf("%q is empty", r)
			}
			if other, is := pictures[ink.String()]; is && r != '−' && other != '−' {
				t.Errorf("%q looks as %q does", r, other)
			}
			pictures[ink.String()] = r
		}
	}
}

// take takes the characters of the strings in a folder's source, and of its recipes. What ui/command, ui/paper and ui/plain write
// comes onto no screen.
func take(t *testing.T, seen map[rune]bool, dir string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		switch name := d.Name(); {
		case err != nil:
			return err
		case d.IsDir() && (name == "command" || name == "paper" || name == "plain"):
			return fs.SkipDir
		case strings.HasSuffix(name, "_test.go") || filepath.Ext(name) != ".go" && filepath.Ext(name) != ".toml":
			return nil
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if filepath.Ext(path) == ".toml" {
			for _, r := range string(text) {
				seen[r] = true
			}
			return nil
		}
		var s scanner.Scanner
		s.Init(token.NewFileSet().AddFile(path, -1, len(text)), text, nil, 0)
		for {
			_, tok, literal := s.Scan()
			switch tok {
			case token.EOF:
				return nil
			case token.STRING, token.CHAR:
				for _, r := range literal {
					seen[r] = true
				}
			}
		}
	})
	if err != nil {
		t.Fatal(err)
	}
}

// The pictures of README.md are there and of the right size, in bytes as well.
func TestTheFour(t *testing.T) {
	todo, err := chosen("", "", "", "")
	if err != nil || len(todo) != 4 {
		t.Fatalf("%d pictures: %v", len(todo), err)
	}
	for _, p := range todo {
		f, err := os.Open("../../../" + p.file)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		is, err := png.DecodeConfig(f)
		if err != nil || is.Width != p.cols*cellWidth+2*margin || is.Height != p.rows*cellHeight+2*margin {
			t.Errorf("%s: %d × %d, %v", p.file, is.Width, is.Height, err)
		}
		if about, err := f.Stat(); err != nil || about.Size() > mostBytes {
			t.Errorf("%s: %d bytes, %v", p.file, about.Size(), err)
		}
	}
}
