package host

import (
	"errors"
	"math"
	"os"
	"os/exec"
	"syscall"

	"golang.org/x/sys/unix"
)

// isolate gives a process its own group, so that it and its children can be ended together and a Ctrl-C at the terminal
// passes it by, and has the kernel kill it when the thread that starts it ends, be it by kill -9 of the host.
func isolate(cmd *exec.Cmd) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true, Pdeathsig: syscall.SIGKILL}
}

// closeOnExec marks every file but the three streams, so that no process started from here on inherits it. Go marks its own; this
// takes in those that the program was given by whoever started it, such as the sockets of a service manager.
func closeOnExec() {
	_ = unix.CloseRange(3, math.MaxUint32, unix.CLOSE_RANGE_CLOEXEC) // a kernel that cannot do this is older than 5.11
}

// awaitExit returns when a process has ended, and gives the function that takes note of it. Until that is called the process
// ID stays taken, so that a signal to the group cannot reach a stranger.
func awaitExit(cmd *exec.Cmd) (reap func() error) {
	for {
		err := unix.Waitid(unix.P_PID, cmd.Process.Pid, nil, unix.WEXITED|unix.WNOWAIT, nil)
		if !errors.Is(err, unix.EINTR) {
			return cmd.Wait
		}
	}
}

// killGroup ends a process and everything in its group.
func killGroup(p *os.Process) {
	_ = unix.Kill(-p.Pid, unix.SIGKILL) // the one possible error is that nobody is left
}

// gone says whether there is no process of that ID.
func gone(pid int) bool { return errors.Is(unix.Kill(pid, 0), unix.ESRCH) }

// limitMemory bounds the data of a process: private memory that it may write to, as the kernel counts it.
func limitMemory(pid int, bytes int64) error {
	limit := unix.Rlimit{Cur: uint64(bytes), Max: uint64(bytes)}
	return unix.Prlimit(pid, unix.RLIMIT_DATA, &limit, nil)
}
