package setup

import (
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/stock"
	"example.org/vatside/ui/screen"
)

// there is what the shelf has of each powder, behind its amount: ", enough" or ", 60 g short"; nothing for one of which no
// tin was ever on the list.
func (f facts) there(env screen.Env) []string {
	out := make([]string, len(f.amounts.Powders))
	needs, err := stock.Enough(f.recipe, f.fill, recipe.Options{IndigoStrength: f.strength}, env.Home.Stock.All, env.Now)
	if err != nil {
		return out
	}
	for i, n := range needs {
		switch {
		case i >= len(out) || !n.Listed:
		case n.Enough():
			out[i] = ", enough"
		case n.Perhaps():
			out[i] = ", perhaps not enough: test it"
		default:
			out[i] = ", " + n.Short.Format(f.sys) + " short"
		}
	}
	return out
}
