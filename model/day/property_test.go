package day_test

import (
	"errors"
	"reflect"
	"slices"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/testdata/long"
)

// driven is a day that bytes drive: three a command, which, of what, and how long after the last one.
type driven struct {
	head   day.Head
	s      day.State
	events []day.Event
	now    time.Time
}

var (
	tags    = []string{"A1", "B1", "C2", "D3"}
	lengths = []time.Duration{0, time.Second, 2 * time.Second, 6 * time.Second, 40 * time.Second, 3 * time.Minute, 12 * time.Minute, 70 * time.Minute, 9 * time.Hour}
	spans   = []quantity.Span{0, -1, quantity.Seconds(90), quantity.Minutes(8), -quantity.Minutes(5), quantity.Hours(5), 1 << 62, -1 << 62}
)

func pick[T any](list []T, b byte) T { return list[int(b)%len(list)] }

// command is what a pair of bytes stands for.
func (d *driven) command(op, arg byte) day.Command {
	tag := pick(tags, arg)
	seq := 1 + int(arg)%(len(d.events)+1)
	of := day.OfPiece{Tag: tag}
	timer := "rest"
	if dues := day.Dues(d.s); len(dues) > 0 {
		timer = pick(dues, arg).Timer
	}
	when := d.now.Add(-pick(lengths, arg>>4))
	switch op % 32 {
	case 0:
		return day.Back{}
	case 1:
		return day.Skip{Reason: "so"}
	case 2:
		return day.PutScoop{Mass: quantity.Grams(float64(int8(arg)))}
	case 3:
		return day.Judge{Ready: arg%3 > 0, Seen: "green"}
	case 4:
		return day.Lower{Tag: tag}
	case 5:
		return day.Lower{Tag: tag, When: when}
	case 6:
		return day.Lift{Tag: tag}
	case 7:
		return day.Lift{Tag: tag, When: when, Assumed: arg&8 > 0}
	case 8:
		if arg >= 128 {
			return day.Decided{Tag: tag, Say: pick(day.LookSays, arg>>2)}
		}
		return day.Finish{Tag: tag}
	case 9:
		return day.Confirm{Seq: seq}
	case 10:
		return day.Move{Seq: seq, To: when}
	case 11:
		return day.Undo{Seq: seq}
	case 12:
		return day.AddPiece{Tag: tag, Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: int(arg >> 6), Dip: max(0, pick(spans, arg>>3))}}
	case 13:
		return day.Stretch{Timer: timer, By: pick(spans, arg>>3)}
	case 14:
		return day.RestVat{For: pick(spans, arg)}
	case 15:
		if arg > 200 {
			return day.Close{Why: "dusk"}
		}
	case 16:
		return day.Record{Body: day.WettedOut{OfPiece: of}}
	case 17:
		return day.Record{Body: day.Reading{Temp: celsius(float64(arg) / 2)}}
	case 18:
		return day.Record{Body: day.HeaterOn{}}
	case 19:
		return day.Record{Body: day.HeaterOff{}}
	case 20:
		return day.Record{Body: day.CarriedOver{OfPiece: of}}
	case 21:
		return day.Record{Body: day.PieceChanged{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 100, Dips: int(arg >> 5)}}}
	case 22:
		return day.Record{Body: day.PieceDropped{OfPiece: of}}
	case 23:
		return day.Record{Body: pick(day.Kinds(), arg)}
	case 24:
		return day.Record{Body: day.AiringEnded{OfPiece: of}}
	case 25:
		if c, ok := day.Assume(d.s, d.now, morning, nil); ok {
			return c
		}
	case 26:
		return day.Record{Body: day.ToppedUp{Water: quantity.Litres(float64(arg>>4) * 2), Temp: quantity.Celsius(float64(arg&15) * 6)}}
	case 27:
		return day.Record{Body: day.DrawnOff{Liquor: quantity.Litres(float64(arg) / 4)}}
	case 28:
		return day.Dose{Powders: []day.Amount{{Powder: pick([]string{"soda", "lime", "reducer", "moon"}, arg), Mass: quantity.Grams(float64(arg >> 2))}}, Wait: max(0, pick(spans, arg>>3))}
	case 29:
		return day.Answered{Command: pick([]day.Command{day.Done{}, day.Bench{Tag: tag}, day.Close{Why: "dusk"}, day.PutScoop{Mass: 5}}, arg>>4)}
	case 30:
		if beside := day.CallOf(d.s, d.now).Meanwhile(d.s, d.now); len(beside) > 0 {
			return day.Take{Call: pick(beside, arg).ID}
		}
	case 31:
		switch arg % 4 {
		case 0:
			return day.ConfirmAll{}
		case 1:
			return day.StripBlue{}
		case 2:
			return day.Record{Body: day.StripBegun{}}
		}
	}
	return day.Done{Call: day.CallOf(d.s, d.now).ID}
}

func drive(t rapid.TB, heads []day.Head, data []byte) *driven {
	t.Helper()
	d := &driven{now: morning}
	if len(data) > 0 {
		d.head, data = pick(heads, data[0]), data[1:]
	} else {
		d.head = heads[0]
	}
	var err error
	if d.s, err = day.Begin(d.head); err != nil {
		t.Fatal(err)
	}
	d.happen(t, day.Opened{How: "build"})
	for ; len(data) >= 3; data = data[3:] {
		d.now = d.now.Add(pick(lengths, data[2]))
		c := d.command(data[0], data[1])
		bodies, err := day.Decide(d.s, c, d.now)
		if pending := (*day.Pending)(nil); errors.As(err, &pending) {
			if pending.Caution == "" || len(bodies) > 0 {
				t.Fatalf("%#v wants %q answered, and makes %v", c, pending.Caution, bodies)
			}
			bodies, err = day.Decide(d.s, day.Answered{Command: c}, d.now)
			if err != nil || len(bodies) < 2 && bodies[0].Kind() == "caution answered" {
				t.Fatalf("%#v, its caution answered, makes %v, %v", c, bodies, err)
			}
		}
		if err != nil {
			if len(bodies) > 0 || err.Error() == "" {
				t.Fatalf("%#v is refused with %q and makes %v", c, err, bodies)
			}
			continue
		}
		d.happen(t, bodies...)
	}
	return d
}

func (d *driven) happen(t rapid.TB, bodies ...day.Body) {
	t.Helper()
	for _, b := range bodies {
		e := day.Event{Seq: len(d.events) + 1, At: d.now, Body: b}
		before := d.s
		next, err := day.Apply(d.s, e)
		if err != nil {
			t.Fatalf("event %d, which was decided, does not fit: %v", e.Seq, err)
		}
		if !reflect.DeepEqual(before, d.s) {
			t.Fatal("Apply changed the state that it was given")
		}
		d.s, d.events = next, append(d.events, e)
		if b.Sentence(quantity.Metric) == "" {
			t.Fatalf("event %d, %s, says nothing", e.Seq, b.Kind())
		}
		for _, due := range day.Dues(d.s) {
			if due.At.Before(due.Since) {
				t.Fatalf("after event %d, %s: %s is due at %s, before its cause at %s", e.Seq, b.Kind(), due.Timer, due.At, due.Since)
			}
		}
		for _, now := range []time.Time{d.now, d.now.Add(time.Hour)} {
			if a := day.Next(d.s, now); a.Words == "" || day.NowLine(d.s, now) == "" {
				t.Fatalf("after event %d there is nothing for the hands, not even to wait: %+v", e.Seq, a)
			}
			day.Upcoming(d.s, now)
			day.Between(d.s, now)
			day.Carry(d.s)
		}
		d.calls(t)
	}
}

// calls holds what is true of the call from now on while nothing happens: it changes at a deadline only, and then asks for
// something else; a lift never changes; its short form has room; another timetable changes nothing.
func (d *driven) calls(t rapid.TB) {
	t.Helper()
	ends := map[time.Time]bool{}
	var instants []time.Time
	dues := day.Dues(d.s)
	for _, due := range dues {
		if due.Kind == day.DueEnter || due.Kind == day.DueFinish {
			dues = append(dues, day.Due{At: due.At.Add(day.LookGrace)})
		}
	}
	for _, due := range append(dues, day.Due{At: d.now.Add(400 * 24 * time.Hour)}) {
		for _, at := range []time.Time{due.At.Add(-day.LastMinute), due.At.Add(-1), due.At} {
			if at.After(d.now) {
				ends[at] = ends[at] || at.Equal(due.At)
				instants = append(instants, at)
			}
		}
	}
	slices.SortFunc(instants, time.Time.Compare)
	d.steady(t, d.now)
	for _, due := range dues {
		for _, at := range []time.Time{due.Since, due.At.Add(-day.LongWait), due.At.Add(-day.LastMinute), due.At} {
			if at = at.Add(-3 * time.Second); at.After(d.now) {
				d.steady(t, at)
			}
		}
	}
	before := day.CallOf(d.s, d.now)
	var advised []day.State
	for _, at := range instants {
		c := day.CallOf(d.s, at)
		if c.ID == "" || c.Words == "" || c.Short == "" || ansi.StringWidth(c.Short) > 12 {
			t.Fatalf("after event %d the call is %+v", len(d.events), c)
		}
		switch {
		case c.ID == before.ID:
		case !ends[at]:
			t.Fatalf("after event %d %q becomes %q at %s, when no time ends", len(d.events), before.ID, c.ID, at)
		case before.Verb == "lift":
			t.Fatalf("after event %d %q becomes %q by itself", len(d.events), before.ID, c.ID)
		case c.Verb == before.Verb && c.Object == before.Object:
			t.Fatalf("after event %d %q becomes %q, which asks for the same", len(d.events), before.ID, c.ID)
		}
		before = c
		if ends[at] {
			advised = nil
		}
		for _, turn := range [][]string{{"D3", "C2"}, {"B1"}, nil} {
			advised = append(advised, d.s.Advised(turn, [][]string{turn}, at))
		}
		for _, s := range advised {
			if o := day.CallOf(s, at); o.ID != c.ID {
				t.Fatalf("after event %d a timetable makes %q of %q", len(d.events), o.ID, c.ID)
			}
		}
		for _, m := range day.CallOf(d.s, at).Meanwhile(d.s, at) {
			if m.ID == c.ID || m.Verb == "lift" || ansi.StringWidth(m.Short) > 12 {
				t.Fatalf("beside %q stands %q, %q", c.ID, m.ID, m.Short)
			}
		}
	}
}

// steady holds that what is asked at an instant is so for as long as it says.
func (d *driven) steady(t rapid.TB, from time.Time) {
	t.Helper()
	type asked struct {
		call      day.Call
		meanwhile []day.Call
		then      string
	}
	ask := func(at time.Time) (a asked) {
		call := day.CallOf(d.s, at)
		a = asked{call, call.Meanwhile(d.s, at), day.Upcoming(d.s, at)}
		for i, c := range a.meanwhile {
			a.meanwhile[i] = c.Later(from)
		}
		a.call = a.call.Later(from)
		return a
	}
	until := day.Steady(d.s, day.Dues(d.s), from)
	if !until.After(from) {
		return
	}
	was := ask(from)
	for _, at := range []time.Time{from.Add(1), from.Add(until.Sub(from) / 2), until.Add(-1)} {
		if is := ask(at); at.Before(until) && !reflect.DeepEqual(is, was) {
			t.Fatalf("after event %d it is steady from %s to %s, and at %s it is\n%+v\nand not\n%+v", len(d.events), from, until, at, is, was)
		}
	}
	at := until.Add(-1)
	if c := day.CallOf(d.s, from).Later(at); !reflect.DeepEqual(c, day.CallOf(d.s, at)) {
		t.Fatalf("after event %d the call is %+v a while later, and not %+v", len(d.events), c, day.CallOf(d.s, at))
	}
}

func heads(t testing.TB) []day.Head {
	tend := head(t, "soda")
	since := morning.Add(-20 * time.Hour)
	tend.Opening = day.Opening{Number: 2, Built: true, Temp: celsius(30), Pieces: []day.CarriedPiece{
		{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 420, Depth: "dark", Had: 3}}}}
	on := head(t, "sugar-lime")
	st := 0
	if plan, err := day.Plan(on); err == nil {
		for _, s := range plan {
			if s.Do == recipe.Wait {
				st = s.No
			}
		}
	}
	on.Opening = day.Opening{Number: 2, Step: st, Since: &since}
	goods := head(t, "soda") // asks what is to be dyed, and calls the soak
	goods.Setup.GoodsFirst = true
	brews := head(t, "madder-bran") // in its last wait, with a cold day behind it
	if plan, err := day.Plan(brews); err == nil {
		for _, s := range plan {
			if s.Do == recipe.Wait {
				st = s.No
			}
		}
	}
	begun := morning.Add(-5 * 24 * time.Hour)
	brews.Setup.GoodsFirst = true
	brews.Opening = day.Opening{Number: 3, Step: st, Since: &since, Brewing: day.Brewing{Brews: &begun, Cold: 1, ColdAt: &begun}}
	return []day.Head{tend, tend, head(t, "soda"), head(t, "lye"), on, goods, brews}
}

// data draws mostly presses of the big key and pauses that are long enough.
func drawn() *rapid.Generator[[]byte] { return rapid.SliceOfN(rapid.Byte(), 1, 150) }

// check holds what is true of every day: replay is the live state, and every prefix of a day is a day.
func (d *driven) check(t rapid.TB) {
	t.Helper()
	s, errs := day.Replay(d.head, d.events)
	if len(errs) > 0 {
		t.Fatalf("replay: %v", errs)
	}
	if !reflect.DeepEqual(s, d.s) {
		t.Fatalf("replayed and live state differ:\n%+v\n%+v", s, d.s)
	}
	live, _ := day.Begin(d.head)
	for n, e := range d.events {
		live, _ = day.Apply(live, e)
		if n%7 == 0 {
			p, errs := day.Replay(d.head, d.events[:n+1])
			if len(errs) > 0 || !reflect.DeepEqual(p, live) {
				t.Fatalf("the first %d events are no day: %v", n+1, errs)
			}
		}
	}
}

// dyed draws days at a vat that is ready: four pieces, then mostly presses and what stands beside the call.
func dyed() *rapid.Generator[[]byte] {
	begin := []byte{0, 1, 0, 3, 3, 1, 3}
	for tag := range byte(4) {
		begin = append(begin, 12, 144+8*(tag%2)+tag, 3) // two dips of 90 s, two of 8 min
	}
	ops := []byte{31, 31, 31, 31, 26, 26, 26, 27, 16, 4, 4, 5, 6, 7, 8, 9, 10, 11, 0, 13, 14, 17, 22, 23, 24, 25, 25}
	return rapid.Custom(func(t *rapid.T) []byte {
		data := begin
		for range rapid.IntRange(1, 50).Draw(t, "acts") {
			data = append(data, rapid.SampledFrom(ops).Draw(t, "op"), rapid.Byte().Draw(t, "arg"), rapid.Byte().Draw(t, "after"))
		}
		return data
	})
}

func TestReplayIsTheLiveState(t *testing.T) {
	hs := heads(t)
	long.Checks(t, 100, 25)
	rapid.Check(t, func(t *rapid.T) { drive(t, hs, drawn().Draw(t, "data")).check(t) })
	rapid.Check(t, func(t *rapid.T) { drive(t, hs, dyed().Draw(t, "data")).check(t) })
}

// shifted is a body later by a constant.
func shifted(b day.Body, by time.Duration) day.Body {
	v := reflect.New(reflect.TypeOf(b)).Elem()
	v.Set(reflect.ValueOf(b))
	for i := range v.NumField() {
		if when, ok := v.Field(i).Interface().(*time.Time); ok && when != nil {
			v.Field(i).Set(reflect.ValueOf(ptr(when.Add(by))))
		}
	}
	return v.Interface().(day.Body)
}

// All times later by a constant: all deadlines later by it, and nothing else.
func TestShiftedDay(t *testing.T) {
	hs := heads(t)
	rapid.Check(t, func(t *rapid.T) {
		d := drive(t, hs, drawn().Draw(t, "data"))
		by := time.Duration(rapid.Int64Range(-3000, 3000).Draw(t, "hours")) * time.Hour
		h := d.head
		if h.Opening.Since != nil {
			h.Opening.Since = ptr(h.Opening.Since.Add(by))
		}
		for _, at := range []**time.Time{&h.Opening.Brews, &h.Opening.ColdAt} {
			if *at != nil {
				*at = ptr((*at).Add(by))
			}
		}
		var later []day.Event
		for _, e := range d.events {
			e.At, e.Body = e.At.Add(by), shifted(e.Body, by)
			later = append(later, e)
		}
		s, errs := day.Replay(h, later)
		if len(errs) > 0 {
			t.Fatal(errs)
		}
		a, b := day.Dues(d.s), day.Dues(s)
		if len(a) != len(b) {
			t.Fatalf("%d deadlines became %d", len(a), len(b))
		}
		for i := range a {
			a[i].At, a[i].Since = a[i].At.Add(by), a[i].Since.Add(by)
			if !a[i].At.Equal(b[i].At) || !a[i].Since.Equal(b[i].Since) || a[i].Timer != b[i].Timer || a[i].Words != b[i].Words {
				t.Errorf("%+v became %+v", a[i], b[i])
			}
		}
		if x, y := day.NowLine(d.s, d.now), day.NowLine(s, d.now.Add(by)); !d.s.Closed && x != y && !hasClock(x) {
			t.Errorf("%q became %q", x, y)
		}
	})
}

func hasClock(s string) bool { return len(s) > 5 && s[len(s)-3] == ':' && s[len(s)-6] == ' ' }

// Whatever stands in a file, in whatever order: replay stops at nothing, and a step back of the clock counts as zero.
func TestReplayStopsAtNothing(t *testing.T) {
	hs := heads(t)
	rapid.Check(t, func(t *rapid.T) {
		d := drive(t, hs, drawn().Draw(t, "data"))
		mixed := append(rapid.Permutation(d.events).Draw(t, "order"), d.events...)
		for i, b := range day.Kinds() {
			mixed = append(mixed, day.Event{Seq: i % 9, At: morning.Add(-time.Hour), Body: b})
		}
		mixed = append(mixed, day.Event{Seq: 3, Body: day.Unknown{Name: "moon seen"}})
		s, _ := day.Replay(d.head, mixed)
		if len(s.Log) != len(mixed) {
			t.Fatalf("%d of %d events are in the log", len(s.Log), len(mixed))
		}
		live, _ := day.Begin(d.head)
		at := live.At
		for _, e := range mixed {
			live, _ = day.Apply(live, e)
			if live.At.Before(at) {
				t.Fatal("day-time ran back")
			}
			at = live.At
			day.NowLine(live, at)
		}
	})
}

func FuzzDay(f *testing.F) {
	f.Add([]byte{2, 31, 0, 3, 31, 0, 3, 31, 0, 3, 31, 0, 3})
	f.Add([]byte{0, 1, 0, 3, 3, 1, 3, 12, 0, 3, 16, 0, 3, 4, 0, 3, 25, 0, 7, 9, 9, 3, 11, 8, 3, 0, 0, 3, 31, 0, 6})
	f.Add([]byte{48, 48, 48, 48, 55, 32, 48, 48})       // acid on a piece that is not there
	f.Add([]byte("2000000900900900(00900010902900+20")) // the end of a piece taken back while it is in the rinse
	hs := heads(f)
	f.Fuzz(func(t *testing.T, data []byte) { drive(t, hs, data[:min(len(data), 400)]).check(t) })
}
