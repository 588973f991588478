// Tables prints what each recipe's vat is told from pH 2 to 14 and from 5 to 80 °C, by its signs and by the right dose, which say the
// same: a table to be read for danger.
//
//	go run ./testdata/bench/tables [-seen 'blue, clear'] [-strip 10s] [-fill 60L]
package main

import (
	"flag"
	"fmt"
	"strings"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
	"example.org/vatside/recipes"
	"example.org/vatside/testdata/bench/internal/apart"
)

func main() {
	seen := flag.String("seen", "clear, yellow", "what is seen at each vat")
	strip := flag.String("strip", "", "how long a strip stayed yellow; empty: not pulled")
	ph := flag.Float64("ph", 0, "pH in the table of °C; 0: the middle of the recipe's range")
	fill := flag.String("fill", "60L", "liquor")
	flag.Parse()
	apart.Run("tables", func() bool {
		print(*seen, *strip, *fill, *ph)
		return false
	})
}

func print(words, strip, fill string, ph float64) {
	var s signs.Seen
	if words != "" {
		s.Signs = apart.Got(signs.Parse(words))
	}
	if strip != "" {
		t := apart.Got(quantity.ParseSpan(strip, quantity.Metric))
		s.Strip = &t
	}
	litres := apart.Got(quantity.ParseVolume(fill, quantity.Metric))
	all := recipes.Builtin()
	for _, r := range all {
		fmt.Printf("\n%s, at %v, pH as read on paper\n", r.ID, r.Liquor.Aim)
		rows(2, 14, 0.5, func(p float64) string {
			at, read := s, quantity.PH(p)
			at.PH, at.Temp = &read, &r.Liquor.Aim
			return told(at, r, litres)
		})
	}
	for _, r := range all {
		read := wording.Either(ph > 0, quantity.PH(ph), quantity.PH((r.Liquor.PHLow+r.Liquor.PHHigh)/2))
		fmt.Printf("\n%s, at pH %v, by °C\n", r.ID, read)
		rows(5, 80, 1, func(c float64) string {
			at, temp := s, quantity.Celsius(c)
			at.PH, at.Temp = &read, &temp
			return told(at, r, litres)
		})
	}
}

// rows prints a line for each run of equal answers.
func rows(from, to, step float64, say func(float64) string) {
	begin, last := from, say(from)
	line := func(end float64) {
		span := wording.Either(begin != end, fmt.Sprintf("%g to %g", begin, end), fmt.Sprintf("%g", begin))
		fmt.Printf("  %11s  %s\n", span, last)
	}
	for v := from + step; v <= to+1e-9; v += step {
		if now := say(v); now != last {
			line(v - step)
			begin, last = v, now
		}
	}
	line(to)
}

// told is what both say, or that they do not say the same.
func told(s signs.Seen, r recipe.Recipe, fill quantity.Volume) string {
	v := liquor.State{Recipe: r, Fill: fill}
	c, a := signs.Causes(s, v)[0], signs.Advise(s, v)
	out := c.ID + ": " + c.Do + wording.If(len(a.Warnings) > 0, " ["+strings.Join(a.Warnings, "; ")+"]")
	if (a.Mass > 0) != (len(c.Doses) > 0) || a.Mass > 0 && (a.Powder != c.Doses[0].Powder || a.Mass != c.Doses[0].Mass) {
		out += "  BUT THE DOSE IS " + a.Sentence
	}
	return out
}
