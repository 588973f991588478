package style

import (
	"slices"
	"strings"

	"github.com/muesli/termenv"
)

// Profile is how many colours the terminal shows. The zero value is none, which is always safe.
type Profile int

const (
	NoColour Profile = iota // no escape sequence at all: words, size and density carry everything
	Ansi16                  // text tokens only; cloth is drawn by density, as without colour
	Indexed                 // 256 colours
	TrueColour
)

// ProfileOf reads the profile off an environment that the caller hands in (os.Getenv, or a map in a test). NO_COLOR is stronger
// than all else; then FORCE_COLOR, whose figure is a depth (0 none, 1 16, 2 256, 3 all colours), and CLICOLOR_FORCE; then CLICOLOR=0.
// Conventions: no-color.org and bixense.com/clicolors, from memory.
func ProfileOf(getenv func(string) string) Profile {
	force, forced := getenv("FORCE_COLOR"), getenv("CLICOLOR_FORCE")
	told := terminalProfile(getenv)
	switch {
	case getenv("NO_COLOR") != "":
		return NoColour
	case force == "0" || force == "false":
		return NoColour
	case force == "1" || force == "2" || force == "3":
		return Profile(force[0] - '0')
	case force != "" || forced != "" && forced != "0":
		return max(told, Ansi16)
	case getenv("CLICOLOR") == "0":
		return NoColour
	}
	return told
}

// terminalProfile is what the terminal says of itself.
func terminalProfile(getenv func(string) string) Profile {
	term := strings.ToLower(getenv("TERM"))
	depth := strings.ToLower(getenv("COLORTERM"))
	switch {
	case term == "dumb":
		return NoColour
	case depth == "truecolor" || depth == "24bit" || getenv("WT_SESSION") != "" || strings.HasSuffix(term, "-direct"):
		return TrueColour
	case strings.Contains(term, "256color"):
		return Indexed
	case term == "":
		return NoColour
	}
	return Ansi16
}

// WantsASCII tells whether block glyphs cannot be trusted: no UTF-8 in the locale, or a locale in which
// ambiguous glyphs may take two cells. Someone who has measured the terminal knows better and need not ask.
func WantsASCII(getenv func(string) string) bool {
	if getenv("WT_SESSION") != "" {
		return false
	}
	locale := ""
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if locale = strings.ToLower(getenv(name)); locale != "" {
			break
		}
	}
	if slices.ContainsFunc([]string{"ja", "zh", "ko"}, func(wide string) bool { return strings.HasPrefix(locale, wide) }) {
		return true
	}
	return strings.ToLower(getenv("TERM")) == "dumb" || !strings.Contains(strings.ReplaceAll(locale, "-", ""), "utf8")
}

// termenvProfile is the same thing in the words of the library under lipgloss.
func (p Profile) termenvProfile() termenv.Profile {
	switch p {
	case TrueColour:
		return termenv.TrueColor
	case Indexed:
		return termenv.ANSI256
	case Ansi16:
		return termenv.ANSI
	}
	return termenv.Ascii
}
