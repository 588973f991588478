package ui

import (
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/shelf"
)

// settling is a home with one vat whose end has begun: its pigment settles since at, its day was closed an hour later.
func settling(t *testing.T, at time.Time, zone string) shelf.Home {
	t.Helper()
	home := shelf.Open(t.TempDir())
	soda, _ := recipes.Find("soda")
	w, err := home.NewDay(day.Head{Vat: "bin", Day: at.Format(time.DateOnly), Zone: zone, Recipe: soda,
		Opening: day.Opening{Number: 3, Built: true, Step: 5, Since: &at}, Setup: day.Setup{Fill: 60, Place: day.Outdoors, Ending: true}})
	if err != nil {
		t.Fatal(err)
	}
	for i, b := range []day.Body{day.Opened{How: "end"}, day.Closed{}} {
		if err := w.Append(day.Event{Seq: i + 1, At: at.Add(time.Duration(i) * time.Hour), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return home
}

// Of a closed day home says once what it waits for, with the date when that is another day's, in the zone of now.
func TestAClosedDayHasItsTimeOnce(t *testing.T) {
	at := time.Date(2019, 5, 24, 9, 51, 0, 0, time.FixedZone("+01:00", 3600))
	home := settling(t, at, "+01:00")
	h := effectsOf(t, home)
	for days, want := range map[int]string{
		0:  "due: go on ending it: let the pigment settle, 20:51",
		9:  "due now: go on ending it: let the pigment settle, 24 May 20:51",
		-3: "due: go on ending it: let the pigment settle, Fri 24 May 20:51",
		-9: "due: go on ending it: let the pigment settle, 24 May 20:51",
	} {
		msg := h.load(false)().(homeMsg)
		m := newModel(Options{Home: home}, shelf.Defaults(), h)
		m.snap.Wall = at.UTC().AddDate(0, 0, days)
		next, _ := m.Update(msg)
		view := strings.Join(strings.Fields(next.View()), " ")
		if !strings.Contains(view, want) || strings.Contains(view, "21:51") {
			t.Errorf("after %d days %q is missing, or the time stands twice:\n%s", days, want, next.View())
		}
	}
}

// The next day is in the zone where the machine is, wherever the last one was.
func TestTheNextDayIsInTheZoneOfNow(t *testing.T) {
	now := engine.Machine{}.Wall()
	old, want := "+09:00", now.Location().String()
	if want == "Local" {
		want = now.Format("-07:00")
	}
	if now.Format("-07:00") == old {
		old = "-05:00"
	}
	there, err := time.Parse("-07:00", old)
	if err != nil {
		t.Fatal(err)
	}
	home := settling(t, time.Date(2019, 5, 24, 9, 0, 0, 0, there.Location()), old)
	h := effectsOf(t, home)
	msg := h.nextDay("bin", false, shelf.Settings{GoingOn: true})().(openedMsg)
	if msg.err != nil {
		t.Fatal(msg.err)
	}
	snap, err := h.eng.Now(h.ctx)
	if err != nil {
		t.Fatal(err)
	}
	v, ok := snap.Day(msg.id)
	if !ok || v.State.Head.Zone != want {
		t.Errorf("%s is in the zone %q, want %q", msg.id, v.State.Head.Zone, want)
	}
	if since := v.State.Head.Opening.Since; since == nil || since.Format("-07:00") != since.Local().Format("-07:00") {
		t.Errorf("what it took over is told by another clock: %v", since)
	}
	if got, here := v.Now.Format("-07:00"), now.Format("-07:00"); got != here {
		t.Errorf("its clock goes by %s, here it is %s", got, here)
	}
}

// The settings of a screen go to the file; the sounds stay as the file has them.
func TestSettingsKeepTheSoundsOfTheFile(t *testing.T) {
	home := shelf.Open(filepath.Join(t.TempDir(), "home"))
	inFile := shelf.Defaults()
	inFile.Sound.Speech = true
	if err := home.SaveSettings(inFile); err != nil {
		t.Fatal(err)
	}
	onScreen := shelf.Defaults()
	onScreen.Units, onScreen.Click = "us", shelf.ClickAnywhere
	if msg := effectsOf(t, home).set(onScreen)().(settingsMsg); msg.err != nil {
		t.Fatal(msg.err)
	}
	if got, err := home.Settings(); err != nil || got.Units != "us" || !got.Anywhere() || !got.Sound.Speech {
		t.Errorf("%+v, %v", got, err)
	}
}
