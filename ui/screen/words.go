package screen

import (
	"slices"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/style"
)

// Unsourced is a sentence as it is read at the vat: without the marks of its evidence.
func Unsourced(text string) string { return unsourced.Of(text, practice.Unsourced) }

// Sentence is such a sentence with its capital and its end.
func Sentence(text string) string { return wording.Sentence(Unsourced(text)) }

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

// Briefly is a word or a time under a cloth where there is little room: of a time its minutes, "25m", or its hours.
func Briefly(says string) string {
	if word, ok := briefly[says]; ok {
		return word
	}
	switch parts := strings.Split(says, ":"); len(parts) {
	case 2:
		return parts[0] + "m"
	case 3:
		return parts[0] + "h"
	}
	return ""
}

var briefly = map[string]string{"blue?": "look", "rinse": "bath", "citric": "bath", "crock": "rub"}
