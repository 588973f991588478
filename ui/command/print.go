package command

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/sheet"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/paper"
)

// telling is what a command prints: the blocks of a sheet, which ui/paper sets.
type telling []sheet.Block

func (t *telling) add(blocks ...sheet.Block) { *t = append(*t, blocks...) }

// line adds a line as it stands; without a text an empty one.
func (t *telling) line(format string, a ...any) {
	if format == "" {
		t.add(sheet.PageBreak{})
		return
	}
	t.add(sheet.Heading{Text: fmt.Sprintf(format, a...)})
}

// note adds a word and a sentence, which is folded; nothing where there is no sentence.
func (t *telling) note(word, sentence string) {
	if sentence = strings.TrimSuffix(strings.TrimSpace(sentence), "."); sentence == "" {
		return
	}
	switch sentence += "."; word {
	case "":
		t.add(sheet.Paragraph{Text: wording.Upper(sentence)})
	case "Caution":
		t.add(sheet.Cautions{List: []string{sentence}})
	default:
		t.add(sheet.Paragraph{Text: word + ": " + sentence})
	}
}

func (t *telling) notes(word string, sentences []string) {
	for _, s := range sentences {
		t.note(word, s)
	}
}

// table is not inlined: that was 16 kB of the program.
//
//go:noinline
func (t *telling) table(rows table) { t.add(rows.block()) }

// A table is figures, each with what it is of.
type table [][2]string

// add is not inlined: that was 10 kB of the program.
//
//go:noinline
func (t *table) add(number, text string) { *t = append(*t, [2]string{number, text}) }

// where adds a row only where something is so.
func (t *table) where(so bool, number, text string) {
	if so {
		t.add(number, text)
	}
}

func (t table) block() sheet.Table {
	out := sheet.Table{Columns: []sheet.Column{{Figures: true}, {}}}
	for _, r := range t {
		out.Rows = append(out.Rows, []sheet.Cell{{Text: r[0]}, {Text: r[1]}})
	}
	return out
}

func (p *program) show(t telling) { fmt.Fprint(p.Out, paper.Lines(t...)) }

// give answers a command: with --json as data, else as it is told.
func (p *program) give(data any, tell telling) error {
	if p.json {
		return p.asJSON(data)
	}
	p.show(tell)
	return nil
}

// giveLine answers a command in one line.
func (p *program) giveLine(data object, format string, a ...any) error {
	if p.json {
		return p.asJSON(data)
	}
	p.say(format, a...)
	return nil
}

// between is a range as it is printed: one unit if both ends have the same.
func between(low, high string) string {
	l, lu, _ := strings.Cut(low, " ")
	h, hu, _ := strings.Cut(high, " ")
	switch {
	case low == high:
		return low
	case lu == hu && !strings.ContainsAny(lu, "0123456789"):
		return l + "–" + h + " " + hu
	}
	return low + " to " + high
}

// formatted is a quantity that prints itself.
type formatted interface {
	~int64 | ~float64
	Format(quantity.System) string
}

// rangeOf is a range in words, wide what stands behind the likely figure of one.
func rangeOf[T formatted](r quantity.Range[T], sys quantity.System) string {
	return between(r.Low.Format(sys), r.High.Format(sys))
}

func wide[T formatted](r quantity.Range[T], sys quantity.System) string {
	return wording.If(r.Low != r.High, ", "+rangeOf(r, sys))
}

// giving is what so many dips do.
func giving(n int) string {
	return wording.Either(n == 1, "1 dip gives it", wording.Counted(n, "dip")+" give it")
}

// percent is a chance as it is said.
func percent(chance float64) string { return fmt.Sprintf("%.0f %%", 100*tidy(chance)) }

// depthFigure is a K/S as coarse as it is known.
func depthFigure(ks float64) string {
	switch {
	case ks >= 9.95:
		return strconv.FormatFloat(ks, 'f', 0, 64)
	case ks >= 0.095:
		return strconv.FormatFloat(ks, 'f', 1, 64)
	}
	return strconv.FormatFloat(math.Max(0, ks), 'f', 2, 64)
}

// answered are the keys of an answer in --json; chance_within_one is that the right number is likely or one off.
func answered(a shade.Answer) object {
	return object{{"likely", a.Likely}, {"low", a.Low}, {"high", a.High}, {"chance", tidy(a.Chance)}, {"chance_within_one", tidy(a.Near)}, {"words", a.Words()}}
}

// nextSwatch are the keys of a strip that would help, null where none would, and its words. leaves is of the range, 0 to 1.
func nextSwatch(l shade.Lesson, helps bool) (keys object, words string) {
	if !helps {
		return nil, ""
	}
	words = l.Words()
	return object{{"dips", l.Dips}, {"rungs", l.Rungs}, {"leaves", tidy(l.Narrows)}, {"takes_min", tidy(l.Takes.Minutes())}, {"words", words}}, words
}

// advice are the sentences of an answer: before any swatch the swatch, then what a dip more or less looks like, and what would help.
func advice(a shade.Answer, seen shade.Weighted, helps string) []string {
	out := wording.Filled(a.Beside(), seen.Unsure(a), helps)
	if !seen.Seen() {
		out = append([]string{shade.SwatchFirst}, out...)
	}
	return out
}
