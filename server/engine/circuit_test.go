package engine_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

func hosePart(name string, length, bore float64, words string) *pb.CircuitPart {
	return &pb.CircuitPart{Name: name, Part: &pb.CircuitPart_Hose{Hose: &pb.HoseRun{
		LengthM: length, Size: &pb.HoseRun_BoreMm{BoreMm: bore}, FittingsInWords: words,
	}}}
}

// gardenCircuit is invented: a pump on the floor of a pond of 20 m², a filter, a fall and a return under water.
func gardenCircuit() *pb.Circuit {
	return &pb.Circuit{
		Intake: &pb.CircuitBranch{Name: "intake", End: &pb.CircuitBranch_Surface{Surface: &pb.OpenSurface{LevelM: number(0.0), MouthM: 0.9}}},
		Pump: []*pb.CircuitPart{{Name: "pump", Part: &pb.CircuitPart_Pump{Pump: &pb.PumpPart{Pump: &eq.Pump{
			PowerW: number(95.0), Curve: curve(0, 3.4, 4000, 3.0, 8000, 2.1, 12000, 0),
		}}}}},
		Delivery: &pb.CircuitBranch{
			Name: "delivery",
			Parts: []*pb.CircuitPart{
				{Name: "filter", Part: &pb.CircuitPart_Device{Device: &pb.DevicePart{
					Clean: &eq.LossPoint{FlowLPerH: 6000, HeadM: number(0.3)}, DueHeadM: number(1.2),
				}}},
				hosePart("common hose", 2, 40, "2 slow bends"),
			},
			End: &pb.CircuitBranch_Fork{Fork: &pb.BranchFork{Branches: []*pb.CircuitBranch{
				{
					Name: "fall", Parts: []*pb.CircuitPart{hosePart("rising hose", 8, 40, "1 exit")},
					End: &pb.CircuitBranch_Outlet{Outlet: &pb.OpenOutlet{LevelM: number(1.1)}},
				},
				{
					Name: "return", Parts: []*pb.CircuitPart{hosePart("low hose", 5, 32, "1 exit")},
					End: &pb.CircuitBranch_Surface{Surface: &pb.OpenSurface{LevelM: number(0.0), MouthM: 0.2}},
				},
			}}},
		},
	}
}

// Law: what goes into a fork comes out of it; the influences share the width between them; more head lost in a filter due for
// cleaning never gives more flow.
func TestCircuitWithTwoReturns(t *testing.T) {
	_, conn := start(t)
	client := pb.NewCircuitServiceClient(conn)
	clean, err := client.SolveCircuit(t.Context(), &pb.SolveCircuitRequest{Circuit: gardenCircuit(), InfluencesOn: "fall", Workings: true})
	require.NoError(t, err)
	flow := map[string]float64{}
	for _, b := range clean.GetSolution().GetBranches() {
		flow[b.GetBranch()] = b.GetFlowLPerH()
	}
	assert.Positive(t, flow["fall"])
	assert.Positive(t, flow["return"])
	assert.InEpsilon(t, clean.GetSolution().GetFlowLPerH(), flow["fall"]+flow["return"], 1e-9)
	assert.InDelta(t, 95, clean.GetSolution().GetPowerW(), 0)

	shares := 0.0
	for _, i := range clean.GetWidth().GetInfluences() {
		shares += i.GetSharePercent()
		assert.NotEmpty(t, i.GetInput())
	}
	assert.InDelta(t, 100, shares, 1e-9)
	band := clean.GetWidth().GetFlowLPerH()
	assert.Less(t, band.GetLow(), band.GetExpected())
	assert.Greater(t, band.GetHigh(), band.GetExpected())
	replaySteps(t, clean.GetWorkings())

	due, err := client.SolveCircuit(t.Context(), &pb.SolveCircuitRequest{Circuit: gardenCircuit(), Due: true})
	require.NoError(t, err)
	assert.Less(t, due.GetSolution().GetFlowLPerH(), clean.GetSolution().GetFlowLPerH())
}

func TestEverythingWrongWithACircuitIsNamed(t *testing.T) {
	_, conn := start(t)
	c := gardenCircuit()
	c.Delivery.Parts[1].GetHose().Size = &pb.HoseRun_PipeSize{PipeSize: "hose-41"}
	c.GetDelivery().GetFork().Branches[0].Parts[0].GetHose().FittingsInWords = "2 marmalades"
	c.Pump[0].GetPump().Pump.Curve[3].FlowLPerH = number(7000.0)
	_, err := pb.NewCircuitServiceClient(conn).SolveCircuit(t.Context(), &pb.SolveCircuitRequest{Circuit: c})
	named := fields(t, err)
	assert.Contains(t, named, "circuit.delivery.parts[1].hose.pipe_size")
	assert.Contains(t, named, "circuit.delivery.fork.branches[0].parts[0].hose.fittings_in_words")
	assert.Contains(t, named, "circuit.pump[0].pump.pump.curve[3].flow_l_per_h")
}

// 3 minutes of the flow over 20 m² is arithmetic, as is the water of 10 m of hose of 40 mm bore: π/4 · 0.04² · 10 m³.
func TestAllStatesOfOneCircuit(t *testing.T) {
	_, conn := start(t)
	resp, err := pb.NewCircuitServiceClient(conn).CalculateStates(t.Context(), &pb.CalculateStatesRequest{
		Circuit: gardenCircuit(), Pond: &pb.StatesPond{Water: &pb.StatesPond_SurfaceM2{SurfaceM2: 20}, FreeboardM: number(0.06)},
		Winter: &pb.CircuitChange{Intake: &pb.CircuitBranch{
			Name: "winter intake", Parts: []*pb.CircuitPart{hosePart("winter hose", 3, 40, "")},
			End: &pb.CircuitBranch_Surface{Surface: &pb.OpenSurface{LevelM: number(0.0), MouthM: 0.3}},
		}},
		Flush: &pb.CircuitChange{Delivery: &pb.CircuitBranch{
			Name: "drain", Parts: []*pb.CircuitPart{hosePart("drain hose", 12, 40, "1 exit")},
			End: &pb.CircuitBranch_Outlet{Outlet: &pb.OpenOutlet{LevelM: number(0.2)}},
		}},
		FlushS: number(180.0), TransitL: 80, Workings: true,
	})
	require.NoError(t, err)
	assert.Greater(t, resp.GetClean().GetSolution().GetFlowLPerH(), resp.GetDue().GetSolution().GetFlowLPerH())
	assert.Positive(t, resp.GetWinter().GetSolution().GetFlowLPerH())
	lost := resp.GetFlush().GetRunning().GetSolution().GetFlowLPerH() / 20
	assert.InEpsilon(t, lost, resp.GetFlush().GetLostL(), 1e-9)
	assert.InEpsilon(t, lost/20, resp.GetFlush().GetLevelDropMm(), 1e-9)
	hoses := 3.14159265358979 / 4 * 0.04 * 0.04 * 10 * 1000
	assert.InEpsilon(t, hoses, resp.GetStopped().GetFromHosesL(), 1e-9)
	assert.InEpsilon(t, (hoses+80)/20, resp.GetStopped().GetLevelRiseMm(), 1e-9)
	assert.InEpsilon(t, 18000, resp.GetHoseOff().GetLostL(), 1e-9, "0.9 m of 20 m² above the intake")
	replaySteps(t, resp.GetWorkings())
}

func TestAForkWithinForksWithoutEndIsRefused(t *testing.T) {
	_, conn := start(t)
	c := gardenCircuit()
	leaf := func(name string) *pb.CircuitBranch {
		return &pb.CircuitBranch{Name: name, End: &pb.CircuitBranch_Outlet{Outlet: &pb.OpenOutlet{LevelM: number(0.5)}}}
	}
	branch := leaf("end")
	for i := range 20 {
		branch = &pb.CircuitBranch{Name: string(rune('a' + i)), End: &pb.CircuitBranch_Fork{Fork: &pb.BranchFork{
			Branches: []*pb.CircuitBranch{branch, leaf(string(rune('A' + i)))},
		}}}
	}
	c.Delivery = branch
	_, err := pb.NewCircuitServiceClient(conn).SolveCircuit(t.Context(), &pb.SolveCircuitRequest{Circuit: c})
	assert.NotEmpty(t, fields(t, err))
}
