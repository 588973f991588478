package main

import "strings"

// block is how much of the ink a block glyph has in a pixel of its cell, from 0 to steps. Blocks are geometry and fill their cells
// to the edge, so that large letters and cloths have no seams; false: it is none.
func block(r rune) (at func(x, y int) int, ok bool) {
	part := func(left, top, right, bottom int) func(x, y int) int { // eighths of the cell
		return func(x, y int) int {
			if x*8 >= left*cellWidth && x*8 < right*cellWidth && y*8 >= top*cellHeight && y*8 < bottom*cellHeight {
				return steps
			}
			return 0
		}
	}
	even := func(share float64) func(x, y int) int {
		return func(x, y int) int { return int(share*steps + 0.5) }
	}
	line := func(vertical bool) func(x, y int) int {
		return func(x, y int) int {
			if vertical && x/2 == cellWidth/4 || !vertical && y/2 == cellHeight/4 {
				return steps
			}
			return 0
		}
	}
	square := func(hollow bool) func(x, y int) int { // ■, and ▣, which has a ring around it
		return func(x, y int) int {
			const margin = 2
			off := max(abs(2*x+1-cellWidth), abs(2*y+1-cellHeight)) / 2 // from the middle
			reach := cellWidth/2 - margin
			if off < reach && !(hollow && off >= reach-3 && off < reach-1) {
				return steps
			}
			return 0
		}
	}
	switch {
	case r == '█':
		return part(0, 0, 8, 8), true
	case r == '▀':
		return part(0, 0, 8, 4), true
	case r == '▔':
		return part(0, 0, 8, 1), true
	case r == '▐':
		return part(4, 0, 8, 8), true
	case r == '▕':
		return part(7, 0, 8, 8), true
	case r >= '▁' && r <= '▇': // one to seven eighths from below
		return part(0, 8-int(r-'▁'+1), 8, 8), true
	case r >= '▉' && r <= '▏': // seven eighths to one from the left
		return part(0, 0, 8-int(r-'▉'+1), 8), true
	case r == '░':
		return even(0.25), true
	case r == '▒':
		return even(0.5), true
	case r == '▓':
		return even(0.75), true
	case r == '─':
		return line(false), true
	case r == '│':
		return line(true), true
	case r == '■':
		return square(false), true
	case r == '▣':
		return square(true), true
	}
	// The quarters in the order of Unicode, U+2596 to U+259F: upper left, upper right, lower left, lower right.
	i := strings.IndexRune("▖▗▘▙▚▛▜▝▞▟", r)
	if i < 0 {
		return nil, false
	}
	quarters := strings.Fields("0010 0001 1000 1011 1001 1110 1101 0100 0110 0111")[i/len("▖")]
	return func(x, y int) int {
		return steps * int(quarters[2*(2*y/cellHeight)+2*x/cellWidth]-'0')
	}, true
}

func abs(n int) int { return max(n, -n) }
