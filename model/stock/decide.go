package stock

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// The bounds of what a dyer's shelf holds: a pinch to a big bag. C
const (
	leastTin = quantity.Mass(0.1)
	mostTin  = quantity.Mass(1e6)
)

// leastStrength is the weakest powder that is worth a place: below it is mostly something else. As in recipe.
const leastStrength = quantity.Share(0.02)

// overfull is how much more than it says a tin may hold before the weighing is doubted. C
const overfull = 1.1

// Seen are the words for what forbids a test and all use.
func Seen() []string { return []string{"caked", "warm", "acrid"} }

// NewTin is what the dyer says of a tin. Zero: not told.
type NewTin struct {
	Material string
	Holds    quantity.Mass
	Price    *quantity.Money
	Strength quantity.Share
	Bought   *time.Time // nil: now, or when it was opened
	Opened   *time.Time // nil: it is sealed
}

// Buy puts a tin on the list: a Bought, and an Opened where it was opened. It refuses in one sentence a tin without a
// name or a weight, a strength outside 2 to 100 %, a price below zero, and times to come.
func (l List) Buy(n NewTin, now time.Time) ([]Body, error) {
	n.Material = strings.Join(strings.Fields(n.Material), " ")
	switch {
	case n.Material == "":
		return nil, errors.New("say what is in the tin, such as sodium dithionite")
	case utf8.RuneCountInString(n.Material) > 60:
		return nil, errors.New("the name of a powder is at most 60 letters, such as sodium dithionite")
	case substanceOf(n.Material) == recipe.Quicklime:
		return nil, errors.New("quicklime boils up when water gets at it, and is for no vat here: buy slaked lime, calcium hydroxide")
	case !(n.Holds >= leastTin && n.Holds <= mostTin):
		return nil, fmt.Errorf("a tin holds between 0.1 g and 1000 kg, not %s: type what the label says", n.Holds)
	case n.Price != nil && *n.Price < 0:
		return nil, fmt.Errorf("a tin does not cost %s: type what was paid for the whole tin, such as 12.50", n.Price)
	}
	if err := strong(n.Strength); err != nil {
		return nil, err
	}
	if err := past("bought", n.Bought, now); err != nil {
		return nil, err
	}
	if err := past("opened", n.Opened, now); err != nil {
		return nil, err
	}
	if n.Bought == nil && n.Opened != nil {
		n.Bought = n.Opened
	}
	if n.Opened != nil && n.Opened.Before(*n.Bought) {
		return nil, errors.New("a tin is not opened before it is bought")
	}
	of := OfTin{"T" + strconv.Itoa(l.last+1)}
	out := []Body{Bought{OfTin: of, Material: n.Material, Holds: n.Holds, Price: n.Price, Strength: n.Strength, When: n.Bought}}
	if n.Opened != nil {
		out = append(out, Opened{OfTin: of, When: n.Opened})
	}
	return out, nil
}

// strong refuses a strength that no powder has; 0 is not told.
func strong(s quantity.Share) error {
	if s != 0 && !(s >= leastStrength && s <= 1) {
		return fmt.Errorf("a strength of %.4g %% cannot be: it is between 2 %% and 100 %%", s.Percent())
	}
	return nil
}

// past refuses a time to come.
func past(what string, at *time.Time, now time.Time) error {
	if at != nil && at.After(now) {
		return fmt.Errorf("%s is still to come: say when the tin was %s", at.Format("2006-01-02"), what)
	}
	return nil
}

// Tin finds a tin that is on the shelf; the id in any case. The error names those that are there.
func (l List) Tin(id string) (Tin, error) {
	id = strings.TrimSpace(id)
	if n := l.at(id); n >= 0 {
		t := l.Tins[n]
		if t.Gone != nil {
			return t, fmt.Errorf("%s is gone: %s", t.ID, t.Gone.Why)
		}
		return t, nil
	}
	there := wording.Only(l.Tins, func(t Tin) bool { return t.Gone == nil })
	if len(there) == 0 {
		return Tin{}, fmt.Errorf("there is no tin %q: no tin is on the list yet", id)
	}
	ids := wording.Each(there, func(t Tin) string { return t.ID })
	return Tin{}, fmt.Errorf("there is no tin %q: there are %s", id, strings.Join(ids, ", "))
}

// BreakOpen opens a tin, at a time that is past, or now.
func (l List) BreakOpen(id string, at *time.Time, now time.Time) (Body, error) {
	t, err := l.Tin(id)
	switch {
	case err != nil:
		return nil, err
	case t.Opened != nil:
		return nil, fmt.Errorf("%s was opened on %s already", t.ID, t.Opened.Format("2006-01-02"))
	case t.Fitness() == Unfit:
		return nil, errors.New(t.ID + " stays shut: " + UnfitRule)
	case at != nil && at.Before(t.Bought) && at.Format(time.DateOnly) != t.Bought.Format(time.DateOnly):
		return nil, fmt.Errorf("%s was bought on %s: it was not opened before", t.ID, t.Bought.Format("2006-01-02"))
	}
	if err := past("opened", at, now); err != nil {
		return nil, err
	}
	return Opened{OfTin: OfTin{t.ID}, When: at}, nil
}

// Weigh says what is in a tin.
func (l List) Weigh(id string, m quantity.Mass) (Body, error) {
	t, err := l.Tin(id)
	switch {
	case err != nil:
		return nil, err
	case t.Fitness() == Unfit:
		return nil, errors.New(t.ID + " is left alone: " + UnfitRule)
	case !(m >= 0):
		return nil, fmt.Errorf("a tin does not hold %s: weigh what is in it", m)
	case float64(m) > overfull*float64(t.Holds):
		return nil, fmt.Errorf("%s held %s when it was bought, and cannot hold %s: weigh what is in it, without the tin", t.ID, t.Holds, m)
	}
	return Weighed{OfTin{t.ID}, m}, nil
}

// Try is a test of a tin as it came out: what was seen that forbids it, else whether it turned yellow-green, and after
// how long. Longer than TestWait did not turn. Only sulfur reducers are tested so; a tin that is unfit never is.
func (l List) Try(id string, r Tested) (Body, error) {
	t, err := l.Tin(id)
	if err != nil {
		return nil, err
	}
	if s, other := wording.First(r.Seen, func(s string) bool { return !slices.Contains(Seen(), s) }); other {
		return nil, fmt.Errorf("%q is not among what forbids a test: %s", s, strings.Join(Seen(), ", "))
	}
	r.Tin = t.ID
	switch {
	case !t.fades():
		return nil, fmt.Errorf("%s holds %s: only a reducer such as sodium dithionite is tested so", t.ID, t.Material)
	case len(r.Seen) > 0:
		return Tested{OfTin: r.OfTin, Seen: r.Seen}, nil
	case t.Fitness() == Unfit:
		return nil, errors.New(t.ID + " is not tested: " + UnfitRule)
	case r.After < 0:
		return nil, errors.New("say how long it took to turn, such as 6 min")
	}
	if err := strong(r.Strength); err != nil {
		return nil, err
	}
	if r.After > TestWait {
		r.Turned = false
	}
	if !r.Turned {
		r.Strength = 0
	}
	return r, nil
}

// Discard takes a tin off the shelf.
func (l List) Discard(id, why string) (Body, error) {
	t, err := l.Tin(id)
	why = strings.Join(strings.Fields(why), " ")
	switch {
	case err != nil:
		return nil, err
	case why == "":
		return nil, errors.New("say why it is gone, such as used up, or hazardous waste")
	case utf8.RuneCountInString(why) > 80:
		return nil, errors.New("say in at most 80 letters why it is gone, such as used up")
	}
	return Discarded{OfTin{t.ID}, why}, nil
}

// Undone is an act that a correction took back, in words: "T1 caked". Empty where there is none of that number.
func (l List) Undone(c Corrected, u quantity.System) string {
	for _, e := range l.Log {
		if e.Seq != c.Of {
			continue
		}
		if t, is := e.Body.(Tested); is && len(t.Seen) > 0 {
			return t.Tin + " " + strings.Join(t.Seen, ", ")
		}
		return e.Body.Sentence(u)
	}
	return ""
}

// Known tells whether a material is one of those with rules of their own, or what one of the recipes calls for.
func Known(material string, all []recipe.Recipe) bool {
	t := Tin{Material: material, Substance: substanceOf(material), Form: formOf(material)}
	if t.Substance != recipe.Other {
		return true
	}
	for _, r := range all {
		if slices.ContainsFunc(r.Powders, func(p recipe.Powder) bool { return t.same(p.Material, p.Substance(), formOf(p.Material)) }) {
			return true
		}
	}
	return false
}

// Undo takes the last act back that still stands.
func (l List) Undo() (Body, error) {
	undone := corrections(l.Log)
	for _, e := range slices.Backward(l.Log) {
		if _, is := e.Body.(Corrected); !is && !undone[e.Seq] {
			return Corrected{Of: e.Seq, Way: "undone"}, nil
		}
	}
	return nil, errors.New("there is nothing to take back")
}
