package shelf

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// Photo is a file in a folder of photographs.
type Photo struct {
	Path string
	At   time.Time
	Size int64
}

// photoEnds are the ends of names of photographs; those that cannot be read are there to be refused with a word.
var photoEnds = []string{".jpg", ".jpeg", ".png", ".heic", ".heif", ".avif"}

// NamesPhoto tells whether a path ends as that of a photograph does.
func NamesPhoto(path string) bool {
	return slices.Contains(photoEnds, strings.ToLower(filepath.Ext(path)))
}

// Photos are the photographs in a folder, the oldest first by the time of the file.
func Photos(folder string) ([]Photo, error) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil, fmt.Errorf("the folder %s cannot be read: name the folder that photographs come into", folder)
	}
	var out []Photo
	for _, e := range entries {
		info, err := e.Info()
		if err != nil || !info.Mode().IsRegular() || strings.HasPrefix(e.Name(), ".") || !NamesPhoto(e.Name()) {
			continue
		}
		out = append(out, Photo{filepath.Join(folder, e.Name()), info.ModTime(), info.Size()})
	}
	slices.SortFunc(out, func(a, b Photo) int { return cmp.Or(a.At.Compare(b.At), strings.Compare(a.Path, b.Path)) })
	return out, nil
}
