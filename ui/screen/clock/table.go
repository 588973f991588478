package clock

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// soon is how long before its end a time calls the eye.
const soon = 15 * time.Second

// most is how many cells a ladder has at most.
const most = 16

// early is the warning that a chosen piece's time is not over.
func early(v engine.View, tag string) string {
	for _, d := range v.Dues() {
		if left := d.At.Sub(v.Now); d.Tag == tag && left > 0 {
			return ", " + widget.Countdown(left) + " too soon"
		}
	}
	return ""
}

// wanted tells whether the act is for the hands now, not at the end of a time.
func wanted(act day.Act, v engine.View) bool {
	left, _ := act.Left(v.Now)
	return left <= soon
}

// warmFirst says before a piece goes in that the vat has grown too cold; empty while it has not, or while goods
// hang in it.
func warmFirst(v engine.View) string {
	h := screen.Outlook(v).Heat
	if h.Known == outlook.Unknown || h.Known == outlook.Guessed || h.Now >= h.Low || v.State.Vat.Heater || len(v.State.InVat()) > 0 {
		return ""
	}
	sys := v.State.Head.Setup.System()
	now, low := screen.HeatNow(h, sys).Format(sys), h.Low.Format(sys)
	if now == low { // by less than a reading tells
		return ""
	}
	words := fmt.Sprintf("First warm it: %s, and it wants %s.", now, low)
	if h.Heater > 0 && h.Back > 0 {
		return words + fmt.Sprintf(" e: heater on, %.0f min, hands and goods out.", h.Back.Minutes())
	}
	return words + " Hot jars stood in it, lid on."
}

// lanes are the pieces of the table. Where they are more than the window has room for, those that matter stand first: the
// one in hand, what is in the vat, what comes out of its airing, whose turn is next; what is finished last.
func lanes(v engine.View, focus string, height int) []day.Piece {
	list := make([]day.Piece, 0, len(v.State.Pieces))
	for _, p := range v.State.Pieces {
		if p.Phase != day.Dropped && p.Phase != day.Carried {
			list = append(list, p)
		}
	}
	if len(list) <= max(4, height/4) {
		return list
	}
	due := map[string]time.Time{}
	for _, d := range v.Dues() {
		if _, earlier := due[d.Tag]; d.Tag != "" && !earlier {
			due[d.Tag] = d.At
		}
	}
	rank := func(p day.Piece) int {
		switch {
		case p.Tag == focus:
			return 0
		case p.Phase == day.InVat:
			return 1
		case p.Phase == day.FinishedPiece && p.Finishing.Bath == "":
			return 4
		case !due[p.Tag].IsZero():
			return 2
		}
		return 3
	}
	turn := func(p day.Piece) int {
		if i := slices.Index(v.State.Turn, p.Tag); i >= 0 {
			return i
		}
		return len(v.State.Turn)
	}
	slices.SortStableFunc(list, func(a, b day.Piece) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), due[a.Tag].Compare(due[b.Tag]), cmp.Compare(turn(a), turn(b)))
	})
	return list
}

// where says where a piece is, in a few words; till is false where the digits say how long.
func where(v engine.View, dues []day.Due, p day.Piece, till bool) string {
	of := "dip " + strconv.Itoa(p.Dips+1) + " of " + strconv.Itoa(max(p.Want(), p.Dips+1))
	for _, d := range dues {
		if d.Tag != p.Tag {
			continue
		}
		left := d.At.Sub(v.Now)
		switch {
		case d.Kind == day.DueBath:
			return v.State.BenchLine(p, v.Now, till)
		case d.Kind == day.DueLift && left <= 0:
			return "in the vat, " + of + ", out now"
		case d.Kind == day.DueLift && !till:
			return "in the vat, " + of
		case d.Kind == day.DueLift:
			return "in the vat, " + of + ", out in " + widget.Countdown(left)
		case left > 0 && d.Kind == day.DueFinish:
			return "last airing, " + widget.Countdown(left)
		case left > 0 && cut(p) != "":
			return fmt.Sprintf("cut off rung %d, ready in %s", p.Dips, widget.Countdown(left))
		case left > 0:
			return "airing, ready in " + widget.Countdown(left)
		case d.Kind == day.DueFinish:
			return "no green left?"
		}
		return "ready for " + of
	}
	switch p.Phase {
	case day.Dry:
		return "dry, to wet out"
	case day.FinishedPiece:
		if _, wants := v.State.BenchNext(p); wants {
			return v.State.BenchLine(p, v.Now, till)
		}
		if p.Dips == 1 {
			return "done, 1 dip"
		}
		return fmt.Sprintf("done, %d dips", p.Dips)
	}
	return "ready for " + of
}

// assumed is the last act that was recorded as planned and has no word on it yet; 0 when there is none.
func assumed(s day.State) int {
	seq := 0
	for _, p := range s.Pieces {
		for _, d := range p.Past {
			if d.Assumed {
				seq = max(seq, d.EndSeq)
			}
		}
	}
	return seq
}

// taken says which act was recorded as planned, and how to answer; empty when there is none.
func taken(s day.State) string {
	seq := assumed(s)
	for _, p := range s.Pieces {
		for _, d := range p.Past {
			if seq > 0 && d.EndSeq == seq {
				return fmt.Sprintf("Nobody answered: %s taken as out at %s.", p.Tag, day.Clock(d.Ended))
			}
		}
	}
	return ""
}
