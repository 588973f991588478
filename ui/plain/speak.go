package plain

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
)

// happened is an event as it is told when it happens; empty for what was told before it: that the day opened, and a caution.
func happened(s day.State, e day.Event) string {
	switch b := e.Body.(type) {
	case day.Opened, day.CautionAnswered:
		return ""
	case day.StepDone: // the next one is told
		return "Done."
	case day.StepBegun:
		return "Begun."
	case day.Corrected: // without the number of what was corrected
		return wording.Sentence(strings.Replace(s.Tell(e.Body), fmt.Sprintf(" (#%d)", b.Of), "", 1))
	}
	return wording.Joined(" ", wording.Sentence(s.Tell(e.Body)), wording.Sentence(s.Amiss(e)))
}

// greeting names the vat, what the day is, and how one is answered.
func greeting(v engine.View) string {
	name := v.State.Head.Name() + wording.If(v.State.Head.Rehearsed, ", a rehearsal")
	return name + ", " + v.State.Opened.Format("Monday 2 January") + ".\nEnter says done, or how long it still takes. help tells what you can say. leave ends the program; the day stays open."
}

// callText is the call as lines. It holds no running time, so that it is told once.
func callText(s day.State, c day.Call, now time.Time) []string {
	a := c.Act
	early := dips(c, now)
	first := c.Words
	switch line := amount(s, c, now); {
	case early && len(c.Tags) == 1:
		first = c.Tags[0] + " is in the vat"
	case early:
		first = wording.List(c.Tags) + " are in the vat"
	case a.Kind == day.ActBench && c.Due != nil && now.Before(c.Due.At):
		first = a.Piece.Tag + " is in its bath"
	case line != "":
		first += ": " + line
	}
	if c.Due != nil && now.Before(c.Due.At) {
		till := "till " + day.DateOf(c.Due.At, now)
		if strings.HasSuffix(first, "?") {
			first += " " + wording.Sentence(till)
		} else {
			first = strings.TrimSuffix(first, ".") + ", " + till
		}
	}
	out := []string{wording.Sentence(first)}
	if a.Kind == day.ActStep {
		out[0] = fmt.Sprintf("Step %d of %d. ", a.Step.No, len(s.Plan)) + out[0]
	}
	line := func(words string) {
		if words != "" {
			out = append(out, unsourced(words))
		}
	}
	if c.Caution != "" {
		line("Caution: " + c.Caution)
		return append(out, answered(s, c)...)
	}
	if early { // how it comes out is told when it does
		return out
	}
	line(c.How)
	switch {
	case strings.HasPrefix(c.Why, "Then"): // what is looked for after it
		line(c.Why)
	case c.Why != "":
		line("Why: " + c.Why)
	}
	return append(out, answered(s, c)...)
}

// amount is how much the call takes, or how long. What is poured cold and hot is told in the sentence behind it.
func amount(s day.State, c day.Call, now time.Time) string {
	st := c.Act.Step
	switch {
	case c.Verb == "read", st.Do == recipe.Fill:
		return ""
	case st.For > 0 && st.Powder == "" && (c.Due == nil || now.Before(c.Due.At)):
		return lasts(st.For.Duration())
	}
	return c.Amount(s, now)
}

// unsourced is a sentence as it is heard at the vat: the sheet and the log have its sources.
func unsourced(words string) string {
	return wording.Sentence(practice.Unsourced(words))
}

// answered is how the call is answered.
func answered(s day.State, c day.Call) []string {
	a, words := c.Act, ""
	if c.Caution != "" {
		return []string{"When you have read it, Enter."}
	}
	if press := a.Press; press != "" {
		words = "Enter: " + strings.TrimSuffix(press, ".") + "."
	}
	switch {
	case a.Entry == day.MassEntry:
		words += " Or type what the scale shows, a scoop at a time."
	case a.Entry == day.TempEntry:
		words += " Type the temperature that you read."
	case a.Judging() && a.Kind == day.ActStrip: // the figures were told with the look before it
		words += " no: not yet."
	case a.Judging():
		words += " Or type one of these figures; no: not yet."
	}
	return wording.Filled(words, answer.Hint(s, a))
}

// dips tells whether the call is of what is in the vat and has more than its last minute to go.
func dips(c day.Call, now time.Time) bool {
	return c.Act.Kind == day.ActLift && c.Due != nil && c.Due.At.Sub(now) > day.LastMinute
}

// runs tells whether nothing is to be done for the call before its time is over.
func runs(c day.Call, now time.Time) bool {
	return c.Due != nil && c.Due.At.After(now) && (dips(c, now) || c.Act.Press == "")
}

// lower puts the first letter in lower case, but not that of a tag.
func lower(s string) string {
	word, _, _ := strings.Cut(s, " ")
	return wording.Either(strings.ContainsAny(word, "0123456789") || word == strings.ToUpper(word), s, wording.Lower(s))
}

// lasts is a stretch of time as one says it: "5 min 10 s".
func lasts(d time.Duration) string {
	d = d.Round(time.Second)
	if s := d % time.Minute; d > time.Minute && d < time.Hour && s > 0 {
		return fmt.Sprintf("%d min %d s", d/time.Minute, s/time.Second)
	}
	return day.Long(d)
}

// deadline is one moment at which one kind of time is over, for a piece or for several.
type deadline struct {
	day.Due
	tags []string
}

// deadlines are the times that run, the soonest first; what comes at one moment for several pieces is one.
func deadlines(v engine.View) []deadline {
	var out []deadline
	for _, d := range v.Dues() {
		i := slices.IndexFunc(out, func(o deadline) bool { return d.Tag != "" && o.Kind == d.Kind && o.At.Equal(d.At) })
		if i < 0 {
			out = append(out, deadline{d, nil})
			i = len(out) - 1
		}
		if d.Tag != "" {
			out[i].tags = append(out[i].tags, d.Tag)
		}
	}
	return out
}

// then is what comes at a deadline: no order, as it is not time yet.
func (d deadline) then() string {
	who, many := wording.List(d.tags), len(d.tags) > 1
	one := func(one, more string) string {
		if many {
			return who + " " + more
		}
		return who + " " + one
	}
	switch d.Kind {
	case day.DueLift:
		return one("comes out", "come out")
	case day.DueEnter:
		return one("has aired", "have aired")
	case day.DueFinish:
		return one("has aired for the last time", "have aired for the last time")
	case day.DueRest:
		return "the vat has rested"
	}
	return strings.TrimSuffix(lower(d.Words), ".")
}

// stands tells of each time that runs how long it still does; of none, what the call is.
func (t *Terminal) stands(v engine.View) {
	told := false
	for _, d := range deadlines(v) {
		left := d.At.Sub(v.Now)
		if left > 0 {
			t.say("%s, then %s.", wording.Upper(lasts(left)), strings.TrimSuffix(d.then(), "?"))
			told = true
		} else if d.Kind == day.DueLift || d.Kind == day.DueStep {
			t.say("%s late: %s", wording.Upper(lasts(-left)), wording.Sentence(lower(d.Words)))
			told = true
		}
	}
	if c := v.Call(); !told || !runs(c, v.Now) {
		t.say("%s", strings.Join(callText(v.State, c, v.Now)[:1], " "))
	}
}

// marks are the times left that are told, the longest first.
var marks = []time.Duration{10 * time.Minute, 5 * time.Minute, 2 * time.Minute, time.Minute}

// time tells the marks of one deadline, only the nearest of those that have passed, its end, and each five minutes over.
func (t *Terminal) time(v engine.View, d deadline) {
	s, now := v.State, v.Now
	key := fmt.Sprint(int(d.Kind), d.Timer, " ", d.At.Format(time.RFC3339), " ")
	left := d.At.Sub(now)
	if left > 0 {
		for i := len(marks) - 1; i >= 0; i-- {
			if m := marks[i]; left <= m {
				if left > m-15*time.Second {
					t.once(key+m.String(), fmt.Sprintf("%s, then %s.", day.Long(m), strings.TrimSuffix(d.then(), "?")))
				}
				return
			}
		}
		return
	}
	over := (-left).Truncate(5 * time.Minute)
	if key += "over " + over.String(); t.said[key] {
		return
	}
	t.said[key] = true
	words := day.Spoken(s, d.Due, now)
	says := lower(words)
	if d.Kind == day.DueLift && !strings.HasPrefix(says, "lift ") { // read, not heard across the yard: the verb first
		says = "lift " + words
	}
	text := wording.Either(over > 0, day.Long(over)+" late: "+says, "Now: "+says)
	if over > 0 || words != t.fresh { // else it was told as the call
		t.once(d.At.Format(time.RFC3339)+" "+text, wording.Sentence(text))
	}
	if c := v.Call(); c.Act.Kind == day.ActLift && d.Kind == day.DueLift {
		t.once("how "+c.How, unsourced(c.How))
		t.once(key+"press", "Enter: out.")
	}
}

// beside says what can be done while the call's time runs; empty where that is nothing.
func beside(v engine.View) string {
	var words []string
	now := v.Call()
	for _, c := range v.Meanwhile() {
		looks := now.Act.Kind == day.ActDecide && c.Act.Kind == day.ActFinish && c.Act.Piece.Tag == now.Act.Piece.Tag // the call says so
		if looks || c.Act.Kind == day.ActSound {                                                                      // it is asked by itself
			continue
		}
		words = append(words, lower(c.Words))
	}
	if len(words) == 0 {
		return ""
	}
	return strings.NewReplacer("?;", "?", "?.", "?").Replace("Meanwhile: " + strings.Join(words, "; ") + ". next: the first of it is done.")
}
