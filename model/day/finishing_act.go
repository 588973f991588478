package day

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/practice"
	"example.org/vatside/model/wording"
)

// BenchAct is what the hands do next with a piece whose dips are over; false when nothing is left to do.
func (s State) BenchAct(p Piece, now time.Time) (Act, bool) {
	st, ok := s.BenchNext(p)
	if !ok {
		return Act{}, false
	}
	words := fmt.Sprintf(benchWords[st.ID].act, p.Tag) + st.count(", ")
	a := Act{Kind: ActBench, Piece: p, Bench: st, Words: words, How: wording.Upper(st.Do) + ".", Why: "Then: " + st.Check + "."}
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

// count is which rinse it is, behind a separator; empty for any other step.
func (b BenchStep) count(sep string) string {
	if b.ID != bathRinse {
		return ""
	}
	return fmt.Sprintf("%s%d of %d", sep, b.Done+1, b.Times.Likely)
}

// benchCaution is the caution of a step on a piece as it is written down; empty where a step has none.
func (s State) benchCaution(p Piece, st BenchStep) string {
	if len(st.Cautions) == 0 || st.ID == bathRinse {
		return ""
	}
	return p.Tag + ", " + st.Name + ": " + strings.Join(st.Cautions, "; ")
}

// OnBench are the pieces whose dips are over, with their last airing, as they stand on the day's list.
// Not inlined: that was 7 kB of the program.
//
//go:noinline
func (s State) OnBench() []Piece {
	return wording.Only(s.Pieces, func(p Piece) bool {
		_, steps := s.finish(&p)
		return len(steps) > 0 && (p.Phase == FinishedPiece || s.lastAiring(p))
	})
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
			return s.airAct(p, d), true
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
		return "done, its record is complete"
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
func (b BenchStep) bath() string { return bathName(b.ID) + b.count(" ") }

// Wants is what a piece is to be done to by the step, in a word: "to rinse", "to judge".
func (b BenchStep) Wants() string { return "to " + strings.ToLower(benchWords[b.ID].short) }

func (b BenchStep) to() string {
	words := "to " + cmp.Or(benchWords[b.ID].wants, b.Name) + b.count(", ")
	words += wording.If(b.Optional, ", if you like")
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

func (s State) finishAct(p Piece, d *Due) Act {
	return Act{Kind: ActFinish, Piece: p, Dip: p.Dips, Words: "Look at " + p.Tag + ": no green left?",
		How: "Open every fold; green anywhere: leave it to air.", Why: "Green is indigo that the air has not turned yet: a rinse would carry it off.",
		Due: d, Press: "done"}
}

// airAct is the wait for an airing; between two dips of a vat of lime with a rinse, where one is due.
func (s State) airAct(p Piece, d Due) Act {
	a := Act{Kind: ActAir, Piece: p, Dip: p.Dips, Words: "Air " + p.Tag, How: "Open every fold, turn it, so that none stays green.",
		Why: "Airing is a least time: in again only when no green shows.", Due: &d}
	if rinse, ok := practice.RinseBetween(s.Head.Recipe.Family, p.Dips); ok && p.Dips < p.Want() {
		a.How += " " + wording.Upper(rinse.Do) + "."
		a.Why = wording.Upper(rinse.Why) + "."
	}
	return a
}
