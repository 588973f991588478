package day

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// goodsAct is what the goods ask for before their first dip, in the one list of calls: what is to be dyed, scouring, the soak at
// its time. It comes between two steps or while one waits, never within one, and each is left out at a word: goods hold up no vat.
func (s State) goodsAct(now time.Time) (Act, bool) {
	st, open := s.Open()
	if !s.Head.Setup.GoodsFirst || !open || s.Closed || s.Head.Setup.Ending || !s.between(st, now) {
		return Act{}, false
	}
	if s.atFirst() {
		if !s.goodsAsked {
			return s.askGoods(), true
		}
		for _, p := range s.Pieces {
			if p.Phase == Dry && !p.pasted() && p.Dips == 0 && !p.Readied(ToScour) && !s.harms(p) {
				if a, ok := s.scourAct(p); ok {
					return a, true
				}
			}
		}
	}
	for _, p := range s.Pieces {
		if at, ok := s.soakAt(p); ok && !now.Before(at) {
			return s.soakAct(p), true
		}
	}
	return Act{}, false
}

// atFirst tells whether nothing was done at the vat yet today, and its build, if it has one, is not begun.
func (s State) atFirst() bool {
	return len(s.doneToday) == 0 && len(s.portions) == 0 && (s.Head.Opening.Built || s.Step == 1) && s.Step == 1
}

// between tells whether the open step is not begun, or waits.
func (s State) between(st Step, now time.Time) bool {
	if st.Waits() {
		left, _ := s.stepAct(st, now).Left(now)
		return left > 0
	}
	return s.Begun.IsZero() && s.Answered.IsZero() && s.Weighed(st.No) == 0 && s.Judged.IsZero()
}

func (s State) askGoods() Act {
	a := Act{Kind: ActGoods, Words: "What is to be dyed?", Press: "not yet",
		How: "Weigh it dry and tag it; p, then A1 linen 420 g dark. Not weighed: about 400 g. Nothing yet: go on, the vat does not wait.",
		Why: "Scouring and soaking take longer than the build."}
	if n := len(s.Pieces); n > 0 {
		a.Words, a.Press = "What else is to be dyed?", "that is all"
		a.Why = wording.Counted(n, "piece") + " on the list. " + a.Why
	}
	return a
}

// scourAct asks for a piece to be scoured, with its amounts and when to begin for the vat to find it ready; false where the fibre
// is not known.
func (s State) scourAct(p Piece) (Act, bool) {
	f, err := fibre.Parse(p.Spec.Fibre)
	if err != nil {
		return Act{}, false
	}
	b, err := practice.ScourFor(f, "", p.Spec.Dry)
	if err != nil {
		return Act{}, false
	}
	sys := s.Head.Setup.System()
	with := b.Detergent.Likely.Scale(sys) + " of " + b.Washes()
	with += wording.If(b.Alkali.Likely > 0, " and "+b.Alkali.Likely.Scale(sys)+" of "+b.AlkaliIs)
	a := Act{Kind: ActReady, Piece: p, Tags: []string{p.Tag}, Do: ToScour, Words: "Scour " + p.Tag, Press: "scoured",
		How: fmt.Sprintf("%s in %s at %s, %s; %s. Already scoured, or no time: leave it out.", with, b.Water.Likely.Format(sys), b.Temp.Likely.Format(sys),
			Long(b.Time.Likely.Duration()), b.How),
		Why: "Done when " + b.Check + "."}
	if by := s.Head.Setup.ReadyBy; by != nil {
		w, err := practice.WetOut(f, p.Spec.Dry, nil)
		if err == nil {
			baths := time.Duration(max(1, b.Baths.Likely))
			a.Why = fmt.Sprintf("To be done by %s, for the dip at %s: begin by %s. ", DateOf(by.Add(-w.Time.Likely.Duration()), s.At), DateOf(*by, s.At),
				DateOf(by.Add(-w.Time.Likely.Duration()-baths*b.Time.Likely.Duration()), s.At)) + a.Why
		}
	}
	return a, true
}

// soakAt is when a piece goes into its soak, so that it is through when the vat is ready; false for one that needs none, is in, or
// stays out of this vat.
func (s State) soakAt(p Piece) (time.Time, bool) {
	if !s.Head.Setup.GoodsFirst || p.Phase != Dry || p.pasted() || p.Readied(ToSoak) || !p.Live() || s.atFirst() && !s.goodsAsked || s.harms(p) {
		return time.Time{}, false
	}
	f, err := fibre.Parse(p.Spec.Fibre)
	if err != nil {
		return time.Time{}, false
	}
	w, err := practice.WetOut(f, p.Spec.Dry, nil)
	if err != nil {
		return time.Time{}, false
	}
	return Latest(s.ReadyAt().Add(-w.Time.Likely.Duration()), s.StepSince, p.listed), true // too late is now
}

// ReadyAt is about when the vat takes its first piece: the steps that are left, one after the other, from when the open one
// opened; not before the wished hour.
func (s State) ReadyAt() time.Time {
	at := s.StepSince
	if at.IsZero() {
		at = s.Opened
	}
	for _, st := range s.Plan[min(max(0, s.Step-1), len(s.Plan)):] {
		if st.Waits() && st.No == s.Step {
			at = s.waitEnd(st)
			continue
		}
		takes := st.Takes()
		if st.Do == recipe.Warm {
			takes = max(takes, s.Head.Setup.Warms(NightAir, s.Head.Recipe.Liquor.Aim))
		}
		at = at.Add(takes.Duration())
	}
	if by := s.Head.Setup.ReadyBy; by != nil && by.After(at) && by.Sub(at) < aDay {
		at = *by
	}
	return at
}

// soakAct asks for a piece to go into its soak: wool in water at the vat's heat.
func (s State) soakAct(p Piece) Act {
	sys, w := s.Head.Setup.System(), s.soakOf(p)
	a := Act{Kind: ActReady, Piece: p, Tags: []string{p.Tag}, Do: ToSoak, Words: "Put " + p.Tag + " to soak", Press: "it soaks",
		How: fmt.Sprintf("%s in %s of %s, %s; %s.", p.Spec.weight(sys), w.Water.Format(sys), w.Temp.Likely.Format(sys), Long(w.Time.Likely.Duration()), w.How),
		Why: fmt.Sprintf("Done when %s. The vat is ready for it about %s.", w.Check, DateOf(s.ReadyAt(), s.At))}
	return a
}

// soakOf is the soak of a piece for the vat as it reads, or is to be; zero where the fibre is not known.
func (s State) soakOf(p Piece) practice.Wetting {
	f, _ := fibre.Parse(p.Spec.Fibre)
	vat := s.Head.Recipe.Liquor.Aim
	if s.Vat.Temp != nil && !s.Vat.TempAt.IsZero() {
		vat = *s.Vat.Temp
	}
	w, _ := practice.WetOut(f, p.Spec.Dry, &vat)
	return w
}

// weight is the dry weight as it is told: "420 g", "about 400 g, not weighed".
func (p PieceSpec) weight(sys quantity.System) string {
	if p.About {
		return "about " + p.Dry.Format(sys) + ", not weighed"
	}
	return p.Dry.Format(sys)
}

// soakDues are the times at which goods go into their soak.
func (s State) soakDues() []Due {
	if _, open := s.Open(); !open || s.Head.Setup.Ending {
		return nil
	}
	return wording.Some(s.Pieces, func(p Piece) (Due, bool) {
		at, ok := s.soakAt(p)
		return Due{"soak " + p.Tag, DueSoak, p.Tag, 0, Latest(s.StepSince, p.listed), at, "Put " + p.Tag + " to soak"}, ok
	})
}

// pastedHow are the words for lowering and lifting goods that bear a paste; empty where none of them does, or all is well.
func (s State) pastedHow(in []Piece) string {
	for _, p := range in {
		if p.pasted() {
			words := "Dry, pasted: hang it still, nothing moves beside it."
			if s.Vat.Temp != nil && *s.Vat.Temp > practice.CoolForPaste {
				words = fmt.Sprintf("The vat reads %s: a paste softens above %s; let it cool, or one short dip. ", s.says(s.Vat.Temp), s.says(practice.CoolForPaste)) + words
			}
			return words
		}
	}
	return ""
}

// anyPasted tells whether one of some pieces bears a paste.
func (s State) anyPasted(tags []string) bool {
	return slices.ContainsFunc(tags, func(tag string) bool {
		p, _ := s.Piece(tag)
		return p.pasted()
	})
}

// leaveGoods is the word that what the goods ask for is left out.
func (s State) leaveGoods(a Act) []Body {
	if a.Kind == ActGoods {
		return []Body{GoodsAsked{}}
	}
	return []Body{Readied{OfPiece{a.Piece.Tag}, a.Do, true}}
}

// readiedAt is how warm the bath is in which a piece is scoured or soaked; 0 where it is not known.
func (s State) readiedAt(p Piece, what string) quantity.Temperature {
	if what == ToSoak {
		return s.soakOf(p).Temp.Likely
	}
	f, _ := fibre.Parse(p.Spec.Fibre)
	b, _ := practice.ScourFor(f, "", p.Spec.Dry)
	return b.Temp.Likely
}

// decideReadied checks what is said of goods before their first dip.
func (s State) decideReadied(b Readied) ([]Body, error) {
	p, ok := s.Piece(b.Tag)
	switch b.What = strings.TrimSpace(b.What); {
	case !ok:
		return refuse("no piece is tagged %q", b.Tag)
	case b.What != ToScour && b.What != ToSoak:
		return refuse("before its first dip a piece is scoured or soaked, not %q", b.What)
	case b.What == ToSoak && p.pasted() && !b.Left:
		return refuse("%s has paste on it: it is never soaked", b.Tag)
	case p.Phase != Dry && b.What == ToSoak:
		return refuse("%s is wet already", b.Tag)
	case b.What == ToScour && p.readied.scoured:
		return refuse("%s is scoured already", b.Tag)
	case b.What == ToSoak && p.readied.soaks:
		return refuse("%s is in its soak already", b.Tag)
	case s.Children && !b.Left && s.readiedAt(p, b.What) > ChildrenMost:
		return nil, s.notForChildren("hot baths")
	}
	return []Body{b}, nil
}
