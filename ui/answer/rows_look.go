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
		says(day.LookStop, "it has enough: no more dips; key 1", "enough"),
		says(day.LookMore, "exactly one more dip; key 2", "one dip more"),
		says(day.LookPlanned, "the dips stay as planned; key 3"),
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

// benchRows are the pieces after their dips.
func benchRows() []Row {
	onBench := func(s day.State) bool { return len(s.OnBench()) > 0 }
	step := func(id string) func(day.State, day.Act) bool {
		return func(_ day.State, a day.Act) bool {
			return a.Kind == day.ActBench && (id == "" || a.Bench.ID == id) && a.Caution == ""
		}
	}
	return []Row{
		{ID: "bench", Say: "bench TAG", Words: []string{"bench"}, Verbs: []string{"next"}, Does: "what comes next for a piece after its dips was done, or it is out of its bath", Group: Bench,
			Example: "bench A1", tagged: true, bare: true, alone: "on the bench", Possible: onBench,
			Parse: ofEach(func(_ Line, tag string) day.Command { return day.Bench{Tag: tag} })},
		after("rinsed", "rinsed TAG", "it had one rinse more", func(of day.OfPiece) day.Body { return day.Rinsed{OfPiece: of} }).key("A", "rinsed once more"),
		after("soured", "soured TAG", "it was soured, told afterwards", func(of day.OfPiece) day.Body { return day.Soured{OfPiece: of} }),
		after("soaped", "soaped TAG", "it was soaped, told afterwards", func(of day.OfPiece) day.Body { return day.Soaped{OfPiece: of} }),
		after("dried", "dried TAG", "it is dry", func(of day.OfPiece) day.Body { return day.Dried{OfPiece: of} }),
		{ID: "crock", Say: "crock TAG DRY WET", Words: []string{"crock"}, Does: "how much blue came off on white, dry and wet: 5 none to 1 heavy", Group: Bench,
			Example: "crock A1 4 2.5", tagged: true, Possible: anyPiece(finished), Fits: step(day.Crock),
			Parse: func(l Line) ([]day.Command, error) {
				b := day.CrockTested{OfPiece: day.OfPiece{Tag: l.tag()}}
				var err error
				b.Dry, b.Wet, err = day.ParseCrock(l.Rest)
				return record(b, err)
			}},
		{ID: "leave", Say: "leave TAG [REASON]", Words: []string{"leave", "leave out"}, Does: "leave the next step of a piece out", Group: Bench,
			Example: "leave A1 no soap here", tagged: true, Possible: anyPiece(finished), Fits: step(""),
			Parse: ofEach(func(l Line, tag string) day.Command { return day.LeaveOut{Tag: tag, Reason: l.Rest} })},
	}
}

// after is what was done to a piece after its dips, told of by hand.
func after(id, say, does string, body func(day.OfPiece) day.Body) Row {
	return Row{ID: id, Say: say, Words: []string{id}, Verbs: []string{id}, Does: does, Group: Bench, Example: id + " A1", tagged: true, bare: true, Possible: anyPiece(finished),
		Parse: wroteOfEach(func(_ Line, of day.OfPiece) day.Body { return body(of) })}
}

func (r Row) key(k, short string) Row {
	r.Key, r.Short = k, short
	return r
}
