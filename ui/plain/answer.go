package plain

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
)

const choices = `Answers:
  Enter            done: what the act asks for
  r, n             the vat is ready; not yet
  90 or 90 g       a scoop on the scale, with a minus what was taken out; at other steps the temperature
  t 35 °C          a temperature; ph 11 a pH; strip 45 s a strip
  d 40 cm          how far the liquor is below the rim; d 28 L how much is in it
  v                how the vat stands and where it goes; a what it wants
  blue A1          how blue it is and how many dips it takes; blue alone tells of all
  look A1 wet rung 4   what a piece looks like: a rung, a depth, lab 31 -3 -20, #2a3b5c
  cut L1 3 LOOK    what the strip cut off after dip 3 looks like, rinsed and dry
  give reducer 20 g   a dose that went in
  signs blue, cloudy   what is seen, and what ails the vat; treat: it was done; signs alone asks again
  lid, heater      on or off
  b                take the last act back
  y                the last act that was taken as planned was so
  s REASON         leave the step out
  p TAG FIBRE MASS DEPTH-OR-DIPS    add a piece, such as: p A1 linen 420 g dark
  f TAG            the piece has no green left: its dips are over
  bench            what each piece wants after its dips; bench A1 does it, or ends its bath
  rinsed A1        one rinse more; soon A1, later A1: its bath ends a minute earlier, later
  crock A1 4 2.5   how much blue came off on white, dry and wet: 5 none to 1 heavy
  leave A1 REASON  leave its next step out
  place outdoors   where the vat stands: outdoors, cross-draught, closed room
  goods outdoors   where the goods are finished, if not there
  children, adults who is at the vat
  better, same, worse   the look after a treatment
  hot WHY          goods go into a vat above 45 °C, with sticks or tongs
  went WHERE       where the liquor of an ended vat went
  note TEXT        write a line into the book
  close            end the day; q leaves it open
  Where a caution is read out, the same line once more answers it.
  !                first aid
  ?                this list`

// answer carries out one typed line.
func (t *Terminal) answer(ctx context.Context, e *engine.Engine, id string, v engine.View, line string) {
	if err := wording.Refusal(line); err != nil {
		t.say("Not done: %s.", err)
		return
	}
	switch line {
	case "?":
		t.say("%s", choices)
		t.say("  Now: %s", day.NowLine(v.State, v.Now))
		return
	case "v":
		t.vat(v)
		return
	case "blue":
		t.blues(v, "")
		return
	case "bench":
		t.bench(v)
		return
	case "a":
		t.wants(v)
		return
	case "!":
		t.say("First aid:")
		for _, line := range firstAid() {
			t.say("  %s", line)
		}
		if t.Emergency != "" {
			t.say("  Your emergency number: %s", t.Emergency)
		}
		return
	}
	if words, ok := strings.CutPrefix(line+" ", "signs "); ok {
		t.seen(ctx, e, id, v, strings.TrimSpace(words))
		return
	}
	if line == "treat" {
		t.treat(ctx, e, id, v)
		return
	}
	if tag, ok := strings.CutPrefix(line, "blue "); ok {
		t.blues(v, strings.TrimSpace(tag))
		return
	}
	c, err := command(v.State, day.Next(v.State, v.Now), line)
	if err == nil {
		if line != "" && line == t.asked {
			c = day.Answered{Command: c}
		}
		_, err = e.Do(ctx, id, c)
	}
	t.asked = ""
	pending := (*day.Pending)(nil)
	switch {
	case errors.As(err, &pending):
		t.asked = line
		t.say("  Caution: %s.\n  Type %q once more: it is answered, and done.", pending.Caution, line)
	case errors.Is(err, day.ErrTooSoon):
		t.say("Too soon after the last one: read once more, then Enter.")
	case err != nil:
		t.say("Not done: %s", strings.TrimSuffix(err.Error(), ".")+".")
	}
}

// command is what a typed line wants.
func command(s day.State, a day.Act, line string) (day.Command, error) {
	sys := s.Head.Setup.System()
	word, rest, _ := strings.Cut(line, " ")
	rest = strings.TrimSpace(rest)
	switch word {
	case "":
		return day.Done{}, nil
	case "r", "n", "b", "y":
		if rest != "" {
			return nil, fmt.Errorf("%s takes nothing behind it; t 35 °C writes a temperature down", word)
		}
	}
	if c, known, err := benched(word, rest); known {
		return c, err
	}
	if c, known, err := around(word, rest); known {
		return c, err
	}
	switch word {
	case "r":
		return day.Judge{Ready: true}, nil
	case "n":
		return day.Judge{}, nil
	case "b":
		return day.Back{}, nil
	case "s":
		return day.Skip{Reason: rest}, nil
	case "f":
		return day.Finish{Tag: rest}, nil
	case "y":
		for i := len(s.Log) - 1; i >= 0; i-- {
			if p, ok := s.Log[i].Body.(day.Presumed); ok && p.IsAssumed() {
				return day.Confirm{Seq: s.Log[i].Seq}, nil
			}
		}
		return nil, errors.New("nothing was taken as planned")
	case "p":
		return piece(rest, sys)
	case "t":
		return temperature(a, rest, sys)
	case "ph":
		ph, err := strconv.ParseFloat(strings.Replace(rest, ",", ".", 1), 64)
		if err != nil {
			return nil, errors.New("type a pH as ph 11.2")
		}
		return day.Record{Body: day.Reading{PH: &ph}}, nil
	case "d":
		return level(rest, sys)
	case "look":
		return looked(rest)
	case "cut":
		return judged(rest)
	case "strip":
		return strip(rest, sys)
	case "give":
		return give(s, rest)
	case "lid", "heater":
		return turned(s, word), nil
	case "note":
		return day.Record{Body: day.Note{Text: rest}}, nil
	case "close":
		return day.Close{Why: rest}, nil
	}
	if !strings.ContainsAny(line[:1], "0123456789.,-−+") {
		return nil, fmt.Errorf("%q is no answer; ? lists them", line)
	}
	switch a.Entry {
	case day.MassEntry:
		return scoop(line, sys)
	case day.TempEntry:
		return temperature(a, line, sys)
	}
	return nil, errors.New("no figure is asked for; t 35 °C writes a temperature down")
}

// bare gives a number without a unit one.
func bare(s, unit string) string {
	if _, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64); err == nil {
		return s + " " + unit
	}
	return s
}

func scoop(s string, sys quantity.System) (day.Command, error) {
	unit := "g"
	if sys != quantity.Metric {
		unit = "oz"
	}
	rest, minus := strings.CutPrefix(strings.Replace(s, "−", "-", 1), "-")
	m, err := quantity.ParseMass(bare(strings.TrimSpace(rest), unit), sys)
	if minus {
		m = -m
	}
	return day.PutScoop{Mass: m}, err
}

func temperature(a day.Act, s string, sys quantity.System) (day.Command, error) {
	unit := "°C"
	if sys == quantity.US {
		unit = "°F"
	}
	c, err := quantity.ParseTemperature(bare(s, unit), sys)
	if err != nil {
		return nil, err
	}
	r := day.Reading{Temp: &c}
	if a.Kind == day.ActStep && a.Step.Into == recipe.IntoStock {
		r.Of = "stock"
	}
	return day.Record{Body: r}, nil
}

// piece reads TAG FIBRE MASS DEPTH, the mass in one word or two.
func piece(s string, sys quantity.System) (day.Command, error) {
	w := strings.Fields(s)
	if len(w) < 4 {
		return nil, errors.New("a piece is its tag, fibre, dry weight, and depth or number of dips: p A1 linen 420 g dark")
	}
	last := w[len(w)-1]
	mass, err := quantity.ParseMass(strings.Join(w[2:len(w)-1], " "), sys)
	if err != nil {
		return nil, err
	}
	spec := day.PieceSpec{Fibre: w[1], Dry: mass}
	if n, err := strconv.Atoi(last); err == nil {
		spec.Dips = n
	} else {
		spec.Depth = last
	}
	return day.AddPiece{Tag: w[0], Spec: spec}, nil
}

// Questions are what a new day needs to be asked.
type Questions struct {
	Vats    []string // that live
	Recipes []string
	Units   string
	Place   string // as set; empty: asked
}

// Answers are what the dyer said. Vat is -1 for a new vat; End leads a living one to its end.
type Answers struct {
	End         bool
	Vat, Recipe int
	Name, Place string
	Fill        quantity.Volume
}

// Ask asks for a new day, one question a line; false when the input ended or q was typed.
func (t *Terminal) Ask(q Questions) (Answers, bool) {
	a := Answers{Vat: -1, Place: q.Place}
	sys, _ := quantity.ParseSystem(q.Units)
	t.say("No day is open. A new one; q leaves.")
	if len(q.Vats) > 0 {
		n, ok := t.choose("Which vat", append(append([]string(nil), q.Vats...), "a new vat"))
		if !ok {
			return a, false
		}
		if n < len(q.Vats) {
			a.Vat = n
			what, ok := t.choose("What is the day for", []string{"dyeing or tending it", "ending it, or going on with its end"})
			a.End = what == 1
			return a, ok
		}
	}
	var ok bool
	if a.Recipe, ok = t.choose("Which recipe", q.Recipes); !ok {
		return a, false
	}
	if a.Name, ok = t.question("What is the vat called"); !ok {
		return a, false
	}
	for a.Fill == 0 {
		s, ok := t.question("How much liquor in all, such as 60 L")
		if !ok {
			return a, false
		}
		v, err := quantity.ParseVolume(s, sys)
		if err != nil {
			t.say("Not taken: %s.", err)
			continue
		}
		a.Fill = v
	}
	if a.Place == "" {
		places := []string{day.Outdoors, day.CrossDraught, day.ClosedRoom}
		n, ok := t.choose("Where", places)
		if !ok {
			return a, false
		}
		a.Place = places[n]
	}
	return a, true
}

// question asks until something is typed.
func (t *Terminal) question(words string) (string, bool) {
	for {
		t.say("%s?", words)
		line, more := <-t.lines
		if !more || line == "q" {
			return "", false
		}
		if err := wording.Refusal(line); err != nil {
			t.say("Not taken: %s.", err)
		} else if line != "" {
			return line, true
		}
	}
}

// choose asks for one of a numbered list.
func (t *Terminal) choose(words string, of []string) (int, bool) {
	for i, s := range of {
		t.say("  %d  %s", i+1, s)
	}
	for {
		line, ok := t.question(fmt.Sprintf("%s, 1 to %d", words, len(of)))
		if !ok {
			return 0, false
		}
		if n, err := strconv.Atoi(line); err == nil && n >= 1 && n <= len(of) {
			return n - 1, true
		}
	}
}
