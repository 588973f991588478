// Command budgets prints what a year of dyeing and a long day cost vatside, beside the budget of each.
//
//	go run ./testdata/bench/budgets [-n 5] [-growth]
//
// The bare start of the program, vatside --version, is the unit of the commands: their processor times, which other work on the machine
// changes little, are told in milliseconds and in so many bare starts. Commands run on homes of 20 vats and 1,000, 10,000 and 100,000
// events: how much longer ten times the work takes is told of each tenfold, "flat" or "linear" with its factor; and on a home of one vat
// with 80,000 events. Cold is without an index in the cache folder, warm with what the cold run left there; the budgets are for warm,
// that of memory for both. Which files a start opens is told where strace is. What the program reckons is measured by the benchmarks of
// its packages, on the wall, and at 1, 10 and 100 times the work by the processor time that it takes; -growth does that alone. Ten hours
// are those of TestTenHours; a real hour is terminal's -hour. Above its budget a figure is marked by "!"; the program ends with 1 only
// where something could not be measured.
package main

import (
	"errors"
	"flag"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"time"

	"example.org/vatside/model/wording"
	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/testdata/bench/internal/tty"
	"example.org/vatside/testdata/bench/words"
)

// command is one of the program's, on a home.
type command struct {
	what string
	args []string
	most float64 // ms on the largest home, warm; 0: no budget
}

var commands = []command{
	{"what the vats are due (now)", []string{"now"}, 40},
	{"one history (book vat-0)", []string{"book", "vat-0"}, 40},
	{"care", []string{"care"}, 150},
	{"like, over all pieces", []string{"like", "--lab", "31,-3,-20"}, 50},
	{"book verify", []string{"book", "verify"}, 1000},
	{"book --json", []string{"book", "--json"}, 0},
}

// mostMemory is what any of them may take, in MB.
const mostMemory = 30

// sizes are the homes: vats, days a vat, events a day. The last is of one vat.
var sizes = [][3]int{{20, 5, 10}, {20, 5, 100}, {20, 50, 100}, {1, 800, 100}}

// benchmark is one of a package's.
type benchmark struct {
	what, pkg, name string  // name: as go test prints it, without "Benchmark" and the number of processors
	most            float64 // µs
}

var benchmarks = []benchmark{
	{"list of a home of 20 vats, 1,000 days, 100,000 events", "./ui", "Home/list", 15e3},
	{"what its vats are due, first", "./ui", "Home/care", 40e3},
	{"what its vats are due, again", "./ui", "Home/care_again", 40e3},
	{"one history, on the screens", "./ui", "Home/past", 40e3},
	{"pH solve, soda", "./model/liquor", "PH/soda", 2},
	{"pH solve, everything at once", "./model/liquor", "PH/all", 2},
	{"outlook of a day of 12 dips", "./model/outlook", "Of", 400},
	{"dips plan", "./model/shade", "Dips16", 1500},
	{"weights, 6 looks", "./model/shade", "Seen/6", 1000},
	{"cooling of 12 h, open", "./model/water", "Forecast12h/open", 100},
	{"cooling of 12 h, lidded and wrapped", "./model/water", "Forecast12h/lid_wrapped", 100},
	{"bare write and fsync", "./ui/engine", "BareSync", 0},
	{"an event from key to disk", "./ui/engine", "Event/after_0", 0}, // bare + 300
	{"the same on a day of 6,400 events", "./ui/engine", "Event/after_6400", 0},
}

// mostSize is that of the program, stripped, in MB.
const mostSize = 15

type bench struct {
	runs          int
	work, program string
	failed        bool
}

func main() {
	b := &bench{}
	flag.IntVar(&b.runs, "n", 5, "runs of each command")
	alone := flag.Bool("growth", false, "only how what is reckoned grows with the work")
	flag.Parse()
	if *alone {
		growth()
		return
	}
	if b.runs < 1 {
		fmt.Fprintln(os.Stderr, "budgets: -n is at least 1")
		os.Exit(2)
	}
	apart.Run("budgets", b.run)
}

func (b *bench) run() bool {
	work, done := apart.Folder("vatside-budgets-", os.RemoveAll)
	defer done()
	b.work = work
	b.program = apart.Got(apart.Build(filepath.Join(work, "vatside"), "example.org/vatside", "-ldflags", "-s -w"))
	is := apart.Got(os.Stat(b.program))
	size := float64(is.Size()) / 1e6
	fmt.Printf("%-56s %12s %12s\n", "", "measured", "at most")
	fmt.Printf("%-56s %s%9.1f MB %9d MB\n", "the program, stripped", over(size, mostSize), size, mostSize)
	for _, part := range []func(){b.commands, b.opened, b.benchmarks, b.soak, growth} {
		apart.Try(part)
	}
	return b.failed
}

// miss tells what could not be measured, and ends its try.
func (b *bench) miss(format string, args ...any) {
	fmt.Fprintf(os.Stderr, "budgets: "+format+"\n", args...)
	b.failed = true
	apart.Stop()
}

// over marks what is above its budget.
func over(is, most float64) string {
	return wording.Either(most > 0 && is > most, "!", " ")
}

// budget is one in words.
func budget(most float64, unit string) string {
	return wording.Either(most == 0, "–", fmt.Sprintf("%.0f %s", most, unit))
}

// once runs the program: the processor time that it took, and the most memory that it had in MB.
func (b *bench) once(home string, c command) (ms, memory float64) {
	cmd := exec.Command(b.program, c.args...)
	cmd.Env = apart.Env(filepath.Join(b.work, "state"), apart.Zone, "VATSIDE_HOME="+home)
	var said strings.Builder
	cmd.Stderr = &said
	if err := cmd.Run(); err != nil {
		b.miss("%s: %v: %s", c.what, err, said.String())
	}
	if u, is := cmd.ProcessState.SysUsage().(*syscall.Rusage); is {
		memory = float64(u.Maxrss) / 1024 // from KiB
	}
	return processed(cmd), memory
}

// processed is the processor time that a program took which has ended, in ms.
func processed(cmd *exec.Cmd) float64 {
	return float64((cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()).Microseconds()) / 1000
}

// commands measures the program's commands: cold, with nothing kept, and the middle of the warm runs after it.
func (b *bench) commands() {
	var homes []string
	for i, s := range sizes {
		homes = append(homes, home(filepath.Join(b.work, fmt.Sprint("home-", i)), s[0], s[1], s[2]))
	}
	measure := func(home string, c command) (cold, middle, memory float64) {
		apart.Must(os.RemoveAll(filepath.Join(b.work, "state", "vatside", "index")))
		cold, memory = b.once(home, c)
		var all []float64
		for range b.runs {
			ms, mb := b.once(home, c)
			all, memory = append(all, ms), max(memory, mb)
		}
		slices.Sort(all)
		return cold, all[len(all)/2], memory
	}
	_, start, memory := measure(homes[0], command{what: "bare start", args: []string{"--version"}})
	fmt.Printf("%-56s %9.1f ms %12s   %.0f MB\n", "the bare start: the unit below", start, "", memory)
	apart.Together(1, commands, func(c command) {
		var times, colds, memories []float64
		for _, h := range homes {
			f, ms, mb := measure(h, c)
			times, colds, memories = append(times, ms), append(colds, f), append(memories, mb)
		}
		last := times[2]
		fmt.Printf("%-56s %s%8.1f ms %12s   warm; %.1f starts; cold %.0f ms; %s%.0f MB; ten times the work: %s, %s\n", c.what, over(last, c.most),
			last, budget(c.most, "ms"), last/start, colds[2], over(memories[2], mostMemory), memories[2], grows(times[1]/times[0]), grows(times[2]/times[1]))
		fmt.Printf("%-56s  %8.1f ms %12s   cold %.0f ms; %s%.0f MB\n", "  one vat of 80,000 events", times[3], "", colds[3], over(memories[3], mostMemory), memories[3])
	})
}

// opened tells which files a bare start opens, and the screens of an empty home until the first frame, but for the system's own.
func (b *bench) opened() {
	strace, err := exec.LookPath("strace")
	if err != nil {
		fmt.Printf("%-56s %s\n", "files that a start opens", "not measured: there is no strace")
		return
	}
	list := filepath.Join(b.work, "opened")
	for _, start := range [][]string{{"a bare start", "--version"}, {"the screens of an empty home"}} {
		what, args := start[0], start[1:]
		cmd := exec.Command(strace, append([]string{"-f", "-qq", "-e", "trace=open,openat", "-o", list, b.program}, args...)...)
		cmd.Env = apart.Env(filepath.Join(b.work, "state"), apart.Zone, "VATSIDE_HOME="+filepath.Join(b.work, "empty"))
		seat, err := tty.StartIn(cmd, 80, 24, tty.Manner{Answers: tty.Xterm})
		if err == nil {
			if len(args) == 0 && seat.Await(10*time.Second, func() bool { return strings.Contains(seat.Text(), words.AnyHome) }) {
				seat.Type("q")
			}
			if code, ended := seat.Ended(10 * time.Second); code != 0 || !ended {
				err = fmt.Errorf("%s did not end well: %s", what, seat.Text())
			}
			seat.Kill()
		}
		text, readErr := os.ReadFile(list)
		if err = errors.Join(err, readErr); err != nil {
			b.miss("strace: %v", err)
		}
		var names []string
		for _, m := range opening.FindAllStringSubmatch(string(text), -1) {
			if name := strings.TrimPrefix(m[1], b.work+"/"); !theirs.MatchString(name) && !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
		fmt.Printf("%-56s %9d    %12s   %s\n", "files that are opened, "+what, len(names), "", strings.Join(names, " "))
	}
}

// opening is a file that was opened, theirs one of the system's or of the runtime's own.
var (
	opening = regexp.MustCompile(`(?m)open(?:at)?\([^"\n]*"([^"]*)".* = \d+$`)
	theirs  = regexp.MustCompile(`^/(proc|sys|dev|lib|etc/ld)`)
)

// soak runs the day of ten hours through the real engine and screens, on a clock that is set.
func (b *bench) soak() {
	tests := filepath.Join(b.work, "ui.test")
	out, err := exec.Command("go", "test", "-c", "-o", tests, "./ui").CombinedOutput()
	cmd := exec.Command(tests, "-test.count", "1", "-test.v", "-test.run", "^TestTenHours$")
	cmd.Dir = "ui"
	if err == nil {
		out, err = cmd.CombinedOutput()
	}
	if err != nil || !strings.Contains(string(out), "--- PASS: TestTenHours") {
		b.miss("the soak: %v\n%s", err, out)
	}
	s := processed(cmd) / 1000
	fmt.Printf("%-56s %s%8.2f s  %12s\n", "ten hours through engine and screens", over(s, 2), s, "2 s")
}

var result = regexp.MustCompile(`(?m)^Benchmark(\S+?)(?:-\d+)?\s+\d+\s+([\d.]+) ns/op`)

func (b *bench) benchmarks() {
	found := map[string]float64{} // package and name; µs
	tops := map[string][]string{} // of a package
	for _, m := range benchmarks {
		if top, _, _ := strings.Cut(m.name, "/"); !slices.Contains(tops[m.pkg], top) {
			tops[m.pkg] = append(tops[m.pkg], top)
		}
	}
	for _, p := range slices.Sorted(maps.Keys(tops)) {
		only := "^Benchmark(" + strings.Join(tops[p], "|") + ")$"
		out, err := exec.Command("go", "test", "-run", "xxx", "-bench", only, "-benchtime", "0.3s", p).CombinedOutput()
		if err != nil {
			apart.Try(func() { b.miss("%s: %v\n%s", p, err, out) }) // what came is told
		}
		for _, r := range result.FindAllStringSubmatch(string(out), -1) {
			ns, _ := strconv.ParseFloat(r[2], 64) // it is a number
			found[p+" "+r[1]] = ns / 1000
		}
	}
	apart.Together(1, benchmarks, func(m benchmark) {
		us, ok := found[m.pkg+" "+m.name]
		if !ok {
			b.miss("%s has no benchmark %s", m.pkg, m.name)
		}
		if strings.HasPrefix(m.name, "Event/") {
			m.most = found[m.pkg+" BareSync"] + 300
		}
		fmt.Printf("%-56s %s%8.1f µs %12s\n", m.what, over(us, m.most), us, budget(m.most, "µs"))
	})
}
