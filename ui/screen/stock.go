package screen

import (
	"fmt"
	"strings"

	"example.org/vatside/model/stock"
	"example.org/vatside/model/wording"
)

// Needs are the powders of the vat that is likely built next.
func Needs(env Env) []stock.Need {
	w := env.Home.Stock.Next
	if w == nil {
		return nil
	}
	n, err := stock.Enough(w.Recipe, w.Fill, w.Options, env.Home.Stock.All, env.Present())
	if err != nil {
		return nil
	}
	return n
}

// NextVat is whether the shelf is enough for that vat, of the powders that are on it; empty where nobody knows of one.
func NextVat(env Env) string {
	w := env.Home.Stock.Next
	if w == nil {
		return ""
	}
	lacks := wording.Only(Needs(env), func(n stock.Need) bool { return n.Listed && !n.Enough() })
	short := wording.Each(lacks, func(n stock.Need) string { return n.Says(env.System()) })
	vat := fmt.Sprintf("for another %s, %s: ", wording.Lower(w.Recipe.Name), w.Fill.Format(env.System()))
	if len(short) == 0 {
		return vat + "enough of what is on the list"
	}
	return vat + strings.Join(short, ", ")
}
