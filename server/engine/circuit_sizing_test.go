package engine_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// flowOf asks what really flows in a branch of a circuit.
func flowOf(t *testing.T, client pb.CircuitServiceClient, c *pb.Circuit, branch string) float64 {
	t.Helper()
	resp, err := client.SolveCircuit(t.Context(), &pb.SolveCircuitRequest{Circuit: c})
	require.NoError(t, err)
	for _, b := range resp.GetSolution().GetBranches() {
		if b.GetBranch() == branch {
			return b.GetFlowLPerH()
		}
	}
	t.Fatalf("no branch %s", branch)
	return 0
}

// Law: the least bore gives the flow and the next smaller does not; least cost is the least of the totals that do.
func TestSizeHose(t *testing.T) {
	_, conn := start(t)
	client := pb.NewCircuitServiceClient(conn)
	req := &pb.SizeHoseRequest{
		Circuit: gardenCircuit(), Wish: &pb.FlowWish{Branch: "fall", FlowLPerH: 1300}, Hoses: []string{"rising hose"}, Workings: true,
	}
	for _, size := range []string{"hose-25", "hose-32", "hose-40", "hose-50"} {
		req.Offers = append(req.Offers, &pb.HoseOffer{
			Name: size, Size: &pb.HoseOffer_PipeSize{PipeSize: size}, PricePerM: number(float64(len(req.Offers)) + 2),
		})
	}
	byBore, err := client.SizeHose(t.Context(), req)
	require.NoError(t, err)
	reached := ""
	for _, trial := range byBore.GetTrials() {
		if trial.GetFlowLPerH() >= 1300 && reached == "" {
			reached = trial.GetOffer()
		}
	}
	require.NotEmpty(t, reached, "%v %v", byBore.GetTrials(), byBore.GetFindings())
	assert.Equal(t, reached, byBore.GetChosen())

	req.Economy = &pb.HoseEconomy{Years: 5, HoursPerDay: 24, EnergyPricePerKwh: 0.3}
	byCost, err := client.SizeHose(t.Context(), req)
	require.NoError(t, err)
	least := ""
	best := 0.0
	for _, trial := range byCost.GetTrials() {
		if trial.GetFlowLPerH() >= 1300 && (least == "" || trial.GetTotalCost() < best) {
			least, best = trial.GetOffer(), trial.GetTotalCost()
			assert.InEpsilon(t, trial.GetHoseCost()+trial.GetEnergyCost(), trial.GetTotalCost(), 1e-12)
		}
	}
	assert.Equal(t, least, byCost.GetChosen())
	replaySteps(t, byCost.GetWorkings())
}

// Law: a circuit with its pump at the speed found carries the flow asked for.
func TestSlowedPumpsGiveTheFlow(t *testing.T) {
	_, conn := start(t)
	client := pb.NewCircuitServiceClient(conn)
	resp, err := client.AdjustFlow(t.Context(), &pb.AdjustFlowRequest{
		Circuit: gardenCircuit(), Wish: &pb.FlowWish{Branch: "fall", FlowLPerH: 1500}, Means: &pb.AdjustFlowRequest_Slow{Slow: &pb.SlowPumps{}},
	})
	require.NoError(t, err)
	require.NotNil(t, resp.Speed)
	slowed := gardenCircuit()
	slowed.GetPump()[0].GetPump().Speed = resp.Speed
	assert.InEpsilon(t, 1500, flowOf(t, client, slowed, "fall"), 1e-6)
}

// Law: with valves set as told, each branch carries its share.
func TestSplitSharesTheWaterAsAsked(t *testing.T) {
	_, conn := start(t)
	client := pb.NewCircuitServiceClient(conn)
	resp, err := client.AdjustFlow(t.Context(), &pb.AdjustFlowRequest{
		Circuit: gardenCircuit(), Wish: &pb.FlowWish{FlowLPerH: 1}, Workings: true,
		Means: &pb.AdjustFlowRequest_Split{Split: &pb.SplitFlow{Fork: "delivery", Shares: []*pb.FlowShare{
			{Branch: "fall", SharePercent: 60, BoreMm: 40}, {Branch: "return", SharePercent: 40, BoreMm: 32},
		}}},
	})
	require.NoError(t, err)
	require.Len(t, resp.GetSettings(), 2)
	set := gardenCircuit()
	for i, s := range resp.GetSettings() {
		if s.GetLossCoefficient() == 0 {
			continue
		}
		branch := set.GetDelivery().GetFork().GetBranches()[i]
		require.Equal(t, s.GetBranch(), branch.GetName())
		branch.Parts = append(branch.Parts, &pb.CircuitPart{Name: "valve " + branch.GetName(), Part: &pb.CircuitPart_Valve{Valve: &pb.ValvePart{
			Opening: &pb.ValvePart_Loss{Loss: &pb.BoreLoss{BoreMm: []float64{40, 32}[i], LossCoefficient: s.GetLossCoefficient()}},
		}}})
	}
	fall, back := flowOf(t, client, set, "fall"), flowOf(t, client, set, "return")
	assert.InEpsilon(t, 0.6, fall/(fall+back), 1e-6)
	assert.InEpsilon(t, resp.GetFlowLPerH(), fall+back, 1e-6)
	replaySteps(t, resp.GetWorkings())
}

// A flow measured as calculated needs nothing to explain it; a good deal less does. 12 L in 41 s are 1 054 L/h by division.
func TestCalibrateByBucket(t *testing.T) {
	_, conn := start(t)
	client := pb.NewCircuitServiceClient(conn)
	fall := flowOf(t, client, gardenCircuit(), "fall")
	ask := func(litres, seconds float64) *pb.CalibrateCircuitResponse {
		resp, err := client.CalibrateCircuit(t.Context(), &pb.CalibrateCircuitRequest{
			Circuit: gardenCircuit(), Branch: "fall", Workings: true, Measurement: &pb.CalibrateCircuitRequest_Bucket{
				Bucket: &pb.BucketMeasurement{VolumeL: litres, TimeS: seconds, TimeUnsureS: 0.3},
			},
		})
		require.NoError(t, err)
		replaySteps(t, resp.GetWorkings())
		return resp
	}
	asCalculated := ask(60, 60/fall*3600)
	assert.InDelta(t, 0, asCalculated.GetExtraHeadM().GetExpected(), 1e-6)
	weak := ask(12, 41)
	assert.InEpsilon(t, 12*3600/41.0, weak.GetMeasuredLPerH(), 1e-12)
	assert.Greater(t, weak.GetExtraHeadM().GetExpected(), 0.2)
	assert.NotEmpty(t, weak.GetFindings())
}

func TestThrottleANamedValve(t *testing.T) {
	_, conn := start(t)
	client := pb.NewCircuitServiceClient(conn)
	c := gardenCircuit()
	c.GetDelivery().GetFork().Branches[1].Parts = append(c.GetDelivery().GetFork().Branches[1].Parts, &pb.CircuitPart{
		Name: "gate", Part: &pb.CircuitPart_Valve{Valve: &pb.ValvePart{
			Opening: &pb.ValvePart_Loss{Loss: &pb.BoreLoss{BoreMm: 32, LossCoefficient: 0.2}},
		}},
	})
	resp, err := client.AdjustFlow(t.Context(), &pb.AdjustFlowRequest{
		Circuit: c, Wish: &pb.FlowWish{Branch: "return", FlowLPerH: 2000}, Means: &pb.AdjustFlowRequest_Throttle{Throttle: "gate"},
	})
	require.NoError(t, err)
	require.Len(t, resp.GetSettings(), 1)
	assert.InEpsilon(t, 2000, resp.GetSettings()[0].GetFlowLPerH(), 1e-6)
	assert.Positive(t, resp.GetSettings()[0].GetHeadM())

	_, err = client.AdjustFlow(t.Context(), &pb.AdjustFlowRequest{
		Circuit: c, Wish: &pb.FlowWish{Branch: "return", FlowLPerH: 2000}, Means: &pb.AdjustFlowRequest_Throttle{Throttle: "marmalade"},
	})
	assert.NotEmpty(t, fields(t, err))
}
