package days

import (
	"bytes"
	"regexp"
	"slices"
)

// EditSize is the bytes of one edit: what it does, where (two bytes), with what, and to where.
const EditSize = 5

var (
	figure = regexp.MustCompile(`[0-9]+(?:\.[0-9]+)?`)
	quoted = regexp.MustCompile(`"[^"\n]*"`)
	// extremes take the place of a figure.
	extremes = []string{"0", "-1", "1e308", "-1e308", "999999999999", "9223372036854775807", "1e-300", "nan", "inf", "0.0000001", "", "1e9", "100000"}
	// hostile takes the place of a text: what terminals obey, what hides or turns text round, and what TOML allows in one.
	hostile = []string{
		`\u001b]52;c;SE9TVElMRQ==\u0007`, `\u001b[31m\u001b[2J`, `\u009b31;5;7m`, `\u202Eevil\u2066`, `\nFORGED`, `\r\b\u0000`, `\U0010FFFF`, "",
	}
)

// Years is where, in the byte that an edit of a time is made with, the years begin; below it are digits.
const Years = 200

var years = []string{"0001", "3026", "9999", "1970", "2106", "0000", "2027", "2025"}

// Hostile are texts as TOML writes them that must never reach a terminal as they are.
func Hostile() []string { return slices.Clone(hostile[:5]) }

// Spoil carries out edits on a whole day: bits, digits, figures, texts, bytes and blocks. An incomplete last edit is left
// out. When signed, the end lines fit, as if the program had written it so.
func Spoil(text, edits []byte, signed bool) []byte {
	d := Parse(text)
	for ; len(edits) >= EditSize && len(d.Blocks) > 0; edits = edits[EditSize:] {
		d = d.edit(edits[0], int(edits[1])<<8|int(edits[2]), int(edits[3]), int(edits[4]))
	}
	if signed {
		d.Sign()
	}
	return d.Text()
}

// edit is one edit. where chooses a block, and again something in that block.
func (d Day) edit(what byte, where, with, to int) Day {
	i := where % len(d.Blocks)
	b := d.Blocks[i]
	at := where / len(d.Blocks)
	switch what % 12 {
	case 0: // a bit
		if len(b) > 0 {
			b[(at*7+to)%len(b)] ^= 1 << (with % 8)
		}
	case 1: // a digit of any figure
		if f := figure.FindAllIndex(b, -1); len(f) > 0 {
			f := f[to%len(f)]
			b[f[0]+at%(f[1]-f[0])] = '0' + byte(with%10)
		}
	case 2: // a digit of a time, or its year
		if f := instant.FindAllIndex(b, -1); len(f) > 0 {
			f := f[to%len(f)]
			if with >= Years {
				copy(b[f[0]:], years[with%len(years)])
				break
			}
			digits := []int{0, 1, 2, 3, 5, 6, 8, 9, 11, 12, 14, 15, 17, 18}
			b[f[0]+digits[at%len(digits)]] = '0' + byte(with%10)
		}
	case 3: // a figure
		d.replace(i, figure, to, extremes[with%len(extremes)])
	case 4: // a text
		d.replace(i, quoted, to, `"`+hostile[with%len(hostile)]+`"`)
	case 5: // a block is gone
		if i > 0 || with%8 == 0 {
			return d.without(i)
		}
	case 6: // a block twice
		return d.insert(i, d.Blocks[i], d.Seqs[i], d.Sums[i])
	case 7: // a block at another place
		seq, sum := d.Seqs[i], d.Sums[i]
		d = d.without(i)
		return d.insert((to+with)%(len(d.Blocks)+1), b, seq, sum)
	case 8: // some bytes are gone
		if len(b) > 0 {
			from := to % len(b)
			d.Blocks[i] = slices.Concat(b[:from], b[min(len(b), from+1+with%40):])
		}
	case 9: // the day ends here
		return d.First(i)
	case 10: // another seq
		d.Seqs[i] = with
		d.Blocks[i] = seqLine.ReplaceAll(b, []byte("seq = "+extremes[to%len(extremes)]))
	case 11: // an event of the kind of another one
		j := 1 + to%max(1, len(d.Blocks)-1)
		if j < len(d.Blocks) {
			if kind := kindLine.Find(d.Blocks[j]); kind != nil && i > 0 {
				d.Blocks[i] = kindLine.ReplaceAll(b, kind)
			}
		}
	}
	return d
}

var (
	seqLine  = regexp.MustCompile(`(?m)^seq = .*$`)
	kindLine = regexp.MustCompile(`(?m)^kind = .*$`)
)

// replace puts other text in the place of the n-th match in a block.
func (d Day) replace(i int, what *regexp.Regexp, n int, by string) {
	f := what.FindAllIndex(d.Blocks[i], -1)
	if len(f) == 0 {
		return
	}
	at := f[n%len(f)]
	d.Blocks[i] = slices.Concat(d.Blocks[i][:at[0]], []byte(by), d.Blocks[i][at[1]:])
}

func (d Day) without(i int) Day {
	return Day{slices.Delete(slices.Clone(d.Blocks), i, i+1), slices.Delete(slices.Clone(d.Seqs), i, i+1), slices.Delete(slices.Clone(d.Sums), i, i+1)}
}

func (d Day) insert(i int, b []byte, seq int, sum string) Day {
	return Day{slices.Insert(slices.Clone(d.Blocks), i, bytes.Clone(b)), slices.Insert(slices.Clone(d.Seqs), i, seq), slices.Insert(slices.Clone(d.Sums), i, sum)}
}

var (
	stringValue = regexp.MustCompile(`(?m)^([a-z_]+ = )"[^"\n]*"$`)
	// free are the texts of events and of the setup that a dyer types; a day with others is whole.
	free = regexp.MustCompile(`^(?:name|text|reason|what|who|with|why|how|tag) = `)
	// keeps are the texts that a day cannot be without: with others it is none, and nothing of it is shown.
	keeps = regexp.MustCompile(`^(?:vat|day|zone|kind|boot|fill|vessel|material|place|units|cold|hot|id|family) = `)
)

// WithText is the day with a text, as TOML writes it, in the place of those that a dyer types, and behind the tags; or, when
// all are asked for, of every one that the day can be read without. It is signed.
func WithText(text []byte, by string, all bool) []byte {
	d := Parse(text)
	for i, b := range d.Blocks {
		rest := []byte(nil)
		if at := bytes.Index(b, []byte("\n[recipe]\n")); at >= 0 && !all { // one with such texts is at fault
			b, rest = b[:at], b[at:]
		}
		b = stringValue.ReplaceAllFunc(b, func(line []byte) []byte {
			key := stringValue.FindSubmatch(line)[1]
			switch {
			case string(key) == "tag = ": // pieces stay apart
				return slices.Concat(bytes.TrimSuffix(line, []byte(`"`)), []byte(by+`"`))
			case all && !keeps.Match(line), !all && free.Match(line):
				return slices.Concat(key, []byte(`"`+by+`"`))
			}
			return line
		})
		d.Blocks[i] = slices.Concat(b, rest)
	}
	d.Sign()
	return d.Text()
}
