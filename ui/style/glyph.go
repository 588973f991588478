package style

import "strings"

// Glyphs is the whole set of drawing characters, each one cell wide.
type Glyphs struct {
	Full, Upper, Lower string // blocks; ASCII has no half blocks, its big letters use whole cells
	Left, Right        string // half blocks, for walls
	Blank              string
	Light              string // the three shades
	Medium             string
	Dark               string
	Done, Open, Coming string // a ladder's cells: ■ ▣ ·
	Dot                string // between two facts of one line
	Ellipsis           string // may be more than one cell in ASCII
	ASCII              bool
	Heavy              bool // the heavier cut of the big letters, for the sun
}

// Blocks is the set for a terminal that shows one cell for each.
var Blocks = Glyphs{
	Full: "█", Upper: "▀", Lower: "▄", Left: "▌", Right: "▐", Blank: " ", Light: "░", Medium: "▒", Dark: "▓",
	Done: "■", Open: "▣", Coming: "·", Dot: "·", Ellipsis: "…",
}

// ASCII is the twin of Blocks.
var ASCII = Glyphs{
	Full: "#", Upper: "\"", Lower: "_", Left: "|", Right: "|", Blank: " ", Light: ".", Medium: "+", Dark: "%",
	Done: "#", Open: "O", Coming: ".", Dot: "-", Ellipsis: "..", ASCII: true,
}

// twins translates what sentences carry. A degree sign before a scale's letter is only left out.
var twins = strings.NewReplacer(
	"°C", "C", "°F", "F", "°", " deg", "–", "-", "—", "-", "−", "-", "·", "-", "≈", "~", "×", "x", "µ", "u", "μ", "u",
	"…", "..", "½", "1/2", "¼", "1/4", "¾", "3/4", "±", "+-", "≤", "<=", "≥", ">=", "→", "->", "←", "<-", "↑", "up", "↓", "down",
	"’", "'", "‘", "'", "“", "\"", "”", "\"", "²", "2", "³", "3", "₂", "2", "₃", "3", "₄", "4", "Δ", "d", "\u00a0", "\u00a0",
	"█", "#", "▀", "\"", "▄", "_", "▌", "|", "▐", "|", "░", ".", "▒", "+", "▓", "%", "■", "#", "▣", "O",
	"ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss", "é", "e", "è", "e", "à", "a", "ô", "o", "ñ", "n", "ç", "c",
)

// Text puts a sentence into this set: unchanged with blocks, in plain ASCII with the twin (what has no
// twin becomes a question mark). The no-break space is kept: who wraps lines turns it into a space.
func (g Glyphs) Text(s string) string {
	if !g.ASCII {
		return s
	}
	s = twins.Replace(s)
	return strings.Map(func(r rune) rune {
		if r < 128 || r == '\u00a0' {
			return r
		}
		return '?'
	}, s)
}
