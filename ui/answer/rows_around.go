package answer

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
)

// aroundRows are who is at the vat, where it stands, and the day's end.
func aroundRows() []Row {
	shut := func(_ day.State, a day.Act) bool { return a.Shut && a.Kind == day.ActBench }
	where := func(s day.State, a day.Act) bool {
		return shut(s, a) || asks(func(b day.Body) bool { _, is := b.(day.PlaceChanged); return is })(s, a)
	}
	return []Row{
		{ID: "place", Say: "place WHERE", Words: []string{"place", "the vat stands"}, Does: "where the vat stands: outdoors, cross-draught, closed room", Key: "w", Group: Around,
			Example: "place outdoors", Fits: where, short: func(s day.State) string {
				return wording.Either(airless(s), "a draught is made", "where it stands")
			},
			Blank: func(l Line) Blank {
				if airless(l.State) {
					return Blank{"Where does the vat stand?", "Enter: a draught is made; or outdoors"}
				}
				return Blank{"Where does the vat stand?", "outdoors, draught, closed room"}
			},
			Parse: func(l Line) ([]day.Command, error) {
				if l.Rest == "" && airless(l.State) {
					return record(day.PlaceChanged{Place: day.CrossDraught}, nil)
				}
				at, err := placeOf(l)
				return record(day.PlaceChanged{Place: at}, err)
			}},
		{ID: "goods", Say: "goods WHERE", Words: []string{"goods"}, Does: "where the goods are finished, if not at the vat", Key: "O", Short: "the goods are outdoors", Group: Around,
			Example: "goods outdoors", Fits: shut, Blank: blank("Where are the goods finished?", "Enter: outdoors; or draught, closed room"),
			Parse: func(l Line) ([]day.Command, error) {
				if l.Rest == "" {
					return record(day.PlaceChanged{Place: day.Outdoors, Of: day.OfGoods}, nil)
				}
				at, err := placeOf(l)
				return record(day.PlaceChanged{Place: at, Of: day.OfGoods}, err)
			}},
		{ID: "company", Say: "company", Words: []string{"company"}, Does: "children come to the vat, or they are gone", Key: "i", Group: Around, Example: "company", bare: true,
			short: func(s day.State) string {
				return wording.Either(s.Children, "the children are gone", "children at the vat")
			},
			Parse: func(l Line) ([]day.Command, error) {
				return record(wording.Either(l.State.Children, childrenWent, childrenCame), nil)
			}},
		{ID: "hold", Say: "hold", Words: []string{"hold", "talking"}, Does: "you talk to the class: no piece is called to go in, lifts are; hold once more: it is over", Key: "M", Group: Around,
			Example: "hold", bare: true, Fits: atKind(day.ActHold),
			short: func(s day.State) string { return wording.Either(s.Talks(), "the talk is over", "hold: pieces wait") },
			Parse: func(l Line) ([]day.Command, error) { return record(day.Talking{On: !l.State.Talks()}, nil) }},
		{ID: "material", Say: "material WHAT", Words: []string{"material", "the vessel is"}, Does: "what the vessel is made of: stainless, enamel, HDPE, PP, wood", Group: Around,
			Example: "material HDPE", Fits: asks(func(b day.Body) bool { _, is := b.(day.VesselTold); return is }),
			Parse: func(l Line) ([]day.Command, error) {
				return record(day.VesselTold{Material: l.Rest}, nil)
			}},
		{ID: "alone", Say: "you alone", Words: []string{"you alone", "i am alone", "me alone", "alone"}, Does: "one adult is at the vat", Group: Around, Example: "you alone", bare: true,
			Fits:  asks(onHands),
			Parse: wrote(day.HelperChanged{Who: "one adult"})},
		{ID: "children", Say: "children", Words: []string{"children", "children too"}, Does: "children are at the vat", Group: Around, Example: "children", bare: true,
			Fits:  asks(onHands),
			Parse: wrote(childrenCame)},
		{ID: "adults", Say: "adults", Words: []string{"adults", "adults alone", "children gone", "children are gone", "children off", "no children"}, Does: "the children are gone, adults alone are at the vat", Group: Around, Example: "adults", bare: true,
			Fits:  func(s day.State, a day.Act) bool { return a.Shut && s.Children || asks(onHands)(s, a) },
			Parse: wrote(childrenWent)},
		{ID: "way", Say: "way WHAT", Words: []string{"way"}, Does: "what the timetable does when the vat tires: weak, full or feed", Group: Around,
			Example: "way full", Fits: func(s day.State, a day.Act) bool { return a.Kind == day.ActIdle && a.Piece.Tag != "" },
			Parse: func(l Line) ([]day.Command, error) { return record(day.WayChosen{Way: l.Rest}, nil) }},
		{ID: "hands", Say: "hands NUMBER [at most PEOPLE]", Words: []string{"hands", "pairs of hands"}, Does: "how many pairs of hands are at the vat, and of how many people at most pieces are in it at once: the timetable reckons with them", Group: Around,
			Example: "hands 2", Fits: func(s day.State, _ day.Act) bool { return s.AsksHands() }, Parse: handsTold},
		{ID: "hot", Say: "hot REASON", Words: []string{"hot"}, Does: "goods go into a vat above 45 °C, with sticks or tongs", Group: Around, Example: "hot a hot strike",
			Possible: func(s day.State) bool { return s.Vat.Temp != nil && *s.Vat.Temp > day.HandsMost },
			Fits:     func(s day.State, a day.Act) bool { return a.Kind == day.ActIdle && a.Piece.Tag != "" },
			Parse:    func(l Line) ([]day.Command, error) { return record(day.HotWork{Reason: l.Rest}, nil) }},
		{ID: "heard", Say: "heard", Words: []string{"heard", "i hear it", "i hear the calls"}, Does: "the sound check: the calls are heard", Key: "E", Short: "the calls are heard", Group: Around,
			Example: "heard", bare: true, Possible: func(s day.State) bool { return !s.Sound.Heard || s.Sound.Failed != "" }, Fits: func(s day.State, _ day.Act) bool { return day.AsksSound(s) },
			Parse: wrote(day.SoundChecked{Heard: true})},
		{ID: "not heard", Say: "not heard", Words: []string{"not heard", "i hear nothing"}, Does: "the calls are not heard: nothing is taken as planned", Group: Around,
			Example: "not heard", bare: true, Possible: func(s day.State) bool { return s.Sound.At.IsZero() || s.Sound.Heard },
			Parse: wrote(day.SoundChecked{})},
		{ID: "note", Say: "note TEXT", Words: []string{"note"}, Does: "write a line into the book", Key: "o", Short: "note", Group: Around, Example: "note a little grey at the edge", Blank: blank("Note", ""),
			Parse: func(l Line) ([]day.Command, error) { return record(day.Note{Text: l.Rest}, nil) }},
		{ID: "close", Say: "close the day [REASON]", Words: []string{"close the day", "close"}, Does: "end the day; the vat lives on", Key: "x", Short: "close the day", Group: Around, Example: "close the day", Blank: blank("Close the day?", "why, if you like"),
			Parse: func(l Line) ([]day.Command, error) {
				return one(day.Close{Why: strings.TrimPrefix(strings.TrimPrefix(l.Rest, ","), " ")}, nil)
			}},
		{ID: "went", Say: "went WHERE", Words: []string{"went"}, Does: "where the liquor of an ended vat went: that ends it", Key: "W", Short: "where it went", Group: Around, Example: "went to the foul sewer",
			Blank:    blank("Where did it go?", "as the local authority allows"),
			Possible: func(s day.State) bool { return s.Head.Setup.Ending },
			Fits:     func(_ day.State, a day.Act) bool { return a.Kind == day.ActStep && a.Step.Do == day.DoEnd },
			Parse: func(l Line) ([]day.Command, error) {
				if l.Rest == "" {
					return nil, errors.New("say where it went, as the local authority allows: went to the foul sewer")
				}
				return record(day.VatEnded{Why: "used up", Route: l.Rest}, nil)
			}},
	}
}

// asks fits the question of the call that such a body answers.
func asks(is func(day.Body) bool) func(day.State, day.Act) bool {
	return func(s day.State, a day.Act) bool {
		if a.Kind != day.ActAsk {
			return false
		}
		c := s.Choices()
		return len(c) > 0 && is(c[0].Body)
	}
}

// onHands tells whether a body is who is at the vat.
func onHands(b day.Body) bool { _, is := b.(day.HelperChanged); return is }

// chosen is the row of an answer to the question of the call, by its figure or its words; false where the line is none.
func (l *Line) chosen(line string) (Row, bool) {
	if l.Act.Kind != day.ActAsk {
		return Row{}, false
	}
	for i, c := range l.State.Choices() {
		if line != strconv.Itoa(i+1) && !strings.EqualFold(line, c.Words) {
			continue
		}
		id := ""
		switch b := c.Body.(type) {
		case day.PlaceChanged:
			id, l.Rest = "place", b.Place
		case day.VesselTold:
			id, l.Rest = "material", b.Material
		case day.HelperChanged:
			id = []string{"alone", "adults", "children"}[i]
		}
		r, ok := Find(id)
		l.Word = id
		return r, ok
	}
	return Row{}, false
}

// The words on who is at the vat.
var childrenCame, childrenWent = day.HelperChanged{Who: "children", Children: true}, day.HelperChanged{Who: "adults alone"}

// airless tells whether the vat stands in a closed room, or nobody said where.
func airless(s day.State) bool { return s.Place() == day.ClosedRoom || s.Place() == "" }

// places are the places by what is typed for them.
var places = map[string]string{
	"outdoors": day.Outdoors, "outside": day.Outdoors, "cross-draught": day.CrossDraught, "cross draught": day.CrossDraught, "draught": day.CrossDraught,
	"closed room": day.ClosedRoom, "closed-room": day.ClosedRoom, "room": day.ClosedRoom,
}

// Place reads where a vat stands.
func Place(text string) (string, bool) {
	at, ok := places[strings.TrimPrefix(strings.ToLower(strings.TrimSpace(text)), "in a ")]
	return at, ok
}

func placeOf(l Line) (string, error) {
	at, ok := Place(l.Rest)
	if !ok {
		word, _, _ := strings.Cut(l.Word, " ")
		if word == "the" {
			word = "place"
		}
		return "", fmt.Errorf("say where: %s outdoors, %s cross-draught, %s closed room", word, word, word)
	}
	return at, nil
}

// askRows only ask: each front end has an answer of its own for them. Those without words are screens and what leads to them.
func askRows() []Row {
	return []Row{
		{ID: "outlook", Say: "how is it", Words: []string{"how is it", "how does it stand", "how do we stand", "how does the vat stand", "what is next"}, Does: "how the vat stands and where it goes", Key: "g", Short: "the warmth", Group: Ask, Example: "g", Opens: "course", bare: true},
		{ID: "wants", Say: "what does it need", Words: []string{"what does it need", "what does it want"}, Does: "what is missing in the vat, and how much of it", Key: "a", Short: "what does it need?", Group: Ask, Example: "a", Opens: "dose", bare: true, Possible: day.Filled},
		{ID: "blue", Say: "blue [TAG]", Words: []string{"blue", "how blue"}, Does: "how blue a piece is and how many dips it takes; blue alone tells of all", Key: "B", Short: "how many dips", Group: Ask, Example: "blue", Opens: "plan"},
		{ID: "ails", Say: "signs", Does: "what is wrong with the vat, by what was read and seen", Group: Ask},
		{ID: "on the bench", Say: "bench", Does: "what comes next for each piece after its dips", Group: Ask, Opens: "bench"},
		{ID: "unconfirmed", Say: "unconfirmed", Words: []string{"unconfirmed", "what was planned"}, Does: "what was taken as planned and is to be confirmed", Group: Ask, Example: "unconfirmed",
			Opens: "unsaid", bare: true, Possible: func(s day.State) bool { return s.Unconfirmed() > 0 }},
		{ID: "log", Say: "log", Words: []string{"log"}, Does: "the log of the day", Key: "l", Group: Ask, Example: "log", Opens: "log", bare: true},
		{ID: "timetable", Say: "timetable", Words: []string{"timetable", "class"}, Does: "the timetable of all pieces", Key: "m", Short: "the timetable", Group: Ask, Example: "timetable", Opens: "timetable", bare: true},
		{ID: "care", Say: "care", Words: []string{"care"}, Does: "what keeps the vat alive: what is due, and what comes next", Key: "j", Short: "keeping it alive", Group: Ask, Example: "care", Opens: "care", bare: true},
		{ID: "cost", Say: "cost", Words: []string{"cost", "costs"}, Does: "what the vat cost so far, and each piece's share", Group: Ask, Example: "cost", Opens: "cost", bare: true},
		{ID: "aid", Say: "!", Words: []string{"!", "first aid"}, Does: "first aid", Key: "!", Group: Ask, Example: "!", Opens: "aid", bare: true},
		{ID: "hush", Does: "the call that sounds is hushed; the next one sounds again", Key: "Z", Short: "hush this call", Group: Ask},
		{ID: "in words", Does: "say any of this in words", Key: ":", Short: "say it in words", Group: Ask},
		{ID: "help", Say: "?", Words: []string{"?", "help"}, Does: "this list", Key: "?", Group: Ask, Example: "?", bare: true},
		{ID: "home", Does: "home, with all vats; the day goes on", Key: "H", Short: "home", Group: Ask},
		{ID: "quit", Does: "leave the program; the day stays open", Key: "q", Short: "quit", Group: Ask},
	}
}
