package command

import (
	"bufio"
	"context"
	"io"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/shelf"
)

// A second program in the linear mode says what the first writes, offers the day when that one is gone, and goes on with it.
func TestPlainFollowsAndTakesOver(t *testing.T) {
	home := shelf.Open(t.TempDir())
	soda, _ := recipes.Find("soda")
	at := time.Date(2026, 5, 9, 9, 0, 0, 0, time.UTC)
	w, err := home.NewDay(day.Head{Vat: "bin", Day: "2026-05-09", Zone: "UTC", Recipe: soda, Opening: day.Opening{Number: 2, Built: true},
		Setup: day.Setup{Fill: 60, Place: day.Outdoors}})
	if err != nil {
		t.Fatal(err)
	}
	seq := 0
	write := func(b day.Body) {
		t.Helper()
		seq++
		if err := w.Append(day.Event{Seq: seq, At: at, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	write(day.Opened{How: "tend"})

	in, typed := io.Pipe()
	said, out := io.Pipe()
	code := make(chan int, 1)
	go func() {
		code <- Main([]string{"--plain", "--home", home.Dir()}, World{In: in, Out: out, Err: out, Getenv: func(string) string { return "" }})
		_ = out.Close()
	}()
	lines := bufio.NewScanner(said)
	ctx, stop := context.WithTimeout(context.Background(), 30*time.Second)
	t.Cleanup(stop)
	context.AfterFunc(ctx, func() { _ = said.CloseWithError(io.ErrUnexpectedEOF) })
	hear := func(want string) {
		t.Helper()
		for lines.Scan() {
			if strings.Contains(lines.Text(), want) {
				return
			}
		}
		t.Fatalf("it never says %q", want)
	}
	say := func(line string) {
		t.Helper()
		if _, err := io.WriteString(typed, line+"\n"); err != nil {
			t.Fatal(err)
		}
	}

	hear("Another program has this day open: here it can only be looked at.")
	write(day.Note{Text: "by the first"})
	hear("by the first")
	say("note by the second")
	hear("Not done. Another program has this day open")
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	hear("The other program has left this vat: Enter takes the day over.")
	say("")
	hear("This program writes the day now.")
	if _, _, err := home.OpenDay("bin", "2026-05-09"); err == nil {
		t.Error("it has no lock on the day that it took over")
	}
	say("note by the second")
	hear("by the second")
	say("q")
	hear("Left")
	if c := <-code; c != 0 {
		t.Errorf("exit %d", c)
	}
	b, err := home.ReadDay("bin", "2026-05-09")
	if err != nil || len(book.Verify(b)) > 0 {
		t.Errorf("the book is not whole: %v %v", err, book.Verify(b))
	}
	last := b.Events[len(b.Events)-1]
	if n, ok := last.Body.(day.Note); !ok || n.Text != "by the second" || last.Seq != len(b.Events) {
		t.Errorf("the last event is %+v", last)
	}
}
