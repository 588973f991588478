package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/testdata/bench/days"
	"example.org/vatside/testdata/bench/emulator"
	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/testdata/bench/internal/tty"
)

// vat and zone are those of all the days; the invented day is moved to its date, so that the pictures are the same on every day.
const (
	vat  = "garden-bin"
	date = "2026-05-11"
	zone = "UTC"
)

// stock are the days that scenes stand in.
type stock struct {
	work, program string
	days          map[string]played
	homes         int
}

// played is a day and what it tells, an event a line with its number.
type played struct {
	name, told string
	text       []byte
}

// command is the program in a home.
func (v *stock) command(home string, args ...string) *exec.Cmd {
	cmd := exec.Command(v.program, append(args, "--home", home)...)
	cmd.Env, cmd.Dir = apart.Env(v.work, zone), v.work
	return cmd
}

// play builds the program, has it play the invented day, and takes the days of testdata/days that scenes stand in.
func play(work string) *stock {
	v := &stock{work: work, days: map[string]played{}}
	v.program = apart.Got(apart.Build(filepath.Join(work, "vatside"), "example.org/vatside"))
	v.rehearse()
	for _, name := range []string{firstDay, secondDay} {
		told := apart.Got(os.ReadFile(filepath.Join("testdata", "days", name+".txt")))
		d := days.Parse(apart.Day(name))
		d.Blocks[0] = zoneLine.ReplaceAll(d.Blocks[0], []byte("${0}rehearsed = true\n")) // the day then has its own clock
		d.Sign()
		v.days[name] = played{string(dayLine.FindSubmatch(d.Blocks[0])[1]), string(told), d.Text()}
	}
	return v
}

func (v *stock) rehearse() {
	home := filepath.Join(v.work, "played")
	told := apart.Got(apart.Said(v.command(home, "rehearse", "--plain", "--speed", "max")))
	d := days.Parse([]byte(apart.Written(home))) // one day was played
	last := apart.Got(d.Last()).UTC()
	on := apart.Got(time.Parse(time.DateOnly, date))
	name := apart.Got(d.EndAt(on.Add(last.Sub(last.Truncate(24 * time.Hour)))))
	v.days[inventedDay] = played{name, told, d.Text()}
}

var (
	number   = regexp.MustCompile(`#(\d+) `)
	zoneLine = regexp.MustCompile(`(?m)^zone = .*\n`)
	dayLine  = regexp.MustCompile(`(?m)^day = "(.*)"$`)
)

// upto is the day up to the first event of whose line words are a part.
func (p played) upto(words string) ([]byte, error) {
	for line := range strings.Lines(p.told) {
		n := number.FindStringSubmatch(line)
		if n == nil || !strings.Contains(line, words) {
			continue
		}
		d := days.Parse(p.text)
		seq, err := strconv.Atoi(n[1])
		if err != nil || seq >= len(d.Blocks) {
			return nil, fmt.Errorf("the day has no event %s", n[1])
		}
		return d.First(seq).Text(), nil
	}
	return nil, fmt.Errorf("%s has no event %q", p.name, words)
}

// home is a new home, in which the day stands as a scene has it.
func (v *stock) home(s scene, theme string) (string, error) {
	v.homes++
	home := filepath.Join(v.work, "home-"+strconv.Itoa(v.homes))
	put := func(day played, text []byte) { apart.Write(filepath.Join(home, "vats", vat, day.name+".toml"), text) }
	text, err := v.days[s.day].upto(s.until)
	if err != nil {
		return "", err
	}
	put(v.days[s.day], text)
	if first := v.days[firstDay]; s.day == secondDay {
		put(first, first.text)
	}
	apart.Write(filepath.Join(home, "settings.toml"),
		fmt.Appendf(nil, "theme = %q\n\n[sound]\nbell = false\ntone = false\nspeech = false\n", theme))
	for _, w := range s.says {
		if _, err := apart.Said(v.command(home, "say", vat, w.words, "--at", w.at)); err != nil {
			return "", err
		}
	}
	return home, nil
}

// patience is how long a screen may take on a busy machine; stillness, how long it must not change to be whole. The clock of the
// day goes on meanwhile, a second in a second.
const (
	patience  = 20 * time.Second
	stillness = 400 * time.Millisecond
)

// show leads the program to a scene and shows its screen.
func (v *stock) show(s scene, theme string, cols, rows int, look func(*emulator.Screen)) error {
	home, err := v.home(s, theme)
	if err != nil {
		return err
	}
	session := apart.Got(tty.StartIn(v.command(home, "rehearse", "--speed", "1"), cols, rows, tty.Manner{Answers: tty.Xterm}))
	defer session.Kill()
	for _, p := range append(s.keys[:len(s.keys):len(s.keys)], press{after: s.shows}) {
		if !session.Await(patience, func() bool { return strings.Contains(session.Text(), p.after) }) || !session.Still(patience, stillness, session.Text) {
			return fmt.Errorf("%q was not shown, but:\n%s", p.after, session.Text())
		}
		session.Type(p.keys)
	}
	session.See(look)
	return nil
}
