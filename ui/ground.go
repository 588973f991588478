package ui

import (
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/lucasb-eyer/go-colorful"

	"example.org/vatside/ui/style"
)

// The ground that the screens are drawn on:
//   - a theme that the dyer chose paints its own;
//   - else it is the terminal's, as it answered, in this run or an earlier one (shelf.Grounds);
//   - else as COLORFGBG says;
//   - else it is painted, light: there is no ink on an unknown ground.
//
// The terminal is asked after the first frame. An answer in time counts at once, a late one from the next start.

// styleOptions are those of a setting of the theme and an environment. answered is what the terminal said of its ground; nil:
// nothing.
func styleOptions(theme string, getenv func(string) string, answered *groundMsg) style.Options {
	o := style.Options{Profile: style.ProfileOf(getenv), ASCII: style.WantsASCII(getenv)}
	switch {
	case chosen(theme):
		o.Theme, o.PaintGround = style.Theme(theme), true
		return o
	case answered != nil:
		return o.OnGround(colorful.Color{R: part(answered.R), G: part(answered.G), B: part(answered.B)})
	}
	if on, ok := o.OnNumber(groundNumber(getenv("COLORFGBG"))); ok {
		return on
	}
	return o.OnUnknownGround()
}

// chosen tells whether a setting names a theme; else the terminal's ground decides.
func chosen(theme string) bool {
	switch style.Theme(theme) {
	case style.DarkTheme, style.LightTheme, style.SunTheme:
		return true
	}
	return false
}

// asksGround tells whether the terminal is to be asked for its ground: not where a theme was chosen, nor where no colours are
// written.
func asksGround(theme string, getenv func(string) string) bool {
	return !chosen(theme) && style.ProfileOf(getenv) != style.NoColour
}

// part is one part of a colour, 0 to 1.
func part(v uint16) float64 { return float64(v) / 0xffff }

// groundNumber is the number of the ground's colour in COLORFGBG: "15;0", or "0;default;15" as rxvt has it. -1: it says none.
func groundNumber(fgbg string) int {
	number := fgbg[strings.LastIndexByte(fgbg, ';')+1:]
	if n, err := strconv.Atoi(number); err == nil && number != fgbg && strconv.Itoa(n) == number {
		return n
	}
	return -1
}

// What tells terminals and their profiles apart. Of what is another in each window or at each start only whether it is there.
var (
	terminalValues = []string{
		"TERM", "COLORTERM", "COLORFGBG", "TERM_PROGRAM", "LC_TERMINAL", "TERMINAL_EMULATOR", "TERMINAL_NAME", "VTE_VERSION", "XTERM_VERSION",
		"KONSOLE_VERSION", "KONSOLE_PROFILE_NAME", "ITERM_PROFILE", "WT_PROFILE_ID",
	}
	terminalPresent = []string{
		"WT_SESSION", "KITTY_WINDOW_ID", "ALACRITTY_WINDOW_ID", "ALACRITTY_SOCKET", "WEZTERM_PANE", "GNOME_TERMINAL_SCREEN", "TERMINATOR_UUID", "TILIX_ID",
		"GHOSTTY_RESOURCES_DIR", "ConEmuPID", "TMUX", "STY", "SSH_CONNECTION", "SSH_TTY",
	}
)

// terminalName is what a terminal is called in the memory of grounds: the same at each start, another for each profile that
// the environment tells of.
func terminalName(getenv func(string) string) string {
	var b strings.Builder
	for _, name := range terminalValues {
		b.WriteString(name + "=" + getenv(name) + "\x00")
	}
	for _, name := range terminalPresent {
		b.WriteString(name + "=" + strconv.FormatBool(getenv(name) != "") + "\x00")
	}
	return b.String()
}

// restyled is the model in the style of its settings and of what is known of the terminal.
func (m model) restyled() model {
	if o := styleOptions(m.home.Settings.Theme, m.getenv, m.ground); o != m.styled || m.style.Theme == "" {
		m.style, m.styled = style.New(o), o
	}
	return m
}

// grounded takes the terminal's answer.
func (m model) grounded(g groundMsg) (model, tea.Cmd) {
	keep := m.effects.keepGround(terminalName(m.getenv), g)
	if !g.Late {
		m.ground = &g
		m = m.restyled()
	}
	return m, keep
}

// keepGround remembers the answer for the next start. One that cannot be kept is no matter: the terminal is asked again.
func (h effects) keepGround(name string, g groundMsg) tea.Cmd {
	return func() tea.Msg {
		_ = h.grounds.Keep(name, g)
		return nil
	}
}
