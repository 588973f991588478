package main

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

var (
	privateMode = regexp.MustCompile(`\x1b\[\?([\d;]+)([hl])`)
	colour      = regexp.MustCompile(`\x1b\[([\d;:]*)m`)
	scrolling   = regexp.MustCompile(`\x1b\[([\d;]*)r`)
	cursorShape = regexp.MustCompile(`\x1b\[(\d*) q`)
	keyboard    = regexp.MustCompile(`\x1b\[([<>=])(\d*)(?:;\d+)?u`)
	otherKeys   = regexp.MustCompile(`\x1b\[>4(?:;(\d+))?m`)
	keypad      = regexp.MustCompile(`\x1b([=>])`)
	titling     = regexp.MustCompile(`\x1b\](?:0|1|2);([^\x07\x1b]*)(?:\x07|\x1b\\)|\x1b\[(22|23)(?:;[012])?(?:;0)?t`)
)

// modeNames are the private modes by what a person calls them.
var modeNames = map[string]string{
	"1": "cursor keys of applications", "9": "mouse", "47": "alternate screen", "1047": "alternate screen", "1049": "alternate screen", "1000": "mouse",
	"1002": "mouse", "1003": "mouse", "1004": "reports of the focus", "1005": "mouse", "1006": "mouse", "1015": "mouse", "1016": "mouse",
	"2004": "bracketed paste", "2026": "a frame that is not closed", "2031": "reports of the theme", "2048": "reports of the size",
}

// leftIn is what a program left in its terminal: by the settings of the terminal and the emulator, and by all that it wrote.
func leftIn(s *seat) []string {
	left := append(s.Left(), leftBy(s.Raw())...)
	slices.Sort(left)
	return slices.Compact(left)
}

// leftBy is what an output leaves behind in a terminal that had nothing set.
func leftBy(out string) (left []string) {
	modes := map[string]bool{}
	for _, m := range privateMode.FindAllStringSubmatch(out, -1) {
		for mode := range strings.SplitSeq(m[1], ";") {
			modes[mode] = m[2] == "h"
		}
	}
	for mode, on := range modes {
		switch usual := mode == "25" || mode == "7"; {
		case on == usual:
		case mode == "25":
			left = append(left, "hidden cursor")
		case mode == "7":
			left = append(left, "lines that do not wrap")
		case modeNames[mode] != "":
			left = append(left, modeNames[mode])
		default:
			left = append(left, "mode "+mode)
		}
	}
	for what, re := range map[string]*regexp.Regexp{"colours": colour, "scrolling rows": scrolling, "shape of the cursor": cursorShape} {
		if all := re.FindAllStringSubmatch(out, -1); len(all) > 0 {
			if last := all[len(all)-1][1]; strings.Trim(last, "0;") != "" && !strings.HasSuffix(last, ";0") {
				left = append(left, what)
			}
		}
	}
	depth := 0
	for _, m := range keyboard.FindAllStringSubmatch(out, -1) {
		switch n, _ := strconv.Atoi(m[2]); m[1] {
		case ">":
			depth++
		case "<":
			depth = max(0, depth-max(1, n))
		}
	}
	if depth > 0 {
		left = append(left, "the kitty keyboard")
	}
	if all := otherKeys.FindAllStringSubmatch(out, -1); len(all) > 0 && strings.Trim(all[len(all)-1][1], "0") != "" {
		left = append(left, "modified keys")
	}
	if all := keypad.FindAllStringSubmatch(out, -1); len(all) > 0 && all[len(all)-1][1] == "=" {
		left = append(left, "keypad of applications")
	}
	title, kept := "", []string(nil)
	for _, m := range titling.FindAllStringSubmatch(out, -1) {
		switch {
		case m[2] == "22":
			kept = append(kept, title)
		case m[2] == "":
			title = m[1]
		case len(kept) > 0:
			title, kept = kept[len(kept)-1], kept[:len(kept)-1]
		}
	}
	if title != "" {
		left = append(left, "its title")
	}
	return left
}
