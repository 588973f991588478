package day_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// newest is the body of the last event.
func (p *played) newest() day.Body { return p.s.Log[len(p.s.Log)-1].Body }

// press presses the call that is seen.
func (p *played) press() string {
	p.t.Helper()
	return p.do(day.Done{Call: p.call().ID})
}

// Each family is asked with the ways that fit it, the usual one first; that is the press's and y's. All are taken.
func TestWaysFitTheFamily(t *testing.T) {
	for id, want := range map[string][]string{
		"soda": {day.ByStrip, day.BySwatch, day.ByFilm, day.ByEye}, "thiourea": {day.ByStrip, day.BySwatch, day.ByFilm, day.ByEye},
		"lye":        {day.ByStrip, day.ByEye}, // its first look is at the stock jar
		"sugar-lime": {day.ByFilm, day.BySwatch, day.ByEye}, "madder-bran": {day.ByFilm, day.BySwatch, day.ByEye},
		"iron-lime": {day.BySwatch, day.ByFilm, day.ByEye},
	} {
		h := head(t, id)
		h.Opening = day.Opening{Number: 2, Built: true}
		tended := begin(t, h)
		tended.do(day.Skip{})
		if how := tended.call().How; strings.Contains(how, "strip") != (id == "soda" || id == "thiourea" || id == "lye") || !strings.HasPrefix(how, "Look for ") {
			t.Errorf("a %s that lives is asked with %q", id, how)
		}
		p := begin(t, head(t, id))
		st := p.until(recipe.Check, "")
		for ; !st.Judges(); st = p.until(recipe.Check, "") {
			p.do(day.Done{})
		}
		if got := p.s.Ways(); !slices.Equal(got, want) {
			t.Errorf("%s is judged by %v, want %v", id, got, want)
		}
		c := p.call()
		if !c.Act.Judging() || !strings.Contains(c.How, "Ready by: 1 "+want[0]+", 2 ") || strings.Contains(c.How, "strip,") != (want[0] == day.ByStrip) {
			t.Errorf("%s is asked with %q", id, c.How)
		}
		if want[0] != day.ByStrip {
			p.press()
		} else {
			p.do(day.Judge{Ready: true})
		}
		if b, ok := p.newest().(day.VatJudged); !ok || !b.Ready || b.By != want[0] {
			t.Errorf("%s is ready by %+v", id, p.newest())
		}
	}
}

// looking is a soda vat at its look.
func judgingAt(t *testing.T) *played {
	p := begin(t, head(t, "soda"))
	p.until(recipe.Check, "")
	return p
}

// The strip is the call: out, blue, and what its seconds say; each with an id of its own, and the same whatever time passes.
func TestTheStripIsTheCall(t *testing.T) {
	p := judgingAt(t)
	ids := []string{p.call().ID}
	if c := p.call(); c.Short != "STRIP OUT" || c.Press != "strip out" || c.Verb != "pull" {
		t.Errorf("the look begins with %+v", c)
	}
	if got := p.press(); got != "strip begun" {
		t.Fatalf("out makes %s", got)
	}
	p.refuses(day.Done{Call: p.call().ID}, "too soon")
	p.wait(12 * sec)
	c := p.call()
	if c.ID != "strip vat 1" || c.Figure == nil || *c.Figure != 12 || c.Unit != "s" || c.Press != "it is blue" {
		t.Errorf("while it is watched the call is %+v", c)
	}
	p.refuses(day.Record{Body: day.StripBegun{}}, "is watched since")
	if ids = append(ids, c.ID); p.press() != "strip test" || p.newest().(day.StripTest).Stayed != quantity.Seconds(12) {
		t.Errorf("blue makes %+v", p.newest())
	}
	if c = p.call(); c.Press != "not yet" || c.Short != "NOT YET" || !strings.Contains(c.Words, "12 s") {
		t.Errorf("12 s say %+v", c)
	}
	if ids = append(ids, c.ID); p.press() != "vat judged" || p.newest().(day.VatJudged).Ready {
		t.Errorf("not yet makes %+v", p.newest())
	}
	c = p.call()
	if c.Due == nil || c.Press != "strip out" {
		t.Errorf("it waits, and %+v", c)
	}
	for ids = append(ids, c.ID); ; p.wait(minute) {
		if at := p.call(); at.ID != c.ID {
			t.Errorf("at %s the id becomes %s", p.now, at.ID)
		} else if *at.Figure < -60 {
			break
		}
	}
	p.press()
	p.wait(45 * sec)
	ids = append(ids, p.call().ID)
	p.do(day.StripBlue{})
	if c = p.call(); c.Press != "ready" || c.Short != "READY?" || !strings.Contains(c.Words, "45 s") {
		t.Errorf("45 s say %+v", c)
	}
	ids = append(ids, c.ID)
	p.press()
	if b, ok := p.newest().(day.VatJudged); !ok || !b.Ready || b.By != day.ByStrip {
		t.Errorf("the last press makes %+v", p.newest())
	}
	if slices.Sort(ids); len(slices.Compact(ids)) != 6 {
		t.Errorf("the ids are %q", ids)
	}
}

// Three minutes of yellow are not ready either; the dyer's own word goes before the strip's.
func TestAStripThatStaysYellow(t *testing.T) {
	p := judgingAt(t)
	p.press()
	p.wait(181 * sec)
	p.do(day.StripBlue{})
	if c := p.call(); c.Press != "not yet" || !strings.Contains(c.Words, "stayed yellow") {
		t.Errorf("181 s say %+v", c)
	}
	p.do(day.Judge{Ready: true, By: day.ByEye})
	q := judgingAt(t) // and while it is watched
	q.press()
	q.wait(5 * sec)
	if q.do(day.Judge{Ready: true, By: day.ByFilm}); !q.s.Vat.Ready {
		t.Error("it is not ready")
	}
	if _, watched := q.s.Watched(q.now); watched {
		t.Error("the strip is watched still")
	}
}

// A press that was meant for what one strip said is none for what another one says.
func TestAPressIsForOneStrip(t *testing.T) {
	p := judgingAt(t)
	p.do(day.Record{Body: day.StripTest{Stayed: quantity.Seconds(45)}})
	seen := p.call().ID
	p.do(day.Record{Body: day.StripTest{Stayed: quantity.Seconds(12)}})
	p.refuses(day.Done{Call: seen}, "Not taken. Not ready: the strip was blue after 12 s")
}

// PageUp takes a strip back; a strip that was forgotten leaves no figure, and a restart forgets none.
func TestAStripIsTakenBack(t *testing.T) {
	p := judgingAt(t)
	was := p.call().ID
	p.press()
	s, errs := day.Replay(p.s.Head, p.s.Log)
	if out, watched := s.Watched(p.now.Add(20 * sec)); len(errs) > 0 || !watched || out != 20*sec {
		t.Errorf("after a restart it is watched for %s, %v", out, errs)
	}
	p.do(day.Back{})
	if p.call().ID != was {
		t.Errorf("taken back the call is %s", p.call().ID)
	}
	p.press()
	p.wait(61 * minute)
	if c := p.call(); c.Press != "leave this strip" {
		t.Errorf("after an hour the press is %q", c.Press)
	}
	if got := p.press(); got != "corrected" || p.s.Vat.Strip != nil || p.call().ID != was {
		t.Errorf("a forgotten strip makes %s, and leaves %v", got, p.s.Vat.Strip)
	}
	p.refuses(day.StripBlue{}, "no strip is watched")
}

// A strip that is out for longer than anybody watches it is left by the press that goes on; only the word that it is blue counts.
func TestAStripThatNobodySawTurn(t *testing.T) {
	p := judgingAt(t)
	p.press()
	p.wait(4 * minute)
	if c := p.call(); c.Press != "leave this strip" || !strings.Contains(c.Words, "see it turn") || !strings.Contains(c.How, "else it is not read") {
		t.Errorf("after four minutes the call is %+v", c)
	}
	if got := p.press(); got != "corrected" || p.s.Vat.Strip != nil {
		t.Errorf("the press makes %s, and leaves %v", got, p.s.Vat.Strip)
	}
	p.press()
	p.wait(4 * minute)
	p.do(day.StripBlue{})
	if b, ok := p.newest().(day.StripTest); !ok || b.Stayed != quantity.Seconds(240) {
		t.Errorf("the word makes %+v", p.newest())
	}
	if c := p.call(); c.Short != "NOT YET" || !strings.Contains(c.How, "Not ready: the strip stayed yellow 4 min; good is ") {
		t.Errorf("no reason is given: %+v", c)
	}
}

// A second strip that was taken back leaves the first one watched: that one can still be left.
func TestAStripForgottenBeforeAnother(t *testing.T) {
	p := judgingAt(t)
	p.press()
	p.wait(61 * minute)
	p.do(day.Record{Body: day.StripBegun{}})
	p.do(day.Back{})
	if got := p.press(); got != "corrected" {
		t.Errorf("it makes %s", got)
	}
	p.refuses(day.StripBlue{}, "no strip is watched")
}

// While goods are in the liquor the strip runs beside them, and next ends it.
func TestAStripBesideADip(t *testing.T) {
	p := dyeing(t, 1)
	p.do(day.Lower{Tag: "A1"})
	p.wait(10 * sec)
	p.do(day.Record{Body: day.StripBegun{}})
	p.wait(30 * sec)
	if c := p.call(); c.Verb != "lift" {
		t.Errorf("the call is %+v", c)
	}
	beside := day.CallOf(p.s, p.now).Meanwhile(p.s, p.now)
	if len(beside) == 0 || beside[0].Verb != "strip" {
		t.Fatalf("meanwhile there is %+v", beside)
	}
	p.do(day.Take{Call: beside[0].ID})
	if b, ok := p.newest().(day.StripTest); !ok || b.Stayed != quantity.Seconds(30) {
		t.Errorf("it makes %+v", p.newest())
	}
	q := begin(t, head(t, "soda")) // and a step with powder keeps its call
	q.until(recipe.Sprinkle, "reducer")
	was := q.call().ID
	if q.do(day.Record{Body: day.StripBegun{}}); q.call().ID != was {
		t.Errorf("the call becomes %s", q.call().ID)
	}
}

// °C outside the working range is told where the vat is judged and where a piece goes in, and is no bar.
func TestOutsideTheWorkingRangeIsTold(t *testing.T) {
	for c, words := range map[float64]string{24: "It reads 24 °C, below its 30 °C to 40 °C", 43: "It reads 43 °C, above", 35: ""} {
		p := judgingAt(t)
		p.do(reading(c))
		how := p.call().How
		q := dyeing(t, 1)
		q.do(reading(c))
		q.do(day.Record{Body: day.FrothSkimmed{}})
		in := q.call()
		for _, told := range []string{how, in.How} {
			if words == "" && strings.Contains(told, "It reads") || !strings.Contains(told, words) {
				t.Errorf("at %g °C it says %q", c, told)
			}
		}
		if q.press() != "dip begun" {
			t.Errorf("at %g °C no piece goes in", c)
		}
	}
}

// Ready already, said during a wait, goes round neither the step's °C nor its caution.
func TestReadyGoesRoundNoGate(t *testing.T) {
	h := head(t, "soda")
	i := slices.IndexFunc(h.Recipe.Steps, func(st recipe.Step) bool { return st.Do == recipe.Wait })
	h.Recipe.Steps = slices.Clone(h.Recipe.Steps)
	h.Recipe.Steps[i].AtLeast = celsius(45)
	h.Recipe.Steps[i].Caution = "lid on, hands out"
	p := begin(t, h)
	p.until(recipe.Wait, "")
	p.do(reading(40))
	p.refuses(day.Judge{Ready: true, By: day.ByEye}, "warm it to 45 °C")
	p.refuses(day.Answered{Command: day.Judge{Ready: true}}, "warm it to 45 °C")
	p.do(reading(46))
	p.refuses(day.Judge{Ready: true}, "lid on, hands out")
	p.do(day.Answered{Command: day.Judge{Ready: true}})
}

// A check that was done yesterday says nothing of today's liquor.
func TestACheckOfAnotherDayOpensNoGate(t *testing.T) {
	h := head(t, "soda")
	var with []recipe.Step
	no := 0
	for _, st := range h.Recipe.Steps {
		if st.Do == recipe.Sprinkle {
			with = append(with, recipe.Step{Do: recipe.Check, AtMost: st.AtMost})
			st.AtMost, no = nil, len(with)+1
		}
		with = append(with, st)
	}
	h.Recipe.Steps = with
	h.Opening = day.Opening{Number: 2, Step: no, Temp: celsius(70)}
	p := begin(t, h)
	p.do(day.Done{})
	p.wait(2 * sec)
	p.refuses(day.Done{}, "at most 50 °C")
}

// Back takes the heater, the lid, a rest, a step left out and time given back, and says which.
func TestBackSaysWhatItTookBack(t *testing.T) {
	back := func(p *played, words string) {
		t.Helper()
		p.wait(minute)
		p.do(day.Back{})
		if got := p.s.Tell(p.newest()); !strings.HasPrefix(got, "taken back: "+words+" (#") {
			t.Errorf("it says %q, want %q", got, words)
		}
	}
	p := dyeing(t, 1)
	p.do(reading(34))
	p.do(day.Record{Body: day.HeaterOn{}})
	back(p, "heater on")
	if p.s.Vat.Heater {
		t.Error("the heater is on still")
	}
	p.do(day.Record{Body: day.HeaterOn{}})
	p.do(day.Record{Body: day.HeaterOff{}})
	if back(p, "heater off"); !p.s.Vat.Heater {
		t.Error("the heater is off still")
	}
	back(p, "heater on")
	p.do(day.Record{Body: day.VatCovered{}})
	if back(p, "lid on"); p.s.Vat.Covered {
		t.Error("the lid is on still")
	}
	p.do(day.RestVat{For: quantity.Minutes(60)})
	if back(p, "rest of the vat, 1 h"); !p.s.RestUntil.IsZero() {
		t.Error("it rests still")
	}
	p.do(day.Lower{Tag: "A1"})
	due := p.call().Due
	p.do(day.Stretch{Timer: due.Timer, By: quantity.Minutes(1)})
	p.do(day.Stretch{Timer: due.Timer, By: quantity.Minutes(1)}) // each press is one act, also within a second
	p.do(day.Back{})
	if now := p.call().Due; now.At.Sub(due.At) != time.Minute {
		t.Errorf("the dip ends %s later", now.At.Sub(due.At))
	}
	q := begin(t, head(t, "soda"))
	q.do(day.Skip{})
	if words := q.newest().Sentence(quantity.Metric); strings.HasSuffix(words, ": ") {
		t.Errorf("without a reason it says %q", words)
	}
	was := q.s.Step
	if q.do(day.Back{}); q.s.Step != was-1 || !strings.HasPrefix(q.s.Tell(q.newest()), "taken back: step 1 left out") {
		t.Errorf("step %d, %q", q.s.Step, q.s.Tell(q.newest()))
	}
}

// The hour without air, begun anew by a stirring, is not cut by taking that back.
func TestTheHourAloneIsNotTakenBack(t *testing.T) {
	h := head(t, "soda")
	h.Setup.Ending, h.Opening = true, day.Opening{Number: 3, Built: true, Step: 3}
	p := begin(t, h)
	p.wait(20 * minute)
	p.do(day.Record{Body: day.Stirred{}})
	due := p.call().Due.At
	n := len(p.s.Log)
	p.refuses(day.Undo{Seq: p.s.Log[n-1].Seq}, "this time is not shortened")
	p.do(day.Back{})
	if at := p.call().Due.At; !at.Equal(due) || p.newest().(day.Corrected).Of != p.s.Log[n-2].Seq {
		t.Errorf("the hour ends at %s, not %s; %+v", at, due, p.newest())
	}
}

// All that was taken as planned is confirmed at once, one event each; what was moved or taken back waits for no word.
func TestConfirmAll(t *testing.T) {
	p := dyeing(t, 4)
	p.refuses(day.ConfirmAll{}, "nothing was taken")
	for i := range 4 {
		tag := "A" + string(rune('1'+i))
		p.do(day.Lower{Tag: tag})
		p.wait(9 * minute)
		piece := p.piece(tag)
		p.do(day.Lift{Tag: tag, When: piece.Since.Add(8 * minute), Assumed: true})
	}
	list := p.s.Unsaid()
	if len(list) != 4 || p.s.Unconfirmed() != 4 {
		t.Fatalf("%d are unconfirmed", len(list))
	}
	if at := day.WhenOf(list[0]); !at.Equal(p.piece("A1").Past[0].Ended) {
		t.Errorf("the first was at %s", at)
	}
	p.do(day.Move{Seq: list[0].Seq, To: day.WhenOf(list[0]).Add(-minute)})
	p.do(day.Undo{Seq: list[3].Seq})
	if got := p.do(day.ConfirmAll{}); got != "corrected, corrected" {
		t.Errorf("it makes %s", got)
	}
	for _, e := range p.s.Log[len(p.s.Log)-2:] {
		if c := e.Body.(day.Corrected); c.Way != "confirmed" {
			t.Errorf("one is %s", c.Way)
		}
	}
	if p.s.Unconfirmed() != 0 || p.s.Assumed != 0 {
		t.Errorf("%d wait, %d in a row", p.s.Unconfirmed(), p.s.Assumed)
	}
}

// A pause is no lift's last minute, and not while one is due.
func TestPause(t *testing.T) {
	p := dyeing(t, 1)
	if !day.Pause(p.s, p.now) {
		t.Error("nothing runs, and there is no pause")
	}
	p.do(day.Lower{Tag: "A1"})
	at := p.piece("A1").Since.Add(8 * minute)
	for left, want := range map[time.Duration]bool{2 * minute: true, minute: false, sec: false, -minute: false} {
		if got := day.Pause(p.s, at.Add(-left)); got != want {
			t.Errorf("%s before its end it is %t", left, got)
		}
	}
}

// A vat that is called ready against its strip is not written down as ready by strip; the strip named is the dyer's word.
func TestReadyAgainstTheStrip(t *testing.T) {
	for by, want := range map[string]string{"": day.ByEye, day.ByStrip: day.ByStrip} {
		p := judgingAt(t)
		p.do(day.Record{Body: day.StripTest{Stayed: quantity.Seconds(5)}})
		p.do(day.Judge{Ready: true, By: by})
		if b, ok := p.newest().(day.VatJudged); !ok || !b.Ready || b.By != want {
			t.Errorf("ready by %q makes %+v", by, p.newest())
		}
	}
}

// A liquor that was seen with its indigo not reduced is told of before the next piece goes in, however that is said, and nothing goes in by
// itself; what is in stays as it is. Something better seen ends it, and so does the dip whose caution was answered.
func TestNoDipWithoutAWordWhereTheVatIsNotReduced(t *testing.T) {
	blue, good := day.Record{Body: day.SignSeen{Sign: "blue"}}, day.Record{Body: day.StripTest{Stayed: quantity.Seconds(45)}}
	for name, c := range map[string]struct {
		seen  []day.Command
		wants string
	}{
		"seen blue":                 {[]day.Command{blue, day.Record{Body: day.SignSeen{Sign: "cloudy"}}}, "the liquor was seen blue at "},
		"a strip blue at once":      {[]day.Command{day.Record{Body: day.StripTest{}}}, "the strip was blue after 0 s at "},
		"seen blue, then a strip":   {[]day.Command{blue, good}, ""},
		"seen blue, then yellow":    {[]day.Command{blue, day.Record{Body: day.SignSeen{Sign: "yellow"}}}, ""},
		"seen blue, then ready":     {[]day.Command{blue, day.Judge{Ready: true, By: day.ByEye}}, ""},
		"a good strip, then a blue": {[]day.Command{good, blue}, "the liquor was seen blue at "},
	} {
		p := dyeing(t, 2, func(h *day.Head) { h.Setup.NoLook = true })
		p.do(day.Lower{Tag: "A1"})
		for _, seen := range c.seen {
			p.do(seen)
		}
		if a := day.Next(p.s, p.now); a.Kind != day.ActLift {
			t.Errorf("%s: while A1 is in the call is %s", name, a.Words)
		}
		p.wait(8 * minute)
		p.do(day.Lift{Tag: "A1"})
		p.do(day.Record{Body: day.FrothSkimmed{}})
		a := day.Next(p.s, p.now)
		if a.Kind != day.ActEnter || strings.Contains(a.How, "first see what helps, u") != (c.wants != "") {
			t.Errorf("%s: then the call is %s, %s", name, a.Words, a.How)
		}
		for _, lower := range []day.Command{day.Done{}, day.Lower{Tag: "A2"}} {
			if got := day.CautionOf(p.s, lower, p.now); !strings.HasPrefix(got, c.wants) || c.wants == "" && got != "" {
				t.Errorf("%s: %T has the caution %q", name, lower, got)
			}
		}
		p.do(day.Lower{Tag: "A2"})
		p.wait(8 * minute)
		p.do(day.Lift{Tag: "A2"})
		if got := day.CautionOf(p.s, day.Lower{Tag: "A1"}, p.now); got != "" {
			t.Errorf("%s: after a dip that was answered for, the next has %q", name, got)
		}
	}
}

// Not even where the dyer let entries go on by themselves.
func TestNothingGoesInByItselfWhereTheVatIsNotReduced(t *testing.T) {
	for _, seen := range []bool{false, true} {
		p := dyeing(t, 1, func(h *day.Head) { h.Setup.Entries, h.Setup.NoLook = true, true })
		p.do(day.Lower{Tag: "A1"})
		p.wait(8 * minute)
		p.do(day.Lift{Tag: "A1"})
		p.do(day.Record{Body: day.FrothSkimmed{}})
		if seen {
			p.do(day.Record{Body: day.SignSeen{Sign: "blue"}})
		}
		p.wait(13 * minute)
		if made := p.assume(); (made == "") != seen {
			t.Errorf("seen blue %v, it made %q", seen, made)
		}
	}
}

// Who calls a vat ready against the strip that was just read is asked once more; who names the way is not.
func TestReadyAgainstTheStripIsAsked(t *testing.T) {
	h := head(t, "soda")
	h.Opening = day.Opening{Number: 2, Built: true}
	for stayed, asked := range map[quantity.Span]string{quantity.Seconds(18): "the strip stayed yellow 18 s", quantity.Seconds(45): ""} {
		p := begin(t, h)
		p.do(day.Skip{Reason: "warm already"})
		p.do(day.Record{Body: day.StripTest{Stayed: stayed}})
		if got := day.CautionOf(p.s, day.Judge{Ready: true}, p.now); !strings.HasPrefix(got, asked) || asked == "" && got != "" {
			t.Errorf("after %v it is asked %q", stayed, got)
		}
		if got := day.CautionOf(p.s, day.Judge{Ready: true, By: day.ByEye}, p.now); got != "" {
			t.Errorf("after %v, by eye, it is asked %q", stayed, got)
		}
	}
}

// A vat that was read to be as warm as it should be is not called to be warmed, with no caution of a heater; it may be called ready at once.
func TestAWarmVatIsNotWarmed(t *testing.T) {
	h := head(t, "soda")
	h.Opening = day.Opening{Number: 2, Built: true}
	for c, warm := range map[float64]bool{34: false, 36: true} {
		p := begin(t, h)
		p.do(reading(c))
		if a := p.call(); (a.Words == "It is warm enough") != warm || (a.Caution == "") != warm || (a.Short == "WARM ENOUGH") != warm {
			t.Errorf("at %v °C the call is %s, %s, caution %q", c, a.Short, a.Words, a.Caution)
		}
		if _, err := day.Decide(p.s, day.Judge{Ready: true, By: day.ByStrip}, p.now); (err == nil) != warm {
			t.Errorf("at %v °C ready is answered with %v", c, err)
		}
		if warm {
			p.do(day.Judge{Ready: true, By: day.ByStrip})
			if _, open := p.s.Open(); open || !p.s.Vat.Ready {
				t.Error("called ready it is not")
			}
		}
	}
}
