package shelf

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"github.com/fsnotify/fsnotify"

	"example.org/vatside/ui/guard"
)

// Watch tells of changes in the folders of the vats, whoever made them. The system notifies it; where that is not to be had
// (a network disk, too many watches on this machine) it compares the files' sizes and times once a second.
type Watch struct {
	home    Home
	vats    string // the folder of all vats
	notify  *fsnotify.Watcher
	remote  func(dir string) bool // tells of a disk whose changes may come from another machine
	watched map[string]bool       // folders that are notified of
	were    map[string]string     // marks of the vats' folders, as last compared

	mu     sync.Mutex
	polled bool
	taps   map[*Tap]bool
}

// Watch watches the vats until ctx ends, also one that is made later. seconds gives a tick each second until its context
// ends; it is asked only where the system does not notify.
func (h Home) Watch(ctx context.Context, seconds func(context.Context) <-chan struct{}) *Watch {
	return h.watch(ctx, seconds, fsnotify.NewWatcher, remote)
}

func (h Home) watch(ctx context.Context, seconds func(context.Context) <-chan struct{}, notifier func() (*fsnotify.Watcher, error), remote func(string) bool) *Watch {
	w := &Watch{home: h, vats: filepath.Join(h.dir, "vats"), remote: remote, watched: map[string]bool{}, taps: map[*Tap]bool{}}
	if n, err := notifier(); err == nil { // else it is polled
		w.notify = n
	}
	w.arrange()
	guard.Go("watch", func() { w.run(ctx, seconds) })
	return w
}

// Polled tells that changes are looked for once a second, as the system does not tell of them.
func (w *Watch) Polled() bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.polled
}

func (w *Watch) run(ctx context.Context, seconds func(context.Context) <-chan struct{}) {
	var events chan fsnotify.Event
	var missed chan error
	if w.notify != nil {
		defer func() { _ = w.notify.Close() }()
		events, missed = w.notify.Events, w.notify.Errors
	}
	var tick <-chan struct{}
	still := func() {}
	defer func() { still() }()
	for {
		switch polled := w.Polled(); {
		case polled && tick == nil:
			tick, still = ticking(ctx, seconds)
		case !polled && tick != nil:
			still()
			tick = nil
		}
		select {
		case <-ctx.Done():
			return
		case e := <-events:
			w.happened(e)
		case <-missed: // an overflow, or what else it could not tell of
			w.arrange()
			w.tellAll()
		case <-tick:
			w.arrange()
			w.compare()
		}
	}
}

// ticking is seconds with a function that stops it.
func ticking(ctx context.Context, seconds func(context.Context) <-chan struct{}) (<-chan struct{}, func()) {
	ctx, stop := context.WithCancel(ctx)
	return seconds(ctx), stop
}

// happened takes one notification.
func (w *Watch) happened(e fsnotify.Event) {
	if e.Op&^fsnotify.Chmod == 0 || isBoard(e.Name) {
		return
	}
	dir, made := filepath.Dir(e.Name), e.Has(fsnotify.Create|fsnotify.Remove|fsnotify.Rename)
	switch {
	case dir == w.vats && made: // a vat's folder came, went, or was made anew: the old watch is none of this one
		w.forget(e.Name)
		w.arrange()
		w.tell(filepath.Base(e.Name))
	case filepath.Dir(dir) == w.vats:
		w.tell(filepath.Base(dir))
	case made && w.leadsTo(e.Name): // the folder of all vats, one for spills, or one above them
		w.forget(e.Name)
		w.arrange()
		w.tellAll()
	default:
		w.spilled(e.Name)
	}
}

// leadsTo tells whether a folder is that of all vats, one for spills, or one above them.
func (w *Watch) leadsTo(dir string) bool {
	above := func(of string) bool { return of == dir || strings.HasPrefix(of, dir+string(filepath.Separator)) }
	return above(w.vats) || slices.ContainsFunc(w.home.places, func(p place) bool { return above(p.dir) })
}

// spilled tells of a vat whose spill changed.
func (w *Watch) spilled(path string) {
	dir, name := filepath.Split(path)
	if !slices.ContainsFunc(w.home.places, func(p place) bool { return p.dir == filepath.Clean(dir) }) {
		return
	}
	for _, vat := range w.names() {
		if strings.HasPrefix(name, vat+".") {
			w.tell(vat)
		}
	}
}

// forget drops the watch of a folder, if it has one.
func (w *Watch) forget(dir string) {
	if w.watched[dir] {
		_ = w.notify.Remove(dir) // one that is gone is no longer watched
		delete(w.watched, dir)
	}
}

// arrange watches the folder of all vats and each in it; while there is none, the nearest folder above that there is. A folder
// is watched before what is in it is looked for, so that nothing is made unseen in between.
func (w *Watch) arrange() {
	top, whole := w.top(), w.notify != nil
	for w.add(top, &whole); top != w.top(); w.add(top, &whole) {
		top = w.top()
	}
	want := append(w.forSpills(), top)
	for _, vat := range w.names() {
		dir := w.home.VatDir(vat)
		want = append(want, dir)
		w.add(dir, &whole)
	}
	for dir := range maps.Clone(w.watched) {
		if !slices.Contains(want, dir) {
			w.forget(dir)
		}
	}
	w.mu.Lock()
	turned := w.polled == whole
	w.polled = !whole
	w.mu.Unlock()
	if turned {
		w.were = w.marks()
		w.tellAll()
	}
}

// forSpills watches the folders that spills lie in; while there is none, the nearest one above it, but not the system's for what
// may vanish, where too much goes on.
func (w *Watch) forSpills() (want []string) {
	for _, p := range w.home.places {
		dir := p.dir
		if !p.passing {
			dir = nearest(dir)
		}
		var whole bool // the vats are not polled for it
		w.add(dir, &whole)
		want = append(want, dir)
	}
	return want
}

// add watches a folder; whole becomes false if that cannot be had, or does not tell of everything.
func (w *Watch) add(dir string, whole *bool) {
	if w.notify != nil && !w.watched[dir] {
		switch err := w.notify.Add(dir); {
		case err == nil:
			w.watched[dir] = true
			w.tell(filepath.Base(dir)) // what was written before is not notified of
		case !errors.Is(err, fs.ErrNotExist): // one that is gone by now is told of by the folder above
			*whole = false
		}
	}
	*whole = *whole && !w.remote(dir)
}

// top is the folder of all vats, or the nearest one above it that there is.
func (w *Watch) top() string { return nearest(w.vats) }

// nearest is a folder, or the nearest one above it that there is.
func nearest(dir string) string {
	for !isFolder(dir) && filepath.Dir(dir) != dir {
		dir = filepath.Dir(dir)
	}
	return dir
}

// names are those of the vats. What cannot be read is told by whoever reads the vats.
func (w *Watch) names() (vats []string) {
	vats, _ = w.home.Vats()
	return vats
}

// compare tells of the vats whose files are not as they were.
func (w *Watch) compare() {
	are := w.marks()
	for vat, mark := range are {
		if w.were[vat] != mark {
			w.tell(vat)
		}
	}
	for vat := range w.were {
		if _, there := are[vat]; !there {
			w.tell(vat)
		}
	}
	w.were = are
}

func mark(b *strings.Builder, path string) {
	if info, err := os.Stat(path); err == nil {
		fmt.Fprintf(b, "%s %d %d\n", path, info.Size(), info.ModTime().UnixNano())
	}
}

// marks are the names, sizes and times of the files of each vat, its spills among them.
func (w *Watch) marks() map[string]string {
	out := map[string]string{}
	for _, vat := range w.names() {
		var b strings.Builder
		files, _ := list(w.home.VatDir(vat))
		for _, f := range files {
			if isBoard(f.Name()) {
				continue
			}
			mark(&b, filepath.Join(w.home.VatDir(vat), f.Name()))
		}
		for _, p := range w.home.places {
			for _, path := range p.files(vat + ".") {
				mark(&b, path)
			}
		}
		out[vat] = b.String()
	}
	return out
}

// Tap is one listener to a Watch: for the changes of one vat, or of all. Close it when it is no longer read.
type Tap struct {
	watch   *Watch
	vat     string // empty: all
	changed chan struct{}
	vats    map[string]bool // that changed since they were last asked for
}

// Tap begins to hand on the changes of a vat; of every one if vat is empty.
func (w *Watch) Tap(vat string) *Tap {
	t := &Tap{watch: w, vat: vat, changed: make(chan struct{}, 1), vats: map[string]bool{}}
	w.mu.Lock()
	defer w.mu.Unlock()
	w.taps[t] = true
	return t
}

// Changed has one slot: a signal lies in it when something changed since it was last fetched.
func (t *Tap) Changed() <-chan struct{} { return t.changed }

// Vats are the names of those that changed since they were last asked for.
func (t *Tap) Vats() []string {
	t.watch.mu.Lock()
	defer t.watch.mu.Unlock()
	out := slices.Sorted(maps.Keys(t.vats))
	clear(t.vats)
	return out
}

// Close ends it.
func (t *Tap) Close() {
	t.watch.mu.Lock()
	defer t.watch.mu.Unlock()
	delete(t.watch.taps, t)
}

func (w *Watch) tell(vat string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	for t := range w.taps {
		if t.vat == "" || t.vat == vat {
			t.put(vat)
		}
	}
}

// tellAll is for what may have changed anywhere.
func (w *Watch) tellAll() {
	vats := w.names()
	w.mu.Lock()
	defer w.mu.Unlock()
	for t := range w.taps {
		if t.vat == "" {
			t.put(vats...)
		} else {
			t.put(t.vat)
		}
	}
}

func (t *Tap) put(vats ...string) {
	for _, vat := range vats {
		t.vats[vat] = true
	}
	select {
	case t.changed <- struct{}{}:
	default:
	}
}
