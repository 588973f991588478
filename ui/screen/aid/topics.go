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

// which lists the accidents for the first page, two on a line in a low window, so that none is cut off.
func which(st style.Style, low bool) widget.List {
	var list widget.List
	lines := len(topics)
	if low {
		lines = (len(topics) + 1) / 2
	}
	const column = 22 // cells
	for i, t := range topics {
		line, words := i%lines, strconv.Itoa(i+1)+"  "+t.Name
		if i < lines {
			list.Spots = append(list.Spots, widget.Spot{Line: line, Row: i})
			list.Lines = append(list.Lines, words)
			continue
		}
		list.Spots[line] = widget.Spot{Line: line, To: column, Row: line}
		list.Spots = append(list.Spots, widget.Spot{Line: line, From: column, To: column + len(words), Row: i})
		list.Lines[line] += strings.Repeat(" ", column-len(list.Lines[line])) + words
	}
	for i, line := range list.Lines {
		list.Lines[i] = st.Act.Render(line)
	}
	return list
}
