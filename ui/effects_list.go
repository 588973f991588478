package ui

import (
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/library"
)

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
		var refused []string
		for _, a := range adds {
			if _, err := h.eng.Do(h.ctx, id, a); err != nil {
				refused = append(refused, err.Error())
			}
		}
		if len(refused) > 0 {
			return repliedMsg{err: fmt.Errorf("%d of %d are on the list; %s", len(adds)-len(refused), len(adds), refused[0])}
		}
		return repliedMsg{word: fmt.Sprintf("%d more on the list", len(adds))}
	}
}
