package day

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// stepDone answers the big key at a step of the plan.
func (s State) stepDone(a Act, now time.Time) ([]Body, error) {
	st := a.Step
	of := OfStep{st.No}
	if err := s.adults(st); err != nil {
		return nil, err
	}
	if a.Caution != "" {
		return []Body{CautionAnswered{of, s.stepCaution(st)}}, nil
	}
	if !s.Answered.IsZero() && now.Sub(s.Answered) < cautionLeast {
		return nil, ErrTooSoon
	}
	bar := because(s.gate(st))
	if adds := st.Do == recipe.Sprinkle || st.Do == recipe.Add; adds && st.Into == recipe.IntoVat {
		bar = cmp.Or(bar, s.handsOut("anything is added"), s.noDraught(st.Powder))
	} else if adds || st.Do == recipe.Weigh {
		bar = cmp.Or(bar, s.noDraught(st.Powder))
	}
	if bar != nil {
		return nil, bar
	}
	left, _ := a.Left(now)
	finished := StepDone{of, string(st.Do), wording.Lower(st.Title)}
	if times := st.Do == recipe.Stir || st.Do == recipe.Simmer || st.Do == DoWhisk; times && st.For > 0 && s.Begun.IsZero() {
		return []Body{StepBegun{of, wording.Lower(st.Title)}}, nil
	}
	switch st.Do {
	case recipe.Weigh:
		return s.weighed(st)
	case recipe.Add, recipe.Sprinkle:
		if st.Powder == "" {
			return []Body{StockDrawn{of, st.Water}}, nil
		}
		return []Body{PowderAdded{OfStep: of, Powder: st.Powder, Material: st.Material, Mass: s.toAdd(st), Into: string(st.Into), Why: "build"}}, nil
	case recipe.Stir:
		if st.For <= 0 {
			return []Body{Stirred{OfStep: of}}, nil
		}
		if now.Sub(s.Begun) < bounce {
			return nil, ErrTooSoon
		}
		return []Body{Stirred{OfStep: of, For: quantity.Span(now.Sub(s.Begun).Round(time.Second))}}, nil
	case DoWhisk:
		if l := s.stepLeft(now); l > 0 {
			return refuse("whisk %s more, on and off", Countdown(l))
		}
	case DoSpent:
		return unless(because(s.notSpent(now)), finished)
	case DoAcid:
		reduces := because(s.stillReduces())
		switch {
		case !s.wantsAcid():
			return unless(cmp.Or(reduces, because(s.notMild())), finished)
		case reduces == nil && s.Place() == ClosedRoom:
			return refuse("no acid in a closed room: go outdoors, or make a draught, and say so")
		}
		lot := PowderAdded{Powder: acidID, Material: st.Material, Mass: st.Mass, Why: "to a mild pH, before it goes"}
		return unless(cmp.Or(reduces, s.handsOut("acid goes in")), lot)
	case DoEnd:
		return refuse("say where it went: that ends the vat")
	case recipe.Simmer:
		if l := s.stepLeft(now); l > 0 {
			return refuse("it simmers %s more; s leaves the rest out", Countdown(l))
		}
	case recipe.Cover:
		return []Body{VatCovered{OfStep: of}}, nil
	case recipe.Skim:
		return []Body{FrothSkimmed{OfStep: of}}, nil
	case recipe.Check:
		if st.Judges() {
			return s.looked(a, now)
		}
	case recipe.Settle:
		if left > 0 {
			return refuse("it settles %s more", Countdown(left))
		}
		return []Body{Settled{of, st.For}}, nil
	case recipe.Rest:
		if left > 0 {
			return refuse("the vat rests %s more", Countdown(left))
		}
		return []Body{Rested{of, st.For}}, nil
	case recipe.Wait, recipe.Cool:
		if left > 0 && s.Head.Setup.Ending {
			return refuse("%s more, without air and without hands: then look, and pull a strip", Countdown(left))
		}
		if left > 0 && st.For > 0 {
			return refuse("%s more to wait; if a strip says that it is ready already, say ready", Countdown(left))
		}
	}
	return []Body{finished}, nil
}

func (s State) stepLeft(now time.Time) time.Duration {
	d, _ := wording.First(s.stepDues(), func(d Due) bool { return d.Kind == DueStep })
	left, _ := d.left(now)
	return left
}

func (c PutScoop) decide(s State, _ time.Time) ([]Body, error) {
	st, ok := s.Open()
	if !ok || st.Do != recipe.Weigh {
		return refuse("nothing is being weighed")
	}
	if err := cmp.Or(s.adults(st), because(s.gate(st)), s.noDraught(st.Powder)); err != nil {
		return nil, err
	}
	if c.Mass == 0 || math.IsNaN(c.Mass.Grams()) || math.IsInf(c.Mass.Grams(), 0) {
		return refuse("type what the scale shows for this scoop")
	}
	if sum := s.Weighed(st.No) + c.Mass; sum < 0 {
		return refuse("the scale holds %s only", s.says(s.Weighed(st.No)))
	} else if sum > 10*st.Mass {
		return refuse("that would be ten times the %s wanted: look at the scale again", s.says(st.Mass))
	}
	return []Body{PowderWeighed{OfStep{st.No}, st.Powder, st.Material, c.Mass}}, nil
}

// decide takes ready or not yet at a check, or during the wait before it. Ready at a step that names no way is by
// the usual one.
func (c Judge) decide(s State, now time.Time) ([]Body, error) {
	if c.By != "" && !slices.Contains(Ways, c.By) {
		return refuse("a vat is judged by %s, not by %q", strings.Join(Ways, ", "), c.By)
	}
	st, ok := s.Open()
	if !ok {
		return []Body{VatJudged{Ready: c.Ready, By: c.By, Seen: c.Seen}}, nil
	}
	if c.Ready && c.By == "" && st.Do != DoSpent {
		c.By = s.usualWay()
	}
	if c.Ready && st.Do != DoSpent {
		if err := because(s.gate(st)); err != nil {
			return nil, err
		}
	}
	switch {
	case st.Do == DoSpent && c.Ready:
		return s.stepDone(s.stepAct(st, now), now)
	case st.Do == DoSpent:
		return []Body{VatJudged{OfStep{st.No}, false, c.By, c.Seen, "end"}}, nil
	case st.Judges():
		return []Body{VatJudged{OfStep{st.No}, c.Ready, c.By, c.Seen, string(st.Into)}}, nil
	case st.Do == recipe.Wait && s.Head.Setup.Ending:
		return refuse("only the whole hour without air tells; then look, and pull a strip")
	case c.Ready && (st.Do == recipe.Wait || s.warmEnough()):
		out := []Body{StepDone{OfStep{st.No}, string(st.Do), wording.Lower(st.Title)}}
		if st.No < len(s.Plan) && s.Plan[st.No].Judges() {
			out = append(out, VatJudged{OfStep{st.No + 1}, true, c.By, c.Seen, string(st.Into)})
		}
		return out, nil
	case st.Do == recipe.Wait:
		return refuse("the wait runs on; look again when it is over")
	}
	return refuse("first %s", wording.Lower(st.Title))
}

// looked answers the big key at the look that decides whether the vat is ready.
func (s State) looked(a Act, now time.Time) ([]Body, error) {
	switch a.Press {
	case "strip out":
		return s.pull(now)
	case "not yet":
		return Judge{By: ByStrip}.decide(s, now)
	}
	return Judge{Ready: true}.decide(s, now)
}

// pull begins to watch a strip.
func (s State) pull(now time.Time) ([]Body, error) {
	if out, watched := s.Watched(now); watched && out <= longestStrip {
		return refuse("a strip is watched since %s: say when it is blue", Clock(s.Vat.Pulled))
	}
	return []Body{StripBegun{}}, nil
}

// decide ends the watching of a strip. One that was forgotten tells nothing, and is taken back.
func (c StripBlue) decide(s State, now time.Time) ([]Body, error) {
	out, watched := s.Watched(now)
	switch {
	case !watched:
		return refuse("no strip is watched: pull one first")
	case out < cautionLeast: // a key that bounced
		return nil, ErrTooSoon
	case out > longestStrip, c.Pressed && out > unseenStrip:
		return s.takeBack(s.pulled, now)
	}
	return []Body{StripTest{Stayed: quantity.Span(out.Round(time.Second))}}, nil
}
