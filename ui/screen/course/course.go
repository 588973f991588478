// Package course shows how the liquor's °C went through the day and where it goes: what was read, what was reckoned
// between, and the forecast as the vat stands and with the lid on.
package course

import (
	"fmt"
	"math"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/widget"
)

// Screen is the course of °C.
type Screen struct{}

func New(screen.Env) screen.Screen { return Screen{} }

func (s Screen) Update(k screen.Key, env screen.Env) (screen.Screen, []screen.Request) {
	if k.Done() || k.Name == "esc" {
		return s, []screen.Request{screen.Leave{}}
	}
	return s, nil
}

// View is the picture of a quantity over the day.
func (s Screen) View(env screen.Env) widget.Sheet {
	v, _ := env.Day()
	o, sys := screen.Outlook(v), v.State.Head.Setup.System()
	h := o.Heat
	sheet := widget.Sheet{Head: screen.HeadOf(v, "the warmth"), Foot: screen.Foot(v, env)[:1]} // where it goes is the picture
	switch {
	case h.Known == outlook.Unknown:
		sheet.Act = "No °C yet"
		sheet.How = []string{"Read it at the vat and type it: r. The forecast begins there."}
		return sheet
	case len(h.Coming) == 0:
		sheet.Act = h.Now.Format(sys)
		sheet.How = []string{"Not measured, so not forecast: only readings are shown."}
		if v.State.Closed {
			sheet.How = []string{"The day is closed: these are its readings."}
		}
	default:
		sheet.Act = act(h, v.Now, sys)
		sheet.How = []string{says(h)}
	}
	columns, rows := env.Room(sheet)
	sheet.Body = widget.Plot(picture(v, h, sys), columns, max(6, rows), env.Style)
	return sheet
}

// act is the one sentence that the picture shows.
func act(h outlook.Heat, at time.Time, sys quantity.System) string {
	now := screen.HeatNow(h, sys).Format(sys)
	switch {
	case h.Now <= h.Low:
		return fmt.Sprintf("%s: colder than the %s it needs", now, h.Low.Format(sys))
	case h.Below.IsZero():
		return fmt.Sprintf("%s, and warm enough for the next hours", now)
	case h.LiddedHolds:
		return fmt.Sprintf("%s, below %s at %s; with the lid it holds %[2]s", now, h.Low.Format(sys), day.DateOf(h.Below, at))
	case !h.Lidded.IsZero():
		return fmt.Sprintf("%s, below %s at %s; with the lid at %s", now, h.Low.Format(sys), day.DateOf(h.Below, at), day.DateOf(h.Lidded, at))
	}
	return fmt.Sprintf("%s, below %s at %s%s", now, h.Low.Format(sys), day.DateOf(h.Below, at), h.HowSure(h.Below, at))
}

// says is how far the forecast is this day's own.
func says(h outlook.Heat) string {
	f := h.Fitted
	switch {
	case f.Pairs == 0:
		return "Two readings half an hour apart fit it to this day."
	case math.Abs(f.Factor-1) < 0.05:
		return "Today's readings agree: it cools as reckoned."
	case f.Factor > 1:
		return fmt.Sprintf("Today it loses %.1f times the heat reckoned: wind?", f.Factor)
	}
	return fmt.Sprintf("Today it loses %.1f of the heat reckoned: no wind?", f.Factor)
}

// shown is how much of what comes the picture has.
const shown = 6 * time.Hour

// picture is the course as the plot takes it.
func picture(v engine.View, h outlook.Heat, sys quantity.System) widget.Course {
	value := quantity.Temperature.Celsius
	if sys == quantity.US {
		value = quantity.Temperature.Fahrenheit
	}
	point := func(p outlook.At) widget.Point { return widget.Point{When: p.When, Value: value(p.Temp)} }
	c := widget.Course{
		From: v.State.Opened, Now: v.Now, To: v.Now.Add(shown), Unit: v.State.Head.Setup.System().DegreeUnit(), Zone: v.Now.Location(), OtherName: "with the lid",
		Bands: []widget.Level{{Value: value(h.Low), Name: "low"}, {Value: value(h.Aim), Name: "aim"}, {Value: value(h.High), Name: "high"}},
	}
	if len(h.Past) > 0 && h.Past[0].When.After(c.From) {
		c.From = h.Past[0].When.Truncate(time.Hour)
	}
	if back := v.Now.Add(-10 * time.Hour); c.From.Before(back) {
		c.From = back
	}
	if len(h.Coming) == 0 {
		c.To = v.Now
	}
	c.Past, c.Readings, c.Other = wording.Each(h.Past, point), wording.Each(h.Readings, point), wording.Each(h.UnderLid, point)
	c.Coming = wording.Each(h.Coming, func(p outlook.Spread) widget.Spread {
		return widget.Spread{When: p.When, Low: value(p.Temp.Low), Likely: value(p.Temp.Likely), High: value(p.Temp.High)}
	})
	return c
}

func (s Screen) Keys(env screen.Env) []widget.Key {
	v, _ := env.Day()
	return append(append(screen.Keys("enter", "back"), screen.RowKeys(v, "temp", "lid", "heater")...), screen.Bound("esc", "back"))
}
