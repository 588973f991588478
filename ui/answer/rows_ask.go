package answer

import "example.org/vatside/model/day"

// askRows only ask: each front end has an answer of its own for them. Those without words are screens and what leads to them.
func askRows() []Row {
	return []Row{
		{ID: "outlook", Say: "how is it", Words: []string{"how is it"}, Does: "how the vat stands and where it goes", Key: "g", Short: "its course", Group: Ask, Example: "g", Opens: "course", bare: true},
		{ID: "wants", Say: "what does it want", Words: []string{"what does it want"}, Does: "what it wants", Key: "a", Short: "what does it want?", Group: Ask, Example: "a", Opens: "dose", bare: true, Possible: filled},
		{ID: "blue", Say: "blue [TAG]", Words: []string{"blue", "how blue"}, Does: "how blue a piece is and how many dips it takes; blue alone tells of all", Key: "B", Short: "how blue: plan the dips", Group: Ask, Example: "blue", Opens: "plan"},
		{ID: "ails", Say: "signs", Does: "what ails the vat, by what was read and seen", Group: Ask},
		{ID: "on the bench", Say: "bench", Does: "what each piece wants after its dips", Group: Ask, Opens: "bench"},
		{ID: "unconfirmed", Say: "unconfirmed", Words: []string{"unconfirmed", "what was planned"}, Does: "what was taken as planned and waits for your word", Group: Ask, Example: "unconfirmed",
			Opens: "unsaid", bare: true, Possible: func(s day.State) bool { return s.Unconfirmed() > 0 }},
		{ID: "log", Say: "log", Words: []string{"log"}, Does: "the day so far", Key: "l", Group: Ask, Example: "log", Opens: "log", bare: true},
		{ID: "timetable", Say: "timetable", Words: []string{"timetable"}, Does: "the timetable of all pieces", Key: "m", Short: "the timetable", Group: Ask, Example: "timetable", Opens: "timetable", bare: true},
		{ID: "care", Does: "keeping it alive", Key: "j", Group: Ask, Opens: "care"},
		{ID: "aid", Say: "!", Words: []string{"!", "first aid"}, Does: "first aid", Key: "!", Group: Ask, Example: "!", Opens: "aid", bare: true},
		{ID: "hush", Does: "the call that sounds is hushed; the next one sounds again", Key: "Z", Short: "hush this call", Group: Ask},
		{ID: "in words", Does: "say any of this in words", Key: ":", Short: "say it in words", Group: Ask},
		{ID: "help", Say: "?", Words: []string{"?", "help"}, Does: "this list", Key: "?", Group: Ask, Example: "?", bare: true},
		{ID: "home", Does: "home, with all vats; the day goes on", Key: "H", Short: "home", Group: Ask},
		{ID: "quit", Does: "leave the program; the day stays open", Key: "q", Short: "quit", Group: Ask},
	}
}
