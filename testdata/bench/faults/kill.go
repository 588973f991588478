package main

import (
	"errors"
	"fmt"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
)

// tableLine is a line of the table that the kill bench prints.
var tableLine = regexp.MustCompile(`(?m)^(kills|events checked against the book|events lost) +(\d+)$`)

func kills(b *bench) {
	n := 500
	if b.short {
		n = 30
	}
	r := b.row(fmt.Sprintf("kill -9, %d times", n))
	defer r.done()
	bench := filepath.Join(b.work, "kill")
	if out, err := exec.Command("go", "build", "-o", bench, "example.org/vatside/testdata/bench/kill").CombinedOutput(); err != nil {
		r.bad("the kill bench cannot be built: %v %s", err, out)
		return
	}
	out, err := exec.Command(bench, "-kills", strconv.Itoa(n), "-seed", strconv.FormatUint(b.seed, 10), b.program).CombinedOutput()
	for _, m := range tableLine.FindAllStringSubmatch(string(out), -1) {
		v, _ := strconv.Atoi(m[2])
		switch m[1] {
		case "kills":
			r.tries = v
		case "events lost":
			r.lost = v
		default:
			r.acts = v
		}
	}
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		r.bad("%v", err)
	}
	for line := range strings.Lines(string(out)) {
		if rest, ok := strings.CutPrefix(line, "fault: "); ok {
			r.bad("%s", plainly(rest))
		} else if rest, ok := strings.CutPrefix(line, "kill: "); ok {
			r.bad("%s", plainly(rest))
		}
	}
}
