package plain

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
)

// led is a word that leads through questions. word is what the line of the whole begins with; before tells what they go by.
type led struct {
	word   string
	before func(*Terminal, engine.View)
	ask    form
}

// forms are the words that lead through questions.
var forms = map[string]led{
	"piece": {"piece", nil, askPiece}, "p": {"piece", nil, askPiece}, "add piece": {"piece", nil, askPiece},
	"plan": {"plan", tellBlues, askPlan}, "planner": {"plan", tellBlues, askPlan},
	"look": {"look", nil, askLook}, "ladder": {"cut", tellLadder, askLadder}, "read": {"read", nil, askReading},
	"signs": {"signs", nil, askSigns}, "u": {"signs", nil, askSigns},
	"give": {"give", nil, askDose}, "dose": {"give", nil, askDose},
	"class": {"piece", func(t *Terminal, v engine.View) { t.tells(v, answer.Row{ID: "timetable"}, answer.Line{}) }, askPupil},
}

func tellBlues(t *Terminal, v engine.View) { t.blues(v, "") }

// tags are the tags of some of the day's pieces.
func tags(s day.State, is func(day.Piece) bool) []string {
	return wording.Some(s.Pieces, func(p day.Piece) (string, bool) { return p.Tag, p.Phase != day.Dropped && is(p) })
}

func dipped(p day.Piece) bool { return p.Dips > 0 }

// depths are the names of the depths, from pale to dark.
func depths() []string {
	return wording.Each(shade.Depths(), func(d shade.Depth) string { return d.Name })
}

// askPiece asks for a piece. What is typed at once is taken at once.
func askPiece(v engine.View, got []string) (q question, line string) {
	sys := v.State.Head.Setup.System()
	switch len(got) {
	case 0:
		next := library.FreeTag(v.State)
		return question{words: "Which tag does the piece get? Enter: " + next + ". Or all of it in one line: " + next + " linen 420 g dark.", none: next,
			check: func(s string) error {
				tag, _, err := answer.Piece(s, sys)
				if _, there := v.State.Piece(cmp.Or(tag, s)); there {
					return fmt.Errorf("%s is on the list already", cmp.Or(tag, s))
				}
				if err == nil {
					_, err = adds(v.State, s, v.Now)
					return err
				}
				if !strings.Contains(s, " ") {
					return nil
				}
				return errors.New("a tag is one word, such as " + next)
			},
			line: func(s string) bool { _, _, err := answer.Piece(s, sys); return err == nil }}, ""
	case 1:
		return question{words: "Which fibre?", of: wording.Each(fibre.All(), fibre.Fibre.String)}, ""
	case 2:
		return question{words: "How heavy is it, dry? Such as 420 g.", check: func(s string) error {
			_, err := quantity.ParseMass(s, sys)
			if err == nil {
				_, err = adds(v.State, strings.Join(got, " ")+" "+s+" 1 dip", v.Now)
			}
			return err
		}}, ""
	case 3:
		return question{words: "How dark shall it be? Or type a number of dips, 5 dips, or rung 4.", of: depths(), open: true, check: func(s string) error {
			_, spec, err := answer.Piece("A1 linen 1 g "+s, sys)
			if err == nil && spec.Depth != "" {
				_, err = shade.ByName(spec.Depth)
			}
			return err
		}}, ""
	}
	return q, "piece " + strings.Join(got, " ")
}

// askPupil asks for a piece of a class: also whose it is, and till when that person stays.
func askPupil(v engine.View, got []string) (q question, line string) {
	if len(got) < 4 {
		return askPiece(v, got)
	}
	line = "piece " + strings.Join(got[:4], " ")
	switch {
	case len(got) == 4:
		return question{words: "Whose is it? Such as Mo. Enter: nobody's.", none: " "}, ""
	case got[4] == " ":
		return q, line
	case len(got) == 5:
		return question{words: "Till when does " + got[4] + " stay? Such as 15:00. Enter: to the end.", none: " ", check: func(s string) error {
			if _, err := time.Parse("15:04", s); err != nil {
				return errors.New("type a time of day, such as 15:00")
			}
			_, err := adds(v.State, strings.Join(got[:4], " ")+" for "+got[4]+" till "+s, v.Now)
			return err
		}}, ""
	case got[5] == " ":
		return q, line + " for " + got[4]
	}
	return q, line + " for " + got[4] + " till " + got[5]
}

// askPlan asks for another number of dips.
func askPlan(v engine.View, got []string) (q question, line string) {
	switch len(got) {
	case 0:
		live := tags(v.State, day.Piece.Live)
		if len(live) == 0 {
			return q, ""
		}
		return question{words: "Which piece gets another number of dips? Enter: none.", of: live, none: " "}, ""
	case 1:
		if got[0] == " " {
			return q, ""
		}
		return question{words: "How many dips for " + got[0] + "?", check: countOf(1, shade.MostDips, "dips")}, ""
	}
	return q, "plan " + got[0] + " " + got[1] + " dips"
}

// countOf reads a whole number between two.
func countOf(least, most int, what string) func(string) error {
	return func(s string) error {
		if n, err := strconv.Atoi(s); err != nil || n < least || n > most {
			return fmt.Errorf("type how many %s, %d to %d", what, least, most)
		}
		return nil
	}
}

// checkLook reads what a piece looks like.
func checkLook(s string) error { _, err := day.ParseLook(s); return err }

// askLook asks for what a piece looks like, or answers the look that is asked for.
func askLook(v engine.View, got []string) (q question, line string) {
	if c, ok := v.Look(); ok && (len(got) == 0 || got[0] == day.LookStop || got[0] == day.LookMore || got[0] == day.LookPlanned) {
		tag := c.Act.Piece.Tag
		if len(got) == 1 {
			return q, got[0] + " " + tag
		}
		as := c.Act.Piece.LookSays()
		return question{words: "Has " + tag + " enough?", of: []string{"it has enough, no more dips", "one dip more", "as planned"}[:len(as)], as: as}, ""
	}
	switch all := tags(v.State, dipped); {
	case len(got) == 0 && len(all) == 0:
		return q, ""
	case len(got) == 0:
		return question{words: "Which piece do you look at?", of: all}, ""
	case len(got) == 1:
		return question{words: "Is it wet, dry or rinsed?", of: []string{"wet", "dry", "rinsed"}}, ""
	case len(got) == 2:
		return question{words: "What does " + got[0] + " look like? Or type rung 4, lab 31 -3 -20, or #2a3b5c.", of: depths(), open: true, check: checkLook}, ""
	}
	return q, "look " + strings.Join(got, " ")
}

// tellLadder tells of each rung what it was judged to be.
func tellLadder(t *Terminal, v engine.View) {
	n := 0
	for _, x := range v.State.Samples() {
		if x.Strip {
			t.say("%s, %d dips: %s.", x.Tag, x.Dips, x.Looks)
			n++
		}
	}
	if n == 0 {
		t.say("No rung is judged yet.")
	}
}

// askLadder asks for a new ladder, or for what a rung looks like.
func askLadder(v engine.View, got []string) (q question, line string) {
	all := tags(v.State, dipped)
	if len(got) > 0 && got[0] == "new" || len(got) == 0 && len(all) == 0 {
		if len(got) == 2 {
			return q, "new ladder " + got[1]
		}
		if len(got) == 0 {
			return question{words: "Begin a new ladder? It gets 8 dips of 5 min. Enter: no.", of: []string{"a new ladder"}, as: []string{"new"}, none: " "}, ""
		}
		return question{words: "Of which cloth? Such as cotton.", check: func(s string) error { _, err := fibre.Parse(s); return err }}, ""
	}
	switch len(got) {
	case 0:
		return question{words: "Of which piece is a strip to be judged? Enter: none.", of: append(slices.Clone(all), "a new ladder"), as: append(slices.Clone(all), "new"), none: " "}, ""
	case 1:
		if got[0] == " " {
			return q, ""
		}
		return question{words: "After which dip was the strip cut off?", check: countOf(1, shade.MostDips, "dips it had")}, ""
	case 2:
		return question{words: "How does it look, rinsed, dry and ironed? Or type lab 50 -4 -21, #567c9b or ks 5.", of: depths(), open: true, check: checkLook}, ""
	}
	return q, "cut " + strings.Join(got, " ")
}

// askSigns asks what is seen, place by place; while a treatment works it asks whether it did.
func askSigns(v engine.View, got []string) (q question, line string) {
	if v.State.Treating != nil {
		if len(got) == 1 {
			return q, got[0]
		}
		return question{words: "What is the vat now, after the treatment?", of: []string{"better", "the same", "worse"}, as: []string{"better", "same", "worse"}}, ""
	}
	if len(got) < len(answer.Looked) {
		words := wording.Some(signs.All(), func(s signs.Sign) (string, bool) {
			return s.Words, slices.Contains(answer.Looked[len(got)].Of, s.Group)
		})
		return question{words: answer.Looked[len(got)].Asks + " One figure or several; Enter: nothing of these.", of: words, many: len(got) > 0, none: " "}, ""
	}
	seen := slices.DeleteFunc(slices.Clone(got), func(s string) bool { return s == " " })
	return q, strings.TrimSpace("saw " + strings.Join(seen, ", "))
}

// askReading asks for what was read.
func askReading(v engine.View, got []string) (q question, line string) {
	sys := v.State.Head.Setup.System()
	if len(got) == 0 {
		return question{words: "What was read?", of: []string{"temperature", "pH", "a strip", "how full it is"}, as: []string{"temp", "ph", "strip", "level"}}, ""
	}
	if len(got) == 2 {
		return q, strings.Join(got, " ")
	}
	switch got[0] {
	case "temp":
		return question{words: "What does the thermometer show, in " + sys.DegreeUnit() + "?", check: func(s string) error { _, err := answer.Temperature(s, sys); return err }}, ""
	case "ph":
		return question{words: "What is the pH? With the temperature of the sample behind it, if that is not the vat's: 10.4 25.", check: func(s string) error { _, err := answer.PHReading(s, sys); return err }}, ""
	case "strip":
		return question{words: "For how many seconds did the strip stay yellow?", check: func(s string) error { _, err := answer.Strip(s, sys); return err }}, ""
	}
	return question{words: "How far is the liquor below the rim, or how much is it? Such as 12 cm, or 28 L.", check: func(s string) error { _, err := answer.Level(v.State, s); return err }}, ""
}

// askDose asks what went into the vat.
func askDose(v engine.View, got []string) (q question, line string) {
	sys := v.State.Head.Setup.System()
	switch len(got) {
	case 0:
		all := v.State.Head.Recipe.Powders
		ids := wording.Each(all, func(p recipe.Powder) string { return p.ID })
		return question{words: "Which powder?", of: wording.Each(all, func(p recipe.Powder) string { return p.Material }), as: ids}, ""
	case 1:
		return question{words: "How much of it goes in?", check: func(s string) error { _, err := answer.Mass(s, sys); return err }}, ""
	}
	return q, "give " + got[0] + " " + got[1]
}
