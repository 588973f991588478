package practice

import "example.org/vatside/model/wording"

// source is where a figure comes from, by its number in the list of sources or its letter: it says nothing at the vat.
var source = wording.Pattern(` ?\((?:[SCMK]\d*(?:, )?)+\)|S\d+[;,] |[;,]? ?\bICSC \d+(?:, \d+)*`)

// Unsourced is a sentence as it is read at the vat: without the marks of its evidence.
func Unsourced(text string) string { return source().ReplaceAllString(text, "") }
