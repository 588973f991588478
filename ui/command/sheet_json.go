package command

import (
	"bytes"

	"example.org/vatside/model/sheet"
)

type sheetedBlock struct{ sheet.Block }

// MarshalJSON puts the kind before the block's own keys.
func (b sheetedBlock) MarshalJSON() ([]byte, error) {
	var body any = b.Block
	if p, is := b.Block.(sheet.Plot); is {
		body = object{{"plot", plotted(p)}}
	}
	keys, err := inJSON(body, "")
	kind := `{"kind":"` + b.Kind() + `"`
	if keys = bytes.TrimSpace(keys); len(keys) > len("{}") {
		kind += ","
	}
	return append([]byte(kind), bytes.TrimPrefix(keys, []byte("{"))...), err
}

// sheetOf are the keys of sheet --json: the blocks in their order, each with its kind and that kind's keys, as model/sheet has
// them. The words have their units in them, as on paper.
func sheetOf(s sheet.Sheet) object {
	return object{{"title", s.Title}, {"subtitle", s.Subtitle}, {"edge_srgb", s.Edge},
		{"blocks", each(s.Blocks, func(b sheet.Block) sheetedBlock { return sheetedBlock{b} })}, {"foot", s.Foot}}
}

// plotted is what was read; the levels of a series are in its unit, which is empty for pH.
func plotted(p sheet.Plot) object {
	level := func(l sheet.Level) float64 { return tidy(float64(l)) }
	return object{{"from", stamp(p.From)}, {"till", stamp(p.Till)}, {"series", each(p.Series, func(s sheet.Series) object {
		keys := object{{"name", s.Name}, {"unit", s.Unit}, {"axis_low", level(s.Low)}, {"axis_high", level(s.High)}}
		if s.Works != nil {
			keys = keys.and(true, "works_at", [2]float64{level(s.Works[0]), level(s.Works[1])})
		}
		return keys.and(true, "points", each(s.Points, func(q sheet.Point) object {
			return object{{"at", stamp(q.At)}, {"level", level(q.Level)}, {"words", q.Words}, {"known", q.Known.String()}}.and(q.Hex != "", "srgb", q.Hex)
		}))
	})}}
}
