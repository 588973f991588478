package answer

import "example.org/vatside/model/day"

// askRows only ask: each front end has an answer of its own for them. Those without words are screens and what leads to them.
func askRows() []Row {
	return []Row{
		{ID: "outlook", Say: "how is it", Words: []string{"how is it", "how does it stand", "how do we stand", "how does the vat stand", "what is next"}, Does: "how the vat stands and where it goes", Key: "g", Short: "its course", Group: Ask, Example: "g", Opens: "course", bare: true},
		{ID: "wants", Say: "what does it need", Words: []string{"what does it need", "what does it want"}, Does: "what is missing in the vat, and how much of it", Key: "a", Short: "what does it need?", Group: Ask, Example: "a", Opens: "dose", bare: true, Possible: day.Filled},
		{ID: "blue", Say: "blue [TAG]", Words: []string{"blue", "how blue"}, Does: "how blue a piece is and how many dips it takes; blue alone tells of all", Key: "B", Short: "how blue: plan the dips", Group: Ask, Example: "blue", Opens: "plan"},
		{ID: "ails", Say: "signs", Does: "what ails the vat, by what was read and seen", Group: Ask},
		{ID: "on the bench", Say: "bench", Does: "what comes next for each piece after its dips", Group: Ask, Opens: "bench"},
		{ID: "unconfirmed", Say: "unconfirmed", Words: []string{"unconfirmed", "what was planned"}, Does: "what was taken as planned and waits for your word", Group: Ask, Example: "unconfirmed",
			Opens: "unsaid", bare: true, Possible: func(s day.State) bool { return s.Unconfirmed() > 0 }},
		{ID: "log", Say: "log", Words: []string{"log"}, Does: "the day so far", Key: "l", Group: Ask, Example: "log", Opens: "log", bare: true},
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
