package days

import "path/filepath"

// A Place is what the commands are told: a home, a day in it, a piece of that day, and a folder for what they make.
type Place struct{ Home, Vat, Day, Tag, Out string }

// Commands are command lines that read the home of a place, each command of the program that reads one at least once. The last few
// write into it: a day of its own behind the others, or the day that is open.
func (p Place) Commands() [][]string {
	day := p.Vat + "/" + p.Day
	lines := [][]string{
		{"now"}, {"now", "--json"},
		{"book"}, {"book", "--json"}, {"book", day}, {"book", "verify"}, {"book", "verify", "--json"}, {"book", "mend", day}, {"book", "mend", day, "--json"}, {"book", "export", "--csv", filepath.Join(p.Out, "tables")},
		{"care"}, {"care", "--json"},
		{"sheet", p.Vat}, {"sheet", day, "--json"}, {"sheet", p.Vat, "--what", "vat", "--format", "md"}, {"sheet", p.Vat, "--what", "vat", "--full"},
		{"sheet", p.Vat, "--what", "tags"}, {"sheet", p.Vat, "--what", "slips"}, {"sheet", p.Vat, "--what", "labels"}, {"sheet", p.Vat, "--what", "cost"},
		{"sheet", p.Vat, "--what", "safety", "--format", "html"},
		{"sheet", p.Vat, "--what", "card", "--piece", p.Tag, "--format", "html"},
		{"cost", p.Vat}, {"cost", p.Vat, "--json", "--hour", "18.50"},
		{"like", "--lab", "31,-3,-20"}, {"like", "--piece", day + "/" + p.Tag, "--json"},
		{"signs", "--vat", p.Vat, "--seen", "blue, cloudy"}, {"signs", "--vat", p.Vat, "--seen", "milky", "--json"},
		{"finish", "--piece", "420 g linen", "--vat", p.Vat}, {"prepare", "--piece", "420 g linen", "--vat", p.Vat},
		{"stock"}, {"stock", "--json"},
		{"rehearse", "--plain", "--speed", "max"}, // refuses a home with real days
		{"begin", p.Vat, "--json"}, {"say", p.Vat, "36 C"}, {"say", p.Vat, "done", "--answered", "--json"}, {"say", p.Vat, "v"}, {"say", p.Vat, p.Tag, "out"},
	}
	for i := range lines {
		lines[i] = append(lines[i], "--home", p.Home)
	}
	return lines
}

// Others are command lines that read no day, one a command.
func Others(home string) [][]string {
	lines := [][]string{
		{}, {"help"}, {"guide"}, {"guide", "files"}, {"man"}, {"completion", "bash"}, {"settings"}, {"settings", "--json"}, {"recipes"}, {"recipes", "show", "soda"}, {"recipes", "choose", "--fibre", "wool"},
		{"weigh", "--recipe", "soda", "--fill", "60L"}, {"warm", "--fill", "15L", "--cold", "12C", "--hot", "60C", "--aim", "40C"},
		{"reckon", "ph", "--help"}, {"load", "--help"},
		{"dips", "--recipe", "soda", "--fill", "60L", "--piece", "420 g linen", "--depth", "dark"},
	}
	for i := range lines {
		lines[i] = append(lines[i], "--home", home)
	}
	return lines
}
