package liquor

import (
	"fmt"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// warnings are what to say besides.
func (n State) warnings(a Advice) []string {
	var out []string
	add := func(v fibre.Verdict, s string, _ fibre.Fibre) {
		if v == fibre.Warned || v == fibre.Refused && !a.Refused {
			out = append(out, s)
		}
	}
	l := n.Recipe.Liquor
	add(bears(n.Goods, n.Bears))
	if n.PH != nil {
		out = append(out, wording.Filled(n.Near())...)
		if low := quantity.PH(l.PHLow); *n.PH < low {
			if v, _, f := bears(n.Goods, func(f fibre.Fibre) (fibre.Verdict, string) { return f.BearsPH(low) }); v == fibre.Warned {
				out = append(out, fmt.Sprintf("pH %v is below the recipe's %v, and stays there for the %s: no alkali while it is to be dyed", *n.PH, low, f))
			}
		}
		if l.PHHigh > 0 && float64(*n.PH) > l.PHHigh {
			out = append(out, fmt.Sprintf("pH %v is above the recipe's %.1f: no alkali now, and never acid in a vat", *n.PH, l.PHHigh))
		}
	} else if protein(n.Goods) {
		out = append(out, "read pH before wool or silk goes in")
	}
	creeps := "kept warm it gives off carbon dioxide and its pH creeps up: read pH before wool or silk, and every three hours"
	unsure := n.Unsure(l.Low)
	return append(out, wording.Filled(
		wording.If(protein(n.Goods) && Creeps(n.Recipe), creeps),
		wording.If(unsure != "" && *n.Temp >= l.Low, unsure+": it may be colder than the recipe's range"),
		wording.If(n.Temp != nil && *n.Temp > handsAtMost, "no hands in a liquor above "+n.says(handsAtMost)),
		wording.If(n.Temp == nil && a.Do == DoReducer, "read "+n.System.DegreeUnit()+" before the reducer goes in"))...)
}
