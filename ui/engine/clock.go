// Package engine is the live day: one goroutine that owns the clock, the events and the deadlines of all open days, and
// goes on when the terminal stalls or the disk is slow. Screens, plain mode and the dyers of ui/rehearse all drive it, and only see
// what it publishes. It is the only package that reads the clock.
//
// The rules:
//   - What a command makes is applied at once (the hands have acted already) and then goes to disk, in order, one write
//     in flight a day; a failing disk is retried, and told, for as long as it fails. No event is ever dropped.
//   - Day-time is the last event plus the boot clock's difference, which counts sleep and knows no clock steps; without
//     a boot clock it is the wall, and at least the last event. It never runs back.
//   - Whatever ran out while nobody could hear it is told once, together, and nothing of it is assumed.
package engine

import (
	"math"
	"sync"
	"time"

	"example.org/vatside/model/day"
)

// Instruments are the clocks of the machine. Boot counts sleep and Mono does not; Boot is false where there is none.
type Instruments interface {
	Wall() time.Time
	Boot() (up time.Duration, ok bool)
	Mono() time.Duration
}

// start is the instant from which Machine.Mono counts.
var start = time.Now()

// Machine is this computer's instruments.
type Machine struct{}

// Wall is the wall clock without its monotonic part, which stops in sleep.
func (Machine) Wall() time.Time { return time.Now().Round(0) }

// Mono is time since the program began, sleep left out where the platform does.
func (Machine) Mono() time.Duration { return time.Since(start) }

// alarm rings once a stretch of the machine's time is over.
type alarm struct {
	rings <-chan time.Time
	wait  func() // has it ring until it is stopped; nil: it does so by itself
	set   func(time.Duration)
	stop  func()
}

// newAlarm is a timer of Go's runtime, which stands still while the machine sleeps.
func newAlarm() alarm {
	t := time.NewTimer(0)
	return alarm{rings: t.C, set: func(d time.Duration) { t.Reset(d) }, stop: func() { t.Stop() }}
}

// After is a channel that gets the time once a stretch is over.
func (Machine) After(d time.Duration) <-chan time.Time { return time.After(d) }

// Source gives a day its time.
type Source interface {
	// Now is day-time. Up is the boot clock's reading, false where it has none.
	Now() time.Time
	Up() (up time.Duration, ok bool)
	// Pace is how many seconds of day-time pass in one of the machine's; 0 when it stands still.
	Pace() float64
}

// Watched is a source that notices sleep and clock steps.
type Watched interface {
	// Notice tells of a sleep and of a step of the wall clock since it was last asked; zero for none.
	Notice() (slept, stepped time.Duration)
}

// Living is the day-time of a real day: the last event plus the boot clock's difference; without a boot clock the wall, never backwards.
type Living struct {
	in       Instruments
	last     time.Time     // day-time at the anchor
	up0      time.Duration // boot clock at the anchor
	hasBoot  bool
	zone     *time.Location
	lastUp   time.Duration
	lastMono time.Duration
	offset   time.Duration // wall minus day-time when last looked at
}

// Least differences that count as a sleep or a step of the clock.
const (
	leastSleep = 2 * time.Second
	leastStep  = 2 * time.Second
)

// NewLiving anchors day-time. last is the last event's time (zero for a new day); lastUp is the boot clock at that
// event, valid only if sameBoot: the event was written in this boot of the machine.
func NewLiving(in Instruments, last time.Time, lastUp time.Duration, sameBoot bool, zone *time.Location) *Living {
	l := &Living{in: in, zone: zone}
	up, ok := in.Boot()
	wall := in.Wall()
	l.hasBoot, l.up0 = ok, up
	switch {
	case last.IsZero():
		l.last = wall
	case ok && sameBoot && up >= lastUp:
		l.last = last.Add(up - lastUp)
	case wall.After(last):
		l.last = wall
	default:
		l.last = last
	}
	l.lastUp, l.lastMono = up, in.Mono()
	l.offset = wall.Sub(l.last)
	return l
}

// Now is day-time, in the zone of the day.
func (l *Living) Now() time.Time {
	if l.hasBoot {
		up, _ := l.in.Boot()
		return l.last.Add(up - l.up0).In(l.zone)
	}
	if wall := l.in.Wall(); wall.After(l.last) {
		l.last = wall
	}
	return l.last.In(l.zone)
}

// Up is the boot clock's reading; false where the platform has no boot clock.
func (l *Living) Up() (time.Duration, bool) { return l.in.Boot() }

// Pace is 1: a real day runs as fast as the machine's clock.
func (l *Living) Pace() float64 { return 1 }

// Offset is by how much the wall clock is ahead of day-time.
func (l *Living) Offset() time.Duration { return l.in.Wall().Sub(l.Now()) }

// Notice tells of sleep and of a step of the clock since it was last asked.
func (l *Living) Notice() (slept, stepped time.Duration) {
	mono := l.in.Mono()
	if up, ok := l.in.Boot(); ok {
		if d := (up - l.lastUp) - (mono - l.lastMono); d > leastSleep {
			slept = d
		}
		l.lastUp = up
		if off := l.Offset(); (off - l.offset).Abs() > leastStep {
			stepped, l.offset = off, off
		}
	}
	l.lastMono = mono
	return slept, stepped
}

// FixedClock is the clock of a rehearsed day that nobody plays, such as one that is only looked at: it stays at one instant.
type FixedClock struct{ At time.Time }

// Now is the instant that it was made with.
func (s FixedClock) Now() time.Time { return s.At }

// Up returns 0: this clock has no boot clock, so events carry no `up`.
func (s FixedClock) Up() (time.Duration, bool) { return 0, false }

// Pace is 0: this clock stands still.
func (s FixedClock) Pace() float64 { return 0 }

// Playing is a rehearsal's clock, Speed times as fast as the machine's.
type Playing struct {
	in    Instruments
	from  time.Time
	mono0 time.Duration
	speed float64
}

// NewPlaying starts a fast clock at an instant.
func NewPlaying(in Instruments, from time.Time, speed float64) *Playing {
	return &Playing{in: in, from: from, mono0: in.Mono(), speed: speed}
}

// longestPlay is where a fast clock stands still. It is far below what a duration holds, 292 years.
const longestPlay = 100 * 365 * 24 * time.Hour

// Now is the instant of the rehearsed day, at most longestPlay after its beginning.
func (p *Playing) Now() time.Time {
	return p.from.Add(time.Duration(min(float64(p.in.Mono()-p.mono0)*p.speed, float64(longestPlay))))
}

// Up returns 0: events of a played day carry no `up`.
func (p *Playing) Up() (time.Duration, bool) { return 0, false }

// Pace is how many times as fast as the machine's clock it runs.
func (p *Playing) Pace() float64 { return p.speed }

// Led is a clock that is set by hand: a rehearsal at full speed, and tests. Whoever leads it and the engine may be
// different goroutines.
type Led struct {
	mu sync.Mutex
	at time.Time
}

// NewLed is a clock that stands at an instant until Set.
func NewLed(at time.Time) *Led { return &Led{at: at} }

// Set moves the clock on to an instant; an earlier one than it shows changes nothing.
func (l *Led) Set(to time.Time) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if to.After(l.at) {
		l.at = to
	}
}

// Now is the instant that was set last.
func (l *Led) Now() time.Time {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.at
}

// Up returns 0: this clock has no boot clock, so events carry no `up`.
func (l *Led) Up() (time.Duration, bool) { return 0, false }

// Pace is 0: this clock stands still between two calls of Set.
func (l *Led) Pace() float64 { return 0 }

// Stamp is what an event of this instant bears of the boot clock; boot is this boot's id, and without one it is nothing.
func Stamp(boot string) (id string, up float64) {
	d, ok := Machine{}.Boot()
	if !ok || boot == "" {
		return "", 0
	}
	return boot, seconds(d)
}

// seconds is a reading of the boot clock as the book keeps it.
func seconds(up time.Duration) float64 { return math.Round(up.Seconds()*1000) / 1000 }

// Morning is the first instant of an invented day: nine o'clock of the date that names it.
func Morning(h day.Head) time.Time {
	zone := Zone(h)
	date := h.Day
	if len(date) > len("2006-01-02") {
		date = date[:len("2006-01-02")]
	}
	d, err := time.ParseInLocation("2006-01-02", date, zone)
	if err != nil {
		return time.Date(2000, 1, 1, 9, 0, 0, 0, zone)
	}
	return d.Add(9 * time.Hour)
}

// InZone is a head with the times that it took over as they are in its own zone: the same instants, shown as the clock of the
// day shows its own.
func InZone(h day.Head) day.Head {
	zone := Zone(h)
	for _, at := range []**time.Time{&h.Opening.Since, &h.Opening.Until} {
		if *at != nil {
			here := (*at).In(zone)
			*at = &here
		}
	}
	return h
}

// Zone is the time zone that a head names, an IANA name or an offset; the machine's own where it names none that is known.
func Zone(h day.Head) *time.Location {
	name := h.Zone
	if t, err := time.Parse("-07:00", name); err == nil {
		_, offset := t.Zone()
		return time.FixedZone(name, offset)
	}
	if z, there := zones.Load(name); there {
		return z.(*time.Location)
	}
	if z, err := time.LoadLocation(name); err == nil && name != "" {
		zones.Store(name, z)
		return z
	}
	return time.Local
}

// zones are those that the platform was asked for, by name: it reads a file for each.
var zones sync.Map
