package day_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// Where the head says so, no powder is touched before it is known where the vat stands, what it is made of and who is at it. Each
// question is the call, and has no usual answer.
func TestNoPowderBeforeTheQuestionsAreAnswered(t *testing.T) {
	h := head(t, "soda")
	h.Setup.Place, h.Setup.Material, h.Setup.Asks = "", "", true
	p := begin(t, h)
	for _, c := range []struct {
		short, words string
		first        string
		bad          day.Body
		choice       int
	}{
		{"WHERE?", "Where does the vat stand?", day.Outdoors, day.PlaceChanged{Place: "a balcony"}, 1},
		{"VESSEL?", "What is the vessel made of?", "stainless", day.VesselTold{Material: "aluminium"}, 4},
		{"WHO IS HERE?", "Who is at the vat?", "you alone", day.HelperChanged{}, 0},
	} {
		if c2 := p.call(); c2.Short != c.short || c2.Words != c.words || c2.Press != "" || c2.Act.Kind != day.ActAsk {
			t.Errorf("the call is %s, %s, press %q", c2.Short, c2.Words, c2.Press)
		}
		for _, no := range []day.Command{day.Done{}, day.PutScoop{Mass: 30}, day.Answered{Command: day.Done{}}} {
			p.refuses(no, "answer first")
		}
		p.refuses(day.Record{Body: c.bad}, "")
		choices := p.s.Choices()
		if len(choices) < 3 || choices[0].Words != c.first {
			t.Fatalf("%s is answered by %v", c.short, choices)
		}
		p.do(day.Record{Body: choices[c.choice].Body})
	}
	if c := p.call(); c.Act.Kind != day.ActStep || c.Act.Step.Do != recipe.Weigh || c.Caution == "" {
		t.Errorf("then the call is %s", c.Words)
	}
	inside := day.Event{At: p.now, Body: day.PlaceChanged{Place: day.ClosedRoom}}
	if words := p.s.Amiss(inside); !strings.HasPrefix(words, "no sulfur reducer in a closed room") {
		t.Errorf("a closed room is answered with %q", words)
	}
	if p.s.Place() != day.CrossDraught || p.s.Head.Setup.Material != "HDPE" || p.s.Children {
		t.Errorf("it stands %s, is made of %s", p.s.Place(), p.s.Head.Setup.Material)
	}
	p.do(day.Done{})
	p.do(day.PutScoop{Mass: 30})
}

// What is to be dyed is asked first; then the questions, before the goods are scoured.
func TestTheQuestionsComeBeforeScouring(t *testing.T) {
	h := head(t, "soda")
	h.Setup.Place, h.Setup.Material, h.Setup.Asks, h.Setup.GoodsFirst = "", "", true, true
	p := begin(t, h)
	if c := p.call(); c.Act.Kind != day.ActGoods {
		t.Fatalf("the first call is %s", c.Words)
	}
	p.do(day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 2}})
	p.do(day.Done{})
	for range 3 {
		if c := p.call(); c.Act.Kind != day.ActAsk {
			t.Errorf("then the call is %s", c.Words)
		}
		p.do(day.Record{Body: p.s.Choices()[0].Body})
	}
	if c := p.call(); c.Act.Kind != day.ActReady {
		t.Errorf("last comes %s", c.Words)
	}
}

// Days whose head asks nothing, such as those of scripts and all older ones, go on as they are; and where children came, powders
// wait for the adults.
func TestWhoIsAskedNothing(t *testing.T) {
	h := head(t, "soda")
	h.Setup.Place, h.Setup.Material = "", ""
	p := begin(t, h)
	if c := p.call(); c.Act.Kind != day.ActStep {
		t.Errorf("the call is %s", c.Words)
	}
	h.Setup.Place, h.Setup.Material, h.Setup.Asks = day.Outdoors, "HDPE", true
	p = begin(t, h)
	p.do(day.Record{Body: p.s.Choices()[2].Body})
	p.refuses(day.Done{}, "for adults")
	p.refuses(day.PutScoop{Mass: 30}, "for adults")
}

// A vat that is called ready in its wait is asked about: nobody has said by what it was seen, and no strip was read. Of goods that are not
// there nothing is said.
func TestReadyBeforeItsTimeIsAsked(t *testing.T) {
	for _, c := range []struct {
		judge  day.Judge
		strip  bool
		waited time.Duration
		asks   string
	}{
		{day.Judge{Ready: true}, false, 0, "30 min to go, no strip read: is it ready?"},
		{day.Judge{Ready: true}, false, 10 * time.Minute, "20 min to go, no strip read: is it ready?"},
		{day.Judge{Ready: true}, false, 31 * time.Minute, ""},
		{day.Judge{Ready: true}, true, time.Minute, ""},
		{day.Judge{Ready: true, By: day.ByStrip}, false, time.Minute, ""},
	} {
		p := begin(t, head(t, "soda"))
		for {
			st, _ := p.s.Open()
			if st.Do == recipe.Wait {
				break
			}
			p.do(day.Skip{Reason: "done before"})
		}
		if how := day.CallOf(p.s, p.now).How; strings.Contains(how, "goods") {
			t.Errorf("no piece is on the list, and it says %q", how)
		}
		since := p.now
		if c.strip {
			p.do(day.Record{Body: day.StripTest{Stayed: quantity.Seconds(45)}})
		}
		p.now = since.Add(c.waited)
		asks := ""
		_, err := day.Decide(p.s, c.judge, p.now)
		if pending := (*day.Pending)(nil); errors.As(err, &pending) {
			asks = pending.Caution
		}
		if asks != c.asks {
			t.Errorf("%+v after %s asks %q (%v), not %q", c.judge, c.waited, asks, err, c.asks)
		}
		if _, err := day.Decide(p.s, day.Answered{Command: c.judge}, p.now); c.waited < 30*time.Minute && err != nil {
			t.Errorf("answered it is refused: %v", err)
		}
	}
}
