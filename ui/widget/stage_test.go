package widget

import (
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/style"
)

// vatStage is a day with so many pieces; 0: a vat that is built.
func vatStage(pieces int) Sheet {
	s := Sheet{
		Head: Head{"garden bin · 60 L · soda vat", "11:29"}, Act: "A1 IN", Figure: Figure{Number: "6:55", Note: "Runner, dip 4 of 7."},
		How: []string{"Keep it under, open the folds."}, Next: "then: lift it", Foot: []string{"36 °C read 11:05, below 30 at 14:20", "pH 10.6 reckoned"}, Keys: someKeys,
		Stage: &Stage{Rest: "", Vessel: Vessel{Top: 1, Floor: 0.8, Fill: 0.7, Film: true, Sediment: 0.1, Rack: 0.15, Liquor: style.Liquor(style.YellowGreen)}},
	}
	for i := range min(pieces, Pegs(400, 100)) {
		s.Stage.Cloths = append(s.Stage.Cloths, Cloth{Tag: string(rune('A'+i)) + "1", Peg: i + 1, Blue: style.Cloth(float64(i) / 9), Green: float64(i%3) / 3, In: i == 0,
			Says: "5:10", Dips: "2 of 3", Size: 1 - float64(i)/20, Click: true, Row: i})
	}
	if pieces > mostPegs {
		s.Stage.Rest = strconv.Itoa(pieces-mostPegs) + " airing, next 11:40"
	}
	return s
}

// stageStates are sheets that may follow one another on a day.
func stageStates(pieces int) map[string]Sheet {
	out := map[string]Sheet{}
	add := func(name string, change func(*Sheet)) {
		s := vatStage(pieces)
		change(&s)
		out[name] = s
	}
	add("as it is", func(*Sheet) {})
	add("a long call", func(s *Sheet) { s.Act, s.Figure.Number = "LOWER A~234", "1:02:30" })
	add("over", func(s *Sheet) { s.Act, s.Figure = "LIFT A1", Figure{Number: "+3:02", Tone: Now} })
	add("grams", func(s *Sheet) {
		s.Act, s.Figure = "WEIGH INDIGO", Figure{Number: "148", Unit: "g MORE", Note: "212 g are on"}
	})
	add("no figure", func(s *Sheet) { s.Act, s.Figure = "SKIM", Figure{} })
	add("much to say", func(s *Sheet) {
		s.How = append(s.How, strings.Repeat("It goes on and on. ", 12))
		s.Why, s.Banner = "Because.", "not yet on disk: 3 acts"
	})
	return out
}

func drawnRows(t *testing.T, s Sheet, w, h int, st style.Style) []string {
	t.Helper()
	rows := strings.Split(Render(s, w, h, st), "\n")
	if len(rows) != h {
		t.Fatalf("%d×%d: %d rows", w, h, len(rows))
	}
	for y, r := range rows {
		if n := style.Width(r); n > w {
			t.Fatalf("%d×%d: row %d is %d wide: %q", w, h, y, n, r)
		}
	}
	return rows
}

// Whatever is called, however long, with however many pieces: head, call, figure, words, liquor and keys stand on their rows.
func TestTheStageKeepsItsAnchors(t *testing.T) {
	for _, name := range []string{"light", "ascii"} {
		st := style.New(looks[name])
		for w := 20; w <= 300; w += 40 {
			for h := 5; h <= 100; h += 1 + h/6 {
				for _, pieces := range []int{0, 3, 24} {
					a := anchorsOf(w, h, pieces > 0)
					for what, s := range stageStates(pieces) {
						drawnRows(t, s, w, h, st)
						pic := Lay(s, w, h, st)
						first := map[part]int{}
						for y := len(pic.rows) - 1; y >= 0; y-- {
							if pic.rows[y].text != "" {
								first[pic.rows[y].part] = y
							}
						}
						wants := map[part]int{actPart: a.call}
						if a.head >= 0 {
							wants[headPart] = a.head
						}
						if a.keys >= 0 {
							wants[keysPart] = a.keys
						}
						if a.liquorRows > 0 {
							wants[footPart] = a.liquor
						}
						if s.Figure.Number != "" && a.figureRows > 0 {
							wants[figurePart] = a.figure
						}
						if s.Figure.Note != "" && s.Banner == "" && a.liquor > a.words {
							wants[notePart] = a.words
						}
						for of, want := range wants {
							if at, there := first[of]; !there || at != want {
								t.Fatalf("%s, %d×%d, %d pieces, %s: part %d stands on row %d (%v) and not on %d:\n%s", name, w, h, pieces, what, of, at, there, want, pic)
							}
						}
					}
				}
			}
		}
	}
}

// The rows of the four usual windows are those of the picture of the design, and do not wander from one version to the next.
func TestTheAnchorsOfTheUsualWindows(t *testing.T) {
	for size, want := range map[[2]int][8]int{ // call, its rows, figure, its rows, words, liquor, keys, columns of the left side
		{60, 20}:  {2, 4, 7, 6, 14, 17, 19, 40},
		{80, 24}:  {2, 4, 7, 7, 15, 19, 23, 51},
		{120, 40}: {3, 7, 11, 14, 26, 34, 39, 80},
		{200, 60}: {3, 11, 15, 22, 38, 54, 59, 133},
	} {
		a := anchorsOf(size[0], size[1], true)
		if got := [8]int{a.call, a.callRows, a.figure, a.figureRows, a.words, a.liquor, a.keys, a.text}; got != want {
			t.Errorf("%v: %v, not %v", size, got, want)
		}
	}
}

// arcMinutes is how large so many rows of a window look on a screen of 14 inches, of a width and a height, from so many metres.
func arcMinutes(rows float64, high int, wide, tall, metres float64) float64 {
	screen := 14 * 25.4 * tall / math.Hypot(wide, tall)
	return math.Atan(rows*screen/float64(high)/1000/metres) * 180 / math.Pi * 60
}

// At 80×24 and 120×40 every call's letters look 22 minutes of arc high at 3 m and every figure 30 at 5 m, on screens of 16:9 and
// 16:10 (the least that is read well, ISO 9241-303, from memory).
func TestCallAndFigureAreReadFromAfar(t *testing.T) {
	st := style.New(looks["dark"])
	for _, size := range [][2]int{{80, 24}, {120, 40}} {
		for _, pieces := range []int{0, 3} {
			for _, call := range []string{"A1 IN", "LIFT A1", "LOWER A1", "LOOK A1", "SKIM", "REST", "BLUE YET?", "A1 BLUE?", "A1 AIRS", "RINSE A1", "LIFT 3", "WEIGH INDIGO", "WAIT IS OVER", "ADD ALKALI", "STIR", "FILL"} {
				for _, number := range []string{"6:55", "12:30", "0:09", "+3:02"} {
					s := vatStage(pieces)
					s.Act, s.Figure = call, Figure{Number: number}
					inked := map[part]float64{}
					for _, r := range Lay(s, size[0], size[1], st).rows {
						if r.part != actPart && r.part != figurePart {
							continue
						}
						row := ansi.Strip(r.text)
						switch up, down := strings.ContainsAny(row, "█▀"), strings.ContainsAny(row, "█▄"); {
						case up && down:
							inked[r.part]++
						case up || down:
							inked[r.part] += 0.5
						}
					}
					for _, ratio := range [][2]float64{{16, 9}, {16, 10}} {
						if at := arcMinutes(inked[actPart], size[1], ratio[0], ratio[1], 3); at < 22 {
							t.Errorf("%v, %d pieces, %s: %.1f′ at 3 m", size, pieces, call, at)
						}
						if at := arcMinutes(inked[figurePart], size[1], ratio[0], ratio[1], 5); at < 30 {
							t.Errorf("%v, %d pieces, %s beside %s: %.1f′ at 5 m", size, pieces, number, call, at)
						}
					}
				}
			}
		}
	}
}

// A caution is whole in every window in which it can be answered: figure, liquor and letters give way.
func TestACautionIsNeverCutOnTheStage(t *testing.T) {
	st := style.New(looks["none"])
	for w := 20; w <= 200; w += 13 {
		for h := 5; h <= 60; h += 1 + h/10 {
			s := vatStage(0)
			s.Caution = &Caution{"glasses and gloves; it hurts the eyes, froths with acid", "space: on"}
			drawnRows(t, s, w, h, st)
			read := ""
			for _, r := range Lay(s, w, h, st).rows {
				read += " " + r.text
			}
			read = words(read, w)
			whole := strings.Contains(read, "CAUTION "+s.Caution.Text)
			if !whole && (h > 6 || w > 32) || !strings.Contains(read, "CAUTION") || !strings.Contains(read, "space: on") {
				t.Fatalf("%d×%d:\n%s", w, h, Render(s, w, h, st))
			}
		}
	}
}

// Where a caution leaves a figure few rows its unit is no letter as high as the digits: 90 g was 909 there.
func TestAUnitIsNoDigit(t *testing.T) {
	s := vatStage(0)
	s.Act, s.Figure, s.Caution = "WEIGH INDIGO", Figure{Number: "90", Unit: "g"}, &Caution{Text: strings.Repeat("dust mask, gloves, glasses; no draught. ", 5), Key: "space: on"}
	if text := strings.Join(drawnRows(t, s, 80, 24, style.New(style.Options{Profile: style.NoColour})), "\n"); !strings.Contains(text, "  g\n") {
		t.Errorf("the unit is drawn as high as the figure:\n%s", text)
	}
}

// A time that runs out and over keeps the size of its digits, and its rows: the sign stands before them.
func TestDigitsKeepTheirSizeOverZero(t *testing.T) {
	for name, o := range looks {
		st := style.New(o)
		for _, size := range [][2]int{{60, 20}, {80, 24}, {120, 40}, {200, 60}, {45, 90}, {300, 70}} {
			for _, staged := range []bool{true, false} {
				var was []row
				for _, number := range []string{"0:08", "10:08", "+0:08"} {
					s := vatStage(3)
					if s.Figure.Number = number; !staged {
						s.Stage, s.Big = nil, true
					}
					var rows []row
					for _, r := range Lay(s, size[0], size[1], st).rows {
						if r.part == figurePart {
							r.text = strings.TrimSpace(ansi.Strip(r.text))
							rows = append(rows, r)
						}
					}
					if was == nil {
						was = rows
					}
					for i, r := range rows {
						if len(rows) != len(was) || !strings.HasSuffix(r.text, was[i].text) {
							t.Fatalf("%s, %v: at %s %d rows, row %d %q; at 0:08 %d rows, %q", name, size, number, len(rows), i, r.text, len(was), was[min(i, len(was)-1)].text)
						}
					}
				}
			}
		}
	}
}

// Where rows are short what is said stops at the end of a sentence or at its semicolon, and what is free then goes to what comes next.
func TestNoSentenceIsCutWithin(t *testing.T) {
	for _, c := range []struct {
		how  []string
		rows int
		want string
	}{
		{[]string{"Out: squeeze it, no splash; no drip back."}, 1, "Out: squeeze it, no splash;"},
		{[]string{"Is it wet? Press it under, until no bubbles rise."}, 1, "Is it wet?"},
		{[]string{"Rinse it.", "In plain water of 20 °C, moved and opened.", "Then sour."}, 2, "Rinse it.|Then sour."},
		{[]string{"In plain water of 20 °C, moved and opened."}, 1, ""},
		{[]string{"Rinse it."}, -1, ""},
	} {
		if got := strings.Join(whole(c.how, 28, c.rows), "|"); got != c.want {
			t.Errorf("%q in %d rows: %q, not %q", c.how, c.rows, got, c.want)
		}
	}
	for _, size := range [][2]int{{60, 20}, {80, 24}, {120, 40}, {200, 60}} {
		s := vatStage(3)
		s.How = append(s.How, strings.Repeat("Open the folds under the liquor and move it, now and then. ", 9))
		if text := Lay(s, size[0], size[1], style.New(style.Options{})).Text(); strings.Contains(text, "…") {
			t.Errorf("%v:\n%s", size, text)
		}
	}
}

// What can be answered is whole in every window that has room for a row beside it; other sentences have the rows of a figure that is not
// there.
func TestAnAnswerIsNotCut(t *testing.T) {
	s := Sheet{Head: Head{"Vat 1 · 16 L · Soda vat", "10:09"}, Act: "WHERE?", Foot: []string{"14.3 L to come, 7.4 L of it hot"}, Keys: someKeys, Stage: vatStage(0).Stage,
		How: []string{"1 outdoors; 2 cross-draught; 3 closed room."}, Why: "Fumes and dust need air: in a closed room no sulfur reducer goes in.",
		Banner: "this machine may sleep and then calls nobody: turn its sleep off"}
	read := func(w, h int) string {
		text := Lay(s, w, h, style.New(style.Options{Profile: style.NoColour})).Text()
		return strings.Join(strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("▐▌▝▜▛▘▀·", r) }), " ")
	}
	s.HowWhole = true
	for _, with := range []struct {
		elsewhere CallRow
		figure    string
		how       string
	}{
		{CallRow{}, "", s.How[0]}, {CallRow{Words: "A1 IN, out in 0:40", Big: "LIFT A1 0:40"}, "", s.How[0]},
		{CallRow{}, "0:40", "1 you alone; 2 others, who can be told; 3 children, kept from powders and lye."},
	} {
		s.Call, s.Figure.Number, s.How = with.elsewhere, with.figure, []string{with.how}
		for w := 40; w <= 100; w += 4 {
			for h := 8; h <= 30; h++ {
				if text := read(w, h); !strings.Contains(text, strings.ReplaceAll(s.How[0], "·", "")) {
					t.Errorf("%d×%d, %+v: %s", w, h, with, text)
				}
			}
		}
	}
	s.Call, s.Figure.Number, s.HowWhole, s.How = CallRow{}, "", false, []string{"8.4 g of soda ash and 4 g of soap in 12 L at 60 °C, 1 h; move it now and then, and rinse it. Scoured, or no time: leave it out."}
	if text := read(60, 20); !strings.Contains(text, s.How[0]) {
		t.Errorf("60×20: %s", text)
	}
}

// Of the pieces that are counted what comes first is never cut within.
func TestTheCountIsWhole(t *testing.T) {
	s := vatStage(3)
	s.Stage.Rest = "2 airing, next 11:28, 5 ready, 1 dry, 1 done"
	for width, want := range map[int]string{60: "2 airing", 80: "2 airing, next 11:28", 120: "2 airing, next 11:28, 5 ready", 200: s.Stage.Rest} {
		text := strings.Join(drawnRows(t, s, width, 24, style.New(style.Options{Profile: style.NoColour})), "\n")
		if !strings.Contains(text, want) || strings.Contains(text, want+",") || strings.Contains(text, "…") {
			t.Errorf("%d columns: not %q:\n%s", width, want, text)
		}
	}
}

// A time that has no room under its cloth is told in short, or not at all: cut off, 25:22 reads as another time.
func TestATimeUnderAClothIsNotCut(t *testing.T) {
	st := style.New(style.Options{Profile: style.NoColour})
	for _, brief := range []string{"25m", ""} {
		s := vatStage(3)
		s.Stage.Cloths[1].Says, s.Stage.Cloths[1].Brief = "25:22", brief
		if text := strings.Join(drawnRows(t, s, 60, 24, st), "\n"); strings.Contains(text, "25:") || !strings.Contains(text, brief) {
			t.Errorf("60 columns, %q in short:\n%s", brief, text)
		}
		if text := strings.Join(drawnRows(t, s, 80, 24, st), "\n"); !strings.Contains(text, "25:22") {
			t.Errorf("80 columns:\n%s", text)
		}
	}
}

// No piece that the line leaves out is uncounted: where the words have no room a shorter count stands there.
func TestTheRestIsCounted(t *testing.T) {
	st := style.New(looks["none"])
	for size, want := range map[[2]int]string{{60, 20}: "19 more", {80, 24}: "19 more, next 10:26", {120, 40}: "1 airing, next 10:26, 18 ready"} {
		s := vatStage(4)
		s.Stage.Rest, s.Stage.Count = "1 airing, next 10:26, 18 ready", "19 more, next 10:26"
		if text := strings.Join(drawnRows(t, s, size[0], size[1], st), "\n"); !strings.Contains(text, want) {
			t.Errorf("%v: no %q in\n%s", size, want, text)
		}
	}
}

// In another vat's last minute the letters and the figure are both of its call; what this vat asks for stands in words, with its time.
func TestAnothersLastMinuteHasLettersAndFigure(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {120, 40}, {200, 60}} {
		s := vatStage(4)
		s.Act, s.Figure.Number = "LIFT P1", "+0:26"
		s.Call = CallRow{Vat: "South vat", Words: "LIFT P11 in 0:39", Big: "LIFT P11 0:39", Tone: Now}
		its := s
		its.Act, its.Figure, its.Call = "LIFT P11", Figure{Number: "0:39"}, CallRow{}
		st := style.New(style.Options{})
		got, want := Lay(s, size[0], size[1], st), Lay(its, size[0], size[1], st)
		rows, of := got.rowsOf(callPart), want.rowsOf(figurePart)
		if len(rows) < len(of) {
			t.Fatalf("%v: of the other call are %d rows", size, len(rows))
		}
		rows = rows[len(rows)-len(of):]
		for i, r := range of {
			if plain, its := strings.TrimSpace(ansi.Strip(rows[i].text)), strings.TrimSpace(ansi.Strip(r.text)); plain != its {
				t.Fatalf("%v: the figure is\n%s, not\n%s", size, plain, its)
			}
		}
		if text := ansi.Strip(got.Text()); !strings.Contains(text, "LIFT P1 +0:26. Runner, dip 4 of 7.") || len(got.rowsOf(figurePart)) > 0 {
			t.Errorf("%v: what this vat asks for is not told:\n%s", size, text)
		}
	}
}
