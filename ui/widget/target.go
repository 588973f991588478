package widget

import (
	"cmp"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/vatside/ui/style"
)

// Target is what lies under a cell of a picture.
type Target struct {
	Kind TargetKind
	Key  string // of a label or an answer: the key, named as it is shown
	Row  int    // of a row: which of the list, from 0
}

// TargetKind is the kind of a target.
type TargetKind int

const (
	NoTarget     TargetKind = iota
	CallTarget              // the act and its figure
	OverTarget              // the call that stands over the screen
	LabelTarget             // a key of the last line
	AnswerTarget            // words that name a key
	RowTarget               // a row of a list
)

// Area is so many cells of one line of a window, counted from its top left corner, and their target.
type Area struct {
	X, Y, Wide int
	Target
}

// List is lines of a body, and which of its rows stand where.
type List struct {
	Lines []string
	Spots []Spot
	Large []string // what stands in large letters, which nobody could look for
}

// Add puts a list under what the body has so far. Not inlined: that was 15 kB of the program.
//
//go:noinline
func (s *Sheet) Add(l List) {
	for _, spot := range l.Spots {
		spot.Line += len(s.Body)
		s.Spots = append(s.Spots, spot)
	}
	s.Body, s.Large = append(s.Body, l.Lines...), append(s.Large, l.Large...)
}

// At is what lies under a cell.
func (pic Picture) At(x, y int) Target {
	for _, a := range pic.Areas() {
		if y == a.Y && x >= a.X && x < a.X+a.Wide {
			return a.Target
		}
	}
	return Target{}
}

// Areas are all targets of a picture. Of two that share a cell the first counts.
func (pic Picture) Areas() []Area {
	p := pic.plan
	var out []Area
	add := func(x, y, wide int, t Target) {
		if wide = min(wide, p.whole-x); wide > 0 {
			out = append(out, Area{p.left + x, y, wide, t})
		}
	}
	words := map[part][]found{
		notePart: find(p.sheet.Answers, p.note), howPart: find(p.sheet.Answers, p.how),
		whyPart: find(p.sheet.Answers, p.why), nextPart: find(p.sheet.Answers, p.next),
	}
	var call, figure block
	for y, r := range pic.rows {
		indent := 0
		switch r.part {
		case callPart:
			out = append(out, Area{0, y, p.width, Target{Kind: OverTarget}})
		case actPart:
			call.with(y, r)
		case figurePart, notePart:
			if p.sheet.Figure.Key != "" {
				figure.with(y, r)
			} else {
				call.with(y, r)
			}
			if r.part == notePart {
				indent = p.indent
			}
		case bodyPart:
			for _, s := range p.sheet.Spots {
				if s.Line != p.bodyAt[r.no] {
					continue
				}
				to := cmp.Or(s.To, p.text)
				add(s.From, y, to-s.From, Target{Kind: RowTarget, Row: s.Row})
			}
		case cautionPart:
			if key := p.sheet.Caution.Key; key != "" && r.no == len(p.caution)-1 {
				line := strings.TrimRight(p.caution[r.no], " ")
				wide := min(style.Width(key), style.Width(line))
				add(style.Width(line)-wide, y, wide, Target{Kind: AnswerTarget, Key: keyIn(key)})
			}
		case keysPart:
			for _, k := range placed(p.sheet.Keys, p.whole) {
				add(k.from, y, style.Width(label(k.Key)), Target{Kind: LabelTarget, Key: pic.keys[k.no].Key})
			}
		}
		for _, f := range words[r.part] {
			if f.line == r.no {
				add(indent+f.from, y, f.to-f.from, Target{Kind: AnswerTarget, Key: f.key})
			}
		}
	}
	for y := call.top; y < call.end; y++ {
		add(0, y, call.wide, Target{Kind: CallTarget})
	}
	for _, s := range pic.spots {
		for y := range s.h {
			out = append(out, Area{pic.at + s.x, s.y + y, s.w, Target{Kind: RowTarget, Row: s.row}})
		}
	}
	for y := figure.top; y < figure.end; y++ {
		add(0, y, figure.wide, Target{Kind: AnswerTarget, Key: p.sheet.Figure.Key})
	}
	return out
}

// block is rows that belong together, with the air between them: from top to before end, as wide as the widest.
type block struct{ top, end, wide int }

func (b *block) with(y int, r row) {
	if b.end == 0 {
		b.top = y
	}
	b.end, b.wide = y+1, max(b.wide, style.Width(r.text))
}

// keyIn is the key that an answer begins with: of "y ready" y, of "space: on" space.
func keyIn(answer string) string {
	key, _, _ := strings.Cut(answer, " ")
	if name, ok := strings.CutSuffix(key, ":"); ok && name != "" {
		return name
	}
	return key
}

// found is where a part of an answer stands: columns of a line.
type found struct {
	line, from, to int
	key            string
}

// find looks for the answers in sentences that were wrapped into lines.
func find(answers, lines []string) []found {
	all := strings.Join(lines, " ")
	var out []found
	for _, a := range answers {
		for from := 0; a != ""; {
			at := strings.Index(all[from:], a)
			if at < 0 {
				break
			}
			at += from
			from = at + len(a)
			if before, _ := utf8.DecodeLastRuneInString(all[:at]); unicode.IsLetter(before) || unicode.IsDigit(before) {
				continue
			}
			begin := 0
			for i, l := range lines {
				low, high := max(at, begin), min(from, begin+len(l))
				if low < high {
					out = append(out, found{i, style.Width(l[:low-begin]), style.Width(l[:high-begin]), keyIn(a)})
				}
				begin += len(l) + 1
			}
		}
	}
	return out
}
