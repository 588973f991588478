package clock

import (
	"fmt"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/day"
	"example.org/vatside/model/shade"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// soon is how long before its end a time calls the eye.
const soon = 15 * time.Second

// most is how many cells a ladder has at most.
const most = 16

// table is the row of pieces, each its own ladder.
func (s Screen) table(v engine.View, act day.Act, env screen.Env) []string {
	var rows []widget.PieceRow
	for _, p := range v.State.Pieces {
		if p.Phase == day.Dropped || p.Phase == day.Carried {
			continue
		}
		shades := make([]style.Shade, p.Want()+1)
		for i := range shades {
			shades[i] = screen.ClothOf(i + 1)
		}
		says := where(v, p, p.Tag != act.Piece.Tag)
		if p.Tag == s.chosen {
			says = "chosen: " + says
		}
		rows = append(rows, widget.PieceRow{
			Tag: p.Tag, What: p.Spec.What, Done: min(p.Dips, most), In: p.Phase == day.InVat, Planned: min(p.Want(), most), Shades: shades, Says: says,
			Now: p.Tag == s.chosen || s.chosen == "" && p.Tag == act.Piece.Tag && wanted(act, v),
		})
	}
	if len(rows) == 0 {
		return nil
	}
	columns, _ := widget.Room(widget.Sheet{}, env.Width, env.Height, env.Style)
	claim := "blue by dips: " + shade.Claim
	if ansi.StringWidth(claim) > columns {
		claim, _, _ = strings.Cut(claim, ",")
	}
	return append(widget.Pieces(rows, columns, env.Style), env.Style.Dim.Render(claim))
}

// early is the warning that a chosen piece's time is not over.
func early(v engine.View, tag string) string {
	for _, d := range day.Dues(v.State) {
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

// where says where a piece is, in a few words; till is false where the digits say how long.
func where(v engine.View, p day.Piece, till bool) string {
	of := fmt.Sprintf("dip %d of %d", p.Dips+1, max(p.Want(), p.Dips+1))
	for _, d := range day.Dues(v.State) {
		if d.Tag != p.Tag {
			continue
		}
		left := d.At.Sub(v.Now)
		switch {
		case d.Kind == day.DueLift && left <= 0:
			return "in the vat, " + of + ", out now"
		case d.Kind == day.DueLift && !till:
			return "in the vat, " + of
		case d.Kind == day.DueLift:
			return "in the vat, " + of + ", out in " + widget.Countdown(left)
		case left > 0 && d.Kind == day.DueFinish:
			return "last airing, " + widget.Countdown(left)
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
