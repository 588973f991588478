package screen

import (
	"example.org/vatside/model/signs"
	"example.org/vatside/ui/style"
)

// Unsourced is a sentence as it is read at the vat: without the marks of its evidence.
func Unsourced(text string) string { return unsourced.Of(text, signs.Unsourced) }

var unsourced style.Memory[string, string]
