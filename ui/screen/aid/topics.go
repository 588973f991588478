package aid

import (
	"strconv"

	"example.org/vatside/model/practice"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// topics are the accidents of a vat, one a key.
var topics = practice.FirstAid()

// which lists the accidents for the first page.
func which(st style.Style) widget.List {
	var list widget.List
	for i, t := range topics {
		list.Spots = append(list.Spots, widget.Spot{Line: i, Row: i})
		list.Lines = append(list.Lines, st.Act.Render(strconv.Itoa(i+1)+"  "+t.Name))
	}
	return list
}
