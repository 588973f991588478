package command

import (
	"errors"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
)

// limits are what the flags and the recipe ask for; hands tells whether their number was said.
func (p *program) limits(l loading, hands bool, begins quantity.Span, sys quantity.System) (lim load.Limits) {
	if l.capacity != nil {
		if lim.Capacity = *l.capacity; lim.Capacity <= 0 {
			stop("--capacity: say more than nothing, such as 2 kg; without it the liquor ratio says it")
		}
	}
	if l.hands < 1 && hands {
		stop("--hands: %d is too few; at least 1", l.hands)
	}
	same := map[string]quantity.Span{}
	if l.handling != nil {
		for form := range load.UsualHandling() {
			same[form] = *l.handling
		}
	}
	if l.fixed {
		if lim.Plain, lim.Handling = true, same; hands {
			lim.Hands = l.hands
		}
		return lim
	}
	fill := l.fill
	rec := got(p.findFor(l.recipe, fill))
	capacity := lim.Capacity
	lim = load.Usual(fill)
	if capacity > 0 {
		lim.Capacity = capacity
	} else if usual, most := vessel.AtOnce(fill); lim.Capacity == 0 {
		lim.Capacity = max(usual, most)
	}
	lim.Hands, lim.Most, lim.Fair, lim.Together, lim.Choice = max(1, l.hands), l.most, l.fair, l.together, l.choice
	if l.handling != nil {
		lim.Handling = same
	}
	state := liquor.State{Recipe: rec, Fill: fill}
	pure := state.Holds().Likely
	lim.Indigo = load.Indigo{Holds: pure, Floor: pure * 4 / 10} // six tenths can be used, from memory
	lim.Bears = state.BearsDip
	if l.finishBy != "" {
		t, err := time.Parse("15:04", l.finishBy)
		if err != nil {
			stop("--finish-by %q: write a time of day, such as 16:00", l.finishBy)
		}
		if lim.Latest = sinceMidnight(t) - begins; lim.Latest <= 0 {
			stop("--finish-by %s is not after the start, %s", l.finishBy, day.Clock(time.Time{}.Add(begins.Duration())))
		}
	}
	if lim.Vats = l.vats; l.vats < 1 || l.vats > load.MostVats {
		stop("--vats: %d cannot be planned; say 1 to %d", l.vats, load.MostVats)
	}
	l.pauses(&lim, sys)
	l.breaksOf(&lim, begins)
	return lim
}

// mostPause is the longest that a vat stands still, or works, in the plan of a day.
const mostPause = quantity.Span(24 * time.Hour)

// pauses reads the flags of what the vat stands still for.
func (l loading) pauses(lim *load.Limits, sys quantity.System) {
	for _, x := range []struct {
		flag, text string
		pause      *load.Pause
	}{{"rest", l.rest, &lim.Rest}, {"reheat", l.reheat, &lim.Reheat}} {
		long, after, _ := strings.Cut(x.text, " after ")
		a, err := quantity.ParseSpan(long, sys)
		b, err2 := quantity.ParseSpan(after, sys)
		switch {
		case x.text == "":
		case x.text == "none":
			*x.pause = load.Pause{}
		case err != nil || err2 != nil || a <= 0 || b <= 0 || max(a, b) > mostPause:
			stop("--%s %q: write how long, and after how much work, such as '1 h after 3 h', or none", x.flag, x.text)
		default:
			*x.pause = load.Pause{For: a, After: b}
		}
	}
	if l.feed == "" {
		return
	}
	much, then, waits := strings.Cut(l.feed, " then ")
	lim.Indigo = lim.Indigo.AnyFeed()
	var err, err2 error
	if lim.Indigo.Feed, err = quantity.ParseMass(much, sys); waits {
		lim.Indigo.Wait, err2 = quantity.ParseSpan(then, sys)
	}
	if most := 4 * lim.Indigo.Holds; lim.Indigo.Feed > most || lim.Indigo.Wait > mostPause {
		stop("--feed %q: at most %s, four times what the new vat holds, and a wait of 24 h", l.feed, most.Format(sys))
	}
	if err != nil || err2 != nil || lim.Indigo.Feed <= 0 || lim.Indigo.Wait < 0 {
		stop("--feed %q: write how much indigo, and how long the vat then waits, such as '40 g' or '40 g then 2 h'", l.feed)
	}
}

func (l loading) breaksOf(lim *load.Limits, begins quantity.Span) {
	for _, b := range l.breaks {
		from, to, _ := strings.Cut(b, "-")
		a, err := time.Parse("15:04", strings.TrimSpace(from))
		z, err2 := time.Parse("15:04", strings.TrimSpace(to))
		if err != nil || err2 != nil || !z.After(a) {
			stop("--break %q: write it from and to, such as 12:30-13:15", b)
		}
		if l.start == "" {
			must(usageError{errors.New("--break needs --start: when the day begins")})
		}
		if to := sinceMidnight(z) - begins; to > 0 {
			lim.Breaks = append(lim.Breaks, load.Break{From: max(0, sinceMidnight(a)-begins), To: to, Why: "a break"})
		}
	}
}
