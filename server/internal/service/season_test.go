package service

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// A caller who has gone gets no year, and costs none.
func TestAYearEndsWithItsCaller(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := seasons{engine: new(Engine)}.SimulateYear(ctx, &pb.SimulateYearRequest{
		Climate: &pb.SiteClimate{Weather: &pb.SiteClimate_Named{Named: "maritime"}},
		Pond:    &pb.SeasonPond{Water: &pb.SeasonPond_Measures{Measures: &pb.PondWater{VolumeL: 5000, SurfaceM2: 6}}},
	})
	assert.Equal(t, codes.Canceled, status.Code(err))
}
