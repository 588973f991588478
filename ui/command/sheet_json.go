package command

import (
	"example.org/vatside/model/sheet"
)

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
	Cards    []sheetedCard   `json:"cards,omitempty"`
	Plot     *sheetedPlot    `json:"plot,omitempty"`
}

// sheetedPlot is what was read; the levels of a series are in its unit.
type sheetedPlot struct {
	From   string          `json:"from"`
	Till   string          `json:"till"`
	Series []sheetedSeries `json:"series"`
}

type sheetedSeries struct {
	Name   string         `json:"name"`
	Unit   string         `json:"unit"` // empty for pH
	Low    float64        `json:"axis_low"`
	High   float64        `json:"axis_high"`
	Works  *[2]float64    `json:"works_at,omitempty"`
	Points []sheetedPoint `json:"points"`
}

type sheetedPoint struct {
	At    string  `json:"at"`
	Level float64 `json:"level"`
	Words string  `json:"words"`
	Known string  `json:"known"`
	SRGB  string  `json:"srgb,omitempty"`
}

type sheetedCard struct {
	Tag     string         `json:"tag"`
	What    string         `json:"what"`
	Swatch  *sheetedSwatch `json:"swatch,omitempty"` // left out where the blue was not seen
	Made    string         `json:"made"`
	Care    []string       `json:"care"`
	Rubbing []string       `json:"rubbing"`
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
			out.Columns = append(out.Columns, sheetedColumn{c.Head, c.Figures})
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
	case sheet.Cards:
		for _, c := range b.List {
			card := sheetedCard{Tag: c.Tag, What: c.What, Made: c.Made, Care: c.Care, Rubbing: c.Rubbing}
			if c.Swatch != nil {
				s := swatch(*c.Swatch)
				card.Swatch = &s
			}
			out.Cards = append(out.Cards, card)
		}
	case sheet.Plot:
		p := plotted(b)
		out.Plot = &p
	}
	return out
}

func plotted(p sheet.Plot) sheetedPlot {
	out := sheetedPlot{From: stamp(p.From), Till: stamp(p.Till)}
	level := func(l sheet.Level) float64 { return tidy(float64(l)) }
	for _, s := range p.Series {
		series := sheetedSeries{Name: s.Name, Unit: s.Unit, Low: level(s.Low), High: level(s.High)}
		if s.Works != nil {
			series.Works = &[2]float64{level(s.Works[0]), level(s.Works[1])}
		}
		for _, q := range s.Points {
			series.Points = append(series.Points, sheetedPoint{stamp(q.At), level(q.Level), q.Words, q.Known.String(), q.Hex})
		}
		out.Series = append(out.Series, series)
	}
	return out
}
