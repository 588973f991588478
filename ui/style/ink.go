package style

import (
	"strings"

	"github.com/charmbracelet/lipgloss"
)

// Ink is what a text is written with: a style of lipgloss, with what it writes before and after a line. It is a hundred times
// quicker than that, which counts where a frame is drawn each second. The zero value is none.
type Ink struct{ of *look }

type look struct {
	style         lipgloss.Style
	before, after string
}

func inkOf(s lipgloss.Style) Ink {
	before, after, _ := strings.Cut(s.Render("x"), "x")
	return Ink{&look{s, before, after}}
}

// Render is a text in the ink.
func (i Ink) Render(text string) string {
	if i.of == nil {
		return text
	}
	if strings.IndexByte(text, '\n') >= 0 || strings.IndexByte(text, '\t') >= 0 {
		return i.of.style.Render(text)
	}
	if i.of.before == "" {
		return text
	}
	return i.of.before + text + i.of.after
}

// Lines are lines in the ink.
func (i Ink) Lines(lines []string) []string {
	out := make([]string, len(lines))
	for n, l := range lines {
		out[n] = i.Render(l)
	}
	return out
}

// On is the ink in another colour and on another ground, "#rrggbb" or a number of the terminal's; what is empty stays.
func (i Ink) On(colour, ground string) Ink {
	s := i.of.style
	if colour != "" {
		s = s.Foreground(lipgloss.Color(colour))
	}
	if ground != "" {
		s = s.Background(lipgloss.Color(ground))
	}
	return inkOf(s)
}

// Colour is the ink's own, as On takes it; empty where it has none.
func (i Ink) Colour() string {
	c, _ := i.of.style.GetForeground().(lipgloss.Color)
	return string(c)
}

// bold is an ink in bold letters. With sixteen colours on a light ground they stay thin: xterm and others write bold in the
// brighter twin of its colour, and black would be grey, red too pale.
func (s Style) bold(ink Ink) Ink {
	if s.thin || ink.of.style.GetBold() {
		return ink
	}
	return inkOf(ink.of.style.Bold(true))
}
