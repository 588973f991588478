package aid

import (
	"strconv"
	"strings"

	"example.org/vatside/model/practice"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// topics are the accidents of a vat, one a key.
var topics = practice.FirstAid()

// named are the accidents with their figures, so far apart.
func named(gap string) []widget.Choice {
	list := make([]widget.Choice, len(topics))
	for i, t := range topics {
		list[i].Text = strconv.Itoa(i+1) + gap + t.Name
	}
	return list
}

// large are the accidents in large letters; false where they have no room.
func large(columns, rows int, st style.Style) (widget.List, bool) {
	list, ok := widget.Large(named("  "), -1, columns, rows, st)
	if ok {
		return list, true
	}
	short := named(" ")
	for i := range short { // where else than in the vat, is no question here
		short[i].Text = strings.TrimSuffix(short[i].Text, " in the vat")
	}
	if list, ok = widget.Large(short, -1, columns, rows, st); ok {
		list.Large = nil
		for _, t := range topics {
			list.Large = append(list.Large, t.Name)
		}
	}
	return list, ok
}

// small lists the accidents in letters of one row for the first page, two on a line in a low window, so that none is cut off.
func small(columns, rows int, low bool, st style.Style) widget.List {
	if !low {
		return widget.Listed(named("  "), columns, rows, st)
	}
	var list widget.List
	lines := (len(topics) + 1) / 2
	const column = 22 // cells
	for i, t := range named("  ") {
		line := i % lines
		if i < lines {
			list.Spots = append(list.Spots, widget.Spot{Line: line, Row: i})
			list.Lines = append(list.Lines, t.Text)
			continue
		}
		list.Spots[line] = widget.Spot{Line: line, To: column, Row: line}
		list.Spots = append(list.Spots, widget.Spot{Line: line, From: column, To: column + len(t.Text), Row: i})
		list.Lines[line] += strings.Repeat(" ", column-len(list.Lines[line])) + t.Text
	}
	for i, line := range list.Lines {
		list.Lines[i] = st.Act.Render(line)
	}
	return list
}
