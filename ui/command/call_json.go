package command

import "example.org/vatside/model/day"

func callKeys(c day.Call) object {
	var due *string
	if c.Due != nil {
		due = new(stamp(c.Due.At))
	}
	return object{
		{"id", c.ID}, {"verb", c.Verb}, {"object", c.Object}, {"short", c.Short}, {"figure", c.Figure}, {"unit", c.Unit}, {"due_at", due},
		{"press", some(c.Press)}, {"danger", c.Danger},
	}
}
