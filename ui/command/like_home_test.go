package command

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
)

// rehearsed is a home with so many rehearsed vats, garden-bin and garden-bin-2. The day is played once and copied.
func rehearsed(t *testing.T, vats int) string {
	t.Helper()
	home := t.TempDir()
	text, err := played()
	if err != nil {
		t.Fatal(err)
	}
	for _, vat := range []string{"garden-bin", "garden-bin-2"}[:vats] {
		place(t, home, vat, theDay, text)
	}
	return home
}

const theDay = "2026-11-26"

var played = sync.OnceValues(func() ([]byte, error) {
	home, err := os.MkdirTemp("", "vatside-test-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(home)
	var e bytes.Buffer
	if code := Main([]string{"rehearse", "--plain", "--speed", "max", "--home", home}, World{In: bytes.NewReader(nil), Out: io.Discard, Err: &e}); code != 0 {
		return nil, errors.New(e.String())
	}
	files, _ := filepath.Glob(filepath.Join(home, "vats", "garden-bin", "*.toml"))
	if len(files) != 1 {
		return nil, fmt.Errorf("%v", files)
	}
	return os.ReadFile(files[0])
})

func fileOf(home, vat, name string) string { return filepath.Join(home, "vats", vat, name+".toml") }

func place(t *testing.T, home, vat, name string, text []byte) {
	t.Helper()
	file := fileOf(home, vat, name)
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, text, 0o644); err != nil {
		t.Fatal(err)
	}
}

// rewritten writes the day of a vat anew by hand: of each event what is made of it, and more after the last, a minute apart.
func rewritten(t *testing.T, home, vat string, made func(day.Event) []day.Body, more ...day.Body) {
	t.Helper()
	data, err := os.ReadFile(fileOf(home, vat, theDay))
	if err != nil {
		t.Fatal(err)
	}
	b := book.Read(theDay, data)
	var events []day.Event
	at := time.Time{}
	for _, e := range b.Events {
		for _, body := range made(e) {
			at = e.At
			events = append(events, day.Event{At: at, Body: body})
		}
	}
	for _, body := range more {
		at = at.Add(time.Minute)
		events = append(events, day.Event{At: at, Body: body})
	}
	place(t, home, vat, theDay, encoded(t, b.Head, events))
}

func encoded(t *testing.T, head day.Head, events []day.Event) []byte {
	t.Helper()
	out, err := book.EncodeHead(head)
	if err != nil {
		t.Fatal(err)
	}
	for i, e := range events {
		e.Seq = i + 1
		block, err := book.EncodeEvent(e)
		if err != nil {
			t.Fatal(err)
		}
		out = append(append(out, '\n'), block...)
	}
	return out
}

// open keeps all but the end of the day.
func open(e day.Event) []day.Body {
	if _, ends := e.Body.(day.Closed); ends {
		return nil
	}
	return []day.Body{e.Body}
}

// first keeps so many events.
func first(n int) func(day.Event) []day.Body {
	return func(e day.Event) []day.Body {
		if n--; n < 0 {
			return nil
		}
		return open(e)
	}
}

func seenAs(tag, looks string) day.Body {
	return day.LookedAt{OfPiece: day.OfPiece{Tag: tag}, Looks: looks, Rinsed: true}
}
