package widget

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/style"
)

// areaText are the words that lie under the cells of an area.
func areaText(pic Picture, a Area) string {
	return ansi.Cut(strings.Split(ansi.Strip(pic.String()), "\n")[a.Y], a.X, a.X+a.Wide)
}

// In every window each target lies where its words are drawn, and the act, its figure and the keys are targets as long as they
// are drawn.
func TestTargetsLieUnderTheirWords(t *testing.T) {
	for _, name := range []string{"dark", "none", "ascii"} {
		st := style.New(looks[name])
		sheets := map[string]Sheet{"step": step(st), "clock": clock(st)}
		for _, w := range []int{20, 33, 60, 80, 150} {
			for _, h := range []int{8, 12, 20, 24, 50} {
				for which, s := range sheets {
					s.Spots = []Spot{{Line: 0, Row: 4}, {Line: 1, From: 2, To: 9, Row: 5}}
					s.Answers = []string{"then: hydrate", "dry jar", "g on the scale"}
					pic := Lay(s, w, h, st)
					count := map[TargetKind]int{}
					for _, a := range pic.Areas() {
						count[a.Kind]++
						text := strings.TrimSpace(areaText(pic, a))
						at := pic.At(a.X, a.Y)
						ok := true
						switch a.Kind {
						case LabelTarget:
							i := slices.IndexFunc(s.Keys, func(k Key) bool { return k.Key == a.Key })
							ok = at == a.Target && strings.HasPrefix(Drawable(label(s.Keys[i]), st.Glyphs), strings.TrimRight(text, st.Glyphs.Ellipsis))
						case AnswerTarget:
							ok = at == a.Target && (a.Key == "enter" && strings.HasPrefix(text, "enter") || a.Key == "then" || a.Key == "dry" || a.Key == "g")
						case RowTarget:
							ok = at == a.Target && (a.Row == 5 || strings.HasPrefix(text, "A1"))
						case CallTarget:
							ok = at == a.Target || at.Kind == AnswerTarget
						}
						if !ok || a.X < 0 || a.Y < 0 || a.X+a.Wide > w || a.Y >= h {
							t.Errorf("%s in %s at %d×%d: %+v under %q, and there is %+v:\n%s", which, name, w, h, a, text, at, pic.String())
						}
					}
					if count[CallTarget] == 0 || pic.plan.keys != (count[LabelTarget] > 0) || count[AnswerTarget] == 0 {
						t.Errorf("%s in %s at %d×%d: %v:\n%s", which, name, w, h, count, pic.String())
					}
					if edge := (Target{}); w > 40 && pic.At(0, 0) != edge || w > 40 && pic.At(w-1, h-1) != edge || pic.At(w, h-1) != edge || pic.At(-1, 3) != edge || pic.At(3, h) != edge {
						t.Errorf("%s in %s at %d×%d: a target at the edge", which, name, w, h)
					}
				}
			}
		}
	}
}

// An answer is found where its words are broken over lines, and not in the middle of a word.
func TestAnswersInSentences(t *testing.T) {
	st := style.New(style.Options{})
	s := Sheet{Act: "Look", How: []string{"Many ready. y ready, n not yet; t times a strip."}, Answers: []string{"y ready", "n not yet", "t times a strip"}, Next: "y ready"}
	for w := 24; w < 70; w++ {
		pic := Lay(s, w, 20, st)
		got := map[string]string{}
		for _, a := range pic.Areas() {
			if a.Kind == AnswerTarget {
				got[a.Key] += " " + areaText(pic, a)
			}
		}
		if want := map[string]string{"y": " y ready y ready", "n": " n not yet", "t": " t times a strip"}; fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("%d wide: %q\n%s", w, got, pic)
		}
	}
}

// Of a list that is cut the rows that are left keep their targets, and what says how many more there are has none.
func TestTheRowsOfACutList(t *testing.T) {
	st := style.New(style.Options{})
	var choices []Choice
	for i := range 30 {
		choices = append(choices, Choice{Text: "row " + strconv.Itoa(i) + "."})
	}
	for h := 6; h < 40; h += 3 {
		for chosen := 0; chosen < 30; chosen += 7 {
			s := Sheet{Act: "Which?", How: []string{"One of them."}, Foot: []string{"foot"}}
			s.Body = []string{"a line\nand one under it"}
			s.Add(Pick(choices, chosen, 40, 20, st))
			pic := Lay(s, 60, h, st)
			drawn := strings.Count(pic.String(), "row ")
			for _, a := range pic.Areas() {
				if a.Kind == RowTarget {
					drawn--
					if text := areaText(pic, a); !strings.Contains(text, "row "+strconv.Itoa(a.Row)+".") {
						t.Fatalf("%d high, %d chosen: row %d is under %q\n%s", h, chosen, a.Row, text, pic)
					}
				}
			}
			if drawn != 0 {
				t.Fatalf("%d high, %d chosen: %d rows are no target\n%s", h, chosen, drawn, pic)
			}
		}
	}
}

// A figure that has a key of its own is that key, and not the act's.
func TestAFigureWithItsKey(t *testing.T) {
	s := clock(style.New(style.Options{}))
	s.Figure.Key = "t"
	kinds := map[Target]int{}
	for _, a := range Lay(s, 80, 24, style.New(style.Options{})).Areas() {
		kinds[a.Target]++
	}
	if kinds[Target{Kind: AnswerTarget, Key: "t"}] < 5 || kinds[Target{Kind: CallTarget}] == 0 || kinds[Target{Kind: CallTarget}] > 6 {
		t.Errorf("%v", kinds)
	}
}
