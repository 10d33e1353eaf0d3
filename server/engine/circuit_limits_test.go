package engine_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// twoReturns is invented: 2 m of suction hose, a rise, a fall 1.2 m up and a jet under water behind a valve. No fitting is told.
func twoReturns() *pb.Circuit {
	surface := func() *pb.CircuitBranch_Surface {
		return &pb.CircuitBranch_Surface{Surface: &pb.OpenSurface{LevelM: number(0.0)}}
	}
	valve := &pb.CircuitPart{Name: "valve", Part: &pb.CircuitPart_Valve{Valve: &pb.ValvePart{Opening: &pb.ValvePart_KvM3PerH{KvM3PerH: 3}}}}
	return &pb.Circuit{
		Intake: &pb.CircuitBranch{Name: "pond", Parts: []*pb.CircuitPart{hosePart("suction", 2, 50, "")}, End: surface()},
		Pump: []*pb.CircuitPart{{Name: "pump", Part: &pb.CircuitPart_Pump{Pump: &pb.PumpPart{Pump: &eq.Pump{
			Curve: curve(0, 3, 1000, 2.83, 2000, 2.42, 3000, 1.8, 4000, 0.99, 5000, 0),
		}}}}},
		Delivery: &pb.CircuitBranch{
			Name: "rise", Parts: []*pb.CircuitPart{hosePart("rising hose", 5, 32, "")},
			End: &pb.CircuitBranch_Fork{Fork: &pb.BranchFork{Branches: []*pb.CircuitBranch{
				{
					Name: "fall", Parts: []*pb.CircuitPart{hosePart("fall hose", 3, 32, "")},
					End: &pb.CircuitBranch_Outlet{Outlet: &pb.OpenOutlet{LevelM: number(1.2)}},
				},
				{Name: "jet", Parts: []*pb.CircuitPart{hosePart("jet hose", 4, 20, ""), valve}, End: surface()},
			}}},
		},
	}
}

// Reference: scipy 1.10.1, brentq on the head at the fork with Colebrook's law by brentq, PchipInterpolator on the curve and an
// entry of K 0.5 before the suction hose and exits of K 1 behind the two others; ν = 1.138589420×10⁻⁶ m²/s. Ten digits kept.
func TestWaterLosesHeadWhereItEntersAndLeaves(t *testing.T) {
	_, conn := start(t)
	client := pb.NewCircuitServiceClient(conn)
	resp, err := client.SolveCircuit(t.Context(), &pb.SolveCircuitRequest{Circuit: twoReturns()})
	require.NoError(t, err)
	assert.InEpsilon(t, 3299.375935, resp.GetSolution().GetFlowLPerH(), 1e-9)
	assert.InEpsilon(t, 1.578407557, resp.GetSolution().GetHeadM(), 1e-9)
	assert.InEpsilon(t, 2331.521092, resp.GetSolution().GetBranches()[2].GetFlowLPerH(), 1e-9)
	assert.InEpsilon(t, 967.8548433, resp.GetSolution().GetBranches()[3].GetFlowLPerH(), 1e-9)
	assert.Equal(t, "suction", resp.GetFindings()[0].GetSubject(), "how water enters was assumed")

	said := twoReturns()
	said.Intake.Parts[0].GetHose().FittingsInWords = "1 entry"
	for _, branch := range said.GetDelivery().GetFork().GetBranches() {
		branch.Parts[0].GetHose().FittingsInWords = "1 exit"
	}
	same, err := client.SolveCircuit(t.Context(), &pb.SolveCircuitRequest{Circuit: said})
	require.NoError(t, err)
	assert.InEpsilon(t, 3299.375935, same.GetSolution().GetFlowLPerH(), 1e-9, "said and assumed are not added up")
	assert.Less(t, len(same.GetFindings()), len(resp.GetFindings()))
}

// A name that the circuit does not have, or has twice, is refused by its field and never passed over.
func TestNamesThatDoNotFitAreRefused(t *testing.T) {
	_, conn := start(t)
	client := pb.NewCircuitServiceClient(conn)
	refusedFields := func(err error) []string { return fields(t, err) }

	_, err := client.SolveCircuit(t.Context(), &pb.SolveCircuitRequest{
		Circuit: twoReturns(), InfluencesOn: "spout", Measured: []*pb.MeasuredInput{{Name: "jet hose"}, {Name: "fall"}, {Name: "spout"}},
	})
	assert.Equal(t, []string{"influences_on", "measured[2].name"}, refusedFields(err))

	twice := twoReturns()
	twice.GetDelivery().GetFork().Branches[1].Name = "fall"
	_, err = client.SolveCircuit(t.Context(), &pb.SolveCircuitRequest{Circuit: twice})
	assert.Equal(t, []string{"circuit.delivery.fork.branches[1].name"}, refusedFields(err))

	twice = twoReturns()
	twice.GetDelivery().GetFork().Branches[1].Parts[0].Name = "fall hose"
	_, err = client.SolveCircuit(t.Context(), &pb.SolveCircuitRequest{Circuit: twice})
	assert.Equal(t, []string{"circuit.delivery.fork.branches[1].parts[0].name"}, refusedFields(err))

	_, err = client.SizeHose(t.Context(), &pb.SizeHoseRequest{
		Circuit: twoReturns(), Wish: &pb.FlowWish{Branch: "spout", FlowLPerH: 100}, Hoses: []string{"jet hose", "gone"},
		Offers: []*pb.HoseOffer{{Name: "a", Size: &pb.HoseOffer_BoreMm{BoreMm: 25}}},
	})
	assert.Equal(t, []string{"wish.branch", "hoses[1]"}, refusedFields(err))

	_, err = client.AdjustFlow(t.Context(), &pb.AdjustFlowRequest{
		Circuit: twoReturns(), Wish: &pb.FlowWish{FlowLPerH: 1}, Means: &pb.AdjustFlowRequest_Split{Split: &pb.SplitFlow{
			Fork: "rise", Shares: []*pb.FlowShare{{Branch: "fall", SharePercent: 50, BoreMm: 32}, {Branch: "spout", SharePercent: 50, BoreMm: 32}},
		}},
	})
	assert.Equal(t, []string{"split.shares[1].branch"}, refusedFields(err))

	_, err = client.CalibrateCircuit(t.Context(), &pb.CalibrateCircuitRequest{
		Circuit: twoReturns(), Branch: "spout",
		Measurement: &pb.CalibrateCircuitRequest_Bucket{Bucket: &pb.BucketMeasurement{VolumeL: 10, TimeS: 10}},
	})
	assert.Equal(t, []string{"branch"}, refusedFields(err))
}

// A cost is shown only where the flow is reached: an offer that is too narrow must not look free.
func TestNoCostOfAHoseThatIsTooNarrow(t *testing.T) {
	_, conn := start(t)
	resp, err := pb.NewCircuitServiceClient(conn).SizeHose(t.Context(), &pb.SizeHoseRequest{
		Circuit: gardenCircuit(), Wish: &pb.FlowWish{Branch: "fall", FlowLPerH: 1300}, Hoses: []string{"rising hose"},
		Offers: []*pb.HoseOffer{
			{Name: "narrow", Size: &pb.HoseOffer_BoreMm{BoreMm: 25}, PricePerM: number(2.0)},
			{Name: "wide", Size: &pb.HoseOffer_BoreMm{BoreMm: 40}, PricePerM: number(4.0)},
		},
		Economy: &pb.HoseEconomy{Years: 5, HoursPerDay: 24, EnergyPricePerKwh: 0.3},
	})
	require.NoError(t, err)
	assert.Equal(t, "wide", resp.GetChosen())
	assert.Nil(t, resp.GetTrials()[0].TotalCost)
	assert.NotNil(t, resp.GetTrials()[1].TotalCost)
}

// A foot valve keeps the water in the hoses, whether it is a part or a fitting; heights are from the pond.
func TestWhatKeepsWaterInTheHoses(t *testing.T) {
	_, conn := start(t)
	client := pb.NewCircuitServiceClient(conn)
	ask := func(intake *pb.CircuitBranch) (*pb.CalculateStatesResponse, error) {
		c := gardenCircuit()
		c.Intake = intake
		return client.CalculateStates(t.Context(), &pb.CalculateStatesRequest{
			Circuit: c, Pond: &pb.StatesPond{Water: &pb.StatesPond_SurfaceM2{SurfaceM2: 20}},
		})
	}
	at := func(level float64) *pb.CircuitBranch_Surface {
		return &pb.CircuitBranch_Surface{Surface: &pb.OpenSurface{LevelM: &level, MouthM: 0.9}}
	}
	flap := &pb.CircuitPart{Name: "flap", Part: &pb.CircuitPart_CheckValve{CheckValve: &pb.CheckPart{Loss: &pb.BoreLoss{BoreMm: 50, LossCoefficient: 2}}}}
	for _, held := range []*pb.CircuitPart{flap, hosePart("suction", 2, 50, "1 foot valve")} {
		resp, err := ask(&pb.CircuitBranch{Name: "intake", Parts: []*pb.CircuitPart{held}, End: at(0)})
		require.NoError(t, err)
		assert.Zero(t, resp.GetStopped().GetFromHosesL(), held.GetName())
	}
	free, err := ask(&pb.CircuitBranch{Name: "intake", Parts: []*pb.CircuitPart{hosePart("suction", 2, 50, "")}, End: at(0)})
	require.NoError(t, err)
	assert.Positive(t, free.GetStopped().GetFromHosesL())
	_, err = ask(&pb.CircuitBranch{Name: "intake", End: at(1)})
	assert.Equal(t, []string{"circuit.intake.surface.level_m"}, fields(t, err))
}

// pathsWithinPaths is a circuit of two ways side by side, one of which is again two ways, and so on: each takes long to solve.
func pathsWithinPaths(deep int) *pb.Circuit {
	path := hosePart("inmost", 3, 32, "")
	for i := range deep {
		path = &pb.CircuitPart{Name: fmt.Sprintf("stretch %d", i), Part: &pb.CircuitPart_Parallel{Parallel: &pb.ParallelPart{Paths: []*pb.CircuitPath{
			{Name: fmt.Sprintf("way %d", i), Parts: []*pb.CircuitPart{path}},
			{Name: fmt.Sprintf("other way %d", i), Parts: []*pb.CircuitPart{hosePart(fmt.Sprintf("hose %d", i), 3, 32, "")}},
		}}}}
	}
	c := gardenCircuit()
	c.Delivery = &pb.CircuitBranch{Name: "delivery", Parts: []*pb.CircuitPart{path}, End: &pb.CircuitBranch_Outlet{Outlet: &pb.OpenOutlet{LevelM: number(0.3)}}}
	return c
}

// A call whose caller has gone ends soon, however much there is to work out: sixty hoses for a circuit of paths within paths, each
// of which takes a good part of a second.
func TestALongSearchStopsWithItsCaller(t *testing.T) {
	e, conn := start(t)
	c := pathsWithinPaths(5)
	req := &pb.SizeHoseRequest{Circuit: c, Wish: &pb.FlowWish{FlowLPerH: 100}, Hoses: []string{"inmost"}}
	for i := range 60 {
		req.Offers = append(req.Offers, &pb.HoseOffer{Name: fmt.Sprint(i), Size: &pb.HoseOffer_BoreMm{BoreMm: 20 + float64(i)}})
	}
	ctx, cancel := context.WithTimeout(t.Context(), 100*time.Millisecond)
	defer cancel()
	_, err := pb.NewCircuitServiceClient(conn).SizeHose(ctx, req)
	assert.Equal(t, codes.DeadlineExceeded, status.Code(err))

	drained, done := context.WithTimeout(context.Background(), 3*time.Second)
	defer done()
	assert.NoError(t, e.Stop(drained), "nothing is at work any more")
}
