package intercept

import (
	"bytes"
	"context"
	"errors"
	"log/slog"
	"testing"

	"buf.build/go/protovalidate"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/status"

	pb "example.com/pondwright/proto/pondwright/v1"
)

var info = &grpc.UnaryServerInfo{FullMethod: "/pondwright.v1.KitService/SuggestKits"}

func through(log *bytes.Buffer, handler grpc.UnaryHandler) error {
	_, err := Recover(slog.New(slog.NewTextHandler(log, nil)), nil)(context.Background(), nil, info, handler)
	return err
}

// A panic costs one call, tells the caller nothing of the inside, and stands in the log under the reference it was given.
func TestPanicsAndFaultsInsideAreReportedByReference(t *testing.T) {
	for name, handler := range map[string]grpc.UnaryHandler{
		"panic": func(context.Context, any) (any, error) { panic("secret of the inside") },
		"error": func(context.Context, any) (any, error) { return nil, errors.New("secret of the inside") },
	} {
		t.Run(name, func(t *testing.T) {
			var log bytes.Buffer
			s := status.Convert(through(&log, handler))
			assert.Equal(t, codes.Internal, s.Code())
			assert.NotContains(t, s.Message(), "secret")
			require.Len(t, s.Details(), 1)
			reference := s.Details()[0].(*errdetails.ErrorInfo).GetMetadata()["reference"]
			require.NotEmpty(t, reference)
			assert.Contains(t, s.Message(), reference)
			assert.Contains(t, log.String(), reference)
			assert.Contains(t, log.String(), "secret of the inside")
		})
	}
}

// stream is one that nothing comes through.
type stream struct {
	grpc.ServerStream
	ctx context.Context
}

func (s stream) Context() context.Context { return s.ctx }

// A panic in a stream costs that stream, and is reported in the same way.
func TestAPanicInAStreamIsReportedByReference(t *testing.T) {
	var log bytes.Buffer
	counted := 0
	contained := RecoverStream(slog.New(slog.NewTextHandler(&log, nil)), func() { counted++ })
	err := contained(nil, stream{ctx: t.Context()}, &grpc.StreamServerInfo{FullMethod: "/pondwright.v1.CurveService/CheckCurves"},
		func(any, grpc.ServerStream) error { panic("secret of the inside") })
	s := status.Convert(err)
	assert.Equal(t, codes.Internal, s.Code())
	assert.NotContains(t, s.Message(), "secret")
	require.Len(t, s.Details(), 1)
	assert.Contains(t, log.String(), s.Details()[0].(*errdetails.ErrorInfo).GetMetadata()["reference"])
	assert.Contains(t, log.String(), "secret of the inside")
	assert.Equal(t, 1, counted)
}

func TestAStatusPassesAsItIs(t *testing.T) {
	var log bytes.Buffer
	err := through(&log, func(context.Context, any) (any, error) { return nil, status.Error(codes.NotFound, "no such pond") })
	assert.Equal(t, codes.NotFound, status.Code(err))
	assert.Empty(t, log.String())
}

func TestRequestsOfOthersAreNotHeldToOurRules(t *testing.T) {
	v, err := protovalidate.New()
	require.NoError(t, err)
	called := false
	next := func(context.Context, any) (any, error) { called = true; return nil, nil }
	_, err = Validate(v)(context.Background(), &healthpb.HealthCheckRequest{}, info, next)
	require.NoError(t, err)
	assert.True(t, called)

	called = false
	_, err = Validate(v)(context.Background(), &pb.SuggestKitsRequest{MaxKits: 99}, info, next)
	assert.False(t, called, "a request that breaks its rules never reaches its service")
	s := status.Convert(err)
	assert.Equal(t, codes.InvalidArgument, s.Code())
	bad := s.Details()[0].(*errdetails.BadRequest)
	require.Len(t, bad.GetFieldViolations(), 2)
	assert.Empty(t, bad.GetFieldViolations()[0].GetField(), "a rule between fields names none")
	assert.Equal(t, "SUGGEST_KITS_ONE_BRIEF", bad.GetFieldViolations()[0].GetReason())
	assert.Equal(t, "max_kits", bad.GetFieldViolations()[1].GetField())
	assert.Equal(t, "INT32_GTE_LTE", bad.GetFieldViolations()[1].GetReason())
}
