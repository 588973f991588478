package ui

import (
	"errors"
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/day"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/stock"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// costs reckons what a vat cost by all its days.
func (h effects) costs(vat string, s shelf.Settings) tea.Cmd {
	return func() tea.Msg {
		out := screen.Cost{Vat: vat, Name: vat}
		days, errs := library.AllDays(h.home, vat)
		if last, ok := days.Last(); ok && last.State.Head.Setup.Name != "" {
			out.Name = last.State.Head.Setup.Name
		}
		var err error
		out.Of, err = library.Costs(h.home, vat, days, cost.Rates{Hour: s.Hour, KWh: s.KWh})
		out.Trouble = wording.Of(errors.Join(append(errs, err)...))
		return costMsg{out}
	}
}

// list puts the pieces of a file, or of the vat's day before, on the list of a day. Those that are refused are told; the
// others are on it.
func (h effects) list(id, path string) tea.Cmd {
	return func() tea.Msg {
		var adds []day.AddPiece
		var err error
		if path == "" {
			vat, name, _ := strings.Cut(id, "/")
			adds, err = library.DayBefore(h.home, vat, name)
		} else {
			snap, _ := h.eng.Now(h.ctx) // one that is not open refuses the pieces
			v, _ := snap.Day(id)
			adds, err = library.Listed(path, v.Now)
		}
		if err != nil {
			return repliedMsg{err: err}
		}
		var refused, notes []string
		for _, a := range adds {
			made, err := h.eng.Do(h.ctx, id, a)
			if err != nil {
				refused = append(refused, err.Error())
			}
			if word := h.notice(id, made); word != "" {
				notes = append(notes, word)
			}
		}
		if len(refused) > 0 {
			return repliedMsg{err: fmt.Errorf("%d of %d are on the list; %s", len(adds)-len(refused), len(adds), refused[0])}
		}
		return repliedMsg{word: strings.Join(append([]string{fmt.Sprintf("%d more on the list", len(adds))}, notes...), "; ")}
	}
}

// shelfOfPowders reads it beside home: the doses of many days take their time.
func (h effects) shelfOfPowders(vats []screen.Vat) tea.Cmd {
	return func() tea.Msg { return stockMsg(h.stock(vats)) }
}

// stock reads the shelf of powders. The vat that is likely built next is the one that was worked at last, built again.
func (h effects) stock(vats []screen.Vat) screen.Stock {
	var out screen.Stock
	l, b, err := library.Tins(h.home)
	out.List, out.Tins, out.All, out.Trouble = l, b.OnShelf(), b.Tins, wording.Of(err)
	var last screen.Vat
	for _, v := range vats {
		if !v.Rehearsed && v.Day != "" && (last.Day == "" || v.At.After(last.At)) {
			last = v
		}
	}
	if len(l.Tins) == 0 || last.Vat == "" {
		return out
	}
	if _, b, found, err := h.home.Last(last.Vat); err == nil && found && b.HeadWhole {
		out.Next = &stock.Wish{Recipe: b.Head.Recipe, Fill: b.Head.Setup.Fill, Options: recipe.Options{IndigoStrength: b.Head.Setup.Strength}}
	}
	return out
}

// keep appends an act of the shelf to the list of tins.
func (h effects) keep(c stock.Command) tea.Cmd {
	return func() tea.Msg {
		if h.rehearsal != nil {
			return repliedMsg{err: errors.New("this is a rehearsal: leave it with q, and run vatside by itself to keep the real list")}
		}
		_, torn, err := h.home.KeepStock(engine.Machine{}.Wall(), c)
		if err == nil && torn != "" {
			return repliedMsg{word: "the last line of the list of tins was torn off by a power cut or a full disk: it stands in " + torn}
		}
		return repliedMsg{err: err, reload: true}
	}
}

// care reads what takes longer than home may wait for.
func (h effects) care(vats []screen.Vat) tea.Cmd {
	return func() tea.Msg {
		msg := careMsg{}
		for _, v := range vats {
			msg[v.Vat] = h.cares.Of(h.home, v.Vat)
		}
		h.home.KeepIndex()
		return msg
	}
}

// past reads the whole history of a vat.
func (h effects) past(vat string) tea.Cmd {
	return func() tea.Msg {
		days, errs := library.AllDays(h.home, vat)
		h.home.KeepIndex()
		return pastMsg{vat, days, errors.Join(errs...)}
	}
}
