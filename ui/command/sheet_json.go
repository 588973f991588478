package command

import "example.org/vatside/model/sheet"

// The keys of sheet --json: the blocks in their order, each with its kind and that kind's keys. The words have their units
// in them, as on paper.
type sheeted struct {
	Title    string         `json:"title"`
	Subtitle string         `json:"subtitle"`
	Edge     string         `json:"edge_srgb"`
	Blocks   []sheetedBlock `json:"blocks"`
	Foot     string         `json:"foot"`
}

type sheetedBlock struct {
	Kind     string          `json:"kind"`
	Text     string          `json:"text,omitempty"`
	Facts    []sheetedFact   `json:"facts,omitempty"`
	Columns  []sheetedColumn `json:"columns,omitempty"`
	Rows     [][]sheetedCell `json:"rows,omitempty"`
	Swatches []sheetedSwatch `json:"swatches,omitempty"`
	Ticks    []sheetedTick   `json:"ticks,omitempty"`
	Times    []sheetedSlot   `json:"times,omitempty"`
	Cautions []string        `json:"cautions,omitempty"`
	Tags     []sheetedTag    `json:"tags,omitempty"`
}

type sheetedFact struct {
	Name  string `json:"name"`
	Value string `json:"value"` // empty: to be written in
}

type sheetedColumn struct {
	Head    string `json:"head"`
	Figures bool   `json:"figures,omitempty"`
}

type sheetedCell struct {
	Text   string         `json:"text,omitempty"`
	Swatch *sheetedSwatch `json:"swatch,omitempty"`
	Boxes  int            `json:"boxes,omitempty"`
	Blank  bool           `json:"blank,omitempty"`
}

type sheetedSwatch struct {
	SRGB string `json:"srgb"`
	Name string `json:"name"`
	Rung int    `json:"rung,omitempty"`
	Note string `json:"note,omitempty"`
}

type sheetedTick struct {
	No      int      `json:"no,omitempty"`
	Title   string   `json:"title"`
	Figure  string   `json:"figure,omitempty"`
	Caution string   `json:"caution,omitempty"`
	Words   []string `json:"words,omitempty"`
	Write   []string `json:"write,omitempty"`
}

type sheetedSlot struct {
	At    string `json:"at"`
	Till  string `json:"till,omitempty"`
	Words string `json:"words"`
	Note  string `json:"note,omitempty"`
	Box   bool   `json:"box,omitempty"`
}

type sheetedTag struct {
	Tag   string `json:"tag"`
	Who   string `json:"who,omitempty"`
	Words string `json:"words"`
	Boxes int    `json:"boxes"`
	Done  int    `json:"done,omitempty"`
}

func sheetOf(s sheet.Sheet) sheeted {
	out := sheeted{Title: s.Title, Subtitle: s.Subtitle, Edge: s.Edge, Blocks: []sheetedBlock{}, Foot: s.Foot}
	for _, b := range s.Blocks {
		out.Blocks = append(out.Blocks, blockOf(b))
	}
	return out
}

func blockOf(b sheet.Block) sheetedBlock {
	out := sheetedBlock{Kind: b.Kind()}
	swatch := func(s sheet.Swatch) sheetedSwatch { return sheetedSwatch{s.Hex, s.Name, s.Rung, s.Note} }
	switch b := b.(type) {
	case sheet.Heading:
		out.Text = b.Text
	case sheet.Paragraph:
		out.Text = b.Text
	case sheet.Facts:
		for _, f := range b.List {
			out.Facts = append(out.Facts, sheetedFact(f))
		}
	case sheet.Table:
		for _, c := range b.Columns {
			out.Columns = append(out.Columns, sheetedColumn(c))
		}
		for _, r := range b.Rows {
			cells := []sheetedCell{}
			for _, c := range r {
				cell := sheetedCell{Text: c.Text, Boxes: c.Boxes, Blank: c.Blank}
				if c.Swatch != nil {
					s := swatch(*c.Swatch)
					cell.Swatch = &s
				}
				cells = append(cells, cell)
			}
			out.Rows = append(out.Rows, cells)
		}
	case sheet.Swatches:
		for _, s := range b.Row {
			out.Swatches = append(out.Swatches, swatch(s))
		}
	case sheet.Ticks:
		for _, k := range b.List {
			out.Ticks = append(out.Ticks, sheetedTick(k))
		}
	case sheet.Timetable:
		for _, r := range b.Rows {
			out.Times = append(out.Times, sheetedSlot(r))
		}
	case sheet.Cautions:
		out.Cautions = b.List
	case sheet.Tags:
		for _, t := range b.List {
			out.Tags = append(out.Tags, sheetedTag(t))
		}
	}
	return out
}
