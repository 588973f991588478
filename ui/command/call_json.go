package command

import (
	"time"

	"example.org/vatside/model/day"
)

// callJSON are the keys of a call.
type callJSON struct {
	ID     string   `json:"id"`
	Verb   string   `json:"verb"`
	Object string   `json:"object"`
	Short  string   `json:"short"`
	Figure *float64 `json:"figure"`
	Unit   string   `json:"unit"`
	DueAt  *string  `json:"due_at"`
	Press  *string  `json:"press"`
	Danger bool     `json:"danger"`
}

// callKeys is a call as JSON has it.
func callKeys(c day.Call) *callJSON {
	out := &callJSON{ID: c.ID, Verb: c.Verb, Object: c.Object, Short: c.Short, Figure: c.Figure, Unit: c.Unit, Danger: c.Danger}
	if c.Due != nil {
		at := c.Due.At.Format(time.RFC3339)
		out.DueAt = &at
	}
	if c.Press != "" {
		out.Press = &c.Press
	}
	return out
}
