package host

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/hashicorp/go-hclog"
	"github.com/hashicorp/go-plugin"
	"github.com/hashicorp/go-plugin/runner"

	"example.com/pondwright/plugins/contract"
)

// session is a plugin that has been started once. go-plugin cannot start the same client again, so neither can this: a new
// reading is a new session.
type session struct {
	plugin    Plugin
	log       *slog.Logger
	out       *output
	process   *process
	client    *plugin.Client
	catalogue contract.Remote
}

// start starts a plugin and shakes hands with it.
func (h *Host) start(ctx context.Context, p Plugin, log *slog.Logger) (*session, error) {
	out := newOutput(log)
	s := &session{plugin: p, log: log, out: out, process: newProcess(p, out)}
	s.client = plugin.NewClient(&plugin.ClientConfig{
		HandshakeConfig:  contract.Handshake(),
		VersionedPlugins: contract.Versions(&contract.Plugin{}),
		AllowedProtocols: []plugin.Protocol{plugin.ProtocolGRPC},
		GRPCDialOptions:  contract.DialOptions(),
		SkipHostEnv:      true,
		AutoMTLS:         !p.PlainSocket,
		StartTimeout:     p.StartTimeout,
		UnixSocketConfig: &plugin.UnixSocketConfig{TempDir: h.workDir},
		SyncStdout:       lineWriter(out.stdout),
		SyncStderr:       lineWriter(out.stderr),
		Logger:           hclog.NewNullLogger(), // the host reads the plugin's output itself
		RunnerFunc: func(_ hclog.Logger, cmd *exec.Cmd, socketDir string) (runner.Runner, error) {
			s.process.prepare(cmd.Env, socketDir)
			return s.process, nil
		},
	})
	if err := s.connect(ctx); err != nil {
		err = s.explainStart(ctx, err)
		s.stop(0)
		return nil, err
	}
	log.Debug("catalogue plugin started", "pid", s.process.ID(), "path", p.Path)
	return s, nil
}

var errStartTimeout = errors.New("start time limit")

// afterKill is how long a killed process may take to be gone: the kernel needs a moment to take a large one apart.
const afterKill = 2 * time.Second

// connect waits for the handshake. go-plugin's start takes no context, and may wait for ever on a plugin that shook hands and
// then stood still: it is ended by killing the plugin under it.
func (s *session) connect(ctx context.Context) error {
	ctx, cancel := context.WithTimeoutCause(ctx, s.plugin.StartTimeout, errStartTimeout)
	defer cancel()
	type result struct {
		catalogue contract.Remote
		err       error
	}
	done := make(chan result, 1)
	go func() {
		protocol, err := s.client.Client()
		if err != nil {
			done <- result{err: err}
			return
		}
		catalogue, err := contract.Dispense(protocol)
		done <- result{catalogue, err}
	}()
	select {
	case r := <-done:
		s.catalogue = r.catalogue
		return r.err
	case <-ctx.Done():
	}
	_ = s.process.Kill(ctx)
	select {
	case <-done:
	case <-time.After(afterKill):
	}
	return context.Cause(ctx)
}

// stop ends the plugin for good and removes its socket. It asks first where there is a grace, and does not wait beyond it:
// go-plugin's Kill may hang on a plugin that stands still.
func (s *session) stop(grace time.Duration) {
	if grace <= 0 {
		_ = s.process.Kill(context.Background())
	}
	asked := make(chan struct{})
	go func() {
		defer close(asked)
		s.client.Kill()
	}()
	select {
	case <-asked:
	case <-time.After(grace):
	}
	_ = s.process.Kill(context.Background())
	select {
	case <-asked:
	case <-time.After(afterKill):
		s.log.Error("catalogue plugin cannot be killed: it may be stuck in the kernel", "pid", s.process.ID())
	}
	if s.process.ID() != "" {
		_, _ = s.process.ended(afterKill) // all it wrote is in the log
	}
	s.process.removeSocket()
}

// explain adds to a failed call how the process ended, if it did, and what it wrote last.
func (s *session) explain(err error) error {
	var f *Failure
	if !errors.As(err, &f) {
		f = &Failure{Plugin: s.plugin.Name, What: "could not be read", Err: errors.Join(ErrCall, err)}
	}
	if errors.Is(f, ErrDied) {
		if how, ok := s.process.ended(time.Second); ok {
			f.What, f.Err = fmt.Sprintf("%s (%s)", f.What, how), errors.Join(ErrCall, ErrDied)
		} else {
			f.What = "cannot be reached, though its process is there"
		}
	}
	f.Stderr = s.out.lastWords()
	return f
}

// explainStart says why a plugin did not start, from what it did rather than from go-plugin's text.
func (s *session) explainStart(ctx context.Context, err error) error {
	f := &Failure{Plugin: s.plugin.Name, Err: ErrStart}
	if ctx.Err() != nil {
		f.What, f.Err = "was not started, as the reader gave up", errors.Join(ErrStart, context.Cause(ctx))
		return f
	}
	if s.process.ID() == "" {
		f.What, f.Change, f.Err = "cannot be started", "check its path and that it may be executed on this machine", errors.Join(ErrStart, err)
		return f
	}
	how, _ := s.process.ended(time.Second) // go-plugin kills what does not shake hands
	f.Stderr = s.out.lastWords()
	line, spoke := s.process.said()
	theirs, isHandshake := handshakeVersion(line)
	switch {
	case isHandshake && !slices.Contains(contract.Spoken(), theirs):
		f.What, f.Change = contract.Mismatch(theirs, contract.Spoken())
		f.Err = ErrVersion
	case isHandshake:
		f.What, f.Change, f.Err = "shook hands and then could not be reached", "look at its own log for the reason", errors.Join(ErrStart, err)
	case spoke:
		f.What = fmt.Sprintf("printed %q to stdout before the handshake", quotable(line))
		f.Change = "call sdk.Serve first in its main, and print to stderr only"
	case errors.Is(err, errStartTimeout), strings.Contains(err.Error(), "timeout while waiting"):
		f.What = fmt.Sprintf("did not shake hands within %s", s.plugin.StartTimeout)
		f.Change = "check that it is a catalogue plugin, or raise its start time limit"
	default:
		f.What = fmt.Sprintf("ended before the handshake (%s)", how)
		f.Change = "check that it is a catalogue plugin, and what it wrote to stderr"
	}
	return f
}

// handshakeVersion reads the protocol version from the line "core|version|network|address|...".
func handshakeVersion(line string) (int, bool) {
	parts := strings.Split(strings.TrimSpace(line), "|")
	if len(parts) < 4 || parts[0] != strconv.Itoa(plugin.CoreProtocolVersion) {
		return 0, false
	}
	version, err := strconv.Atoi(parts[1])
	return version, err == nil
}

// lineWriter logs what a Go plugin prints after the handshake, which comes back to the host over gRPC a piece at a time.
type lineWriter func(string)

// Write implements io.Writer.
func (w lineWriter) Write(piece []byte) (int, error) {
	for line := range strings.SplitSeq(strings.TrimRight(string(piece), "\r\n"), "\n") {
		w(line)
	}
	return len(piece), nil
}
