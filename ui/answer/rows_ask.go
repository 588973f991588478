package answer

// askRows only ask: each front end has an answer of its own for them. Those without words are screens.
func askRows() []Row {
	return []Row{
		{ID: "outlook", Say: "v", Words: []string{"v", "how is it"}, Does: "how the vat stands and where it goes", Key: "g", Group: Ask, Example: "v", Opens: "course", bare: true},
		{ID: "wants", Say: "a", Words: []string{"a", "what does it want"}, Does: "what it wants", Key: "a", Group: Ask, Example: "a", Opens: "dose", bare: true, Possible: filled},
		{ID: "blue", Say: "blue [TAG]", Words: []string{"blue", "how blue"}, Does: "how blue a piece is and how many dips it takes; blue alone tells of all", Key: "B", Group: Ask, Example: "blue", Opens: "plan"},
		{ID: "ails", Say: "signs", Does: "what ails the vat, by what was read and seen", Group: Ask},
		{ID: "on the bench", Say: "bench", Does: "what each piece wants after its dips", Key: "tab", Group: Ask, Opens: "bench"},
		{ID: "log", Say: "log", Words: []string{"log"}, Does: "the day so far", Key: "l", Group: Ask, Example: "log", Opens: "log", bare: true},
		{ID: "timetable", Say: "timetable", Words: []string{"timetable"}, Does: "the timetable of all pieces", Key: "m", Group: Ask, Example: "timetable", Opens: "timetable", bare: true},
		{ID: "care", Does: "keeping it alive", Key: "j", Group: Ask, Opens: "care"},
		{ID: "aid", Say: "!", Words: []string{"!", "first aid"}, Does: "first aid", Key: "!", Group: Ask, Example: "!", Opens: "aid", bare: true},
		{ID: "in words", Does: "say any of this in words", Key: ":", Group: Ask},
		{ID: "help", Say: "?", Words: []string{"?", "help"}, Does: "this list", Key: "?", Group: Ask, Example: "?", bare: true},
	}
}
