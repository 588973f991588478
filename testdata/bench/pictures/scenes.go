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
	shows     string // what the screen says at that moment, as late as a second of a running time
}

// said is something that vatside say adds behind the last event.
type said struct{ at, words string }

// press is keys, and what the screen says before they are pressed.
type press struct{ after, keys string }

const anyScreen = "! first aid"

// theFour are the pictures of README.md, and their themes.
var theFour = []struct {
	scene
	theme string
}{
	{scene{"clock", inventedDay, "A1 in, dip 2", []said{{"10:38", "32.5 C"}}, nil, "7:14"}, "dark"},
	{scene{"build", inventedDay, "step 9 done", nil, nil, anyScreen}, "light"},
	{scene{"planner", secondDay, "A1 in, dip 4", []said{{"11:25", "34 C"}}, []press{{anyScreen, "B"}}, "how many dips"}, "light"},
	{scene{"look", secondDay, "A1 out after dip 4", []said{{"11:43:40", "33 C"}}, nil, anyScreen}, "dark"},
	{scene{"look2", inventedDay, "B1 out after dip 3", []said{{"10:58", "32 C"}}, nil, anyScreen}, "dark"},
}
