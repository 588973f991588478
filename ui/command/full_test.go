package command

import (
	"bytes"
	"slices"
	"strings"
	"syscall"
	"testing"

	"example.org/vatside/testdata/bench/days"
)

// full is a writer that takes so many bytes and no more.
type full struct{ room int }

func (f *full) Write(text []byte) (int, error) {
	if n := f.room; len(text) > n {
		f.room = 0
		return n, syscall.ENOSPC
	}
	f.room -= len(text)
	return len(text), nil
}

// A command whose output cannot be written ends with 1 and one sentence: whichever it is, whatever was written before.
func TestOutputThatCannotBeWritten(t *testing.T) {
	home := rehearsed(t, 1)
	rewritten(t, home, "garden-bin", open)
	place := days.Place{Home: home, Vat: "garden-bin", Day: theDay, Tag: "A1", Out: t.TempDir()}
	lines := slices.DeleteFunc(append(place.Commands(), days.Others(home)...), func(args []string) bool {
		return len(args) > 0 && slices.Contains([]string{"rehearse", "begin", "say"}, args[0]) // with what they do twice
	})
	for _, words := range []string{"note full", "give reducer 20 g", "timetable"} { // 0, 3, 0
		lines = append(lines, []string{"say", "garden-bin", words, "--home", home}, []string{"say", "garden-bin", words, "--json", "--home", home})
	}
	tried := 0
	lines = append(lines, []string{"rehearse", "--plain", "--speed", "max", "--home", t.TempDir()})
	for _, args := range lines {
		out, _, code := run(t, "", args...)
		if code != 0 && code != 3 || out == "" || args[1] == "export" { // its tables are there by now
			continue
		}
		tried++
		if args[0] == "rehearse" { // each time in a folder of its own
			args[len(args)-1] = t.TempDir()
		}
		for _, room := range []int{0, len(out) / 2} {
			var errs bytes.Buffer
			got := Main(args, World{In: strings.NewReader(""), Out: &full{room}, Err: &errs})
			said := 0
			for line := range strings.Lines(errs.String()) {
				if strings.HasPrefix(line, "vatside: ") && strings.Contains(line, "no space left on device") {
					said++
				}
			}
			if got != 1 || said != 1 {
				t.Errorf("%v ends with %d where %d bytes can be written, and says %s", args, got, room, errs.String())
			}
			if slices.Contains([]string{"sheet", "book", "rehearse"}, args[0]) { // they take their time
				break
			}
		}
	}
	if tried < 30 {
		t.Errorf("only %d commands print something", tried)
	}
	if out, errs, code := run(t, home, "say", "garden-bin", "note dry"); code != 0 || errs != "" {
		t.Errorf("with room %d %s%s", code, out, errs)
	}
}
