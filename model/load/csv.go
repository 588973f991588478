package load

import (
	"encoding/csv"
	"strconv"
	"strings"

	"example.org/vatside/model/quantity"
)

// CSV is the timetable as comma-separated values with a head line: tag, number of the dip, vat, and in minutes from the
// start when it is lowered, in, over and lifted, and whether it lay behind already. Lines end in a line feed.
func (p Plan) CSV() string {
	var b strings.Builder
	w := csv.NewWriter(&b)
	row := func(fields ...string) { _ = w.Write(fields) } // into memory: it cannot fail
	row("tag", "dip", "vat", "lower_min", "in_min", "out_min", "lifted_min", "past")
	for _, r := range p.Rows {
		past := ""
		if r.Past {
			past = "past"
		}
		row(r.Tag, strconv.Itoa(r.Dip), strconv.Itoa(r.Vat), inMinutes(r.Lower), inMinutes(r.In), inMinutes(r.Out), inMinutes(r.Lifted), past)
	}
	w.Flush()
	return b.String()
}

// inMinutes is a span in minutes, to the second, without needless noughts.
func inMinutes(s quantity.Span) string {
	f := strconv.FormatFloat(s.Minutes(), 'f', 2, 64)
	if strings.Contains(f, ".") {
		f = strings.TrimRight(strings.TrimRight(f, "0"), ".")
	}
	return f
}
