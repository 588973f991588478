package cost

import (
	"strings"
	"testing"
	"time"

	model "example.org/vatside/model/cost"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

func env(w, h int, pieces ...model.Piece) screen.Env {
	e := screen.Env{Now: time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC), Width: w, Height: h, Style: style.New(style.Options{})}
	e.Home.Cost = &screen.Cost{Vat: "bin", Name: "Garden bin", Of: model.Vat{
		Powders: []model.Powder{{Material: "indigo", Mass: 90, Cost: 2700}}, HeatCost: 52, Tended: 1735, Total: 4487, Pieces: pieces,
		Notes: []string{"no price is told for 360 g of soda ash: put the tin on the list of powders with what it cost",
			"79 % of what the vat cost waits in its liquor for the next pieces", "water, soap, rent and the cloth itself are not counted"},
	}}
	return e
}

func two() []model.Piece {
	label := model.Label{Made: "Runner, linen: dyed by hand with indigo in a vat, 4 dips.", Care: []string{"Wash it alone the first three times."},
		Rubbing: []string{"Blue rubs off onto pale cloth."}}
	return []model.Piece{
		{Day: "2026-11-25", Tag: "A1", What: "runner", Fibre: "linen", Depth: "dark", Dry: 420, Dips: 4, Powders: 434, Heat: 8, Tended: 251,
			Hours: quantity.Minutes(56.7), Work: 1750, Total: 2443, Per100g: 582, Label: label},
		{Day: "2026-11-25", Tag: "B1", Fibre: "cotton", Dips: 1, Total: 914, Label: label},
	}
}

func TestCostFitsEverySize(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := env(size[0], size[1], two()...)
		flat := func(s screen.Screen) string {
			return strings.Join(strings.Fields(strings.ReplaceAll(screentest.Shown(t, s, e), "▓", " ")), " ")
		}
		has := func(s screen.Screen, words ...string) {
			t.Helper()
			for _, w := range words {
				if text := flat(s); !strings.Contains(text, w) {
					t.Errorf("%v: %q is missing:\n%s", size, w, text)
				}
			}
		}
		if sheet := New(e).View(e); sheet.Figure.Number != "24.43" {
			t.Errorf("%v: the sum is no figure: %+v", size, sheet)
		}
		has(New(e), "What A1 cost", "5.82 for each 100 g", "B1")
		s, _ := screentest.Press(New(e), e, "space")
		has(s, "The label of A1", "Blue rubs off")
		s, _ = screentest.Press(s, e, "space")
		has(s, "What is in it, and what is not", "Its own 57 min of work: 17.50", "No price is told for 360 g", "79 % of what", "are not counted.")
		s, _ = screentest.Press(s, e, "space", "down")
		has(s, "What B1 cost")
		partly := env(size[0], size[1], two()...)
		partly.Home.Cost.Of.HeatCost, partly.Home.Cost.Of.Heat = 0, quantity.Joules(3*3.6e6)
		was := e
		e = partly
		has(New(e), "all of the vat 44.87, with its pieces' work 62.37")
		s, _ = screentest.Press(New(e), e, "space", "space")
		has(s, "powders 4.34, tending 2.51, not known: heat")
		e = was
		unpriced := env(size[0], size[1], two()...)
		of := &unpriced.Home.Cost.Of
		of.Total, of.HeatCost, of.Tended, of.Powders[0].Cost = 0, 0, 0, 0
		for i := range of.Pieces {
			of.Pieces[i].Total = 0
		}
		e = unpriced
		has(New(e), "Nothing is priced yet", "No price is told for 360 g", "your hour")
		if text := screentest.Shown(t, New(unpriced), unpriced); strings.Contains(text, "What A1") {
			t.Errorf("%v: a price of nought:\n%s", size, text)
		}
		many := env(size[0], size[1], append(two(), append(two(), append(two(), two()...)...)...)...)
		if text := screentest.Shown(t, New(many), many); strings.Contains(text, " more") {
			t.Errorf("%v: the list is cut where it does not scroll:\n%s", size, text)
		}
		e = env(size[0], size[1])
		has(New(e), "44.87", "no piece has a share of it")
		e.Home.Cost = nil
		has(New(e), "Reckoning")
	}
}

func TestKeys(t *testing.T) {
	e := env(80, 24, two()...)
	if _, r := screentest.Press(New(e), e, "esc"); len(r) != 1 || r[0] != (screen.Leave{}) {
		t.Errorf("esc asks for %v", r)
	}
	e.Home.Cost = nil
	if s, r := screentest.Press(New(e), e, "down", "l", "space"); len(r) != 1 || r[0] != (screen.Leave{}) || s != New(e) {
		t.Errorf("with nothing to show: %v", r)
	}
}
