package service

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// A caller who is gone by the time the work begins must not be worked for. Over the wire the client would give up by
// itself and never learn whether the engine did.
func TestRipeningStopsWhenTheCallerIsGone(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	days := int32(366)
	_, err := filtration{engine: new(Engine)}.RipenFilter(ctx, &pb.RipenFilterRequest{
		PondVolumeL: 1000, Days: &days, Load: []*pb.LoadStep{{Load: &pb.LoadStep_TanGPerDay{TanGPerDay: 1}}},
	})
	assert.Equal(t, codes.Canceled, status.Code(err))
}
