//go:build !unix

package host

import (
	"os"
	"os/exec"
)

// isolate does nothing: process groups are a thing of Unix.
func isolate(*exec.Cmd) {}

// closeOnExec does nothing: what Go opens is not inherited anyway.
func closeOnExec() {}

// awaitExit returns when a process has ended, and gives the function that takes note of it.
func awaitExit(cmd *exec.Cmd) (reap func() error) {
	err := cmd.Wait()
	return func() error { return err }
}

// killGroup ends the process alone.
func killGroup(p *os.Process) {
	_ = p.Kill() // the one possible error is that it has ended
}

// gone says whether there is no process of that ID. Not knowing, it leaves everything where it is.
func gone(int) bool { return false }

// limitMemory does nothing: no limit can be set on another process here.
func limitMemory(int, int64) error { return nil }
