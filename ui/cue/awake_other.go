//go:build !windows

package cue

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strconv"

	"example.org/vatside/ui/guard"
)

// wakers keep the machine awake for as long as they run; the program's own number stands where %d is. The first waits for the end of its
// input, which comes whatever ends this program, the other looks for the program itself.
var wakers = []program{
	{name: "systemd-inhibit", args: []string{"--what=idle:sleep", "--who=vatside", "--why=a time of the vat runs", "--mode=block", "cat"}},
	{name: "caffeinate", args: []string{"-i", "-w", "%d"}},
}

// errNoWaker is told where nothing on this machine can keep it awake.
var errNoWaker = errors.New("nothing here can keep the machine from going to sleep")

// stayAwake starts what keeps the machine awake. ended is told once it has ended by itself.
func stayAwake(ended func(error)) (until func(), err error) {
	return startWaker(wakers, exec.LookPath, ended)
}

func startWaker(list []program, look finder, ended func(error)) (until func(), err error) {
	have := found(list, look)
	if len(have) == 0 {
		return nil, errNoWaker
	}
	path, err := look(have[0].name)
	if err != nil {
		return nil, err
	}
	var args []string
	for _, a := range have[0].args {
		if a == "%d" {
			a = strconv.Itoa(os.Getpid())
		}
		args = append(args, a)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cmd := exec.CommandContext(ctx, path, args...)
	apart(cmd)
	in, hold, err := os.Pipe()
	if err != nil {
		cancel()
		return nil, err
	}
	cmd.Stdin = in
	err = cmd.Start()
	_ = in.Close()
	if err != nil {
		cancel()
		_ = hold.Close()
		return nil, fmt.Errorf("%s: %w", have[0].name, err)
	}
	done := make(chan struct{})
	guard.GoThen("waker", func() {
		err := cmd.Wait()
		if ctx.Err() == nil {
			ended(fmt.Errorf("%s has ended: %v", have[0].name, err))
		}
	}, closing(done))
	return func() { end(cancel, hold); <-done }, nil
}

func end(cancel context.CancelFunc, hold io.Closer) {
	cancel()
	_ = hold.Close()
}
