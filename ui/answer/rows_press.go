package answer

import (
	"errors"
	"slices"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
)

// pressRows are the call and what goes with it.
func pressRows() []Row {
	return []Row{
		{ID: "done", Say: "done", Words: []string{"done"}, Does: "what the call asks for is done; an empty line says the same", Key: "space", Group: Call,
			Example: "done", bare: true,
			Fits:  func(_ day.State, a day.Act) bool { return a.Press != "" },
			Parse: func(Line) ([]day.Command, error) { return one(day.Done{}, nil) }},
		{ID: "next", Say: "next", Words: []string{"next"}, Does: "the first of what can be done meanwhile is done", Group: Call, Example: "next", bare: true,
			Possible: func(s day.State) bool { return len(day.Meanwhile(s, s.At)) > 0 },
			Parse: func(l Line) ([]day.Command, error) {
				if beside := day.Meanwhile(l.State, l.Now); len(beside) > 0 {
					return one(day.Take{Call: beside[0].ID}, nil)
				}
				return nil, errors.New("nothing is to be done meanwhile")
			}},
		{ID: "scoop", Say: "90 g", Does: "a scoop on the scale; with a minus what was taken out", Key: "0–9", Group: Call,
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
		judgement("ready", "ready [by WHAT] [WHAT YOU SAW]", []string{"ready", "r"}, "the vat is ready, by "+strings.Join(day.Ways, ", ")+"; without it by the usual way of its family", "y", true),
		judgement("not yet", "not yet [WHAT YOU SAW]", []string{"not yet", "n"}, "it is not", "n", false),
		byWay(day.ByStrip, "by strip"),
		byWay(day.BySwatch, "by swatch", "swatch"),
		byWay(day.ByFilm, "by film and froth", "by film", "film"),
		byWay(day.ByEye, "by eye", "by my eye", "my eye"),
		recheck("better", "the look after a treatment: it is better", signs.Better),
		recheck("same", "nothing has changed", signs.Same),
		recheck("worse", "it is worse", signs.Worse),
		{ID: "skip", Say: "skip REASON", Words: []string{"skip", "s"}, Does: "leave the step out", Key: "s", Group: Call,
			Example: "skip no scale here", Possible: day.State.MayLeaveOut,
			Parse: func(l Line) ([]day.Command, error) { return one(day.Skip{Reason: l.Rest}, nil) }},
		shift("more", 1, "the time of the call runs so much longer", "+"),
		shift("less", -1, "shorter", "_"),
		{ID: "back", Say: "back", Words: []string{"back", "b"}, Does: "take the last act back", Key: "PgUp", Group: Call,
			Example: "back", bare: true,
			Possible: func(s day.State) bool { return len(s.Log) > 1 },
			Parse:    func(Line) ([]day.Command, error) { return one(day.Back{}, nil) }},
		{ID: "take back", Say: "take back NUMBER", Words: []string{"take back", "undo"}, Does: "take that event back", Group: Call,
			Example:  "take back 3",
			Possible: func(s day.State) bool { return len(s.Log) > 1 },
			Parse: func(l Line) ([]day.Command, error) {
				n, err := numbered(l.Rest)
				if err == nil && n == 0 {
					return one(day.Back{}, nil)
				}
				return one(day.Undo{Seq: n}, err)
			}},
		{ID: "confirm", Say: "confirm [NUMBER]", Words: []string{"confirm", "it was so", "y"}, Does: "the last act that was taken as planned was so", Key: "k", Group: Call,
			Example:  "confirm",
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
		{ID: "confirm all", Say: "confirm all", Words: []string{"confirm all", "all as planned", "all was so"}, Does: "all that was taken as planned was so", Group: Call,
			Example: "confirm all", bare: true,
			Possible: func(s day.State) bool { return s.Unconfirmed() > 1 },
			Fits:     func(s day.State, _ day.Act) bool { return s.Unconfirmed() > 1 },
			Parse:    func(Line) ([]day.Command, error) { return one(day.ConfirmAll{}, nil) }},
		{ID: "move", Say: "move NUMBER 10:42", Words: []string{"move", "it was"}, Does: "when that event really was; without a number the last that was taken as planned", Key: "T", Group: Call,
			Example:  "move 3 9:02",
			Possible: func(s day.State) bool { return len(s.Log) > 1 },
			Parse:    moved},
	}
}

// judgement is a word on the vat.
func judgement(id, say string, words []string, does, key string, ready bool) Row {
	return Row{ID: id, Say: say, Words: words, Does: does, Key: key, Group: Call, Example: id,
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
			if l.Rest != "" && (len(l.Word) == 1 || strings.ContainsAny(l.Rest[:1], "0123456789")) {
				return nil, errors.New(l.Word + " takes no figure behind it; t 35 °C writes a temperature down")
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
		Fits: atKind(day.ActLook),
		Parse: func(Line) ([]day.Command, error) {
			return record(day.Rechecked{Answer: said.String()}, nil)
		}}
}

// shift gives the time of the call more, or takes of it.
func shift(id string, sign quantity.Span, does, key string) Row {
	return Row{ID: id, Say: id + " [2 min]", Words: []string{id}, Does: does + "; a minute if it is not said", Key: key, Group: Call,
		Example:  id + " 2 min",
		Possible: func(s day.State) bool { return len(day.Dues(s)) > 0 },
		Parse: func(l Line) ([]day.Command, error) {
			timer, ok := running(l)
			if !ok {
				return nil, errors.New("no time is running")
			}
			by, err := shiftedBy(l)
			return one(day.Stretch{Timer: timer, By: sign * by}, err)
		}}
}

// running is the timer of the act, else the one that ends first.
func running(l Line) (timer string, ok bool) {
	if l.Act.Due != nil {
		return l.Act.Due.Timer, true
	}
	for _, d := range day.Dues(l.State) {
		if d.Kind != day.DueTurn && d.At.After(l.Now) {
			return d.Timer, true
		}
	}
	return "", false
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
	if err != nil || n == 0 {
		e, ok := assumed(l.State)
		if !ok {
			return nil, errors.New("say which event, by its number, and when it was: move 12 10:42")
		}
		n, rest = e.Seq, l.Rest
	}
	at, err := when(rest, l.system(), l.Now)
	if err == nil && at.IsZero() {
		err = errors.New("say when it was: move 12 10:42")
	}
	if err == nil && !slices.ContainsFunc(l.State.Log, func(e day.Event) bool { return e.Seq == n }) {
		err = errors.New("no event has that number")
	}
	return one(day.Move{Seq: n, To: at}, err)
}
