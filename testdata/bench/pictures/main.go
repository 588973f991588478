// Command pictures paints screens of the program, as it runs in a terminal, into PNG.
//
//	go run ./testdata/bench/pictures [-all DIR [-size 120x40,80x24] [-theme dark,light] [-only home,clock]]
//
// Without -all it paints the four pictures of README.md into testdata/pictures: 120×40, the clock and the look dark, the build and
// the planner light. The days and the moments are fixed (scenes.go), so that the same source gives the same pictures. With -all it
// paints those four and all other screens into a folder of yours, in each size and theme, NAME-THEME-SIZE.png, to be looked at
// after a change. How much of a window a screen fills is told by go test ./ui -run InkOfScreens -v. It ends with 1 if a screen is not
// reached, if it shows a character of which there is no picture (letters.go), or if one of the four has more than 60 kB.
package main

import (
	"cmp"
	"errors"
	"flag"
	"fmt"
	"image"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.org/vatside/testdata/bench/emulator"
	"example.org/vatside/testdata/bench/internal/apart"
)

// mostBytes is how large a picture of README.md may be.
const mostBytes = 60_000

// picture is a scene in a window.
type picture struct {
	scene
	theme      string
	cols, rows int
	file       string
}

func main() {
	all := flag.String("all", "", "a folder for all screens; empty: the four of README.md")
	sizes := flag.String("size", "120x40", "with -all: sizes of the window, columns x rows, with commas")
	looks := flag.String("theme", "dark,light", "with -all: dark, light, sun, with commas")
	only := flag.String("only", "", "with -all: these screens, with commas; empty: all")
	flag.Parse()
	todo, err := chosen(*all, *sizes, *looks, *only)
	if err != nil || flag.NArg() > 0 {
		fmt.Fprintln(os.Stderr, "pictures:", err)
		flag.Usage()
		os.Exit(2)
	}
	apart.Run("pictures", func() bool {
		work, done := apart.Folder("vatside-pictures-", os.RemoveAll)
		defer done()
		v := play(work)
		var missed []error
		for _, p := range todo {
			if err := v.paint(p); err != nil {
				missed = append(missed, fmt.Errorf("%s: %w", p.file, err))
			}
		}
		apart.Must(errors.Join(missed...))
		return false
	})
}

// chosen is what is to be painted.
func chosen(all, sizes, looks, only string) (todo []picture, err error) {
	if all == "" {
		for _, s := range theFour {
			todo = append(todo, picture{s.scene, s.theme, 120, 40, filepath.Join("testdata", "pictures", s.name+".png")})
		}
		return todo, nil
	}
	scenes := more
	for _, s := range theFour {
		scenes = append(scenes, s.scene)
	}
	if names := strings.Split(only, ","); only != "" {
		scenes = slices.DeleteFunc(slices.Clone(scenes), func(s scene) bool { return !slices.Contains(names, s.name) })
	}
	for size := range strings.SplitSeq(sizes, ",") {
		var cols, rows int
		if n, err := fmt.Sscanf(size, "%dx%d", &cols, &rows); n != 2 || err != nil || cols < 20 || rows < 5 || cols > 300 || rows > 100 {
			return nil, fmt.Errorf("-size is from 20x5 to 300x100, not %q", size)
		}
		for theme := range strings.SplitSeq(looks, ",") {
			if _, ok := themes[theme]; !ok {
				return nil, fmt.Errorf("-theme is dark, light or sun, not %q", theme)
			}
			for _, s := range scenes {
				file := fmt.Sprintf("%s-%s-%s.png", strings.ReplaceAll(s.name, " ", "-"), theme, size)
				todo = append(todo, picture{s, theme, cols, rows, filepath.Join(all, file)})
			}
		}
	}
	return todo, nil
}

// paint leads the program to a scene and paints it.
func (v *stock) paint(p picture) (err error) {
	shown := v.show(p.scene, p.theme, p.cols, p.rows, func(screen *emulator.Screen) {
		var img *image.Paletted
		if img, err = paint(screen, p.cols, p.rows, themes[p.theme]); err != nil {
			return
		}
		text := encoded(img)
		fmt.Printf("%s: %.1f kB\n", p.file, float64(len(text))/1000)
		if filepath.Dir(p.file) == filepath.Join("testdata", "pictures") && len(text) > mostBytes {
			err = fmt.Errorf("%d bytes; at most %d are wanted", len(text), mostBytes)
			return
		}
		apart.Write(p.file, text)
	})
	return cmp.Or(shown, err)
}
