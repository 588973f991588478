package shelf

import (
	"fmt"
	"hash/fnv"
	"io"
	"path/filepath"
	"strings"

	"github.com/adrg/xdg"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/terminal"
)

// Grounds remembers the ground colour that each terminal answered last, in one small file of the platform's folder for state:
// it is of the terminals of this machine, not of a home. The first frame waits for it to be read. It is written whole, without
// a lock: of two programs that write at once one is forgotten, and that terminal is asked again. A file that is not as this
// program writes it counts as none. The zero Grounds remembers nothing.
type Grounds struct{ file string }

// TerminalGrounds is the memory of this machine.
func TerminalGrounds() Grounds { return GroundsIn(filepath.Join(xdg.StateHome, "vatside")) }

// GroundsIn is a memory in a folder, which is made when it is first written.
func GroundsIn(dir string) Grounds { return Grounds{filepath.Join(dir, "grounds")} }

const (
	groundsHead = "# The ground colour of each terminal, as it answered last.\n"
	groundsMost = 32      // terminals, the newest
	groundsSize = 4 << 10 // bytes; more than so many terminals take
)

// answered is one line of the file.
type answered struct {
	terminal uint64 // the checksum of what it is called
	ground   terminal.Ground
}

func (a answered) String() string {
	return fmt.Sprintf("%016x rgb:%04x/%04x/%04x\n", a.terminal, a.ground.R, a.ground.G, a.ground.B)
}

// Of is the ground of a terminal, by what it is called; ok is false where it is not known.
func (g Grounds) Of(name string) (ground terminal.Ground, ok bool) {
	sum := checksum(name)
	a, ok := wording.First(g.read(), func(a answered) bool { return a.terminal == sum })
	return a.ground, ok
}

// Keep remembers the ground of a terminal. Nothing is written where that is known already.
func (g Grounds) Keep(name string, ground terminal.Ground) error {
	if g.file == "" {
		return nil
	}
	ground.Late = false
	now := answered{checksum(name), ground}
	var keep []answered
	for _, a := range g.read() {
		switch {
		case a == now:
			return nil
		case a.terminal != now.terminal:
			keep = append(keep, a)
		}
	}
	keep = append(keep, now)
	text := groundsHead
	for _, a := range keep[max(0, len(keep)-groundsMost):] {
		text += a.String()
	}
	if err := replace(g.file, []byte(text)); err != nil {
		return fmt.Errorf("the ground of the terminal cannot be kept: %w", err)
	}
	return nil
}

// read is what the file says, the oldest first; nothing where any of it is not as written here.
func (g Grounds) read() []answered {
	if g.file == "" {
		return nil
	}
	text, err := readFile(g.file)
	rest, ok := strings.CutPrefix(string(text), groundsHead)
	if err != nil || len(text) > groundsSize || !ok {
		return nil
	}
	var out []answered
	for line := range strings.Lines(rest) {
		var a answered
		_, err := fmt.Sscanf(line, "%x rgb:%x/%x/%x", &a.terminal, &a.ground.R, &a.ground.G, &a.ground.B)
		if err != nil || a.String() != line {
			return nil
		}
		out = append(out, a)
	}
	return out
}

func checksum(s string) uint64 {
	h := fnv.New64a()
	_, _ = io.WriteString(h, s) // a hash takes all
	return h.Sum64()
}
