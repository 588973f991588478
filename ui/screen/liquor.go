package screen

import (
	"math"
	"slices"
	"strings"
	"sync"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// HeadOf is the head line of a day: vat, fill and recipe; where in the day and what time it is.
func HeadOf(v engine.View, where string) widget.Head {
	h := v.State.Head
	right := wording.Joined(" · ", wording.If(h.Rehearsed, "rehearsed"), where, day.Clock(v.Now))
	notes := wording.Filled(wording.If(v.State.Talks(), "talking, pieces wait"), wording.If(v.State.Children, "children at the vat"))
	left := slices.Concat([]string{h.Name()}, notes, []string{h.Setup.Fill.Format(h.Setup.System()), h.Recipe.Name}) // the last fall away first
	return widget.Head{Left: strings.Join(left, " · "), Right: right}
}

// ClothOf is the colour that a number of dips usually gives, for where nothing is known of the vat.
func ClothOf(dips int) style.Shade {
	f, _ := style.DepthFraction(shade.AfterDips(dips))
	return style.Cloth(f)
}

// After is the cloth of a piece after so many dips, dry and rinsed, by its forecast. Its name is as sure as the forecast is,
// "" for dips before the last one.
func After(c outlook.Coming, dips int) style.Shade {
	lab, step := after(c, dips)
	s := style.Dyed(lab)
	switch {
	case step != nil:
		s.Name = step.Depth
	case dips <= 0:
		s.Name = "undyed"
	default:
		s.Name = ""
	}
	return s
}

// LabAfter is the colour of a piece after so many dips, dry and rinsed, by its forecast.
func LabAfter(c outlook.Coming, dips int) colour.Lab {
	lab, _ := after(c, dips)
	return lab
}

// after is the colour after so many dips: what the piece has now and what comes as the forecast has it, beyond that the
// last of it, and earlier ones on the way there; step is the forecast itself.
func after(c outlook.Coming, dips int) (lab colour.Lab, step *shade.Step) {
	steps := c.Steps
	if c.Now != nil {
		steps = slices.Insert(slices.Clone(steps), 0, *c.Now)
	}
	if dips <= 0 || len(steps) == 0 {
		return c.Cloth.Ground.Undyed(), nil
	}
	for i := range steps {
		if steps[i].Dips == dips || i == len(steps)-1 && dips > steps[i].Dips {
			return steps[i].Lab, &steps[i]
		}
	}
	grows, first := 1.0, steps[0]
	if len(steps) > 1 && first.KS.Likely > 0 {
		grows = math.Log(float64(steps[1].KS.Likely/first.KS.Likely)) / math.Log(float64(steps[1].Dips)/float64(first.Dips))
	}
	part := math.Pow(float64(dips)/float64(first.Dips), min(max(grows, 0.5), 1.5))
	return c.Cloth.Colour(first.KS.Likely * shade.KS(part)), nil
}

// CoarseName is the name of a cloth in the three words that a guess may use.
func CoarseName(s style.Shade) string {
	switch s.Name {
	case "undyed", "milk", "pale", "sky":
		return "pale"
	case "mid":
		return "medium"
	}
	return "dark"
}

// IsGuess tells whether a claim of a forecast is a guess: no swatch of the vat stands behind it.
func IsGuess(claim string) bool { return claim != "calibrated" }

// FewColours is the sentence on the screens about colour where the terminal shows fewer than 24-bit colours; else empty.
func FewColours(st style.Style) string {
	switch {
	case st.Profile == style.TrueColour:
		return ""
	case st.Coloured():
		return "Colours are rough here: go by the figures."
	}
	return "No colours here: go by the figures."
}

// Memo keeps an answer that takes milliseconds for as long as its question is the same, for a screen that is drawn many
// times a second. Nothing but time depends on it.
type Memo[Q comparable, A any] struct {
	mu     sync.Mutex // tests draw one root at several places at once
	asked  Q
	answer A
	has    bool
}

// Of is the answer, reckoned where the question is another one.
func (m *Memo[Q, A]) Of(q Q, reckon func() A) A {
	m.mu.Lock()
	defer m.mu.Unlock()
	if !m.has || m.asked != q {
		m.asked, m.answer, m.has = q, reckon(), true
	}
	return m.answer
}

// Feet keeps the last foot, which stays for a minute.
type Feet = Memo[standing, []string]

// standing is the cache key of a foot of a day that has a liquor.
type standing struct {
	outlook       *outlook.Outlook
	id            string
	events        int
	width, height int
	soon, strip   bool
}

// BluesKey is the cache key of the forecasts of a day's blues: equal keys, equal forecasts. Without advice from the engine it
// changes each minute.
type BluesKey struct {
	blue   *outlook.Blue
	id     string
	events int
	minute int64
}

// BluesKeyOf is the cache key of a day as it is shown.
func BluesKeyOf(v engine.View) BluesKey {
	if v.Blue != nil {
		return BluesKey{blue: v.Blue}
	}
	return BluesKey{id: v.ID, events: len(v.State.Log), minute: v.Now.Unix() / 60}
}

// OfBlues keeps what was reckoned of the blues of a day, for each question, until they are others. Nothing but time depends on it.
type OfBlues[Q comparable, A any] struct{ ofBlues }

// ofBlues is the same for questions and answers of any type: one piece of code for all.
type ofBlues struct {
	mu    sync.Mutex
	blues BluesKey
	known map[any]any
}

// Of is the answer of a day as it is shown.
func (k *OfBlues[Q, A]) Of(v engine.View, q Q, reckon func() A) A {
	return k.of(v, q, func() any { return reckon() }).(A)
}

func (k *ofBlues) of(v engine.View, q any, reckon func() any) any {
	k.mu.Lock()
	defer k.mu.Unlock()
	if blues := BluesKeyOf(v); k.known == nil || k.blues != blues {
		k.blues, k.known = blues, map[any]any{}
	}
	if _, ok := k.known[q]; !ok {
		k.known[q] = reckon()
	}
	return k.known[q]
}

// Wish puts a rung, the name of a depth or a colour that is typed into what is said of a piece.
func Wish(spec *day.PieceSpec, text string) error {
	l, err := day.ParseLook(text)
	switch {
	case err != nil:
		return err
	case l.Rung > 0:
		spec.Rung = l.Rung
	case l.Name != "":
		spec.Depth = l.Name
	default:
		lab, _ := l.ColourOn(library.GroundOf(spec.Fibre))
		spec.Lab = LabOf(lab)
	}
	return nil
}

// LabOf is a colour as it is written down for a piece: to the tenth.
func LabOf(l colour.Lab) [3]float64 {
	tenth := func(x float64) float64 { return math.Round(x*10) / 10 }
	return [3]float64{tenth(l.L), tenth(l.A), tenth(l.B)}
}
