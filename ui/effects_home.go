package ui

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// load reads the home. At the start it also takes up every open day, so that their times are called from home too.
func (h effects) load(start bool) tea.Cmd {
	return func() tea.Msg {
		var msg homeMsg
		h.watching() // first: what is written from here on is read again
		vats, strays, err := h.home.VatFolders()
		trouble := wording.Filled(wording.Each(append([]error{err}, strays...), wording.Of)...)
		snap, _ := h.eng.Now(h.ctx)
		for _, v := range vats {
			cards := h.cards(v, snap)
			for i, card := range slices.Backward(cards) { // the newest first: of a vat one day is written, and called
				if card.Open && start {
					cards[i] = h.takeUp(card)
				}
			}
			for _, card := range cards {
				if card.Open && start {
					if h.rehearsal != nil && v == h.rehearsal.Vat && card.Day == h.rehearsal.Day {
						msg.show = card.ID()
					}
				} else if _, has := snap.Day(card.ID()); card.Open && !has { // another program began it
					card.Trouble = cmp.Or(wording.Of(h.lookAt(v, card.Day).err), card.Trouble)
				}
				msg.vats = append(msg.vats, card)
			}
		}
		var faulty []string // behind the vats: their days are called first
		if c := guard.Try("recipes", func() { msg.recipes, msg.own, faulty = ownRecipes(h.home) }); c != nil {
			faulty = []string{"the recipes could not be read: " + c.Error()}
		}
		msg.word = strings.Join(append(faulty, trouble...), "; ")
		return msg
	}
}

// takeUp opens the day of a card, so that its times are called.
func (h effects) takeUp(card screen.Vat) screen.Vat {
	o := h.open(card.Vat, card.Day)
	card.Trouble = cmp.Or(o.word, wording.Of(o.err), card.Trouble)
	return card
}

// cards is a vat as home shows it: each of its open days, and where none is open the last that can be read. A vat of which
// nothing can be read is shown with the word why.
func (h effects) cards(vat string, snap engine.Snapshot) []screen.Vat {
	days, err := h.home.VatDays(vat)
	name, last, found, lastErr := h.home.LastOf(vat, days)
	trouble := wording.OneLine(errors.Join(err, lastErr))
	var out []screen.Vat
	for _, d := range days.Open {
		b := last
		if d != name {
			var err error
			if b, err = h.home.ReadDay(vat, d); err != nil {
				continue // Last has told of it, or will once it is the newest
			}
		}
		if b.HeadErr == nil && !b.Empty() {
			if v, _ := snap.Day(vat + "/" + d); !v.Looking { // it is written by this program, or about to be
				b.Spilled = apart(b.Spilled)
			}
			out = append(out, h.card(vat, d, b, snap))
		}
	}
	switch {
	case len(out) > 0:
	case found && last.HeadErr == nil:
		out = append(out, h.card(vat, name, last, snap))
	case trouble != "":
		out = append(out, screen.Vat{Vat: vat, Name: vat, Day: name, Unread: true, Line: "none of its days can be read"})
	}
	for i := range out {
		out[i].Trouble = wording.Joined("; ", out[i].Trouble, trouble)
	}
	return out
}

// card is a day of a vat as home shows it.
func (h effects) card(vat, name string, b book.Book, snap engine.Snapshot) screen.Vat {
	c := screen.Vat{Vat: vat, Name: vat, Day: name}
	if v, open := snap.Day(vat + "/" + name); open {
		c = held(c, v)
		if !v.Looking {
			b.Torn, b.Spilled = nil, apart(b.Spilled) // what is being written, and what the day itself tells of
		}
	} else {
		c = standing(c, library.Of(vat, name, b))
	}
	c.Trouble = cmp.Or(wording.Of(library.NotWhole(vat, name, b.Frame)), c.Trouble)
	return c
}

// apart are the spills that cannot join their day.
func apart(spills []book.Spilled) []book.Spilled {
	return slices.DeleteFunc(slices.Clone(spills), func(s book.Spilled) bool { return s.Err == nil })
}

// ownRecipes are the recipes at hand, which of them are the dyer's own, and what is wrong with others.
func ownRecipes(home shelf.Home) (all []recipe.Recipe, own map[string]bool, trouble []string) {
	at, faulty, err := library.Recipes(home)
	trouble = wording.Filled(append([]string{wording.Of(err)}, wording.Each(faulty, func(f library.FaultyRecipe) string { return f.Fault })...)...)
	own = map[string]bool{}
	for _, r := range at {
		all = append(all, r.Recipe)
		if r.File != "" {
			own[r.ID] = true
		}
	}
	return all, own, trouble
}

// held is a vat as home shows it, by a day that the engine has.
func held(c screen.Vat, v engine.View) screen.Vat {
	c = standing(c, library.Day{State: v.State, Now: v.Now})
	c.Elsewhere, c.Free = v.Looking && !v.Free, v.Free && c.Open
	return c
}

// standing is a vat as home shows it, by its last day.
func standing(c screen.Vat, d library.Day) screen.Vat {
	s, now := d.State, d.Now
	if n := s.Head.Setup.Name; n != "" {
		c.Name = n
	}
	c.At = s.At
	c.Open, c.Rehearsed = !s.Closed, s.Head.Rehearsed
	c.Recipe, c.Fill = s.Head.Recipe.Name, s.Head.Setup.Fill.Format(s.Head.Setup.System())
	v := engine.View{State: s, Now: now}.At(now) // its call is asked for twice
	c.Line, c.Short, c.Due, c.Vessel, c.Hung = v.Line(), v.Call().Large(), day.Between(s, now), screen.VesselOf(s), screen.HungOf(s, nil)
	if s.Closed { // what it waits for is said by its due, with the date
		c.Line = "day closed"
	}
	if s.Ended {
		c.Open, c.Ended, c.Line, c.Due = false, true, "its book stays", nil
	}
	return c
}
