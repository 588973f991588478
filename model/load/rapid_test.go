package load_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/loadtest"
	"example.org/vatside/testdata/long"
)

func minutes(n int) quantity.Span { return quantity.Minutes(float64(n)) }

// drawPiece is any piece that fits into a vat of 1 kg.
func drawPiece(t *rapid.T, tag string) load.Piece {
	span := func(what string, low, high int) quantity.Span {
		return quantity.Seconds(float64(30 * rapid.IntRange(low, high).Draw(t, what)))
	}
	p := load.Piece{
		Tag: tag, Who: rapid.SampledFrom([]string{"", "1", "2", "3"}).Draw(t, "who"),
		Dry:  quantity.Grams(float64(rapid.IntRange(1, 100).Draw(t, "dry") * 10)),
		Dips: rapid.IntRange(0, 6).Draw(t, "dips"), Dip: span("dip", 1, 30), Air: span("air", 0, 60),
		FinalAir: span("final", 0, 120), Finish: span("finish", 0, 60),
		Form: rapid.SampledFrom([]string{"", "cloth", "skein", "garment", "bound"}).Draw(t, "form"),
		Work: rapid.SampledFrom([]string{"", "moved", "hung"}).Draw(t, "work"),
		Dark: rapid.IntRange(0, 6).Draw(t, "dark"), Takes: quantity.Grams(float64(rapid.IntRange(0, 20).Draw(t, "takes")) / 10),
	}
	if rapid.IntRange(0, 3).Draw(t, "comes later") == 0 {
		p.From = span("from", 0, 400)
	}
	if rapid.IntRange(0, 4).Draw(t, "leaves early") == 0 {
		p.Till = p.From + span("till", 1, 400)
	}
	p.Demo = rapid.IntRange(0, 15).Draw(t, "shown to all") == 0
	if rapid.IntRange(0, 5).Draw(t, "asks for a strong vat") == 0 {
		p.Least = quantity.Grams(float64(rapid.IntRange(0, 20).Draw(t, "least")))
	}
	return p
}

func drawPieces(t *rapid.T) []load.Piece {
	var out []load.Piece
	for i := range rapid.IntRange(0, 8).Draw(t, "pieces") {
		p := drawPiece(t, fmt.Sprint("P", i))
		if i > 0 && rapid.IntRange(0, 2).Draw(t, "like the last") == 0 {
			tag := p.Tag
			p = out[i-1]
			p.Tag = tag
		}
		out = append(out, p)
	}
	return out
}

func drawLimits(t *rapid.T) load.Limits {
	some := func(what string) bool { return rapid.IntRange(0, 2).Draw(t, what) == 0 }
	l := load.Limits{
		Capacity: quantity.Grams(float64(rapid.SampledFrom([]int{0, 1000, 1000, 1500, 2500}).Draw(t, "capacity"))),
		Most:     rapid.SampledFrom([]int{0, 0, 1, 2, 4}).Draw(t, "most"), Hands: rapid.IntRange(0, 3).Draw(t, "hands"),
		Vats: rapid.SampledFrom([]int{0, 0, 0, 1, 2, 3}).Draw(t, "vats"), Together: some("together"), Fair: some("fair"),
		Plain: rapid.IntRange(0, 5).Draw(t, "plain") == 0, Effort: 8000, Worth: minutes(rapid.IntRange(0, 5).Draw(t, "worth")),
	}
	if some("people") {
		l.AtVat = rapid.IntRange(1, 3).Draw(t, "at the vat")
	}
	if some("choice") {
		l.Choice = rapid.SampledFrom([]string{load.ChoiceWeak, load.ChoiceFull, load.ChoiceFeed}).Draw(t, "chosen")
	}
	if some("no handling") {
		l.Handling = map[string]quantity.Span{}
	}
	if some("rests") {
		l.Rest = load.Pause{After: minutes(rapid.IntRange(40, 180).Draw(t, "work")), For: minutes(rapid.IntRange(1, 90).Draw(t, "rest"))}
	}
	if some("reheats") {
		l.Reheat = load.Pause{After: minutes(rapid.IntRange(40, 180).Draw(t, "cools")), For: minutes(rapid.IntRange(1, 40).Draw(t, "heats"))}
	}
	for range rapid.SampledFrom([]int{0, 0, 1, 2}).Draw(t, "breaks") {
		from := rapid.IntRange(0, 300).Draw(t, "break")
		l.Breaks = append(l.Breaks, load.Break{From: minutes(from), To: minutes(from + rapid.IntRange(0, 60).Draw(t, "long"))})
	}
	if some("latest") {
		l.Latest = minutes(rapid.IntRange(1, 600).Draw(t, "at latest"))
	}
	if some("indigo") {
		l.Indigo = load.Indigo{Holds: quantity.Grams(float64(rapid.IntRange(1, 40).Draw(t, "holds"))), Floor: quantity.Grams(float64(rapid.IntRange(0, 5).Draw(t, "floor")))}
		if some("feeds") {
			l.Indigo.Feed, l.Indigo.Wait, l.Indigo.Feeds = quantity.Grams(10), minutes(rapid.IntRange(0, 90).Draw(t, "wait")), rapid.IntRange(1, 3).Draw(t, "feeds")
		}
	}
	return l
}

// No plan breaks a limit, and the same input gives the same plan.
func TestNoPlanBreaksALimit(t *testing.T) {
	long.Checks(t, 2000, 500)
	rapid.Check(t, func(t *rapid.T) {
		pieces, l := drawPieces(t), drawLimits(t)
		p, err := load.Make(pieces, l)
		if err != nil {
			if strings.Contains(err.Error(), "before it stands still") {
				t.Skip("a dip is longer than the vat works")
			}
			t.Fatal(err)
		}
		if broken := loadtest.Check(pieces, l, p); len(broken) > 0 {
			t.Fatalf("%s\n%+v", strings.Join(broken, "\n"), p.Rows)
		}
		if again, _ := load.Make(pieces, l); !reflect.DeepEqual(p, again) {
			t.Fatal("the same input gave another plan")
		}
	})
}

// stand is where a day stands that went by its plan until now.
func stand(p load.Plan, pieces []load.Piece, now quantity.Span) []load.PieceState {
	var out []load.PieceState
	for _, x := range pieces {
		s := load.PieceState{Tag: x.Tag}
		for _, r := range p.Rows {
			if r.Tag != x.Tag || r.Lower >= now {
				continue
			}
			if r.Lifted <= now {
				s.Dips, s.Where, s.Since = r.Dip, load.Airing, r.Lifted
			} else {
				s.Dips, s.Where, s.Since, s.Vat = r.Dip-1, load.InVat, r.In, r.Vat
			}
		}
		out = append(out, s)
	}
	return out
}

// A day is replanned at any moment after anything: no limit is broken, and nothing in the vat is moved.
func TestNoReplanBreaksALimit(t *testing.T) {
	long.Checks(t, 2000, 500)
	rapid.Check(t, func(t *rapid.T) {
		pieces, l := drawPieces(t), drawLimits(t)
		l.Bears = nil
		p, err := load.Make(pieces, l)
		if err != nil || len(p.Rows) == 0 {
			t.Skip("no plan")
		}
		for round := range rapid.IntRange(1, 3).Draw(t, "replans") {
			now := quantity.Seconds(float64(rapid.IntRange(0, int(p.Makespan.Seconds())+60).Draw(t, "now")))
			standing := stand(p, pieces, now)
			pieces = append([]load.Piece(nil), pieces...)
			for n := range pieces {
				switch rapid.IntRange(0, 6).Draw(t, "what happens") {
				case 0:
					pieces[n].Dips = min(pieces[n].Dips+1, 9)
				case 1:
					pieces[n].From = now + minutes(rapid.IntRange(0, 60).Draw(t, "late by"))
				case 2:
					if standing[n].Where == load.Waiting {
						pieces[n].Dips = 0
					}
				}
			}
			if rapid.Bool().Draw(t, "one more") {
				x := drawPiece(t, fmt.Sprint("N", round))
				pieces = append(pieces, x)
			}
			if len(pieces) > 1 && rapid.IntRange(0, 3).Draw(t, "one dropped") == 0 && standing[0].Where != load.InVat {
				pieces, standing = pieces[1:], standing[1:]
			}
			q, err := p.Replan(now, standing, pieces, l)
			if err != nil {
				if strings.Contains(err.Error(), "before it stands still") {
					t.Skip("a dip is longer than the vat works")
				}
				t.Fatal(err)
			}
			if broken := loadtest.CheckStanding(now, standing, pieces, l, q); len(broken) > 0 {
				t.Fatalf("now %v\n%s\nwas %+v\nis %+v", now, strings.Join(broken, "\n"), p.Rows, q.Rows)
			}
			p = q
		}
	})
}
