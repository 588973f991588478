package stock

import (
	"cmp"
	"errors"
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	model "example.org/vatside/model/stock"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// What is typed about a tin.
const (
	opens  = "opened"
	weighs = "weigh"
	drops  = "gone"
)

// ask opens a typed line about a tin.
func (s shelf) ask(what string, t model.TinBalance, env screen.Env) (screen.Screen, []screen.Request) {
	s.tin = t.ID
	s.typing = screen.Field{What: what}
	switch what {
	case opens:
		s.typing.Label, s.typing.Unit = "Opened on", "Enter: now; or a date, "+env.Present().Format(time.DateOnly)
	case weighs:
		s.typing.Label, s.typing.Unit = "In "+t.ID+" now, without the tin", env.System().MassUnit()
	case drops:
		s.typing.Label, s.typing.Unit = "Where to", "Enter: "+whereTo(t)
	}
	if what != opens {
		return s, nil
	}
	if _, err := model.Decide(env.Home.Stock.List, model.OpenTin{Tin: t.ID}, env.Present()); err != nil {
		s.typing = screen.Field{}
		return s, []screen.Request{screen.Say{Word: err.Error()}}
	}
	return s, nil
}

// whereTo is why a tin is usually gone.
func whereTo(t model.TinBalance) string {
	if f := t.Fitness(); f == model.Unfit || f == model.Failed {
		return "hazardous waste"
	}
	return "used up"
}

// typed answers a key while a line is typed.
func (s shelf) typed(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	next, entered, left := s.typing.Take(k)
	if !entered || left {
		s.typing = next
		return s, nil
	}
	t, ok := s.chosen(env)
	if !ok {
		s.typing = screen.Field{}
		return s, nil
	}
	c, err := s.command(s.typing.Text, t, env)
	if err == nil {
		_, err = model.Decide(env.Home.Stock.List, c, env.Present())
	}
	if err != nil {
		s.typing.Wrong = err.Error()
		return s, nil
	}
	s.typing = screen.Field{}
	return s, []screen.Request{screen.Keep{Command: c}}
}

// command is what was typed about a tin.
func (s shelf) command(text string, t model.TinBalance, env screen.Env) (model.Command, error) {
	text = strings.TrimSpace(text)
	switch s.typing.What {
	case opens:
		at, err := date(text, env)
		return model.OpenTin{Tin: t.ID, At: at}, err
	case weighs:
		m, err := answer.Mass(text, env.System())
		return model.WeighTin{Tin: t.ID, Mass: m}, err
	}
	return model.DropTin{Tin: t.ID, Why: cmp.Or(text, whereTo(t))}, nil
}

// date reads a date; nothing typed is none.
func date(text string, env screen.Env) (*time.Time, error) {
	if text = strings.TrimSpace(text); text == "" {
		return nil, nil
	}
	now := env.Present()
	t, err := time.ParseInLocation(time.DateOnly, text, now.Location())
	if err != nil {
		return nil, fmt.Errorf("type the date as %s", now.Format(time.DateOnly))
	}
	return &t, nil
}

// The lines of a new tin, one after the other.
const (
	material = iota
	holds
	price
	strength
	isOpen
	lines
)

// adding is a new tin on its way.
type adding struct {
	at    int
	typed [lines]screen.Field
}

// asked are the lines that this tin has: only indigo has a label's strength.
func (a adding) asked(at int) bool {
	return at != strength || recipe.Powder{Material: a.typed[material].Text}.Substance() == recipe.IndigoDye
}

// tin reads the lines up to the one in hand.
func (a adding) tin(env screen.Env) (n model.NewTin, err error) {
	sys := env.System()
	n.Material = a.typed[material].Text
	if strings.TrimSpace(n.Material) == "" {
		return n, errors.New("type what is in it, such as soda ash")
	}
	if a.at >= holds {
		if n.Holds, err = answer.Mass(a.typed[holds].Text, sys); err != nil {
			return n, err
		}
	}
	if text := strings.TrimSpace(a.typed[price].Text); a.at >= price && text != "" {
		p, err := quantity.ParseMoney(text, sys)
		if err != nil {
			return n, err
		}
		n.Price = &p
	}
	if text := strings.TrimSpace(a.typed[strength].Text); a.at >= strength && text != "" && a.asked(strength) {
		if n.Strength, err = quantity.ParseShare(quantity.WithUnit(text, "%"), sys); err != nil {
			return n, err
		}
	}
	if text := strings.TrimSpace(a.typed[isOpen].Text); a.at >= isOpen && text != "" {
		if strings.EqualFold(text, "today") || strings.EqualFold(text, "now") {
			now := env.Present()
			n.Opened = &now
			return n, nil
		}
		n.Opened, err = date(text, env)
	}
	return n, err
}

// check is tin with what the list refuses; what is not typed yet is taken as any.
func (a adding) check(env screen.Env) (model.NewTin, error) {
	n, err := a.tin(env)
	if err != nil {
		return n, err
	}
	full := n
	if a.at < holds {
		full.Holds = 1
	}
	_, err = model.Decide(env.Home.Stock.List, model.AddTin{New: full}, env.Present())
	return n, err
}

// add answers a key while a new tin is told.
func (s shelf) add(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	a := *s.adding
	s.adding = &a
	switch {
	case k.Name == "esc" || k.Name == "pgup":
		if a.at == material {
			s.adding = nil
			return s, nil
		}
		a.typed[a.at].Wrong = ""
		for a.at--; !a.asked(a.at); a.at-- {
		}
	case k.Name == "enter" || k.Name == "pgdown":
		n, err := a.check(env)
		if err != nil {
			a.typed[a.at].Wrong = err.Error()
			return s, nil
		}
		if a.at < isOpen {
			for a.at++; !a.asked(a.at); a.at++ {
			}
			return s, nil
		}
		s.adding = nil
		return s, []screen.Request{screen.Keep{Command: model.AddTin{New: n}}}
	default:
		if row, ok := k.On(len(screen.Needs(env))); ok && a.at == material {
			a.typed[a.at] = screen.Field{Text: screen.Needs(env)[row].Powder.Material}
			return s, nil
		}
		a.typed[a.at] = a.typed[a.at].Edit(k)
	}
	return s, nil
}

func (a adding) view(sheet *widget.Sheet, env screen.Env) {
	e := a.typed[a.at]
	sheet.ActBig = env.Height >= widget.LowestYard
	bare := quantity.Bare(e.Text)
	sys := env.System()
	switch a.at {
	case material:
		sheet.Act, e.Label, e.Hint = "Which powder?", "What is in the tin?", "as on the label, such as soda ash"
		sheet.Why = "Recipes find it by its name: sodium dithionite, soda ash, indigo powder, pre-reduced indigo grains."
	case holds:
		sheet.Act, e.Label, e.Hint = "How much?", "What is in the full tin?", "such as "+quantity.Grams(500).Format(sys)
		if bare {
			e.Unit = sys.MassUnit()
		}
	case price:
		sheet.Act, e.Label, e.Hint = "What price?", "What did the whole tin cost?", "in your own money, such as 12.50; Enter: not told"
	case strength:
		sheet.Act, e.Label, e.Hint = "How strong?", "How strong is it, by its label?", "such as 60 %; Enter: as the recipe takes it"
		if bare {
			e.Unit = "%"
		}
	case isOpen:
		sheet.Act, e.Label = "Is it open?", "When was it opened?"
		e.Hint = "Enter: sealed; today, or a date such as " + env.Present().Format(time.DateOnly)
		sheet.Why = "Once open it takes up air and damp, and the doses in the vats' books are drawn from it."
	}
	if a.at > material {
		sheet.Foot = []string{strings.Join(strings.Fields(a.typed[material].Text), " ")}
	}
	after := a.at + 1
	for after < lines && !a.asked(after) {
		after++
	}
	sheet.Next = "then: " + [lines + 1]string{holds: "how much is in it", price: "what it cost", strength: "how strong it is", isOpen: "is it open", lines: "on the list"}[after]
	sheet.Body = e.Lines(env)
	if list := a.beside(env); len(list) > 0 {
		columns, rows := env.Room(*sheet)
		sheet.Body = append(sheet.Body, "")
		sheet.Add(widget.Listed(list, columns, rows-len(sheet.Body), env.Style))
	}
}

// beside is what stands under the line in hand: the powders of the next vat, then what was said so far.
func (a adding) beside(env screen.Env) (list []widget.Choice) {
	if a.at > material {
		for at, name := range [lines]string{"powder", "in it", "price", "strength", "opened"} {
			if text := strings.TrimSpace(a.typed[at].Text); at < a.at && text != "" {
				list = append(list, widget.Choice{Text: text, Aside: name})
			}
		}
		return list
	}
	for _, n := range screen.Needs(env) {
		says := n.Needed.Format(env.System())
		if n.Listed {
			says += " for the next vat"
		} else {
			says += ", no tin yet"
		}
		list = append(list, widget.Choice{Text: n.Powder.Material, Aside: says})
	}
	return list
}
