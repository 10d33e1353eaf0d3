//go:build unix && !linux

package host

import (
	"errors"
	"os"
	"os/exec"
	"syscall"
)

// isolate gives a process its own group, so that it and its children can be ended together and a Ctrl-C at the terminal
// passes it by. Only Linux can tie its life to that of the host; here the plugin watches for its parent's end by itself.
func isolate(cmd *exec.Cmd) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
}

// closeOnExec does nothing: what Go opens is not inherited anyway.
func closeOnExec() {}

// awaitExit returns when a process has ended, and gives the function that takes note of it.
func awaitExit(cmd *exec.Cmd) (reap func() error) {
	err := cmd.Wait()
	return func() error { return err }
}

// killGroup ends a process and everything in its group.
func killGroup(p *os.Process) {
	_ = syscall.Kill(-p.Pid, syscall.SIGKILL) // the one possible error is that nobody is left
}

// gone says whether there is no process of that ID.
func gone(pid int) bool { return errors.Is(syscall.Kill(pid, 0), syscall.ESRCH) }

// limitMemory does nothing: no limit can be set on another process here.
func limitMemory(int, int64) error { return nil }
