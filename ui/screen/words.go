package screen

import (
	"slices"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/signs"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/style"
)

// Unsourced is a sentence as it is read at the vat: without the marks of its evidence.
func Unsourced(text string) string { return unsourced.Of(text, signs.Unsourced) }

var unsourced style.Memory[string, string]

// Cautions are what is shown before an act that is advised: the caution that its answer is written down with, then what the advice
// adds to it.
func Cautions(v engine.View, act day.Command, advised []string) string {
	var out []string
	add := func(words string) {
		for _, w := range strings.Split(words, "; ") {
			w = strings.TrimSuffix(w, ".")
			if w != "" && !slices.ContainsFunc(out, func(o string) bool { return strings.EqualFold(o, w) || strings.HasSuffix(o, ": "+w) }) {
				out = append(out, w)
			}
		}
	}
	if act != nil {
		add(day.CautionOf(v.State, act, v.Now))
	}
	for _, w := range advised {
		add(Unsourced(w))
	}
	return strings.Join(out, "; ")
}

// Draught is the word that a draught was made, where the vat stands in a closed room or nobody said where; else nil.
func Draught(v engine.View) day.Command {
	if p := v.State.Place(); p == day.ClosedRoom || p == "" {
		return day.Record{Body: day.PlaceChanged{Place: day.CrossDraught}}
	}
	return nil
}

// Company is the word that children came to the vat, or that they went.
func Company(v engine.View) day.Command {
	if v.State.Children {
		return day.Record{Body: day.HelperChanged{Who: "adults alone"}}
	}
	return day.Record{Body: day.HelperChanged{Who: "children", Children: true}}
}

// CompanyDoes is what its key does.
func CompanyDoes(v engine.View) string {
	if v.State.Children {
		return "the children are gone"
	}
	return "children at the vat"
}
