package book

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"slices"
	"time"

	"example.org/vatside/model/day"
)

// spillFormat is the number of the form of a spill file that this version writes.
const spillFormat = 1

// Spill is a file of events that the file of their day refused: a short head that says whose they are, and the same blocks
// as they have in the day. Day and spill are read as one, until the events are brought into the day.
type Spill struct {
	Frame
	Home     string // the folder of the home
	Vat, Day string
	HeadCRC  uint32 // the checksum of the day's head, by which the day is known where its home was moved
	Events   []day.Event
	blocks   []spilled // all of them, also those that cannot be read
}

// SpillHead is the head of a spill.
type SpillHead struct {
	Home, Vat, Day string
	HeadCRC        uint32
}

// EncodeSpillHead is block 0 of a spill.
func EncodeSpillHead(h SpillHead) []byte {
	return closed(fmt.Appendf(nil, "format = %d\nhome = %s\nvat = %s\nday = %s\nhead = \"%08x\"\n",
		spillFormat, quote(h.Home), quote(h.Vat), quote(h.Day), h.HeadCRC), 0)
}

// spilled is a block of a spill, readable or not.
type spilled struct {
	seq  int
	text []byte // without its end line, with LF
	raw  []byte // as it stands, its end line included
}

// ReadSpill reads a spill. It never fails: what is wrong with the file stands in the Spill. A torn last block was never
// called saved and is left out.
func ReadSpill(today time.Time, file string, data []byte) Spill {
	var s Spill
	s.Frame = frame(today, file, data, kinds, s.readHead, func(e day.Event, _ []byte) { s.Events = append(s.Events, e) })
	for _, k := range wholeBlocks(data) {
		seq := cmp.Or(scrapeSeq(k.text), k.seq)
		s.blocks = append(s.blocks, spilled{seq, k.text, k.raw})
	}
	return s
}

// wholeBlocks are the blocks after the head that have an end line; seq is what that says.
func wholeBlocks(data []byte) (out []spilled) {
	for _, k := range cut(data) {
		if !k.head && k.ended {
			raw := data[k.from:min(lineEnd(data, k.to)+1, len(data))]
			out = append(out, spilled{k.endSeq, bytes.Clone(unixLines(data[k.from:k.to])), bytes.Clone(lined(raw))})
		}
	}
	return out
}

// Holds is how many blocks lie in it, those that cannot be read among them.
func (s Spill) Holds() int { return len(s.blocks) }

// First is the number of its first block, 0 without one.
func (s Spill) First() int {
	if len(s.blocks) == 0 {
		return 0
	}
	return s.blocks[0].seq
}

func (s *Spill) readHead(text []byte) error {
	tree, err := decode(text)
	if err != nil {
		return err
	}
	if err := formatUpTo(tree, spillFormat); err != nil {
		return err
	}
	s.Home, _ = tree["home"].(string)
	s.Vat, _ = tree["vat"].(string)
	s.Day, _ = tree["day"].(string)
	head, _ := tree["head"].(string)
	if _, err := fmt.Sscanf(head, "%08x", &s.HeadCRC); err != nil || s.Vat == "" || s.Day == "" {
		return errors.New("it does not say whose events these are")
	}
	return nil
}

// Join is a day's text and the blocks of its spills as one text, the spilled ones in their order behind the whole ones; a torn
// tail of the day is left out. Where nothing is joined it is the day's text alone. errs are as Missing gives them.
func Join(text []byte, spills []Spill) (joined []byte, events int, errs []error) {
	blocks, whole, errs := missing(text, spills)
	if len(blocks) == 0 {
		return text, 0, errs
	}
	joined = bytes.Clone(text[:whole])
	for _, b := range blocks {
		joined = append(append(joined, '\n'), b...)
	}
	return joined, len(blocks), errs
}

// With is the day and its spills as one. text is the day's file; today is as for ReadOn.
func (b Book) With(today time.Time, text []byte, spills []Spill) Book {
	if len(spills) == 0 {
		return b
	}
	joined, events, errs := Join(text, spills)
	if events > 0 {
		torn := b
		b = ReadOn(today, b.File, joined)
		b.Torn, b.TornAt, b.TornLine = torn.Torn, torn.TornAt, torn.TornLine
	}
	for i, s := range spills {
		b.Spilled = append(b.Spilled, Spilled{s.File, len(s.blocks), errs[i]})
	}
	return b
}

// Missing are the blocks of the spills that a day's text does not have yet, in order, to be appended to it, as they stand. errs
// has an error for each spill, nil or why nothing of it is among them: its head cannot be read, the day went on without it, or
// what comes before its events is not there.
func Missing(text []byte, spills []Spill) (blocks [][]byte, errs []error) {
	blocks, _, errs = missing(text, spills)
	return blocks, errs
}

// missing is Missing, and how many bytes of the text come before its torn tail.
func missing(text []byte, spills []Spill) (blocks [][]byte, whole int, errs []error) {
	errs = make([]error, len(spills))
	for i, s := range spills {
		if s.HeadErr != nil {
			errs[i] = fmt.Errorf("it cannot be read: %w", s.HeadErr)
		}
	}
	there := map[string]bool{}
	for _, k := range wholeBlocks(text) {
		there[string(k.text)] = true
	}
	alone := Read("", text)
	for {
		blocks, bad, err := following(there, alone.lastSeq, spills, errs)
		if err == nil {
			return blocks, alone.TornAt, errs
		}
		errs[bad] = err // and the others without it
	}
}

// following are the blocks of the spills without an error that come after event last of a day that has the blocks there; with
// an error bad is the spill that cannot.
func following(there map[string]bool, last int, spills []Spill, errs []error) (blocks [][]byte, bad int, err error) {
	type block struct {
		spilled
		of int // the spill
	}
	var all []block
	for i, s := range spills {
		for _, k := range s.blocks {
			if errs[i] == nil {
				all = append(all, block{k, i})
			}
		}
	}
	slices.SortStableFunc(all, func(x, y block) int { return cmp.Compare(x.seq, y.seq) })
	taken := map[string]bool{}
	for _, k := range all {
		switch {
		case there[string(k.text)] || taken[string(k.text)]:
			continue
		case k.seq <= last:
			return nil, k.of, fmt.Errorf("the day went on without event %d, which lies there", k.seq)
		case k.seq > last+1:
			return nil, k.of, fmt.Errorf("event %d, which comes before those that lie there, is missing", last+1)
		}
		taken[string(k.text)], last = true, k.seq
		blocks = append(blocks, k.raw)
	}
	return blocks, 0, nil
}
