package day

import (
	"fmt"
	"strings"

	"example.org/vatside/model/vessel"
	"example.org/vatside/model/wording"
)

// A Choice is one of the answers to a question of ActAsk.
type Choice struct {
	Words string // as it is shown and can be typed
	Body  Body   // as it is written down
}

// Choices are the answers to the question that the call asks, in the order of their figures. No one of them is the usual.
func (s State) Choices() []Choice {
	switch s.asking() {
	case askPlace:
		return []Choice{{Outdoors, PlaceChanged{Place: Outdoors}}, {CrossDraught, PlaceChanged{Place: CrossDraught}}, {ClosedRoom, PlaceChanged{Place: ClosedRoom}}}
	case askVessel:
		return wording.Some(vessel.Materials(), func(m vessel.Material) (Choice, bool) {
			return Choice{m.String(), VesselTold{Material: m.String()}}, m.Refusal(true) == ""
		})
	case askHands:
		return []Choice{{"you alone", HelperChanged{Who: "one adult"}}, {"adults alone", HelperChanged{Who: "adults alone"}}, {"children too", HelperChanged{Who: "children", Children: true}}}
	}
	return nil
}

// What is asked before the first powder of a day, where its head says so; each names the call.
const (
	askPlace  = "place"
	askVessel = "vessel"
	askHands  = "hands"
)

var questions = map[string]struct{ words, why, short string }{
	askPlace:  {"Where does the vat stand?", "Fumes and dust need air: in a closed room no sulfur reducer goes in.", "WHERE?"},
	askVessel: {"What is the vessel made of?", "The mark underneath a plastic: 2 HDPE, 4 LDPE, 5 PP; PE where it is not known. Each stands a different heat. Alkali dissolves aluminium and zinc.", "VESSEL?"},
	askHands:  {"Who is at the vat?", "Powders, lye and hot water are for adults.", "WHO IS HERE?"},
}

// asking is the question that stands before the next powder; empty where all is known, or nothing is to be asked.
func (s State) asking() string {
	switch {
	case !s.Head.Setup.Asks:
		return ""
	case s.Place() == "":
		return askPlace
	case s.Head.Setup.Material == "":
		return askVessel
	case !s.helperTold:
		return askHands
	}
	return ""
}

// askAct is the question as the call, where the open step has to do with a powder.
func (s State) askAct(st Step) (Act, bool) {
	q := s.asking()
	if q == "" || st.Powder == "" {
		return Act{}, false
	}
	return Act{Kind: ActAsk, Step: st, Words: questions[q].words, How: wording.Upper(s.choiceWords()) + ".", Why: questions[q].why}, true
}

// choiceWords are the answers with their figures: "1 outdoors; 2 cross-draught; 3 closed room".
func (s State) choiceWords() string {
	var out []string
	for i, c := range s.Choices() {
		out = append(out, fmt.Sprint(i+1, " ", c.Words))
	}
	return strings.Join(out, "; ")
}

// unasked refuses what has to do with a powder while a question stands before it.
func (s State) unasked(bodies []Body) error {
	q := s.asking()
	if q == "" {
		return nil
	}
	for _, b := range bodies {
		powder := false
		switch b := b.(type) {
		case PowderWeighed, PowderAdded, Fed, StockDrawn:
			powder = true
		case StepSkipped:
		case Stepped:
			st, open := s.Open()
			powder = open && b.StepNo() == st.No && st.Powder != ""
		}
		if powder {
			return s.answerFirst()
		}
	}
	return nil
}

// Unanswered is the refusal of an act till a question of the day, here with its answers, is answered.
type Unanswered string

func (u Unanswered) Error() string { return "answer first: " + string(u) }

func (s State) answerFirst() error {
	return Unanswered(wording.Lower(questions[s.asking()].words) + " " + s.choiceWords())
}

func (s State) vesselTold(b VesselTold) ([]Body, error) {
	m, err := vessel.ParseMaterial(b.Material)
	switch {
	case err != nil:
		return nil, err
	case m == vessel.Unstated:
		return refuse("say what the vessel is made of: stainless, enamel, HDPE, PP or wood")
	case m.Refusal(true) != "":
		return refuse("%s", m.Refusal(true))
	case m.TooHot(s.Head.Recipe.Liquor.Build, s.Head.Setup.System()) != "":
		return refuse("%s", m.TooHot(s.Head.Recipe.Liquor.Build, s.Head.Setup.System()))
	}
	return []Body{VesselTold{Material: m.String()}}, nil
}
