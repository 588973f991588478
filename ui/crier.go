package ui

import (
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/shelf"
)

// set takes what may be heard and seen.
func (c *crier) set(s shelf.Sounds) {
	c.Player.Set(cue.Settings{Bell: s.Bell, Tone: s.Tone, Speech: s.Speech})
	c.mu.Lock()
	defer c.mu.Unlock()
	c.sound = s
}

// notifies has words shown on the desktop by it.
func (c *crier) notifies(by func(wording.Shown)) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.notify = by
}

// Call sounds a call, and shows it on the desktop where the hands are wanted.
func (c *crier) Call(call cue.Call) {
	c.Player.Call(call)
	c.mu.Lock()
	notify := c.notify
	if !c.sound.Notice {
		notify = nil
	}
	c.mu.Unlock()
	switch call.Cue {
	case cue.Out, cue.In, cue.Ready, cue.Overdue, cue.Done, cue.Trouble:
		if notify != nil && call.Words.String() != "" {
			notify(call.Words)
		}
	}
}

// reverses tells whether the window is in reverse at the moment of a snapshot: every other second while something is late, so that it
// changes once a second at most.
func (c *crier) reverses(s engine.Snapshot) bool {
	c.mu.Lock()
	flash := c.sound.Flash
	c.mu.Unlock()
	return flash && s.Wall.Unix()%2 == 0 && late(s)
}

// late tells whether a call of a day that is written here is late.
func late(s engine.Snapshot) bool {
	for i := range s.Days {
		v := &s.Days[i]
		if c := v.Call(); written(v) && c.Due != nil && c.Due.Late(v.Now) {
			return true
		}
	}
	return false
}

// timed tells whether a time runs for a day that is written here, and not rehearsed: then the machine must not sleep.
func timed(s engine.Snapshot) bool {
	for i := range s.Days {
		if s.Days[i].Timed() {
			return true
		}
	}
	return false
}
