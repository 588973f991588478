package command

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
)

// now tells whether the calls of the day are heard, and why one could not be sounded.
func TestNowTellsOfTheSound(t *testing.T) {
	home := t.TempDir()
	run(t, "", "rehearse", "--plain", "--speed", "max", "--home", home)
	halves(t, home, 20)
	sound := func() string {
		days, _ := nowJSON(t, home)
		return fmt.Sprint(days[0].(map[string]any)["sound"])
	}
	if got := sound(); got != "map[failed:<nil> heard:<nil>]" {
		t.Errorf("before the check %s", got)
	}
	files, _ := filepath.Glob(filepath.Join(home, "vats", "*", "*.toml"))
	text, err := os.ReadFile(files[0])
	if err != nil {
		t.Fatal(err)
	}
	b := book.Read(files[0], text)
	last := b.Events[len(b.Events)-1]
	for i, body := range []day.Body{day.SoundChecked{Heard: true}, day.SoundFailed{Call: "A1 out", Why: "no player on this machine"}} {
		block, err := book.EncodeEvent(day.Event{Seq: last.Seq + 1 + i, At: last.At, Body: body})
		if err != nil {
			t.Fatal(err)
		}
		text = append(text, block...)
	}
	if err := os.WriteFile(files[0], text, 0o644); err != nil {
		t.Fatal(err)
	}
	if got := sound(); got != "map[failed:no player on this machine heard:true]" {
		t.Errorf("after a failure %s", got)
	}
	if out, _, _ := run(t, home, "now"); !strings.Contains(out, "a call could not be sounded, no player on this machine") {
		t.Errorf("it tells %s", out)
	}
}
