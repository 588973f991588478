package plain

import (
	"errors"
	"fmt"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/signs"
	"example.org/vatside/ui/engine"
)

// bench says what each piece wants after its dips.
func (t *Terminal) bench(v engine.View) {
	pieces := v.State.OnBench()
	if len(pieces) == 0 {
		t.say("  Nothing is on the bench yet: a piece comes there after its last dip.")
	}
	for _, p := range pieces {
		t.say("  %s", strings.ReplaceAll(p.Name()+": "+v.State.BenchLine(p, v.Now, true)+".", "?.", "?"))
		a, ok := v.State.AfterDips(p, v.Now)
		switch words := bath(a, v.State.Head.Setup.System()); {
		case ok && a.Shut:
			t.say("    %s", signs.Unsourced(a.How))
		case words != "":
			t.say("    %s.", words)
		}
	}
}

// bath is what goes into the next bath of a piece; empty where it is none, or runs.
func bath(a day.Act, sys quantity.System) string {
	if a.Kind != day.ActBench || a.Due != nil || a.Shut {
		return ""
	}
	number, unit, note := a.Bench.Figure(sys)
	if number == "" {
		return ""
	}
	return number + " " + unit + " of " + note
}

// answers are the words for an act that is no press, or that a key of the screens is named for; empty where Enter does it.
func answers(s day.State, a day.Act) string {
	tag := a.Piece.Tag
	switch {
	case a.Caution != "":
		return ""
	case a.Kind == day.ActLook:
		return "Type: better, same or worse."
	case a.Kind == day.ActIdle && tag != "" && s.Vat.Temp != nil && *s.Vat.Temp > day.HandsMost:
		return "Type: t and the new temperature; or hot WHY, for sticks or tongs."
	case a.Kind == day.ActStep && a.Step.Do == day.DoSpent:
		return "Type: strip 0 where it shows no yellow, then r; else n."
	case a.Kind == day.ActStep && a.Step.Do == day.DoAcid:
		if a.Press != "" {
			return ""
		}
		return "Type: ph 7.5, as it reads."
	case a.Kind == day.ActStep && a.Step.Do == day.DoEnd:
		return "Type: went WHERE."
	case a.Kind != day.ActBench || a.Due != nil:
		return ""
	case a.Shut && s.Children:
		return "Type: adults, once the children are gone."
	case a.Shut:
		return "Type: goods outdoors, place cross-draught, or leave " + tag + "."
	case a.Bench.ID == day.Crock:
		return "Type the two grades, dry and wet (" + day.CrockWords + "): crock " + tag + " 4 2.5; or leave " + tag + "."
	case a.Bench.ID == day.Looked:
		return "Type: look " + tag + " dark, look " + tag + " rung 4; or leave " + tag + "."
	case a.Bench.Optional:
		return "Or: leave " + tag + "."
	}
	return ""
}

// benched reads the words about pieces after their dips; known is false for other words.
func benched(word, rest string) (c day.Command, known bool, err error) {
	tag, more, _ := strings.Cut(rest, " ")
	of, more := day.OfPiece{Tag: tag}, strings.TrimSpace(more)
	switch word {
	case "bench", "rinsed", "soon", "later", "crock", "leave":
		if tag == "" {
			return nil, true, fmt.Errorf("say which piece: %s A1", word)
		}
	}
	switch word {
	case "bench":
		return day.Bench{Tag: tag}, true, nil
	case "rinsed":
		return day.Record{Body: day.Rinsed{OfPiece: of}}, true, nil
	case "soon":
		return day.Stretch{Timer: "bath " + tag, By: -quantity.Minutes(1)}, true, nil
	case "later":
		return day.Stretch{Timer: "bath " + tag, By: quantity.Minutes(1)}, true, nil
	case "leave":
		return day.LeaveOut{Tag: tag, Reason: more}, true, nil
	case "crock":
		b := day.CrockTested{OfPiece: of}
		b.Dry, b.Wet, err = day.ParseCrock(more)
		return day.Record{Body: b}, true, err
	}
	return nil, false, nil
}

// placed are the places by what is typed for them.
var placed = map[string]string{
	"outdoors": day.Outdoors, "outside": day.Outdoors, "cross-draught": day.CrossDraught, "cross draught": day.CrossDraught, "draught": day.CrossDraught,
	"closed room": day.ClosedRoom, "closed-room": day.ClosedRoom, "room": day.ClosedRoom,
}

// around reads the words about who is at the vat, where it stands, and what became of it.
func around(word, rest string) (c day.Command, known bool, err error) {
	record := func(b day.Body) (day.Command, bool, error) { return day.Record{Body: b}, true, nil }
	switch word {
	case "place", "goods":
		at, ok := placed[strings.ToLower(strings.TrimPrefix(rest, "in a "))]
		if !ok {
			return nil, true, fmt.Errorf("say where: %s outdoors, %s cross-draught, %s closed room", word, word, word)
		}
		b := day.PlaceChanged{Place: at}
		if word == "goods" {
			b.Of = day.OfGoods
		}
		return record(b)
	case "children":
		return record(day.HelperChanged{Who: "children", Children: true})
	case "adults":
		return record(day.HelperChanged{Who: "adults alone"})
	case "better", "same", "worse":
		said := map[string]signs.Answer{"better": signs.Better, "same": signs.Same, "worse": signs.Worse}[word]
		return record(day.Rechecked{Answer: said.String()})
	case "hot":
		return record(day.HotWork{Reason: rest})
	case "went":
		if rest == "" {
			return nil, true, errors.New("say where it went, by the local authority's word: went to the foul sewer")
		}
		return record(day.VatEnded{Why: "used up", Route: rest})
	}
	return nil, false, nil
}
