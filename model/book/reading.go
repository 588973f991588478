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
	"example.org/vatside/model/wording"
)

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
