package main

// scene is a screen of the invented day (vatside rehearse), at a fixed moment.
type scene struct {
	name, theme string
	until       string // the first line of vatside rehearse --plain that has these words is the last event
	says        []said
	keys        []press
	shows       string // what the screen says at that moment
}

// said is something that vatside say adds behind the last event.
type said struct{ at, words string }

// press is keys, and what the screen says before they are pressed.
type press struct{ after, keys string }

// clockShows is what the screen of the day says at each moment of it.
const clockShows = "Garden bin"

var dipping = scene{until: "A1 in, dip 3", says: []said{{"11:00", "32 C"}}}

// theFour are the pictures of README.md.
var theFour = []scene{
	{name: "clock", theme: "dark", until: "A1 in, dip 2", says: []said{{"10:38", "32.5 C"}}, shows: "! first aid"},
	{name: "build", theme: "light", until: "weighed 72 g of sodium dithionite", shows: "! first aid"},
	{name: "planner", theme: "light", until: "A1 in, dip 2", says: []said{{"10:38", "32.5 C"}}, keys: []press{{"! first aid", "B"}}, shows: "! first aid"},
	{name: "look", theme: "dark", until: "B1 out after dip 3", says: []said{{"10:57", "32 C"}}, shows: "! first aid"},
}
