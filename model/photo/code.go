package photo

import "hash/fnv"

// Code is which vat and piece a card was printed for, each as a number made of its name; 0: none. The card has the names in
// letters too, and whoever has the book knows which name a number stands for.
type Code struct {
	Vat   uint32 `json:"vat"`
	Piece uint32 `json:"piece"`
}

// CodeOf is the code of a vat and a piece; an empty name gives 0.
func CodeOf(vat, piece string) Code { return Code{number(vat), number(piece)} }

// number is FNV-1a, 32 bits, of a name.
func number(name string) uint32 {
	if name == "" {
		return 0
	}
	h := fnv.New32a()
	h.Write([]byte(name))
	return max(1, h.Sum32())
}

// upright are the first cells of every code: they tell which way up the card lies.
const upright uint16 = 0b1110_0010_1101_0010

// cells is a code as cells, row by row from the upper left, true for black: upright, vat, piece, check sum.
func (c Code) cells() (out [codeRow * codeColumn]bool) {
	i := 0
	put := func(v uint32, bits int) {
		for b := bits - 1; b >= 0; b-- {
			out[i], i = v>>b&1 == 1, i+1
		}
	}
	put(uint32(upright), 16)
	put(c.Vat, 32)
	put(c.Piece, 32)
	put(uint32(c.sum()), 16)
	return out
}

// Cells are the black cells of a code on the card.
func (c Code) Cells() []Square {
	var out []Square
	for i, black := range c.cells() {
		if black {
			out = append(out, cellAt(i))
		}
	}
	return out
}

func cellAt(i int) Square {
	return Square{codeX + cell*float64(i%codeColumn), codeY + cell*float64(i/codeColumn), cell}
}

// sum is CRC-16 (polynomial 0x1021, begun with 0xffff) over the bytes of both numbers, the highest first.
func (c Code) sum() uint16 {
	crc := uint16(0xffff)
	for _, v := range []uint32{c.Vat, c.Piece} {
		for shift := 24; shift >= 0; shift -= 8 {
			crc ^= uint16(v>>shift&0xff) << 8
			for range 8 {
				high := crc&0x8000 != 0
				if crc <<= 1; high {
					crc ^= 0x1021
				}
			}
		}
	}
	return crc
}

// decoded is the code of cells as they were seen; false where the check sum is another.
func decoded(cells []bool) (Code, bool) {
	i := 16
	take := func(bits int) (v uint32) {
		for range bits {
			if v <<= 1; cells[i] {
				v |= 1
			}
			i++
		}
		return v
	}
	c := Code{Vat: take(32), Piece: take(32)}
	return c, uint16(take(16)) == c.sum()
}

// uprightCells is how many of the first cells are as they should be, of 16.
func uprightCells(cells []bool) (n int) {
	for i := range 16 {
		if cells[i] == (upright>>(15-i)&1 == 1) {
			n++
		}
	}
	return n
}
