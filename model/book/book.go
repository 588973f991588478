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
	"example.org/vatside/model/day"
	"example.org/vatside/model/recipe"
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
