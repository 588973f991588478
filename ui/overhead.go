package ui

import (
	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// overhead is the call that stands over what is shown: of the days that are written here and have a time that runs or is over,
// the one that rules. A day's own screen shows its call itself, while nothing stands in front of it.
func (m model) overhead() widget.CallRow {
	if len(m.stack) == 0 {
		return widget.CallRow{}
	}
	top := m.stack[len(m.stack)-1]
	own := top.at == screen.AtDay && !m.help && m.leaving == staying
	var rules day.Call
	var of engine.View
	written := 0
	for _, v := range m.snap.Days {
		if v.Looking || v.State.Closed {
			continue
		}
		written++
		c := day.CallOf(v.State, v.Now)
		if c.Due == nil || own && v.ID == top.day {
			continue
		}
		if rules.Due == nil || c.Compare(rules) < 0 {
			rules, of = c, v
		}
	}
	row := widget.CallRow{Words: rules.Row(of.Now)}
	if row.Words == "" {
		return row
	}
	if written > 1 {
		row.Vat = vatName(of)
	}
	switch left := rules.Due.At.Sub(of.Now); {
	case left <= 0:
		row.Tone = widget.Trouble
	case left <= day.LastMinute:
		row.Tone = widget.Now
	}
	return row
}
