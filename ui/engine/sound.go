package engine

import (
	"context"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/cue"
)

// hearAll takes what has become of calls by now.
func (e *Engine) hearAll() {
	for {
		select {
		case x := <-e.sounded:
			e.hear(x)
		default:
			return
		}
	}
}

// hear takes what became of a call. That none could be sounded is written down, once.
func (e *Engine) hear(x sounded) {
	s := e.session(x.id)
	if s == nil || s.writer == nil || s.state.Closed {
		return
	}
	switch {
	case x.Played:
		s.failed = ""
		if s.played == nil {
			s.played = map[dueKey]bool{}
		}
		for _, k := range x.keys {
			s.played[k] = true
		}
	case x.Why != "":
		if s.failed = x.Why; s.state.Sound.Failed == "" {
			s.happen(day.SoundFailed{Call: x.words.String(), Why: x.Why})
		}
	}
}

// sounds calls, and keeps what becomes of it. It waits for nobody: where the engine is far behind, a call counts as not played.
func (s *session) sounds(caller cue.Caller, c cue.Call, keys ...dueKey) {
	to, x := s.to, sounded{id: s.id, keys: keys, words: c.Words}
	c.Then = func(o cue.Outcome) {
		x.Outcome = o
		select {
		case to <- x:
		default:
		}
	}
	caller.Call(c)
}

// heard tells whether the call of a deadline counts as heard: the dyer heard the sound check of today, and the call was played. The
// clock of a rehearsal may run too fast for any player.
func (s *session) heard(d day.Due) bool {
	_, living := s.source.(*Living)
	return s.state.Sound.Heard && (!living || s.played[key(d)])
}

// unheard is the standing word of a call that could not be sounded, short enough for one row of a low window.
func (s *session) unheard() string {
	if s.failed == "" || s.state.Sound.Failed == "" || s.writer == nil {
		return ""
	}
	return "no sound (" + s.failed + "): look here"
}

// How often the sound check is sounded while nobody answers it, and how long after the time before.
const (
	mostChecks = 3
	checkAgain = 30 * time.Second
	afterAct   = 10 * time.Second // what is said of an act comes before it
)

// troubleAgain is after how long a standing trouble is called again.
const troubleAgain = time.Minute

// around sounds what is no deadline: the sound check, that all pieces are done, a trouble with the disk.
func (s *session) around(caller cue.Caller, now time.Time) {
	mono := s.mono()
	switch trouble := s.trouble; {
	case trouble == "":
		s.troubles = 0
	case s.troubles == 0 || mono-s.troubled >= troubleAgain:
		s.troubles++
		s.troubled = mono
		caller.Call(cue.Call{Cue: cue.Trouble, Words: s.said([]string{"trouble: what you did is not on disk"}, "")})
		return
	}
	live := s.state.LiveAny()
	if s.live && !live && slices.ContainsFunc(s.state.Pieces, func(p day.Piece) bool { return p.Phase == day.FinishedPiece }) {
		caller.Call(cue.Call{Cue: cue.Done, Words: s.said([]string{"all done, day open"}, "")})
	}
	s.live = live
	prompt := s.state.SoundPrompt(s.at(now).call)
	if prompt != s.prompt { // it is answered in another way now
		s.prompt, s.checks = prompt, 0
	}
	if _, silent := caller.(cue.Silent); silent || s.checks >= mostChecks || now.Sub(s.state.At) < afterAct || s.checks > 0 && mono-s.checked < checkAgain || s.soonDue(now) || !day.AsksSound(s.state) {
		return
	}
	s.checks++
	s.checked = mono
	s.sounds(caller, cue.Call{Cue: cue.Check, Words: s.said([]string{prompt}, "")})
}

// says says what the hands are asked for once an act has changed it; what was taken as planned before it.
func (s *session) says(caller cue.Caller, now time.Time, called bool) {
	c, n := s.at(now).call, len(s.state.Log)
	id := c.ID
	if c.Act.Kind == day.ActStep { // a reading changes how much hot water is still to come
		id += " " + c.Amount(s.state, now)
	}
	changed, happened := id != s.spoken, n > s.events
	from := s.events
	s.spoken, s.events = id, n
	if !happened {
		return
	}
	aside, _ := c.Aside(s.state, now)
	other := aside.ID != "" && aside.ID != s.aside
	s.aside = aside.ID
	switch {
	case called || c.Act.Kind == day.ActIdle || c.Act.Kind == day.ActClosed || !changed && !other:
		return
	case !changed:
		caller.Call(cue.Call{Cue: cue.Next, Words: s.said([]string{c.Besides(s.state, now)}, "")})
		return
	}
	var out, in, hung []string
	for _, e := range s.state.Log[from:] {
		switch b := e.Body.(type) {
		case day.DipEnded:
			if b.Assumed && from > 0 {
				out = append(out, b.Tag)
			}
			if p, _ := s.state.Piece(b.Tag); p.Dips == 1 && from > 0 {
				hung = append(hung, b.Tag)
			}
		case day.DipBegun:
			if b.Assumed && from > 0 {
				in = append(in, b.Tag)
			}
		}
	}
	pegs := s.state.Pegs(hung)
	said := wording.Filled(
		wording.If(len(out) > 0, strings.Join(out, ", ")+" taken as out"),
		wording.If(len(in) > 0, strings.Join(in, ", ")+" taken as in"),
		wording.If(pegs != "", strings.Join(hung, ", ")+" to "+pegs))
	caller.Call(cue.Call{Cue: cue.Next, Words: s.said(append(said, c.Said(s.state, now)), "; ")})
}

// soonDue tells whether the hands are wanted for anything but a piece that is to go in, or a deadline calls within moments or has
// just called: the sound check would cover it.
func (s *session) soonDue(now time.Time) bool {
	switch c := s.at(now).call; {
	case c.Due == nil && c.Act.Kind != day.ActEnter, c.Due != nil && !now.Before(c.Due.At):
		return true
	}
	return slices.ContainsFunc(s.dues(), func(d day.Due) bool { return d.At.Sub(now).Abs() < 15*time.Second })
}

// Hush has the call of a day not sounded again until it is another one. What sounds now is the player's to end.
func (e *Engine) Hush(ctx context.Context, id string) error {
	return e.ask(ctx, func() {
		s := e.session(id)
		if s == nil {
			return
		}
		now := s.now()
		call := s.at(now).call
		for _, d := range s.dues() {
			if !now.Before(d.At) && call.Of(d) {
				s.called[key(d)] = hushed
			}
		}
	})
}

// hushed is more calls than any deadline has.
const hushed = 1 << 30

// said is what is spoken, after the vat's name where several days are written.
func (s *session) said(words []string, between string) wording.Shown {
	text := strings.Join(words, between)
	if s.several {
		name := s.state.Head.Setup.Name
		if name == "" {
			name, _, _ = strings.Cut(s.id, "/")
		}
		text = name + ": " + text
	}
	return wording.Show(text)
}

// dueKey names a deadline, to the second, and which of its calls is meant.
type dueKey struct {
	timer, call string
	at          int64 // Unix
}

func key(d day.Due) dueKey { return dueKey{d.Timer, "", d.At.Unix()} }
