package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"example.org/vatside/model/wording"
)

// boardName is the page for a second screen in a vat's folder.
const boardName = "board.html"

// WriteBoard puts a page for a second screen into the folder of a vat, whole or not at all, in the place of the one that the program
// wrote before: that begins with mark. A file of that name that does not is the dyer's, and stays.
func (h Home) WriteBoard(vat string, page wording.Page, mark string) error {
	if err := CheckVat(vat); err != nil {
		return err
	}
	path := filepath.Join(h.VatDir(vat), boardName)
	switch was, err := readFile(path); {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return fmt.Errorf("the board is not written: %s", Reason(err))
	case !strings.HasPrefix(string(was), mark):
		return fmt.Errorf("the board is not written: %s is not of this program, and stays", path)
	}
	if err := replace(path, []byte(page.String())); err != nil {
		return fmt.Errorf("the board is not written: %s", Reason(err))
	}
	return nil
}

// isBoard tells whether a file in a vat's folder is its board, or one that is being written.
func isBoard(path string) bool {
	name := filepath.Base(path)
	return name == boardName || strings.HasPrefix(name, "."+boardName+"-")
}
