package aid

import (
	"strconv"

	"example.org/vatside/model/signs"
	"example.org/vatside/ui/style"
)

// topics are the accidents of a vat, one a key.
var topics = signs.FirstAid()

// which lists the accidents for the first page.
func which(st style.Style) []string {
	var lines []string
	for i, t := range topics {
		lines = append(lines, st.Act.Render(strconv.Itoa(i+1)+"  "+t.Name))
	}
	return lines
}
