package shelf

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"example.org/vatside/ui/terminal"
)

// ground is the n-th of many that all differ.
func ground(n int) terminal.Ground { return terminal.Ground{R: uint16(n), G: 0xffff, B: 0x1e1e} }

func TestGroundsAreKept(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "state", "vatside")
	g := GroundsIn(dir)
	if got, ok := g.Of("a"); ok {
		t.Errorf("before anything was kept it is %v", got)
	}
	late := ground(1)
	late.Late = true
	for name, is := range map[string]terminal.Ground{"a": late, "b": ground(2)} {
		if err := g.Keep(name, is); err != nil {
			t.Fatal(err)
		}
	}
	if got, ok := g.Of("a"); !ok || got != ground(1) {
		t.Errorf("a is %v, %v", got, ok)
	}
	if err := g.Keep("a", ground(3)); err != nil {
		t.Fatal(err)
	}
	a, _ := g.Of("a")
	b, _ := g.Of("b")
	if _, ok := g.Of("c"); ok || a != ground(3) || b != ground(2) {
		t.Errorf("a is %v, b %v, c there: %v", a, b, ok)
	}
	if info, err := os.Stat(g.file); err != nil || info.Mode().Perm()&0o077 != 0 {
		t.Errorf("others can read it: %v, %v", info, err)
	}
	// What is known already is not written again.
	before, _ := os.Stat(g.file)
	if err := g.Keep("a", ground(3)); err != nil {
		t.Fatal(err)
	}
	if after, _ := os.Stat(g.file); !os.SameFile(before, after) {
		t.Error("what was known was written again")
	}
	var none Grounds
	if err := none.Keep("a", ground(1)); err != nil {
		t.Error(err)
	}
	if got, ok := none.Of("a"); ok {
		t.Errorf("the zero memory knows %v", got)
	}
}

// The newest are kept, one that was answered anew among them.
func TestTheNewestGroundsAreKept(t *testing.T) {
	g := GroundsIn(t.TempDir())
	for n := range groundsMost + 8 {
		if err := g.Keep(fmt.Sprint(n), ground(n)); err != nil {
			t.Fatal(err)
		}
		if n == groundsMost-1 {
			if err := g.Keep("0", ground(100)); err != nil {
				t.Fatal(err)
			}
		}
	}
	if info, err := os.Stat(g.file); err != nil || info.Size() > groundsSize {
		t.Errorf("too long to be read again: %v, %v", info, err)
	}
	for n := range groundsMost + 8 {
		want := n == 0 || n >= 9
		if _, ok := g.Of(fmt.Sprint(n)); ok != want {
			t.Errorf("the %d. is there: %v", n, ok)
		}
	}
}

// Whatever lies there instead counts as none, is not waited for, and is replaced by the next answer where that can be.
func TestSpoiltGrounds(t *testing.T) {
	whole := groundsHead + answered{checksum("a"), ground(1)}.String()
	text := func(s string) func(string) error {
		return func(path string) error { return os.WriteFile(path, []byte(s), 0o600) }
	}
	for name, c := range map[string]struct {
		lay  func(path string) error
		stay bool // nothing can be put in its place
	}{
		"empty":            {text(""), false},
		"no head":          {text(whole[len(groundsHead):]), false},
		"cut off":          {text(whole[:len(whole)-1]), false},
		"a strange line":   {text(whole + "\x1b]11;?\x07\n"), false},
		"an empty line":    {text(whole + "\n"), false},
		"too many digits":  {text(groundsHead + strings.Replace(whole[len(groundsHead):], "rgb:", "rgb:f", 1)), false},
		"a sign":           {text(groundsHead + strings.Replace(whole[len(groundsHead):], "rgb:0001", "rgb:-001", 1)), false},
		"upper case":       {text(groundsHead + strings.ToUpper(whole[len(groundsHead):])), false},
		"binary":           {text(groundsHead + strings.Repeat("\x00\xff", 99)), false},
		"huge":             {text(whole + strings.Repeat(whole[len(groundsHead):], 1<<20)), false},
		"just too long":    {text(whole + strings.Repeat(" ", groundsSize)), false},
		"a folder":         {func(path string) error { return os.MkdirAll(filepath.Join(path, "x"), 0o700) }, true},
		"a link to itself": {func(path string) error { return os.Symlink(path, path) }, false},
		"a link to a device": {func(path string) error {
			return os.Symlink(os.DevNull, path)
		}, false},
	} {
		g := GroundsIn(t.TempDir())
		if err := c.lay(g.file); err != nil {
			t.Logf("%s: cannot be laid here: %v", name, err)
			continue
		}
		if got, ok := g.Of("a"); ok {
			t.Errorf("%s: it is read as %v", name, got)
		}
		err := g.Keep("a", ground(2))
		got, ok := g.Of("a")
		if c.stay != (err != nil) || c.stay == ok || ok && got != ground(2) {
			t.Errorf("%s: then %v, %v, error %v", name, got, ok, err)
		}
		if left, _ := filepath.Glob(filepath.Join(filepath.Dir(g.file), ".grounds-*")); len(left) > 0 {
			t.Errorf("%s: %v is left", name, left)
		}
	}
	if info, err := os.Lstat(os.DevNull); err != nil || info.Mode()&fs.ModeDevice == 0 {
		t.Fatalf("%s was replaced", os.DevNull)
	}
}

// A letter changed anywhere gives no ground, or one that is as well formed, and never a panic.
func TestChangedGrounds(t *testing.T) {
	g := GroundsIn(t.TempDir())
	whole := []byte(groundsHead + answered{checksum("a"), ground(1)}.String())
	for i := range whole {
		for _, c := range []byte{0, '\n', ' ', '0', 'f', 'g', 0xff} {
			text := append([]byte(nil), whole...)
			if text[i] = c; text[i] == whole[i] {
				continue
			}
			if err := os.WriteFile(g.file, text, 0o600); err != nil {
				t.Fatal(err)
			}
			if _, ok := g.Of("a"); ok && (i < len(groundsHead) || strings.ContainsRune("\x00g\xff", rune(c))) {
				t.Errorf("%q is read", text)
			}
		}
	}
}

// A place that cannot be written is an error and leaves nothing behind.
func TestGroundsWithoutAPlace(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	g := GroundsIn(filepath.Join(file, "vatside"))
	if err := g.Keep("a", ground(1)); err == nil || !strings.Contains(err.Error(), "the ground of the terminal") {
		t.Errorf("the error is %v", err)
	}
	if _, ok := g.Of("a"); ok {
		t.Error("it is known all the same")
	}
}

// Programs that write at once leave a file that reads, with what at least one of them said.
func TestManyWriteGroundsAtOnce(t *testing.T) {
	g := GroundsIn(t.TempDir())
	var all sync.WaitGroup
	for n := range 8 {
		all.Go(func() {
			for i := range 10 {
				if err := g.Keep(fmt.Sprint(n), ground(n*10+i)); err != nil {
					t.Error(err)
				}
				for _, a := range g.read() {
					if a.ground.G != 0xffff {
						t.Errorf("%v was read", a)
					}
				}
			}
		})
	}
	all.Wait()
	known := g.read()
	if len(known) == 0 {
		t.Error("nothing is left")
	}
	for _, a := range known {
		n := int(a.ground.R) / 10
		if a.terminal != checksum(fmt.Sprint(n)) {
			t.Errorf("%v is another terminal's", a)
		}
	}
}

// A pipe that nobody writes is not waited for.
func TestGroundsInAPipe(t *testing.T) {
	g := GroundsIn(t.TempDir())
	pipe(t, g.file)
	if got, ok := g.Of("a"); ok {
		t.Errorf("a pipe says %v", got)
	}
}

func BenchmarkGrounds(b *testing.B) {
	g := GroundsIn(b.TempDir())
	for n := range groundsMost {
		if err := g.Keep(fmt.Sprint(n), ground(n)); err != nil {
			b.Fatal(err)
		}
	}
	for b.Loop() {
		if _, ok := g.Of("31"); !ok {
			b.Fatal("it is not known")
		}
	}
}
