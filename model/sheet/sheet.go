// Package sheet makes sheets of paper: a day to be done, a day as it was, a vat's history, the tags and the slips of a
// workshop, the dangers and what helps. A sheet is a small document of blocks; ui/paper sets it as text, Markdown or HTML.
//
// What a sheet says stands in words and figures with their units, in the system of the day or as asked. A colour is data
// and never says anything alone: each has its name and its number beside it. To add a part to a sheet, add blocks to it;
// to add a kind of block, give it a Kind here and a case in each renderer of ui/paper.
package sheet

import (
	"example.org/vatside/model/book"
	"example.org/vatside/model/photo"
	"example.org/vatside/model/wording"
)

// Sheet is one document. Its parts stand in the order of the page.
type Sheet struct {
	Title    string
	Subtitle string
	Edge     string // the cloth at the edge of the page, sRGB as #rrggbb; empty: dark indigo on white cotton
	Blocks   []Block
	Foot     string // what holds for the whole sheet, small
}

// Add puts blocks at the end. Not inlined: that was 10 kB of the program.
//
//go:noinline
func (s *Sheet) Add(blocks ...Block) { s.Blocks = append(s.Blocks, blocks...) }

// WithDamage puts in front which of the days that the sheet tells of are not whole in the book.
func (s Sheet) WithDamage(days ...Day) Sheet {
	told := wording.Some(days, func(d Day) (Block, bool) {
		return Paragraph{book.NotWhole(d.State.Head.Vat+"/"+d.Name, d.Damage) + "."}, d.Damage != ""
	})
	s.Blocks = append(told, s.Blocks...)
	return s
}

// Block is one part of a sheet: one of the types below. Kind is its stable name, and the tags are the keys of its JSON.
type Block interface{ Kind() string }

// Heading opens a part.
type Heading struct {
	Text string `json:"text,omitempty"`
}

// Paragraph is running text.
type Paragraph struct {
	Text string `json:"text,omitempty"`
}

// Facts are names with their values.
type Facts struct {
	List []Fact `json:"facts,omitempty"`
}

// add adds a name with its value, if it has one.
func (f *Facts) add(name, value string) {
	if value != "" {
		f.List = append(f.List, Fact{name, value})
	}
}

// Fact is one name with its value; without a value it is a line to write on.
type Fact struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// Table is rows under heads. A row has as many cells as there are columns.
type Table struct {
	Columns []Column `json:"columns,omitempty"`
	Rows    [][]Cell `json:"rows,omitempty"`
}

// Column is the head of a column. Figures stand at its right; Whole cells are not broken over two lines.
type Column struct {
	Head    string `json:"head"`
	Figures bool   `json:"figures,omitempty"`
	Whole   bool   `json:"-"`
}

// Cell is text, a colour with its name, boxes to tick, or room to write: whichever is there, in this order.
type Cell struct {
	Text   string  `json:"text,omitempty"`
	Swatch *Swatch `json:"swatch,omitempty"`
	Boxes  int     `json:"boxes,omitempty"`
	Blank  bool    `json:"blank,omitempty"`
}

// Swatch is a colour with what tells it without colour.
type Swatch struct {
	Hex  string `json:"srgb"`           // #rrggbb
	Name string `json:"name"`           // of its depth, or what cloth it is
	Rung int    `json:"rung,omitempty"` // of the vat's ladder; 0: none
	Note string `json:"note,omitempty"` // how it is known, whose it is
}

// Swatches are colours side by side.
type Swatches struct {
	Row []Swatch `json:"swatches,omitempty"`
}

// Ticks are things to do, each with a box.
type Ticks struct {
	List []Tick `json:"ticks,omitempty"`
}

// Tick is one thing to do. Its caution comes before its words.
type Tick struct {
	No      int      `json:"no,omitempty"` // 0: not numbered
	Title   string   `json:"title"`
	Figure  string   `json:"figure,omitempty"` // the one amount that matters, with its unit
	Caution string   `json:"caution,omitempty"`
	Words   []string `json:"words,omitempty"`
	Write   []string `json:"write,omitempty"` // what is to be written down beside it, such as "at" or "°C"
}

// Timetable is what happens when, in order.
type Timetable struct {
	Rows []Slot `json:"times,omitempty"`
}

// Slot is one row of a timetable.
type Slot struct {
	At    string `json:"at"`             // a time of day, or a time from the start
	Till  string `json:"till,omitempty"` // the same; may be empty
	Words string `json:"words"`
	Note  string `json:"note,omitempty"`
	Box   bool   `json:"box,omitempty"` // still to come, to be ticked
}

// Cautions are dangers, told before the step that brings them.
type Cautions struct {
	List []string `json:"cautions,omitempty"`
}

// Tags are labels to cut out, one a piece.
type Tags struct {
	List []Tag `json:"tags,omitempty"`
}

// Tag is one label to cut out: tag, fibre, dry weight, wish.
type Tag struct {
	Tag   string `json:"tag"`
	Who   string `json:"who,omitempty"`  // whose piece it is; empty: nobody's
	Words string `json:"words"`          // weight, cloth, dips
	Boxes int    `json:"boxes"`          // one a dip
	Done  int    `json:"done,omitempty"` // of them, behind it already
}

// Cards are what goes with pieces to their buyers, to be cut out, one a piece.
type Cards struct {
	List []Card `json:"cards,omitempty"`
}

// Card is one card for the buyer of a piece.
type Card struct {
	Tag     string   `json:"tag"`
	What    string   `json:"what"`
	Swatch  *Swatch  `json:"swatch,omitempty"` // nil: the blue was not seen
	Made    string   `json:"made"`
	Care    []string `json:"care"`
	Rubbing []string `json:"rubbing"`
}

// Mask is the card of model/photo, to be cut out and laid over cloth.
type Mask struct {
	Of   string     `json:"of,omitempty"` // vat and piece, in letters
	Code photo.Code `json:"code"`         // the same for the reader
}

// Slips are what people take home with their pieces, to be cut out, one a person.
type Slips struct {
	List []Slip `json:"slips,omitempty"`
}

// Slip is one person's pieces and what is to be done to them at home.
type Slip struct {
	Who     string      `json:"who"` // empty: a line to write on
	Pieces  []string    `json:"pieces"`
	Goods   []SlipGoods `json:"goods"`
	Rubbing string      `json:"rubbing"`
}

// SlipGoods are pieces that are finished together: the steps in their order, then how they are washed ever after.
type SlipGoods struct {
	Of    string   `json:"of"` // fibre and tags
	Steps []Tick   `json:"steps,omitempty"`
	Care  []string `json:"care"`
}

// PageBreak is where a new page may well begin.
type PageBreak struct{}

// The stable names of the blocks.

func (Heading) Kind() string   { return "heading" }
func (Paragraph) Kind() string { return "paragraph" }
func (Facts) Kind() string     { return "facts" }
func (Table) Kind() string     { return "table" }
func (Swatches) Kind() string  { return "swatches" }
func (Ticks) Kind() string     { return "ticks" }
func (Timetable) Kind() string { return "timetable" }
func (Cautions) Kind() string  { return "cautions" }
func (Tags) Kind() string      { return "tags" }
func (Cards) Kind() string     { return "cards" }
func (Mask) Kind() string      { return "mask" }
func (Slips) Kind() string     { return "slips" }
func (PageBreak) Kind() string { return "page_break" }
