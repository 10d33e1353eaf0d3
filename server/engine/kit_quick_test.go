package engine_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// Six questions as they are asked across a counter, with the flow that the trade would look for: common practice, no source.
func TestQuickBriefs(t *testing.T) {
	_, conn := start(t)
	client := pb.NewKitServiceClient(conn)
	box := func(l, w, d float64, sides pb.PondSides) *pb.QuickBrief {
		return &pb.QuickBrief{Water: &pb.QuickBrief_Size{Size: &pb.QuickSize{LengthM: l, WidthM: w, DepthM: d, Sides: sides}}, HoseLengthM: 4}
	}
	litres := func(l float64) *pb.QuickBrief {
		return &pb.QuickBrief{Water: &pb.QuickBrief_VolumeL{VolumeL: l}, HoseLengthM: 4}
	}
	with := func(q *pb.QuickBrief, change func(*pb.QuickBrief)) *pb.QuickBrief { change(q); return q }
	fall := func(height, width float64) *pb.QuickFall { return &pb.QuickFall{HeightM: &height, WidthCm: width} }
	for name, test := range map[string]struct {
		ask         *pb.QuickBrief
		volume      float64 // by length × width × depth and the share of it, which is arithmetic
		least, most float64 // flow wanted
		why         string
	}{
		"litres and goldfish": {with(litres(2000), func(q *pb.QuickBrief) { q.Fish, q.FishCount = pb.Species_SPECIES_GOLDFISH, 8 }),
			2000, 500, 2000, "goldfish water goes round every one to four hours"},
		"litres, goldfish, fall": {with(litres(3000), func(q *pb.QuickBrief) {
			q.Fish, q.FishCount, q.Fall = pb.Species_SPECIES_GOLDFISH, 10, fall(0.5, 20)
		}), 3000, 2400, 2400, "a full sheet is 120 L/h over each of 20 cm, more than the pond needs"},
		"box, no fish, fall":  {with(box(3, 2, 0.6, pb.PondSides_POND_SIDES_UPRIGHT), func(q *pb.QuickBrief) { q.Fall = fall(0.8, 30) }), 3600, 3600, 3600, "30 cm at 120 L/h"},
		"shelves, goldfish":   {with(box(3, 2, 0.8, pb.PondSides_POND_SIDES_SHELVES), func(q *pb.QuickBrief) { q.Fish, q.FishCount = pb.Species_SPECIES_GOLDFISH, 8 }), 2880, 700, 2880, "as above"},
		"saucer, fall":        {with(box(5, 3, 0.8, pb.PondSides_POND_SIDES_SAUCER), func(q *pb.QuickBrief) { q.Fall = fall(0.6, 25) }), 4200, 3000, 3000, "25 cm at 120 L/h"},
		"steep walls and koi": {with(box(4, 2.5, 1.2, pb.PondSides_POND_SIDES_STEEP), func(q *pb.QuickBrief) { q.Fish, q.FishCount = pb.Species_SPECIES_KOI, 4 }), 10200, 5000, 10200, "koi water goes round every one to two hours"},
	} {
		t.Run(name, func(t *testing.T) {
			resp, err := client.SuggestKits(t.Context(), &pb.SuggestKitsRequest{QuickBrief: test.ask})
			require.NoError(t, err)
			assert.InEpsilon(t, test.volume, resp.GetPond().GetVolumeL(), 1e-6)
			assert.GreaterOrEqual(t, resp.GetWanted().GetLeastLPerH(), test.least-1e-6, test.why)
			assert.LessOrEqual(t, resp.GetWanted().GetLeastLPerH(), test.most+1e-6, test.why)
			require.NotEmpty(t, resp.GetKits())
			assert.Equal(t, test.ask.GetFishCount() > 0, resp.GetKits()[0].GetFilter() != nil)
			assert.NotNil(t, finding(resp.GetFindings(), "ASSUMED"))

			again, err := client.SuggestKits(t.Context(), &pb.SuggestKitsRequest{Brief: resp.GetBrief()})
			require.NoError(t, err)
			require.Len(t, again.GetKits(), len(resp.GetKits()))
			for i := range resp.GetKits() {
				assert.True(t, proto.Equal(resp.GetKits()[i], again.GetKits()[i]), "the brief that was filled in is the one that was answered")
			}
		})
	}
}
