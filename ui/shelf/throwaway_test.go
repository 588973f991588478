package shelf

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"github.com/adrg/xdg"
)

// A rehearsal that was killed leaves its folder; the next one removes it, and nothing else.
func TestKilledRehearsalsAreClearedAway(t *testing.T) {
	temp := t.TempDir()
	for _, name := range []string{"TMPDIR", "TMP", "TEMP"} {
		t.Setenv(name, temp)
	}
	there := func(path string) bool { _, err := os.Lstat(path); return err == nil }
	thrown := func() Home {
		t.Helper()
		h, err := Throwaway(nil)
		must(t, err)
		return h
	}
	alive, killed := thrown(), thrown()
	w, err := killed.NewDay(head(t))
	must(t, err)
	must(t, w.Append(note(1, "green at the hem")))
	must(t, w.Close())
	outside := filepath.Join(temp, "outside")
	must(t, os.WriteFile(outside, []byte("mine"), 0o600))
	must(t, os.Symlink(outside, filepath.Join(killed.Dir(), "vats", "link")))
	must(t, os.Symlink(temp, filepath.Join(killed.Dir(), "folder")))
	must(t, killed.thrown.Close()) // as the system does with a killed program's locks

	// What looks like one, and is none.
	like := func(name string, change func(dir string)) string {
		t.Helper()
		dir := filepath.Join(temp, name)
		must(t, os.Mkdir(dir, 0o700))
		must(t, os.WriteFile(filepath.Join(dir, throwawayLock), nil, 0o600))
		must(t, os.WriteFile(filepath.Join(dir, throwawayMarker), []byte(throwawayWords), 0o600))
		change(dir)
		return dir
	}
	elsewhere := like("elsewhere", func(string) {})
	stay := []string{alive.Dir(), outside, elsewhere,
		like("vatside-rehearsal-no", func(string) {}),
		like("vatside-12345", func(string) {}),
		like("vatside-rehearsal-2", func(dir string) { must(t, os.Remove(filepath.Join(dir, throwawayMarker))) }),
		like("vatside-rehearsal-3", func(dir string) {
			must(t, os.WriteFile(filepath.Join(dir, throwawayMarker), []byte("my notes\n"), 0o600))
		}),
		like("vatside-rehearsal-4", func(dir string) { must(t, os.Remove(filepath.Join(dir, throwawayLock))) }),
		like("vatside-rehearsal-5", func(dir string) {
			must(t, os.Remove(filepath.Join(dir, throwawayMarker)))
			must(t, os.Symlink(filepath.Join(elsewhere, throwawayMarker), filepath.Join(dir, throwawayMarker)))
		}),
		like("vatside-rehearsal-6", func(dir string) {
			must(t, os.Remove(filepath.Join(dir, throwawayLock)))
			must(t, os.Symlink(outside, filepath.Join(dir, throwawayLock)))
		}),
	}
	link := filepath.Join(temp, "vatside-rehearsal-7")
	must(t, os.Symlink(elsewhere, link))
	file := filepath.Join(temp, "vatside-rehearsal-8")
	must(t, os.WriteFile(file, []byte(throwawayWords), 0o600))
	stay = append(stay, link, file)
	if runtime.GOOS != "windows" {
		stay = append(stay, like("vatside-rehearsal-9", func(dir string) { must(t, os.Chmod(dir, 0o755)) }))
	}

	next := thrown()
	if there(killed.Dir()) {
		t.Error("the folder of the killed rehearsal is still there")
	}
	for _, path := range stay {
		if !there(path) {
			t.Errorf("%s is gone", path)
		}
	}
	if text, err := os.ReadFile(outside); err != nil || string(text) != "mine" {
		t.Errorf("a file outside reads %q, %v", text, err)
	}
	for _, h := range []Home{alive, next} {
		must(t, h.Discard())
		if there(h.Dir()) {
			t.Errorf("%s is still there", h.Dir())
		}
	}
	if err := Open(elsewhere).Discard(); err == nil || !there(elsewhere) {
		t.Error("a home that is no throwaway one was removed")
	}
}

// What a rehearsal's disk refuses is kept nowhere: the next rehearsal, of the same day with the same head, would take it up.
func TestAThrowawayHomeSpillsNothing(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	state := t.TempDir()
	t.Setenv("XDG_STATE_HOME", state)
	xdg.Reload()
	t.Cleanup(xdg.Reload)
	h, err := Throwaway(nil)
	must(t, err)
	d := &disk{room: -1}
	h.open = d.open
	w, err := h.NewDay(head(t))
	must(t, err)
	d.room = 0
	if err := w.Append(note(1, "sun")); err == nil || w.Away() != (Away{}) {
		t.Errorf("kept: %v, %+v", err, w.Away())
	}
	must(t, w.Close())
	must(t, h.Discard())
	if left, _ := filepath.Glob(filepath.Join(state, "*", "*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// A command that asks for no day does not read the index either.
func TestAnIndexThatNobodyAskedIsNotRead(t *testing.T) {
	h := At(t.TempDir(), time.Now).Indexed(t.TempDir())
	if h.KeepIndex(); h.index.read {
		t.Error("it is read to be kept")
	}
	_, unlock := h.opened()
	if unlock(); !h.index.read {
		t.Error("nor when it is asked")
	}
}
