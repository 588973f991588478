package plain

import (
	"context"
	"strings"

	"example.org/vatside/ui/engine"
)

// whose says who writes the day, whenever that changes.
func (t *Terminal) whose(v engine.View) {
	said := "This program writes the day now."
	switch {
	case v.Free && v.State.Closed:
		return // it is closed, and nobody needs it
	case v.Free:
		said = "The other program has left this vat: Enter takes the day over."
	case v.Looking && v.Polled:
		said = "Another program has this day open: here it can only be looked at. Its disk tells of no changes, so it is read once a second."
	case v.Looking:
		said = "Another program has this day open: here it can only be looked at."
	case t.owner == "":
		t.owner = said // as it is from the beginning
	}
	if said != t.owner {
		t.owner = said
		t.say("%s", said)
	}
	if v.Newer != "" {
		t.once("newer "+v.Newer, "The other program has begun another day of this vat, "+v.Newer+".")
	}
}

// takes answers Enter where the other program has left the day. False: the line is an answer to the day.
func (t *Terminal) takes(ctx context.Context, v engine.View, line string) bool {
	if line != "" || !v.Free || v.State.Closed || t.TakeOver == nil {
		return false
	}
	if err := t.TakeOver(ctx); err != nil {
		t.say("Not taken over: %s.", strings.TrimSuffix(err.Error(), "."))
	}
	return true
}
