package screen

import (
	"slices"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/widget"
)

// While a day is open a key of the table of answers means the same on all its screens: AnswerKey says what it wants, and the root
// carries that out. The screens take what the table does not have: arrows, figures, Enter, Esc, Tab, and a capital of their own.

// rootKeys are the keys of the table that are the root's own, or the big key's.
var rootKeys = []string{"space", "0–9", "!", "?", ":", "H", "Z", "q"}

// What a screen may have besides: a piece in hand, on the bench too, an event in hand, the list of what was taken as planned,
// figures as text.
type (
	focused interface{ Focus(Env) string }
	benched interface{ Benched() }
	picker  interface{ Event(Env) int }
	lister  interface{ Unsaid() }
	figured interface{ Figures() bool }
)

// keyRow is the row whose key was pressed; false for the keys of the root and of the screens.
func keyRow(s Screen, k Key, v engine.View) (answer.Row, bool) {
	name := string(k.Rune)
	_, figures := s.(figured)
	switch {
	case k.Name == "pgup":
		name = "PgUp"
	case k.Name != "":
		return answer.Row{}, false
	case k.Rune == '=':
		name = "+"
	case k.Rune == '-' && figures && v.Call().Act.Entry != day.NoEntry: // it begins a figure
		return answer.Row{}, false
	case k.Rune == '-':
		name = "_"
	}
	r, ok := answer.ByKey(name)
	return r, ok && !slices.Contains(rootKeys, name)
}

// AnswerKey is what a key of the table of answers asks for on a screen of a day; taken is false for the screen's own keys.
func AnswerKey(s Screen, k Key, env Env) (wants []Request, taken bool) {
	v, ok := env.Day()
	if f, is := s.(figured); !ok || v.State.Ended || Capturing(s) || is && f.Figures() {
		return nil, false
	}
	r, ok := keyRow(s, k, v)
	if !ok {
		return nil, false
	}
	return byRow(s, r, v, env), true
}

// byRow is what the key of a row wants: its place, its line, or what its words say as they stand.
func byRow(s Screen, r answer.Row, v engine.View, env Env) []Request {
	tag, of := env.Tag, ""
	if f, is := s.(focused); is {
		tag = f.Focus(env)
	}
	_, bench := s.(benched)
	if p, is := s.(picker); is && r.Numbered() {
		of = answer.Of(p.Event(env))
	}
	if r.Tagged() || r.MayBeTagged() && bench {
		of = tag
	}
	words := r.Said(of, "")
	_, l, commands, err := answer.Take(v.State, v.Now, words)
	var blank answer.Blank
	if r.Blank != nil {
		blank = r.Blank(l)
	}
	asks := blank != answer.Blank{}
	switch _, listed := s.(lister); {
	case r.ID == "confirm" && of == "" && v.State.Unconfirmed() > 1 && listed:
		return []Request{Do{Command: day.ConfirmAll{}}, Leave{}}
	case r.ID == "confirm" && of == "" && v.State.Unconfirmed() > 1: // each with its time, before one press says that all was so
		return []Request{Go{To: AtUnsaid, Day: v.ID}}
	case r.Opens != "":
		return opens(Place(r.Opens), tag, v)
	case r.Tagged() && of == "":
		return []Request{Say{Word: "no piece is chosen: ↑ or ↓ chooses one"}}
	case asks && v.Looking:
		return []Request{Say{Word: "another program has this day open: here it can only be looked at"}}
	case asks && err == nil && r.Numbered() && of != "": // nothing more is to be asked
	case asks && err == nil && !r.Now(v.State) && answer.Read(v.State, v.Now, words).Err != nil:
		return []Request{Say{Word: answer.Read(v.State, v.Now, words).Err.Error()}}
	case asks && v.State.Closed && !r.Now(v.State):
		return []Request{Say{Word: "the day is closed: l shows its log"}}
	case asks:
		return []Request{Ask{Row: r.ID, Of: of, Blank: blank}}
	case err != nil:
		return []Request{Say{Word: err.Error()}}
	}
	return Doing(commands...)
}

// opens goes to a place of the day, for the piece in hand where it is about one.
func opens(to Place, tag string, v engine.View) []Request {
	if to != AtPlan {
		return []Request{Go{To: to, Day: v.ID}}
	}
	if i := slices.IndexFunc(v.State.Pieces, day.Piece.Live); tag == "" && i >= 0 {
		tag = v.State.Pieces[i].Tag
	}
	if tag == "" {
		return []Request{Say{Word: "no piece to plan for: p adds one"}}
	}
	return []Request{Go{To: to, Day: v.ID, Tag: tag}}
}

// RowKeys are the keys of rows of the table by their IDs, as far as they can be said now: what a screen names first of them.
func RowKeys(v engine.View, ids ...string) []widget.Key {
	out := make([]widget.Key, 0, len(ids))
	for _, id := range ids {
		r, ok := answer.Find(id)
		if ok && r.Key != "" && r.Now(v.State) {
			out = append(out, Bound(r.Key, r.KeyDoes(v.State)))
		}
	}
	return out
}
