package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// reportsMost is how many reports of one day are kept: a fault that comes again and again needs no more.
const reportsMost = 9

// Report writes a report of the program's own failing beside the book, else where spills go, and gives its path.
func (h Home) Report(now time.Time, text []byte) (path string, err error) {
	dirs := append([]string{h.dir}, h.Places()...)
	for i, dir := range dirs {
		if i == 0 {
			_, err = os.Stat(dir) // a home is not made for it
		} else {
			err = makeOwnFolder(dir)
		}
		for n := 1; err == nil; n++ {
			if n > reportsMost {
				return "", fmt.Errorf("there are %d reports of this day already", reportsMost)
			}
			path = filepath.Join(dir, numbered("crash-"+now.Format("2006-01-02"), n)+".txt")
			f, createErr := h.create(path, text)
			if errors.Is(createErr, fs.ErrExist) {
				continue
			}
			if err = createErr; err == nil {
				return path, f.Close()
			}
		}
	}
	return "", err
}
