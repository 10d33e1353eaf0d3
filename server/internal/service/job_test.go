package service

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/catalogue"
)

// A caller who is gone by the time the work begins must not be worked for. Over the wire the client would give up by itself and never
// learn whether the engine did.
func TestAJobStopsWhenTheCallerIsGone(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	store := catalogue.Frozen(new(catalogue.Snapshot))
	height := 0.5
	_, err := jobs{engine: &Engine{Store: store}}.PlanJob(ctx, &pb.PlanJobRequest{Job: &pb.JobBrief{Brief: &pb.Brief{
		Pond:     &pb.Pond{Bays: []*pb.Bay{{DepthM: 1, Outline: &pb.Bay_Rectangle{Rectangle: &pb.Rectangle{LengthM: 3, WidthM: 2}}}}},
		Fall:     &pb.Fall{HeightM: &height, SillWidthCm: 30, Wanted: &pb.Fall_Sheet{Sheet: pb.Sheet_SHEET_THIN}},
		Delivery: &pb.Delivery{HoseLengthM: 5},
	}}})
	assert.Equal(t, codes.Canceled, status.Code(err))
}

// The longest beginning that fits says where a field stands in a job.
func TestFieldsArePlacedInTheJob(t *testing.T) {
	p := placing{"": "lining", "bay": "brief.pond.bays[2]"}
	for field, want := range map[string]string{
		"bay.depth_m": "brief.pond.bays[2].depth_m", "bay": "brief.pond.bays[2]", "bayou": "lining.bayou", "edge.overlap_m": "lining.edge.overlap_m", "": "lining",
	} {
		assert.Equal(t, want, p.at(field), field)
	}
	assert.Equal(t, "pond.depth_m", placing{}.at("pond.depth_m"))
}
