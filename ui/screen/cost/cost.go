// Package cost shows what each piece of a vat cost, and the words for its label.
package cost

import (
	"fmt"
	"math"
	"strings"

	model "example.org/vatside/model/cost"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

type cost struct {
	at   int
	page page
}

// roomy is how many columns a window has that shows what the vat's cost is made of in one row.
const roomy = 70

// page is what is said of a piece.
type page int

const (
	sums   page = iota
	label       // the words for its label
	within      // what is in the sums, and what is not
	pages
)

func New(screen.Env) screen.Screen { return cost{} }

func (c cost) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	n := 0
	if env.Home.Cost != nil {
		n = len(env.Home.Cost.Of.Pieces)
	}
	if row, ok := k.On(n); ok {
		c.at = row
		return c, nil
	}
	switch {
	case k.Name == "esc":
		return c, []screen.Request{screen.Leave{}}
	case n == 0:
		if k.Done() {
			return c, []screen.Request{screen.Leave{}}
		}
	case k.Done() || k.Rune == 'l':
		c.page = (c.page + 1) % pages
	case k.Name == "down":
		c.at = min(c.at+1, n-1)
	case k.Name == "up" || k.Name == "pgup":
		c.at = max(c.at-1, 0)
	}
	return c, nil
}

func (c cost) View(env screen.Env) widget.Sheet {
	sheet := widget.Sheet{Head: widget.Head{Left: "what it cost", Right: env.Now.Format("Mon 2 Jan · 15:04")}}
	got := env.Home.Cost
	if got == nil {
		sheet.Act = "Reckoning what it cost"
		return sheet
	}
	v := got.Of
	notes := wording.Each(v.Notes, wording.Sentence)
	sheet.Head.Left, sheet.Banner = got.Name+" · "+sheet.Head.Left, got.Trouble
	all := v.Sums()
	sheet.Foot = []string{"all of the vat " + all.Total}
	switch {
	case all.Total == model.Unpriced:
		sheet.Foot[0] = "not known: what the vat cost; add the powders' prices with P on home"
	case v.Work() > 0:
		sheet.Foot[0] += ", with its pieces' work " + all.WithWork
		fallthrough
	default:
		if env.Width >= roomy {
			sheet.Foot[0] += " · " + parts(all)
		}
	}
	if len(v.Pieces) == 0 {
		sheet.Act, sheet.Figure = "The vat so far", widget.Figure{Number: all.Total, Unit: "", Note: "no piece was dipped yet: no piece has a share of it"}
		sheet.How = notes
		return sheet
	}
	x := v.Pieces[min(c.at, len(v.Pieces)-1)]
	switch {
	case c.page == within:
		sheet.Act, sheet.How, sheet.HowTop = "What is in it, and what is not", append([]string{share(v, x)}, notes...), true
		return sheet
	case c.page == label:
		sheet.Act, sheet.How, sheet.HowTop = "The label of "+x.Tag, append(append([]string{x.Label.Made}, x.Label.Care...), x.Label.Rubbing...), true
		sheet.Next = "then: write it on the tag, in your own words"
		return sheet
	case v.Total == 0 && x.Total == 0: // a figure of nought would be taken for the price
		sheet.Act, sheet.How, sheet.HowTop = "Nothing is priced yet", notes, true
		sheet.Next = "then, on home: P for the tins, the comma key for your hour and the kilowatt-hour"
		return sheet
	}
	sheet.Act = "What " + x.Tag + " cost"
	sheet.Figure = widget.Figure{Number: v.SumsOf(x).Total, Note: note(x)}
	sheet.How = append([]string{share(v, x)}, notes...)
	if _, right, halved := widget.Halves(env.Width); halved {
		sheet.Halved, sheet.Side = true, record(v, x, right, env)
	}
	return listed(sheet, v, c.at, env)
}

// record is the piece in hand for the right half of a window: what its cost is made of, and its label.
func record(v model.Vat, x model.Piece, columns int, env screen.Env) []string {
	of, st := v.SumsOf(x), env.Style
	most := max(x.Powders, x.Heat, x.Tended, x.Work)
	bar := func(name string, is quantity.Money, says string) widget.Bar {
		if says == model.Unpriced {
			says = "not known: " + tells[name]
		}
		b := widget.Bar{Name: name, Says: says}
		if most > 0 {
			b.Part = float64(is) / float64(most)
		}
		return b
	}
	out := widget.Bars([]widget.Bar{
		bar("powders", x.Powders, of.Powders), bar("heat", x.Heat, of.Heat), bar("tending", x.Tended, of.Tended), bar("its own work", x.Work, of.Work),
	}, columns, env.Height/2-4, st)
	out = append(out, "", st.Act.Render("label"))
	for _, words := range append(append([]string{x.Label.Made}, x.Label.Care...), x.Label.Rubbing...) {
		out = append(out, widget.Words(words, columns, st.Text, st.Glyphs)...)
	}
	return out
}

// tells is how what is not known of a cost is told.
var tells = map[string]string{
	"powders": "add their prices with P on home", "heat": "set the kilowatt-hour with the comma key on home",
	"tending": "set your hour with the comma key on home", "its own work": "set your hour with the comma key on home",
}

// share is what a piece carries.
func share(v model.Vat, x model.Piece) string {
	of := v.SumsOf(x)
	work := of.Work
	if work == model.Unpriced {
		work = "not known, " + tells["its own work"]
	}
	hours := quantity.Minutes(math.Round(x.Hours.Minutes()))
	return fmt.Sprintf("Its share of the vat: %s. Its own %s of work: %s.", parts(of), hours, work)
}

// parts are what a cost is made of: what is known, and what is not.
func parts(of model.Sums) string {
	var known, not []string
	for _, p := range [][2]string{{"powders", of.Powders}, {"heat", of.Heat}, {"tending", of.Tended}} {
		if p[1] == model.Unpriced {
			not = append(not, p[0])
		} else {
			known = append(known, p[0]+" "+p[1])
		}
	}
	if len(not) > 0 {
		known = append(known, "not known: "+strings.Join(not, ", "))
	}
	return strings.Join(known, ", ")
}

// listed puts the pieces under the figure; where they do not fit what is in the sums goes to its own page, then the figure's size.
func listed(sheet widget.Sheet, v model.Vat, at int, env screen.Env) widget.Sheet {
	room := func() (columns, rows int) {
		return widget.Room(sheet, env.Width, env.Height, env.Style)
	}
	want := min(len(v.Pieces), 6)
	columns, rows := room()
	for rows < want && len(sheet.How) > 0 {
		sheet.How, sheet.Next = sheet.How[:min(1, len(sheet.How)-1)], "then: its label; then what is in it, and what is not"
		columns, rows = room()
	}
	if rows < min(want, 3) {
		sheet.Act, sheet.ActBig = v.Pieces[min(at, len(v.Pieces)-1)].Tag+" "+sheet.Figure.Number, true
		sheet.How = append([]string{wording.Upper(sheet.Figure.Note) + "."}, sheet.How...)
		sheet.Figure = widget.Figure{}
		columns, rows = room()
	}
	list := wording.Each(v.Pieces, func(x model.Piece) widget.Choice {
		return widget.Choice{Text: wording.Joined(" ", x.Tag, x.What), Aside: v.SumsOf(x).Total + ", " + x.Day}
	})
	sheet.Add(widget.Pick(list, at, columns, max(rows, 2), env.Style))
	return sheet
}

// note is the figure's own line.
func note(x model.Piece) string {
	return wording.Joined(", ", x.What, x.Fibre, wording.If(x.Dry > 0, x.Dry.String()), wording.Counted(x.Dips, "dip")) +
		wording.If(x.Per100g > 0, "; "+x.Per100g.String()+" for each 100 g")
}

func (c cost) Keys(env screen.Env) []widget.Key {
	back := screen.Bound("esc", "back")
	if env.Home.Cost == nil || len(env.Home.Cost.Of.Pieces) == 0 {
		return []widget.Key{back}
	}
	does := [pages]string{"its label", "what is in it", "its cost"}[c.page]
	return []widget.Key{screen.Bound("enter", does), screen.Bound("↑ ↓", "which piece"), back}
}
