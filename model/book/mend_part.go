package book

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"reflect"
	"regexp"
	"slices"
	"strconv"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
)

// part is a block after the head while its file is mended; without text it is a number that was missing.
type part struct {
	line     int    // 0 in a spill
	raw      []byte // as it stands, its end line included; empty in a spill
	lead     []byte // what stands between it and the block before: blank lines, comments
	text     []byte // without its end line, with LF
	event    day.Event
	why      string // it cannot be read, and why
	fault    string // what is wrong with its ends
	own, no  int    // the number that it has, 0 if none can be told; the one that it gets
	of, toOf int    // the number that it corrects, 0 for any other event; and which that becomes
	place    int    // in the file
	key      int    // in the order: behind the first event of that number
}

// reads tells whether it is an event that can be read.
func (p *part) reads() bool { return p.event.Body != nil }

func (p *part) name() string {
	if p.own == 0 {
		return "an event without a number"
	}
	return fmt.Sprintf("event %d", p.own)
}

// take parts a file that was read into its blocks.
func (m *mender) take(b Book, data []byte) {
	unread := map[int]Unread{}
	for _, u := range b.Unread {
		unread[u.Line] = u
	}
	end := 0
	var lead []byte
	for _, k := range cut(data) {
		lead = append(lead, data[end:k.from]...)
		end = k.to
		if k.ended {
			end = min(lineEnd(data, k.to)+1, len(data))
		}
		raw := data[k.from:end]
		if k.head {
			m.head = slices.Concat(lead, lined(raw))
			if k.mended(data, 0) != "" {
				m.step(k.line, "the head gets its right end line")
				m.head = slices.Concat(lead, closed(tidy(data[k.from:k.to]), 0))
			}
			lead = nil
			continue
		}
		if len(b.Torn) > 0 && k.line == b.TornLine {
			m.step(k.line, "the torn tail of %d bytes, which was never saved, is left out", len(b.Torn))
			lead = nil
			continue
		}
		p := m.part(k, data, unread[k.line].What)
		if p == nil { // text that belongs to nobody stays where it is
			lead = append(lead, raw...)
			continue
		}
		p.raw, p.lead = lined(raw), lead
		m.parts = append(m.parts, p)
		lead = nil
	}
	m.tail = append(lead, data[end:]...)
}

// part reads one block; why says why the reader of the file left it unread. nil: it is text that belongs to no event.
func (m *mender) part(k block, data []byte, why string) *part {
	p := &part{line: k.line, text: unixLines(data[k.from:k.to])}
	if text := spoilt(p.text, k); text != nil {
		m.step(k.line, "event %d gets its first lines back: its checksum fits with them", k.endSeq)
		p.text, p.fault, why = text, "its first lines were spoilt", ""
	}
	e, _, err := readEvent(p.text, kinds)
	if err != nil && why == "" {
		why = err.Error()
	}
	if why != "" {
		p.why, p.own = why, scrapeSeq(p.text)
		if p.own == 0 && k.ended {
			p.own = k.endSeq
		}
		if p.own == 0 && !k.opened {
			return nil
		}
		return p
	}
	if p.fault == "" {
		p.fault = k.mended(data, e.Seq)
	}
	p.event, p.own = e, e.Seq
	if c, is := e.Body.(day.Corrected); is {
		p.of = c.Of
	}
	return p
}

// spoilt is the text of a block whose first line or number was spoilt, if its end line proves what stood there; else nil.
func spoilt(text []byte, k block) []byte {
	if !k.ended || k.endSeq < 1 || crc32.ChecksumIEEE(text) == k.crc {
		return nil
	}
	first := fmt.Appendf(nil, "%s\nseq = %d\n", eventLine, k.endSeq)
	rest := text
	for range 3 { // without the lines, or with one or two in their place
		if try := slices.Concat(first, rest); crc32.ChecksumIEEE(try) == k.crc {
			return try
		}
		rest = rest[min(lineEnd(rest, 0)+1, len(rest)):]
	}
	return nil
}

// spill takes the events of a spill file behind those of the day's own.
func (m *mender) spill(read func([]byte) Book, data []byte) {
	data = bytes.TrimLeft(data, "\ufeff \t\r\n")
	b := read(data)
	var other mender
	other.take(b, data)
	for _, p := range other.parts {
		p.line, p.lead, p.raw = 0, nil, nil
	}
	m.parts = append(m.parts, other.parts...)
	m.step(0, "what lies in a spill file is put in: %d", len(other.parts))
	if len(b.Torn) > 0 {
		m.step(0, "the torn tail of a spill file, of %d bytes, is left out", len(b.Torn))
	}
}

// The keys of a block that hold the number of an event.
var (
	seqKey = wording.Pattern(`(?m)^([ \t]*seq[ \t]*=[ \t]*)\d+`)
	ofKey  = wording.Pattern(`(?m)^([ \t]*of[ \t]*=[ \t]*)\d+`)
)

// again writes an event's text with its new numbers, its right first line and its right end line.
func (p *part) again() ([]byte, error) {
	text := tidy(p.text)
	if first, _, _ := bytes.Cut(text, []byte("\n")); !opens(first) {
		if first = bytes.TrimLeft(first, " \t"); len(first) > 0 && first[0] == '[' {
			text = text[lineEnd(text, 0)+1:]
		}
		text = slices.Concat([]byte(eventLine+"\n"), text)
	}
	want := p.event
	want.Seq = p.no
	if p.no != p.own {
		text = renumbered(text, seqKey(), p.no)
	}
	if c, is := want.Body.(day.Corrected); is {
		c.Of = p.toOf
		want.Body = c
		if p.toOf != p.of {
			text = renumbered(text, ofKey(), p.toOf)
		}
	}
	got, _, err := readEvent(text, kinds)
	if u, is := want.Body.(day.Unknown); is {
		u.Text = string(text)
		want.Body = u
	}
	if err != nil || !reflect.DeepEqual(got, want) {
		return nil, fmt.Errorf("event %d (line %d) cannot be given the number %d: it is not written as \"seq = %d\"", p.own, p.line, p.no, p.own)
	}
	return closed(text, p.no), nil
}

// renumbered is the text with another number at the first such key.
func renumbered(text []byte, key *regexp.Regexp, n int) []byte {
	at := key.FindSubmatchIndex(text)
	if at == nil {
		return text
	}
	return slices.Concat(text[:at[3]], []byte(strconv.Itoa(n)), text[at[1]:])
}

// tidy is a text with LF, without blank lines at its end.
func tidy(text []byte) []byte { return lined(bytes.TrimRight(unixLines(text), " \t\r\n")) }

// lined is a text that ends with its last line.
func lined(text []byte) []byte {
	if n := len(text); n > 0 && text[n-1] == '\n' {
		return text
	}
	return append(bytes.Clone(text), '\n')
}
