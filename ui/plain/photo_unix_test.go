//go:build unix

package plain

import (
	"bufio"
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
)

// taking is a disk that takes all.
type taking struct{ unanswering }

func (taking) Append(day.Event) error { return nil }

// While photographs are read from a disk that does not answer, what comes is told and what is typed answered; and each of them is told,
// the last too.
func TestWhatComesIsToldWhilePhotographsAreRead(t *testing.T) {
	slow := filepath.Join(t.TempDir(), "slow.jpg")
	if err := syscall.Mkfifo(slow, 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	e := engine.New(engine.Machine{}, "", cue.Silent{})
	parted := e.Start(ctx)
	soda, _ := recipes.Find("soda")
	head := day.Head{Vat: "bin", Day: "2026-11-25", Zone: "UTC", Recipe: soda, Opening: day.Opening{Number: 2, Built: true},
		Setup: day.Setup{Fill: 60, Place: day.Outdoors}}
	const id = "bin/2026-11-25"
	if _, err := e.Open(ctx, engine.Opening{ID: id, Head: head, Writer: taking{}}); err != nil {
		t.Fatal(err)
	}
	do := func(c day.Command) {
		if _, err := e.Do(ctx, id, c); err != nil {
			t.Error(err)
		}
	}
	do(day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3}})
	said, says := io.Pipe()
	typed, types := io.Pipe()
	followed := make(chan error, 1)
	go func() {
		followed <- New(typed, says).Follow(ctx, e, id)
		_ = says.Close()
	}()
	line := func(text string) { go func() { _, _ = io.WriteString(types, text+"\n") }() }
	line("look A1 " + slow + " " + slow + ".none.jpg")
	var heard []string
	for lines := bufio.NewScanner(said); lines.Scan(); {
		heard = append(heard, lines.Text())
		switch {
		case lines.Text() == "Reading the photograph.":
			do(day.Record{Body: day.Note{Text: "the film comes back"}})
		case strings.Contains(lines.Text(), "the film comes back"):
			line("help")
		case strings.Contains(lines.Text(), "There is no file"):
			line("leave")
		case lines.Text() == "What you can say:":
			if err := os.WriteFile(slow, []byte("no picture"), 0o600); err != nil {
				t.Error(err)
			}
		}
	}
	all := strings.Join(heard, "\n")
	note, first, last := strings.Index(all, "the film comes back"), strings.Index(all, "no photograph"), strings.Index(all, "There is no file")
	if note < 0 || first < note || last < first {
		t.Errorf("it says\n%s", all)
	}
	if err := <-followed; err != nil {
		t.Error(err)
	}
	stop()
	<-parted
}
