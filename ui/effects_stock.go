package ui

import (
	"errors"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/recipe"
	"example.org/vatside/model/stock"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
)

// shelfOfPowders reads it beside home: the doses of many days take their time.
func (h effects) shelfOfPowders(vats []screen.Vat) tea.Cmd {
	return func() tea.Msg { return stockMsg(h.stock(vats)) }
}

// stock reads the shelf of powders. The vat that is likely built next is the one that was worked at last, built again.
func (h effects) stock(vats []screen.Vat) screen.Stock {
	var out screen.Stock
	l, b, err := library.Tins(h.home)
	out.List, out.Tins, out.All = l, b.OnShelf(), b.Tins
	if err != nil {
		out.Trouble = err.Error()
	}
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
			return repliedMsg{err: errors.New("this is a rehearsal, and its folder goes when it is left: run vatside by itself to keep the real list")}
		}
		_, torn, err := h.home.KeepStock(engine.Machine{}.Wall(), c)
		if err == nil && torn != "" {
			return repliedMsg{word: "the last line of the list of tins was torn off by a power cut or a full disk: it stands in " + torn}
		}
		return repliedMsg{err: err, reload: true}
	}
}
