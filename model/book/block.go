package book

import (
	"bytes"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"hash/crc32"
	"strconv"

	"example.org/vatside/model/wording"
)

// eventLine opens the block of an event.
const eventLine = "[[event]]"

// endBegins is how an end line begins.
var endBegins = []byte("# end ")

// endLine reads a whole end line, "# end 3 6b345511": a number of one to nine figures, and a checksum of eight. A cut one is
// only a comment.
func endLine(text []byte) (seq int, crc uint32, ok bool) {
	rest, ok := bytes.CutPrefix(text, endBegins)
	if !ok {
		return 0, 0, false
	}
	figures := 0
	for figures < len(rest) && rest[figures] >= '0' && rest[figures] <= '9' {
		seq = seq*10 + int(rest[figures]-'0')
		if figures++; figures > 9 {
			return 0, 0, false
		}
	}
	if figures == 0 || len(rest) != figures+9 || rest[figures] != ' ' {
		return 0, 0, false
	}
	var sum [4]byte
	if _, err := hex.Decode(sum[:], rest[figures+1:]); err != nil {
		return 0, 0, false
	}
	return seq, binary.BigEndian.Uint32(sum[:]), true
}

// seqForm finds the number in a block that cannot be decoded.
var seqForm = wording.Pattern(`(?m)^\s*seq\s*=\s*(\d{1,9})\s*$`)

// block is one stretch of the file: the head, or an event.
type block struct {
	line     int // of its first line, from 1
	from, to int // its bytes, without the end line
	head     bool
	opened   bool // it begins with [[event]]
	ended    bool // it has an end line, with this number and checksum
	endSeq   int
	crc      uint32
}

// cut finds the blocks by lines alone, for strings stay on one line: a block runs from its [[event]] to its end line,
// or to the next [[event]]. Blank lines and comments between blocks belong to nobody; other text there is taken as a
// block too, for its first line may be what a hand has spoilt.
func cut(data []byte) []block {
	var blocks []block
	open := false
	from := 0
	if bytes.HasPrefix(data, []byte("\ufeff")) {
		from = 3
	}
	line := 0
	for at := from; at < len(data); {
		line++
		next := len(data)
		if n := bytes.IndexByte(data[at:], '\n'); n >= 0 {
			next = at + n + 1
		}
		text := bytes.TrimRight(data[at:next], " \t\r\n")
		last := len(blocks) - 1
		switch {
		case opens(text):
			if open {
				blocks[last].to = at
			}
			blocks = append(blocks, block{line: line, from: at, to: len(data), opened: true})
			open = true
		case open:
			if seq, crc, ends := endLine(text); ends {
				k := &blocks[last]
				k.to, k.ended, k.endSeq, k.crc = at, true, seq, crc
				open = false
			}
		case len(blocks) == 0:
			blocks = append(blocks, block{line: line, from: from, to: len(data), head: true})
			open = true
		case !idle(text):
			blocks = append(blocks, block{line: line, from: at, to: len(data)})
			open = true
		}
		at = next
	}
	return blocks
}

// opens tells of a block's first line; a hand may have set it in, or a comment behind it.
func opens(text []byte) bool {
	rest, ok := bytes.CutPrefix(bytes.TrimLeft(text, " \t"), []byte(eventLine))
	return ok && idle(rest)
}

// idle is a blank line or a comment.
func idle(text []byte) bool {
	text = bytes.TrimLeft(text, " \t")
	return len(text) == 0 || text[0] == '#'
}

// mended says what about the block's ends shows a hand, or nothing.
func (k block) mended(data []byte, seq int) string {
	name := wording.Either(seq > 0, fmt.Sprintf("event %d", seq), "the head")
	text := data[k.from:k.to]
	switch {
	case !k.ended:
		return name + " was mended by hand: its end line is missing"
	case k.endSeq != seq:
		return fmt.Sprintf("%s was mended by hand: its end line says %d", name, k.endSeq)
	case crc32.ChecksumIEEE(text) != k.crc && crc32.ChecksumIEEE(unixLines(text)) != k.crc:
		return name + " was mended by hand: its checksum fails"
	case !k.head && !k.opened:
		return name + " was mended by hand: its first line is not " + eventLine
	}
	return ""
}

// WholeBlock tells whether a text is one block as the program wrote it, and nothing but blank lines after it.
func WholeBlock(text []byte) bool {
	text = bytes.TrimRight(text, " \t\r\n")
	at := bytes.LastIndexByte(text, '\n') + 1
	_, crc, ends := endLine(text[at:])
	return ends && crc32.ChecksumIEEE(text[:at]) == crc
}

// closed is a block with its end line, `# end SEQ CRC`.
func closed(text []byte, seq int) []byte {
	return fmt.Appendf(text, "# end %d %08x\n", seq, crc32.ChecksumIEEE(text))
}

// unixLines is the text with LF for CRLF.
func unixLines(text []byte) []byte {
	if !bytes.Contains(text, []byte("\r\n")) {
		return text
	}
	return bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
}

// scrapeSeq is the number of a block that cannot be decoded, 0 if it has none.
func scrapeSeq(text []byte) int {
	m := seqForm().FindSubmatch(text)
	if m == nil {
		return 0
	}
	n, _ := strconv.Atoi(string(m[1]))
	if n > seqMost {
		return 0
	}
	return n
}

// seqMost is the largest number of an event: an end line has room for nine figures, and what comes after needs some too.
const seqMost = 900_000_000

// upMost is the largest reading of a boot clock, in seconds: 200 years.
const upMost = 200 * 365.25 * 24 * 3600

func blank(text []byte) bool { return len(bytes.TrimSpace(text)) == 0 }
