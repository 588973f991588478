package cue

import (
	"context"
	"io"
	"os/exec"
	"sync"
	"time"

	"example.org/vatside/ui/guard"
)

// Time limits: the longest wave is under six seconds. PowerShell takes a second or two to start.
const (
	toneLimit  = 12 * time.Second
	closeLimit = 500 * time.Millisecond // how long Close waits for a stuck disk or terminal
)

// wordsLimit is how long words may take to be said: a slow voice takes 0.08 s a letter (from memory), and the longest caution has 230.
func wordsLimit(words string) time.Duration {
	return 8*time.Second + time.Duration(len(words))*100*time.Millisecond
}

// Settings are what may be heard. The zero Settings are silence.
type Settings struct {
	Bell   bool // the terminal's own bell
	Tone   bool // the synthesised sound
	Speech bool // spoken words
}

// A Store keeps sounds as files for the players, which take nothing else. Sound returns the path of a file that holds exactly data, written
// now or found so (a later version of the program may sound another way under the same name). It is called from the player's own goroutine,
// one call at a time.
type Store interface {
	Sound(name string, data []byte) (path string, err error)
}

// A Player is the Caller that is heard. Make it with New.
type Player struct {
	store Store
	look  finder
	bell  bell

	mu      sync.Mutex
	set     Settings
	mute    bool               // no words are spoken
	wanted  *Call              // the newest call not yet begun
	later   *Call              // what waits until the call that sounds is over
	calling bool               // what sounds, or is about to, is a call and no press
	nexting bool               // and it is a Next: a press that was not taken may cover it
	cut     context.CancelFunc // ends what sounds now
	working chan struct{}      // closed when the goroutine at work is done; nil when there is none
	closed  bool

	// Used only by the goroutine at work, of which there is one at a time.
	searched bool // the PATH is looked through at the first need, not at the start of the program
	tones    []program
	voices   []program
	paths    map[string]string // sound name → file
}

// Means names the programs that would sound a tone and speak; empty for none.
func (p *Player) Means() (tone, speech string) {
	if have := found(players, p.look); len(have) > 0 {
		tone = have[0].name
	}
	if have := found(speakers, p.look); len(have) > 0 {
		speech = have[0].name
	}
	return tone, speech
}

// New makes a Player. The terminal is where the bell rings and the title stands (the very file that the screen writes to);
// nil for none. A nil store means no tones.
func New(set Settings, store Store, terminal io.Writer) *Player {
	p := &Player{store: store, look: exec.LookPath, set: set, paths: map[string]string{}}
	p.bell.to = terminal
	return p
}

// Call sounds c and returns without waiting: at once, cutting off what sounds now; but what presses less, Soon, In and Next, comes
// after a call that sounds.
func (p *Player) Call(c Call) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.closed {
		return
	}
	sounds := p.set.Tone || p.set.Speech
	if p.set.Bell && c.Cue != Next {
		p.bell.ring()
	}
	switch less := c.Cue == Soon || c.Cue == In; {
	case (c.Cue == Next || less && !p.nexting) && p.calling && sounds:
		p.later = &c
		return
	case c.Cue == Next && sounds:
		p.calling, p.nexting = true, true
		p.begin(c)
		return
	case c.Cue == Next:
		return
	}
	p.nexting = false
	if p.later != nil && p.later.Cue == Next { // it is of what was before
		p.later = nil
	}
	if !sounds {
		if c.Then != nil {
			rung := Outcome{Played: p.set.Bell && p.bell.to != nil} // the bell is all that was chosen
			guard.Go("told", func() { c.told(rung) })
		}
		return
	}
	p.calling = true
	p.begin(c)
}

// Press sounds what became of a press, Taken, NotTaken or Ask, and returns without waiting. It never covers a call: while one sounds
// it is silent. The bell rings only where there is no tone and there are no words to speak.
func (p *Player) Press(c Call) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch {
	case p.closed || p.calling && (!p.nexting || c.Cue == Taken):
	case p.set.Tone || p.set.Speech && speakable(c.Words) != "":
		p.begin(c)
	case p.set.Bell || p.set.Speech:
		p.bell.ring()
	}
}

// begin has c sound next, cutting off what sounds now.
func (p *Player) begin(c Call) {
	if p.cut != nil {
		p.cut()
	}
	p.wanted = &c
	if p.working == nil {
		p.working = make(chan struct{})
		done := p.working
		guard.Go("sound", func() { p.work(done) })
	}
}

// Set changes what may be heard from the next call on.
func (p *Player) Set(set Settings) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.set = set
}

// Wordless has no words spoken for as long as it is on; what is being said is cut off. Tones and the bell go on.
func (p *Player) Wordless(on bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if on && !p.mute && p.set.Speech && p.cut != nil {
		p.cut()
	}
	p.mute = on
}

// Hush ends what sounds now: the dyer has answered.
func (p *Player) Hush() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.wanted, p.later, p.calling, p.nexting = nil, nil, false, false
	if p.cut != nil {
		p.cut()
	}
}

// Close ends what sounds and returns within half a second or so. Later calls are silent.
func (p *Player) Close() {
	p.mu.Lock()
	p.closed = true
	p.wanted, p.later = nil, nil
	if p.cut != nil {
		p.cut()
	}
	working := p.working
	p.mu.Unlock()

	limit, cancel := context.WithTimeout(context.Background(), closeLimit)
	defer cancel()
	for _, done := range []<-chan struct{}{working, p.bell.idle()} {
		if done == nil {
			continue
		}
		select {
		case <-done:
		case <-limit.Done():
		}
	}
}

// work sounds calls until there are none.
func (p *Player) work(done chan struct{}) {
	defer close(done)
	for {
		p.mu.Lock()
		if p.wanted == nil && p.later != nil {
			p.nexting = p.later.Cue == Next
			p.wanted, p.later = p.later, nil
		}
		c, set := p.wanted, p.set
		if p.mute {
			set.Speech = false
		}
		p.wanted, p.cut = nil, nil
		if c == nil {
			p.working, p.calling, p.nexting = nil, false, false
			p.mu.Unlock()
			return
		}
		ctx, cancel := context.WithCancel(context.Background())
		p.cut = cancel
		p.mu.Unlock()
		c.told(p.sound(ctx, *c, set))
		cancel()
	}
}

// sound sounds one call: the tone first, since it turns the head, then the words. A bell that is rung for want of a player is no
// sound that was checked.
func (p *Player) sound(ctx context.Context, c Call, set Settings) Outcome {
	if !p.searched {
		p.tones, p.voices, p.searched = found(players, p.look), found(speakers, p.look), true
	}
	if !set.Tone && !set.Speech { // no words are to be spoken now
		return Outcome{}
	}
	heard := !set.Tone && speakable(c.Words) == "" // then nothing was asked for
	played := false
	if set.Tone {
		if path, ok := p.file(c); ok {
			if heard = p.try(ctx, &p.tones, path, toneLimit); !heard {
				delete(p.paths, fileName(c.Cue, c.Level)) // the file may be gone: have it made again next time
			}
			played = heard && ctx.Err() == nil
		}
	}
	if words := speakable(c.Words); set.Speech && words != "" && ctx.Err() == nil {
		heard = p.try(ctx, &p.voices, words, wordsLimit(words)) || heard
	}
	pressed := c.Cue == Next || c.Cue == Taken || c.Cue == NotTaken || c.Cue == Ask // for one the bell has not rung yet
	if !heard && (pressed || !set.Bell) && ctx.Err() == nil {
		p.bell.ring() // a plain bell is better than a call that nobody could hear
	}
	switch {
	case ctx.Err() != nil && !played: // another call took its place, or a key hushed it
		return Outcome{}
	case heard:
		return Outcome{Played: true}
	case len(p.tones)+len(p.voices) == 0:
		return Outcome{Why: "no player on this machine"}
	}
	return Outcome{Why: "no player could sound it"}
}

// file has the call's sound kept as a file.
func (p *Player) file(c Call) (path string, ok bool) {
	name := fileName(c.Cue, c.Level)
	if path, ok := p.paths[name]; ok {
		return path, true
	}
	if p.store == nil || len(p.tones) == 0 {
		return "", false
	}
	path, err := p.store.Sound(name, Wave(c.Cue, c.Level))
	if err != nil {
		return "", false // asked again at the next call: a full disk may have room by then
	}
	p.paths[name] = path
	return path, true
}

// try runs the programs on what until one ends well, and puts that one first: a player may be installed and yet have no
// server to play through. It tells whether one did, or was cut off by a newer call.
func (p *Player) try(ctx context.Context, list *[]program, what string, limit time.Duration) bool {
	for i, prog := range *list {
		err := prog.run(ctx, p.look, what, limit)
		if ctx.Err() != nil {
			return true
		}
		if err == nil {
			if i > 0 {
				order := append([]program{prog}, (*list)[:i]...)
				*list = append(order, (*list)[i+1:]...)
			}
			return true
		}
	}
	return false
}
