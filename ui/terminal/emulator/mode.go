package emulator

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/charmbracelet/x/ansi"
)

func width(text string) int { return ansi.StringWidth(text) }

// modeNames are the private modes that the terminal knows, as Left calls them.
var modeNames = map[int]string{
	1: "application cursor keys", 5: "reversed screen", 6: "origin mode", 7: "no wrapping", 9: "mouse", 12: "blinking cursor", 25: "hidden cursor",
	47: "alternate screen", 1047: "alternate screen", 1049: "alternate screen", 1000: "mouse", 1002: "mouse", 1003: "mouse", 1005: "mouse",
	1006: "mouse", 1015: "mouse", 1016: "mouse", 1004: "focus", 2004: "bracketed paste", 2026: "synchronised output",
}

// private carries out a control sequence with a private parameter.
func (s *Screen) private(mark byte, params, between string, final byte) {
	ns := numbers(params)
	switch string(mark) + between + string(final) {
	case "?h", "?l":
		for _, n := range ns {
			s.set(n, final == 'h')
		}
	case "?$p":
		_, known := modeNames[ns[0]]
		state := 2
		switch {
		case !known || ns[0] == 2026 && s.NoSync:
			state = 0
		case s.modes[ns[0]]:
			state = 1
		}
		s.reply(fmt.Sprintf("\x1b[?%d;%d$y", ns[0], state))
	case ">u":
		s.keyboards++
	case "<u":
		s.keyboards = max(0, s.keyboards-max(1, ns[0]))
	case ">m":
		if params == "" || ns[0] == 4 {
			s.modified = len(ns) > 1 && ns[1] > 0
		}
	}
}

// set sets a private mode, or sets it back.
func (s *Screen) set(n int, on bool) {
	switch n {
	case 2026:
		switch {
		case s.NoSync:
			return
		case !on:
			s.held = nil
		case s.held == nil:
			s.hold()
		}
	case 47, 1047, 1049:
		s.alternate(n, on)
	case 1048:
		if on {
			s.save()
		} else {
			s.restore()
		}
		return
	}
	s.modes[n] = on
	if n == 6 {
		s.x, s.y, s.wrap = 0, s.origin(), false
	}
}

func (s *Screen) inAlternate() bool { return s.modes[47] || s.modes[1047] || s.modes[1049] }

// alternate goes to the alternate screen, or back. 1049 keeps the cursor's place and clears what it goes to; xterm gives back the
// look as well, but not all do, so that none is given back here.
func (s *Screen) alternate(n int, on bool) {
	if s.inAlternate() == on {
		return
	}
	s.forget()
	s.wrap = false
	if on && n == 1049 {
		s.save()
	}
	if !on && n == 1047 {
		s.eraseScreen(2)
	}
	if s.other == nil {
		s.other = blanks(s.cols, s.rows)
	}
	s.cells, s.other = s.other, s.cells
	for _, mode := range []int{47, 1047, 1049} {
		s.modes[mode] = false
	}
	switch {
	case on && n == 1049:
		s.eraseScreen(2)
	case n == 1049:
		c := s.saved[0]
		s.x, s.y, s.wrap = min(c.x, s.cols-1), min(c.y, s.rows-1), c.wrap
	}
}

func (s *Screen) slot() *cursor {
	if s.inAlternate() {
		return &s.saved[1]
	}
	return &s.saved[0]
}

// save is DECSC, restore DECRC.
func (s *Screen) save() { *s.slot() = s.cursor }

func (s *Screen) restore() {
	s.forget()
	s.cursor = *s.slot()
	s.x, s.y = min(s.x, s.cols-1), min(s.y, s.rows-1)
}

// soft is DECSTR.
func (s *Screen) soft() {
	s.modes[25], s.modes[6], s.modes[7], s.modes[1] = true, false, true, false
	s.insert, s.keypad, s.charset, s.look, s.wrap = false, false, 'B', Look{}, false
	s.top, s.foot = 0, s.rows
	*s.slot() = cursor{}
}

// osc carries out an operating system command; other strings do nothing.
func (s *Screen) osc(kind byte, text string) {
	if kind != ']' {
		return
	}
	switch command, rest, _ := strings.Cut(text, ";"); {
	case command == "0" || command == "2":
		s.title = rest
	case command == "11" && rest == "?" && s.Ground != "":
		s.reply("\x1b]11;" + s.Ground + "\x1b\\")
	}
}

// window carries out what of XTWINOPS is known: the stack of titles, and the size asked for.
func (s *Screen) window(ns []int) {
	switch ns[0] {
	case 18:
		s.reply(fmt.Sprintf("\x1b[8;%d;%dt", s.rows, s.cols))
	case 22, 23:
		if len(ns) > 1 && ns[1] == 1 { // the icon's
			return
		}
		if ns[0] == 22 {
			s.titles = append(s.titles, s.title)
		} else if n := len(s.titles); n > 0 {
			s.title, s.titles = s.titles[n-1], s.titles[:n-1]
		}
	}
}

func (s *Screen) reply(text string) {
	if s.Reply != nil {
		s.Reply(text)
	}
}

// Left is what a program must give back before it ends and has not: modes, the region that scrolls, the look of what is
// written next, the window's title.
func (s *Screen) Left() (out []string) {
	for mode, on := range s.modes {
		if usual := mode == 7 || mode == 25; on == usual {
			continue
		}
		name := cmp.Or(modeNames[mode], "mode "+strconv.Itoa(mode))
		out = append(out, name)
	}
	for name, is := range map[string]bool{
		"insert mode": s.insert, "character set": s.charset != 'B', "cursor shape": s.shape != "", "keyboard protocol": s.keyboards > 0 || s.modified,
		"application keypad": s.keypad, "scroll region": s.top != 0 || s.foot != s.rows, "look (" + s.look.String() + ")": s.look != Look{},
		"title": s.title != "" || len(s.titles) > 0,
	} {
		if is {
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
