//go:build unix

package cue

import (
	"errors"
	"os"
	"os/exec"
	"syscall"
)

// apart gives the program its own process group: ctrl+c in the terminal does not reach it, and ending it ends whatever
// it started as well.
func apart(cmd *exec.Cmd) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	cmd.Cancel = func() error {
		err := syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL)
		if errors.Is(err, syscall.ESRCH) {
			return os.ErrProcessDone // it ended by itself a moment ago
		}
		return err
	}
}
