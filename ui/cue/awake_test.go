//go:build !windows

package cue

import (
	"strings"
	"testing"

	"example.org/vatside/ui/guard"
)

// What keeps the machine awake is started and ended with the time, ends with its input, and says where it does not work.
func TestAwake(t *testing.T) {
	y := newYard(t)
	failed := make(chan error, 1)
	start := func() (func(), error) { return startWaker(wakers, y.look, func(err error) { failed <- err }) }
	if _, err := start(); err != errNoWaker {
		t.Errorf("with nothing here: %v", err)
	}
	y.program("caffeinate", logs+"\nexec sleep 60")
	y.program("systemd-inhibit", logs+`
trap '' TERM; cat >/dev/null; echo "input ended" >>"$LOG"`)
	until, err := start()
	if err != nil {
		t.Fatal(err)
	}
	y.logged("systemd-inhibit --what=idle:sleep")
	until()
	if strings.Contains(y.log(), "caffeinate") || len(failed) > 0 {
		t.Errorf("it is told that it failed, or both run:\n%s", y.log())
	}
	y.program("systemd-inhibit", logs+"\nexit 1")
	if until, err = start(); err != nil {
		t.Fatal(err)
	}
	if err := <-failed; err == nil || !strings.Contains(err.Error(), "systemd-inhibit has ended") {
		t.Errorf("of one that failed is told %v", err)
	}
	until()
}

// Where the part that waits for it fails, the program ends, and nobody waits for that part.
func TestAWakerThatFailsHoldsNobody(t *testing.T) {
	y := newYard(t)
	y.program("systemd-inhibit", logs+"\nexec cat")
	guard.Inject(func(at string) {
		if at == "waker" {
			panic(guard.ErrInjected)
		}
	})
	defer guard.Inject(nil)
	defer guard.Forget()
	until, err := startWaker(wakers, y.look, func(err error) { t.Errorf("it is told that it ended: %v", err) })
	if err != nil {
		t.Fatal(err)
	}
	until()
	<-guard.Fatal()
	if c, _ := guard.Why(); c.Where != "waker" {
		t.Errorf("the program ends for %v", c)
	}
}
