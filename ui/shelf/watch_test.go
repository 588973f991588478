package shelf

import (
	"bufio"
	"context"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/fsnotify/fsnotify"
	"github.com/gofrs/flock"
)

// soon is far longer than any notification takes; a test that waits for it fails.
func soon(t *testing.T) context.Context {
	ctx, stop := context.WithTimeout(context.Background(), 30*time.Second)
	t.Cleanup(stop)
	return ctx
}

// notified is the tick of a watch that needs none.
func notified(context.Context) <-chan struct{} { return nil }

// await waits for a change after which something is so.
func await(t *testing.T, ctx context.Context, tap *Tap, what string, so func() bool) {
	t.Helper()
	for !so() {
		select {
		case <-tap.Changed():
		case <-ctx.Done():
			t.Fatalf("it was never told that %s", what)
		}
	}
}

func mustWrite(t *testing.T, path, text string) {
	t.Helper()
	must(t, os.MkdirAll(filepath.Dir(path), 0o755))
	must(t, os.WriteFile(path, []byte(text), 0o644))
}

// looked is a day that is open for writing, and a look at it.
func looked(t *testing.T) (context.Context, Home, *Writer, *Look) {
	t.Helper()
	ctx := soon(t)
	h, w := begin(t)
	watch := h.Watch(ctx, notified)
	if watch.Polled() {
		t.Fatal("this folder's changes are not notified")
	}
	l := h.Look(watch, "garden-bin", "2026-11-25")
	t.Cleanup(l.Close)
	return ctx, h, w, l
}

func TestALookFollowsTheFile(t *testing.T) {
	ctx, h, w, l := looked(t)
	events := func() int {
		b, _, err := l.Read()
		if err != nil {
			return -1
		}
		return len(b.Events)
	}
	must(t, w.Append(note(1, "sun")))
	await(t, ctx, l.Tap, "an event was written", func() bool { return events() == 1 })

	path := h.DayFile("garden-bin", "2026-11-25")
	text, err := os.ReadFile(path)
	must(t, err)
	mustWrite(t, path+"~", string(text)) // as editors do: a new file in the place of the old one
	must(t, os.Rename(path+"~", path))
	must(t, w.Append(note(2, "shade"))) // and the writer finds it
	await(t, ctx, l.Tap, "the file was replaced", func() bool { return events() == 2 })

	must(t, os.Rename(h.VatDir("garden-bin"), h.VatDir("away")))
	await(t, ctx, l.Tap, "the folder is gone", func() bool { return events() == -1 })
	mustWrite(t, path, string(text))
	await(t, ctx, l.Tap, "the folder was made anew", func() bool { return events() == 1 })
	drained(l.Tap)
	must(t, os.Remove(path))
	await(t, ctx, l.Tap, "the file is gone from the new folder", func() bool { return events() == -1 })
	must(t, os.RemoveAll(h.VatDir("garden-bin")))
	mustWrite(t, path, string(text))
	await(t, ctx, l.Tap, "the folder was made anew once more", func() bool { return events() == 1 })
}

// drained takes a signal that is left, so that the next one is a new one.
func drained(tap *Tap) {
	select {
	case <-tap.Changed():
	default:
	}
}

func TestALookSeesTheNextDay(t *testing.T) {
	ctx, h, w, l := looked(t)
	newer := func() string {
		_, newer, err := l.Read()
		must(t, err)
		return newer
	}
	if n := newer(); n != "" {
		t.Errorf("before there is one, the newer day is %q", n)
	}
	must(t, w.Close())
	next, err := h.NewDay(head(t))
	must(t, err)
	t.Cleanup(func() { _ = next.Close() })
	await(t, ctx, l.Tap, "another day was begun", func() bool { return newer() == "2026-11-25-2" })
}

// A home that is made after the watch is seen, with all that comes to be in it.
func TestAHomeThatIsMadeLaterIsWatched(t *testing.T) {
	ctx := soon(t)
	h := Open(filepath.Join(t.TempDir(), "some", "where"))
	watch := h.Watch(ctx, notified)
	all := watch.Tap("")
	if _, err := os.Stat(h.Dir()); !errors.Is(err, os.ErrNotExist) {
		t.Error("watching made the home's folder")
	}
	w, err := h.NewDay(head(t))
	must(t, err)
	t.Cleanup(func() { _ = w.Close() })
	told := func(vat string) func() bool {
		return func() bool { return slices.Contains(all.Vats(), vat) }
	}
	await(t, ctx, all, "a vat was made", told("garden-bin"))
	other := head(t)
	other.Vat = "shed"
	w2, err := h.NewDay(other)
	must(t, err)
	await(t, ctx, all, "a second vat was made", told("shed"))
	l := h.Look(watch, "shed", w2.Head().Day)
	must(t, w2.Append(note(1, "sun")))
	await(t, ctx, l.Tap, "an event was written to it", func() bool { b, _, err := l.Read(); return err == nil && len(b.Events) == 1 })
	must(t, w2.Close())
	l.Close()
	all.Close()
	if len(watch.taps) > 0 {
		t.Errorf("%d taps are left", len(watch.taps))
	}
}

// Where the system does not notify, the files are compared at each tick, and that is said.
func TestWithoutNotificationItIsPolled(t *testing.T) {
	none := func() (*fsnotify.Watcher, error) { return nil, errors.New("too many open files") }
	for what, arrange := range map[string]struct {
		notifier func() (*fsnotify.Watcher, error)
		remote   func(string) bool
	}{
		"no watcher": {none, func(string) bool { return false }},
		"a network":  {fsnotify.NewWatcher, func(string) bool { return true }},
	} {
		ctx := soon(t)
		h, w := begin(t)
		tick := make(chan struct{})
		watch := h.watch(ctx, func(context.Context) <-chan struct{} { return tick }, arrange.notifier, arrange.remote)
		l := h.Look(watch, "garden-bin", "2026-11-25")
		if !l.Polled() {
			t.Fatalf("%s: it does not say that it is polled", what)
		}
		must(t, w.Append(note(1, "sun")))
		drained(l.Tap)
		for range 2 { // the second is taken when the first is done
			select {
			case tick <- struct{}{}:
			case <-ctx.Done():
				t.Fatalf("%s: it never looks", what)
			}
		}
		select {
		case <-l.Changed():
		default:
			t.Errorf("%s: a write was not seen at the tick", what)
		}
		drained(l.Tap)
		if what == "no watcher" {
			tick <- struct{}{}
			tick <- struct{}{}
			select {
			case <-l.Changed():
				t.Errorf("%s: a change is told that was none", what)
			default:
			}
		}
		must(t, os.RemoveAll(h.VatDir("garden-bin")))
		tick <- struct{}{}
		tick <- struct{}{}
		select {
		case <-l.Changed():
		default:
			t.Errorf("%s: a folder that went was not seen", what)
		}
	}
}

// When the system could not tell of all changes, everything counts as changed; once it can notify, nothing is polled.
func TestAnOverflowCountsAsAChange(t *testing.T) {
	ctx := soon(t)
	h, _ := begin(t)
	var n *fsnotify.Watcher
	watch := h.watch(ctx, notified, func() (w *fsnotify.Watcher, err error) { n, err = fsnotify.NewWatcher(); return n, err }, func(string) bool { return false })
	one, all := watch.Tap("garden-bin"), watch.Tap("")
	select {
	case n.Errors <- fsnotify.ErrEventOverflow:
	case <-ctx.Done():
		t.Fatal("nobody listens to it")
	}
	for _, tap := range []*Tap{one, all} {
		await(t, ctx, tap, "something was missed", func() bool { return slices.Equal(tap.Vats(), []string{"garden-bin"}) })
	}
}

func TestTheLookersOfAVatLearnThatItsWriterLeft(t *testing.T) {
	_, h, w, l := looked(t)
	ctx := soon(t)
	if l.Free() {
		t.Error("a vat that is written is free")
	}
	const lookers = 8
	left := make(chan error, lookers)
	for range lookers {
		go func() { left <- l.Left() }()
	}
	select {
	case err := <-left:
		t.Fatalf("the writer left, it is said, while it writes: %v", err)
	default:
	}
	must(t, w.Close())
	for range lookers {
		select {
		case err := <-left:
			must(t, err)
		case <-ctx.Done():
			t.Fatal("it is never told that the writer left")
		}
	}
	if !l.Free() {
		t.Error("a vat that is let go is not free")
	}
	must(t, os.Remove(filepath.Join(h.VatDir("garden-bin"), ".lock")))
	if must(t, l.Left()); !l.Free() {
		t.Error("a vat that nobody ever locked is not free")
	}
	if _, err := os.Stat(filepath.Join(h.VatDir("garden-bin"), ".lock")); err == nil {
		t.Error("looking made a lock file")
	}
}

// Lookers hold the lock for an instant when its writer leaves: whoever wants to write in that instant still gets it.
func TestLookersAreNoObstacle(t *testing.T) {
	_, h, w, l := looked(t)
	const lookers = 8
	left := make(chan error, 40*lookers)
	for i := range 40 {
		for range lookers {
			go func() { left <- l.Left() }()
		}
		must(t, w.Close())
		var err error
		if w, _, err = h.OpenDay("garden-bin", "2026-11-25"); err != nil {
			t.Fatalf("try %d: %v", i, err)
		}
		if _, _, err := h.OpenDay("garden-bin", "2026-11-25"); !errors.Is(err, ErrLocked) {
			t.Fatalf("try %d: a second writer: %v", i, err)
		}
	}
	must(t, w.Close())
	for range 40 * lookers {
		must(t, <-left)
	}
}

// Nor is one that holds it when the writer asks for it.
func TestALookersLockIsWaitedFor(t *testing.T) {
	_, h, w, l := looked(t)
	must(t, w.Close())
	looker := flock.New(l.lockFile())
	must(t, looker.RLock())
	asks, opened := make(chan struct{}), make(chan error)
	go func() {
		close(asks)
		w, _, err := h.OpenDay("garden-bin", "2026-11-25")
		if err == nil {
			err = w.Close()
		}
		opened <- err
	}()
	<-asks
	for range 10 { // long enough for it to find the lock held
		if _, _, err := l.Read(); err != nil {
			t.Fatal(err)
		}
	}
	must(t, looker.Unlock())
	if err := <-opened; err != nil {
		t.Errorf("a lock that a looker held for an instant: %v", err)
	}
}

// A program that is killed has left, without a word.
func TestAWriterThatIsKilledHasLeft(t *testing.T) {
	const env = "VATSIDE_TEST_WRITER"
	if dir := os.Getenv(env); dir != "" { // the program that is killed
		w, _, err := Open(dir).OpenDay("garden-bin", "2026-11-25")
		must(t, err)
		must(t, w.Append(note(1, "sun")))
		_, _ = os.Stdout.WriteString("\nwrites\n")
		select {} // it holds the lock till its death
	}
	_, h, w, l := looked(t)
	ctx := soon(t)
	must(t, w.Close())
	other := exec.CommandContext(ctx, os.Args[0], "-test.run=^TestAWriterThatIsKilledHasLeft$")
	other.Env = append(os.Environ(), env+"="+h.Dir())
	out, err := other.StdoutPipe()
	must(t, err)
	must(t, other.Start())
	lines := bufio.NewScanner(out)
	for lines.Scan() && lines.Text() != "writes" {
	}
	if l.Free() {
		t.Error("a vat that another program writes is free")
	}
	left := make(chan error, 1)
	go func() { left <- l.Left() }()
	must(t, other.Process.Kill())
	_, _ = io.Copy(io.Discard, out)
	_ = other.Wait() // it was killed
	select {
	case err := <-left:
		must(t, err)
	case <-ctx.Done():
		t.Fatal("it is never told that the writer died")
	}
	w, b, err := h.OpenDay("garden-bin", "2026-11-25")
	must(t, err)
	if len(b.Events) != 1 {
		t.Errorf("%d events are left of the killed writer's", len(b.Events))
	}
	must(t, w.Append(note(2, "shade")))
	must(t, w.Close())
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2}) {
		t.Errorf("events %v", got)
	}
}

// A day whose events go to a spill is followed too: its own file does not change.
func TestWatchTellsOfASpill(t *testing.T) {
	for _, polled := range []bool{false, true} {
		h, d := spare(t)
		w, err := h.NewDay(head(t))
		must(t, err)
		defer w.Close()
		ticks := make(chan struct{})
		seconds := func(context.Context) <-chan struct{} { return ticks }
		watch := h.watch(t.Context(), seconds, fsnotify.NewWatcher, func(string) bool { return polled })
		tap := watch.Tap("garden-bin")
		ctx := soon(t)
		d.room, d.writeErrs = 0, true
		for n := range 6 { // the first makes the folder; what was before may still be told with the first few
			must(t, w.Append(note(n+1, "rain")))
			if polled {
				ticks <- struct{}{}
			}
			select {
			case <-tap.Changed():
			case <-ctx.Done():
				t.Fatalf("polled %t: nothing is told of event %d", polled, n+1)
			}
		}
	}
}
