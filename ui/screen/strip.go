package screen

import (
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/widget"
)

// Strip is the stopwatch of a strip test, under one key. The zero value watches none.
type Strip struct{ pulled time.Time }

// On tells whether a strip is being watched.
func (s Strip) On() bool { return !s.pulled.IsZero() }

// Press starts it; pressed again, when the strip turns blue, it asks for the test to be written down.
func (s Strip) Press(now time.Time) (Strip, []Request) {
	if !s.On() {
		return Strip{now}, nil
	}
	stayed := quantity.Span(now.Sub(s.pulled).Round(time.Second))
	return Strip{}, []Request{Do{day.Record{Body: day.StripTest{Stayed: stayed}}}}
}

// Figure is how long the strip has stayed yellow.
func (s Strip) Figure(now time.Time) widget.Figure {
	return widget.Figure{Number: widget.Countdown(now.Sub(s.pulled)), Note: "the strip is yellow: t when it turns blue", Tone: widget.Now, Key: "t"}
}

// Degrees is the unit in which the dyer reads a thermometer.
func Degrees(v engine.View) string {
	if v.State.Head.Setup.System() == quantity.US {
		return "°F"
	}
	return "°C"
}
