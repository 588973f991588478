package day

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
)

// decide does the next thing with a piece whose dips are over.
func (c Bench) decide(s State, now time.Time) ([]Body, error) {
	p, ok := s.Piece(c.Tag)
	switch {
	case !ok:
		return refuse("no piece is tagged %q", c.Tag)
	case p.Phase < FinishedPiece:
		return refuse("%s is not done with its dips: finish it first", c.Tag)
	}
	st, ok := s.BenchNext(p)
	if !ok {
		return refuse("%s is done: nothing is left to do", c.Tag)
	}
	if p.Finishing.Bath != "" {
		if least := st.Time.Low.Duration() - now.Sub(p.Finishing.Since); least > 0 {
			return refuse("%s stays in the %s %s more at least", c.Tag, bathName(p.Finishing.Bath), Countdown(least))
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
		return []Body{Dried{OfPiece(c)}}, nil
	case Crock:
		return refuse("rub %s, then say the two grades, dry and wet, 5 to 1; or leave it out", c.Tag)
	case Looked:
		return refuse("say what %s looks like dry; or leave it out", c.Tag)
	}
	return []Body{BathBegun{OfPiece(c), st.ID, st.Time.Likely}}, nil
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

// decide leaves the next step after the last dip out.
func (c LeaveOut) decide(s State, _ time.Time) ([]Body, error) {
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
		return refuse("%s: say why it is left out", st.Name)
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

func rubbed(b CrockTested) ([]Body, error) {
	if !grade(b.Dry) || !grade(b.Wet) {
		return refuse("say two grades, dry and wet, from 5 to 1 in halves: %s", CrockWords)
	}
	return []Body{b}, nil
}
