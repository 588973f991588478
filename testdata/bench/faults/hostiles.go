package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"example.org/vatside/testdata/bench/days"
	"example.org/vatside/testdata/bench/internal/apart"
)

// payload is what must never reach a terminal as it is: it sets the clipboard, colours, clears and turns text round.
const payload = "\x1b]52;c;SE9TVElMRQ==\x07\x1b[31m\x1b[2Jx\u009b31mx\u202eevil\u2066x\rx\bx"

// raw finds what a terminal would obey in text that is no screen: controls other than the line feed, C1, bidi overrides.
func raw(text string) string {
	for i, r := range text {
		switch {
		case r == '\n':
		case r == '\r' && strings.HasPrefix(text[i:], "\r\n"):
		case r == '\t':
		case unicode.IsControl(r), r >= '\u202a' && r <= '\u202e', r >= '\u2066' && r <= '\u2069', r == '\u200e', r == '\u200f', r == '\u061c':
			return fmt.Sprintf("%U in %s", r, plainly(text[max(0, i-30):min(len(text), i+30)]))
		}
	}
	if i := strings.Index("\n"+text, "\nFORGED"); i >= 0 {
		return "a line of its own made out of a text"
	}
	return ""
}

// own are the sequences that the screens may use: colours, cursor, modes, clearing, and a title without controls in it.
var own = regexp.MustCompile(`\x1b\[[0-9;:?>=]*[@-~]|\x1b\][012];[^\x00-\x1f\x7f-\x{9f}]*(?:\x07|\x1b\\)|\x1b\]1[01];\?(?:\x07|\x1b\\)|\x1b[78=>]|\x1b\([B0]|[\r\n\x07\x08\t]`)

// hostiles puts hostile text wherever text can come in.
func hostiles(b *bench) {
	b.row("hostile text in a day, through all commands", b.hostileDays)
	b.row("hostile text in arguments and typed lines", b.hostileWords)
	b.row("hostile names of folders and files", b.hostileNames)
	b.row("pipes, devices and monstrous files as days", b.strangeFiles)
	b.row("hostile text in a day, through all screens", b.hostileScreens)
}

// hostileDays has it in every free text of a day.
func (b *bench) hostileDays(r *row) {
	apart.Together(2, days.Hostile(), func(text string) {
		for _, all := range []bool{false, true} {
			h, p := b.library()
			p.Tag += unquoted(text)
			h.put(h.vat, h.day, days.WithText(apart.Day("soda-bin"), text, all))
			for _, l := range append(p.Commands(), []string{"--plain", "--home", h.dir}) {
				a := b.ask(h, l, "v\nblue\nbench\nq\n")
				b.clean(r, a, "vatside "+strings.Join(l[:len(l)-2], " "))
			}
		}
	})
}

// unquoted is what a TOML string of ours holds.
func unquoted(s string) string {
	return strings.NewReplacer(`\u001b`, "\x1b", `\u0007`, "\a", `\u009b`, "\u009b", `\u202E`, "\u202e", `\u2066`, "\u2066", `\n`, "\n").Replace(s)
}

// clean tells of what is raw in an answer.
func (b *bench) clean(r *row, a answer, what string) {
	r.count(1, 0)
	what = plainly(what)
	for name, text := range map[string]string{"stdout": a.out, "stderr": a.errs} {
		if w := raw(text); w != "" {
			r.bad("%s: %s has %s", what, name, w)
		}
	}
	if a.code != 2 { // wrong usage is what some of this is
		r.sound(a, what+": ")
	}
}

// hostileWords has it in every argument.
func (b *bench) hostileWords(r *row) {
	h, p := b.library()
	x := payload
	for _, l := range [][]string{
		{x}, {"--" + x}, {"help", x}, {"book", x}, {"book", x + "/" + x}, {"book", p.Vat + "/" + x}, {"book", x, "--json"}, {"book", "export", "--csv", x},
		{"book", "import", "--csv", x}, {"book", "verify", x}, {"care", "--vat", x}, {"sheet", x}, {"sheet", p.Vat, "--what", x}, {"sheet", p.Vat, "--format", x},
		{"sheet", p.Vat, "--units", x}, {"sheet", "--recipe", "soda", "--fill", "60L", "--piece", x + "=420 g linen, dark"}, {"sheet", p.Vat, "-o", "/" + x + "/a.txt"},
		{"cost", x}, {"cost", p.Vat, "--piece", x}, {"cost", p.Vat, "--hour", x}, {"like", "--lab", x}, {"like", "--piece", x}, {"like", "--lab", "31,-3,-20", "--fibre", x},
		{"signs", "--vat", x, "--seen", "blue"}, {"signs", "--vat", p.Vat, "--seen", x}, {"signs", "--recipe", x, "--fill", "60L", "--seen", "blue"},
		{"finish", "--piece", x, "--vat", p.Vat}, {"finish", "--piece", "420 g linen", "--family", x}, {"prepare", "--piece", x}, {"prepare", "--piece", "420 g linen", "--ready-by", x},
		{"prepare", "--piece", "420 g linen", "--water", x}, {"stock", "add", "--material", x, "--mass", "500g"}, {"stock", "weigh", x, "412g"}, {"stock", "weigh", "T1", x},
		{"stock", "gone", x}, {"stock", "test", "T1", "--turned", x}, {"stock", "open", x}, {"recipes", "show", x}, {"recipes", "check", x}, {"weigh", "--recipe", x, "--fill", "60L"},
		{"weigh", "--recipe", "soda", "--fill", x}, {"weigh", "--recipe", "soda", "--have", x + "=38 g"}, {"warm", "--fill", x, "--cold", "12C", "--hot", "60C", "--aim", "40C"},
		{"dips", "--recipe", "soda", "--fill", "60L", "--piece", "420 g linen", "--depth", x}, {"dips", "--recipe", "soda", "--fill", "60L", "--piece", x, "--depth", "dark"},
		{"load", x, "--recipe", "soda", "--fill", "60L"}, {"reckon", x}, {"reckon", "ph", "--alkali", x}, {"reckon", "dose", "--recipe", x}, {"rehearse", "--speed", x},
		{"rehearse", "--kept", "--recipe", x}, {"rehearse", "--kept", "--begin", x},
	} {
		a := b.ask(h, append(l, "--home", h.dir), "")
		b.clean(r, a, "vatside "+strings.Join(l, " "))
	}
	// Lines that are typed in the plain mode, and what the book then says of them.
	h = b.home()
	h.open("soda-bin", "note", 0)
	typed := ""
	for _, l := range []string{"note ", "p ", "look A1 ", "give ", "signs ", "s ", "hot ", "went ", "place ", "crock ", "blue ", "rinsed ", "leave A1 ", "cut L1 3 ", ""} {
		typed += l + strings.NewReplacer("\r", "").Replace(x) + "\n"
	}
	b.clean(r, b.ask(h, []string{"--plain", "--home", h.dir}, typed+"p "+strings.ReplaceAll(x, "\r", "")+" linen 420 g dark\nq\n"), "typed lines")
	b.clean(r, b.ask(h, []string{"book", "--home", h.dir}, ""), "the book of typed lines")
	b.clean(r, b.ask(b.home(), []string{"--plain", "--home", h.dir + "2"}, "1\n1\n75\n\n\nname "+strings.ReplaceAll(x, "\r", "")+"\n\nq\n"), "the name of a new vat")
}

// hostileNames has it in the names of folders and files, and in the files beside the days.
func (b *bench) hostileNames(r *row) {
	x := strings.NewReplacer("/", "-", "\r", "").Replace(payload)
	h := b.home()
	h.dir = filepath.Join(h.dir, x)
	h.vat, h.day = "garden-bin", "2026-05-09"
	p := days.Place{Home: h.dir, Vat: h.vat, Day: h.day, Tag: "A1", Out: filepath.Join(h.temp, "out")}
	h.put(h.vat, h.day, apart.Day("soda-bin"))
	h.put(h.vat, h.day+x, apart.Day("soda-bin"))
	h.put(h.vat, "2026-05-10", []byte("no day\n"))
	h.put(h.vat+x, h.day, apart.Day("soda-bin"))
	recipe := filepath.Join(h.dir, "recipes", "own"+x+".toml")
	apart.Write(recipe, []byte("format = 1\nid = \""+`x\u001b]52;c;SE9T\u0007`+"\"\nname = 3\n"))
	apart.Write(filepath.Join(h.dir, "settings.toml"), []byte("units = \""+`\u001b]52;c;SE9T\u0007`+"\"\n"))
	apart.Write(filepath.Join(h.dir, "stock.toml"), []byte("format = \""+`\u001b[2J\u202E`+"\"\n"))
	last := [][]string{{"recipes", "check", recipe}, {"--home", h.dir, "--plain"}}
	for _, l := range slices.Concat(p.Commands(), days.Others(h.dir), last) {
		b.clean(r, b.ask(h, l, ""), "vatside "+strings.Join(l[:max(0, len(l)-2)], " "))
	}
}

// hostileScreens walks all screens of days with it.
func (b *bench) hostileScreens(r *row) {
	texts := days.Hostile()
	if b.short {
		texts = []string{strings.Join(texts, "")}
	}
	apart.Together(2, texts, func(text string) {
		for i, upto := range []string{"note", "dip begun", "closed"} {
			h := b.home()
			h.open("soda-bin", upto, 0)
			h.put(h.vat, h.day, days.WithText(apart.Got(os.ReadFile(h.file())), text, i == 0 && !b.short))
			b.walk(r, h, "text "+text, func(s *seat) {
				rest := own.ReplaceAllString(s.Raw(), "")
				if w := raw(rest); w != "" {
					r.bad("text %s: the screens wrote %s", text, w)
				}
				for _, foreign := range []string{"\x1b]52;", "\x1b[31m\x1b[2J"} {
					if strings.Contains(s.Raw(), foreign) {
						r.bad("text %s: the screens wrote %q", text, foreign)
					}
				}
			})
		}
	})
}
