package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/stock"
)

// ErrStockLocked says that another program writes the list of tins at this moment.
var ErrStockLocked = errors.New("the list of tins is being written in another program: try once more")

// StockFile is the file with the list of tins, one for the home.
func (h Home) StockFile() string { return filepath.Join(h.dir, "stock.toml") }

// Stock reads the list of tins to look only: it takes no lock and changes nothing. A home without one has an empty one.
// The error is about the file; what is wrong inside it stands in the Stock.
func (h Home) Stock() (book.Stock, error) {
	data, err := readFile(h.StockFile())
	if errors.Is(err, fs.ErrNotExist) {
		return book.Stock{Frame: book.Frame{File: h.StockFile()}}, nil
	}
	if err != nil {
		return book.Stock{}, fmt.Errorf("the list of tins cannot be read: %w", err)
	}
	return book.ReadStock(h.now(), h.StockFile(), data), nil
}

// KeepStock appends what a command makes of the list as it stands, under the lock of the list: one write and one fsync an
// event. A torn tail is copied to stock.torn-1 (-2 …) and then cut off; torn is where. What is refused changes nothing,
// not even by making the home. Errors: the refusal, ErrStockLocked, or what is wrong with the file or its head.
// done is what is on disk, also when there is an error.
func (h Home) KeepStock(at time.Time, c stock.Command) (done []stock.Body, torn string, err error) {
	if _, _, err := h.decided(c, at); err != nil {
		return nil, "", err
	}
	if err := makeDir(h.dir); err != nil {
		return nil, "", err
	}
	lock, got, err := tryLock(filepath.Join(h.dir, ".stock.lock"))
	switch {
	case err != nil:
		return nil, "", fmt.Errorf("the list of tins cannot be locked: %w", err)
	case !got:
		return nil, "", ErrStockLocked
	}
	w := pen{home: h, path: h.StockFile(), lock: lock}
	defer func() { err = errors.Join(err, w.Close()) }()
	s, bodies, err := h.decided(c, at)
	if err != nil {
		return nil, "", err
	}
	if err := w.stock(s); err != nil {
		return nil, w.torn, err
	}
	if n := len(s.Events); n > 0 && s.Events[n-1].At.After(at) {
		at = s.Events[n-1].At // a wall clock that was set back does not turn the order round
	}
	for i, b := range bodies {
		e := stock.Event{Seq: s.NextSeq() + i, At: at, Body: b}
		text, err := book.EncodeStock(e)
		if err == nil {
			err = w.add(text)
		}
		if err != nil {
			return done, w.torn, fmt.Errorf("event %d of the tins is not on disk: %w", e.Seq, err)
		}
		done = append(done, b)
	}
	return done, w.torn, nil
}

// decided is the list as it stands, and what a command makes of it.
func (h Home) decided(c stock.Command, now time.Time) (book.Stock, []stock.Body, error) {
	s, err := h.Stock()
	if err != nil {
		return s, nil, err
	}
	if s.HeadErr != nil {
		return s, nil, fmt.Errorf("the list of tins cannot be gone on with: %s:1: its first lines cannot be read: %w", s.File, s.HeadErr)
	}
	l, _ := stock.Replay(s.Events)
	bodies, err := stock.Decide(l, c, now)
	return s, bodies, err
}

// stock opens the file that was read, or begins it.
func (w *pen) stock(s book.Stock) error {
	head := book.EncodeStockHead()
	if s.Empty() && len(s.Torn) == 0 {
		f, err := w.home.create(w.path, head)
		if err == nil {
			w.file, w.size = f, int64(len(head))
			return nil
		}
		if !errors.Is(err, fs.ErrExist) {
			return fmt.Errorf("the list of tins cannot be begun: %w", err)
		}
	}
	w.size = int64(s.TornAt)
	if err := w.start(s.Torn); err != nil {
		return err
	}
	if w.size == 0 { // it was killed before its head was whole
		return w.put(head)
	}
	return nil
}
