package ui

import (
	"slices"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/widget"
)

// offers are photographs that were given at once, as rows of which one after the other may be taken by the line over them.
type offers struct {
	before string // what stands before the words of each: look A1
	seen   []library.Seen
	at     int
}

// line is the line that takes the row in hand; without a look what stands before it.
func (o offers) line() string {
	if o.seen[o.at].Err == nil {
		return o.before + o.seen[o.at].Words
	}
	return o.before
}

// step is the next row that can be taken, by 1 or −1; the same where there is no other.
func (o offers) step(by int) offers {
	n := len(o.seen)
	for i := 1; i <= n; i++ {
		if at := (o.at + by*i + n) % n; o.seen[at].Err == nil {
			o.at = at
			break
		}
	}
	return o
}

// taken are the rows without the one in hand; none where no other can be taken.
func (o offers) taken() offers {
	if len(o.seen) == 0 {
		return o
	}
	o.seen = slices.Delete(slices.Clone(o.seen), o.at, o.at+1)
	if !slices.ContainsFunc(o.seen, func(s library.Seen) bool { return s.Err == nil }) {
		return offers{}
	}
	o.at = (o.at + len(o.seen) - 1) % len(o.seen)
	return o.step(1)
}

// choices are the rows as they are shown.
func (o offers) choices() (out []widget.Choice) {
	for _, s := range o.seen {
		text := s.Told
		if s.Err != nil {
			text = wording.Show(wording.OneLine(s.Err)).String()
		}
		out = append(out, widget.Choice{Text: text})
	}
	return out
}
