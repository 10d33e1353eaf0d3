package gate

import (
	"context"
	"net"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/metadata"
	"google.golang.org/grpc/peer"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"

	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/config"
)

var sizes = &grpc.UnaryServerInfo{FullMethod: pb.HydraulicsService_ListPipeSizes_FullMethodName}

func from(ctx context.Context, address string) context.Context {
	at, err := net.ResolveTCPAddr("tcp", address)
	if err != nil {
		panic(err)
	}
	return peer.NewContext(ctx, &peer.Peer{Addr: at})
}

func settings(t *testing.T, change func(*config.Settings)) *config.Settings {
	t.Helper()
	s, err := config.Defaults()
	require.NoError(t, err)
	change(s)
	return s
}

// hold begins a call and returns what lets it end.
func hold(g *Gate, ctx context.Context) (done chan error, release chan struct{}) {
	began, release, done := make(chan struct{}), make(chan struct{}), make(chan error, 1)
	go func() {
		_, err := g.Unary(ctx, nil, sizes, func(context.Context, any) (any, error) { close(began); <-release; return nil, nil })
		done <- err
	}()
	<-began
	return done, release
}

func try(g *Gate, ctx context.Context) error {
	_, err := g.Unary(ctx, nil, sizes, func(context.Context, any) (any, error) { return nil, nil })
	return err
}

func TestTooManyAtOnce(t *testing.T) {
	counted := map[Reason]int{}
	g := New(settings(t, func(s *config.Settings) { s.Limits.Calls, s.Limits.CallsPerClient = 2, 1 }), func(r Reason) { counted[r]++ })
	one, two, three := from(t.Context(), "192.0.2.1:1"), from(t.Context(), "192.0.2.2:1"), from(t.Context(), "192.0.2.3:1")
	doneOne, releaseOne := hold(g, one)
	assert.Equal(t, codes.ResourceExhausted, status.Code(try(g, one)), "one of this client is in hand")
	doneTwo, releaseTwo := hold(g, two)
	assert.Equal(t, codes.ResourceExhausted, status.Code(try(g, three)), "two of all are in hand")
	assert.Equal(t, 2, g.InHand())
	close(releaseOne)
	require.NoError(t, <-doneOne)
	assert.NoError(t, try(g, three))
	close(releaseTwo)
	require.NoError(t, <-doneTwo)
	assert.Zero(t, g.InHand())
	assert.Equal(t, map[Reason]int{TooMany: 1, Overloaded: 1}, counted)
}

// A panic of a call gives its place back.
func TestAPanicGivesItsPlaceBack(t *testing.T) {
	g := New(settings(t, func(*config.Settings) {}), nil)
	assert.Panics(t, func() {
		_, _ = g.Unary(from(t.Context(), "192.0.2.1:1"), nil, sizes, func(context.Context, any) (any, error) { panic("x") })
	})
	assert.Zero(t, g.InHand())
}

// Where nobody has a name, only this machine does more than calculate; what comes in through memory is of no machine.
func TestOnlyThisMachineOperatesWithoutAName(t *testing.T) {
	g := New(settings(t, func(*config.Settings) {}), nil)
	reflection := "/grpc.reflection.v1.ServerReflection/ServerReflectionInfo"
	for ctx, may := range map[context.Context]bool{
		from(t.Context(), "127.0.0.1:9"): true, from(t.Context(), "192.0.2.1:9"): false, t.Context(): false,
	} {
		_, err := g.admit(ctx, reflection, nil)
		assert.Equal(t, may, err == nil)
		_, err = g.admit(ctx, sizes.FullMethod, nil)
		assert.NoError(t, err)
	}
}

// Only the server's own listener may say where a call comes from.
func TestForwardedOriginNeedsTheSecret(t *testing.T) {
	g := New(settings(t, func(*config.Settings) {}), nil)
	out, _ := metadata.FromOutgoingContext(g.Forward(t.Context(), "192.0.2.7:80", nil))
	assert.Equal(t, "192.0.2.7", g.origin(from(t.Context(), "127.0.0.1:1"), out).address)
	forged := out.Copy()
	forged.Set(headerSecret, "guess")
	assert.Equal(t, "127.0.0.1", g.origin(from(t.Context(), "127.0.0.1:1"), forged).address)

	said := metadata.NewOutgoingContext(t.Context(), metadata.Pairs(headerCertificate, "boss", headerAddress, "127.0.0.1"))
	out, _ = metadata.FromOutgoingContext(g.Forward(said, "192.0.2.7:80", nil))
	assert.Equal(t, origin{address: "192.0.2.7"}, g.origin(t.Context(), out), "what the caller has sent under these names is dropped")
}

func TestStrangersAreBounded(t *testing.T) {
	s := newStrangers()
	for i := range 3 * mostStrangers {
		s.caller(net.IPv4(10, byte(i>>16), byte(i>>8), byte(i)).String(), func() *Caller { return &Caller{} })
	}
	assert.LessOrEqual(t, len(s.held), mostStrangers)
}

// Every method of the API has a role, and those that change nothing have that of callers.
func TestEveryMethodHasARole(t *testing.T) {
	r, seen := newRules(), 0
	protoregistry.GlobalFiles.RangeFilesByPackage("pondwright.v1", func(f protoreflect.FileDescriptor) bool {
		for i := range f.Services().Len() {
			for j := range f.Services().Get(i).Methods().Len() {
				m := f.Services().Get(i).Methods().Get(j)
				role := r["/"+string(m.Parent().FullName())+"/"+string(m.Name())]
				assert.Contains(t, []string{config.Calculate, config.Reload}, role, m.FullName())
				seen++
			}
		}
		return true
	})
	assert.Greater(t, seen, 30)
}
