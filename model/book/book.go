// Package book is the text of a day: a head and the events after it, as plain TOML that a person can read and mend.
//
// Each block is closed by an end line with its number and a checksum over its bytes, and is decoded on its own:
//
//	[[event]]
//	seq = 3
//	at = 2026-11-25T09:04:00+01:00
//	kind = "note"
//	text = "sun on the bin"
//	# end 3 6b345511
//
// What the end line tells, in this order:
//   - it is there and fits: the block is whole;
//   - the last block of the file has none: it is torn, was never called saved, and is set aside;
//   - anywhere else it is missing or does not fit: somebody mended the file by hand; the block is kept and marked;
//   - a block that cannot be decoded is shown as text and hides no other.
//
// The checksum is CRC-32 (IEEE) over the bytes from the block's first line up to the end line, the line feed before
// it included. A file whose line ends an editor turned into CRLF still fits.
package book

import (
	"bytes"
	"errors"
	"fmt"
	"hash/crc32"
	"reflect"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// Format is the number of the form that this version writes.
const Format = 1

// Book is one day's file as it was read. Nothing in the file is left out: what is not in Head or Events is in Unread
// or Torn.
type Book struct {
	Frame
	Head   day.Head
	Faults recipe.Faults // what today's rules find wrong with the recipe in the head
	Events []day.Event   // in the order of the file
}

// Frame is a file of blocks but for what its head and its events say.
type Frame struct {
	File      string
	HeadWhole bool   // a head stands there and can be read; false without HeadErr: killed before it was whole
	HeadErr   error  // why its first lines cannot be read
	HeadCRC   uint32 // the checksum of the head's bytes as they stand; 0 without a head
	HeadWas   uint32 // the checksum in its end line: of the head as it was written; 0 where that is missing
	Marks     []Mark
	Unread    []Unread
	Gaps      []Gap
	Spilled   []Spilled
	Torn      []byte // the torn tail, empty if there is none
	TornAt    int    // the byte where it begins; the length of the file if there is none
	TornLine  int

	lastSeq  int
	headTorn bool // the file ends inside its head
	blank    bool // nothing stands in the file
}

// Mark is a block that is kept although something about it was mended by hand. Seq is 0 for the head.
type Mark struct {
	Line      int
	Seq       int
	What      string // a sentence without its full stop
	Misplaced bool   // it stands out of its order, or its number stands twice: the file is not whole
}

// Unread is a block that is there and cannot be read. Seq is 0 where not even that can be told.
type Unread struct {
	Line int
	Seq  int
	What string // why, a sentence without its full stop
	Text string // the block, made showable
}

// Gap is a stretch of numbers, From to To, that no block of the file has.
type Gap struct {
	Line     int // of the block after the gap
	From, To int
}

// Spilled is a file elsewhere that holds events of the day which its own file refused. They are read with the day, but for an
// Err, which says why they cannot stand in it.
type Spilled struct {
	File   string
	Events int
	Err    error
}

// NextSeq is the number of the next event: above every number in the file, readable or not.
func (b Frame) NextSeq() int { return b.lastSeq + 1 }

// Empty tells of a file without a whole head: nothing stands in it, or it was cut off inside its head. It is no day; whether
// one is lost VerifyVat says.
func (b Frame) Empty() bool { return !b.HeadWhole && b.HeadErr == nil && b.lastSeq == 0 }

// Lacks is what an Empty file lacks, a sentence without its full stop; empty for any other.
func (b Frame) Lacks() string {
	switch {
	case b.headTorn:
		return "the file ends inside its head"
	case b.blank:
		return "the file is empty"
	}
	return ""
}

// ReadOn reads a day's file. It never fails: what is wrong with the file stands in the Book. file is only for the telling.
// today is what day it is: a time far from it cannot be.
// No text in the Book holds what cannot be shown (wording.Fit), so that a piece whose tag cannot is still found by what is
// seen of it; only the Text of a day.Unknown is as it stands in the file, for it is written again as it was.
func ReadOn(today time.Time, file string, data []byte) Book {
	return read(today, file, data, func([]byte) {})
}

// Read is ReadOn where nobody knows what day it is.
func Read(file string, data []byte) Book { return ReadOn(time.Time{}, file, data) }

// read is ReadOn; taken gets the text of each event in Events, in their order.
func read(today time.Time, file string, data []byte, taken func(text []byte)) Book {
	var b Book
	var notes []string
	b.Frame = frame(today, file, data, kinds, func(text []byte) (err error) {
		if b.Head, b.Faults, err = readHead(text); err == nil {
			notes, err = gateHead(&b.Head, today)
		}
		return err
	}, func(e day.Event, text []byte) {
		b.Events = append(b.Events, e)
		taken(text)
	})
	for _, what := range notes {
		b.Marks = append(b.Marks, Mark{Line: 1, What: what})
	}
	return b
}

// frame reads a file of blocks; head reads its block 0, and each event of one of the kinds that passes the gates is handed
// to event, with its text.
func frame(today time.Time, file string, data []byte, kinds map[string]reflect.Type, head func(text []byte) error, event func(day.Event, []byte)) Frame {
	blocks := cut(data)
	b := Frame{File: file, TornAt: len(data), blank: len(blocks) == 0}
	if len(blocks) > 0 && blocks[0].head {
		b.takeHead(data, blocks[0], len(blocks) > 1, head)
		blocks = blocks[1:]
	} else if len(blocks) > 0 {
		b.HeadErr = fmt.Errorf("the file has no head")
	}
	seen := map[int][]byte{}
	var all []taken
	for i, k := range blocks {
		if !k.ended && i == len(blocks)-1 {
			b.tear(data, k)
			break
		}
		if e, text, ok := b.takeEvent(data, k, seen, kinds); ok {
			all = append(all, taken{e, text, k.line})
		}
	}
	for _, e := range b.gate(all, today) {
		event(e.Event, e.text)
	}
	return b
}

// takeHead reads block 0. A head without its end and with nothing after it was never whole, if it begins as heads do.
func (b *Frame) takeHead(data []byte, k block, more bool, head func(text []byte) error) {
	if !k.ended && !more {
		switch first := firstWords(data[k.from:k.to]); {
		case first == "":
			b.blank = true
		case strings.HasPrefix(first, headBegins) || strings.HasPrefix(headBegins, first):
			b.headTorn = true
		default:
			b.HeadErr = errors.New("nothing in the file is of a book")
		}
		return
	}
	what := k.mended(data, 0)
	b.HeadCRC, b.HeadWas = crc32.ChecksumIEEE(unixLines(data[k.from:k.to])), k.crc
	b.HeadErr = wording.ShowError(head(unixLines(data[k.from:k.to])))
	b.HeadWhole = b.HeadErr == nil
	if what != "" {
		b.Marks = append(b.Marks, Mark{Line: k.line, What: what})
	}
}

// headBegins is how every head begins.
const headBegins = "format"

// firstWords is the first line that is no blank one and no comment.
func firstWords(text []byte) string {
	for line := range bytes.Lines(text) {
		if !idle(bytes.TrimSpace(line)) {
			return strings.TrimSpace(string(line))
		}
	}
	return ""
}

// takeEvent reads one block after the head, and gives its text too; false where no event comes of it.
func (b *Frame) takeEvent(data []byte, k block, seen map[int][]byte, kinds map[string]reflect.Type) (day.Event, []byte, bool) {
	text := unixLines(data[k.from:k.to])
	e, slips, err := readEvent(text, kinds)
	seq := e.Seq
	if err != nil {
		seq = scrapeSeq(text)
	}
	if err != nil && seq == 0 && !k.opened {
		b.Marks = append(b.Marks, Mark{Line: k.line, What: "this text belongs to no event"})
		return e, text, false
	}
	before, twice := seen[seq]
	if seq > 0 {
		if !twice && seq > b.lastSeq+1 {
			b.Gaps = append(b.Gaps, Gap{k.line, b.lastSeq + 1, seq - 1})
		}
		if !twice && seq < b.lastSeq {
			b.fillGap(seq)
			b.Marks = append(b.Marks, Mark{k.line, seq, fmt.Sprintf("event %d stands after event %d", seq, b.lastSeq), true})
		}
		seen[seq] = text
		b.lastSeq = max(b.lastSeq, seq)
	}
	if err != nil {
		b.Unread = append(b.Unread, Unread{k.line, seq, wording.Show(err.Error()).String(), wording.ShowPage(string(text)).String()})
		return e, text, false
	}
	if what := k.mended(data, seq); what != "" {
		for _, s := range slips {
			what += "; " + s
		}
		b.Marks = append(b.Marks, Mark{Line: k.line, Seq: seq, What: what})
	}
	if twice {
		what := fmt.Sprintf("there are two events %d", seq)
		if bytes.Equal(before, text) {
			what = fmt.Sprintf("event %d stands here twice, word for word; it counts once", seq)
		}
		b.Marks = append(b.Marks, Mark{k.line, seq, what, true})
		if bytes.Equal(before, text) {
			return e, text, false
		}
	}
	return e, text, true
}

// fillGap takes a number that turned up late out of the gaps.
func (b *Frame) fillGap(seq int) {
	for i, g := range b.Gaps {
		if seq < g.From || seq > g.To {
			continue
		}
		var left []Gap
		if g.From < seq {
			left = append(left, Gap{g.Line, g.From, seq - 1})
		}
		if seq < g.To {
			left = append(left, Gap{g.Line, seq + 1, g.To})
		}
		b.Gaps = slices.Replace(b.Gaps, i, i+1, left...)
		return
	}
}

// tear sets the last block aside, with the blank lines before it.
func (b *Frame) tear(data []byte, k block) {
	at := k.from
	for at >= 2 && data[at-1] == '\n' && data[at-2] == '\n' {
		at--
	}
	b.Torn, b.TornAt, b.TornLine = bytes.Clone(data[at:]), at, k.line
}
