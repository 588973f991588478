package history_test

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/pack"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// randomVat is a vat of a few days on which anything may have happened, in any order.
func randomVat(r *rand.Rand, all []recipe.Recipe) history.Vat {
	chosen := all[r.IntN(len(all))]
	var v history.Vat
	at := first
	fill := quantity.Volume(20 + r.IntN(60))
	for d := range 1 + r.IntN(6) {
		if r.IntN(8) == 0 {
			fill = quantity.Volume(20 + r.IntN(60)) // it was set up anew
		}
		head := day.Head{Vat: "bin", Day: at.Format(time.DateOnly), Zone: "UTC", Recipe: chosen,
			Opening: day.Opening{Number: d + 1, Built: d > 0 && r.IntN(6) > 0 || r.IntN(2) == 0, Cover: r.IntN(2) == 0},
			Setup:   day.Setup{Fill: fill, Vessel: "frustum 36 cm 44 cm 62 cm", Place: day.Outdoors}}
		if r.IntN(4) == 0 {
			until := at
			head.Opening.Indigo, head.Opening.Until = quantity.Mass(r.IntN(200)), &until // else nobody knows what it holds
		}
		events := []day.Event{{Seq: 1, At: at, Body: day.Opened{How: "tend"}}}
		for range r.IntN(40) {
			at = at.Add(time.Duration(r.IntN(90)) * time.Minute)
			events = append(events, day.Event{Seq: len(events) + 1, At: at, Body: randomBody(r, head, len(events), at)})
		}
		if r.IntN(8) > 0 {
			why := [3]string{"dusk", "for the winter", "dusk"}[r.IntN(3)]
			events = append(events, day.Event{Seq: len(events) + 1, At: at, Body: day.Closed{Why: why}})
		}
		s, _ := day.Replay(head, events)
		v = append(v, history.Day{Name: fmt.Sprint(head.Day, " ", d), State: s})
		at = at.Add(time.Duration(r.IntN(10)+1) * 24 * time.Hour)
		if r.IntN(5) == 0 {
			at = at.Add(50 * 24 * time.Hour)
		}
	}
	return v
}

func randomBody(r *rand.Rand, head day.Head, n int, at time.Time) day.Body {
	powder := head.Recipe.Powders[r.IntN(len(head.Recipe.Powders))]
	of := day.OfPiece{Tag: fmt.Sprintf("A%d", 1+r.IntN(3))}
	temp, ph, holds := quantity.Celsius(float64(10+r.IntN(40))), 5+float64(r.IntN(80))/10, quantity.Volume(r.IntN(60))
	mass := quantity.Mass(r.IntN(30))
	switch r.IntN(26) {
	case 0:
		return day.Reading{Temp: &temp}
	case 1:
		return day.Reading{PH: &ph, With: "paper"}
	case 2:
		return day.Reading{Holds: &holds}
	case 3:
		return day.StripTest{Stayed: quantity.Seconds(float64(r.IntN(120)))}
	case 4:
		return day.SignSeen{Sign: [5]string{"no froth", "sediment above a third", "violet-blue froth", "no froth", "slimy"}[r.IntN(5)]}
	case 5:
		return day.VatJudged{Ready: r.IntN(2) == 0}
	case 6:
		return day.Fed{Powder: powder.ID, Material: powder.Material, Mass: mass}
	case 7, 8:
		return day.PowderAdded{Powder: powder.ID, Material: powder.Material, Mass: mass}
	case 9:
		return day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3}}
	case 10, 11:
		return day.DipBegun{OfPiece: of, Dip: 1 + r.IntN(3), For: quantity.Minutes(2)}
	case 12, 13:
		return day.DipEnded{OfPiece: of, Dip: 1 + r.IntN(3), Air: quantity.Minutes(2)}
	case 14:
		return day.VatCovered{}
	case 15:
		return day.VatUncovered{}
	case 16:
		return day.ToppedUp{Water: quantity.Volume(r.IntN(5))}
	case 17:
		return day.DrawnOff{Liquor: quantity.Volume(r.IntN(5))}
	case 18:
		return day.Decanted{Liquor: quantity.Volume(r.IntN(5))}
	case 19:
		return day.Stirred{}
	case 20:
		return day.Note{Text: [2]string{"for the winter", "the film comes back"}[r.IntN(2)]}
	case 21:
		return day.Treated{Cause: "reducer", Do: "give reducer"}
	case 22:
		return day.Rechecked{Cause: [2]string{"reducer", "cold"}[r.IntN(2)], Answer: [2]string{"better", "same"}[r.IntN(2)]}
	case 23:
		return day.Corrected{Of: 1 + r.IntN(n), Way: "undone"}
	case 24:
		to := at.Add(-time.Duration(r.IntN(100)) * time.Minute)
		return day.Corrected{Of: 1 + r.IntN(n), Way: "moved", To: &to}
	}
	return day.HeaterOn{}
}

// A life that is gone on with from what was kept of it says what the life of all its days says.
func TestALifeGoesOnFromWhatWasKept(t *testing.T) {
	r := rand.New(rand.NewPCG(20, 20))
	var all []recipe.Recipe
	for _, id := range []string{"soda", "thiourea", "sugar-lime", "iron-lime", "madder-bran"} {
		all = append(all, builtIn(t, id))
	}
	kept := 0
	for range 50 {
		v := randomVat(r, all)
		last := v[len(v)-1]
		before := history.Begin(last.State.Head)
		for _, d := range v[:len(v)-1] {
			before.Take(d)
		}
		past, ok := before.Kept()
		if !ok {
			continue
		}
		kept++
		var p pack.Packer
		if err := p.Value(reflect.ValueOf(past)); err != nil {
			t.Fatal(err)
		}
		var again history.Past
		u := pack.Unpacker{In: p.Out}
		u.Value(reflect.ValueOf(&again).Elem())
		life, same := history.Resume(again, last.State.Head)
		if u.Bad || !same {
			t.Fatalf("bad %v, same %v", u.Bad, same)
		}
		life.Take(last)
		whole := history.LifeOf(v)
		for _, ago := range []time.Duration{0, 30 * time.Hour, 900 * time.Hour} {
			now := last.State.At.Add(ago)
			if got, want := said(life, now), said(whole, now); got != want {
				t.Fatalf("gone on with:\n%s\nof all days:\n%s", got, want)
			}
		}
		other := last.State.Head
		if other.Setup.Fill++; func() bool { _, same := history.Resume(again, other); return same }() {
			t.Fatal("it is gone on with by another fill")
		}
	}
	if kept < 15 {
		t.Errorf("only %d lives could be kept", kept)
	}
}

// said is all that a life says.
func said(l *history.Life, now time.Time) string {
	since, words, rests := l.Resting(now)
	past, is := l.Kept()
	fed := wording.Told(l.SinceFood(now), -1)
	return fmt.Sprintf("%+v\n%+v\n%+v %v %v\n%s\n%v %v\n%v %v %v", l.Care(now), l.Stand(now), since, words, rests, l.Worked(), l.DoneAgo(now), l.Every("look", now), past.Built, is, fed)
}
