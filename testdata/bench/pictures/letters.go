package main

import (
	"bytes"
	_ "embed"
	"image"
	"image/png"
	"sync"
)

// The letters are a picture, a cell each, 32 in a row: those of letterList in Go Mono, from a new row on the same in Go Mono Bold;
// 26.66 px high, the baseline 24 px below the top of the cell, eight levels of grey. They were drawn once with
// golang.org/x/image/font/opentype, which is no dependency: go mod tidy looks at no package in testdata, and would take it out of
// go.mod. Go Mono is by Bigelow & Holmes Inc., under the licence of Go (LICENSE.letters).
//
//go:embed letters.png
var letterSheet []byte

const letterList = "!\"#$%&'()*+,-./0123456789:;<=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[\\]^_`abcdefghijklmnopqrstuvwxyz{|}~" +
	"·–°×≥≤Δ↑↓←→′″±²³¹¼½¾÷µ…—−‘’“”€£§«»‰√≈≠∞αβγδηθλμπρστΣΩ₀₁₂₃₄⁰⁴⁵⁶⁷⁸⁹⁻ⁿ⅛⅜⅝⅞ℓàâäåçèéêñóôöøüßÀÂÄÅÇÉÑÖØÜ"

// A cell of a picture, in pixels: twice what it is shown at, so that letters are crisp where a screen has two pixels for one.
const cellWidth, cellHeight = 16, 32

// steps is how much of its ink a letter has where it covers a pixel wholly; 0 where it does not touch it.
const steps = 7

const sheetColumns = 32

type letters struct {
	sheet *image.Paletted
	place map[rune]int
	rows  int // of one weight
}

var lettering = sync.OnceValue(func() letters {
	img, err := png.Decode(bytes.NewReader(letterSheet))
	if err != nil {
		panic(err) // it is part of the program
	}
	l := letters{img.(*image.Paletted), map[rune]int{}, 0}
	n := 0
	for _, r := range letterList {
		l.place[r] = n
		n++
	}
	l.rows = (n + sheetColumns - 1) / sheetColumns
	return l
})

// ink is how much of the ink a letter has in a pixel of its cell, from 0 to steps; false for one that the sheet has not.
func (l letters) ink(r rune, bold bool) (at func(x, y int) int, ok bool) {
	n, ok := l.place[r]
	if !ok {
		return nil, false
	}
	row := n / sheetColumns
	if bold {
		row += l.rows
	}
	left, top := n%sheetColumns*cellWidth, row*cellHeight
	return func(x, y int) int { return int(l.sheet.ColorIndexAt(left+x, top+y)) }, true
}
