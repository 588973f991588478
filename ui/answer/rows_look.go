package answer

import (
	"errors"
	"strconv"
	"strings"

	"example.org/vatside/model/day"
)

// lookRows are the answers to the look that decides. Without a piece they mean the look that is asked for.
func lookRows() []Row {
	return []Row{
		says(day.LookStop, "it has enough: no more dips; 1 on the clock", "enough"),
		says(day.LookMore, "exactly one more dip; 2 on the clock", "one dip more"),
		says(day.LookPlanned, "the dips stay as planned; 3 on the clock"),
		onLook(Row{ID: "rung", Say: "rung 4 [TAG]", Words: []string{"rung"}, Verbs: []string{"rung", "is like rung"}, Example: "rung 4 A1",
			Does: "held wet beside the wetted ladder, it is like that rung"},
			func(l Line, tag string) (day.Command, error) {
				n, err := strconv.Atoi(l.Rest)
				if err != nil {
					return nil, errors.New("a rung is one of 1 to 30, such as rung 4")
				}
				return day.Record{Body: day.LookedAt{OfPiece: day.OfPiece{Tag: tag}, Looks: "rung " + strconv.Itoa(n), Wet: true}}, nil
			}),
	}
}

// says is one of the three answers. On the clock its figure is one too, where the look is asked for; a key it is not, as figures
// mean other things elsewhere.
func says(say, does string, words ...string) Row {
	return onLook(Row{ID: say, Say: say + " [TAG]", Words: append([]string{say}, words...), Verbs: append([]string{say}, words...), Does: does, Example: say + " A1"},
		func(l Line, tag string) (day.Command, error) {
			if l.Rest != "" {
				return nil, errors.New(say + " takes nothing behind it but a piece")
			}
			return day.Decided{Tag: tag, Say: say}, nil
		})
}

// onLook is a row that answers a look: of the pieces that the line names, else of the one that is asked for.
func onLook(r Row, c func(l Line, tag string) (day.Command, error)) Row {
	r.Group = Call
	r.Possible = anyPiece(func(p day.Piece) bool { return p.Dips > 0 && (p.Phase == day.Airing || p.Phase == day.Aired) })
	r.Fits = atKind(day.ActDecide)
	r.Parse = func(l Line) ([]day.Command, error) {
		if len(l.Tags) == 0 {
			l.Tags, l.Rest = cutTags(l.State, l.Rest)
		}
		if first, behind, _ := strings.Cut(l.Rest, " "); len(l.Tags) == 0 {
			if tags, rest := cutTags(l.State, behind); len(tags) > 0 && rest == "" { // "4 A1"
				l.Tags, l.Rest = tags, first
			}
		}
		if len(l.Tags) == 0 {
			look, ok := day.LookAsked(l.State, l.Now)
			if !ok {
				return nil, errors.New("no look is asked for: say which piece, " + r.ID + " A1")
			}
			l.Tags = []string{look.Act.Piece.Tag}
		}
		return eachPiece(l, func(tag string) (day.Command, error) { return c(l, tag) })
	}
	return r
}
