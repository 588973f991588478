package answer

import (
	"cmp"
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// goodsRows are the pieces, till their last airing.
func goodsRows() []Row {
	const add = "piece D1 linen 420 g dark"
	return []Row{
		{ID: "piece", Say: "piece TAG FIBRE MASS WISH [FORM] [for WHO] [from 10:30] [till 15:00] [demo]", Words: []string{"piece", "add piece"}, Key: "p", Short: "add a piece", Group: Goods, Opens: "piece",
			Does:    "put a piece on the list; the wish is a depth, a number of dips, rung 5, or like VAT/DAY/TAG, a piece of the book; FORM is tight (closely woven), skein, garment, bound or pasted, else cloth; demo is shown to all: its first dip comes first, alone",
			Example: add,
			Fits: func(_ day.State, a day.Act) bool {
				return a.Kind == day.ActIdle && a.Piece.Tag == "" || a.Kind == day.ActGoods
			},
			Parse: func(l Line) ([]day.Command, error) {
				tag, spec, err := Piece(l.Rest, l.system())
				return one(day.AddPiece{Tag: tag, Spec: spec}, err)
			}},
		{ID: "change", Say: "change TAG FIBRE MASS WISH", Words: []string{"change"}, Does: "say anew what a piece is", Group: Goods,
			Example: "change A1 linen 420 g 5", Possible: anyPiece(live),
			Parse: func(l Line) ([]day.Command, error) {
				tag, spec, err := Piece(l.Rest, l.system())
				old, there := l.State.Piece(tag)
				if there { // what these words cannot say stays
					spec.What, spec.Work, spec.Form = old.Spec.What, old.Spec.Work, cmp.Or(spec.Form, old.Spec.Form)
					spec.Who = cmp.Or(spec.Who, old.Spec.Who)
					spec.From, spec.Till, spec.Demo = cmp.Or(spec.From, old.Spec.From), cmp.Or(spec.Till, old.Spec.Till), spec.Demo || old.Spec.Demo
				}
				return record(day.PieceChanged{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: spec}, err)
			}},
		{ID: "plan", Say: "plan TAG 5 dips", Words: []string{"plan"}, Does: "how many dips a piece gets", Group: Goods, Example: "plan A1 5 dips", Possible: anyPiece(live), alone: "blue",
			Parse: planned},
		{ID: "new ladder", Say: "new ladder FIBRE", Words: []string{"new ladder"}, Does: "a strip of 10 g in dips of 5 min, as many as teach most; after each dip a rung is cut off", Group: Goods, Example: "new ladder cotton",
			Parse: func(l Line) ([]day.Command, error) {
				c, err := Ladder(l.State, l.Rest, func() int {
					return LadderDips(l.State, outlook.Blues(l.State, outlook.Of(l.State, l.Now), l.Now), l.Now)
				})
				return one(c, err)
			}},
		{ID: "drop", Say: "drop TAG [REASON]", Words: []string{"drop"}, Verbs: []string{"off the list", "taken off"}, Does: "take a piece off the list", Group: Goods,
			Example: "drop C2 torn", tagged: true, Possible: anyPiece(live),
			Parse: wroteOfEach(func(l Line, of day.OfPiece) day.Body { return day.PieceDropped{OfPiece: of, Reason: l.Rest} })},
		{ID: "that is all", Say: "that is all", Words: []string{"that is all", "no goods"}, Does: "all that is to be dyed is on the list, or nothing yet", Group: Goods,
			Example: "that is all", bare: true, Fits: atKind(day.ActGoods),
			Parse: wrote(day.GoodsAsked{})},
		readiedRow("scoured", day.ToScour, "it is scoured; all scoured: each that was not yet", "scoured", "is scoured"),
		readiedRow("soaks", day.ToSoak, "it is in its soak; all soak: each that is dry", "soaks", "soak", "soaking", "is in the soak"),
		{ID: "wet", Say: "TAG wet", Words: []string{"wet"}, Verbs: []string{"wet", "wet out", "is wet"}, Does: "the piece is wet through", Group: Goods,
			Example: "A1 wet", tagged: true, bare: true,
			Possible: anyPiece(func(p day.Piece) bool { return p.Phase == day.Dry }), Fits: atKind(day.ActWetOut),
			Parse: wroteOfEach(func(_ Line, of day.OfPiece) day.Body { return day.WettedOut{OfPiece: of} })},
		{ID: "in", Say: "TAG in [2 min ago]", Words: []string{"in", "lower", "lowered"}, Verbs: []string{"in", "went in"}, Group: Goods,
			Does:    "it went in, now or as long ago, or at 10:42; of one that is in, when it really went",
			Example: "A1 in", tagged: true,
			Possible: func(s day.State) bool { return !open(s) && anyPiece(live)(s) },
			Fits:     atKind(day.ActEnter),
			Parse:    wentAt(lowered)},
		{ID: "out", Say: "TAG out [2 min ago]", Words: []string{"out", "lift", "lifted"}, Verbs: []string{"out", "came out"}, Group: Goods,
			Does:    "it came out; of one that is out, when it really came",
			Example: "A1 out 2 min ago", tagged: true,
			Possible: anyPiece(func(p day.Piece) bool { return p.Phase == day.InVat || p.Phase == day.Airing }),
			Fits:     atKind(day.ActLift),
			Parse:    wentAt(lifted)},
		{ID: "finish", Say: "TAG done", Words: []string{"finish", "finished"}, Verbs: []string{"done", "finished", "no green", "no green left"}, Key: "f", Short: "no green left, finished", Group: Goods,
			Does:    "no green is left and its dips are over",
			Example: "A1 done", tagged: true, bare: true,
			Possible: anyPiece(func(p day.Piece) bool { return p.Phase == day.Airing || p.Phase == day.Aired }), Fits: atKind(day.ActFinish),
			Parse: ofEach(func(_ Line, tag string) day.Command { return day.Finish{Tag: tag} })},
		{ID: "aired", Say: "TAG aired", Words: []string{"aired"}, Verbs: []string{"aired"}, Does: "no green is left, and it goes in again", Group: Goods,
			Example: "A1 aired", tagged: true, bare: true,
			Possible: anyPiece(func(p day.Piece) bool { return p.Phase == day.Airing }),
			Parse:    wroteOfEach(func(_ Line, of day.OfPiece) day.Body { return day.AiringEnded{OfPiece: of} })},
		{ID: "carry over", Say: "carry over TAG [WHERE TO]", Words: []string{"carry over", "carry"}, Verbs: []string{"carried over", "carried over to"}, Key: "z", Short: "carry a piece over", Group: Goods,
			Does:    "it goes on another day, or in another vat, with the dips that it has",
			Example: "carry over A1", tagged: true, Possible: anyPiece(live),
			Parse: wroteOfEach(func(l Line, of day.OfPiece) day.Body {
				return day.CarriedOver{OfPiece: of, To: strings.TrimPrefix(l.Rest, "to ")}
			})},
		pieceShift("later", 1, "so much more time for the dip, the airing or the bath of a piece"),
		pieceShift("soon", -1, "so much less"),
	}
}

// readiedRow says what was done to a piece before its first dip.
func readiedRow(id, what, does string, verbs ...string) Row {
	waits := func(p day.Piece) bool {
		return p.Phase == day.Dry && !p.Readied(what) && !(what == day.ToSoak && p.Spec.Form == day.Pasted)
	}
	return Row{ID: id, Say: "TAG " + id, Words: []string{id}, Verbs: verbs, Does: does, Group: Goods, Example: "A1 " + id, tagged: true, bare: true,
		Possible: anyPiece(waits), all: waits,
		Fits:  func(_ day.State, a day.Act) bool { return a.Kind == day.ActReady && a.Do == what },
		Parse: wroteOfEach(func(_ Line, of day.OfPiece) day.Body { return day.Readied{OfPiece: of, What: what} })}
}

// pieceShift gives the running time of a piece more, or takes of it.
func pieceShift(id string, sign quantity.Span, does string) Row {
	return Row{ID: id, Say: id + " TAG [2 min]", Words: []string{id}, Verbs: []string{id}, Does: does + "; a minute if it is not said", Group: Goods,
		Example: id + " A1", tagged: true,
		Possible: anyPiece(func(p day.Piece) bool {
			return p.Phase == day.InVat || p.Phase == day.Airing || p.Phase == day.FinishedPiece && p.Finishing.Bath != ""
		}),
		Parse: func(l Line) ([]day.Command, error) {
			by, err := shiftedBy(l)
			if err != nil {
				return nil, err
			}
			return eachPiece(l, func(tag string) (day.Command, error) {
				return day.Stretch{Timer: timerOf(l.State, tag), By: sign * by}, nil
			})
		}}
}

// timerOf is the timer that runs for a piece.
func timerOf(s day.State, tag string) string {
	d, _ := wording.First(day.Dues(s), func(d day.Due) bool { return d.Tag == tag })
	return cmp.Or(d.Timer, "bath "+tag)
}

// wentAt is what pieces did at the time that stands behind their tags.
func wentAt(c func(s day.State, tag string, at time.Time) day.Command) func(Line) ([]day.Command, error) {
	return func(l Line) ([]day.Command, error) {
		at, err := when(l.Rest, l.system(), l.Now)
		if err != nil {
			return nil, err
		}
		return eachPiece(l, func(tag string) (day.Command, error) { return c(l.State, tag, at), nil })
	}
}

// lowered is a piece that went in: of one that is in, when it really was.
func lowered(s day.State, tag string, at time.Time) day.Command {
	if p, ok := s.Piece(tag); ok && p.Phase == day.InVat && !at.IsZero() {
		begun := func(b day.Body) bool { d, is := b.(day.DipBegun); return is && d.Tag == tag }
		if e, there := lately(s, begun); there {
			return day.Move{Seq: e.Seq, To: at}
		}
	}
	return day.Lower{Tag: tag, When: at}
}

// lifted is a piece that came out: of one that airs, when it really was, or that it was so.
func lifted(s day.State, tag string, at time.Time) day.Command {
	p, ok := s.Piece(tag)
	n := len(p.Past)
	if !ok || p.Phase != day.Airing || n == 0 || p.Past[n-1].EndSeq == 0 {
		return day.Lift{Tag: tag, When: at}
	}
	switch last := p.Past[n-1]; {
	case !at.IsZero():
		return day.Move{Seq: last.EndSeq, To: at}
	case last.Assumed:
		return day.Confirm{Seq: last.EndSeq}
	}
	return day.Lift{Tag: tag}
}

// planned is so many dips for a piece that is on the list.
func planned(l Line) ([]day.Command, error) {
	const example = "say the piece and its dips: plan A1 5 dips"
	tags, rest := cutTags(l.State, l.Rest)
	if len(tags) == 0 {
		return nil, errors.New(example)
	}
	n, err := strconv.Atoi(strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(rest, "s"), "dip")))
	if err != nil || n < 1 {
		return nil, errors.New(example)
	}
	l.Tags = tags
	return eachPiece(l, func(tag string) (day.Command, error) {
		p, _ := l.State.Piece(tag)
		spec := p.Spec
		spec.Dips = n
		return day.Record{Body: day.PieceChanged{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: spec}}, nil
	})
}

// Ladder is a new ladder of a cloth, of as many dips as teach the most; without a cloth of what it is usually of.
func Ladder(s day.State, cloth string, dips func() int) (day.AddPiece, error) {
	if strings.TrimSpace(cloth) == "" {
		cloth = LadderCloth(s)
	}
	f, err := fibre.Parse(cloth)
	if err != nil {
		return day.AddPiece{}, err
	}
	return outlook.Strip(s, f.String(), dips()), nil
}

// LadderDips is how many dips a new ladder gets: as many as teach most for the wishes of the day, else the usual.
func LadderDips(s day.State, b outlook.Blue, now time.Time) int {
	if l, ok := b.Lesson(s, now); ok {
		return l.Dips
	}
	return outlook.StripDips
}

// LadderCloth is what a ladder is usually of: that of the first piece that has a wish, else cotton where the recipe is for it.
func LadderCloth(s day.State) string {
	if p, ok := wording.First(s.Pieces, func(p day.Piece) bool { return p.Live() && p.Spec.Form != outlook.Ladder && p.Spec.Fibre != "" }); ok {
		return p.Spec.Fibre
	}
	if all := s.Head.Recipe.Fibres; len(all) > 0 && !slices.Contains(all, "cotton") {
		return all[0]
	}
	return "cotton"
}

// Whose reads what stands behind a piece: for WHO, from and till when its person is there, demo. before is the text in front of it.
func Whose(text string) (before string, spec day.PieceSpec) {
	text = " " + strings.TrimSpace(text)
	for _, w := range []struct {
		word string
		to   *string
	}{{" till ", &spec.Till}, {" from ", &spec.From}} {
		n := strings.LastIndex(text, w.word)
		if n < 0 {
			continue
		}
		value, behind, _ := strings.Cut(strings.TrimSpace(text[n+len(w.word):]), " ")
		if first, _, _ := strings.Cut(behind, " "); !slices.Contains([]string{"", "for", "from", "till", "demo"}, first) { // it belongs to the time, such as 3 pm
			value, behind = value+" "+behind, ""
		}
		if w.to == &spec.Till || strings.ContainsAny(value[:min(1, len(value))], "0123456789") { // a name may be one from somewhere
			text, *w.to = strings.TrimRight(text[:n]+" "+behind, " "), value
		}
	}
	text, spec.Demo = strings.CutSuffix(text, " demo")
	text, who, _ := strings.Cut(text, " for ")
	text, first := strings.CutSuffix(text, " demo")
	spec.Who, spec.Demo = strings.TrimSpace(who), spec.Demo || first
	return strings.TrimSpace(text), spec
}

// Piece reads TAG FIBRE MASS WISH [FORM], and whose it is (see Whose). The mass may have spaces in it, "1 lb 2 oz"; the wish is a depth,
// a number of dips, or "rung 5", or "like VAT/DAY/TAG".
func Piece(text string, sys quantity.System) (tag string, spec day.PieceSpec, err error) {
	text, spec = Whose(text)
	w := strings.Fields(text)
	if len(w) < 4 {
		return "", spec, errors.New("a piece is its tag, fibre, dry weight, and depth or number of dips: piece A1 linen 420 g dark")
	}
	if w[2] == "about" { // not weighed
		spec.About = true
		if w = slices.Delete(w, 2, 3); len(w) < 4 {
			return "", spec, errors.New("a piece is its tag, fibre, dry weight, and depth or number of dips: piece A1 linen about 400 g dark")
		}
	}
	end := len(w) - 1
	for end > 3 && !isMass(w[2:end], sys) {
		end--
	}
	spec.Fibre = strings.ToLower(w[1])
	if spec.Dry, err = quantity.ParseMass(strings.Join(w[2:end], " "), sys); err != nil {
		return "", spec, err
	}
	if last := strings.ToLower(w[len(w)-1]); len(w)-1 > end && slices.Contains(forms, last) {
		spec.Form, w = last, w[:len(w)-1]
	}
	wish := strings.ToLower(strings.Join(w[end:], " "))
	if strings.HasPrefix(wish, "like ") {
		spec.Like = strings.Join(w[end+1:], " ")
		return w[0], spec, nil
	}
	rung, isRung := strings.CutPrefix(wish, "rung ")
	dips, _ := strings.CutSuffix(strings.TrimSuffix(wish, "s"), " dip")
	switch n, err := strconv.Atoi(dips); {
	case isRung:
		if spec.Rung, err = strconv.Atoi(rung); err != nil {
			return "", spec, errors.New("a rung is one of 1 to 30, such as rung 5")
		}
	case err == nil && n > 0:
		spec.Dips = n
	default:
		spec.Depth = wish
	}
	return w[0], spec, nil
}

// forms are the words for a piece's form, behind its wish; cloth where none is said.
var forms = []string{"cloth", day.Tight, "skein", "garment", "bound", day.Pasted}

func isMass(w []string, sys quantity.System) bool {
	_, err := quantity.ParseMass(strings.Join(w, " "), sys)
	return err == nil
}
