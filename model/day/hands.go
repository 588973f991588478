package day

// MostHands is the most pairs of hands that a vat has room for. Common practice has 1 to 3; more is left to the dyer.
const MostHands = 20

// mostPeople is the most people at the vat that are counted: more is no limit.
const mostPeople = 99

// Hands is how many pairs of hands are at the vat: as it was said today, else as the day was set up, else one.
func (s State) Hands() int {
	if s.HandsTold > 0 {
		return s.HandsTold
	}
	return max(s.Head.Setup.Hands, 1)
}

// AsksHands tells whether the timetable wants to know how many pairs of hands are at the vat: the pieces that still want dips belong
// to several named people, and nobody has said it.
func (s State) AsksHands() bool {
	if s.HandsTold > 0 || s.Closed {
		return false
	}
	first := ""
	for _, p := range s.Pieces {
		switch who := p.Spec.Who; {
		case who == "" || !p.Live():
		case first == "":
			first = who
		case who != first:
			return true
		}
	}
	return false
}

// HandsAsked is the question.
const HandsAsked = "How many pairs of hands at the vat?"
