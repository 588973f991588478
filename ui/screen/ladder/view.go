package ladder

import (
	"fmt"
	"strings"

	"example.org/vatside/model/outlook"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// tallest is how many hundredths of the window's rows the cloth of a rung has at most.
const tallest = 45

// View draws the ladder: its rungs side by side, under them the one in hand.
func (s Screen) View(env screen.Env) widget.Sheet {
	v, _ := env.Day()
	b := s.blue(v)
	sheet := widget.Sheet{Head: screen.HeadOf(v, "the ladder"), BodyTop: true}
	rungs := s.rungs(v, b)
	hand := s.hand(rungs)
	var patches []widget.Patch
	told := ""
	for _, r := range rungs {
		cloth := cloth(r)
		if r.No == hand {
			sheet.Act, told = name(s.from, r), said(r, cloth)
		}
		patches = append(patches, widget.Patch{Cloth: cloth, Chosen: r.No == hand, Says: []string{fmt.Sprint(r.No), fmt.Sprintf("%.0f%s", r.Lab.L, r.Known.Mark()), cloth.Name}})
	}
	sheet.ActBig = true
	switch {
	case s.typing.On() && s.typing.What == "fibre":
		sheet.Act = "A new ladder"
	case s.typing.On():
	case len(rungs) == 0 && s.from == "":
		sheet.Act = "No ladder yet"
		sheet.How = []string{
			fmt.Sprintf("A strip of %s, %d dips of %d min: after each dip one rung is cut off, rinsed, dried, ironed and judged here.", answer.LadderCloth(v.State), s.strip(v), outlook.StripMinutes),
			"Three rungs narrow the forecasts of this vat.",
		}
		if len(sources(v, b)) > 1 {
			sheet.How = append(sheet.How, "→: judge a strip cut off a piece's hem.")
		}
		sheet.Next, sheet.Answers = "enter: a new ladder", []string{"enter: a new ladder"}
	default:
		sheet.How = []string{told, "Judge it rinsed, dry, ironed, in daylight: Enter."}
		sheet.Why = why(b)
	}
	if rough := screen.FewColours(env.Style); rough != "" && len(rungs) > 0 {
		sheet.Why = strings.TrimSpace(rough + " " + sheet.Why)
	}
	if s.typing.On() {
		sheet.Why = ""
	}
	if len(rungs) == 0 && s.from == "" { // what is to come
		for n := 1; n <= s.strip(v); n++ {
			cloth := screen.ClothOf(n)
			patches = append(patches, widget.Patch{Cloth: cloth, Says: []string{fmt.Sprint(n), "usual", screen.CoarseName(cloth)}})
		}
	}
	columns, rows := env.Room(sheet)
	var entry []string
	if s.typing.On() {
		entry = append([]string{""}, s.typing.Lines(env)...)
	}
	if len(patches) > 0 {
		under := len(widget.Patches(patches, columns, 1, env.Style).Lines) - 1
		left := rows - under - len(entry)
		sheet.Add(widget.Patches(patches, columns, min(max(left, 1), env.Height*tallest/100), env.Style))
	}
	if len(rungs) == 0 {
		sheet.Spots = nil
	}
	if s.typing.On() { // the rung is chosen
		sheet.Spots = nil
	}
	sheet.Body = append(sheet.Body, entry...)
	return sheet
}

// cloth is the shade of a rung, under a name as sure as it is.
func cloth(r outlook.Rung) style.Shade {
	c := style.Dyed(r.Lab)
	if r.Known == outlook.Guessed {
		c.Name = screen.CoarseName(c)
	}
	return c
}

// name is what the rung is called.
func name(from string, r outlook.Rung) string {
	if from == "" {
		return fmt.Sprintf("RUNG %d", r.No)
	}
	return fmt.Sprintf("%s STRIP %d", from, r.No)
}

// said is what is known of a rung, in a few words.
func said(r outlook.Rung, c style.Shade) string {
	parts := []string{r.Known.String(), fmt.Sprintf("L* %.0f%s", r.Lab.L, r.Known.Mark()), c.Name}
	if r.Looks != "" {
		parts[0] = "judged " + r.Looks
	} else {
		parts[0] = "not judged, " + parts[0]
	}
	return strings.Join(parts, " · ")
}

// why is how sharp the forecasts are by now.
func why(b outlook.Blue) string {
	if !screen.IsGuess(b.Claim) {
		return "The forecasts of this vat go by these."
	}
	switch n := wording.Count(b.Rungs, func(r outlook.Rung) bool { return r.Looks != "" }); n {
	case 0:
		return "None is judged: every forecast is a guess."
	case 1:
		return "One is judged: the forecasts are still a guess."
	default:
		return fmt.Sprintf("%d are judged: the forecasts are still a guess.", n)
	}
}
