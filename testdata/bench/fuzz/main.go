// Command fuzz runs every fuzz target of the module and prints how often and how fast each ran.
//
//	go run ./testdata/bench/fuzz [-each 10m] [-all 0] [-least 100000] [-least-commands 10000] [-only REGEXP]
//
// -all shares that much time among the targets instead, at most -each for a parser. A target that fails, or that ran less often
// than asked for, makes it end with 1. What go test finds it leaves in the testdata/fuzz folder of the package.
package main

import (
	"bufio"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/testdata/bench/internal/apart"
)

// commands is the target that takes whole days through the commands. It is far slower than a parser: where the time is
// shared it gets so many shares, else as long as it takes.
const (
	commands      = "FuzzCommands"
	commandShares = 4
)

func main() {
	each := flag.Duration("each", 10*time.Minute, "time for a target, at most")
	all := flag.Duration("all", 0, "time for all of them together; 0: no limit")
	least := flag.Int("least", 100_000, "executions that a target must reach")
	leastCommands := flag.Int("least-commands", 10_000, "executions that "+commands+" must reach")
	only := flag.String("only", "", "targets to run, a regular expression")
	flag.Parse()
	filter, err := regexp.Compile(*only)
	if err != nil || flag.NArg() > 0 {
		flag.Usage()
		os.Exit(2)
	}
	apart.Run("fuzz", func() (bad bool) {
		targets := list(filter)
		share := *each
		if *all > 0 {
			share = min(share, (*all / time.Duration(len(targets)+commandShares-1)).Truncate(time.Second))
		}
		for _, t := range targets {
			want, long := *least, max(share, time.Second).String()
			if t.name == commands {
				want, long = *leastCommands, fmt.Sprintf("%dx", *leastCommands)
				if *all > 0 {
					long = max(commandShares*share, time.Second).String()
				}
			}
			bad = !t.run(long, want) || bad
		}
		return bad
	})
}

// target is one fuzz target.
type target struct{ name, pkg string }

// list is every target of the module, as its test files declare them: to have each test binary list its own, each would be built.
func list(filter *regexp.Regexp) (targets []target) {
	cmd := exec.Command("go", "list", "-f", "{{$p := .}}{{range .TestGoFiles}}{{$p.ImportPath}}\t{{$p.Dir}}/{{.}}\n{{end}}{{range .XTestGoFiles}}{{$p.ImportPath}}\t{{$p.Dir}}/{{.}}\n{{end}}", "./...")
	cmd.Stderr = os.Stderr
	for line := range strings.Lines(string(apart.Got(cmd.Output()))) {
		pkg, path, is := strings.Cut(strings.TrimSpace(line), "\t")
		if !is {
			continue
		}
		for _, m := range declared.FindAllSubmatch(apart.Got(os.ReadFile(path)), -1) {
			if t := (target{string(m[1]), pkg}); filter.MatchString(pkg + "." + t.name) {
				targets = append(targets, t)
			}
		}
	}
	return targets
}

// declared is a fuzz target in a test file.
var declared = regexp.MustCompile(`(?m)^func (Fuzz\w*)\(\w+ \*testing\.F\)`)

// execs is what go test says from time to time: the time, the executions so far, the rate, and inputs that were new; before that, how
// many of the inputs that it keeps were run.
var execs = regexp.MustCompile(`^fuzz: elapsed: (\S+), (?:execs|testing seed corpus|gathering baseline coverage): (\d+)[ /]`)

// run fuzzes a target for a time, or so many times ("10000x"), and tells whether it went well and ran often enough.
func (t target) run(long string, want int) bool {
	cmd := exec.Command("go", "test", "-run", "^$", "-fuzz", "^"+t.name+"$", "-fuzztime", long, "-fuzzminimizetime", "10x", "-vet=off", t.pkg)
	crashes := apart.Got(os.MkdirTemp("", "vatside-fuzz")) // where a worker that dies leaves its last words: its own output goes to /dev/null
	defer os.RemoveAll(crashes)
	cmd.Env = append(os.Environ(), "VATSIDE_FUZZ_CRASH="+crashes)
	out := apart.Got(cmd.StdoutPipe())
	cmd.Stderr = os.Stderr
	apart.Must(cmd.Start())
	n, took := 0, time.Duration(0)
	var rest []string // what else it says: of a failure
	lines := bufio.NewScanner(out)
	lines.Buffer(nil, 16<<20)
	for lines.Scan() {
		if m := execs.FindStringSubmatch(lines.Text()); m != nil {
			n, _ = strconv.Atoi(m[2])
			took, _ = time.ParseDuration(m[1])
		} else if !strings.HasPrefix(lines.Text(), "fuzz: elapsed:") {
			rest = append(rest, lines.Text())
		}
	}
	err := cmd.Wait()
	rate := 0.0
	if took > 0 {
		rate = float64(n) / took.Seconds()
	}
	name := strings.TrimPrefix(t.pkg, "example.org/vatside/") + " " + t.name
	fmt.Printf("%-34s %9d executions, %.0f/s\n", name, n, rate)
	files, _ := filepath.Glob(filepath.Join(crashes, "*"))
	if err != nil && len(files) == 0 && onlyTime(rest) {
		fmt.Printf("%s: go test took the end of its time for a failure\n", name)
		err = nil
	}
	switch {
	case err != nil:
		fmt.Println(strings.Join(rest, "\n"))
		for _, file := range files {
			text, _ := os.ReadFile(file)
			os.Stdout.Write(text)
		}
		fmt.Printf("%s failed: %v\n", name, err)
	case n < want:
		fmt.Printf("%s ran %d times, fewer than %d\n", name, n, want)
	}
	return err == nil && n >= want
}

// onlyTime tells whether go test failed because its time was over and for nothing else: no input is told of. Go's own fault, which
// happens now and then (golang/go issue 75804, mended in Go 1.27).
func onlyTime(said []string) bool {
	over := false
	for _, line := range said {
		switch line = strings.TrimSpace(line); {
		case line == "context deadline exceeded":
			over = true
		case line != "" && line != "FAIL" && line != "exit status 1" && !strings.HasPrefix(line, "FAIL\t") && !strings.HasPrefix(line, "--- FAIL: "):
			return false
		}
	}
	return over
}
