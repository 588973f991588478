//go:build unix

package command

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/adrg/xdg"
	"github.com/creack/pty"
)

// In a terminal plain mode calls as the screens do: a dip that is over is sounded at once, with the bell, and the player has ended
// when the program has. In a pipe no player is started, and no bell rung.
func TestPlainSoundsInATerminalAlone(t *testing.T) {
	home, tools := t.TempDir(), t.TempDir()
	say := func(args ...string) {
		t.Helper()
		if _, errs, code := run(t, home, args...); code != 0 {
			t.Fatalf("%q: %s", args, errs)
		}
	}
	at := time.Now().Add(-20 * time.Minute).Format(time.RFC3339)
	say("begin", "crock", "--recipe", "soda", "--fill", "20L", "--built", "--vessel", "cylinder 30cm 40cm HDPE", "--at", at)
	for _, words := range []string{"you alone", "36 C", "done", "strip 40", "ready", "piece A1 linen 100 g 3 dips", "A1 scoured", "A1 soaks", "A1 wet", "A1 in"} {
		say("say", "crock", words, "--answered", "--at", at)
	}
	played := filepath.Join(tools, "played")
	if err := syscall.Mkfifo(played, 0o600); err != nil {
		t.Skipf("no pipe with a name here: %v", err)
	}
	line, err := os.OpenFile(played, os.O_RDWR|syscall.O_NONBLOCK, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer line.Close()
	if err := os.WriteFile(filepath.Join(tools, "aplay"), fmt.Appendf(nil, "#!/bin/sh\necho \"$2\" > '%s'\n", played), 0o755); err != nil {
		t.Fatal(err)
	}
	t.Setenv("PATH", tools)
	t.Setenv("XDG_CACHE_HOME", t.TempDir()) // the sounds lie there
	xdg.Reload()

	out, errs, code := typed(t, home, "leave\n", "--plain")
	if code != 0 || strings.Contains(out, "\a") || !strings.Contains(out, "late: lift A1") {
		t.Errorf("in a pipe it ends with %d %q: %q", code, errs, out)
	}
	_ = line.SetReadDeadline(time.Now())
	if n, _ := line.Read(make([]byte, 1)); n > 0 {
		t.Error("in a pipe a player is started")
	}
	_ = line.SetReadDeadline(time.Time{})

	own, theirs, err := pty.Open()
	if err != nil {
		t.Skipf("no pseudo-terminal here: %v", err)
	}
	defer own.Close()
	shown := make(chan string, 1)
	go func() { // to the word that is written behind the program: its reader of lines may hold the terminal open
		text, _ := bufio.NewReader(own).ReadString('~')
		shown <- text
	}()
	ended := make(chan int, 1)
	go func() {
		ended <- Main([]string{"--plain", "--home", home}, World{In: theirs, Out: theirs, Err: theirs, Getenv: func(string) string { return "" }})
		_, _ = theirs.WriteString("~")
	}()
	_ = line.SetReadDeadline(time.Now().Add(20 * time.Second)) // a hang, no budget
	file, err := bufio.NewReader(line).ReadString('\n')
	if err != nil || filepath.Ext(strings.TrimSpace(file)) != ".wav" {
		t.Errorf("the player got %q: %v", file, err)
	}
	if _, err := own.WriteString("leave\n"); err != nil {
		t.Fatal(err)
	}
	if code := <-ended; code != 0 {
		t.Errorf("it ends with %d", code)
	}
	if text := <-shown; !strings.Contains(text, "\a") || !strings.Contains(text, "This machine may sleep and then calls nobody: turn its sleep off.") {
		t.Errorf("it shows %q", text)
	}
}
