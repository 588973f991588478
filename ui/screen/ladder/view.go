package ladder

import (
	"fmt"
	"strings"

	"example.org/vatside/model/outlook"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// tallest is up to how many rows of cloth a rung has, as a part of the window, and letters what the act in big letters may
// take more than in plain ones.
const tallest = 3

func letters(height int) int { return min(max(2, height/8), 8) }

// View draws the ladder.
func (s Screen) View(env screen.Env) widget.Sheet {
	v, ok := env.Day()
	if !ok {
		return widget.Sheet{Act: "This day is not open"}
	}
	b := s.blue(v)
	sheet := widget.Sheet{Head: screen.HeadOf(v, ""), Foot: screen.Foot(v, env)[:1]}
	rungs := s.rungs(v, b)
	hand := s.hand(rungs)
	var patches []widget.Patch
	for _, r := range rungs {
		cloth := cloth(r)
		if r.No == hand {
			sheet.Act, sheet.Aside = name(s.from, r), told(r, cloth)
		}
		patches = append(patches, widget.Patch{Cloth: cloth, Chosen: r.No == hand, Says: []string{fmt.Sprint(r.No), fmt.Sprintf("%.0f%s", r.Lab.L, r.Known.Mark()), cloth.Name}})
	}
	sheet.ActBig = len(rungs) > 0
	switch {
	case s.typing.On() && s.typing.What == "fibre":
		sheet.Act, sheet.Aside, sheet.ActBig = "A new ladder", "", false
	case s.typing.On():
	case len(rungs) == 0 && s.from == "":
		sheet.Act = "No ladder yet"
		sheet.How = []string{
			fmt.Sprintf("A strip of %s, %d dips of %d min: after each one rung is cut off, rinsed, dried, ironed and judged here.", usual(v.State), newDips, newMinutes),
			"Three rungs make the forecasts of this vat sharp.",
		}
		if len(sources(v, b)) > 1 {
			sheet.How = append(sheet.How, "Or judge a strip cut off a piece's hem: right.")
		}
		sheet.Next, sheet.Answers = "enter: a new ladder", []string{"enter: a new ladder"}
	default:
		sheet.How = []string{"Judge it rinsed, dry, ironed, in daylight: Enter."}
		sheet.Why = why(b)
	}
	if rough := screen.FewColours(env.Style); rough != "" && len(rungs) > 0 {
		sheet.Why = strings.TrimSpace(rough + " " + sheet.Why)
	}
	if s.typing.On() {
		sheet.Why = ""
	}
	room := sheet
	room.ActBig = false
	columns, rows := env.Room(room)
	var entry []string
	if s.typing.On() {
		entry = s.typing.Lines(env)
		if len(rungs) > 0 {
			entry = append([]string{""}, entry...)
		}
	}
	if len(rungs) > 0 {
		said := len(widget.Patches(patches, columns, 1, env.Style).Lines) - 1
		left := rows - said - len(entry) - letters(env.Height)
		sheet.Add(widget.Patches(patches, columns, min(max(left, 1), env.Height/tallest), env.Style))
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

// told is what is known of a rung, in a few words.
func told(r outlook.Rung, c style.Shade) string {
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
		return "By these the forecasts of this vat are sharp."
	}
	n := 0
	for _, r := range b.Rungs {
		if r.Looks != "" {
			n++
		}
	}
	switch {
	case n == 0:
		return "None is judged: every forecast is a guess."
	case n == 1:
		return "One is judged: the forecasts are still a guess."
	}
	return fmt.Sprintf("%d are judged: the forecasts are still a guess.", n)
}
