package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// classView is a vat that is ready with a piece of each of some people, the first of them in it, and its timetable.
func classView(t *testing.T, who ...string) engine.View {
	t.Helper()
	bodies := []day.Body{day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: "warm"}, day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true}}
	for i, w := range who {
		of := day.OfPiece{Tag: "A" + string(rune('1'+i))}
		bodies = append(bodies, day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3, Who: w}}, day.WettedOut{OfPiece: of})
	}
	bodies = append(bodies, day.DipBegun{OfPiece: ofA1, Dip: 1, For: quantity.Minutes(8)})
	head, events := said{build: recipe.Do(""), bodies: bodies}.begun(t)
	s, errs := day.Replay(head, events)
	if len(errs) > 0 {
		t.Fatal(errs)
	}
	return planned(engine.View{ID: "bin/2026-03-28", State: s, Now: s.At})
}

// planned is a view with a timetable of its instant.
func planned(v engine.View) engine.View {
	o := outlook.Of(v.State, v.Now)
	b := outlook.Blues(v.State, o, v.Now)
	table := outlook.Timetable(v.State, o, b, load.Plan{}, v.Now, 10_000)
	v.Outlook, v.Blue, v.Table = &o, &b, &table
	return v.At(v.Now)
}

// boardSeat is a root with a home of its own.
type boardSeat struct {
	t       *testing.T
	m       model
	home    shelf.Home
	file    string
	written int
}

func newBoardSeat(t *testing.T) *boardSeat {
	home := shelf.Open(t.TempDir())
	m := newModel(Options{Home: home}, shelf.Defaults(), effectsOf(t, home))
	return &boardSeat{t: t, m: m, home: home, file: filepath.Join(home.VatDir("bin"), "board.html")}
}

// shows brings a view to the root, as of its own time, and gives the board's file as it is then.
func (b *boardSeat) shows(views ...engine.View) string {
	b.t.Helper()
	b.m.snap = engine.Snapshot{Wall: views[0].Now, Days: views}
	if cmd := b.m.boarded(); cmd != nil {
		b.written++
		next, _ := b.m.Update(cmd())
		b.m = next.(model)
	}
	text, _ := os.ReadFile(b.file)
	return string(text)
}

// The board is written when it says something else, never because time goes on: a dip that runs for minutes, to its last one,
// leaves it as it is.
func TestTimeAloneWritesNoBoard(t *testing.T) {
	b, v := newBoardSeat(t), classView(t, "Ida", "Jon", "Kim", "Lea <b>&\"")
	first := b.shows(v)
	for _, words := range []string{"<td>Ida</td><td>out 09:", "<td>Jon</td><td>in 09:", "Lea &lt;b&gt;&amp;&#34;", "dip 1 of 3"} {
		if !strings.Contains(first, words) {
			t.Errorf("%q is not on the board:\n%s", words, first)
		}
	}
	end := v.Call().Due.At
	for at := v.Now; at.Before(end.Add(-day.LastMinute)); at = at.Add(time.Second) {
		if b.shows(v.At(at)) != first || b.written != 1 {
			t.Fatalf("%s before its end it is written anew", end.Sub(at))
		}
	}
	again := v.At(end.Add(-day.LastMinute - time.Second)) // another timetable that says the same
	table := *v.Table
	again.Table = &table
	if b.shows(again); b.written != 1 {
		t.Error("an equal timetable is written anew")
	}
	if last := b.shows(v.At(end.Add(-day.LastMinute))); !strings.Contains(last, "Lift A1 out") || b.written != 2 {
		t.Errorf("in the last minute it is written %d times:\n%s", b.written, last)
	}
}

// What comes within seconds is written once those are over, and the engine is asked for the seconds meanwhile.
func TestABoardStandsForSomeSeconds(t *testing.T) {
	b, v := newBoardSeat(t), classView(t, "Ida", "Jon")
	b.shows(v)
	next, err := day.Apply(v.State, day.Event{Seq: v.State.Seq + 1, At: v.Now, Body: day.Talking{On: true}})
	if err != nil {
		t.Fatal(err)
	}
	v.State = next
	v = v.At(v.Now)
	if now := b.shows(v.At(v.Now.Add(boardApart - time.Second))); strings.Contains(now, "waits") || !b.m.counts() {
		t.Errorf("it is written anew at once, or not waited for:\n%s", now)
	}
	if now := b.shows(v.At(v.Now.Add(boardApart))); !strings.Contains(now, "<td>Jon</td><td>waits</td>") || !strings.Contains(now, "Talking: pieces wait") || b.m.counts() {
		t.Errorf("it is not written after %s:\n%s", boardApart, now)
	}
}

// A board that cannot be written says on the screen for as long that it is old, is tried again, and says no more once it is written.
func TestABoardThatIsOldSaysSo(t *testing.T) {
	b, v := newBoardSeat(t), classView(t, "Ida", "Jon")
	b.shows(v)
	if err := os.WriteFile(b.file, []byte("not a board"), 0o644); err != nil {
		t.Fatal(err)
	}
	says := func() string { s := b.m.sheet(); return s.Banner }
	v = v.At(v.Now.Add(30 * time.Minute)) // the lift is over: the board says something else
	b.shows(v)
	b.m = b.m.push(screen.AtDay, v.ID, "")
	v = v.At(v.Now.Add(2 * refusal))
	if b.shows(v); !strings.HasPrefix(says(), "the board is not written: ") || !strings.HasSuffix(says(), "; what stands on it is old") {
		t.Errorf("the screen says %q", says())
	}
	if err := os.Remove(b.file); err != nil {
		t.Fatal(err)
	}
	if now := b.shows(v.At(v.Now.Add(boardApart))); !strings.Contains(now, "Ida") || strings.Contains(says(), "board") {
		t.Errorf("once it can be written again the screen says %q, and the board:\n%s", says(), now)
	}
}

// Nobody's pieces, a day that another program writes and a setting make no board; one that was begun tells that its day is closed.
func TestWhichDaysHaveABoard(t *testing.T) {
	b := newBoardSeat(t)
	looked := classView(t, "Ida")
	looked.Looking = true
	if got := b.shows(classView(t, "")) + b.shows(looked); got != "" {
		t.Errorf("a board of nobody, or of another's day:\n%s", got)
	}
	b.m.home.Settings.Board = false
	if got := b.shows(classView(t, "Ida")); got != "" {
		t.Errorf("one that is not wanted:\n%s", got)
	}
	b.m.home.Settings.Board = true
	v := classView(t, "Ida")
	b.shows(v)
	v.State.Closed = true
	if got := b.shows(v.At(v.Now.Add(time.Minute))); !strings.Contains(got, "The day is closed") || strings.Contains(got, "<td>") {
		t.Errorf("of a closed day it says:\n%s", got)
	}
}

// A board that cannot be written is told for as long as that is so, and the day goes on.
func TestABoardThatCannotBeWritten(t *testing.T) {
	b, v := newBoardSeat(t), classView(t, "Ida")
	if err := os.MkdirAll(b.file, 0o755); err != nil {
		t.Fatal(err)
	}
	b.shows(v)
	for n := 1; n < 3; n++ {
		if b.written != n || !strings.Contains(b.m.boards.trouble, "board") || b.m.word != "" {
			t.Errorf("after %d tries it says %q, and the word is %q", b.written, b.m.boards.trouble, b.m.word)
		}
		b.shows(v.At(v.Call().Due.At))
	}
}

// Once the program is left each board of an open day says that its clock is closed, and a page that was still on its way does not come
// after it; that of a closed day stays.
func TestALeftBoardSaysSo(t *testing.T) {
	b, v := newBoardSeat(t), classView(t, "Ida", "Jon")
	live := b.shows(v)
	if words := v.Now.Format("as of 15:04 on Mon 2 Jan 2006"); !strings.Contains(live, words) || strings.Contains(live, "closed") {
		t.Errorf("%q is not on the live one:\n%s", words, live)
	}
	b.m.snap.Days[0] = v.At(v.Call().Due.At)
	b.m.snap.Wall = v.Call().Due.At
	late := b.m.boarded()
	b.m.boards.leave(b.home, v.Now.Add(time.Hour))
	late()
	text, _ := os.ReadFile(b.file)
	for _, words := range []string{"<h1>vatside is closed</h1>", v.Now.Add(time.Hour).Format("Left at 15:04 on Mon 2 Jan 2006"), v.Now.Format("so at 15:04 on"), "<td>Ida</td>"} {
		if !strings.Contains(string(text), words) {
			t.Errorf("%q is not on the left one:\n%s", words, text)
		}
	}
	b = newBoardSeat(t)
	b.shows(v)
	v.State.Closed = true
	closed := b.shows(v.At(v.Now.Add(time.Minute)))
	b.m.boards.leave(b.home, v.Now.Add(time.Hour))
	if text, _ := os.ReadFile(b.file); string(text) != closed {
		t.Errorf("the board of a closed day says at leaving:\n%s", text)
	}
}

// A piece that is put on the list by the typed line with too little time for its dips is answered with that.
func TestTooLittleTimeIsToldWhenAPieceIsAdded(t *testing.T) {
	v := classView(t, "Ida")
	d := seated(t, v)
	d.at(screen.AtDay, v.ID).types(":piece B1 cotton 100 g mid for Zoe till " + day.Clock(v.Now.Add(12*time.Minute)) + "[enter]")
	if !strings.Contains(d.shown(), "B1 has its last dip till") {
		t.Errorf("nothing is told:\n%s", d.shown())
	}
}
