package service

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// A picture of twenty lamps takes a fifth of a second: it ends with the call.
func TestPictureStopsWhenTheCallerIsGone(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := uvLight{engine: new(Engine)}.CalculateField(ctx, &pb.CalculateFieldRequest{
		LampUnit: &eq.LampUnit{
			Lamp: eq.LampKind_LAMP_KIND_AMALGAM, LampCount: 1, PowerW: 100, ArcLengthMm: 300, SleeveDiameterMm: 25, ChamberDiameterMm: 70, ChamberLengthMm: 300,
		},
		Picture: &pb.CalculateFieldRequest_Grid{Grid: &pb.FieldGrid{Plane: pb.FieldPlane_FIELD_PLANE_LENGTHWISE, Columns: 2, Rows: 2}},
	})
	assert.Equal(t, codes.Canceled, status.Code(err))
}
