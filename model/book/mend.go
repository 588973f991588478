package book

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"example.org/vatside/model/day"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// Mending is what would be done to a day's file that is not whole.
type Mending struct {
	Whole bool // the file is whole: there is nothing to do
	Steps []Step
	Text  []byte // the file as it would be; nil where Whole
}

// Step is one thing that is done. Line is that of the old file, 0 for what does not come from it.
type Step struct {
	Line int
	What string // a sentence without its full stop
}

// mostMissing is how many missing events are filled in one file. More of them tell of a number that is wrong, not of a loss.
const mostMissing = 10_000

// Mend says how a day's file is made whole; read reads such a file, and spills are the texts of its spill files. It works on
// the text of the blocks: what it need not change stays as it stands, byte for byte, with keys that only a later version knows.
//
// A torn tail is left out. An event that stands twice word for word is kept once. Events are put in the order of their numbers;
// of two different events of one number the later one gets the next number, and so do those behind it for as long as they
// must, and the corrections of them with them. A number that is missing is filled by a day.Lost, and a block that cannot be
// read becomes one, with its text. Each block gets its right first line and end line.
//
// The error says why a file cannot be mended.
func Mend(read func([]byte) Book, data []byte, spills ...[]byte) (Mending, error) {
	b := read(data)
	switch {
	case b.Damage() == "" && len(spills) == 0:
		return Mending{Whole: true}, nil
	case b.Lacks() != "":
		return Mending{}, errors.New(b.Lacks())
	case b.HeadErr != nil:
		return Mending{}, fmt.Errorf("its first lines cannot be read: %w", b.HeadErr)
	}
	var m mender
	m.take(b, data)
	for _, s := range spills {
		m.spill(read, s)
	}
	m.dropTwins()
	m.order()
	if err := m.number(); err != nil {
		return Mending{}, err
	}
	text, err := m.text()
	if err != nil {
		return Mending{}, err
	}
	if again := read(text); again.Damage() != "" || len(again.Events) != len(m.parts) {
		return Mending{}, fmt.Errorf("what would come of it does not read back whole: %s", cmp.Or(again.Damage(), "events are missing"))
	}
	sorted.By(m.steps, func(x, y Step) int { return cmp.Compare(x.Line, y.Line) })
	return Mending{Steps: m.steps, Text: text}, nil
}

type mender struct {
	head  []byte  // as it will stand, its end line included
	parts []*part // the blocks after it
	tail  []byte  // comments behind the last block
	steps []Step
}

func (m *mender) step(line int, format string, args ...any) {
	m.steps = append(m.steps, Step{line, fmt.Sprintf(format, args...)})
}

// dropTwins keeps once what stands twice word for word.
func (m *mender) dropTwins() {
	seen := map[string]bool{}
	var lead []byte
	m.parts = slices.DeleteFunc(m.parts, func(p *part) bool {
		lead, p.lead = nil, append(lead, p.lead...)
		if text := string(p.text); !seen[text] {
			seen[text] = true
			return false
		}
		if !blank(p.lead) {
			lead = p.lead
		}
		m.step(p.line, "%s stands twice, word for word: it is kept once", p.name())
		return true
	})
	m.tail = append(lead, m.tail...)
}

// order puts the parts in the order of their numbers. A second one of a number, and one without a number, stay behind what
// they stand behind in the file.
func (m *mender) order() {
	first := map[int]bool{}
	key, last := 0, 0
	for i, p := range m.parts {
		switch {
		case p.own > 0 && !first[p.own]:
			first[p.own] = true
			key = p.own
			if p.own < last {
				m.step(p.line, "%s stands after event %d: it is put in its order", p.name(), last)
			}
			last = max(last, p.own)
		default:
			key = max(key, p.own)
		}
		p.place, p.key = i, key
	}
	sorted.By(m.parts, func(x, y *part) int { return cmp.Compare(x.key, y.key) })
}

// number gives each part its number, and fills what is missing.
func (m *mender) number() error {
	sorted := m.parts
	m.parts = nil
	last, missing := 0, 0
	var moved []*part // in a row
	for _, p := range sorted {
		p.no = max(p.own, last+1)
		if missing += p.no - last - 1; missing > mostMissing {
			return fmt.Errorf("more than %d events are missing before event %d", mostMissing, p.no)
		}
		if p.no > last+1 {
			g := Gap{p.line, last + 1, p.no - 1}
			place := wording.Either(g.To > g.From, "each place", "its place")
			m.step(p.line, "%s missing: an event that says so takes %s", g.events(), place)
			for n := g.From; n <= g.To; n++ {
				m.parts = append(m.parts, &part{no: n})
			}
		}
		if n := len(moved); n > 0 && (p.no == p.own || p.own != moved[n-1].own+1) {
			m.renumbered(moved)
			moved = nil
		}
		switch {
		case p.own == 0:
			m.step(p.line, "an event without a number gets the number %d", p.no)
		case p.no != p.own:
			moved = append(moved, p)
		}
		m.parts = append(m.parts, p)
		last = p.no
	}
	m.renumbered(moved)
	m.refer()
	return nil
}

// renumbered tells of events that go on in a row under other numbers.
func (m *mender) renumbered(row []*part) {
	switch n := len(row); n {
	case 0:
	case 1:
		m.step(row[0].line, "event %d gets the number %d", row[0].own, row[0].no)
	default:
		m.step(row[0].line, "events %d to %d get the numbers %d to %d", row[0].own, row[n-1].own, row[0].no, row[n-1].no)
	}
}

// refer moves corrections along with what they are of: of two events of one number the last before the correction.
func (m *mender) refer() {
	of := map[int][]*part{} // by their old numbers, in the order of the file
	taken := map[int]bool{} // the new numbers of what was there
	for _, p := range m.parts {
		if p.own > 0 {
			of[p.own] = append(of[p.own], p)
		}
		if p.text != nil {
			taken[p.no] = true
		}
	}
	for _, list := range of {
		sorted.By(list, func(x, y *part) int { return cmp.Compare(x.place, y.place) })
	}
	for _, p := range m.parts {
		if p.of == 0 {
			continue
		}
		p.toOf = p.of
		switch list := of[p.of]; {
		case len(list) > 0:
			p.toOf = list[0].no
			for _, q := range list {
				if q.place < p.place {
					p.toOf = q.no
				}
			}
		case taken[p.of]:
			p.toOf = 0 // what it was of is missing, and its number is another's now
		}
		switch {
		case p.toOf == p.of:
		case p.toOf == 0:
			m.step(p.line, "event %d corrects event %d, which is missing: it corrects none now", p.no, p.of)
		default:
			m.step(p.line, "event %d corrects event %d, not event %d", p.no, p.toOf, p.of)
		}
	}
}

func (m *mender) text() ([]byte, error) {
	var clock *part // whose time the next one without a time gets
	if i := slices.IndexFunc(m.parts, (*part).reads); i >= 0 {
		clock = m.parts[i]
	}
	out := m.head
	for _, p := range m.parts {
		if p.reads() {
			clock = p
		}
		if clock == nil {
			return nil, errors.New("no event in it can be read")
		}
		block, err := m.block(p, clock)
		if err != nil {
			return nil, err
		}
		lead := p.lead
		if len(lead) == 0 {
			lead = []byte{'\n'}
		}
		out = append(append(out, lead...), block...)
	}
	return append(out, m.tail...), nil
}

// block is a part as it will stand, its end line included.
func (m *mender) block(p, clock *part) ([]byte, error) {
	switch {
	case !p.reads():
		if p.why != "" {
			m.step(p.line, "%s cannot be read: an event that says so takes its place and keeps its text", p.name())
		}
		e := clock.event
		e.Seq, e.Body = p.no, day.Lost{Text: string(p.text)}
		if !bootForm().MatchString(e.Boot) {
			e.Boot = ""
		}
		return EncodeEvent(e)
	case p.fault == "" && p.no == p.own && p.of == p.toOf && len(p.raw) > 0:
		return p.raw, nil
	}
	if p.fault != "" {
		m.step(p.line, "event %d gets its right end line", p.no)
	}
	return p.again()
}
