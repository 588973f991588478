package engine

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/shelf"
)

// reason is in a dyer's words why an act is not on disk.
func reason(err error) string {
	var own guard.Crash
	if errors.As(err, &own) {
		return own.Error()
	}
	return shelf.Reason(err)
}

// unanswering is why, where a write came to no end.
const unanswering = "the disk does not answer"

// nowhere says that acts are on no disk at all.
func nowhere(acts int, why string) string {
	word := fmt.Sprintf("%s NOT on disk: %s, and no other place takes %s; ", wording.Counted(acts, "act"), why, plural(acts, "it", "them"))
	word += wording.If(why == shelf.Full, "make room, ")
	return word + "it is tried again"
}

// keptIn says where acts are that their day's file did not take.
func keptIn(a shelf.Away, why string) string {
	word := fmt.Sprintf("%s kept in %s", wording.Counted(a.Events, "act"), middle(filepath.Dir(a.File), folderWide))
	word += wording.If(a.Passing, " till the machine restarts")
	word += ": " + why
	word += wording.If(why == shelf.Full, "; make room")
	return word
}

// folderWide is how many characters of a folder a banner has at most, so that it is two lines of a narrow window.
const folderWide = 44

// middle shortens a path from its middle; its ends tell it.
func middle(path string, most int) string {
	r := []rune(path)
	if len(r) <= most {
		return path
	}
	head := (most - 1) / 3
	return string(r[:head]) + "…" + string(r[len(r)-(most-1-head):])
}

// byHand are events as they are to be written down by hand.
func byHand(events []day.Event, s quantity.System) []string {
	return wording.Each(events, func(e day.Event) string { return day.Clock(e.At) + " " + strings.TrimSuffix(e.Body.Sentence(s), ".") })
}

// Acts are those of a day that are on no disk, to be written down by hand.
func (v View) Acts() []string {
	if v.Unsaved == 0 || v.Unsaved > len(v.State.Log) {
		return nil
	}
	return byHand(v.State.Log[len(v.State.Log)-v.Unsaved:], v.State.Head.Setup.System())
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
