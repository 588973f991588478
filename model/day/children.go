package day

import (
	"fmt"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// handsMost is the hottest liquor for the hands that are at the vat.
func (s State) handsMost() quantity.Temperature {
	if s.Children {
		return ChildrenMost
	}
	return HandsMost
}

// notForChildren refuses what is an adult's. There is no override.
func (s State) notForChildren(what string) error {
	return fmt.Errorf("%s are for adults, and children are at the vat: send them away first, then say so: i", what)
}

// adults refuses a step with powder, lye or hot water while children are at the vat.
func (s State) adults(st Step) error {
	if !s.Children {
		return nil
	}
	switch st.Do {
	case recipe.Weigh, recipe.Hydrate, recipe.Dissolve, recipe.Add, recipe.Sprinkle:
		return s.notForChildren("powders and lye")
	case recipe.Simmer, recipe.Warm:
		return s.notForChildren("heat and hot water")
	case recipe.Fill:
		if st.Hot > 0 {
			return s.notForChildren("heat and hot water")
		}
	case DoAcid, DoWhisk:
		return s.notForChildren("acid and a vat that is whisked")
	}
	return nil
}

// childrenOff is the caution where children are at a vat of this °C; empty where they may dip in it.
func (s State) childrenOff(t quantity.Temperature) string {
	if t <= ChildrenMost {
		return ""
	}
	return fmt.Sprintf("the vat reads %s, too hot for children: keep them away from it, lid on, till it reads %s", s.says(t), s.says(ChildrenMost))
}

// hotWork takes an adult's word that goods go into a vat that is too hot for hands.
func (s State) hotWork(b HotWork) ([]Body, error) {
	switch {
	case s.Vat.Temp == nil || *s.Vat.Temp <= HandsMost:
		return refuse("up to %s hands may go in: nothing need be said", s.says(HandsMost))
	case s.Children:
		return nil, s.notForChildren("a vat above " + s.says(ChildrenMost))
	case b.Reason == "":
		return refuse("say why it must be so hot")
	}
	b.Temp = *s.Vat.Temp
	return []Body{b}, nil
}

// scalds tells whether the vat was last read too hot for the hands that are at it.
func (s State) scalds() bool { return s.Vat.Temp != nil && *s.Vat.Temp > s.handsMost() }

func (s State) scaldWhy() string {
	if s.Children && *s.Vat.Temp <= HandsMost {
		return "Children dip up to " + s.says(ChildrenMost) + " only."
	}
	return "Above " + s.says(HandsMost) + " a liquor scalds in minutes."
}
