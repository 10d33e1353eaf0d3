package host

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"

	"github.com/hashicorp/go-plugin"
	"google.golang.org/grpc"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/status"

	"example.com/pondwright/plugins/contract"
)

// Live is a plugin that is kept running after its catalogue was read, because it answers questions of the moment. It does not
// mend itself: once it has ended or hangs, whoever holds it stops it and opens another.
type Live struct {
	session *session
	grace   time.Duration

	mu     sync.Mutex
	asking sync.WaitGroup // questions in flight; added to under mu, and not after closed
	closed bool
}

// ErrStopped is a question to a plugin that is being stopped.
var ErrStopped = errors.New("the plugin is being stopped")

// Ask puts a question to the plugin. The question must keep to ctx, which should have a deadline: the plugin may hang.
func (l *Live) Ask(ctx context.Context, question func(context.Context, contract.Remote) error) error {
	l.mu.Lock()
	if l.closed {
		l.mu.Unlock()
		return ErrStopped
	}
	l.asking.Add(1)
	l.mu.Unlock()
	defer l.asking.Done()
	return question(ctx, l.session.catalogue)
}

// Beat asks whether the plugin is well. go-plugin's own Ping has no deadline and takes NOT_SERVING for an answer.
func (l *Live) Beat(ctx context.Context) error {
	conn, err := l.session.conn()
	if err != nil {
		return err
	}
	answer, err := healthpb.NewHealthClient(conn).Check(ctx, &healthpb.HealthCheckRequest{Service: plugin.GRPCServiceName})
	if err != nil {
		return errors.New(status.Convert(err).Message())
	}
	if s := answer.GetStatus(); s != healthpb.HealthCheckResponse_SERVING {
		return fmt.Errorf("its health is %s", s)
	}
	return nil
}

// conn is the connection to the plugin.
func (s *session) conn() (*grpc.ClientConn, error) {
	protocol, err := s.client.Client() // connected already, so it does not wait
	if err != nil {
		return nil, err
	}
	client, ok := protocol.(*plugin.GRPCClient)
	if !ok {
		return nil, fmt.Errorf("the plugin is reached by %T, not by gRPC", protocol)
	}
	return client.Conn, nil
}

// Ended is closed once the process is gone, however it went.
func (l *Live) Ended() <-chan struct{} { return l.session.process.exited }

// PID is the process ID of the plugin.
func (l *Live) PID() string { return l.session.process.ID() }

// Why says how the plugin ended, if it did, or what else is wrong with it.
func (l *Live) Why(trouble error) *Failure {
	f := &Failure{Plugin: l.session.plugin.Name, What: "is not well while it is kept running", Err: errors.Join(ErrCall, trouble)}
	select {
	case <-l.session.process.exited:
		how, _ := l.session.process.ended(time.Second) // with all it wrote
		f.What, f.Err = fmt.Sprintf("ended while it was kept running (%s)", how), errors.Join(ErrCall, ErrDied)
	default:
	}
	f.Stderr = l.session.out.lastWords()
	return f
}

// Stop takes no more questions, waits for those in flight as long as ctx lasts, and ends the plugin for good. It may be
// called again.
func (l *Live) Stop(ctx context.Context) {
	l.mu.Lock()
	first := !l.closed
	l.closed = true
	l.mu.Unlock()
	if !first {
		return
	}
	answered := make(chan struct{})
	go func() { l.asking.Wait(); close(answered) }()
	grace := l.grace
	select {
	case <-answered:
	case <-l.session.process.exited:
		grace = 0
	case <-ctx.Done():
		grace = 0
	}
	l.session.stop(grace)
}
