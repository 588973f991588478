package shelf

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// A file that another program has open for an instant gets its name once that has closed it; one that stays open is told, and so is at
// once whatever else stands in the way.
func TestAFileThatIsHeldIsRenamedLater(t *testing.T) {
	inUse, other := errors.New("in use"), errors.New("no such folder")
	held := func(err error) bool { return errors.Is(err, inUse) }
	for _, c := range []struct {
		what    string
		refusal error
		refused int // so often
		tries   int
		want    error
	}{
		{"free", inUse, 0, 1, nil},
		{"held for an instant", inUse, 2, 3, nil},
		{"held on", inUse, renameTries, renameTries, inUse},
		{"another reason", other, renameTries, 1, other},
	} {
		tries := 0
		err := renamed(func(from, to string) error {
			if tries++; from != "a" || to != "b" {
				t.Errorf("%s: %s is renamed %s", c.what, from, to)
			}
			if tries <= c.refused {
				return c.refusal
			}
			return nil
		}, held, "a", "b")
		if !errors.Is(err, c.want) || tries != c.tries {
			t.Errorf("%s: %v after %d tries", c.what, err, tries)
		}
	}
}

// What a disk says in the way of this system is told in a dyer's words.
func TestTheSystemsOwnReasons(t *testing.T) {
	dir := t.TempDir()
	_, err := os.Open(filepath.Join(dir, "none", "x"))
	if got := Reason(err); got != "the folder is gone" {
		t.Errorf("%v: %q", err, got)
	}
	path := filepath.Join(dir, "x")
	if err := os.WriteFile(path, nil, 0o400); err != nil {
		t.Fatal(err)
	}
	if f, err := os.OpenFile(path, os.O_RDWR, 0); err == nil { // as root may
		_ = f.Close()
	} else if got := Reason(err); got != "nobody may write there" {
		t.Errorf("%v: %q", err, got)
	}
}
