// Command kill is the kill -9 test: it plays rehearsed days, kills the player at random moments and looks whether anything
// that had been said to be on disk is gone.
//
//	go run ./testdata/bench/kill [-kills 200] [-seed 1] [-speed 36000,max] PROGRAM
//
// After each kill: `book verify` must end well or with torn tails alone; every VAT/DAY#SEQ line that was printed, by this
// player or an earlier one in the same home, must be in `book --json`; no event seen there before may have changed or
// gone, and no seq may be missing or double; `now` must say something, the same twice. Then the same home is played on
// until its day is over, and a new home begins. It ends with 1 if anything was lost or a command failed; the home is then kept.
package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"time"

	"example.org/vatside/testdata/bench/internal/apart"
)

func main() {
	t := &test{}
	seed := flag.Uint64("seed", 1, "of the moments")
	speeds := flag.String("speed", "36000,max", "speeds of rehearsal, one a home in turn")
	flag.IntVar(&t.kills, "kills", 200, "kills to make")
	flag.DurationVar(&t.least, "least", 5*time.Millisecond, "shortest time from start to kill")
	flag.DurationVar(&t.most, "most", 400*time.Millisecond, "longest time from start to kill")
	flag.DurationVar(&t.mostMax, "mostmax", 80*time.Millisecond, "longest time from start to kill at speed max")
	flag.BoolVar(&t.verbose, "v", false, "tell of each kill")
	flag.Parse()
	if flag.NArg() != 1 || t.kills < 1 || t.least < 0 || t.most <= t.least || t.mostMax <= t.least {
		flag.Usage()
		os.Exit(2)
	}
	t.program = flag.Arg(0)
	t.rand = rand.New(rand.NewPCG(*seed, 0))
	t.speeds = strings.Split(*speeds, ",")
	err := t.all()
	t.table()
	if err != nil {
		fmt.Fprintln(os.Stderr, "kill:", err)
	}
	if err != nil || len(t.faults) > 0 {
		os.Exit(1)
	}
}

type test struct {
	program              string
	kills                int
	least, most, mostMax time.Duration
	speeds               []string
	verbose              bool
	rand                 *rand.Rand

	made, homes, days, torn, empty int // kills made, homes begun, days played to their end, torn tails, kills before any event
	printed, checked               int // lines printed before a kill; look-ups of a printed event in the book
	lost                           int
	reckoned                       int            // times that the step and what is left were reckoned from the book and compared with now
	nows                           map[string]int // what `now` said, without figures → how often
	faults                         []string
}

// A home is one book under test, with what is known to be in it.
type home struct {
	dir   string
	said  []string          // VAT/DAY#SEQ printed so far, in order
	known map[string]string // VAT/DAY#SEQ → kind and time, as the book had it after an earlier kill
}

// barren is how many homes in a row may end without a kill before the test gives up: the times do not fit the speed.
const barren = 100

func (t *test) all() error {
	t.nows = map[string]int{}
	for without := 0; t.made < t.kills; without++ {
		before := t.made
		if err := t.home(t.speeds[t.homes%len(t.speeds)]); err != nil {
			return err
		}
		if t.made > before {
			without = 0
		}
		if without >= barren {
			return fmt.Errorf("%d days in a row were over before they could be killed: give a lower -speed, -most or -mostmax", barren)
		}
	}
	return nil
}

// home plays one home until its day is over or the kills are made.
func (t *test) home(speed string) error {
	dir, err := os.MkdirTemp("", "vatside-kill-")
	if err != nil {
		return err
	}
	t.homes++
	h := &home{dir: dir, known: map[string]string{}}
	for over := false; !over && t.made < t.kills && err == nil && len(t.faults) == 0; {
		over, err = t.play(h, speed)
		if err == nil {
			err = t.look(h)
		}
	}
	if err != nil || len(t.faults) > 0 {
		return errors.Join(err, fmt.Errorf("the home is kept: %s", dir))
	}
	return os.RemoveAll(dir)
}

// said is the beginning of a line that tells of an event on disk.
var said = regexp.MustCompile(`^(\S+/\S+#\d+)(\s|$)`)

// play starts a rehearsal and kills it at a random moment, unless the day is over first.
func (t *test) play(h *home, speed string) (over bool, err error) {
	most := t.most
	if speed == "max" {
		most = t.mostMax
	}
	moment := t.least + time.Duration(t.rand.Int64N(int64(most-t.least)))
	cmd := exec.Command(t.program, "rehearse", "--plain", "--speed", speed, "--home", h.dir)
	cmd.Env = apart.Env(os.TempDir(), apart.Zone)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Start(); err != nil {
		return false, err
	}
	ended := make(chan error, 1)
	go func() { ended <- cmd.Wait() }()
	select {
	case err = <-ended:
		if err != nil {
			return false, fmt.Errorf("rehearse in %s: %w\n%s", h.dir, err, errs.Bytes())
		}
		over = true
		t.days++
	case <-time.After(moment):
		cmd.Process.Kill()
		err = <-ended
		if err == nil { // the day was over in the same moment
			over = true
			t.days++
			break
		}
		if errs.Len() > 0 {
			return false, fmt.Errorf("rehearse in %s complained before it was killed:\n%s", h.dir, errs.Bytes())
		}
		t.made++
		if t.verbose {
			fmt.Printf("kill %d after %.1f ms, speed %s\n", t.made, float64(moment.Microseconds())/1000, speed)
		}
	}
	lines := 0
	for line := range strings.Lines(out.String()) {
		if !strings.HasSuffix(line, "\n") {
			continue // cut off by the kill
		}
		if m := said.FindStringSubmatch(line); m != nil {
			h.said = append(h.said, m[1])
			lines++
		}
	}
	t.printed += lines
	if !over && len(h.said) == 0 {
		t.empty++
	}
	if over && len(h.said) == 0 {
		return over, fmt.Errorf("a whole rehearsed day printed no line that begins with VAT/DAY#SEQ:\n%s", out.Bytes())
	}
	return over, nil
}

// look asks the program what it finds after a kill.
func (t *test) look(h *home) error {
	text, code, err := t.ask("book", "verify", "--json", "--home", h.dir)
	if err != nil {
		return err
	}
	var verify struct {
		Findings []struct {
			File, What string
			Line       int
			Whole      bool
		}
	}
	if err := json.NewDecoder(strings.NewReader(text)).Decode(&verify); err != nil {
		t.fault("book verify --json ended with %d: %v in %q", code, err, text)
	}
	torn := 0
	for _, f := range verify.Findings {
		if strings.Contains(f.What, "torn") || strings.Contains(f.What, "ends inside its head") {
			torn++
		} else if !f.Whole {
			t.fault("book verify ended with %d and told more than torn tails: %s:%d: %s", code, f.File, f.Line, f.What)
		}
	}
	if code != 0 && torn == 0 {
		t.fault("book verify ended with %d: %q", code, text)
	}
	t.torn += torn
	if err := t.book(h); err != nil {
		return err
	}
	now, code, err := t.ask("now", "--home", h.dir)
	if err != nil {
		return err
	}
	again, _, err := t.ask("now", "--home", h.dir)
	if err != nil {
		return err
	}
	switch {
	case code != 0:
		t.fault("now ended with %d: %q", code, now)
	case strings.TrimSpace(now) == "":
		t.fault("now said nothing")
	case now != again:
		t.fault("now said %q and then %q, though nobody plays the day", now, again)
	}
	t.nows[figures.ReplaceAllString(strings.TrimSpace(now), "0")]++
	if t.verbose {
		fmt.Printf("    %d events said; now: %s", len(h.said), now)
	}
	return nil
}

// figures are made equal to count what `now` says by its kind.
var figures = regexp.MustCompile(`\d+`)

// book compares the book with what was printed and with what it held before.
func (t *test) book(h *home) error {
	text, code, err := t.ask("book", "--json", "--home", h.dir)
	if err != nil {
		return err
	}
	var events []event
	if err := json.Unmarshal([]byte(text), &events); err != nil || code != 0 {
		t.fault("book --json ended with %d: %v", code, err)
		return nil
	}
	have, last := map[string]string{}, map[string]int{}
	for _, e := range events {
		day := e.Vat + "/" + e.Day
		id := fmt.Sprintf("%s#%d", day, e.Seq)
		if _, twice := have[id]; twice {
			t.fault("%s is twice in the book", id)
		}
		if before, begun := last[day]; begun && e.Seq != before+1 {
			t.fault("in %s, %d follows %d", day, e.Seq, before)
		}
		have[id], last[day] = e.Kind+" "+e.At.Format(time.RFC3339), e.Seq
	}
	for _, id := range h.said {
		t.checked++
		if _, ok := have[id]; !ok {
			t.lost++
			t.fault("%s was printed and is not in the book", id)
		}
	}
	for id, was := range h.known {
		if is, ok := have[id]; !ok {
			t.lost++
			t.fault("%s was in the book after an earlier kill and is gone", id)
		} else if is != was {
			t.fault("%s was %q and is now %q", id, was, is)
		}
	}
	h.known = have
	now, _, err := t.ask("now", "--json", "--home", h.dir)
	if err != nil {
		return err
	}
	t.reckoned++
	if err := checkNow(now, events); err != nil {
		t.fault("%v", err)
	}
	return nil
}

// ask runs one of the commands that change nothing.
func (t *test) ask(args ...string) (out string, code int, err error) {
	cmd := exec.Command(t.program, args...)
	cmd.Env = apart.Env(os.TempDir(), apart.Zone)
	var both, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &both, &errs
	err = cmd.Run()
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.Exited() {
		err = nil
		both.Write(errs.Bytes())
	}
	if err != nil {
		return "", 0, fmt.Errorf("%s %s: %w", filepath.Base(t.program), strings.Join(args, " "), err)
	}
	return both.String(), cmd.ProcessState.ExitCode(), nil
}

func (t *test) fault(format string, args ...any) {
	t.faults = append(t.faults, fmt.Sprintf(format, args...))
}

func (t *test) table() {
	for _, row := range []struct {
		what string
		n    int
	}{
		{"kills", t.made},
		{"  before the first event was printed", t.empty},
		{"homes", t.homes},
		{"days played to their end", t.days},
		{"events printed", t.printed},
		{"events checked against the book", t.checked},
		{"times `now` was reckoned from the book", t.reckoned},
		{"torn tails told", t.torn},
		{"different things that `now` said", len(t.nows)},
		{"faults", len(t.faults)},
		{"events lost", t.lost},
	} {
		fmt.Printf("%-40s %7d\n", row.what, row.n)
	}
	for _, f := range t.faults[:min(len(t.faults), 20)] {
		fmt.Println("fault:", f)
	}
}
