package command

import (
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
	out := &callJSON{ID: c.ID, Verb: c.Verb, Object: c.Object, Short: c.Short, Figure: c.Figure, Unit: c.Unit, Press: some(c.Press), Danger: c.Danger}
	if c.Due != nil {
		out.DueAt = new(stamp(c.Due.At))
	}
	return out
}
