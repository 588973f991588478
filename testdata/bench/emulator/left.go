package emulator

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	uv "github.com/charmbracelet/ultraviolet"
	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/vt"
)

// modeNames are the modes that the terminal knows, as Left calls them.
var modeNames = map[ansi.Mode]string{
	ansi.DECMode(1): "application cursor keys", ansi.DECMode(5): "reversed screen", ansi.DECMode(6): "origin mode",
	ansi.DECMode(7): "no wrapping", ansi.DECMode(12): "blinking cursor", ansi.DECMode(25): "hidden cursor", ansi.DECMode(66): "application keypad",
	ansi.DECMode(47): "alternate screen", ansi.DECMode(1047): "alternate screen", ansi.DECMode(1049): "alternate screen",
	ansi.DECMode(9): "mouse", ansi.DECMode(1000): "mouse", ansi.DECMode(1002): "mouse", ansi.DECMode(1003): "mouse",
	ansi.DECMode(1005): "mouse", ansi.DECMode(1006): "mouse", ansi.DECMode(1015): "mouse", ansi.DECMode(1016): "mouse",
	ansi.DECMode(1004): "focus", ansi.DECMode(2004): "bracketed paste", ansi.DECMode(2026): "synchronised output",
	ansi.ANSIMode(4): "insert mode",
}

// A param is the i-th parameter of a sequence, or what counts where it is left out.
type param func(i, otherwise int) int

// watch has vt tell what it does not keep, and mends what it does otherwise than xterm.
func (s *Screen) watch() {
	s.vt.SetCallbacks(vt.Callbacks{
		EnableMode:  func(m ansi.Mode) { s.modes[m] = !s.NoSync || m != sync },
		DisableMode: func(m ansi.Mode) { s.modes[m] = false },
	})
	s.modes[ansi.DECMode(7)], s.modes[ansi.DECMode(25)] = true, true
	setTitle := func(data []byte) bool {
		_, title, _ := strings.Cut(string(data), ";")
		s.title = title
		return true
	}
	s.vt.RegisterOscHandler(0, setTitle)
	s.vt.RegisterOscHandler(2, setTitle)
	see := func(command int, does func(param)) {
		s.vt.RegisterCsiHandler(command, func(ps ansi.Params) bool {
			does(func(i, otherwise int) int {
				n, _, _ := ps.Param(i, otherwise)
				return n
			})
			return false
		})
	}
	see('t', func(of param) { // XTWINOPS
		switch n := len(s.titles); {
		case of(1, 0) == 1: // the icon's
		case of(0, 0) == 22:
			s.titles = append(s.titles, s.title)
		case of(0, 0) == 23 && n > 0:
			s.title, s.titles = s.titles[n-1], s.titles[:n-1]
		}
	})
	see('r', func(of param) {
		s.margins = of(0, 1) > 1 || of(1, s.vt.Height()) < s.vt.Height()
	})
	see(ansi.Command('>', 0, 'u'), func(param) { s.keyboard++ })
	see(ansi.Command('<', 0, 'u'), func(of param) { s.keyboard = max(0, s.keyboard-of(0, 1)) })
	see(ansi.Command('>', 0, 'm'), func(of param) { s.modified = of(1, 0) > 0 })
	s.vt.RegisterCsiHandler('m', func(ps ansi.Params) bool {
		uv.ReadStyle(ps, &s.pen)
		return false
	})
	s.vt.RegisterCsiHandler('K', func(ansi.Params) bool {
		at := s.vt.CursorPosition()
		for x := at.X; x < s.vt.Width() && s.NoBCE; x++ {
			s.vt.SetCell(x, at.Y, nil)
		}
		return s.NoBCE
	})
}

// Left is what a program must give back before it ends and has not: modes, the region that scrolls, the look of what is
// written next, the window's title.
func (s *Screen) Left() (out []string) {
	s.settle()
	s.show(len(s.rest))
	for m, on := range s.modes {
		if usual := m == ansi.DECMode(7) || m == ansi.DECMode(25); on != usual {
			out = append(out, cmp.Or(modeNames[m], fmt.Sprint("mode ", m.Mode())))
		}
	}
	style, blinks := s.vt.CursorStyle()
	for name, is := range map[string]bool{
		"cursor shape": style != 0 || !blinks, "keyboard protocol": s.keyboard > 0 || s.modified, "scroll region": s.margins,
		"look (" + lookOf(s.pen).String() + ")": lookOf(s.pen) != Look{}, "title": s.title != "" || len(s.titles) > 0,
	} {
		if is {
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
