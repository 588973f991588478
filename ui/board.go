package ui

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/paper"
	"example.org/vatside/ui/screen/timetable"
)

// A day with people on it has a board: a page for a second screen in the folder of its vat, written anew when it says something else.

// boardApart is how long a board stands at least.
const boardApart = 5 * time.Second

// page is what is written of a board.
type page struct {
	vat  string
	page wording.Page
}

// boarded has the boards written that say something else than they did; nil where none does.
func (m model) boarded() tea.Cmd {
	b := m.boards
	b.waits = false
	if !m.home.Settings.Board || b.writing || b.off {
		return nil
	}
	var pages []page
	for _, v := range m.snap.Days {
		was, known := b.of[v.ID]
		if v.Looking || !known && (v.State.Closed || !timetable.Led(v.State)) {
			continue
		}
		call := v.Call()
		key := boardKey{len(v.State.Log), v.State.Seq, v.Table, call.ID, call.Words}
		if key == was.key {
			continue
		}
		if known && m.snap.Wall.Sub(was.at).Abs() < boardApart {
			b.waits = true
			continue
		}
		var says paper.Board
		if guard.Try("board", func() { says = timetable.Page(v) }) != nil {
			b.off = true
			return nil
		}
		now := board{key, says.Page("").String(), was.at}
		if now.said != was.said {
			now.at = m.snap.Wall
			pages = append(pages, page{vatOf(v.ID), says.Page(clockOf(v))})
		}
		b.of[v.ID] = now
	}
	if len(pages) == 0 {
		return nil
	}
	b.writing = true
	home := m.effects.home
	return func() tea.Msg {
		for _, p := range pages {
			if err := home.WriteBoard(p.vat, p.page, paper.BoardMark); err != nil {
				return boardMsg{err}
			}
		}
		return boardMsg{}
	}
}

// clockOf is the time of day of a view.
func clockOf(v engine.View) string { return day.Clock(v.Now) }
