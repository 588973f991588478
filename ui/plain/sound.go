package plain

import (
	"cmp"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
)

// In a terminal the engine sounds the calls, as it does under the screens; in a pipe nothing sounds, and Hush is nil.

// checks asks for the sound check of the day, once: at its first wait, or before the first lowering where that comes first. The engine
// sounds it within seconds.
func (t *Terminal) checks(v engine.View) {
	if c := v.Call(); t.Hush == nil || t.Mute || v.Looking || !day.AsksSound(v.State) || !runs(c, v.Now) && c.Act.Kind != day.ActEnter {
		return
	}
	t.once("sound", "Do you hear the calls? Four even notes come in a few seconds, and words where speech is on. E: I hear them. not heard: I do not; then nothing is taken as planned.")
}

// hears is what a line stands for: while the sound check was asked and the call wants nothing, yes and no answer that; what the big key
// says is what it does.
func (t *Terminal) hears(v engine.View, line string) string {
	if a := v.Call().Act; !a.Judging() && a.Step.Do != day.DoSpent { // y and n are letters of a judging
		line = cmp.Or(map[string]string{"y": "yes", "n": "no"}[strings.ToLower(line)], line)
	}
	if t.said["sound"] && day.AsksSound(v.State) && runs(v.Call(), v.Now) {
		switch strings.ToLower(line) {
		case "yes":
			return "heard"
		case "no":
			return "not heard"
		}
	}
	if c := v.Call(); line != "" && c.Caution == "" && strings.EqualFold(line, c.Press) { // what Enter does, in words
		return "done"
	}
	return line
}

// wakes keeps the machine awake while a time runs, and says once where it cannot.
func (t *Terminal) wakes(v engine.View) {
	if t.Awake == nil {
		return
	}
	if t.Awake.Keep(v.Timed()); t.Awake.Why() != "" {
		t.once("awake", cue.MaySleep)
	}
}
