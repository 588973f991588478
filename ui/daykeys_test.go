package ui

import (
	"errors"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// keyOf is a row's key as it is pressed; false for one that is none of the table's, such as the big key.
func keyOf(r answer.Row) (screen.Key, bool) {
	switch {
	case r.Key == "PgUp":
		return screen.Key{Name: "pgup"}, true
	case len([]rune(r.Key)) != 1 || strings.Contains("!?:HZq", r.Key):
		return screen.Key{}, false
	}
	return screen.Key{Rune: []rune(r.Key)[0]}, true
}

// dayPlaces are the screens of a day.
var dayPlaces = []screen.Place{
	screen.AtDay, screen.AtLog, screen.AtCourse, screen.AtPlan, screen.AtLadder, screen.AtTable, screen.AtDose, screen.AtSigns, screen.AtCare, screen.AtBench, screen.AtPiece,
}

// sequels are the states at which keys are pressed: a step, the clock with goods in, a piece that was taken as lifted and has aired, and one on the bench.
func sequels(t *testing.T) []engine.View {
	finished := happened(t, true,
		day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 100, Dips: 1}}, day.WettedOut{OfPiece: day.OfPiece{Tag: "A1"}},
		day.DipBegun{OfPiece: day.OfPiece{Tag: "A1"}, Dip: 1, For: quantity.Minutes(5)}, day.DipEnded{OfPiece: day.OfPiece{Tag: "A1"}, Dip: 1, Air: quantity.Minutes(10)},
		day.Finished{OfPiece: day.OfPiece{Tag: "A1"}, Dips: 1})
	finished.Now = finished.Now.Add(30 * time.Minute) // aired, and rinsed by hand
	late := day.DipEnded{OfPiece: day.OfPiece{Tag: "A1"}, Dip: 1, Air: quantity.Seconds(10), Assumption: day.Assumption{Assumed: true}}
	aired := happened(t, true,
		day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 100, Dips: 1}}, day.WettedOut{OfPiece: day.OfPiece{Tag: "A1"}},
		day.DipBegun{OfPiece: day.OfPiece{Tag: "A1"}, Dip: 1, For: quantity.Minutes(5)}, late, day.Reading{})
	return []engine.View{happened(t, false), dipping(t), aired, finished}
}

// On every screen of a day every key of the table does what its row says: it opens the row's place or the row's line, or it does
// what the row's words do, or is refused in their sentence. What is pressed has no other meaning anywhere.
func TestAKeyMeansTheSameOnEveryScreenOfADay(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	opened, asked, did := map[string]int{}, map[string]int{}, map[string]int{}
	for _, v := range sequels(t) {
		for _, at := range dayPlaces {
			m := clickable(h, v)
			m = m.push(at, v.ID, "")
			if at == screen.AtPiece { // to a page where letters are no text
				for range 2 {
					next, _ := m.key(enterKey)
					m = next
				}
			}
			top := m.stack[len(m.stack)-1]
			for _, r := range answer.Rows() {
				k, ok := keyOf(r)
				if !ok {
					continue
				}
				next, _ := m.key(k)
				got := next
				now := got.stack[len(got.stack)-1]
				wants, taken := screen.AnswerKey(top.shows, k, m.env())
				switch {
				case r.ID == "strip" && !taken: // its stopwatch
					if !screen.Watched(got.env()) {
						t.Errorf("%s: no strip is timed", at)
					}
				case !taken:
					t.Errorf("%s: %s is not the row's, %s", at, r.Key, r.ID)
				case r.Opens != "" && screen.Place(r.Opens) == at:
					if got.word == "" || len(got.stack) != len(m.stack) {
						t.Errorf("%s: %s says %q", at, r.Key, got.word)
					}
				case r.Opens != "" && now.at == screen.Place(r.Opens):
					opened[r.ID]++
				case now.say.on():
					if now.say.row != r.ID || r.Blank == nil {
						t.Errorf("%s: %s opens the line of %q", at, r.Key, now.say.row)
					}
					asked[r.ID]++
				default:
					for _, w := range wants {
						switch w := w.(type) {
						case screen.Do:
							if !doneByWords(v, r, w.Command) {
								t.Errorf("%s: %s does %#v, which is not %s", at, r.Key, w.Command, r.ID)
							}
							did[r.ID]++
						case screen.Say:
							if got.word == "" {
								t.Errorf("%s: %s says nothing", at, r.Key)
							}
						default:
							t.Errorf("%s: %s wants %#v", at, r.Key, w)
						}
					}
				}
			}
		}
	}
	for _, r := range answer.Rows() {
		if _, ok := keyOf(r); ok && opened[r.ID]+asked[r.ID]+did[r.ID] == 0 {
			t.Errorf("%s, %s, does nothing on any screen", r.Key, r.ID)
		}
	}
}

// The letters that a screen of a day names are the table's, but for one of its own that no other screen has; home's own are in no
// day, and those that it shares with one are the same.
func TestTheLettersThatScreensName(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	letter := func(k string) bool { return len(k) == 1 && (k < "0" || k > "9") }
	own := map[string]screen.Place{"D": screen.AtCare}
	for _, s := range scenes(t) {
		m := s.open(clickable(h, s.view))
		top := m.stack[len(m.stack)-1]
		if !ofDay(top.at) && top.at != screen.AtHome || top.capturing() || s.name == "settings" {
			continue
		}
		for _, b := range top.shows.Keys(m.env()) {
			k := b.Key
			if r, inTable := answer.ByKey(k); !letter(k) || inTable && ofDay(top.at) || own[k] == top.at {
				continue
			} else if top.at != screen.AtHome || inTable != strings.Contains("ljq", k) {
				t.Errorf("%s names %s, %s, which is %q of the table", s.name, k, b.Desc, r.ID)
			}
		}
	}
}

// doneByWords tells whether a row's words, alone or with a tag or a number, make a command.
func doneByWords(v engine.View, r answer.Row, c day.Command) bool {
	of := []string{""}
	for _, p := range v.State.Pieces {
		of = append(of, p.Tag)
	}
	for _, e := range v.State.Log {
		of = append(of, answer.Of(e.Seq))
	}
	for _, x := range of {
		row, _, commands, err := answer.Take(v.State, v.Now, r.Said(x, ""))
		if err == nil && row.ID == r.ID && len(commands) == 1 && reflect.DeepEqual(commands[0], c) {
			return true
		}
	}
	return false
}

// Each row that has a key writes the same by its key, by its words on the line, and as its letter in plain mode and by say, the
// caution answered.
func TestAKeyWritesWhatItsWordsWrite(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	behind := map[string]string{
		"temp": "36", "ph": "10.4 25", "level": "40", "strip": "45", "note": "grey", "place": "outdoors", "goods": "outdoors", "skip": "no scale", "take back": "3",
		"move": "1 min ago", "went": "to the sewer",
	}
	wrote := map[string]int{}
	for _, v := range sequels(t) {
		for _, r := range answer.Rows() {
			k, ok := keyOf(r)
			if !ok || r.Opens != "" || r.Asks() {
				continue
			}
			at := screen.AtLog // no screen of its own stopwatch
			if r.Tagged() {
				at = screen.AtDay
			}
			if r.Numbered() {
				at = screen.AtCourse
			}
			tag := ""
			if r.Tagged() && len(v.State.Pieces) > 0 {
				tag = day.Next(v.State, v.Now).Piece.Tag
			}
			letter := strings.TrimSpace(r.Key + " " + strings.TrimSpace(tag+" "+behind[r.ID]))
			words := r.Said(tag, behind[r.ID])
			if r.ID == "strip" { // its key asks nothing: it is out, then it is blue
				letter, words = "t", "strip out"
			}
			if r.Key == "PgUp" {
				letter = words
			}
			by := map[string][]day.Body{}
			for _, way := range []string{"key", "letter", "words"} {
				talk := talking(t, h, v, at)
				before := len(talk.log())
				if way == "key" {
					talk.presses(k)
					if talk.line().on() {
						talk.types(behind[r.ID])
						talk.presses(enterKey)
						answerLine(talk)
					} else if len(talk.log()) == before { // its caution is answered by the same key
						talk.later(2 * time.Second)
						talk.presses(k)
					}
				} else {
					line := words
					if way == "letter" {
						line = letter
					}
					now := talk.view()
					_, _, commands, err := answer.Take(now.State, now.Now, line)
					for _, c := range commands {
						if err == nil {
							_, err = h.eng.Do(h.ctx, spoken, c)
						}
						if pending := (*day.Pending)(nil); errors.As(err, &pending) {
							_, err = h.eng.Do(h.ctx, spoken, day.Answered{Command: c})
						}
					}
				}
				by[way] = bodies(talk.log()[before:])
				if err := h.eng.Leave(h.ctx, spoken); err != nil {
					t.Fatal(err)
				}
			}
			if !reflect.DeepEqual(kindsOf(by["key"]), kindsOf(by["words"])) || !reflect.DeepEqual(by["letter"], by["words"]) {
				t.Errorf("%s: the key writes %+v, %q %+v, %q %+v", r.ID, by["key"], letter, by["letter"], words, by["words"])
			}
			wrote[r.ID] += len(by["key"])
		}
	}
	for _, r := range answer.Rows() {
		if _, ok := keyOf(r); ok && r.Opens == "" && !r.Asks() && wrote[r.ID] == 0 {
			t.Errorf("%s wrote nothing", r.ID)
		}
	}
}

// answerLine answers the cautions of a line.
func answerLine(k *talk) {
	for range 3 {
		if k.line().caution == "" {
			return
		}
		k.later(time.Second)
		k.presses(enterKey)
	}
}

func kindsOf(list []day.Body) (out []string) {
	for _, b := range list {
		out = append(out, b.Kind())
	}
	return out
}

// On the day's own screen the line that a key opens leaves the call and its figure where they are; over other screens the call stands
// in its row.
func TestTheLineLeavesTheCallInSight(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	v := dipping(t)
	for _, at := range []screen.Place{screen.AtDay, screen.AtLog} {
		m := clickable(h, v).push(at, v.ID, "")
		before := m.sheet()
		for _, r := range "r36" {
			next, _ := m.key(screen.Key{Rune: r})
			m = next
		}
		got := m.sheet()
		if at == screen.AtDay && (got.Act != before.Act || got.Figure != before.Figure || got.Figure.Number == "") {
			t.Errorf("the clock shows %q over %q, not %q over %q", got.Act, got.Figure.Number, before.Act, before.Figure.Number)
		}
		if at != screen.AtDay && got.Call.Words == "" {
			t.Errorf("%s: the call is not over the line", at)
		}
		if shown := inWords(m); !strings.Contains(shown, "aken as: the vat reads 36 °C") {
			t.Errorf("%s: it is not told what it is taken for:\n%s", at, shown)
		}
	}
}

// The screens of a day that is not open, as one that another program closed, say so and nothing else; each key leaves them.
func TestScreensOfADayThatIsNotOpen(t *testing.T) {
	m := clickable(effectsOf(t, shelf.Open(t.TempDir())), scenes(t)[0].view)
	for at := range screens {
		if !ofDay(at) || at == screen.AtPiece || at == screen.AtLog || at == screen.AtCare {
			continue
		}
		m := m.push(at, "bin/none", "")
		depth, top := len(m.stack), m.stack[len(m.stack)-1]
		if shown := ansi.Strip(m.View()); !strings.Contains(shown, "This day is not open") || len(own(top, m.env())) != 0 {
			t.Errorf("%s: %d keys and\n%s", at, len(own(top, m.env())), shown)
		}
		if next, _ := m.key(screen.Key{Rune: '2'}); len(next.stack) >= depth {
			t.Errorf("%s: a key does not leave it", at)
		}
	}
}
