package host

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/hashicorp/go-plugin/runner"
)

// process is one running plugin. It takes the place of go-plugin's own runner, which shares the host's stdin, kills one
// process where there is a group, stops reading at a long line and waits for ever for a pipe that a child has kept open.
type process struct {
	cmd       *exec.Cmd
	out       *output
	maxMemory int64

	handshake    *io.PipeWriter // the first line of stdout, which is all that go-plugin gets to read
	handshakeOut *io.PipeReader
	exited       chan struct{} // closed once the process is gone and waited for
	drained      chan struct{} // closed once all it wrote has been read

	mu        sync.Mutex
	pid       int // 0 until it has started
	running   bool
	killed    bool    // before it started, or after
	socketDir string  // go-plugin's folder for this plugin's socket
	firstLine *string // what the plugin wrote first to stdout, nil until it has
	waitErr   error
}

var _ runner.Runner = (*process)(nil)

// newProcess makes a process that is not started yet.
func newProcess(p Plugin, out *output) *process {
	cmd := exec.Command(p.Path, p.Args...)
	cmd.Env = p.environment()
	cmd.Stdin = nil // the null device, not the host's own
	isolate(cmd)
	r, w := io.Pipe()
	return &process{
		cmd: cmd, out: out, maxMemory: p.MaxMemory,
		handshake: w, handshakeOut: r, exited: make(chan struct{}), drained: make(chan struct{}),
	}
}

// prepare takes what go-plugin has to say to the plugin.
func (p *process) prepare(env []string, socketDir string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.cmd.Env = append(p.cmd.Env, env...)
	p.socketDir = socketDir
}

// Start implements runner.Runner.
func (p *process) Start(context.Context) error {
	outR, outW, err := os.Pipe()
	if err != nil {
		return err
	}
	errR, errW, err := os.Pipe()
	if err != nil {
		return errors.Join(err, outR.Close(), outW.Close())
	}
	p.cmd.Stdout, p.cmd.Stderr = outW, errW
	started := make(chan error, 1)
	go p.live(started)
	err = <-started
	err = errors.Join(err, outW.Close(), errW.Close())
	if err != nil {
		return errors.Join(err, outR.Close(), errR.Close(), p.handshake.Close())
	}
	go p.follow(outR, errR)
	return nil
}

// live starts the process and sees it to its end on one operating system thread. On Linux the process is set to die with
// the thread that started it, so that thread must neither end nor serve other goroutines before.
func (p *process) live(started chan<- error) {
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	err := p.begin()
	started <- err
	if err != nil {
		return
	}
	reap := awaitExit(p.cmd)
	p.mu.Lock()
	defer p.mu.Unlock()
	killGroup(p.cmd.Process) // what it left behind
	p.waitErr = reap()
	p.running = false
	close(p.exited)
}

// begin starts the process, unless it was killed before it could be.
func (p *process) begin() error {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.killed {
		return errors.New("stopped before it was started")
	}
	closeOnExec()
	if err := p.cmd.Start(); err != nil {
		return err
	}
	p.pid, p.running = p.cmd.Process.Pid, true
	if err := limitMemory(p.pid, p.maxMemory); err != nil {
		p.out.log.Warn("the memory of the catalogue plugin is not limited", "error", err)
	}
	return nil
}

// follow reads what the process writes until it is gone, and a moment longer where a child has kept the pipes open.
func (p *process) follow(stdout, stderr *os.File) {
	var readers sync.WaitGroup
	readers.Go(func() {
		eachLine(stdout, p.stdoutLine)
		p.handshake.Close()
	})
	readers.Go(func() { eachLine(stderr, p.out.stderr) })
	<-p.exited
	const moment = 200 * time.Millisecond
	soon := time.Now().Add(moment)
	stdout.SetReadDeadline(soon)
	stderr.SetReadDeadline(soon)
	readers.Wait()
	stdout.Close()
	stderr.Close()
	close(p.drained)
}

func (p *process) stdoutLine(line string) {
	p.mu.Lock()
	first := p.firstLine == nil
	if first {
		p.firstLine = &line
	}
	p.mu.Unlock()
	if first {
		fmt.Fprintln(p.handshake, line)
		return
	}
	p.out.stdout(line)
}

// Wait implements runner.AttachedRunner.
func (p *process) Wait(context.Context) error {
	<-p.exited
	return p.waitErr
}

// Kill implements runner.AttachedRunner. It ends the whole group at once.
func (p *process) Kill(context.Context) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.killed = true
	if p.running {
		killGroup(p.cmd.Process)
	}
	return nil
}

// said is the first line of stdout, and whether there was one.
func (p *process) said() (string, bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.firstLine == nil {
		return "", false
	}
	return *p.firstLine, true
}

// ended says how the process came to its end, once all it wrote has been read, if it does so within a moment.
func (p *process) ended(within time.Duration) (string, bool) {
	select {
	case <-p.drained:
	case <-time.After(within):
		return "", false
	}
	if p.waitErr == nil {
		return "exit status 0", true
	}
	return p.waitErr.Error(), true
}

// removeSocket removes the folder of the plugin's socket, whatever the plugin has left in it.
func (p *process) removeSocket() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.socketDir != "" {
		_ = os.RemoveAll(p.socketDir)
	}
}

// Stdout implements runner.Runner.
func (p *process) Stdout() io.ReadCloser { return p.handshakeOut }

// Stderr implements runner.Runner. The process reads its own stderr, so there is nothing in it for go-plugin.
func (*process) Stderr() io.ReadCloser { return io.NopCloser(strings.NewReader("")) }

// Name implements runner.Runner.
func (p *process) Name() string { return p.cmd.Path }

// ID implements runner.AttachedRunner. It is empty until the process has started.
func (p *process) ID() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.pid == 0 {
		return ""
	}
	return strconv.Itoa(p.pid)
}

// Diagnose implements runner.Runner. The host's own errors say more.
func (*process) Diagnose(context.Context) string { return "" }

// PluginToHost implements runner.AddrTranslator.
func (*process) PluginToHost(network, address string) (string, string, error) {
	return network, address, nil
}

// HostToPlugin implements runner.AddrTranslator.
func (*process) HostToPlugin(network, address string) (string, string, error) {
	return network, address, nil
}
