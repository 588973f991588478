package command

import (
	"bufio"
	"bytes"
	"io"
	"strings"
	"testing"
	"time"

	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/shelf"
)

// A rehearsal that is asked for on the screens is played in a folder of its own, and the program is opened again when it is left.
func TestARehearsalInsideTheProgram(t *testing.T) {
	for wanted, days := range map[error]int{rehearse.ErrWanted: 1, rehearse.ErrClassWanted: 2} {
		rehearsedInside(t, wanted, days)
	}
}

// rehearsedInside leaves the screens for a rehearsal, which is to have so many open days.
func rehearsedInside(t *testing.T, wanted error, days int) {
	home := t.TempDir()
	var opened []Screens
	open := 0
	show := func(s Screens) error {
		opened = append(opened, s)
		switch len(opened) {
		case 1:
			return wanted
		case 2:
			vats, _ := s.Home.Vats()
			for _, v := range vats {
				if names, err := s.Home.Days(v); err == nil && len(names) == 1 && names[0] == s.Day {
					open++
				}
			}
		}
		return nil
	}
	p := &program{atTerminal: true, home: home}
	p.World = World{In: &bytes.Buffer{}, Out: &bytes.Buffer{}, Err: &bytes.Buffer{}, Getenv: func(string) string { return "" }, Now: time.Now, Screens: show}
	if err := p.open(); err != nil {
		t.Fatal(err)
	}
	if len(opened) != 3 || opened[0].Home.Dir() != home || opened[1].Day == "" || opened[1].Speed != heardSpeed || opened[1].Home.Dir() == home || opened[2].Home.Dir() != home || opened[2].Day != "" {
		t.Errorf("opened were %+v", opened)
	}
	if open != days {
		t.Errorf("%v: %d days are rehearsed, want %d", wanted, open, days)
	}
	if vats, err := shelf.Open(home).Vats(); err != nil || len(vats) != 0 {
		t.Errorf("the dyer's own home has %v, %v", vats, err)
	}
	if vats, _ := opened[1].Home.Vats(); len(vats) != 0 {
		t.Error("the rehearsal's folder is still there")
	}
}

// So is one in plain mode: a class at both its vats, which are named.
func TestAClassIsRehearsedInPlainMode(t *testing.T) {
	in, typed := io.Pipe()
	said, out := io.Pipe()
	go func() {
		Main([]string{"--plain", "--home", t.TempDir()}, World{In: in, Out: out, Err: out, Getenv: func(string) string { return "" }})
		_ = out.Close()
	}()
	go func() { _, _ = io.WriteString(typed, "4\n") }()
	north, south := false, false
	for lines := bufio.NewScanner(said); lines.Scan(); {
		north = north || strings.Contains(lines.Text(), "North vat. ")
		south = south || strings.Contains(lines.Text(), "South vat. ")
		if north && south {
			_ = typed.Close()
		}
	}
	if !north || !south {
		t.Errorf("it tells of the north vat: %v, of the south vat: %v", north, south)
	}
}
