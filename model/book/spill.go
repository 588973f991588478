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
	texts    [][]byte // of Events, without their end lines
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

// ReadSpill reads a spill. It never fails: what is wrong with the file stands in the Spill. A torn last block was never
// called saved and is left out.
func ReadSpill(today time.Time, file string, data []byte) Spill {
	var s Spill
	s.Frame = frame(today, file, data, kinds, s.readHead, func(e day.Event, text []byte) {
		s.Events = append(s.Events, e)
		s.texts = append(s.texts, bytes.Clone(text))
	})
	return s
}

func (s *Spill) readHead(text []byte) error {
	tree, err := decode(text)
	if err != nil {
		return err
	}
	switch n, ok := tree["format"].(int64); {
	case !ok || n < 1:
		return errors.New("it has no format, a number from 1")
	case n > spillFormat:
		return fmt.Errorf("its format %d is of a later version: this one reads format %d", n, spillFormat)
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
// tail of the day is left out. With an error the day went on without the spilled events, or what stands before them is not
// there: it then is the day's text alone.
func Join(text []byte, spills []Spill) (joined []byte, events int, err error) {
	blocks, whole, err := missing(text, spills)
	if err != nil || len(blocks) == 0 {
		return text, 0, err
	}
	joined = bytes.Clone(text[:whole])
	for _, b := range blocks {
		joined = append(append(joined, '\n'), b...)
	}
	return joined, len(blocks), nil
}

// With is the day and its spills as one. text is the day's file; today is as for ReadOn.
func (b Book) With(today time.Time, text []byte, spills []Spill) Book {
	if len(spills) == 0 {
		return b
	}
	joined, events, err := Join(text, spills)
	if events > 0 {
		torn := b
		b = ReadOn(today, b.File, joined)
		b.Torn, b.TornAt, b.TornLine = torn.Torn, torn.TornAt, torn.TornLine
	}
	for _, s := range spills {
		b.Spilled = append(b.Spilled, Spilled{s.File, len(s.Events), err})
	}
	return b
}

// Missing are the blocks of the spills that a day's text does not have yet, in order, to be appended to it. The error says
// why they cannot be.
func Missing(text []byte, spills []Spill) ([][]byte, error) {
	blocks, _, err := missing(text, spills)
	return blocks, err
}

// missing is Missing, and how many bytes of the text come before its torn tail.
func missing(text []byte, spills []Spill) (blocks [][]byte, whole int, err error) {
	var texts [][]byte
	b := read(time.Time{}, "", text, func(text []byte) { texts = append(texts, bytes.Clone(text)) })
	there := map[int][]byte{}
	for i, e := range b.Events {
		there[e.Seq] = texts[i]
	}
	type spilled struct {
		seq  int
		text []byte
	}
	var all []spilled
	for _, s := range spills {
		for i, e := range s.Events {
			all = append(all, spilled{e.Seq, s.texts[i]})
		}
	}
	slices.SortStableFunc(all, func(x, y spilled) int { return cmp.Compare(x.seq, y.seq) })
	last := b.lastSeq
	for _, e := range all {
		old, twice := there[e.seq]
		switch {
		case twice && bytes.Equal(old, e.text):
			continue
		case e.seq <= last:
			return nil, 0, fmt.Errorf("the day went on without event %d, which lies there", e.seq)
		case e.seq > last+1:
			return nil, 0, fmt.Errorf("event %d, which comes before those that lie there, is missing", last+1)
		}
		there[e.seq], last = e.text, e.seq
		blocks = append(blocks, closed(bytes.Clone(e.text), e.seq))
	}
	return blocks, b.TornAt, nil
}
