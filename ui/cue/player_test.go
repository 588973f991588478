package cue

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"example.org/vatside/model/wording"
)

// A yard is a machine with made-up programs on its PATH, each a small script that writes to a common log.
type yard struct {
	t    *testing.T
	dir  string
	have map[string]bool
}

func newYard(t *testing.T) *yard {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("the made-up programs are shell scripts")
	}
	return &yard{t, t.TempDir(), map[string]bool{}}
}

// program puts a script on the PATH; "$*" is what it was started with.
func (y *yard) program(name, script string) {
	y.t.Helper()
	text := fmt.Sprintf("#!/bin/sh\nLOG='%s'\n%s\n", filepath.Join(y.dir, "log"), script)
	if err := os.WriteFile(filepath.Join(y.dir, name), []byte(text), 0o755); err != nil {
		y.t.Fatal(err)
	}
	y.have[name] = true
}

func (y *yard) look(name string) (string, error) {
	if !y.have[name] {
		return "", errors.New("not here")
	}
	return filepath.Join(y.dir, name), nil
}

func (y *yard) log() string {
	b, _ := os.ReadFile(filepath.Join(y.dir, "log"))
	return string(b)
}

// until waits for something that another process or goroutine brings about.
func (y *yard) until(what string, ok func() bool) {
	y.t.Helper()
	for end := time.Now().Add(10 * time.Second); !ok(); time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			y.t.Fatalf("no %s; log:\n%s", what, y.log())
		}
	}
}

func (y *yard) logged(want string) {
	y.t.Helper()
	y.until(fmt.Sprintf("%q in the log", want), func() bool { return strings.Contains(y.log(), want) })
}

// rest waits until p sounds nothing.
func (y *yard) rest(p *Player) {
	y.t.Helper()
	y.until("rest", func() bool {
		p.mu.Lock()
		defer p.mu.Unlock()
		return p.working == nil
	})
}

func (y *yard) player(set Settings, store Store, term *screen) *Player {
	p := New(set, store, nil)
	if term != nil {
		p.bell.to = term
	}
	p.look = y.look
	y.t.Cleanup(p.Close)
	return p
}

// A shelf that keeps nothing but the names.
type labels struct {
	mu   sync.Mutex
	got  []string
	fail error
}

func (n *labels) Sound(name string, data []byte) (string, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.got = append(n.got, name)
	return "kept/" + name, n.fail
}

func (n *labels) asked() []string {
	n.mu.Lock()
	defer n.mu.Unlock()
	return append([]string(nil), n.got...)
}

// screen is a terminal that keeps what is written.
type screen struct {
	mu   sync.Mutex
	text strings.Builder
}

func (s *screen) Write(b []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.Write(b)
}

func (s *screen) shows() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.String()
}

const logs = `echo "$(basename "$0") $*" >>"$LOG"`

func TestFirstPlayerFoundIsUsed(t *testing.T) {
	y := newYard(t)
	y.program("aplay", logs)
	y.program("paplay", logs)
	y.program("espeak-ng", logs)
	store := &labels{}
	p := y.player(Settings{Tone: true, Speech: true}, store, nil)
	p.Call(Call{Cue: Out, Level: 2, Words: wording.Show("-- out: A1 [runner]\nnow")})
	y.logged("paplay kept/out-2.wav\nespeak-ng -v en out: A1  runner  now\n")
	p.Call(Call{Cue: Out, Level: 2})
	y.until("second tone", func() bool { return strings.Count(y.log(), "out-2.wav") == 2 })
	if got, want := store.asked(), []string{"out-2.wav"}; !reflect.DeepEqual(got, want) {
		t.Errorf("the shelf was asked for %v, want %v once", got, want)
	}
	if tone, speech := p.Means(); tone != "paplay" || speech != "espeak-ng" {
		t.Errorf("means are %q and %q", tone, speech)
	}
}

// A player that is installed and has no server fails: the next one is taken, and from then on first.
func TestFailingPlayerIsPassedOver(t *testing.T) {
	y := newYard(t)
	y.program("pw-play", logs+"; echo no server >&2; exit 1")
	y.program("aplay", logs)
	p := y.player(Settings{Tone: true}, &labels{}, nil)
	p.Call(Call{Cue: In})
	y.logged("aplay -q kept/in-0.wav")
	y.rest(p) // cut off, aplay would not have shown that it works
	p.Call(Call{Cue: Turn})
	y.logged("aplay -q kept/turn-0.wav")
	if got := strings.Count(y.log(), "pw-play"); got != 1 {
		t.Errorf("the failing player was tried %d times, want once", got)
	}
}

// The newest call wins, and ends the older one with all that it started.
func TestNewestWins(t *testing.T) {
	y := newYard(t)
	y.program("pw-play", logs+`
case $1 in *out*) sleep 3; echo survived >>"$LOG";; esac; echo "end $1" >>"$LOG"`)
	p := y.player(Settings{Tone: true}, &labels{}, nil)
	p.Call(Call{Cue: Out})
	y.logged("pw-play kept/out-0.wav")
	begun := time.Now()
	p.Call(Call{Cue: Turn})
	p.Call(Call{Cue: Ready})
	y.logged("end kept/ready-0.wav")
	if took := time.Since(begun); took > 2*time.Second {
		t.Errorf("the newest call had to wait %v", took)
	}
	if strings.Contains(y.log(), "survived") || strings.Contains(y.log(), "end kept/out") {
		t.Errorf("the older call went on:\n%s", y.log())
	}
}

func TestHushAndClose(t *testing.T) {
	for name, end := range map[string]func(*Player){"hush": (*Player).Hush, "close": (*Player).Close} {
		t.Run(name, func(t *testing.T) {
			y := newYard(t)
			y.program("pw-play", logs+`; sleep 20; echo survived >>"$LOG"`)
			p := y.player(Settings{Tone: true}, &labels{}, nil)
			p.Call(Call{Cue: Overdue})
			y.logged("overdue")
			end(p)
			y.rest(p)
			if strings.Contains(y.log(), "survived") {
				t.Error("the sound went on")
			}
		})
	}
}

// A call that nothing can sound still rings the bell once, though the bell is off.
func TestBellWhenNothingElseSounds(t *testing.T) {
	for name, c := range map[string]struct {
		set   Settings
		store Store
		with  string
		want  string
	}{
		"no player":       {Settings{Tone: true}, &labels{}, "", bel},
		"no shelf":        {Settings{Tone: true}, nil, logs, bel},
		"shelf is full":   {Settings{Tone: true}, &labels{fail: errors.New("no space")}, logs, bel},
		"player fails":    {Settings{Tone: true}, &labels{}, "exit 1", bel},
		"no speaker":      {Settings{Speech: true}, nil, "", bel},
		"bell only":       {Settings{Bell: true}, nil, "", bel},
		"bell, no player": {Settings{Bell: true, Tone: true}, &labels{}, "", bel},
		"it plays":        {Settings{Tone: true}, &labels{}, logs, ""},
		"all off":         {Settings{}, &labels{}, logs, ""},
	} {
		t.Run(name, func(t *testing.T) {
			y, term := newYard(t), &screen{}
			if c.with != "" {
				y.program("pw-play", c.with)
			}
			p := y.player(c.set, c.store, term)
			p.Call(Call{Cue: Ready, Words: wording.Show("ready")})
			y.rest(p)
			<-p.bell.idle()
			if got := term.shows(); got != c.want {
				t.Errorf("the terminal got %q, want %q", got, c.want)
			}
		})
	}
}

// stuck is a terminal that has stopped reading, until let go.
type stuck struct {
	screen
	free chan struct{}
}

func (s *stuck) Write(b []byte) (int, error) {
	<-s.free
	return s.screen.Write(b)
}

// A stalled terminal and a stalled disk hold up neither a call nor the end.
func TestNothingHoldsUpTheCaller(t *testing.T) {
	term := &stuck{free: make(chan struct{})}
	p := New(Settings{Bell: true, Tone: true}, slow(term.free), term)
	p.look = func(string) (string, error) { return "", nil } // there is a player, if only the file came
	begun := time.Now()
	for range 1000 {
		p.Call(Call{Cue: Out})
	}
	if took := time.Since(begun); took > time.Second {
		t.Errorf("1000 calls took %v", took)
	}
	begun = time.Now()
	p.Close()
	if took := time.Since(begun); took > closeLimit+time.Second {
		t.Errorf("closing took %v", took)
	}
	close(term.free)
	<-p.bell.idle()
	if bells := strings.Count(term.shows(), bel); bells > 10 {
		t.Errorf("%d bells burst out at once afterwards", bells)
	}
}

type slow chan struct{}

func (s slow) Sound(string, []byte) (string, error) {
	<-s
	return "", errors.New("too late")
}

// What a speaker is started with holds nothing that cannot be shown, and no sign that stands for such a thing.
func TestSpokenWordsAreClean(t *testing.T) {
	for in, want := range map[string]string{
		"-- out: A1 [runner]\nnow":                       "out: A1  runner  now",
		"Lift A1\x1b]52;c;aGFja2Vk\a\u009b31m\u202e out": "Lift A1  52;c;aGFja2Vk  31m  out",
		"\x1b\r\u2066": "",
	} {
		if got := speakable(wording.Show(in)); got != want {
			t.Errorf("%q is said as %q, not %q", in, got, want)
		}
	}
}

func TestRecorderAndSilent(t *testing.T) {
	var r Recorder
	calls := []Call{{Cue: Out, Level: 1, Words: wording.Show("out A1")}, {Cue: In}}
	for _, by := range []Caller{&r, Silent{}} {
		for _, c := range calls {
			by.Call(c)
		}
	}
	if got := r.Calls(); !reflect.DeepEqual(got, calls) {
		t.Errorf("recorded %v, want %v", got, calls)
	}
	if got := Cue(99).String(); got != "unknown cue" {
		t.Errorf("a cue that is none is called %q", got)
	}
}

// A press sounds, taken or not, but never over a call; a call cuts it off.
func TestAPressSounds(t *testing.T) {
	y := newYard(t)
	y.program("pw-play", logs+`; case $1 in *overdue*|*not-taken*) sleep 20;; esac`)
	p := y.player(Settings{Tone: true}, &labels{}, nil)
	p.Press(Call{Cue: Taken})
	y.logged("pw-play kept/taken-0.wav")
	y.rest(p)
	p.Press(Call{Cue: NotTaken})
	y.logged("pw-play kept/not-taken-0.wav")
	p.Call(Call{Cue: Overdue})
	y.logged("pw-play kept/overdue-0.wav")
	p.Press(Call{Cue: Taken})
	p.mu.Lock()
	if p.wanted != nil {
		t.Error("a press covers a call")
	}
	p.mu.Unlock()
	p.Hush()
	p.Press(Call{Cue: Taken})
	y.until("press after the call is answered", func() bool { return strings.Count(y.log(), "kept/taken-0.wav") == 2 })
	y.rest(p)
}

// Where no tone can sound the bell rings for a press, once.
func TestThePressRings(t *testing.T) {
	for name, c := range map[string]struct {
		set  Settings
		with string
		want string
	}{
		"bell only":             {Settings{Bell: true}, "", bel},
		"bell, no player":       {Settings{Bell: true, Tone: true}, "", bel},
		"bell, it plays":        {Settings{Bell: true, Tone: true}, logs, ""},
		"speech and no words":   {Settings{Speech: true}, logs, bel},
		"bell and a tone fails": {Settings{Bell: true, Tone: true}, "exit 1", bel},
		"all off":               {Settings{}, logs, ""},
	} {
		t.Run(name, func(t *testing.T) {
			y, term := newYard(t), &screen{}
			if c.with != "" {
				y.program("pw-play", c.with)
			}
			p := y.player(c.set, &labels{}, term)
			p.Press(Call{Cue: Taken})
			y.rest(p)
			<-p.bell.idle()
			if got := term.shows(); got != c.want {
				t.Errorf("the terminal got %q, want %q", got, c.want)
			}
		})
	}
}

// While no words are to be spoken a call has its tone alone, and what is being said is cut off; afterwards it speaks again.
func TestWordless(t *testing.T) {
	y := newYard(t)
	y.program("pw-play", logs)
	y.program("espeak-ng", logs+`; case "$*" in *long*) exec sleep 20;; esac`)
	p := y.player(Settings{Tone: true, Speech: true}, &labels{}, nil)
	p.Call(Call{Cue: In, Words: wording.Show("a long one")})
	y.logged("a long one")
	p.Wordless(true)
	y.rest(p)
	p.Call(Call{Cue: Out, Words: wording.Show("Lift A1 out")})
	y.logged("pw-play kept/out-0.wav")
	y.rest(p)
	if strings.Contains(y.log(), "Lift A1") {
		t.Errorf("it speaks:\n%s", y.log())
	}
	p.Wordless(false)
	p.Call(Call{Cue: Out, Words: wording.Show("Lift B1 out")})
	y.logged("Lift B1 out")
	y.rest(p)
}

// What became of a call is told: played where a player ended well, why not where none did; nothing of one that another call cut off.
func TestACallTellsWhetherItWasPlayed(t *testing.T) {
	play := func(y *yard, set Settings) Outcome {
		t.Helper()
		got := make(chan Outcome, 1)
		p := y.player(set, &labels{}, &screen{})
		p.Call(Call{Cue: Out, Words: wording.Show("A1 out"), Then: func(o Outcome) { got <- o }})
		select {
		case o := <-got:
			return o
		case <-time.After(10 * time.Second):
			t.Fatal("nothing is told")
			return Outcome{}
		}
	}
	tone, speech := Settings{Bell: true, Tone: true}, Settings{Speech: true}
	bare := newYard(t)
	if got := play(bare, tone); got != (Outcome{Why: "no player on this machine"}) {
		t.Errorf("without a player: %+v", got)
	}
	if got := play(bare, Settings{Bell: true}); got != (Outcome{Played: true}) {
		t.Errorf("the bell alone: %+v", got)
	}
	if got := play(bare, Settings{}); got != (Outcome{}) {
		t.Errorf("silence: %+v", got)
	}
	fails := newYard(t)
	fails.program("aplay", logs+"\nexit 1")
	fails.program("espeak-ng", logs+"\nexit 1")
	if got := play(fails, tone); got != (Outcome{Why: "no player could sound it"}) {
		t.Errorf("a player that fails: %+v", got)
	}
	if got := play(fails, speech); got.Played {
		t.Errorf("a voice that fails: %+v", got)
	}
	good := newYard(t)
	good.program("aplay", logs)
	good.program("espeak-ng", logs+"\nexit 1")
	if got := play(good, Settings{Tone: true, Speech: true}); got != (Outcome{Played: true}) {
		t.Errorf("the tone alone was played: %+v", got)
	}
	hangs := newYard(t)
	hangs.program("aplay", logs+"\nexec sleep 60")
	p, got := hangs.player(tone, &labels{}, nil), make(chan Outcome, 2)
	p.Call(Call{Cue: Out, Then: func(o Outcome) { got <- o }})
	hangs.logged("aplay")
	p.Call(Call{Cue: Ready})
	if o := <-got; o != (Outcome{}) {
		t.Errorf("one that was cut off: %+v", o)
	}
}

// What an act made the call never covers a call and rings no bell; a press that was not taken covers it.
func TestNextCoversNothing(t *testing.T) {
	y := newYard(t)
	y.program("aplay", logs+`
case "$*" in *out-0*|*next-0*) exec sleep 60 ;; esac`)
	term := &screen{}
	p := y.player(Settings{Bell: true, Tone: true}, &labels{}, term)
	p.Call(Call{Cue: Next})
	y.logged("next-0")
	p.Press(Call{Cue: Taken})
	p.Press(Call{Cue: NotTaken})
	y.logged("not-taken-0")
	y.rest(p)
	if got := y.log(); strings.Contains(got, "/taken-0") || term.shows() != "" {
		t.Errorf("it sounds\n%s and writes %q", got, term.shows())
	}
	p.Call(Call{Cue: Out})
	y.logged("out-0")
	before := y.log()
	p.Call(Call{Cue: Next})
	p.Press(Call{Cue: NotTaken})
	if got := y.log(); got != before {
		t.Errorf("over a call sounds\n%s", got)
	}
}

// What presses less than the call that sounds comes after it, cut off by nothing; a key hushes both.
func TestWhatPressesLessComesAfterTheCall(t *testing.T) {
	y := newYard(t)
	y.program("aplay", logs+`
case "$*" in *overdue*) until [ -e "$LOG.go" ]; do sleep 0.01; done; echo ends >>"$LOG" ;; esac`)
	p := y.player(Settings{Tone: true}, &labels{}, nil)
	for _, less := range []Cue{Soon, In, Next} {
		p.Call(Call{Cue: Overdue})
		y.logged("overdue-0")
		p.Call(Call{Cue: less})
		if err := os.WriteFile(filepath.Join(y.dir, "log.go"), nil, 0o644); err != nil {
			t.Fatal(err)
		}
		y.logged(less.String() + "-0")
		y.rest(p)
		got := y.log()
		if ends, after := strings.Index(got, "ends"), strings.LastIndex(got, less.String()+"-0"); ends < 0 || after < ends {
			t.Errorf("%s cut the call off:\n%s", less, got)
		}
		_ = os.Remove(filepath.Join(y.dir, "log.go"))
		_ = os.Remove(filepath.Join(y.dir, "log"))
	}
	p.Call(Call{Cue: Overdue})
	y.logged("overdue-0")
	p.Call(Call{Cue: Soon})
	p.Hush()
	y.rest(p)
	if got := y.log(); strings.Contains(got, "soon-0") {
		t.Errorf("after a key sounds\n%s", got)
	}
}

// The longest caution is said to its end by a slow voice, 15 letters a second and 4 s to begin.
func TestACautionIsSaidToItsEnd(t *testing.T) {
	for _, words := range []string{"A1 out", strings.Repeat("caution ", 30)} {
		if needs := 4*time.Second + time.Duration(len(words))*time.Second/15; wordsLimit(words) < needs {
			t.Errorf("%d letters are cut off after %s, and take %s", len(words), wordsLimit(words), needs)
		}
	}
}

// Units behind figures are spoken in full.
func TestUnitsAreSpokenInFull(t *testing.T) {
	for words, want := range map[string]string{
		"A1 is in, 8 min; meanwhile: B1 in": "A1 is in, 8 minutes; meanwhile: B1 in", "Weigh it, 36.0 g more": "Weigh it, 36.0 grams more",
		"airs, 59 s": "airs, 59 seconds", "1 min": "1 minute", "Read the °C first, under 50 °C": "Read the temperature first, under 50 degrees", "38 °C when stirred": "38 degrees when stirred", "g of A1 s": "g of A1 s", "rest 1 h 10 min.": "rest 1 hour 10 minutes.",
	} {
		if got := speakable(wording.Show(words)); got != want {
			t.Errorf("%q is spoken %q", words, got)
		}
	}
}
