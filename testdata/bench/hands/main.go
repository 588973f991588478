// Command hands dyes a whole day in real time, in a real terminal, with next to no hands: with no key after the first lowering, with
// PageDown alone, as a presenter's remote sends it, or with a mouse alone that clicks on the call. It prints each call as it came,
// each press, and at the end what was assumed. A day takes about an hour and a half; the ways run beside each other.
//
//	go run ./testdata/bench/hands [-way none,entries,page,mouse] [-for 2h]
package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"example.org/vatside/model/wording"
	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/testdata/bench/internal/tty"
)

// A way is how somebody answers the calls.
type way struct {
	name    string
	keys    string // of one press
	begins  bool   // it presses until the first piece is in, and then no more
	entries bool   // the setting: a piece may go in by itself
}

var ways = []way{
	{name: "none", keys: "\r", begins: true},
	{name: "entries", keys: "\r", begins: true, entries: true},
	{name: "page", keys: "\x1b[6~"},
	{name: "mouse", keys: "\x1b[<0;20;6M\x1b[<0;20;6m"},
}

func main() {
	names := wording.Each(ways, func(w way) string { return w.name })
	chosen := flag.String("way", strings.Join(names, ","), "which of them")
	most := flag.Duration("for", 2*time.Hour, "the longest a day may take")
	flag.Parse()
	apart.Run("hands", func() bool { return run(strings.Split(*chosen, ","), *most) })
}

func run(chosen []string, most time.Duration) (bad bool) {
	work, done := apart.Folder("vatside-hands-", os.RemoveAll)
	defer done()
	program := apart.Got(apart.Build(filepath.Join(work, "vatside"), "example.org/vatside"))
	var all []*seat
	for _, name := range chosen {
		i := slices.IndexFunc(ways, func(w way) bool { return w.name == name })
		if i < 0 {
			apart.Must(fmt.Errorf("%q is no way: none, entries, page or mouse", name))
		}
		s := &seat{way: ways[i], program: program, dir: filepath.Join(work, name)}
		s.prepares()
		all = append(all, s)
	}
	var wait sync.WaitGroup
	for _, s := range all {
		wait.Go(func() { s.dyes(time.Now().Add(most)) })
	}
	wait.Wait()
	for _, s := range all {
		s.tells()
		if !s.done {
			fmt.Fprintf(os.Stderr, "hands: %s did not come to the end of its day\n", s.name)
			bad = true
		}
	}
	return bad
}

// A seat is somebody before a program in a home of their own.
type seat struct {
	way
	program, dir string
	*tty.Session

	presses int
	heard   bool // by its key
	done    bool
}

// prepares makes a home with a vat that is ready, and two pieces that are wet: A1 of three dips, B1 of two.
func (s *seat) prepares() {
	// A player and a voice that always succeed, and keep nothing awake: what is heard is the heard bench's to say.
	for name, does := range map[string]string{"aplay": "exit 0", "espeak-ng": "exit 0", "systemd-inhibit": "exec cat"} {
		apart.Tool(filepath.Join(s.dir, "tools"), name, does)
	}
	apart.Write(filepath.Join(s.dir, "home", "settings.toml"),
		fmt.Appendf(nil, "place = \"outdoors\"\nno_look = true\nentries = %t\n\n[sound]\nspeech = true\n", s.entries))
	apart.Got(s.command("begin", "crock", "--recipe", "soda", "--fill", "20L", "--built", "--vessel", "cylinder 30cm 40cm HDPE"))
	for _, words := range []string{
		"you alone", "36 C", "ph 10.8", "strip 40",
		"piece A1 linen 100 g 3 dips", "piece B1 linen 80 g 2 dips", "A1 scoured", "B1 scoured", "A1 soaks", "B1 soaks", "A1 wet", "B1 wet",
	} {
		apart.Got(s.command("say", "crock", words, "--answered"))
	}
}

// command runs the program beside the open one and gives what it printed.
func (s *seat) command(args ...string) ([]byte, error) {
	out, err := s.cmd(args...).Output()
	if failed := (*exec.ExitError)(nil); errors.As(err, &failed) {
		err = fmt.Errorf("%s: %s: %s", s.name, strings.Join(args, " "), failed.Stderr)
	}
	return out, err
}

func (s *seat) cmd(args ...string) *exec.Cmd {
	cmd := exec.Command(s.program, args...)
	cmd.Dir = s.dir
	cmd.Env = apart.Env(s.dir, apart.Zone, "VATSIDE_HOME="+filepath.Join(s.dir, "home"), "PATH="+filepath.Join(s.dir, "tools")+":"+os.Getenv("PATH"))
	return cmd
}

// A call is what the program says is to be done.
type call struct {
	ID, Verb, Short, Press string
	DueAt                  *time.Time `json:"due_at"`
}

func (c call) due(now time.Time) bool { return c.DueAt == nil || !c.DueAt.After(now) }

// now is the call, and the day's line.
func (s *seat) now() (c *call, line string) {
	out, err := s.command("now", "--json")
	if err != nil {
		s.say("now failed: %v", err)
		return nil, ""
	}
	var told struct {
		Days []struct{ Line string }
		Call *call
	}
	if err := json.Unmarshal(out, &told); err != nil {
		s.say("now --json is not JSON: %v", err)
		return nil, ""
	}
	if len(told.Days) > 0 {
		line = told.Days[0].Line
	}
	return told.Call, line
}

func (s *seat) say(format string, args ...any) {
	fmt.Printf("%s %-8s %s\n", time.Now().Format(time.TimeOnly), s.name, fmt.Sprintf(format, args...))
}

const (
	look   = 3 * time.Second  // how often the dyer looks up
	again  = 20 * time.Second // how long one waits before the same call is answered again
	stands = 15 * time.Minute // a due call that is not answered for so long is where a day without hands stops
	dips   = 5                // of both pieces
	strip  = 45 * time.Second // how long a strip out of this vat stays yellow
)

// dyes sits through the day until it is done, or until the time is over.
func (s *seat) dyes(until time.Time) {
	s.Session = apart.Got(tty.StartIn(s.cmd(), 80, 24, tty.Manner{Answers: tty.Xterm}))
	defer s.Kill()
	s.Await(5*time.Second, func() bool { return strings.Contains(s.Text(), "vatside") })
	var last string
	var since, pressed time.Time
	for ; time.Now().Before(until); time.Sleep(look) {
		if _, over := s.Ended(0); over {
			s.say("the program ended")
			return
		}
		c, line := s.now()
		if c == nil {
			s.say("no call is open: %s", line)
			s.done = true
			return
		}
		if at := c.ID + c.Press; at != last {
			s.say("%-16s %-10s %s", c.Short, c.Press, line)
			last, since, pressed = at, time.Now(), time.Time{}
		}
		book := s.book()
		if strings.Count(book, `kind = "airing ended"`) == dips {
			s.say("every piece has its dips and has aired: %s", line)
			s.done = true
			return
		}
		if s.begins && strings.Contains(book, `kind = "dip begun"`) {
			if c.due(time.Now()) && time.Since(since) > stands {
				s.say("here it stands: %s", line)
				s.done = true
				return
			}
			continue
		}
		if c.Short == "BLUE YET?" && time.Since(since) < strip {
			continue
		}
		if s.begins && c.Verb == "lower" && !s.heard {
			s.say("    E: the calls are heard")
			s.Type("E")
			s.heard = true
			continue
		}
		if (c.due(time.Now()) || c.Press == "I hear the calls") && time.Since(pressed) > again {
			s.presses++
			s.say("    press at %s", c.Short)
			s.Type(s.keys)
			pressed = time.Now()
		}
	}
	s.say("the time is over; on the screen:\n%s", s.Text())
}

// book is the text of its days.
func (s *seat) book() string { return apart.Written(filepath.Join(s.dir, "home")) }

// tells prints what became of the day: its presses, its acts, and which of them were assumed.
func (s *seat) tells() {
	fmt.Printf("\n%s: %d presses, done %t\n", s.name, s.presses, s.done)
	var events []struct {
		At, Kind, Tag string
		Assumed       bool
	}
	apart.Must(json.Unmarshal(apart.Got(s.command("book", "crock", "--json")), &events))
	for _, e := range events {
		if strings.HasPrefix(e.Kind, "dip") || strings.HasPrefix(e.Kind, "airing") || e.Assumed {
			fmt.Printf("  %s %-14s %-3s %s\n", e.At, e.Kind, e.Tag, map[bool]string{true: "assumed"}[e.Assumed])
		}
	}
}
