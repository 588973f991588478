// Package ladder is the dyer's own ladder of swatches: its rungs side by side, what each was judged to be, and the strips
// that were cut off pieces. Each look makes the forecasts sharper.
package ladder

import (
	"slices"
	"strconv"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// Screen is the ladder. from is the tag of the piece whose strips are shown, "" for the vat's ladder; rung is the one in
// hand, 0 for the first that was not judged.
type Screen struct {
	typing screen.Field
	from   string
	rung   int
	memo   *screen.Memo[screen.BluesKey, outlook.Blue]
	plan   *screen.OfBlues[planned, outlook.Coming]
	dips   *screen.Memo[screen.BluesKey, int]
}

// planned is a piece that is done, at an event of its day: how it came out is reckoned anew.
type planned struct {
	events int
	tag    string
}

// New is the ladder, or the strips of the piece that it was opened for.
func New(env screen.Env) screen.Screen {
	return Screen{
		from: env.Tag, memo: &screen.Memo[screen.BluesKey, outlook.Blue]{}, plan: &screen.OfBlues[planned, outlook.Coming]{},
		dips: &screen.Memo[screen.BluesKey, int]{},
	}
}

func (s Screen) Capturing() bool { return s.typing.On() }

func (s Screen) blue(v engine.View) outlook.Blue {
	return s.memo.Of(screen.BluesKeyOf(v), func() outlook.Blue { return screen.Blue(v) })
}

// strip is how many dips a new ladder gets.
func (s Screen) strip(v engine.View) int {
	return s.dips.Of(screen.BluesKeyOf(v), func() int { return answer.LadderDips(v.State, s.blue(v), v.Now) })
}

// sources are whose strips can be shown: "" for the vat's ladder, then every piece that had a dip and is not in it.
func sources(v engine.View, b outlook.Blue) []string {
	out := []string{""}
	for _, p := range v.State.Pieces {
		if p.Dips == 0 || p.Phase == day.Dropped {
			continue
		}
		if p.Spec.Form == outlook.Ladder && inLadder(b, p) {
			continue
		}
		out = append(out, p.Tag)
	}
	return out
}

// inLadder tells whether all rungs of a ladder are those that the vat's ladder shows.
func inLadder(b outlook.Blue, p day.Piece) bool {
	return wording.Count(b.Rungs, func(r outlook.Rung) bool { return r.Tag == p.Tag }) >= min(p.Dips, shade.MostDips)
}

// rungs are the strips shown.
func (s Screen) rungs(v engine.View, b outlook.Blue) []outlook.Rung {
	if s.from == "" || !slices.Contains(sources(v, b), s.from) {
		return b.Rungs
	}
	p, _ := v.State.Piece(s.from)
	c, live := b.Pieces[s.from]
	if !live {
		c = s.plan.Of(v, planned{len(v.State.Log), s.from}, func() outlook.Coming { return b.Plan(p) })
	}
	looks := map[int]string{}
	for _, x := range v.State.Samples() {
		if x.Strip && x.Tag == s.from {
			looks[x.Dips] = x.Looks
		}
	}
	var out []outlook.Rung
	for n := 1; n <= min(p.Dips, shade.MostDips); n++ {
		r := outlook.Rung{Tag: s.from, No: n, Looks: looks[n], Known: outlook.Reckoned}
		if screen.IsGuess(c.Claim) {
			r.Known = outlook.Guessed
		}
		r.Lab = screen.LabAfter(c, n)
		if l, err := day.ParseLook(looks[n]); err == nil {
			if lab, ok := l.ColourOn(c.Cloth.Ground); ok {
				r.Lab, r.Known = lab, outlook.Measured
			} else if i := slices.IndexFunc(b.Rungs, func(x outlook.Rung) bool { return x.No == l.Rung }); i >= 0 {
				r.Lab, r.Known = b.Rungs[i].Lab, b.Rungs[i].Known
			}
		}
		out = append(out, r)
	}
	return out
}

// hand is the rung in hand; 0 where there is none.
func (s Screen) hand(rungs []outlook.Rung) int {
	if len(rungs) == 0 {
		return 0
	}
	if slices.ContainsFunc(rungs, func(r outlook.Rung) bool { return r.No == s.rung }) {
		return s.rung
	}
	if r, open := wording.First(rungs, func(r outlook.Rung) bool { return r.Looks == "" }); open {
		return r.No
	}
	return rungs[len(rungs)-1].No
}

func (s Screen) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	v, _ := env.Day()
	if s.typing.On() {
		return s.typed(k, v)
	}
	b := s.blue(v)
	rungs := s.rungs(v, b)
	if row, ok := k.On(len(rungs)); ok {
		s.rung = rungs[row].No
		return s, nil
	}
	switch {
	case k.Name == "esc":
		return s, []screen.Request{screen.Leave{}}
	case k.Rune == '0', k.Done() && len(rungs) == 0 && s.from == "":
		if v.State.Closed {
			return s, []screen.Request{screen.Say{Word: "the day is closed: " + v.State.Follows()}}
		}
		s.typing = screen.Field{What: "fibre", Label: "A new ladder: of which cloth?", Unit: "Enter: " + answer.LadderCloth(v.State)}
	case k.Done() && len(rungs) > 0:
		s.rung = s.hand(rungs)
		s.typing = screen.Field{What: "look", Label: s.label(rungs), Unit: "lab 50 -4 -21, #567c9b, sky, ks 5"}
	case k.Name == "down" || k.Name == "up":
		if n := len(rungs); n > 0 {
			at := slices.IndexFunc(rungs, func(r outlook.Rung) bool { return r.No == s.hand(rungs) })
			s.rung = rungs[(at+k.Way()+n)%n].No
		}
	case k.Name == "right" || k.Name == "left":
		all := sources(v, b)
		s.from, s.rung = all[(max(0, slices.Index(all, s.from))+k.Way()+len(all))%len(all)], 0
	case k.Rune >= '1' && k.Rune <= '9':
		if n := int(k.Rune - '0'); slices.ContainsFunc(rungs, func(r outlook.Rung) bool { return r.No == n }) {
			s.rung = n
		}
	}
	return s, nil
}

// label asks for the look of the rung in hand.
func (s Screen) label(rungs []outlook.Rung) string {
	n := s.hand(rungs)
	what := wording.Either(s.from == "", "rung "+strconv.Itoa(n), "strip "+strconv.Itoa(n)+" of "+s.from)
	return "How does " + what + " look, dry, rinsed and ironed?"
}

// typed answers a key while a line is typed.
func (s Screen) typed(k screen.Key, v engine.View) (screen.Screen, []screen.Request) {
	next, entered, left := s.typing.Take(k)
	s.typing = next
	if left || !entered {
		return s, nil
	}
	text := strings.TrimSpace(s.typing.Text)
	if s.typing.What == "fibre" {
		add, err := answer.Ladder(v.State, text, func() int { return s.strip(v) })
		if err != nil {
			s.typing.Wrong = err.Error()
			return s, nil
		}
		s.typing = screen.Field{}
		if _, err := day.Decide(v.State, add, v.Now); err != nil {
			return s, []screen.Request{screen.Say{Word: err.Error()}}
		}
		return s, []screen.Request{screen.Do{Command: add}, screen.Leave{}}
	}
	rungs := s.rungs(v, s.blue(v))
	at := slices.IndexFunc(rungs, func(r outlook.Rung) bool { return r.No == s.hand(rungs) })
	if at < 0 {
		s.typing = screen.Field{}
		return s, nil
	}
	judged := day.SwatchJudged{Swatch: rungs[at].Tag, Dips: rungs[at].No, Looks: text}
	if _, err := day.Decide(v.State, day.Record{Body: judged}, v.Now); err != nil {
		s.typing.Wrong = err.Error()
		return s, nil
	}
	s.typing = screen.Field{}
	s.rung = 0 // on to the next that was not judged
	return s, []screen.Request{screen.Do{Command: day.Record{Body: judged}}}
}

func (s Screen) Keys(env screen.Env) []widget.Key {
	v, _ := env.Day()
	if s.typing.On() {
		return screen.Keys("enter", "take it", "esc", "leave it")
	}
	b := s.blue(v)
	rungs := s.rungs(v, b)
	if len(rungs) == 0 {
		return screen.Keys("enter", "a new ladder", "← →", "strips of pieces", "esc", "back")
	}
	return screen.Keys("enter", "how it looks", "1–9", "the rung", "0", "a new ladder", "← →", "strips of pieces",
		"↑ ↓", "the rung", "esc", "back")
}
