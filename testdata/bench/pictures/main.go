package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/ui/terminal/emulator"
)

// mostBytes is how large a picture of README.md may be.
const mostBytes = 60_000

func main() {
	cols, rows := 120, 40
	flag.Parse()
	if err := pictures(cols, rows); err != nil {
		fmt.Fprintln(os.Stderr, "pictures:", err)
		os.Exit(1)
	}
}

func pictures(cols, rows int) error {
	work, err := apart.Folder("vatside-pictures-", os.RemoveAll)
	if err != nil {
		return err
	}
	defer os.RemoveAll(work)
	v, err := play(work)
	if err != nil {
		return err
	}
	for _, s := range theFour {
		err := v.show(s.scene, s.theme, cols, rows, func(screen *emulator.Screen) error {
			img, err := paint(screen, cols, rows, themes[s.theme])
			if err != nil {
				return err
			}
			text, err := encoded(img)
			if err != nil {
				return err
			}
			fmt.Println(s.name, len(text), len(img.Palette))
			return os.WriteFile(filepath.Join("testdata/pictures", s.name+".png"), text, 0o644)
		})
		if err != nil {
			return fmt.Errorf("%s: %w", s.name, err)
		}
	}
	return nil
}
