package shelf

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"example.org/vatside/model/wording"
)

func TestWritePaper(t *testing.T) {
	file := filepath.Join(t.TempDir(), "day.md")
	for _, c := range []struct {
		text string
		over bool
		want string
		err  error
	}{
		{"first", false, "first", nil},
		{"second", false, "first", fs.ErrExist},
		{"third", true, "third", nil},
	} {
		err := WritePaper(file, wording.ShowPage(c.text), c.over)
		got, _ := os.ReadFile(file)
		if !errors.Is(err, c.err) || string(got) != c.want {
			t.Errorf("%s: %v, and the file holds %q", c.text, err, got)
		}
	}
	if err := WritePaper(filepath.Join(t.TempDir(), "nowhere", "day.md"), wording.Page{}, true); err == nil {
		t.Error("a folder was made")
	}
}
