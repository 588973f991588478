package main

// The days that scenes stand in: the invented one of vatside rehearse, and two of testdata/days, the second with the first before it.
const (
	inventedDay = "invented"
	firstDay    = "soda-bin"
	secondDay   = "soda-bin-second-day"
)

// scene is a screen of a day at a fixed moment.
type scene struct {
	name, day string
	until     string // the first line about an event with these words tells the last event
	says      []said
	keys      []press
	shows     string // what the screen says at that moment: where a time runs, a second of it, a few after the start
}

// said is something that vatside say adds behind the last event.
type said struct{ at, words string }

// press is keys, and what the screen says before they are pressed.
type press struct{ after, keys string }

// anyScreen is at the end of every row of keys.
const anyScreen = "! first aid"

// swatches are strips of the runner's three dips of the day before, which make its forecasts sharp.
func swatches(at string, then ...said) []said {
	return append([]said{{at, "cut A1 1 lab 60 -8 -20"}, {at, "cut A1 2 lab 48 -6 -26"}, {at, "cut A1 3 lab 41 -5 -28"}}, then...)
}

// theFour are the pictures of README.md, and their themes.
var theFour = []struct {
	scene
	theme string
}{
	{scene{"clock", inventedDay, "A1 in, dip 2", []said{{"10:38", "32.5 C"}}, nil, "7:12"}, "dark"},
	{scene{"build", inventedDay, "step 9 done", nil, nil, anyScreen}, "light"},
	{scene{"planner", secondDay, "A1 in, dip 4", swatches("11:24", said{"11:25", "34 C"}), []press{{anyScreen, "B"}}, "out in 6:02"}, "light"},
	{scene{"look", secondDay, "A1 out after dip 4", swatches("11:37", said{"11:43:40", "33 C"}), nil, "in 1:52"}, "dark"},
}

// more are what -all paints beside the four.
var more = []scene{
	other("home", "1 vat", "H"), other("timetable", "the day", "m"), other("whose turn", "the board", "m", "2"), other("what if", "what if", "m", "3"),
	other("signs", "signs", "u"), other("care", "10 May", "j"), other("ladder", "the ladder", "L"), other("dose", "out in", "a"),
	other("log", "log of", "l"), other("course", "out in", "g"), other("bench", "the bench", "\t"), other("say", "take it", ":", "A1 out 1 min ago"),
	other("first aid", "first aid", "!"), other("help", "keys", "?"), other("leaving", "leaving", "q"), other("settings", "settings", "H", ","),
	other("powders", "powders", "H", "P"), other("before the day", "before the day", "H", "b"), other("cost", "what it cost", "H", "C"),
	other("new vat", "new vat", "H", "N"), other("a new tin", "a new tin", "H", "P", "\r", "soda a"), other("eyes", "keep the water", "!", "1", " "),
}

// other is a screen to which keys lead from the dips of the second day.
func other(name, shows string, keys ...string) scene {
	s := scene{name, secondDay, "A1 in, dip 4", swatches("11:24", said{"11:25", "34 C"}), nil, shows}
	after := anyScreen
	for _, k := range keys {
		s.keys = append(s.keys, press{after, k})
		after = ""
	}
	return s
}
