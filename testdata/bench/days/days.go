// Package days changes played days for the benches and for the fuzzing of the commands: it cuts them short, moves them in
// time, and spoils them.
package days

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"regexp"
	"slices"
	"strconv"
	"time"
)

// A Day is the text of a day's file, block by block: block 0 is the head. A block goes up to its end line, which is not
// part of it.
type Day struct {
	Blocks [][]byte
	Seqs   []int    // as the end lines have them
	Sums   []string // as the end lines have them; Sign makes them anew
}

var endLine = regexp.MustCompile(`(?m)^# end (\d+) ([0-9a-f]{8})\n`)

// Parse takes a whole day apart.
func Parse(text []byte) Day {
	var d Day
	for len(text) > 0 {
		at := endLine.FindSubmatchIndex(text)
		if at == nil {
			break
		}
		seq, _ := strconv.Atoi(string(text[at[2]:at[3]]))
		d.Blocks = append(d.Blocks, bytes.Clone(bytes.TrimPrefix(text[:at[0]], []byte("\n"))))
		d.Seqs, d.Sums = append(d.Seqs, seq), append(d.Sums, string(text[at[4]:at[5]]))
		text = text[at[1]:]
	}
	return d
}

// Sign makes the end lines fit what they close.
func (d Day) Sign() {
	for i, b := range d.Blocks {
		d.Sums[i] = fmt.Sprintf("%08x", crc32.ChecksumIEEE(append(bytes.TrimSuffix(slices.Clone(b), []byte("\n")), '\n')))
	}
}

// Text is the file again.
func (d Day) Text() []byte {
	var out []byte
	for i, b := range d.Blocks {
		if i > 0 {
			out = append(out, '\n')
		}
		out = append(out, b...)
		if len(out) > 0 && out[len(out)-1] != '\n' {
			out = append(out, '\n')
		}
		out = fmt.Appendf(out, "# end %d %s\n", d.Seqs[i], d.Sums[i])
	}
	return out
}

// First is the head with the first n events.
func (d Day) First(n int) Day { return Day{d.Blocks[:n+1], d.Seqs[:n+1], d.Sums[:n+1]} }

// Upto is the day up to an event of a kind, the last of them.
func (d Day) Upto(kind string) (Day, error) {
	for i := len(d.Blocks) - 1; i > 0; i-- {
		if bytes.Contains(d.Blocks[i], []byte("\nkind = \""+kind+"\"\n")) {
			return d.First(i), nil
		}
	}
	return d, fmt.Errorf("the day has no event of the kind %q", kind)
}

var (
	instant = regexp.MustCompile(`\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:Z|[+-]\d\d:\d\d)`)
	lastAt  = regexp.MustCompile(`(?m)^at = (\S+)$`)
	dayLine = regexp.MustCompile(`(?m)^day = "[^"]*"$`)
	machine = regexp.MustCompile(`(?m)^(?:boot|up) = .*\n`)
)

// Last is the instant of the last event.
func (d Day) Last() (time.Time, error) {
	at := lastAt.FindSubmatch(d.Blocks[len(d.Blocks)-1])
	if at == nil {
		return time.Time{}, fmt.Errorf("the last event has no time")
	}
	return time.Parse(time.RFC3339, string(at[1]))
}

// EndAt moves the whole day so that its last event is at an instant, in the zone of that, lets go of the boot clock, and signs it anew. It
// gives the name of the day: the date of its first event.
func (d Day) EndAt(end time.Time) (name string, err error) {
	last, err := d.Last()
	if err != nil {
		return "", err
	}
	by := end.Sub(last).Truncate(time.Second)
	for i, b := range d.Blocks {
		b = machine.ReplaceAll(b, nil)
		b = instant.ReplaceAllFunc(b, func(s []byte) []byte {
			t, err := time.Parse(time.RFC3339, string(s))
			if err != nil {
				return s
			}
			return []byte(t.Add(by).In(end.Location()).Format(time.RFC3339))
		})
		if i == 1 {
			if at := lastAt.FindSubmatch(b); at != nil {
				name = string(at[1][:len("2006-01-02")])
			}
		}
		d.Blocks[i] = b
	}
	d.Blocks[0] = dayLine.ReplaceAll(d.Blocks[0], fmt.Appendf(nil, "day = %q", name))
	d.Sign()
	return name, nil
}
