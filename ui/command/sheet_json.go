package command

import (
	"bytes"

	"example.org/vatside/model/sheet"
)

// The keys of sheet --json: the blocks in their order, each with its kind and that kind's keys, as model/sheet has them. The
// words have their units in them, as on paper.
type sheeted struct {
	Title    string         `json:"title"`
	Subtitle string         `json:"subtitle"`
	Edge     string         `json:"edge_srgb"`
	Blocks   []sheetedBlock `json:"blocks"`
	Foot     string         `json:"foot"`
}

type sheetedBlock struct{ sheet.Block }

// MarshalJSON puts the kind before the block's own keys.
func (b sheetedBlock) MarshalJSON() ([]byte, error) {
	var body any = b.Block
	if p, is := b.Block.(sheet.Plot); is {
		body = struct {
			Plot sheetedPlot `json:"plot"`
		}{plotted(p)}
	}
	keys, err := inJSON(body, "")
	kind := `{"kind":"` + b.Kind() + `"`
	if keys = bytes.TrimSpace(keys); len(keys) > len("{}") {
		kind += ","
	}
	return append([]byte(kind), bytes.TrimPrefix(keys, []byte("{"))...), err
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

func sheetOf(s sheet.Sheet) sheeted {
	out := sheeted{Title: s.Title, Subtitle: s.Subtitle, Edge: s.Edge, Blocks: []sheetedBlock{}, Foot: s.Foot}
	for _, b := range s.Blocks {
		out.Blocks = append(out.Blocks, sheetedBlock{b})
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
