package day_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
)

// What was never told of the place, the vessel and who is there is named in the caution; the answer stands for it, and it is
// named once.
func TestACautionNamesWhatWasNeverTold(t *testing.T) {
	soda := built(t, "soda")
	now := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	const place, vessel, hands = "where it stands", "what the vessel is made of", "who is at it"
	for _, w := range []struct {
		setup   day.Setup
		before  day.Body
		command day.Command
		named   []string
	}{
		{day.Setup{Fill: 60}, nil, day.Dose{Powders: []day.Amount{{Powder: "reducer", Mass: 20}}}, []string{place, vessel, hands}},
		{day.Setup{Fill: 60, Place: day.Outdoors}, nil, day.Dose{Powders: []day.Amount{{Powder: "reducer", Mass: 20}}}, []string{vessel, hands}},
		{day.Setup{Fill: 60, Place: day.Outdoors, Material: "HDPE"}, nil, day.Dose{Powders: []day.Amount{{Powder: "soda", Mass: 20}}}, []string{hands}},
		{day.Setup{Fill: 60}, day.PlaceChanged{Place: day.CrossDraught}, day.Dose{Powders: []day.Amount{{Powder: "soda", Mass: 20}}}, []string{vessel, hands}},
		{day.Setup{Fill: 60}, day.HelperChanged{Who: "adults alone"}, day.Record{Body: day.HeaterOn{}}, []string{vessel}},
		{day.Setup{Fill: 60, Place: day.Outdoors, Material: "HDPE"}, nil, day.Done{}, nil},
		{day.Setup{Fill: 60, Place: day.Outdoors}, nil, day.Done{}, []string{vessel}},
		{day.Setup{Fill: 60}, nil, day.Done{}, []string{vessel, hands}},
		{day.Setup{Fill: 60}, nil, day.Close{}, nil},
	} {
		s, err := day.Begin(day.Head{Recipe: soda, Setup: w.setup, Opening: day.Opening{Number: 2, Built: true}})
		if err != nil {
			t.Fatal(err)
		}
		happen := func(bodies ...day.Body) {
			for _, b := range bodies {
				s, _ = day.Apply(s, day.Event{Seq: s.Seq + 1, At: now, Body: b})
			}
		}
		if happen(day.Opened{How: "tend"}); w.before != nil {
			happen(w.before)
		}
		words := day.CautionOf(s, w.command, now)
		if words == "" {
			t.Errorf("%#v wants no caution", w.command)
		}
		for _, what := range []string{place, vessel, hands} {
			if named := strings.Contains(words, what); named != strings.Contains(strings.Join(w.named, "|"), what) {
				t.Errorf("%#v in %+v: %q is named %v in %q", w.command, w.setup, what, named, words)
			}
		}
		bodies, err := day.Decide(s, day.Answered{Command: w.command}, now)
		if err != nil {
			t.Fatal(err)
		}
		if said, ok := bodies[0].(day.CautionAnswered); !ok || !strings.HasPrefix(said.Caution, words) {
			t.Errorf("what is written down is %+v, not %q", bodies[0], words)
		}
		if happen(bodies...); s.Closed {
			continue
		}
		if again := day.CautionOf(s, day.Dose{Powders: []day.Amount{{Powder: "indigo", Mass: 1}}}, now); s.Vat.Heater == false && len(w.named) == 3 && strings.Contains(again, "never told") {
			t.Errorf("it is named again: %q", again)
		}
	}
}

// An answer in the words of an older version counts as one of today.
func TestAnAnswerInTheWordsOfBefore(t *testing.T) {
	p := dyeing(t, 0)
	dose := day.Dose{Powders: []day.Amount{{Powder: "soda", Mass: 1}}}
	caution, _, _ := strings.Cut(day.CautionOf(p.s, dose, p.now), "; never told")
	p.happen(day.CautionAnswered{Caution: caution + "; never told, and answered with this: who is at it (adults alone)"})
	if again := day.CautionOf(p.s, dose, p.now); again == "" || strings.Contains(again, "froths") {
		t.Errorf("it is told in full once more: %q", again)
	}
}
