package ui

import (
	"encoding/binary"
	"flag"
	"fmt"
	"hash/crc32"
	"image/color"
	"math/rand/v2"
	"os"
	"runtime"
	"strings"
	"sync"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/testdata/bench/emulator"
	"example.org/vatside/ui/terminal"
)

var update = flag.Bool("update", false, "write testdata/screens anew")

// goldens has a row a screen and window: its name, | and the CRC-32 of what is seen for each of lookColumns.
const goldens = "../testdata/screens/goldens.txt"

// Every screen, in windows of each size, in every theme and depth of colour, is cell by cell what it was, painted over any other
// one. After a change that is meant: go test ./ui -run Goldens -update.
func TestGoldens(t *testing.T) {
	t.Parallel()
	all := frames(t)
	sums := make([]uint32, len(all))
	todo := make(chan int, len(all))
	for _, i := range rand.New(rand.NewPCG(12, 12)).Perm(len(all)) {
		todo <- i
	}
	close(todo)
	var work sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		work.Go(func() {
			terminals, painters := map[[2]int]*emulator.Screen{}, map[[2]int]*terminal.Painter{}
			var cells []byte
			for i := range todo {
				size := [2]int{all[i].Width, all[i].Height}
				if terminals[size] == nil {
					terminals[size], painters[size] = emulator.New(size[0], size[1]), &terminal.Painter{}
				}
				_, _ = terminals[size].Write(painters[size].Paint(strings.Split(all[i].Text, "\n"), size[0], size[1]))
				cells = appendCells(cells[:0], terminals[size], size)
				sums[i] = crc32.ChecksumIEEE(cells)
			}
		})
	}
	work.Wait()

	columns := lookColumns()
	var names []string
	for _, l := range columns {
		names = append(names, l.name)
	}
	rows := []string{"screen, columns×rows | " + strings.Join(names, " ")}
	for i, f := range all {
		if i%len(columns) == 0 {
			rows = append(rows, f.name()+" |")
		}
		rows[len(rows)-1] += fmt.Sprintf(" %08x", sums[i])
	}
	if *update {
		if err := os.WriteFile(goldens, []byte(strings.Join(rows, "\n")+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	text, err := os.ReadFile(goldens)
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{}
	for line := range strings.Lines(string(text)) {
		name, sums, _ := strings.Cut(strings.TrimSpace(line), " | ")
		want[name] = sums
	}
	if len(want) != len(rows) || want["screen, columns×rows"] != strings.Join(names, " ") {
		t.Errorf("%s has other rows or columns than there are screens", goldens)
	}
	told := 0
	for n, row := range rows[1:] {
		name, got, _ := strings.Cut(row, " | ")
		old := strings.Fields(want[name])
		var changed []string
		first := 0
		for i, sum := range strings.Fields(got) {
			if i < len(old) && old[i] == sum {
				continue
			}
			if changed == nil {
				first = n*len(columns) + i
			}
			changed = append(changed, names[i])
		}
		if changed == nil {
			continue
		}
		if told++; told <= 3 {
			f := all[first]
			s := emulator.New(f.Width, f.Height)
			show(s, f)
			t.Errorf("%s: not as it was in %s:\n%s", name, strings.Join(changed, ", "), s.Text())
		}
	}
	if told > 3 {
		t.Errorf("and %d more screens are not as they were", told-3)
	}
}

func (f frame) name() string { return fmt.Sprintf("%s, %d×%d", f.Place, f.Width, f.Height) }

// show shows a frame on a terminal at once, whatever stood there.
func show(s *emulator.Screen, f frame) {
	_, _ = s.Write([]byte("\x1b[m\x1b[2J\x1b[H" + strings.ReplaceAll(f.Text, "\n", "\r\n")))
}

// appendCells appends all that is seen in the cells of a terminal.
func appendCells(b []byte, s *emulator.Screen, size [2]int) []byte {
	for y := range size[1] {
		for x := range size[0] {
			c := s.Cell(x, y).Seen()
			b = append(append(b, c.Text...), byte(c.Width), byte(c.Attrs))
			b = binary.BigEndian.AppendUint32(b, coded(c.Ink))
			b = binary.BigEndian.AppendUint32(b, coded(c.Ground))
		}
	}
	return b
}

// coded is how a colour was asked for, in the highest byte, and its value.
func coded(c color.Color) uint32 {
	switch c := c.(type) {
	case nil:
		return 0
	case ansi.BasicColor:
		return 1<<24 | uint32(c)
	case ansi.IndexedColor:
		return 2<<24 | uint32(c)
	}
	r, g, b, _ := c.RGBA()
	return 3<<24 | r>>8<<16 | g>>8<<8 | b>>8
}
