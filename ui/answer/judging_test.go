package answer

import (
	"reflect"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// looking is a living soda vat at its look.
func judgingAt(t *testing.T, bodies ...day.Body) *played {
	return begun(t, true, append([]day.Body{day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: "warm"}}, bodies...)...)
}

// Each way is one word, or its figure; a strip is out and then blue, by words or by its one key.
func TestJudgingInWords(t *testing.T) {
	at, out := judgingAt(t), judgingAt(t, day.StripBegun{})
	pulled := day.Record{Body: day.StripBegun{}}
	timed := day.Record{Body: day.StripTest{Stayed: quantity.Seconds(45)}}
	for _, c := range []struct {
		of   *played
		line string
		want day.Command
	}{
		{at, "1", day.Judge{Ready: true, By: day.ByStrip}}, {at, "2", day.Judge{Ready: true, By: day.BySwatch}}, {at, "4", day.Judge{Ready: true, By: day.ByEye}},
		{at, "by strip", day.Judge{Ready: true, By: day.ByStrip}}, {at, "swatch", day.Judge{Ready: true, By: day.BySwatch}},
		{at, "film, coppery", day.Judge{Ready: true, By: day.ByFilm, Seen: "coppery"}}, {at, "my eye", day.Judge{Ready: true, By: day.ByEye}},
		{at, "ready", day.Judge{Ready: true}}, {at, "not yet", day.Judge{}},
		{at, "strip out", pulled}, {at, "strip", pulled}, {out, "strip", day.StripBlue{}}, {out, "strip blue", day.StripBlue{}}, {out, "3", day.Judge{Ready: true, By: day.ByFilm}},
		{at, "strip 45", timed}, {out, "strip 45", timed},
	} {
		_, _, got, err := Take(c.of.State, c.of.now.Add(20*time.Second), c.line)
		if err != nil || len(got) != 1 || !reflect.DeepEqual(got[0], c.want) {
			t.Errorf("%q: %+v, %v; want %+v", c.line, got, err, c.want)
		}
	}
	if _, _, _, err := Take(at.State, at.now, "5"); err == nil || !strings.Contains(err.Error(), "1 to 4") {
		t.Errorf("5 is %v", err)
	}
	for _, p := range []*played{at, out} {
		if r := Read(p.State, p.now.Add(20*time.Second), "strip"); r.Err != nil {
			t.Errorf("the strip's key: %v", r.Err)
		}
	}
}

// What is done at once and can be taken back says so; what is taken back says what it was.
func TestNotices(t *testing.T) {
	p := ready(t, wet)
	said := func(c day.Command, want string) {
		t.Helper()
		p.now = p.now.Add(time.Minute)
		bodies, err := day.Decide(p.State, c, p.now)
		if err != nil {
			bodies, err = day.Decide(p.State, day.Answered{Command: c}, p.now)
		}
		if err != nil {
			t.Fatal(err)
		}
		n := len(p.Log)
		for _, b := range bodies {
			p.State, _ = day.Apply(p.State, day.Event{Seq: len(p.Log) + 1, At: p.now, Body: b})
		}
		if got := Notice(p.State, p.Log[n:]); got != want {
			t.Errorf("%+v says %q, want %q", c, got, want)
		}
	}
	said(day.RestVat{For: quantity.Minutes(60)}, "resting · PgUp takes back")
	said(day.Back{}, "taken back: rest of the vat, 1 h (#7)")
	said(day.Record{Body: day.VatCovered{}}, "lid on · PgUp takes back")
	said(day.Record{Body: day.VatUncovered{}}, "lid off · PgUp takes back")
	said(day.Record{Body: day.HeaterOn{}}, "")
	said(day.Back{}, "taken back: heater on (#12); see that it is off and unplugged")
	said(day.Lower{Tag: "A1"}, "")
	said(day.Back{}, "taken back: A1 in, dip 1, 5 min (#14)")
	said(day.Record{Body: day.StripBegun{}}, "strip out · PgUp takes back")
	q := begun(t, false)
	bodies, _ := day.Decide(q.State, day.Skip{}, q.now)
	q.happen(t, bodies...)
	left := []day.Event{{Body: day.LeftOut{OfPiece: day.OfPiece{Tag: "A1"}, What: "sour"}}}
	if got := Notice(q.State, left); got != "left out: sour of A1 · PgUp takes back" {
		t.Errorf("a step of a piece left out says %q", got)
	}
	if got := Notice(q.State, q.Log[len(q.Log)-1:]); !strings.HasPrefix(got, "left out: ") || !strings.HasSuffix(got, " · PgUp takes back") {
		t.Errorf("a step left out says %q", got)
	}
}
