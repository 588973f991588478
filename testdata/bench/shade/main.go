// Command shade plays the claims of model/shade on simulated vats and prints the tables. It takes a minute or a minute and
// a half. The study itself stands among the tests of model/shade, which play a small run of it each time.
//
//	go run ./testdata/bench/shade [-n 200]
package main

import (
	"bufio"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"time"
)

func main() {
	n := flag.Int("n", 200, "simulated vats a row")
	flag.Parse()
	if err := tables(*n); err != nil {
		fmt.Fprintln(os.Stderr, "shade:", err)
		os.Exit(1)
	}
}

// tables runs the test that prints them, and passes on what is not the test runner's own.
func tables(n int) error {
	begun := time.Now()
	run := exec.Command("go", "test", "-count=1", "-v", "-run", "^TestTables$", "example.org/vatside/model/shade", "-args", fmt.Sprintf("-tables=%d", n))
	run.Stderr = os.Stderr
	out, err := run.StdoutPipe()
	if err != nil {
		return err
	}
	if err := run.Start(); err != nil {
		return err
	}
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		line := lines.Text()
		switch word, _, _ := strings.Cut(line, " "); {
		case word == "===", word == "---", word == "PASS", strings.HasPrefix(line, "ok  "):
		default:
			fmt.Println(line)
		}
	}
	if err := run.Wait(); err != nil {
		return err
	}
	fmt.Printf("\n%.0f s\n", time.Since(begun).Seconds())
	return nil
}
