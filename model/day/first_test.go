package day_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// goodsFirst is a day of 60 L that asks first what is to be dyed.
func goodsFirst(t *testing.T, id string, change ...func(*day.Head)) *played {
	h := head(t, id)
	h.Setup.GoodsFirst = true
	for _, c := range change {
		c(&h)
	}
	return begin(t, h)
}

// A day begins with what is to be dyed, scours it, and then builds, in one list of calls; the soak is called so that the goods
// are through when the vat is ready: linen an hour, wool 45 min before it in water at the vat's heat.
func TestADayBeginsWithItsGoods(t *testing.T) {
	for _, c := range []struct {
		recipe, fibre, scour, water string
		soak                        time.Duration
	}{{"soda", "linen", "8.4 g of", "of 25 °C", time.Hour}, {"mild-soda", "wool", "3.4 g of", "of 36 °C", 45 * time.Minute}} {
		p := goodsFirst(t, c.recipe)
		call := func() day.Call { return day.CallOf(p.s, p.now) }
		if got := call(); got.Words != "What is to be dyed?" || got.Press != "not yet" {
			t.Fatalf("the day begins with %q", got.Words)
		}
		p.do(day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: c.fibre, Dry: 420, Depth: "mid"}})
		if got := call(); got.Words != "What else is to be dyed?" || got.Press != "that is all" {
			t.Errorf("with a piece it asks %q", got.Words)
		}
		p.do(day.Done{})
		if got := call(); got.Words != "Scour A1" || !strings.Contains(got.How, c.scour) {
			t.Errorf("then %q, %s", got.Words, got.How)
		}
		p.do(day.Done{})
		soaked := time.Time{}
		ready := p.s.ReadyAt()
		for range 200 {
			if st, open := p.s.Open(); !open || st.Judges() {
				break
			}
			got := call()
			switch left, _ := got.Act.Left(p.now); {
			case got.Words == "Put A1 to soak":
				soaked = p.now
				if !strings.Contains(got.How, c.water) {
					t.Errorf("%s soaks: %s", c.fibre, got.How)
				}
				p.do(day.Done{})
			case left > 0:
				p.now = p.now.Add(min(left, time.Minute))
			case strings.HasPrefix(got.Words, "Read the °C first"):
				p.do(reading(36))
			default:
				p.do(day.Done{})
				p.now = p.now.Add(2 * time.Minute) // the hands take their time
			}
		}
		if off := ready.Add(-c.soak).Sub(soaked).Abs(); soaked.IsZero() || off > 20*time.Minute {
			t.Errorf("%s goes into its soak at %s; the vat is ready at %s", c.fibre, day.Clock(soaked), day.Clock(ready))
		}
	}
}

// What the vat's alkali would harm stays out of it, so nobody is called to scour or soak it there.
func TestWhatStaysOutIsNotMadeReady(t *testing.T) {
	p := goodsFirst(t, "soda")
	p.do(day.AddPiece{Tag: "W1", Spec: day.PieceSpec{Fibre: "wool", Dry: 100, Depth: "pale"}})
	p.do(day.Done{}) // that is all
	if got := day.CallOf(p.s, p.now); got.Words != "Weigh the pre-reduced indigo grains" {
		t.Errorf("with only wool on the list of a soda vat it calls %q", got.Words)
	}
	for _, d := range day.Dues(p.s) {
		if d.Kind == day.DueSoak {
			t.Errorf("due: %s", d.Words)
		}
	}
	p.refuses(day.Lower{Tag: "W1"}, "which harms it") // not that it is to be wetted first
}

// Goods never hold up a vat: nothing yet, a weight that is a guess, and what is left out all go on to the build.
func TestGoodsHoldUpNoVat(t *testing.T) {
	p := goodsFirst(t, "soda")
	p.do(day.Done{}) // not yet
	if st := day.Next(p.s, p.now); st.Kind != day.ActStep || st.Step.No != 1 {
		t.Errorf("nothing to dye yet, and it asks %q", st.Words)
	}
	p = goodsFirst(t, "soda")
	p.do(day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 400, About: true, Depth: "mid"}})
	p.do(day.Skip{})
	p.do(day.Skip{Reason: "scoured already"})
	if st := day.Next(p.s, p.now); st.Kind != day.ActStep {
		t.Errorf("all was left out, and it asks %q", st.Words)
	}
	if !p.s.Pieces[0].Readied(day.ToScour) {
		t.Error("what is left out is asked for again")
	}
	p.now = p.s.ReadyAt().Add(-30 * time.Minute)
	if got := day.CallOf(p.s, p.now); got.Words != "Put A1 to soak" || !strings.Contains(got.How, "about 400 g, not weighed") {
		t.Errorf("half an hour before the vat is ready: %q, %s", got.Words, got.How)
	}
	// A day of before asks for nothing: its build is its first call.
	if st := day.Next(begin(t, head(t, "soda")).s, p.now); st.Kind != day.ActStep {
		t.Errorf("an old day begins with %q", st.Words)
	}
}

// An entry of the evening before is a day of its own: closed, it says when the build begins and when the soak, and the next day
// takes the goods over, scoured.
func TestTheEveningBefore(t *testing.T) {
	var ready time.Time
	p := goodsFirst(t, "soda", func(h *day.Head) {
		ready = time.Date(2026, 5, 10, 10, 0, 0, 0, time.FixedZone("", 7200))
		h.Setup.ReadyBy = &ready
	})
	p.do(day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 420, Depth: "mid"}})
	p.do(day.Done{})
	p.do(day.Done{}) // scoured
	if got := day.Next(p.s, p.now); got.Kind != day.ActStep {
		t.Errorf("the soak of tomorrow is called the evening before: %q", got.Words)
	}
	p.do(day.Close{Why: "tomorrow"})
	var soak, build time.Time
	for _, b := range day.Between(p.s, p.now) {
		if b.Words == "put A1 to soak" {
			soak = b.At
		}
		if strings.HasPrefix(b.Words, "begin the build: ") {
			build = b.At
		}
	}
	if !soak.Equal(ready.Add(-time.Hour)) || !build.Before(soak) || build.Before(ready.Add(-3*time.Hour)) {
		t.Errorf("soak at %s, build from %s: %+v", soak, build, day.Between(p.s, p.now))
	}
	h := p.s.Head
	h.Opening = day.Carry(p.s)
	q := begin(t, h)
	if a1, ok := q.s.Piece("A1"); !ok || a1.Phase != day.Dry || !a1.Readied(day.ToScour) || a1.Readied(day.ToSoak) {
		t.Errorf("the next day has %+v", q.s.Pieces)
	}
}

// What is done to goods is told once; what was left out can be done all the same.
func TestWhatGoodsGoThroughIsToldOnce(t *testing.T) {
	p := dyeing(t, 0)
	p.do(day.AddPiece{Tag: "L1", Spec: day.PieceSpec{Fibre: "linen", Dry: 300, Depth: "mid"}})
	for what, again := range map[string]string{day.ToScour: "L1 is scoured already", day.ToSoak: "L1 is in its soak already"} {
		told := day.Record{Body: day.Readied{OfPiece: day.OfPiece{Tag: "L1"}, What: what}}
		p.do(day.Record{Body: day.Readied{OfPiece: day.OfPiece{Tag: "L1"}, What: what, Left: true}})
		p.do(told)
		p.refuses(told, again)
	}
}

// Goods that bear a paste are never soaked: they go in dry, into a cool vat, hung still, for short dips, and nothing is squeezed.
func TestPastedGoods(t *testing.T) {
	p := dyeing(t, 0)
	p.refuses(day.AddPiece{Tag: "P1", Spec: day.PieceSpec{Fibre: "cotton", Dry: 300, Depth: "dark", Form: day.Pasted, Work: "moved"}}, "hung, not moved")
	p.do(day.AddPiece{Tag: "P1", Spec: day.PieceSpec{Fibre: "cotton", Dry: 300, Depth: "dark", Form: day.Pasted}})
	p.refuses(day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "P1"}}}, "goes in dry")
	p.refuses(day.Record{Body: day.Readied{OfPiece: day.OfPiece{Tag: "P1"}, What: day.ToSoak}}, "never soaked")
	p.do(reading(36))
	p.do(day.Record{Body: day.FrothSkimmed{}})
	call := day.CallOf(p.s, p.now)
	if call.Act.Kind != day.ActEnter || !strings.Contains(call.How, "hang it still") || !strings.Contains(call.How, "softens above 30 °C") {
		t.Errorf("%q, %s", call.Words, call.How)
	}
	p.do(day.Done{})
	a1, _ := p.s.Piece("P1")
	if a1.DipTime() > quantity.Minutes(3) || a1.Spec.Work != "hung" {
		t.Errorf("a dip of %s, %s", a1.DipTime(), a1.Spec.Work)
	}
	p.wait(3 * minute)
	if call := day.CallOf(p.s, p.now); !strings.Contains(call.How, "no squeeze") || strings.Contains(call.How, "squeeze at") {
		t.Errorf("%q, %s", call.Words, call.How)
	}
}

// After the last dip the evening round is the call, with the grams of this vat; one press, and the day can be closed. What was
// given today counts against the day's limit.
func TestTheEveningRoundIsACall(t *testing.T) {
	p := dyeing(t, 1)
	p.s.Head.Setup.GoodsFirst = true
	p.do(day.Lower{Tag: "A1"})
	p.wait(8 * minute)
	p.do(day.Lift{Tag: "A1"})
	p.wait(40 * minute)
	p.do(day.Finish{Tag: "A1"})
	for call := day.CallOf(p.s, p.now); call.Act.Kind == day.ActBench || call.Act.Kind == day.ActRest; call = day.CallOf(p.s, p.now) {
		p.do(day.LeaveOut{Tag: "A1", Reason: "later"})
	}
	call := day.CallOf(p.s, p.now)
	if call.Words != "Evening round" || !strings.Contains(call.How, "30 g of sodium dithionite") {
		t.Fatalf("%q, %s", call.Words, call.How)
	}
	r, _ := p.s.Head.Recipe.Powder("reducer")
	p.do(day.Dose{Powders: []day.Amount{{Powder: "reducer", Mass: r.PerDay.Of(60)}}})
	if given := day.CallOf(p.s, p.now).How; !strings.Contains(given, "no more sodium dithionite today") {
		t.Errorf("after the day's limit it says %s", given)
	}
	p.do(day.Done{})
	if !p.s.Vat.Covered {
		t.Error("the lid is off")
	}
	if call := day.CallOf(p.s, p.now); call.Words != "No piece is waiting" {
		t.Errorf("then %q", call.Words)
	}
}
