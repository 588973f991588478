package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"example.org/vatside/model/wording"
)

// WritePaper writes a sheet to a file wherever the dyer wants it, whole and synced. A file that is there is left alone, and
// the error is fs.ErrExist, unless over is true: then it is replaced, whole or not at all.
func WritePaper(path string, page wording.Page, over bool) error {
	text := []byte(page.String())
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return fmt.Errorf("%s is a folder: name a file in it", path)
	}
	if _, err := os.Stat(filepath.Dir(path)); err != nil {
		return fmt.Errorf("there is no folder %s to write the sheet in", filepath.Dir(path))
	}
	var err error
	if over {
		err = replace(path, text)
	} else {
		var f file
		if f, err = Open("").create(path, text); err == nil {
			err = f.Close()
		}
	}
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	return fmt.Errorf("the sheet cannot be written: %w", err)
}
