package ui

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// quit asks first when a time runs that nobody will call.
func (m model) quit() (model, tea.Cmd) {
	m.help = false
	if len(m.uncalled()) == 0 || m.leaving == asking {
		return m.goWhenSaved()
	}
	if m.leaving == staying {
		m.leaving = asking
	}
	return m, nil
}

// goWhenSaved leaves if all is on disk, else stays until it is.
func (m model) goWhenSaved() (model, tea.Cmd) {
	if m.saved() {
		return m, tea.Quit
	}
	m.leaving = saving
	return m, nil
}

// saved tells whether every act of every day is on disk.
func (m model) saved() bool { return m.acting <= 0 && m.unsaved() == 0 }

func (m model) unsaved() int {
	return wording.Sum(m.snap.Days, func(v engine.View) int { return v.Unsaved })
}

// leave takes a key while leaving is asked about or waits.
func (m model) leave(k screen.Key) (model, tea.Cmd) {
	switch {
	case m.leaving == asking && (k.Rune == 'q' || k.Done()):
		return m.goWhenSaved()
	case m.leaving == asking, k.Name == "esc":
		m.leaving = staying
	case k.Rune == 'k':
		return m, m.effects.replied(m.effects.eng.Keep) // in another place
	case k.Rune == 'l':
		return m, tea.Sequence(m.effects.replied(m.effects.eng.Shed), tea.Quit)
	}
	return m, nil
}

// replied is an act of the engine whose answer is how it went.
func (h effects) replied(act func(context.Context) error) tea.Cmd {
	return func() tea.Msg { return repliedMsg{err: act(h.ctx)} }
}

// leavingSheet asks, or says what is waited for.
func (m model) leavingSheet() widget.Sheet {
	s := widget.Sheet{Head: widget.Head{Left: "vatside · leaving", Right: m.env().Now.Format("15:04")}}
	if m.leaving == saving {
		s.Act = "Not yet on disk"
		for _, v := range m.snap.Days {
			if v.Unsaved == 0 {
				continue
			}
			why := cmp.Or(v.Trouble, wording.Counted(v.Unsaved, "act")+" not yet on disk")
			s.How = append(s.How, vatName(v)+": "+why+".")
			acts, more := v.Acts(), ""
			if len(acts) > 3 {
				more = fmt.Sprintf(" and %d more", len(acts)-3)
				acts = acts[:3]
			}
			s.How = append(s.How, strings.Join(acts, "; ")+more+".")
		}
		s.How = append(s.How, "Wait, and it leaves by itself as soon as all is on disk.")
		s.Keys = []widget.Key{{Key: "l", Desc: "leave without it"}, {Key: "esc", Desc: "back"}}
		if places := m.effects.home.Places(); len(places) > 0 { // a rehearsal's has none
			s.How = append(s.How, "k tries another place: "+strings.Join(places, ", else ")+".")
			s.Keys = slices.Insert(s.Keys, 0, widget.Key{Key: "k", Desc: "keep it elsewhere"})
		}
		return s
	}
	out := m.uncalled()
	more := ""
	if len(out) > 3 {
		more = fmt.Sprintf(", and %d more", len(out)-3)
		out = out[:3]
	}
	s.Act = "Leave while a time runs?"
	s.How = []string{
		"Nobody will call " + strings.Join(out, ", ") + more + ".",
		m.after(),
	}
	s.Keys = []widget.Key{{Key: "q", Desc: "leave"}, {Key: "any other", Desc: "stay"}, {Key: "!", Desc: "first aid"}}
	if r, _, ok := m.rules(""); ok && r.call.Due != nil && m.height >= widget.LowestYard { // the time that runs, and its vat
		s.How = slices.Insert(s.How, 0, s.Act)
		s.Act, s.Figure = "LEAVE?", widget.Figure{Number: widget.Countdown(r.call.Due.At.Sub(r.view.Now))}
		s.Stage = &widget.Stage{Vessel: screen.VesselOf(r.view.State)}
	}
	return s
}

// after is what becomes of the times that run: those of a rehearsal go with its folder, or wait with it.
func (m model) after() string {
	switch r := m.effects.rehearsal; {
	case r == nil:
		return "The times run on, and are told when the program opens again."
	case len(m.effects.home.Places()) == 0: // a throwaway home
		return "It is a rehearsal: nothing of it stays."
	}
	return "It is a rehearsal: it goes on from here with vatside rehearse and the same --home."
}

// uncalled are the running times that quitting leaves without a call.
func (m model) uncalled() []string {
	var out []string
	for _, v := range m.snap.Days {
		if v.Looking {
			continue
		}
		for _, d := range v.Dues() {
			if d.Kind != day.DueTurn {
				at := "now"
				if d.At.After(v.Now) {
					at = "at " + day.DateOf(d.At, v.Now)
				}
				out = append(out, at+" ("+strings.ToLower(d.Words[:1])+d.Words[1:]+")")
			}
		}
	}
	return out
}
