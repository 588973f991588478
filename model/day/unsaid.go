package day

import "time"

// ConfirmAll says that all that was taken as planned was so.
type ConfirmAll struct{}

func (ConfirmAll) command() {}

// Unsaid are the acts that were recorded as planned, without a press, and that nobody has confirmed, moved or taken back since:
// the oldest first.
func (s State) Unsaid() []Event {
	out := make([]Event, len(s.unsaid))
	for i, at := range s.unsaid {
		out[i] = s.Log[at]
	}
	return out
}

// Unconfirmed is how many they are.
func (s State) Unconfirmed() int { return len(s.unsaid) }

// WhenOf is when an act really was, as far as the book knows: told afterwards, else as it was written down.
func WhenOf(e Event) time.Time {
	var when *time.Time
	switch b := e.Body.(type) {
	case DipBegun:
		when = b.When
	case DipEnded:
		when = b.When
	case AiringEnded:
		when = b.When
	}
	if when != nil {
		return *when
	}
	return e.At
}

// Pause tells whether the hands have time for a question: no time runs in its last minute, and no lift is due.
func Pause(s State, now time.Time) bool {
	for _, d := range Dues(s) {
		left := d.At.Sub(now)
		if left <= LastMinute && (left > 0 || d.Kind == DueLift) {
			return false
		}
	}
	return !s.Closed
}

// confirmAll confirms each of them.
func (s State) confirmAll(now time.Time) ([]Body, error) {
	var out []Body
	for _, e := range s.Unsaid() {
		bodies, err := s.correct(e.Seq, "confirmed", nil, now)
		if err != nil {
			return nil, err
		}
		out = append(out, bodies...)
	}
	if len(out) == 0 {
		return refuse("nothing was taken as planned that waits for a word")
	}
	return out, nil
}
