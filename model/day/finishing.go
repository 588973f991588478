package day

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
)

// Finishing is what was done to a piece after its last dip.
type Finishing struct {
	Rinses int      // in plain water, since it last was in a vat
	Behind []string // the other steps that are done or left out, by their ids in signs.FinishPlan, and Looked
	Bath   string   // it is in now; empty: none
	Since  time.Time
	For    quantity.Span
}

// The steps after the last dip that are an answer: the rubbing test, and the look at the piece dry, which ends its record.
const (
	Crock  = "crock"
	Looked = "look"
)

// The baths after the last dip, by their ids in signs.FinishPlan.
const (
	bathRinse  = "rinse"
	bathSour   = "sour"
	bathSoap   = "soap"
	bathCitric = "citric"
	stepAir    = "air"
	stepDry    = "dry"
)

// bathName is a bath as it is called out.
func bathName(id string) string {
	switch id {
	case bathSour:
		return "sour bath"
	case bathSoap:
		return "soap"
	case bathCitric:
		return "hot citric soak"
	}
	return "rinse"
}

// BenchStep is one step after the last dip of a piece: signs.FinishPlan's, and how it stands.
type BenchStep struct {
	signs.FinishStep
	Done int // of Times.Likely
	Past bool
}

// Bench is the steps after the last dip of a piece, in order, with those that are behind it. A piece without a known
// fibre or weight has none, and so has a ladder: its strips are rinsed and ironed as they are cut.
func (s State) Bench(p Piece) []BenchStep {
	f, err := fibre.Parse(p.Spec.Fibre)
	if err != nil || p.Spec.Form == "ladder" || p.Phase == Dropped || p.Phase == Carried {
		return nil
	}
	plan, err := signs.FinishPlan(signs.Finish{Fibre: f, Family: s.Head.Recipe.Family, Dry: p.Spec.Dry, Thick: p.Spec.Form == "bound"})
	if err != nil {
		return nil
	}
	plan = append(plan, signs.FinishStep{ID: Looked, Name: "judge it dry", Do: "look at it dry, in daylight, beside its rung",
		Times: quantity.Exactly(1), Check: "its blue for the book: a rung, a colour, a depth name"})
	var out []BenchStep
	for _, st := range plan {
		b := BenchStep{FinishStep: st, Past: slices.Contains(p.Finishing.Behind, st.ID)}
		switch st.ID {
		case stepAir:
			b.Past = p.Phase >= FinishedPiece
		case bathRinse:
			b.Done = p.Finishing.Rinses
			b.Past = b.Past || b.Done >= st.Times.Likely
		}
		out = append(out, b)
	}
	return out
}

// Brought tells whether the piece had all its dips on an earlier day, and is only finished on this one.
func (p Piece) Brought() bool { return p.Phase == FinishedPiece && len(p.Past) == 0 }

// BenchNext is the next step of a piece whose dips are over; false when its record has ended, or its dips are not over.
func (s State) BenchNext(p Piece) (BenchStep, bool) {
	if p.Phase != FinishedPiece {
		return BenchStep{}, false
	}
	for _, b := range s.Bench(p) {
		if !b.Past {
			return b, true
		}
	}
	return BenchStep{}, false
}

// Sulfur tells whether the vat's book shows a sulfur reducer at any time. A vat that was taken over as it stood is not
// known.
func (s State) Sulfur() signs.Known {
	switch {
	case s.Vat.Sulfur:
		return signs.Yes
	case s.Head.Opening.Built && s.Head.Opening.Number < 2:
		return signs.NotKnown
	}
	return signs.No
}

// sulfurOf tells it for a piece: of the vats in which it had dips that this vat's book does not show, nothing is known.
func (s State) sulfurOf(p Piece) signs.Known {
	ours := slices.ContainsFunc(s.Head.Opening.Pieces, func(c CarriedPiece) bool { return c.Tag == p.Tag && c.Had == p.Spec.Had })
	if s.Sulfur() == signs.No && p.Spec.Had > 0 && !ours {
		return signs.NotKnown
	}
	return s.Sulfur()
}

// acidGate says in a sentence why a piece may not be soured yet; empty when it may. There is no override.
func (s State) acidGate(p Piece, now time.Time) string {
	if ok, why := s.gateOf(p, now); !ok {
		return why
	}
	return ""
}

// gateOf is the gate of a piece, with the reason why it is shut or what to keep to.
// Aired is no green in any fold by the dyer's word, and not before the least time of a final airing.
func (s State) gateOf(p Piece, now time.Time) (ok bool, why string) {
	aired := p.Phase >= Aired && p.Phase != Dropped
	if n := len(p.Past); aired && n > 0 && now.Sub(p.Past[n-1].Ended) < s.leastAiring(p) {
		aired = false
	}
	return signs.AcidGate(s.sulfurOf(p), p.Finishing.Rinses, aired, s.BenchPlace())
}

// leastAiring is the least time of a piece's final airing, by signs.FinishPlan.
func (s State) leastAiring(p Piece) time.Duration {
	for _, b := range s.Bench(p) {
		if b.ID == stepAir {
			return b.Time.Low.Duration()
		}
	}
	return 0
}

// rinsedByHand is a rinse that the dyer tells of: its least time has passed since the piece was last handled, and no other
// bath holds it.
func (s State) rinsedByHand(b Rinsed, now time.Time) ([]Body, error) {
	p, _ := s.Piece(b.Tag)
	if p.Finishing.Bath != "" && p.Finishing.Bath != bathRinse {
		return refuse("%s is in the %s: take it out first", b.Tag, bathName(p.Finishing.Bath))
	}
	least := time.Duration(0)
	for _, st := range s.Bench(p) {
		if st.ID == bathRinse {
			least = st.Time.Low.Duration()
		}
	}
	for _, e := range slices.Backward(s.Told()) {
		if g, ok := e.Body.(Goods); ok && g.PieceTag() == b.Tag {
			if left := least - now.Sub(e.At); left > 0 {
				return refuse("a rinse takes at least %s: %s more", quantity.Span(least), Countdown(left))
			}
			break
		}
	}
	return []Body{b}, nil
}

// inBath tells whether a piece is in a bath. One whose end was taken back meanwhile waits for the vat again.
func (p Piece) inBath() bool { return p.Finishing.Bath != "" && p.Phase == FinishedPiece }

// benchDues are the baths that run.
func (s State) benchDues() []Due {
	var out []Due
	for _, p := range s.Pieces {
		if f := p.Finishing; p.inBath() {
			t := "bath " + p.Tag
			out = append(out, Due{t, DueBath, p.Tag, 0, f.Since, f.Since.Add(f.For.Duration() + s.shift(t)), "Take " + p.Tag + " out of the " + bathName(f.Bath)})
		}
	}
	return out
}

// BenchAct is what the hands do next with a piece whose dips are over; false when nothing is left to do.
func (s State) BenchAct(p Piece, now time.Time) (Act, bool) {
	st, ok := s.BenchNext(p)
	if !ok {
		return Act{}, false
	}
	a := Act{Kind: ActBench, Piece: p, Bench: st, Words: st.words(p), How: wording.Upper(st.Do) + ".", Why: "Then: " + st.Check + "."}
	if st.Check == "" {
		a.Why = ""
	}
	if p.Finishing.Bath != "" {
		for _, d := range s.benchDues() {
			if d.Tag == p.Tag {
				a.Due, a.Words = &d, d.Words
			}
		}
		if now.Sub(p.Finishing.Since) >= st.Time.Low.Duration() {
			a.Press = "out"
		}
		if st.Gated { // what is to be kept to while the acid stands open
			_, why := s.gateOf(p, now)
			a.How, a.Why = wording.Upper(why)+".", "Then rinse: "+st.Check+"."
		}
		return a, true
	}
	if err := s.mayBath(p, st, now); err != nil {
		a.Words, a.How, a.Shut = "Not yet: "+wording.Lower(a.Words), wording.Upper(err.Error())+".", true
		return a, true
	}
	switch words := s.benchCaution(p, st); {
	case words != "" && s.Said != words:
		a.Caution, a.Press = s.cautionAt(st), "on"
	case st.ID == stepDry:
		a.Press = "dry"
	case st.ID != Crock && st.ID != Looked:
		a.Press = "in"
	}
	return a, true
}

// cautionAt is the caution of a step in full the first time today, its first words after that.
func (s State) cautionAt(st BenchStep) string {
	full := strings.Join(st.Cautions, "; ")
	if slices.ContainsFunc(s.Given, func(given string) bool { return strings.HasSuffix(given, ", "+st.Name+": "+full) }) {
		full, _, _ = strings.Cut(full, ":")
	}
	return full
}

// words is the step as an act.
func (b BenchStep) words(p Piece) string {
	switch b.ID {
	case bathRinse:
		return fmt.Sprintf("Rinse %s, %d of %d", p.Tag, b.Done+1, b.Times.Likely)
	case bathSour:
		return "Sour " + p.Tag
	case bathSoap:
		return "Soap " + p.Tag
	case bathCitric:
		return "Clear the whites of " + p.Tag
	case stepDry:
		return "Dry " + p.Tag + " in the shade"
	case Crock:
		return "Rub " + p.Tag + " on white cotton"
	case Looked:
		return "Judge " + p.Tag + " dry"
	}
	return "Air " + p.Tag
}

// benchCaution is the caution of a step on a piece as it is written down; empty where a step has none.
func (s State) benchCaution(p Piece, st BenchStep) string {
	if len(st.Cautions) == 0 || st.ID == bathRinse {
		return ""
	}
	return p.Tag + ", " + st.Name + ": " + strings.Join(st.Cautions, "; ")
}

// OnBench are the pieces whose dips are over, with their last airing, as they stand on the day's list.
func (s State) OnBench() []Piece {
	var out []Piece
	for _, p := range s.Pieces {
		if len(s.Bench(p)) > 0 && (p.Phase == FinishedPiece || s.lastAiring(p)) {
			out = append(out, p)
		}
	}
	return out
}

// lastAiring tells whether a piece has all its dips and airs.
func (s State) lastAiring(p Piece) bool {
	return (p.Phase == Airing || p.Phase == Aired) && p.Dips >= p.Want()
}

// AfterDips is what the hands do next with a piece on the bench, its last airing included; false when its record has
// ended.
func (s State) AfterDips(p Piece, now time.Time) (Act, bool) {
	if !s.lastAiring(p) {
		return s.BenchAct(p, now)
	}
	for _, d := range Dues(s) {
		if d.Kind != DueFinish || d.Tag != p.Tag {
			continue
		}
		if now.Before(d.At) {
			return airAct(p, d), true
		}
		return s.finishAct(p, &d), true
	}
	return s.finishAct(p, nil), true
}

// BenchLine says in a few words how a piece on the bench stands: "rinse 2 of 2, out in 3:10". Without till the time is left
// out, where it stands elsewhere.
func (s State) BenchLine(p Piece, now time.Time, till bool) string {
	a, ok := s.AfterDips(p, now)
	left, _ := a.Left(now)
	switch {
	case !ok:
		return "done, its record is whole"
	case a.Kind == ActAir:
		if !till {
			return "last airing"
		}
		return "last airing, " + Countdown(left)
	case a.Kind == ActFinish:
		return "no green left?"
	case a.Due != nil && left == 0:
		return a.Bench.bath() + ", out now"
	case a.Due != nil && till:
		return a.Bench.bath() + ", out in " + Countdown(left)
	case a.Due != nil:
		return a.Bench.bath()
	case a.Shut:
		return "not yet: " + a.Bench.to()
	}
	return a.Bench.to()
}

// bath is the bath of a step as it is called: "rinse 2 of 2".
func (b BenchStep) bath() string {
	if b.ID == bathRinse {
		return fmt.Sprintf("rinse %d of %d", b.Done+1, b.Times.Likely)
	}
	return bathName(b.ID)
}

// to is what a piece wants.
func (b BenchStep) to() string {
	switch b.ID {
	case stepDry:
		return "to dry"
	case Crock:
		return "to rub on white cotton"
	case Looked:
		return "to judge dry"
	case bathRinse:
		return fmt.Sprintf("to rinse, %d of %d", b.Done+1, b.Times.Likely)
	}
	words := "to " + b.Name
	if b.Optional {
		words += ", if you like"
	}
	return words
}

// BenchThen is what comes after the open step of a piece, in a word or two; empty after the last.
func (s State) BenchThen(p Piece) string {
	open := false
	for _, b := range s.Bench(p) {
		switch {
		case b.Past:
		case open:
			return b.Name
		case b.ID == bathRinse && b.Done+1 < b.Times.Likely:
			return fmt.Sprintf("rinse %d of %d", b.Done+2, b.Times.Likely)
		default:
			open = true
		}
	}
	return ""
}

// benchWaiting is the most pressing act on pieces whose dips are over: a bath that is over, then what can begin, then a
// bath that runs. What only has to dry or to be judged comes last.
func (s State) benchWaiting(now time.Time) (Act, bool) {
	var best Act
	rank := -1
	for _, p := range s.Pieces {
		a, ok := s.BenchAct(p, now)
		if !ok {
			continue
		}
		r := 1
		switch {
		case a.Due != nil && !now.Before(a.Due.At):
			r = 4
		case a.Due == nil && a.Bench.ID != stepDry && a.Bench.ID != Crock && a.Bench.ID != Looked:
			r = 3
		case a.Due != nil:
			r = 2
		}
		if r > rank {
			best, rank = a, r
		}
	}
	return best, rank >= 0
}

// bench does the next thing with a piece whose dips are over.
func (s State) bench(tag string, now time.Time) ([]Body, error) {
	p, ok := s.Piece(tag)
	switch {
	case !ok:
		return refuse("no piece is tagged %q", tag)
	case p.Phase < FinishedPiece:
		return refuse("%s is not done with its dips: finish it first", tag)
	}
	st, ok := s.BenchNext(p)
	if !ok {
		return refuse("%s is done: nothing is left to do", tag)
	}
	if p.Finishing.Bath != "" {
		if least := st.Time.Low.Duration() - now.Sub(p.Finishing.Since); least > 0 {
			return refuse("%s stays in the %s %s more at least", tag, bathName(p.Finishing.Bath), Countdown(least))
		}
		return []Body{p.outOf(st)}, nil
	}
	if err := s.mayBath(p, st, now); err != nil {
		return nil, err
	}
	if words := s.benchCaution(p, st); words != "" {
		if s.Said != words {
			return []Body{CautionAnswered{Caution: words}}, nil
		}
		if now.Sub(s.SaidAt) < cautionLeast {
			return nil, ErrTooSoon
		}
	}
	switch st.ID {
	case stepDry:
		return []Body{Dried{OfPiece{tag}}}, nil
	case Crock:
		return refuse("rub %s, then say the two grades, dry and wet, 5 to 1; or leave it out", tag)
	case Looked:
		return refuse("say what %s looks like dry; or leave it out", tag)
	}
	return []Body{BathBegun{OfPiece{tag}, st.ID, st.Time.Likely}}, nil
}

// mayBath refuses acid before its gate, and hot water or acid while children are at the vat.
func (s State) mayBath(p Piece, st BenchStep, now time.Time) error {
	if st.Gated {
		if why := s.acidGate(p, now); why != "" {
			return fmt.Errorf("%s", why)
		}
	}
	if s.Children && (st.Gated || st.Temp.Likely > ChildrenMost) {
		return s.notForChildren("acid and hot baths")
	}
	return nil
}

// outOf is the event that ends the bath a piece is in.
func (p Piece) outOf(st BenchStep) Body {
	of := OfPiece{p.Tag}
	switch p.Finishing.Bath {
	case bathSour:
		return Soured{OfPiece: of, With: "weak acid"}
	case bathCitric:
		return Soured{OfPiece: of, With: "hot citric acid", Whites: true}
	case bathSoap:
		return Soaped{OfPiece: of, Temp: st.Temp.Likely}
	}
	return Rinsed{of}
}

// leaveOut leaves the next step after the last dip out.
func (s State) leaveOut(c LeaveOut) ([]Body, error) {
	p, ok := s.Piece(c.Tag)
	if !ok {
		return refuse("no piece is tagged %q", c.Tag)
	}
	st, ok := s.BenchNext(p)
	switch {
	case !ok:
		return refuse("nothing is left to do to %s", c.Tag)
	case p.Finishing.Bath != "":
		return refuse("%s is in the %s: take it out first", c.Tag, bathName(p.Finishing.Bath))
	case strings.TrimSpace(c.Reason) == "" && !st.Optional && st.ID != Crock && st.ID != Looked:
		return refuse("say why %s is left out", st.Name)
	}
	return []Body{LeftOut{OfPiece{c.Tag}, st.ID, c.Reason}}, nil
}

// crocks are grades of staining in words. From memory, after the grey scale's: 5 is none.
var crocks = []struct {
	word  string
	grade float64
}{{"none", 5}, {"trace", 4}, {"some", 3}, {"much", 2}, {"heavy", 1}}

// CrockWords is how the grades are said in words, best first.
const CrockWords = "none 5, trace 4, some 3, much 2, heavy 1"

// ParseCrock reads the two grades of a rubbing test, dry first: "4 2.5", "trace much". Grades go from 5 to 1 in halves.
func ParseCrock(text string) (dry, wet float64, err error) {
	w := strings.Fields(strings.NewReplacer("dry", " ", "wet", " ", ";", " ", "/", " ").Replace(strings.ToLower(text)))
	if len(w) != 2 {
		return 0, 0, fmt.Errorf("say how much blue is on the white, dry and wet, such as 4 2.5: %s", CrockWords)
	}
	var grades [2]float64
	for i, word := range w {
		g, err := strconv.ParseFloat(strings.Replace(strings.Trim(word, ","), ",", ".", 1), 64)
		for _, c := range crocks {
			if c.word == strings.Trim(word, ",") {
				g, err = c.grade, nil
			}
		}
		if err != nil || !grade(g) {
			return 0, 0, fmt.Errorf("%q is no grade: %s, in halves", word, CrockWords)
		}
		grades[i] = g
	}
	return grades[0], grades[1], nil
}

// grade tells whether a figure is one of the grey scale.
func grade(g float64) bool { return g >= 1 && g <= 5 && g*2 == math.Trunc(g*2) }

// rubbed checks a rubbing test.
func rubbed(b CrockTested) ([]Body, error) {
	if !grade(b.Dry) || !grade(b.Wet) {
		return refuse("say two grades, dry and wet, from 5 to 1 in halves: %s", CrockWords)
	}
	return []Body{b}, nil
}

// take tells the bench what happened to a piece.
func (f *Finishing) take(b Goods, at time.Time) {
	done := func(id string) {
		f.Bath, f.Since, f.For = "", time.Time{}, 0
		if id != bathRinse && !slices.Contains(f.Behind, id) {
			f.Behind = append(f.Behind, id)
		}
	}
	switch b := b.(type) {
	case DipBegun: // what it was rinsed of is in it again
		*f = Finishing{}
	case BathBegun:
		f.Bath, f.Since, f.For = b.Bath, at, b.For
	case Rinsed:
		f.Rinses++
		done(bathRinse)
	case Soured:
		id := bathSour
		if b.Whites {
			id = bathCitric
		}
		done(id)
	case Soaped:
		done(bathSoap)
	case Dried:
		done(stepDry)
	case CrockTested:
		done(Crock)
	case LookedAt:
		if !b.Wet && slices.Contains(f.Behind, stepDry) {
			done(Looked)
		}
	case LeftOut:
		done(b.What)
		if b.What == bathRinse {
			f.Behind = append(f.Behind, bathRinse)
		}
	}
}
