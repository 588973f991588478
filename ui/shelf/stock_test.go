package shelf

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/stock"
)

var stockNoon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

// buy puts one more tin on a list.
func buy(material string) stock.Command {
	price := quantity.Hundredths(1250)
	return stock.AddTin{New: stock.NewTin{Material: material, Holds: 500, Price: &price}}
}

// tins are those of a home whose file must be whole.
func tins(t *testing.T, h Home) []stock.Tin {
	t.Helper()
	s, err := h.Stock()
	must(t, err)
	if f := s.Verify(); len(f) > 0 {
		t.Errorf("not whole: %v", f)
	}
	l, errs := stock.Replay(s.Events)
	if len(errs) > 0 {
		t.Error(errs)
	}
	return l.Tins
}

func TestStockOnDisk(t *testing.T) {
	h := Open(filepath.Join(t.TempDir(), "home"))
	if _, _, err := h.KeepStock(stockNoon, buy("")); err == nil {
		t.Error("a tin without a name was taken")
	}
	if _, err := os.Stat(h.Dir()); err == nil || len(tins(t, h)) > 0 {
		t.Error("a refusal made the home")
	}
	for _, m := range []string{"soda ash", `lime "old"`} {
		if done, torn, err := h.KeepStock(stockNoon, buy(m)); err != nil || torn != "" || len(done) != 1 {
			t.Fatal(done, torn, err)
		}
	}
	done, _, err := h.KeepStock(stockNoon.Add(-time.Hour), stock.OpenTin{Tin: "T1"})
	if err != nil || len(done) != 1 {
		t.Fatal(done, err)
	}
	got := tins(t, h)
	if len(got) != 2 || got[1].Material != `lime "old"` || got[0].Price.String() != "12.50" || got[0].Holds != 500 {
		t.Errorf("%+v", got)
	}
	if !got[0].Opened.Equal(stockNoon) {
		t.Errorf("opened at %v: the clock ran back", got[0].Opened)
	}
	data, err := os.ReadFile(h.StockFile())
	must(t, err)
	if want := "format = 1\n# end 0 "; !strings.HasPrefix(string(data), want) || strings.Count(string(data), "[[event]]") != 3 {
		t.Errorf("the file:\n%s", data)
	}
}

func TestStockLock(t *testing.T) {
	h := Open(t.TempDir())
	lock, got, err := tryLock(filepath.Join(h.Dir(), ".stock.lock"))
	must(t, err)
	if !got {
		t.Fatal("not locked")
	}
	if _, _, err := h.KeepStock(stockNoon, buy("soda ash")); !errors.Is(err, ErrStockLocked) {
		t.Errorf("under another's lock: %v", err)
	}
	must(t, lock.Unlock())
	_, _, err = h.KeepStock(stockNoon, buy("soda ash"))
	must(t, err)
	_, _, err = h.KeepStock(stockNoon, buy("soda ash")) // the lock was given back
	must(t, err)
}

// Cut anywhere, the file keeps every whole event, and goes on: what was torn stands beside it.
func TestStockTornAnywhere(t *testing.T) {
	h := Open(t.TempDir())
	for _, m := range []string{"soda ash", "calcium hydroxide"} {
		_, _, err := h.KeepStock(stockNoon, buy(m))
		must(t, err)
	}
	whole, err := os.ReadFile(h.StockFile())
	must(t, err)
	head := len(book.EncodeStockHead())
	second := bytes.LastIndex(whole, []byte("[[event]]"))
	for n := len(whole) - 1; n >= 0; n -= 3 {
		h := Open(t.TempDir())
		must(t, os.WriteFile(h.StockFile(), whole[:n], 0o644))
		before := 0
		if n >= second-2 { // its line feed and the blank line may be missing
			before = 1
		}
		_, torn, err := h.KeepStock(stockNoon, buy("copperas"))
		if err != nil {
			t.Fatalf("cut at %d: %v", n, err)
		}
		got := tins(t, h)
		if n == len(whole)-1 { // the end line's line feed alone is missing
			before = 2
		}
		if len(got) != before+1 || got[before].Material != "copperas" {
			t.Fatalf("cut at %d: %+v", n, got)
		}
		if torn != "" {
			kept, err := os.ReadFile(torn)
			must(t, err)
			if !bytes.HasSuffix(whole[:n], kept) || len(kept) == 0 {
				t.Fatalf("cut at %d: set aside %q", n, kept)
			}
		} else if n > 1 && n < head-1 {
			t.Fatalf("cut at %d, in the head: nothing was set aside", n)
		}
	}
}

func TestStockFaultsAreToldByLine(t *testing.T) {
	h := Open(t.TempDir())
	for range 3 {
		_, _, err := h.KeepStock(stockNoon, buy("soda ash"))
		must(t, err)
	}
	data, err := os.ReadFile(h.StockFile())
	must(t, err)
	bad := strings.Replace(string(data), `holds = "500 g"`, `holds = "500"`, 1)
	must(t, os.WriteFile(h.StockFile(), []byte(bad), 0o644))
	s, err := h.Stock()
	must(t, err)
	f := s.Verify()
	if len(f) != 1 || !f[0].Lost || !strings.HasPrefix(f[0].String(), h.StockFile()+":4: event 1 cannot be read: holds:") || len(s.Events) != 2 {
		t.Errorf("%v, %d events", f, len(s.Events))
	}
	later := strings.Replace(string(data), "format = 1", "format = 9", 1)
	must(t, os.WriteFile(h.StockFile(), []byte(later), 0o644))
	if _, _, err := h.KeepStock(stockNoon, buy("soda ash")); err == nil || !strings.Contains(err.Error(), "stock.toml:1: its first lines cannot be read: its format 9") {
		t.Errorf("%v", err)
	}
	if after, _ := os.ReadFile(h.StockFile()); string(after) != later {
		t.Error("a file of a later version was changed")
	}
}

// A full disk never leaves half an event.
func TestStockFullDisk(t *testing.T) {
	for room := range 40 {
		h := Open(t.TempDir())
		_, _, err := h.KeepStock(stockNoon, buy("soda ash"))
		must(t, err)
		d := &disk{room: room, writeErrs: true}
		h.open = d.open
		if _, _, err := h.KeepStock(stockNoon, buy("lime")); err == nil {
			t.Fatal("a short write was called saved")
		}
		if got := tins(t, h); len(got) != 1 {
			t.Fatalf("%+v", got)
		}
		d.room = -1
		_, _, err = h.KeepStock(stockNoon, buy("lime"))
		must(t, err)
		if got := tins(t, h); len(got) != 2 {
			t.Fatalf("%+v", got)
		}
	}
}
