package answer

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
)

// pressRows are the call and what goes with it.
func pressRows() []Row {
	return []Row{
		{ID: "done", Say: "done", Words: []string{"done", "yes"}, Does: "what the call asks for is done; an empty line says the same", Key: "space", Short: "done", Group: Call,
			Example: "done", bare: true,
			Fits:  func(_ day.State, a day.Act) bool { return a.Press != "" },
			Parse: func(Line) ([]day.Command, error) { return one(day.Done{}, nil) }},
		{ID: "all but", Say: "all but TAG", Words: []string{"all but"}, Does: "what the call asks for is done, but those pieces of it stay as they are", Key: "1–9", Short: "a peg's piece stays as it is", Group: Call,
			Example: "all but B1", tagged: true, bare: true,
			Fits:     func(_ day.State, a day.Act) bool { return len(a.Tags) > 1 },
			Possible: func(s day.State) bool { return len(day.Next(s, s.At).Tags) > 1 },
			Parse:    func(l Line) ([]day.Command, error) { return one(day.Done{Without: strings.Join(l.Tags, "\t")}, nil) }},
		{ID: "next", Say: "next", Words: []string{"next"}, Does: "the first of what can be done meanwhile is done", Group: Call, Example: "next", bare: true,
			Possible: func(s day.State) bool { return len(day.Meanwhile(s, s.At)) > 0 },
			Parse: func(l Line) ([]day.Command, error) {
				if beside := day.Meanwhile(l.State, l.Now); len(beside) > 0 && beside[0].Act.Kind != day.ActSound {
					return one(day.Take{Call: beside[0].ID}, nil)
				}
				return nil, errors.New("nothing is to be done meanwhile")
			}},
		{ID: "scoop", Say: "90 g", Does: "a scoop on the scale; with a minus what was taken out", Key: "0–9", Short: "weight", Group: Call,
			Example: "90 g",
			Possible: func(s day.State) bool {
				st, ok := s.Open()
				return ok && st.Do == recipe.Weigh
			},
			Fits: func(_ day.State, a day.Act) bool { return a.Entry == day.MassEntry },
			Parse: func(l Line) ([]day.Command, error) {
				m, err := Mass(l.Rest, l.system())
				return one(day.PutScoop{Mass: m}, err)
			}},
		judgement("ready", "ready [by WHAT] [WHAT YOU SAW]", []string{"ready"}, "the vat is ready, by "+strings.Join(day.Ways, ", ")+"; without it by the usual way of its family", "y", "ready", true),
		judgement("not yet", "not yet [WHAT YOU SAW]", []string{"not yet"}, "the vat is not ready", "n", "not yet", false),
		byWay(day.ByStrip, "by strip"),
		byWay(day.BySwatch, "by swatch", "swatch"),
		byWay(day.ByFilm, "by film and froth", "by film", "film"),
		byWay(day.ByEye, "by eye", "by my eye", "my eye"),
		recheck("better", "the look after a treatment: it is better", signs.Better),
		recheck("same", "the look after a treatment: nothing has changed", signs.Same),
		recheck("worse", "the look after a treatment: it is worse", signs.Worse),
		{ID: "skip", Say: "skip [TAG] [REASON]", Words: []string{"skip", "leave it out"}, Does: "leave the step out, or the next one of a piece after its dips", Key: "s", Short: "leave out", Group: Call,
			Example: "skip no scale here", maybe: true, Blank: skipBlank,
			Possible: func(s day.State) bool { return s.MayLeaveOut() || anyPiece(finished)(s) },
			Parse:    skipped},
		shift("more", 1, "so much more time for the call", "+", "a minute more"),
		shift("less", -1, "so much less time for the call", "_", "a minute less"),
		{ID: "back", Say: "back", Words: []string{"back"}, Does: "take the last act back", Key: "PgUp", Short: "take back", Group: Call,
			Example: "back", bare: true,
			Possible: func(s day.State) bool { return len(s.Log) > 1 },
			Parse:    func(Line) ([]day.Command, error) { return one(day.Back{}, nil) }},
		{ID: "take back", Say: "take back NUMBER", Words: []string{"take back", "undo"}, Does: "take that act back", Key: "U", Short: "take back that act", Group: Call,
			Example: "take back 3", numbered: true, Blank: blank("Take back which act?", "its number in the log"),
			Possible: func(s day.State) bool { return len(s.Log) > 1 },
			Parse: func(l Line) ([]day.Command, error) {
				n, err := numbered(l.Rest)
				if err == nil && n == 0 {
					return one(day.Back{}, nil)
				}
				return one(day.Undo{Seq: n}, err)
			}},
		{ID: "confirm", Say: "confirm [NUMBER]", Words: []string{"confirm", "it was so"}, Does: "confirm the last act that was taken as planned", Key: "k", Short: "confirm", Group: Call,
			Example: "confirm", numbered: true,
			Possible: func(s day.State) bool { _, ok := assumed(s); return ok },
			Fits:     func(s day.State, _ day.Act) bool { _, ok := assumed(s); return ok },
			Parse: func(l Line) ([]day.Command, error) {
				n, err := numbered(l.Rest)
				if err == nil && n == 0 {
					e, ok := assumed(l.State)
					if !ok {
						return nil, errors.New("nothing was taken as planned")
					}
					n = e.Seq
				}
				return one(day.Confirm{Seq: n}, err)
			}},
		{ID: "confirm all", Say: "confirm all", Words: []string{"confirm all", "all as planned", "all was so"}, Does: "confirm every act that was taken as planned", Group: Call,
			Example: "confirm all", bare: true,
			Possible: func(s day.State) bool { return s.Unconfirmed() > 1 },
			Fits:     func(s day.State, _ day.Act) bool { return s.Unconfirmed() > 1 },
			Parse:    func(Line) ([]day.Command, error) { return one(day.ConfirmAll{}, nil) }},
		{ID: "move", Say: "move NUMBER 10:42", Words: []string{"move", "it was"}, Does: "the time at which that act really was; without a number the last that was taken as planned", Key: "T", Short: "when it was", Group: Call,
			Example: "move 3 9:02", numbered: true, Blank: movedBlank,
			Possible: func(s day.State) bool { return len(s.Log) > 1 },
			Parse:    moved},
	}
}

// judgement is a word on the vat.
func judgement(id, say string, words []string, does, key, short string, ready bool) Row {
	return Row{ID: id, Say: say, Words: words, Does: does, Key: key, Short: short, Group: Call, Example: id,
		Possible: func(s day.State) bool {
			st, ok := s.Open()
			return !ok || st.Judges() || st.Do == day.DoSpent || ready && st.Do == recipe.Wait && !s.Head.Setup.Ending
		},
		Fits: func(s day.State, a day.Act) bool {
			if a.Kind != day.ActStep || a.Caution != "" {
				return false
			}
			return a.Step.Judges() || a.Step.Do == day.DoSpent || ready && a.Step.Do == recipe.Wait && !s.Head.Setup.Ending
		},
		Parse: func(l Line) ([]day.Command, error) {
			if l.Rest != "" && strings.ContainsAny(l.Rest[:1], "0123456789") {
				return nil, errors.New(l.Word + " takes no figure behind it; r 35 writes a temperature down")
			}
			by, seen := judgedBy(l.Rest)
			return one(day.Judge{Ready: ready, By: by, Seen: seen}, nil)
		}}
}

// byWay is ready by one of the ways; the list has those that fit the vat.
func byWay(way string, words ...string) Row {
	fits := func(s day.State, a day.Act) bool { return a.Judging() && slices.Contains(s.Ways(), way) }
	return Row{ID: words[0], Say: words[0], Words: words, Does: "the vat is ready, by " + way, Group: Call, Example: words[0], Fits: fits,
		Possible: func(s day.State) bool {
			st, ok := s.Open()
			return ok && st.Judges() && slices.Contains(s.Ways(), way)
		},
		Parse: func(l Line) ([]day.Command, error) { return one(day.Judge{Ready: true, By: way, Seen: l.Rest}, nil) }}
}

// judgedBy cuts off what a vat was judged by: "by film and froth, coppery".
func judgedBy(text string) (by, seen string) {
	rest := strings.TrimPrefix(strings.TrimPrefix(text, "by "), "my ")
	for _, way := range day.Ways {
		if behind, ok := strings.CutPrefix(rest, way); ok && rest != text && (behind == "" || strings.ContainsRune(" ,:", rune(behind[0]))) {
			return way, strings.TrimLeft(behind, ",: ")
		}
	}
	return "", text
}

// recheck is what the look after a treatment says.
func recheck(id, does string, said signs.Answer) Row {
	treated := func(s day.State) bool { return s.Treating != nil }
	return Row{ID: id, Say: id, Words: []string{id, "the " + id}, Does: does, Group: Call, Example: id, bare: true, Possible: treated,
		Fits:  atKind(day.ActLook),
		Parse: wrote(day.Rechecked{Answer: said.String()})}
}

// shift gives the time of the call more, or takes of it.
func shift(id string, sign quantity.Span, does, key, short string) Row {
	return Row{ID: id, Say: id + " [2 min]", Words: []string{id}, Does: does + "; a minute if it is not said", Key: key, Short: short, Group: Call,
		Example: id + " 2 min", maybe: true,
		Possible: func(s day.State) bool { return len(day.Dues(s)) > 0 },
		Parse: func(l Line) ([]day.Command, error) {
			timer, ok := running(l)
			if tags, rest := cutTags(l.State, l.Rest); len(tags) == 1 {
				timer, l.Rest = timerOf(l.State, tags[0]), rest
				if ok = slices.ContainsFunc(day.Dues(l.State), func(d day.Due) bool { return d.Timer == timer }); !ok {
					return nil, fmt.Errorf("no time runs for %s", tags[0])
				}
			}
			if !ok {
				return nil, errors.New("no time is running")
			}
			by, err := shiftedBy(l)
			return one(day.Stretch{Timer: timer, By: sign * by}, err)
		}}
}

// skipped leaves out the open step, or the next one of pieces after their dips.
func skipped(l Line) ([]day.Command, error) {
	tags, reason := cutTags(l.State, l.Rest)
	switch {
	case finishedAmong(l.State, tags):
		l.Tags = tags
	case !open(l.State) && l.Act.Kind == day.ActBench:
		l.Tags, reason = []string{l.Act.Piece.Tag}, l.Rest
	default:
		return one(day.Skip{Reason: l.Rest}, nil)
	}
	return eachPiece(l, func(tag string) (day.Command, error) { return day.LeaveOut{Tag: tag, Reason: reason}, nil })
}

// running is the timer of the act, else the one that ends first.
func running(l Line) (timer string, ok bool) {
	if l.Act.Due != nil {
		return l.Act.Due.Timer, true
	}
	d, ok := wording.First(day.Dues(l.State), func(d day.Due) bool { return d.Kind != day.DueTurn && d.At.After(l.Now) })
	return d.Timer, ok
}

// shiftedBy is by how much.
func shiftedBy(l Line) (quantity.Span, error) {
	if l.Rest == "" {
		return quantity.Minutes(1), nil
	}
	return minutes(l.Rest, l.system())
}

// moved reads when an event really was: its number, and the time.
func moved(l Line) ([]day.Command, error) {
	first, rest, _ := strings.Cut(l.Rest, " ")
	n, err := numbered(first)
	at, unclear := when(l.Rest, l.system(), l.Now)
	told := unclear == nil && !at.IsZero()
	if err != nil || n == 0 || told && strings.HasSuffix(l.Rest, "ago") { // "2 min ago" begins with no event's number
		e, ok := assumed(l.State)
		switch {
		case told && l.Act.Kind == day.ActLift: // what is called now
			return one(day.Lift{Tag: l.Act.Piece.Tag, When: at}, nil)
		case told && !ok && l.Act.Kind == day.ActEnter:
			return one(day.Lower{Tag: l.Act.Piece.Tag, When: at}, nil)
		case !ok:
			return nil, errors.New("say which act, by its number, and when it was: move 12 10:42")
		}
		n, rest = e.Seq, l.Rest
	}
	at, err = when(rest, l.system(), l.Now)
	if err == nil && at.IsZero() {
		err = errors.New("say when it was: move 12 10:42")
	}
	if err == nil && !slices.ContainsFunc(l.State.Log, func(e day.Event) bool { return e.Seq == n }) {
		err = errors.New("no act has that number")
	}
	return one(day.Move{Seq: n, To: at}, err)
}
