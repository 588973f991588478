package history

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// Wait is the ID of a wait of the open step, which day.Between tells of too.
const Wait = "wait"

// Due is one thing that a vat wants, now or later.
type Due struct {
	ID       string          // stable: those of practice.Care, and wait, cold, weak, feed-indigo, winter
	Do       string          // a verb and its object
	Amount   quantity.Volume // of water, for a topping up; else 0
	How, Why string
	Evidence string
	At       time.Time     // when it is or was due; zero where the clock does not say
	Past     quantity.Span // by how much it is past At; below 0 still to come; 0 without At
	Coming   bool          // it is not due yet
	Round    bool          // of the waits, the daily round of a ferment
	Judge    bool          // of the waits, whether the vat is ready
}

// from sets when it is or was due.
func (d *Due) from(at, now time.Time) {
	d.At, d.Past = at, quantity.Span(now.Sub(at))
	d.Coming = d.Past < 0
}

// Overdue tells whether it is late by a day or more.
func (d Due) Overdue() bool { return !d.Coming && d.Past >= quantity.Days(1) }

// Words are what to do in the units of a system: "Top it up, 2.1 L".
func (d Due) Words(sys quantity.System) string {
	if d.Amount > 0 {
		return d.Do + ", " + d.Amount.Format(sys)
	}
	return d.Do
}

// When says it in words: "overdue by 3 days", "due now", "tomorrow", "in 5 days, on 2 Dec". Empty for what has no time and
// is not due yet.
func (d Due) When(now time.Time) string {
	switch {
	case d.Overdue():
		return "overdue by " + wording.Counted(int(d.Past/quantity.Days(1)), "day")
	case !d.Coming:
		return "due now"
	case d.At.IsZero():
		return ""
	}
	at := d.At.In(now.Location())
	switch days := wording.Nights(now, at); {
	case days <= 0:
		return "today " + day.Clock(at)
	case days == 1:
		return "tomorrow"
	default:
		return fmt.Sprintf("in %d days, on %s", days, at.Format("2 Jan"))
	}
}

// How long nothing happens at a vat before it is asked what shall become of it, and before it is taken to stand unused: the
// calls of the clock then end. From memory.
const (
	restSoon = 21 * 24 * time.Hour
	restLong = 42 * 24 * time.Hour
)

// settledIn is after how long a sugar vat is looked at weekly. C: "once it is settled"; the three weeks are from memory.
const settledIn, settledEvery = 21 * 24 * time.Hour, 7 * 24 * time.Hour

// What calls for care by the state of the vat.
const (
	topUpFrom = quantity.Share(0.03) // of the fill has gone. M
	guessUpTo = quantity.Share(0.2)  // and when more may have gone, the level is read first. M
	workFor   = 3 * time.Hour        // then it rests. S1
	loadsMost = 5                    // loads without a strip. S1, 5 to 8
)

// done is when a task of the clock was last done, by its ID in practice.Care.
type done struct {
	ID string
	At time.Time
}

// did notes the tasks of the clock that an event does.
func (p *Past) did(r *recipe.Recipe, e day.Event) {
	does, too := "", ""
	switch b := e.Body.(type) {
	case day.StripTest, day.Rechecked:
		does = "look"
	case day.SignSeen:
		does = "look"
		if sign, ok := b.Known(); ok && sign.Group == signs.GroupSwatch {
			too = "swatch"
		}
	case day.VatJudged:
		if b.Of == "" {
			does = "look"
		}
	case day.Reading:
		if b.PH != nil && b.Of == "" {
			does = "look"
		}
		if b.Temp != nil && b.Of == "" && *b.Temp >= r.Liquor.Low {
			too = "warm"
		}
	case day.SwatchJudged:
		does = "swatch"
	case day.Stirred:
		does = "stir"
	case day.Fed, day.PowderAdded:
		if roleGiven(r, b) == recipe.Food {
			does = "feed"
		}
	case day.HeaterOn:
		does = "warm"
	case day.StepDone:
		if b.Do == string(recipe.Warm) {
			does = "warm"
		}
	}
	for _, id := range [...]string{does, too} {
		i := slices.IndexFunc(p.Done, func(d done) bool { return d.ID == id })
		switch {
		case id == "":
		case i < 0:
			p.Done = append(p.Done, done{id, e.At})
		default:
			p.Done[i].At = e.At
		}
	}
}

// DoneAgo is how long ago each task of the clock was last done, by the ids of practice.Care; a task that was never done is not in it.
func (l *Life) DoneAgo(now time.Time) map[string]quantity.Span {
	out := map[string]quantity.Span{}
	for _, d := range l.past.Done {
		out[d.ID] = quantity.Span(max(0, now.Sub(d.At)))
	}
	return out
}

// winter tells whether words say that the vat rests: "winter" alone, "for the winter", "overwinter"; not "the winter scarves".
func winter(words string) bool {
	words = strings.ToLower(strings.Trim(words, " .!"))
	return words == "winter" || strings.HasSuffix(words, "for winter") || strings.Contains(words, "for the winter") || strings.Contains(words, "overwinter")
}

// Care is what a vat wants at an instant: what is due, the most overdue first, then what comes next, the soonest first. By
// the clock as practice.DueCare has it, and by how it stands. A vat that is still to be built, or led to its end, has only the
// waits of its open step; a resting one only its revival, which comes first until the vat is revived; an ended one nothing.
func (l *Life) Care(now time.Time) []Due {
	last, ok := l.Last()
	if !ok || last.State.Ended {
		return nil
	}
	var out []Due
	for _, w := range day.Between(last.State, now) {
		d := Due{ID: Wait, Do: wording.Upper(w.Words), Round: w.Round, Judge: w.Judge}
		if w.Judge {
			d.Do = "See if it is ready"
		}
		if !w.At.IsZero() {
			d.from(w.At, now)
		}
		out = append(out, d)
	}
	if d, falls := coldNight(last.State, now); falls {
		out = append(out, d)
	}
	if l.past.IsBuilt && !last.State.Head.Setup.Ending {
		if since, said, rests := l.Resting(now); rests {
			out = append(out, revival(last.State, since, said))
		} else {
			if r := l.past.Rest; r.woken() && !r.Revived {
				out = append(out, reviving(last.State, r))
			} else {
				out = append(out, l.byClock(now)...)
			}
			out = append(out, l.byState(now)...)
		}
	}
	rank := func(d Due) int { // what is due, then what has a date, then what has none
		switch {
		case !d.Coming:
			return 0
		case !d.At.IsZero():
			return 1
		}
		return 2
	}
	sorted.By(out, func(a, b Due) int { return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(b.Past, a.Past)) })
	return out
}

// doing is a task of practice.Care as a verb and its object.
var doing = map[string]string{
	"look": "Look at it", "swatch": "Dip a swatch", "stir": "Warm and stir it", "feed": "Feed it bran",
	"warm": "Warm it through", "evening": "Do the evening round", "top-up": "Top it up", "rest": "Rest it for 1 h", "strip": "Pull a strip", "decant": "Decant it",
	"revive": "Revive it",
}

func due(t practice.CareTask) Due {
	return Due{ID: t.ID, Do: doing[t.ID], How: t.What, Why: t.Why, Evidence: t.Evidence}
}

func settled(f recipe.Family, age quantity.Span) bool {
	return f == recipe.SugarLime && age > quantity.Span(settledIn)
}

// Every is after how long a task that is done at an instant is due again by the clock; 0 for what the clock does not bring.
func (l *Life) Every(id string, at time.Time) quantity.Span {
	if !l.past.IsBuilt {
		return 0
	}
	f := l.last.State.Head.Recipe.Family
	if id == "look" && settled(f, quantity.Span(at.Sub(l.past.Built))) {
		return quantity.Span(settledEvery)
	}
	t, _ := wording.First(practice.Care(f), func(t practice.CareTask) bool { return t.ID == id })
	return t.Every
}

// byClock are the tasks of the clock, those due and the next ones. The clock of a vat that rested begins anew with its revival.
func (l *Life) byClock(now time.Time) []Due {
	f := l.last.State.Head.Recipe.Family
	age := quantity.Span(max(0, now.Sub(l.past.Built)))
	since := l.DoneAgo(now)
	count := age // what was never done counts from here
	if r := l.past.Rest; r.woken() {
		awake := quantity.Span(max(0, now.Sub(r.Woke)))
		count = min(count, awake)
		for id, ago := range since {
			since[id] = min(ago, awake)
		}
	}
	has := map[string]bool{}
	var out []Due
	put := func(t practice.CareTask, past quantity.Span) {
		d := due(t)
		d.from(now.Add(-past.Duration()), now)
		has[t.ID] = true
		out = append(out, d)
	}
	ago := func(id string) quantity.Span {
		if s, ok := since[id]; ok {
			return s
		}
		return count
	}
	if settled(f, age) {
		for _, t := range practice.Care(f) {
			if t.ID == "look" {
				put(t, ago("look")-quantity.Span(settledEvery))
			}
		}
	}
	for _, d := range practice.DueCare(f, count, since) {
		if !has[d.ID] {
			put(d.CareTask, d.Past)
		}
	}
	for _, t := range practice.Care(f) {
		if t.Every > 0 && !has[t.ID] {
			put(t, ago(t.ID)-t.Every)
		}
	}
	return out
}

// byState are the tasks that the vat's state brings about. What was read of it before a rest says nothing after it, and no
// indigo is fed to a vat that is not revived.
func (l *Life) byState(now time.Time) []Due {
	s := l.last.State
	sys, fill := s.Head.Setup.System(), s.Head.Setup.Fill
	tasks := map[string]practice.CareTask{}
	for _, t := range practice.Care(s.Head.Recipe.Family) {
		if t.Every == 0 {
			tasks[t.ID] = t
		}
	}
	var out []Due
	put := func(id string, change func(*Due)) {
		if t, ok := tasks[id]; ok {
			d := due(t)
			change(&d)
			out = append(out, d)
		}
	}
	stand := l.Stand(now)
	words, do := l.weak(now)
	if words != "" {
		out = append(out, Due{ID: "weak", Do: "Put it right", How: words + ": " + do,
			Why: "what was read of it last, and nothing was given since", Evidence: "S1, C"})
	}
	if l := stand.Level; l.Lost.Likely >= quantity.Volume(topUpFrom)*fill {
		put("top-up", func(d *Due) {
			d.Amount = quantity.TwoFigures(l.Lost.Likely)
			if l.Known != outlook.Measured && l.Lost.High > quantity.Volume(guessUpTo)*fill {
				d.Do, d.Amount, d.How = "Read how full it is", 0, "then top it up: "+d.How
			}
			if d.Why = "read at the vat"; l.Known != outlook.Measured {
				d.Why = fmt.Sprintf("%s have gone to the air and with goods since %s, by reckoning: go by the level", l.width(sys), l.Since.Format("2 Jan"))
			}
		})
	}
	if words == "" && l.past.Seen.Hungry { // one thing at a time
		put("feed", func(d *Due) {
			if ago := l.SinceFood(now); ago != nil {
				d.from(now.Add(feedEvery-ago.Duration()), now)
			}
		})
	}
	if f := stand.Feeding; f.Now || f.Soon {
		d := Due{ID: "feed-indigo", Do: "Feed it indigo", How: f.Sentence, Why: "the blues come out paler than they did", Evidence: "C", Coming: !f.Now}
		if d.Coming {
			d.Do = "Feed it indigo soon"
		}
		out = append(out, d)
	}
	if g := stand.Sludge; g.Deep {
		put("decant", func(d *Due) {
			if g.Known != outlook.Measured {
				d.Why = fmt.Sprintf("about %s of sediment in %s by the powders it was given, from memory: measure it; %s", g.Height.Format(sys), g.Depth.Format(sys), d.Why)
			}
		})
	}
	if s.Closed {
		if quiet := now.Sub(s.At); quiet >= restSoon {
			out = append(out, Due{ID: "winter", Do: "Rest it, or end it", How: "lid on, and write winter as you close its next day: then nothing calls you. " + survives(s.Head.Recipe.Family),
				Why: "nothing was done to it for " + wording.Counted(int(quiet/(24*time.Hour)), "day"), Evidence: "M", Coming: true})
		}
		return out
	}
	if !s.Vat.Work.IsZero() && s.LiveAny() && s.RestUntil.IsZero() {
		put("rest", func(d *Due) { d.from(s.Vat.Work.Add(workFor), now) })
	}
	dips, loads := s.Loads()
	if loads >= loadsMost && s.LiveAny() {
		put("strip", func(d *Due) { d.Why = wording.Counted(loads, "load") + " since the last strip: " + d.Why })
	}
	if dips > 0 && !s.LiveAny() {
		put("evening", func(d *Due) { d.How = s.Evening() })
	}
	return out
}
