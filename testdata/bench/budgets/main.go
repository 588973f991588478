// Command budgets prints what a year of dyeing and a long day cost vatside, beside the budget of each.
//
//	go run ./testdata/bench/budgets [-n 5] [-growth]
//
// The bare start of the program, vatside --version, is the unit of the commands: their times are told in milliseconds and in so many
// bare starts. Commands run on homes of 20 vats and 1,000, 10,000 and 100,000 events: how much longer ten times the work takes is told
// of each tenfold, "flat" or "linear" with its factor. Cold is without an index in the cache folder, warm with what the cold run left
// there; the budgets are for warm. What the program reckons is measured by the benchmarks of its packages, and at 1, 10 and 100 times
// the work by the processor time that it takes; -growth does that alone. Above its budget a figure is marked by "!"; the program ends
// with 1 only where something could not be measured.
package main

import (
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

	"example.org/vatside/testdata/bench/internal/apart"
)

// command is one of the program's, on a home.
type command struct {
	what string
	args []string
	most float64 // ms on the largest home, warm; 0: no budget
}

var commands = []command{
	{"what the vats are due (now)", []string{"now"}, 40},
	{"one history (book vat-3)", []string{"book", "vat-3"}, 40},
	{"care", []string{"care"}, 150},
	{"like, over all pieces", []string{"like", "--lab", "31,-3,-20"}, 50},
	{"book verify", []string{"book", "verify"}, 1000},
	{"book --json", []string{"book", "--json"}, 0},
}

// mostMemory is what any of them may take, in MB.
const mostMemory = 30

// sizes are the homes: days a vat, events a day.
var sizes = [][2]int{{5, 10}, {5, 100}, {50, 100}}

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
	b.commands()
	b.benchmarks()
	b.soak()
	growth()
	return b.failed
}

// miss tells what could not be measured.
func (b *bench) miss(format string, args ...any) {
	fmt.Fprintf(os.Stderr, "budgets: "+format+"\n", args...)
	b.failed = true
}

// over marks what is above its budget.
func over(is, most float64) string {
	if most > 0 && is > most {
		return "!"
	}
	return " "
}

// budget is one in words.
func budget(most float64, unit string) string {
	if most == 0 {
		return "–"
	}
	return fmt.Sprintf("%.0f %s", most, unit)
}

// once runs the program: how long it took, and the most memory that it had in MB.
func (b *bench) once(home string, c command) (ms, memory float64, ok bool) {
	cmd := exec.Command(b.program, c.args...)
	cmd.Env = apart.Env(filepath.Join(b.work, "state"), apart.Zone, "VATSIDE_HOME="+home)
	var said strings.Builder
	cmd.Stderr = &said
	begun := time.Now()
	err := cmd.Run()
	took := time.Since(begun)
	if err != nil {
		b.miss("%s: %v: %s", c.what, err, said.String())
		return 0, 0, false
	}
	if u, is := cmd.ProcessState.SysUsage().(*syscall.Rusage); is {
		memory = float64(u.Maxrss) / 1024 // from KiB
	}
	return float64(took.Microseconds()) / 1000, memory, true
}

// commands measures the program's commands: cold, with nothing kept, and the middle of the warm runs after it.
func (b *bench) commands() {
	var homes []string
	for i, s := range sizes {
		homes = append(homes, home(filepath.Join(b.work, fmt.Sprint("home-", i)), s[0], s[1]))
	}
	measure := func(home string, c command) (cold, middle, memory float64, ok bool) {
		apart.Must(os.RemoveAll(filepath.Join(b.work, "state", "vatside", "index")))
		if cold, memory, ok = b.once(home, c); !ok {
			return 0, 0, 0, false
		}
		var all []float64
		for range b.runs {
			ms, mb, ok := b.once(home, c)
			if !ok {
				return 0, 0, 0, false
			}
			all, memory = append(all, ms), max(memory, mb)
		}
		slices.Sort(all)
		return cold, all[len(all)/2], memory, true
	}
	_, start, memory, ok := measure(homes[0], command{what: "bare start", args: []string{"--version"}})
	if !ok {
		return
	}
	fmt.Printf("%-56s %9.1f ms %12s   %.0f MB\n", "the bare start: the unit below", start, "", memory)
	for _, c := range commands {
		var times []float64
		var cold, memory float64
		for _, h := range homes {
			f, ms, mb, ok := measure(h, c)
			if !ok {
				break
			}
			times, cold, memory = append(times, ms), f, mb
		}
		if len(times) < len(homes) {
			continue
		}
		last := times[len(times)-1]
		fmt.Printf("%-56s %s%8.1f ms %12s   warm; %.1f starts; cold %.0f ms; %s%.0f MB; ten times the work: %s, %s\n", c.what, over(last, c.most),
			last, budget(c.most, "ms"), last/start, cold, over(memory, mostMemory), memory, grows(times[1]/times[0]), grows(times[2]/times[1]))
	}
}

// soak runs the day of ten hours through the real engine and screens, on a clock that is set.
func (b *bench) soak() {
	out, err := exec.Command("go", "test", "-count", "1", "-v", "-run", "^TestTenHours$", "./ui").CombinedOutput()
	took := regexp.MustCompile(`--- PASS: TestTenHours \(([\d.]+)s\)`).FindSubmatch(out)
	if err != nil || took == nil {
		b.miss("the soak: %v\n%s", err, out)
		return
	}
	s, _ := strconv.ParseFloat(string(took[1]), 64) // it is a number
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
			b.miss("%s: %v\n%s", p, err, out)
		}
		for _, r := range result.FindAllStringSubmatch(string(out), -1) {
			ns, _ := strconv.ParseFloat(r[2], 64) // it is a number
			found[p+" "+r[1]] = ns / 1000
		}
	}
	for _, m := range benchmarks {
		us, ok := found[m.pkg+" "+m.name]
		if !ok {
			b.miss("%s has no benchmark %s", m.pkg, m.name)
			continue
		}
		if strings.HasPrefix(m.name, "Event/") {
			m.most = found[m.pkg+" BareSync"] + 300
		}
		fmt.Printf("%-56s %s%8.1f µs %12s\n", m.what, over(us, m.most), us, budget(m.most, "µs"))
	}
}
