package style

// Theme names a set of tokens.
type Theme string

const (
	DarkTheme  Theme = "dark"
	LightTheme Theme = "light"
	SunTheme   Theme = "sun" // black on white and heavy digits: nothing else survives the open yard
)

// tokens are the meanings that a theme fills, as "#rrggbb"; ansi is the same for 16 colours, by number.
type tokens struct {
	text, dim, now, trouble, ground string
	tint                            string // a ground a little off the theme's
	ansiDim, ansiNow, ansiTrouble   string
	darkGround                      bool
}

// Orange and blue are Okabe and Ito's, which all kinds of colour vision tell apart. Their vermilion, #D55E00, is too faint for
// text on light grounds (3.7:1 on ours) and on dark grey ones (4.3:1 on #1E1E1E): these have its hue, and the lightness of the
// theme's other inks.
const (
	okabeOrange     = "#E69F00"
	okabeBlue       = "#0072B2"
	brightVermilion = "#EF6F2B"
	deepVermilion   = "#B34F00"
)

var themes = map[Theme]tokens{
	DarkTheme: {
		text: "#E8E4DA", dim: "#8F979F", now: okabeOrange, trouble: brightVermilion, ground: "#12161B", tint: "#2A333D",
		ansiDim: "7", ansiNow: "11", ansiTrouble: "9", darkGround: true,
	},
	LightTheme: {
		text: "#1B1F24", dim: "#626A72", now: okabeBlue, trouble: deepVermilion, ground: "#FBF9F4", tint: "#DDE3EA",
		ansiDim: "0", ansiNow: "4", ansiTrouble: "1",
	},
	SunTheme: {
		text: "#000000", dim: "#000000", now: "#000000", trouble: "#000000", ground: "#FFFFFF", tint: "#DDDDDD",
		ansiDim: "0", ansiNow: "0", ansiTrouble: "0",
	},
}

// inks are the tokens of text at a profile: the nearest of sixteen to each is not the readable one.
func (t tokens) inks(p Profile) (text, dim, now, trouble string) {
	if p == Ansi16 {
		return t.text, t.ansiDim, t.ansiNow, t.ansiTrouble
	}
	return t.text, t.dim, t.now, t.trouble
}
