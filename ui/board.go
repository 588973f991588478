package ui

import (
	"context"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/paper"
	"example.org/vatside/ui/screen/timetable"
	"example.org/vatside/ui/shelf"
)

// A day with people on it has a board: a page for a second screen in the folder of its vat, written anew when it says something else.
// At the program's end it says that its clock is closed.

// boardApart is how long a board stands at least.
const boardApart = 5 * time.Second

// page is what is written of a board.
type page struct {
	vat    string
	says   paper.Board
	when   string
	closed bool // so is the day
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
			pages = append(pages, page{vatOf(v.ID), says, boardTime(v.Now), v.State.Closed})
		}
		b.of[v.ID] = now
	}
	if len(pages) == 0 {
		return nil
	}
	b.writing = true
	home := m.effects.home
	return func() tea.Msg {
		b.disk.Lock()
		defer b.disk.Unlock()
		for _, p := range pages {
			if b.left {
				break
			}
			if err := home.WriteBoard(p.vat, p.says.Page(p.when), paper.BoardMark); err != nil {
				return boardMsg{err}
			}
			if b.last[p.vat] = p; p.closed {
				delete(b.last, p.vat)
			}
		}
		return boardMsg{}
	}
}

// failed keeps why a board was not written, and has it written again once boardApart is over; nil: it was.
func (b *boards) failed(err error) {
	if b.trouble = ""; err == nil {
		return
	}
	b.trouble = err.Error() + "; what stands on it is old"
	for id, was := range b.of {
		was.key, was.said = boardKey{}, ""
		b.of[id] = was
	}
}

// boardTime is when a board was written: who comes by it later sees how old it is.
func boardTime(at time.Time) string { return at.Format("15:04 on Mon 2 Jan 2006") }

// leave has each board of an open day say that the clock is closed, as nobody writes it any more. A disk that hangs is not waited for.
func (b *boards) leave(home shelf.Home, now time.Time) {
	soon, done := context.WithTimeout(context.Background(), closing)
	guard.GoThen("boards", func() {
		b.disk.Lock()
		defer b.disk.Unlock()
		b.left = true
		for _, p := range b.last {
			p.says.Call, p.says.At = "vatside is closed", ""
			p.says.Notes = append([]string{"Left at " + boardTime(now) + ". What stands here was so at " + p.when + "; nothing is called till vatside is opened again."}, p.says.Notes...)
			_ = home.WriteBoard(p.vat, p.says.Page(boardTime(now)), paper.BoardMark) // a board that failed was told of
		}
	}, func(*guard.Crash) { done() })
	<-soon.Done()
}
