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

// which lists the accidents for the first page, in large letters where they have room, else two on a line in a low window, so that none is
// cut off.
func which(columns, rows int, low bool, st style.Style) widget.List {
	named := make([]widget.Choice, len(topics))
	for i, t := range topics {
		named[i].Text = strconv.Itoa(i+1) + "  " + t.Name
	}
	if large, ok := widget.Large(named, -1, columns, rows, st); ok {
		return large
	}
	var list widget.List
	lines := len(topics)
	if low {
		lines = (len(topics) + 1) / 2
	}
	const column = 22 // cells
	for i, t := range named {
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
