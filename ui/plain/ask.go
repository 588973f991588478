package plain

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

// A Door is what is chosen where no day is open.
type Door int

// The doors. Gone: the input ended, or leave was typed.
const (
	Gone Door = iota
	NewVat
	Rehearsal
	Class // rehearsed
	OldVat
)

// Questions are what a new day needs to be asked.
type Questions struct {
	Vats     []string // that live
	All      []string // the names of all vats
	Recipes  []recipe.Recipe
	Settings shelf.Settings
	Now      time.Time
}

// Answers are what the dyer said: of a living vat its number in Vats, with End the way to its end; of a new one its setup, and the
// lines that put its goods on the list.
type Answers struct {
	Door   Door
	End    bool
	Vat    int
	Recipe int
	Setup  day.Setup
	Goods  []string
}

// Ask asks for a new day, one question a line.
func (t *Terminal) Ask(q Questions) Answers {
	rehearsals := []string{"a rehearsal: an invented day, sixty times as fast", "a class rehearsed: sixteen people at two vats, sixty times as fast"}
	t.say("No day is open. leave ends the program.")
	if len(q.Vats) > 0 {
		n, ok := t.choose("Which vat?", append(append(append([]string(nil), q.Vats...), "a new vat"), rehearsals...))
		switch {
		case !ok:
			return Answers{}
		case n > len(q.Vats):
			return Answers{Door: Rehearsal + Door(n-len(q.Vats)-1)}
		case n < len(q.Vats):
			what, ok := t.choose("What is the day for?", []string{"dyeing in it, or tending it", "ending it, or going on with its end"})
			if !ok {
				return Answers{}
			}
			return Answers{Door: OldVat, Vat: n, End: what == 1}
		}
		return t.newVat(q)
	}
	for {
		n, ok := t.choose("What do you want?", []string{"build a vat", rehearsals[0], "to hear what is here", rehearsals[1]}) // as home has them
		switch {
		case !ok:
			return Answers{}
		case n == 0:
			return t.newVat(q)
		case n == 1:
			return Answers{Door: Rehearsal}
		case n == 3:
			return Answers{Door: Class}
		}
		t.each("%s", library.WhatIsHere)
	}
}

// newVat asks the questions of a new vat, four, of a slow one five, then what of the rest is to be other than usual.
func (t *Terminal) newVat(q Questions) Answers {
	set := q.Settings
	sys := set.System()
	names := wording.Each(q.Recipes, func(r recipe.Recipe) string {
		_, protein := practice.ForProtein(r)
		return r.Name + ", for " + strings.Join(r.Fibres, ", ") + "; " + protein
	})
	a := Answers{Door: NewVat}
	var ok bool
	if a.Recipe, ok = t.choose("1 of 4. Which recipe?", names); !ok {
		return Answers{}
	}
	r, all := q.Recipes[a.Recipe], 4
	if library.Slow(r) {
		all++
	}
	a.Setup = day.Setup{Units: set.Units, Place: set.Place, Asks: true, Name: library.FreeName(q.All)}
	if !t.read(fmt.Sprintf("2 of %d. How many litres does the vessel hold, to the brim? Such as 20.", all), false, func(s string) (err error) {
		a.Setup.Vessel, a.Setup.Fill, err = library.VesselOf(s, sys)
		return err
	}) {
		return Answers{}
	}
	t.say("The vat gets %s of liquor; the rest of the vessel is left for the goods.", a.Setup.Fill.Format(sys))
	c, _ := set.Cold.Figure(sys)
	h, unit := set.Hot.Figure(sys)
	if !t.read(fmt.Sprintf("3 of %d. How warm are the cold and the hot water? Enter: %s %s %s. Or type both, such as 12 55.", all, c, h, unit), true, func(s string) (err error) {
		a.Setup.Cold, a.Setup.Hot, err = library.WatersOf(s, set)
		return err
	}) {
		return Answers{}
	}
	if library.Slow(r) {
		var ways []string
		for _, k := range library.Keepings {
			ways = append(ways, k.Word+": "+k.Says)
		}
		kept, ok := t.choose(fmt.Sprintf("4 of 5. It waits %s at %s and above. How is it kept warm, day and night?", r.Liquor.Ready, r.Liquor.Low.Format(sys)), ways)
		if !ok {
			return Answers{}
		}
		a.Setup.Kept = library.Keepings[kept].Kept
	}
	if !t.goods(&a, r, q, all) {
		return Answers{}
	}
	return t.rest(a, r, q)
}

// goods asks for the pieces, a line each; it is the last of all the questions.
func (t *Terminal) goods(a *Answers, r recipe.Recipe, q Questions, all int) bool {
	for words := fmt.Sprintf("%d of %d. Which goods? A piece a line: tag, fibre, dry weight and how dark, such as A1 linen 420 g dark. Enter: none yet.", all, all); ; words = "The next piece? Enter: no more." {
		none := false
		if !t.read(words, true, func(s string) error {
			if none = s == ""; none {
				return nil
			}
			more := *a
			more.Goods = append(slices.Clone(a.Goods), "piece "+s)
			err := q.takes(more, r)
			if err == nil {
				*a = more
			}
			return err
		}) {
			return false
		}
		if none {
			a.Setup.GoodsFirst = true
			if a.Setup.GoodsLater = len(a.Goods) == 0; !a.Setup.GoodsLater {
				a.Goods = append(a.Goods, "that is all")
			}
			return true
		}
	}
}

// takes tells why the day that the answers begin would not take its goods, nil where it would.
func (q Questions) takes(a Answers, r recipe.Recipe) error {
	s, err := day.Begin(day.Head{Setup: a.Setup, Recipe: r, Opening: day.Opening{Number: 1}})
	for _, line := range a.Goods {
		piece, is := strings.CutPrefix(line, "piece ")
		if err != nil || !is {
			return err
		}
		var tag string
		if tag, err = adds(s, piece, q.Now); err == nil {
			s.Pieces = append(s.Pieces, day.Piece{Tag: tag})
		}
	}
	return err
}

// adds is the tag of a piece that is typed as one line, and why the day would not take it.
func adds(s day.State, line string, now time.Time) (string, error) {
	tag, spec, err := answer.Piece(line, s.Head.Setup.System())
	if err != nil {
		return tag, err
	}
	if spec.Like != "" { // found in the book when the piece is added
		spec.Like, spec.Dips = "", 1
	}
	_, err = day.Decide(s, day.Answered{Command: day.AddPiece{Tag: tag, Spec: spec}}, now)
	return tag, err
}

// rest tells what the rest is, and takes what is to be other.
func (t *Terminal) rest(a Answers, r recipe.Recipe, q Questions) Answers {
	sys := q.Settings.System()
	for {
		amounts, err := recipe.Scale(r, a.Setup.Fill, recipe.Options{IndigoStrength: a.Setup.Strength})
		if err != nil {
			t.say("%s", wording.Sentence(err.Error()))
		}
		t.say("%s: %s, %s.", wording.Upper(a.Setup.Name), r.Name, a.Setup.Fill.Format(sys))
		for _, p := range amounts.Powders {
			t.say("  %s: %s.", p.Powder.Material, p.Grams.Scale(sys))
		}
		t.say("Where it stands, what the vessel is made of and who is there are asked before the first powder.")
		begin := false
		if !t.read("Enter begins. Or change it: name Blue pail; fill 15 L; vessel jug 5L=8.4cm 10L=16.1cm 36.8cm; strength 45%.", true, func(s string) error {
			begin = s == "" || strings.EqualFold(s, "yes")
			if begin {
				return nil
			}
			was := a.Setup
			err := change(&a.Setup, s, q, sys)
			if err == nil {
				_, err = recipe.Scale(r, a.Setup.Fill, recipe.Options{IndigoStrength: a.Setup.Strength})
			}
			if err == nil {
				err = q.takes(a, r)
			}
			if err != nil {
				a.Setup = was
			}
			return err
		}) {
			return Answers{}
		}
		if begin {
			return a
		}
	}
}

// change is one thing of a setup that is to be other than usual. With an error the setup is none.
func change(s *day.Setup, line string, q Questions, sys quantity.System) (err error) {
	word, rest, _ := strings.Cut(line, " ")
	rest = strings.TrimSpace(rest)
	switch strings.ToLower(word) {
	case "name":
		if s.Name = rest; rest == "" {
			return errors.New("type the name behind it: name Blue pail")
		}
		return library.NameTaken(rest, q.All)
	case "fill":
		if s.Fill, err = quantity.ParseVolume(quantity.WithUnit(rest, sys.VolumeUnit()), sys); err == nil && !(s.Fill > 0) {
			err = errors.New("a vat is filled with more than nothing")
		}
	case "vessel":
		s.Vessel, s.Fill, err = library.VesselOf(rest, sys)
	case "strength":
		s.Strength, err = quantity.ParseShare(quantity.WithUnit(rest, "%"), sys)
	default:
		return errors.New("begin with name, fill, vessel or strength; Enter begins the vat")
	}
	return err
}

// read asks until what is typed is taken. With none an empty line is an answer, too. False: the input ended, or leave was typed.
func (t *Terminal) read(words string, none bool, take func(string) error) bool {
	for {
		line, ok := t.line(words)
		if !ok {
			return false
		}
		switch low := strings.ToLower(line); {
		case line == "" && !none:
			continue
		case low == "help" || low == "?":
			t.say("Answer what is asked, by a figure of the list or in words. ! is first aid. leave ends the program.")
			continue
		case low == "!" || low == "first aid":
			t.aid()
			continue
		}
		err := wording.Refusal(line)
		if err == nil {
			err = take(line)
		}
		if err == nil {
			return true
		}
		t.say("Not taken: %s.", strings.TrimRight(wording.OneLine(err), "."))
	}
}

// line asks and reads a line; false when the input ended or leave was typed.
func (t *Terminal) line(words string) (string, bool) {
	t.say("%s", words)
	line, more := <-t.lines
	return line, more && !leaves[strings.ToLower(line)]
}

// choose asks for one of a numbered list.
func (t *Terminal) choose(words string, of []string) (int, bool) {
	t.list(of)
	n := 0
	ok := t.read(fmt.Sprintf("%s 1 to %d.", words, len(of)), false, func(s string) error {
		word, err := question{of: of}.read(s)
		n = slices.Index(of, word)
		return err
	})
	return n, ok
}

// list tells what can be chosen by its figure.
func (t *Terminal) list(of []string) {
	for i, s := range of {
		t.say("  %d: %s", i+1, s)
	}
}
