// Package piece puts a piece on the day's list: a few short questions, each with an answer that one key accepts.
package piece

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// page is one question.
type page int

const (
	tag page = iota
	what
	whose // only where people dye
	goods // the fibre
	dry
	depth
	dips // only where a number was wanted instead of a depth
	wish // only where a rung or a colour was
	form
	pages
)

type piece struct {
	at    page
	typed [pages]screen.Field // Wrong is told on lists too
	pick  [pages]int
	set   [pages]bool // the pick was made by the dyer
	memo  *memo
	led   bool // a piece is somebody's
}

func New(env screen.Env) screen.Screen {
	d, _ := env.Day()
	return piece{memo: &memo{}, led: slices.ContainsFunc(d.State.Pieces, func(p day.Piece) bool { return p.Spec.Who != "" })}
}

// typedPage tells whether a page is answered in letters and figures.
func typedPage(p page) bool {
	return p == tag || p == what || p == whose || p == dry || p == dips || p == wish
}

func (p piece) Capturing() bool { return typedPage(p.at) }

func (p piece) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	d, ok := env.Day()
	if !ok {
		return p, []screen.Request{screen.Leave{}}
	}
	if k.Name == "esc" {
		if p.at == tag {
			return p, []screen.Request{screen.Leave{}}
		}
		return p.back(), nil
	}
	if k.Rune == '!' {
		return p, []screen.Request{screen.Go{To: screen.AtAid}}
	}
	if k.Name == "tab" {
		return p, []screen.Request{screen.Leave{}, screen.Go{To: screen.AtBench, Day: env.ID}}
	}
	if typedPage(p.at) {
		text := p.typed[p.at].Text
		switch {
		case p.at == tag && k.Name == "enter" && strings.HasSuffix(strings.TrimSpace(text), ".toml"):
			return p, []screen.Request{screen.List{Path: strings.TrimSpace(text)}, screen.Leave{}}
		case p.at == tag && k.Name == "enter" && strings.EqualFold(strings.TrimSpace(text), "as before"):
			return p, []screen.Request{screen.List{}, screen.Leave{}}
		case p.at == tag && k.Name == "enter" && len(strings.Fields(text)) > 3:
			return p.inOneLine(d)
		case k.Name == "enter" || k.Name == "pgdown" || k.Name == "space" && text == "":
			return p.on(d)
		}
		p.typed[p.at] = p.typed[p.at].Edit(k)
		return p, nil
	}
	c, _ := p.command(d)
	at, takes, chosen := k.Choose(p.picked(p.at), len(p.choices(d, c)))
	if chosen {
		p = p.choose(at)
	}
	if takes || k.Done() {
		return p.on(d)
	}
	return p, nil
}

// inOneLine takes a piece that is typed whole, "A1 linen 420 g dark", and asks for the next one.
func (p piece) inOneLine(d engine.View) (screen.Screen, []screen.Request) {
	name, spec, err := answer.Piece(p.typed[tag].Text, d.State.Head.Setup.System())
	c := day.AddPiece{Tag: name, Spec: spec}
	if err == nil {
		_, err = day.Decide(d.State, c, d.Now)
	}
	if err != nil {
		p.typed[tag].Wrong = err.Error()
		return p, nil
	}
	p.typed[tag], p.led = screen.Field{}, p.led || spec.Who != ""
	return p, []screen.Request{screen.Do{Command: c}}
}

func (p piece) choose(n int) piece {
	p.pick[p.at], p.set[p.at], p.typed[p.at].Wrong = n, true, ""
	return p
}

// usual is where a list stands before the dyer chose: "mid" for the depth, else its first line.
const usual = 3

func (p piece) picked(at page) int {
	if !p.set[at] && at == depth {
		return usual
	}
	return p.pick[at]
}

// byNumber and byWish tell that a number of dips, or a rung or a colour, was wanted instead of a depth.
func (p piece) byNumber() bool { return p.picked(depth) == len(shade.Depths()) }
func (p piece) byWish() bool   { return p.picked(depth) > len(shade.Depths()) }

// asked tells whether a question is one for this piece.
func (p piece) asked(at page) bool {
	switch at {
	case whose:
		return p.led
	case dips:
		return p.byNumber()
	case wish:
		return p.byWish()
	}
	return true
}

func (p piece) back() piece {
	p.typed[p.at].Wrong = ""
	for p.at--; !p.asked(p.at); p.at-- {
	}
	return p
}

// on checks the answer and goes to the next question; after the last one the piece is on the list.
func (p piece) on(d engine.View) (screen.Screen, []screen.Request) {
	c, err := p.command(d)
	switch {
	case err != nil && err.at <= p.at:
		p.typed[p.at].Wrong = err.err.Error()
		return p, nil
	case p.at < form:
		p.typed[p.at].Wrong = ""
		for p.at++; !p.asked(p.at); p.at++ {
		}
		return p, nil
	}
	if _, err := day.Decide(d.State, c, d.Now); err != nil {
		p.typed[p.at].Wrong = err.Error()
		return p, nil
	}
	return p, []screen.Request{screen.Do{Command: c}, screen.Leave{}}
}

// wrongAt is the first answer that will not do.
type wrongAt struct {
	at  page
	err error
}

// command is what the answers say so far.
func (p piece) command(d engine.View) (day.AddPiece, *wrongAt) {
	sys := d.State.Head.Setup.System()
	c := day.AddPiece{Tag: cmp.Or(strings.TrimSpace(p.typed[tag].Text), library.FreeTag(d.State))}
	if _, there := d.State.Piece(c.Tag); there {
		return c, &wrongAt{tag, fmt.Errorf("%s is on the list already", c.Tag)}
	}
	if ansi.StringWidth(c.Tag) > 12 {
		return c, &wrongAt{tag, errors.New("a tag is at most 12 letters and digits, such as A1")}
	}
	_, c.Spec = answer.Whose("for " + p.typed[whose].Text)
	for _, clock := range []string{c.Spec.From, c.Spec.Till} {
		if clock != "" && day.Wished(d.Now, clock) == nil {
			return c, &wrongAt{whose, fmt.Errorf("%q is no time of day: type it as Ida from 10:30 till 15:00", clock)}
		}
	}
	c.Spec.What = strings.TrimSpace(p.typed[what].Text)
	c.Spec.Fibre = fibres(d.State)[p.pick[goods]].String()
	typed := quantity.WithUnit(p.typed[dry].Text, sys.MassUnit())
	m, err := quantity.ParseMass(typed, sys)
	switch {
	case typed == "":
		return c, &wrongAt{dry, errors.New("weigh it dry and type what the scale shows, such as " + quantity.Grams(420).Format(sys))}
	case err != nil:
		return c, &wrongAt{dry, err}
	case m <= 0:
		return c, &wrongAt{dry, errors.New("a piece weighs more than 0 g: weigh it dry")}
	}
	c.Spec.Dry = m
	c.Spec.Form = forms[p.pick[form]].word
	switch {
	case p.byWish():
		if err := p.wished(&c); err != nil {
			return c, &wrongAt{wish, err}
		}
		return c, nil
	case !p.byNumber():
		name := shade.Depths()[p.picked(depth)].Name
		if a := p.answers(d, c)[name]; p.at > depth && a.Likely < shade.NotWithin {
			c.Spec.Dips = a.Likely // as it was shown beside the depth
		}
		c.Spec.Depth = name
		return c, nil
	}
	c.Spec.Dips = 4
	if t := strings.TrimSpace(p.typed[dips].Text); t != "" {
		n, err := strconv.Atoi(t)
		if err != nil || n < 1 || n > 60 {
			return c, &wrongAt{dips, errors.New("type how many dips, 1 to 60")}
		}
		c.Spec.Dips = n
	}
	return c, nil
}

// typedTag is the tag of a line that is being typed, of which more words may come: the first of them. A file and "as before" have none.
func typedTag(line, tag string) string {
	words := strings.Fields(line)
	if len(words) < 2 || strings.EqualFold(words[0], "as") {
		return tag
	}
	return words[0]
}

func (p piece) View(env screen.Env) widget.Sheet {
	s := widget.Sheet{Head: widget.Head{Left: "add a piece", Right: env.Now.Format("15:04")}}
	d, ok := env.Day()
	if !ok {
		s.Act, s.How = "No day is open", []string{"Open a vat from home first. Esc goes back."}
		return s
	}
	sys := d.State.Head.Setup.System()
	c, _ := p.command(d)
	if p.at == tag {
		c.Tag = typedTag(p.typed[tag].Text, c.Tag)
	}
	s.Head.Left = strings.Join(wording.Filled(d.State.Head.Setup.Name, "add "+c.Tag), " · ")
	s.Foot = []string{p.soFar(c, sys)}
	if env.Height >= widget.LowestYard { // below that the answers have all of the room
		cloth := widget.Cloth{Tag: c.Tag, Peg: len(d.State.Pieces) + 1, Blue: p.blue(c), Size: 1}
		s.Stage, s.BodyTop = &widget.Stage{Cloths: []widget.Cloth{cloth}, Vessel: screen.VesselOf(d.State)}, true
	}
	e := p.typed[p.at]
	switch p.at {
	case tag:
		s.Act, e.Label, e.Hint = "Tag it", "tag", "Enter: "+library.FreeTag(d.State)
		s.How = []string{"Tie a waterproof tag with the same word to the piece.", "Or all in one line: A1 linen 420 g dark for Ida. Many: a file, pieces.toml, or type: as before."}
	case what:
		s.Act, e.Label, e.Hint = "What is "+c.Tag+"?", "what", "such as runner; Enter: nothing"
	case whose:
		s.Act, e.Label, e.Hint = "Whose is "+c.Tag+"?", "whose", "such as Ida; Enter: nobody's"
		s.How = []string{"And when they are there: Ida from 10:30 till 15:00.", "demo after the name: its first dip is shown to all, first and alone."}
	case goods:
		s.Act = "Which fibre?"
		s.Caution = p.harm(d.State)
	case dry:
		s.Act, e.Label, e.Hint = "Weigh "+c.Tag+" dry", "dry weight", "such as "+quantity.Grams(420).Format(sys)
		if quantity.Bare(p.typed[dry].Text) {
			e.Unit = sys.MassUnit()
		}
		s.Why = "Room, water and indigo are reckoned from the dry weight."
	case depth:
		s.Act, s.Why = "How dark?", "Dips: "+shade.Claim+"."
		if len(p.answers(d, c)) > 0 {
			s.Why = "Dips by your own swatches: right eight times in ten."
		}
	case wish:
		s.Act, e.Label, e.Hint = "Which blue?", "blue", "rung 3, lab 31 -3 -20, #2a3b5c from a photograph"
		s.Why = "B, once it is on the list: how many dips give it."
	case dips:
		s.Act, e.Label, e.Hint = "How many dips?", "dips", "1 to 60; Enter: 4"
		s.Why = "Usually " + shade.AfterDips(c.Spec.Dips) + ": " + shade.Claim + "."
	case form:
		s.Act, s.Next = "Which form?", "then: "+c.Tag+" is on the list"
	}
	s.Act = strings.ToUpper(s.Act)
	if typedPage(p.at) {
		s.Body = e.Lines(env)
		return s
	}
	if e.Wrong != "" {
		s.How = append(s.How, e.Wrong)
	}
	screen.Choose(&s, p.choices(d, c), p.picked(p.at), env)
	return s
}

// harm is what the liquor does to the fibre chosen, if it does.
func (p piece) harm(s day.State) *widget.Caution {
	f := fibres(s)[p.pick[goods]]
	if v, sentence := s.Bears(f); v != fibre.Fine {
		return &widget.Caution{Text: sentence, Key: "enter: all the same"}
	}
	return nil
}

// soFar is what was answered, in one line.
func (p piece) soFar(c day.AddPiece, sys quantity.System) string {
	blue := cmp.Or(c.Spec.Depth, fmt.Sprintf("dips: %d", c.Spec.Dips))
	if c.Spec.Depth == "" && p.byWish() {
		blue = p.typed[wish].Text
	}
	return wording.Joined(" · ", c.Tag, wording.If(p.at > what, c.Spec.What), wording.If(p.at > whose, c.Spec.Who),
		wording.If(p.at > goods, c.Spec.Fibre), wording.If(p.at > dry, c.Spec.Dry.Format(sys)), wording.If(p.at > wish, blue))
}

func (p piece) Keys(env screen.Env) []widget.Key {
	on, back := screen.Bound("enter", "on"), screen.Bound("esc", "a question back")
	if p.at == form {
		on.Desc = "add it"
	}
	keys := []widget.Key{on, back}
	if !typedPage(p.at) {
		keys = []widget.Key{on, screen.Bound("1–9", "choose, on"), back, screen.Bound("↑ ↓", "choose")}
	}
	if d, ok := env.Day(); ok && len(d.State.OnBench()) > 0 {
		keys = append(keys, screen.Bound("tab", "the bench"))
	}
	return keys
}
