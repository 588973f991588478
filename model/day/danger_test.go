package day_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// ways are all commands by which a body, or an act, could come into the book: itself, written down, with its caution answered.
func ways(cs ...day.Command) []day.Command {
	out := cs
	for _, c := range cs {
		out = append(out, day.Answered{Command: c})
	}
	return out
}

// powders are all ways by which a powder goes into a living vat.
func powders(id, material string) []day.Command {
	return ways(
		day.Dose{Powders: []day.Amount{{Powder: id, Mass: 20}}},
		day.Treat{Cause: "tired", Do: "more", Powders: []day.Amount{{Powder: id, Mass: 20}}},
		day.Record{Body: day.PowderAdded{Powder: id, Material: material, Mass: 20}},
		day.Record{Body: day.PowderAdded{Powder: id, Material: material, Mass: 20, Into: "stock"}},
		day.Record{Body: day.Fed{Powder: id, Material: material, Mass: 20}},
	)
}

var (
	a1     = day.OfPiece{Tag: "A1"}
	heater = ways(day.Record{Body: day.HeaterOn{}})
	hotTop = ways(day.Record{Body: day.ToppedUp{Water: 2, Temp: 80}})
	goods  = ways(day.Lower{Tag: "A1"}, day.Lower{Tag: "A1", When: morning.Add(minute)}, day.Record{Body: day.DipBegun{OfPiece: a1, Dip: 1}})
	sours  = ways(day.Record{Body: day.Soured{OfPiece: a1}}, day.Record{Body: day.Soured{OfPiece: a1, Whites: true}}, day.Record{Body: day.BathBegun{OfPiece: a1, Bath: "sour", For: 1}})
	stocks = ways(day.Record{Body: day.StockDrawn{Stock: 1}})
)

// No danger that has no override is come by, whatever the command, its caution answered or not.
func TestNoWayRoundADanger(t *testing.T) {
	children := day.HelperChanged{Who: "children", Children: true}
	finished := func(p *played) *played { // A1 has its dips and its last airing, and no rinse
		p.do(day.Lower{Tag: "A1"})
		p.wait(8 * minute)
		p.do(day.Lift{Tag: "A1"})
		p.wait(time.Hour)
		p.do(day.Finish{Tag: "A1"})
		return p
	}
	at := func(recipeID string, do recipe.Do, powder string) *played {
		p := begin(t, head(t, recipeID))
		p.until(do, powder)
		return p
	}
	with := func(p *played, bodies ...day.Body) *played { p.happen(bodies...); p.wait(2 * minute); return p }
	closed := func(h *day.Head) { h.Setup.Place = day.ClosedRoom }
	wool := day.PieceAdded{OfPiece: day.OfPiece{Tag: "W1"}, PieceSpec: day.PieceSpec{Fibre: "wool", Dry: 200, Dips: 2}}
	ending := func(step int) *played {
		h := head(t, "soda")
		h.Setup.Ending, h.Opening = true, day.Opening{Number: 3, Built: true, Sulfur: true, Step: step}
		return begin(t, h)
	}
	step := ways(day.Done{})

	for _, c := range []struct {
		danger string
		p      *played
		ways   []day.Command
		words  string
	}{
		{"children at powders", with(dyeing(t, 1), children), powders("reducer", "sodium dithionite"), "for adults"},
		{"children at lye", with(dyeing(t, 1, func(h *day.Head) { h.Recipe = built(t, "lye") }), children), powders("lye", "lye"), "for adults"},
		{"children at stock", with(dyeing(t, 1), children), stocks, "for adults"},
		{"children at a weighing", with(at("soda", recipe.Weigh, "reducer"), children), append(step, ways(day.PutScoop{Mass: 10})...), "for adults"},
		{"children at lye that dissolves", with(at("lye", recipe.Dissolve, "lye"), children), step, "for adults"},
		{"children at hot water", with(at("soda", recipe.Fill, ""), children), step, "for adults"},
		{"children at hot water, later", with(dyeing(t, 1), children), hotTop, "for adults"},
		{"children at a heater", with(dyeing(t, 1), children), heater, "for adults"},
		{"children above 40 °C", with(dyeing(t, 1), day.Reading{Temp: celsius(40.5)}, children), goods[:2], "no hands above 40 °C"},
		{"children above 40 °C, on sticks", with(dyeing(t, 1), day.Reading{Temp: celsius(46)}, day.HotWork{Reason: "so"}, children), goods[:2], "no hands above 40 °C"},
		{"children say that it is hot", with(dyeing(t, 1), day.Reading{Temp: celsius(46)}, children), ways(day.Record{Body: day.HotWork{Reason: "so"}}), "for adults"},
		{"children at what nobody read", with(dyeing(t, 1), children), goods[:2], "read its °C first"},
		{"children at what was heated since", with(with(dyeing(t, 1), day.Reading{Temp: celsius(36)}), day.HeaterOn{}, day.HeaterOff{}, children), goods[:2], "read its °C first"},
		{"children at acid", with(finished(dyeing(t, 1)), day.Rinsed{OfPiece: a1}, day.Rinsed{OfPiece: a1}, children), sours[:2], "for adults"},
		{"children at hot baths", with(finished(dyeing(t, 1)), children), ways(day.Record{Body: day.Soaped{OfPiece: a1, Temp: 60}}), "for adults"},
		{"children at a scouring", with(dyeing(t, 1), children), ways(day.Record{Body: day.Readied{OfPiece: a1, What: day.ToScour}}), "send them away first, then say so: i"},
		{"children at a soak as warm as its vat", with(dyeing(t, 0, func(h *day.Head) { h.Recipe = built(t, "mild-soda") }), wool, children), ways(day.Record{Body: day.Readied{OfPiece: day.OfPiece{Tag: "W1"}, What: day.ToSoak}}), "send them away first, then say so: i"},
		{"a reducer weighed for a liquor that is too hot", with(at("soda", recipe.Weigh, "reducer"), day.CautionAnswered{OfStep: day.OfStep{Step: 9}}, day.Reading{Temp: celsius(90)}),
			append(step[:1:1], ways(day.PutScoop{Mass: 10})...), "let it cool to 50 °C"},
		{"hands above 45 °C", with(dyeing(t, 1), day.Reading{Temp: celsius(45.5)}), goods[:2], "no hands above 45 °C"},
		{"hands in water that was made hot", with(dyeing(t, 1), day.Reading{Temp: celsius(44)}, day.ToppedUp{Water: 10, Temp: 90}), goods[:2], "hot water went in"},
		{"goods in with the heater on", with(dyeing(t, 1), day.HeaterOn{}), goods[:2], "the heater is on"},
		{"heat with goods in", with(dyeing(t, 1), day.DipBegun{OfPiece: a1, Dip: 1, For: quantity.Minutes(8)}), heater, "hands and goods out before heat"},
		{"hot water with goods in", with(dyeing(t, 1), day.DipBegun{OfPiece: a1, Dip: 1, For: quantity.Minutes(8)}), hotTop, "hands and goods out before hot water"},
		{"a heater without liquor", at("soda", recipe.Weigh, "indigo"), heater, "never on dry"},
		{"a heater in a vat that was emptied", with(dyeing(t, 1), day.DrawnOff{Liquor: 60}), heater, "never on dry"},
		{"heat while it is ended", ending(2), heater, "the heater stays off"},
		{"a dose with goods in", with(dyeing(t, 1), day.DipBegun{OfPiece: a1, Dip: 1, For: quantity.Minutes(8)}), append(powders("soda", "soda ash")[:3], stocks...), "hands and goods out"},
		{"a dose with the heater on", with(dyeing(t, 1), day.HeaterOn{}), append(powders("soda", "soda ash")[:3], stocks...), "the heater is on"},
		{"a powder of the build with the heater on", with(at("soda", recipe.Sprinkle, "reducer"), day.HeaterOn{}, day.CautionAnswered{OfStep: day.OfStep{Step: 10}}, day.Reading{Temp: celsius(45)}), step, "the heater is on"},
		{"sulfur in a closed room", dyeing(t, 1, closed), append(powders("reducer", "sodium dithionite"), stocks...), "no sulfur reducer in a closed room"},
		{"sulfur weighed in a closed room", with(at("soda", recipe.Weigh, "reducer"), day.CautionAnswered{OfStep: day.OfStep{Step: 9}}, day.PlaceChanged{Place: day.ClosedRoom}),
			append(ways(day.PutScoop{Mass: 90}), step[0]), "no sulfur reducer in a closed room"},
		{"acid into the vat", dyeing(t, 1), powders("citric acid", "citric acid"), `no powder "citric acid"`},
		{"acid into a ferment", ferment(t), powders("vinegar", "food"), ""},
		{"acid before its gate", finished(dyeing(t, 1)), sours[:2], "no acid yet"},
		{"acid past its key", finished(dyeing(t, 1)), sours[2:3], "own key"},
		{"acid in a closed room", with(finished(dyeing(t, 1, closed)), day.Rinsed{OfPiece: a1}, day.Rinsed{OfPiece: a1}), sours[:2], "outdoors or into a cross-draught"},
		{"acid into what reduces", ending(7), append(step[1:2:2], powders("citric acid", "citric acid")...), ""},
		{"an end that was not led to", ending(2), ways(day.Record{Body: day.VatEnded{Route: "the sewer"}}), "first whisk"},
		{"a step of the end left out", ending(2), ways(day.Skip{Reason: "hurry"}, day.Record{Body: day.StepSkipped{OfStep: day.OfStep{Step: 2}}},
			day.Record{Body: day.StepDone{OfStep: day.OfStep{Step: 2}}}), ""},
		{"a look of the end past its key", ending(4), ways(day.Record{Body: day.VatJudged{Ready: true, Of: "end"}}, day.Record{Body: day.VatJudged{OfStep: day.OfStep{Step: 4}, Ready: true}}), "own key"},
		{"a powder that goes in unread", at("soda", recipe.Sprinkle, "reducer"), ways(day.Record{Body: day.PowderAdded{OfStep: day.OfStep{Step: 10}, Powder: "reducer", Mass: 120}}), "own key"},
		{"a rest with goods in", with(dyeing(t, 1), day.DipBegun{OfPiece: a1, Dip: 1, For: quantity.Minutes(8)}), ways(day.RestVat{For: quantity.Minutes(5)}, day.Record{Body: day.Rested{For: quantity.Minutes(5)}}), "lift it first"},
		{"a piece that is dropped in the vat", with(dyeing(t, 1), day.DipBegun{OfPiece: a1, Dip: 1, For: quantity.Minutes(8)}),
			ways(day.Record{Body: day.PieceDropped{OfPiece: a1}}, day.Record{Body: day.CarriedOver{OfPiece: a1}}, day.Close{}, day.Record{Body: day.Soured{OfPiece: a1}}), "lift it first"},
		{"wool in an alkaline vat", with(dyeing(t, 0), day.PieceAdded{OfPiece: a1, PieceSpec: day.PieceSpec{Fibre: "wool", Dry: 50}}, day.WettedOut{OfPiece: a1}, day.Reading{PH: ptr(11.5)}),
			goods[:2], ""},
		{"a dry piece", with(dyeing(t, 0), day.PieceAdded{OfPiece: a1, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 50}}), append(goods[:2:2], day.Answered{Command: day.Lower{Tag: "A1"}}), "wet it out first"},
	} {
		for _, way := range c.ways {
			bodies, err := day.Decide(c.p.s, way, c.p.now)
			if err == nil || !strings.Contains(err.Error(), c.words) || strings.HasPrefix(err.Error(), "answer the caution") {
				t.Errorf("%s, by %#v: %v, %v", c.danger, way, bodies, err)
			}
		}
	}
}

// What wants a caution wants it by every way.
func TestNoWayRoundACaution(t *testing.T) {
	rinsed := dyeing(t, 1)
	rinsed.do(day.Lower{Tag: "A1"})
	rinsed.wait(8 * minute)
	rinsed.do(day.Lift{Tag: "A1"})
	rinsed.wait(time.Hour)
	rinsed.do(day.Finish{Tag: "A1"})
	rinsed.happen(day.Rinsed{OfPiece: a1}, day.Rinsed{OfPiece: a1})
	ended := begin(t, func() day.Head {
		h := head(t, "soda")
		h.Setup.Ending, h.Opening = true, day.Opening{Number: 3, Built: true, Step: 8}
		return h
	}())
	children := day.HelperChanged{Who: "children", Children: true}
	hot, crowd, filling := dyeing(t, 1), dyeing(t, 1), begin(t, head(t, "soda"))
	hot.happen(day.Reading{Temp: celsius(49)})
	crowd.happen(children)
	st := filling.until(recipe.Fill, "")
	filling.happen(day.CautionAnswered{OfStep: day.OfStep{Step: st.No}})
	half := func(of []day.Command) []day.Command { return of[:len(of)/2] } // as they are, without Answered
	for _, c := range []struct {
		what  string
		p     *played
		ways  []day.Command
		words string
	}{
		{"a reducer", dyeing(t, 1), half(powders("reducer", "")), "dust mask"},
		{"an alkali", dyeing(t, 1), half(powders("soda", "")), "glasses, gloves"},
		{"lye", dyeing(t, 1, func(h *day.Head) { h.Recipe = built(t, "lye") }), half(powders("lye", "")), "never water onto lye"},
		{"indigo", dyeing(t, 1), half(powders("indigo", "")), "dust mask"},
		{"fructose", dyeing(t, 1, func(h *day.Head) { h.Recipe = built(t, "sugar-lime") }), half(powders("fructose", "")), "gloves and glasses"},
		{"stock", dyeing(t, 1), half(stocks), "no splash"},
		{"children who come to a hot vat", hot, []day.Command{day.Record{Body: children}}, "the vat reads 49 °C, too hot for children"},
		{"a vat that reads hot with children at it", crowd, []day.Command{day.Record{Body: day.Reading{Temp: celsius(41)}}}, "the vat reads 41 °C, too hot for children"},
		{"a fill that reads hotter than its water", filling, []day.Command{day.Record{Body: day.Reading{Temp: celsius(90)}}}, "more than the hottest water that goes in"},
		{"a heater", dyeing(t, 1), half(heater), "hands and goods out before heat"},
		{"hot water", dyeing(t, 1), half(hotTop), "at most 4 L a carry"},
		{"a sour bath", rinsed, half(sours)[:1], "acid frees a choking gas"},
		{"a hot bath", rinsed, []day.Command{day.Record{Body: day.Soaped{OfPiece: a1, Temp: 60}}}, "scald"},
		{"closing", dyeing(t, 1), []day.Command{day.Close{}}, "closes the day"},
		{"ending a vat as it stands", dyeing(t, 0), []day.Command{day.Record{Body: day.VatEnded{}}}, "ends the vat for good"},
		{"ending it", ended, []day.Command{day.Record{Body: day.VatEnded{Route: "the foul sewer"}}}, "no filled vessel is lifted"},
		{"a scoop", begin(t, head(t, "soda")), []day.Command{day.PutScoop{Mass: 90}}, "dust mask"},
	} {
		for _, way := range c.ways {
			bodies, err := day.Decide(c.p.s, way, c.p.now)
			if p, ok := err.(*day.Pending); !ok || !strings.Contains(p.Caution, c.words) {
				t.Errorf("%s, by %#v: %v, %v", c.what, way, bodies, err)
			}
			bodies, err = day.Decide(c.p.s, day.Answered{Command: way}, c.p.now)
			if err != nil || len(bodies) < 2 || bodies[0].Kind() != "caution answered" {
				t.Errorf("%s, answered, by %#v: %v, %v", c.what, way, bodies, err)
			}
		}
	}
	cold := dyeing(t, 1)
	for _, c := range []day.Command{day.Record{Body: day.ToppedUp{Water: 2, Temp: 45}}, day.Record{Body: day.DrawnOff{Liquor: 3}}, day.Record{Body: children}, day.Record{Body: day.Reading{Temp: celsius(49)}}, day.Lower{Tag: "A1"}} {
		if words := day.CautionOf(cold.s, c, cold.now); words != "" {
			t.Errorf("%#v wants %q", c, words)
		}
	}
}

// What is taken back leaves nothing behind that was refused: goods are not in the vat with the heater on.
func TestUndoingIsNoWayRound(t *testing.T) {
	p := dyeing(t, 1)
	p.do(day.Lower{Tag: "A1"})
	p.wait(8 * minute)
	p.do(day.Lift{Tag: "A1"})
	out := p.s.Log[len(p.s.Log)-1].Seq
	p.do(day.Record{Body: day.HeaterOn{}})
	p.refuses(day.Undo{Seq: out}, "A1 would be in the vat with the heater on")
	p.do(day.Record{Body: day.HeaterOff{}})
	off := p.s.Log[len(p.s.Log)-1].Seq
	p.wait(12 * minute)
	p.do(day.Lower{Tag: "A1"})
	p.refuses(day.Undo{Seq: off}, "A1 would be in the vat with the heater on")
}

// No key takes a closing back, nor the end of a vat; nor of a closed day what would leave goods in its vat, or its heater on.
func TestAClosedDayStaysClosed(t *testing.T) {
	for _, end := range []day.Command{day.Close{Why: "dusk"}, day.Record{Body: day.VatEnded{}}} {
		p := dyeing(t, 1)
		p.do(day.Lower{Tag: "A1"})
		p.wait(8 * minute)
		p.do(day.Lift{Tag: "A1"})
		p.do(day.Record{Body: day.CarriedOver{OfPiece: a1}})
		over := p.s.Seq
		p.do(day.Record{Body: day.HeaterOn{}})
		p.do(day.Record{Body: day.HeaterOff{}})
		off := p.s.Seq
		p.do(day.Record{Body: day.Note{Text: "warm"}})
		note := p.s.Seq
		p.do(end)
		p.refuses(day.Undo{Seq: p.s.Seq}, "not taken back")
		p.refuses(day.Undo{Seq: over}, "A1 is between two dips")
		p.refuses(day.Undo{Seq: off}, "the heater is on")
		p.do(day.Undo{Seq: note})
		if !p.s.Closed {
			t.Error("a note that is taken back opens the day")
		}
	}
}

// Of a pH that no such vat has once it dyes it is asked whether it was read rightly; of one that what hangs in the vat does not bear it is
// said, whatever its step. Of a vat that lost half of its liquor it is asked, too. A dose of more than the whole vat has is to be weighed again.
func TestSlipsAreAskedAbout(t *testing.T) {
	p := dyeing(t, 0)
	read := func(ph float64) day.Command { return day.Record{Body: day.Reading{PH: &ph}} }
	for ph, asks := range map[float64]bool{7: true, 7.9: true, 8.1: false, 10.6: false, 13.4: false, 13.6: true} {
		if got := day.CautionOf(p.s, read(ph), p.now); strings.Contains(got, "rinse the meter, and read again") != asks {
			t.Errorf("pH %v: %q", ph, got)
		}
	}
	p.do(day.Answered{Command: read(7.9)})
	if got := day.CautionOf(p.s, read(7.8), p.now); got != "" {
		t.Errorf("of a vat that has soured it is asked again: %s", got)
	}
	p.do(read(10.6))
	for litres, asks := range map[quantity.Volume]bool{0: true, 29: true, 31: false, 60: false} {
		if got := day.CautionOf(p.s, day.Record{Body: day.Reading{Holds: &litres}}, p.now); strings.Contains(got, "less than half of the 60 L that were in the vat") != asks {
			t.Errorf("%v L in the vat: %q", float64(litres), got)
		}
	}
	give := func(mass quantity.Mass) string {
		return day.CautionOf(p.s, day.Record{Body: day.PowderAdded{Powder: "reducer", Mass: mass}}, p.now)
	}
	if small, large := give(100), give(400); strings.Contains(small, "weigh again") || !strings.Contains(large, "400 g is more than a new vat of this fill has in all, 120 g: weigh again") {
		t.Errorf("100 g: %s\n400 g: %s", small, large)
	}
	p.do(day.AddPiece{Tag: "S1", Spec: day.PieceSpec{Fibre: "silk", Dry: 50, Dips: 2}})
	p.do(read(10.2))
	p.do(day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "S1"}}})
	p.do(day.Lower{Tag: "S1"})
	for _, ph := range []float64{10.2, 12.5} {
		p.do(read(ph))
		if got := p.s.Amiss(p.s.Log[len(p.s.Log)-1]); strings.HasPrefix(got, "lift S1: silk ") != (ph > 12) {
			t.Errorf("silk in a vat read at pH %v: %q", ph, got)
		}
	}
}

// Of a vat of which nothing was read for a night it is asked before the first piece goes in; once something is, or a piece went in, no more.
func TestAVatLeftForANightIsReadFirst(t *testing.T) {
	const asks = "no °C, pH or strip was read since "
	p := dyeing(t, 2)
	temp := quantity.Temperature(36)
	read := day.Record{Body: day.Reading{Temp: &temp}}
	p.do(read)
	lower := func(tag string) string { return day.CautionOf(p.s, day.Lower{Tag: tag}, p.now) }
	p.wait(11 * time.Hour)
	if got := lower("A1"); strings.Contains(got, asks) {
		t.Errorf("after 11 h: %s", got)
	}
	p.wait(7 * 24 * time.Hour)
	if got := lower("A1"); !strings.Contains(got, asks+"Sat 9 May 09:00: first read °C and pH, and pull a strip") {
		t.Errorf("after a week: %s", got)
	}
	if p.do(read); strings.Contains(lower("A1"), asks) {
		t.Error("it was just read")
	}
	p.wait(24 * time.Hour)
	if p.do(day.Judge{Ready: true}); strings.Contains(lower("A1"), asks) {
		t.Error("it was just called ready")
	}
	p.wait(24 * time.Hour)
	p.do(day.Lower{Tag: "A1"})
	if p.wait(time.Minute); strings.Contains(lower("A2"), asks) {
		t.Error("A1 dyes in it")
	}
	p.wait(7 * minute)
	p.do(day.Lift{Tag: "A1"})
	if got := lower("A2"); strings.Contains(got, asks) {
		t.Errorf("after a dip: %s", got)
	}
}

// No acid goes into a vat that dyes; on the day that leads to its end acid has a step of its own.
func TestAcidHasItsStep(t *testing.T) {
	h := head(t, "soda")
	dyes := begin(t, h)
	h.Setup.Ending, h.Opening = true, day.Opening{Number: 3, Built: true, Step: 2, Sulfur: true}
	for told, p := range map[string]*played{"no acid goes into a vat that dyes, it frees sulfur dioxide from the reducer; the vat is neutralised on": dyes,
		"acid goes in when its step says so": begin(t, h)} {
		if _, err := day.Decide(p.s, day.Record{Body: day.PowderAdded{Powder: "vinegar", Mass: 100}}, p.now); err == nil || !strings.Contains(err.Error(), told) {
			t.Errorf("%v, not %s", err, told)
		}
	}
}
