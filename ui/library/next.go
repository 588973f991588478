package library

import (
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/ui/shelf"
)

// Next is the head of the day after one, as that left the vat; with end the one that leads to the vat's end. It errs where there
// can be none.
func Next(d Day, end bool) (day.Head, error) {
	head, err := outlook.Next(d.State, end)
	head.Vat = d.Vat
	return head, err
}

// Set puts what the dyer set once for all days into the head of a day that begins at an instant.
func Set(head day.Head, s shelf.Settings, at time.Time) day.Head {
	head.Setup.Waiting, head.Setup.NoLook, head.Setup.Gear = !s.GoingOn, s.NoLook, s.Gear
	head.Setup.ReadyBy, head.Setup.DoneBy = day.Wished(at, s.ReadyBy), day.Wished(at, s.DoneBy)
	return head
}
