package cue

import (
	"os/exec"
	"syscall"
)

// createNoWindow is CREATE_NO_WINDOW of CreateProcess: no console flashes up over the clock.
const createNoWindow = 0x08000000

// apart gives the program its own process group, so that ctrl+c in the terminal does not reach it.
func apart(cmd *exec.Cmd) {
	cmd.SysProcAttr = &syscall.SysProcAttr{CreationFlags: syscall.CREATE_NEW_PROCESS_GROUP | createNoWindow, HideWindow: true}
}
