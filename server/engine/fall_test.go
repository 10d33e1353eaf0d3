package engine_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	pb "example.com/pondwright/proto/pondwright/v1"
)

func number[T any](x T) *T { return &x }

// 4 800 L/h over 40 cm are 120 L/h a centimetre by division, where the trade's full sheet begins: common practice, no source.
func TestCascadeStepByStep(t *testing.T) {
	_, conn := start(t)
	resp, err := pb.NewFallServiceClient(conn).CalculateCascade(t.Context(), &pb.CalculateCascadeRequest{
		FlowLPerH: 4800.01, Workings: true, Steps: []*pb.CascadeStep{
			{Edge: pb.SillEdge_SILL_EDGE_SQUARE, WidthM: 0.4, DropM: 0.35, BreadthM: number(0.3)},
			{Edge: pb.SillEdge_SILL_EDGE_SQUARE, WidthM: 0.8, DropM: 0.30, BreadthM: number(0.3)},
		},
	})
	require.NoError(t, err)
	require.Len(t, resp.GetLandings(), 2)
	first, second := resp.GetLandings()[0], resp.GetLandings()[1]
	assert.InDelta(t, 120, first.GetFlowLPerHPerCm(), 1e-3)
	assert.Equal(t, pb.Sheet_SHEET_FULL, first.GetSheet())
	assert.Equal(t, pb.Sheet_SHEET_THIN, second.GetSheet())
	assert.Greater(t, first.GetHeadMm(), second.GetHeadMm(), "a wider sill carries a thinner sheet")
	assert.Positive(t, first.GetThrowM())
	replaySteps(t, resp.GetWorkings())

	_, err = pb.NewFallServiceClient(conn).CalculateCascade(t.Context(), &pb.CalculateCascadeRequest{
		Steps: []*pb.CascadeStep{{WidthM: 0.4, DropM: -1}},
	})
	assert.Equal(t, []string{"flow_l_per_h", "steps[0].edge", "steps[0].drop_m"}, fields(t, err))
}

// Source: V. T. Chow, Open-Channel Hydraulics, 1959, table 5-6: n of trowelled concrete 0.011, 0.013, 0.015, as carried by the
// python fluids library; even flow by Manning's law, Q = A R^(2/3) S^(1/2)/n, must give the flow back from the depth.
func TestStreamObeysManning(t *testing.T) {
	_, conn := start(t)
	client := pb.NewFallServiceClient(conn)
	beds, err := client.ListBeds(t.Context(), &pb.ListBedsRequest{})
	require.NoError(t, err)
	var concrete *pb.StreamBed
	for _, b := range beds.GetBeds() {
		if b.GetN() == 0.013 {
			concrete = b
		}
	}
	require.NotNil(t, concrete)
	const width, slope, flow = 0.5, 0.01, 9000.0
	resp, err := client.CalculateStream(t.Context(), &pb.CalculateStreamRequest{
		FlowLPerH: flow, Workings: true,
		Reaches: []*pb.StreamReach{{LengthM: 6, BedM: number(width), Slope: slope, BedKind: concrete.GetBedKind()}},
	})
	require.NoError(t, err)
	y := resp.GetReaches()[0].GetDepthMm() / 1000
	area := width * y
	radius := area / (width + 2*y)
	assert.InEpsilon(t, flow/3.6e6, area*pow(radius, 2.0/3)*pow(slope, 0.5)/0.013, 1e-9)
	assert.InEpsilon(t, 6*area*1000, resp.GetHeldL(), 1e-9)
	replaySteps(t, resp.GetWorkings())

	_, err = client.CalculateStream(t.Context(), &pb.CalculateStreamRequest{
		FlowLPerH: flow, Reaches: []*pb.StreamReach{{LengthM: 6, BedM: number(0.5), Slope: slope, BedKind: "marmalade"}},
	})
	assert.Equal(t, []string{"reaches[0].bed_kind"}, fields(t, err))
}

func TestGravityPipeSaysWhenItIsTooSmall(t *testing.T) {
	_, conn := start(t)
	client := pb.NewFallServiceClient(conn)
	fits, err := client.CalculateGravityPipe(t.Context(), &pb.CalculateGravityPipeRequest{FlowLPerH: 10000, BoreMm: 103.6, Slope: 0.01, Workings: true})
	require.NoError(t, err)
	assert.Greater(t, fits.GetMostLPerH(), 10000.0)
	assert.Greater(t, fits.GetFillingPercent(), 0.0)
	assert.Less(t, fits.GetFillingPercent(), 90.0)
	replaySteps(t, fits.GetWorkings())
	tight, err := client.CalculateGravityPipe(t.Context(), &pb.CalculateGravityPipeRequest{FlowLPerH: 100000, BoreMm: 50, Slope: 0.01})
	require.NoError(t, err)
	assert.Nil(t, tight.DepthMm, "no number where there is none")
	assert.NotEmpty(t, tight.GetFindings())
}

// 450 L out of 18 m² are 25 mm, and 8 500 L/h draw 0.5 m out of 9 m² upright in 4.5/8.5 h, by division.
func TestLevelsAfterAFlushAndAHoseThatComesOff(t *testing.T) {
	_, conn := start(t)
	client := pb.NewFallServiceClient(conn)
	flushed, err := client.BudgetLevels(t.Context(), &pb.BudgetLevelsRequest{
		Bays: []*pb.LevelBay{upright("koi pond", 18, 1.6)}, Workings: true,
		Events: []*pb.LevelEvent{{Event: &pb.LevelEvent_Flush{Flush: &pb.BayVolume{Bay: 1, VolumeL: 450}}}},
	})
	require.NoError(t, err)
	assert.InDelta(t, -25, flushed.GetLevels()[0].GetLevelChangeMm(), 1e-9)
	replaySteps(t, flushed.GetWorkings())

	bay := upright("pond", 9, 1.2)
	bay.IntakeM, bay.CoverM = number(0.6), number(0.1)
	off, err := client.BudgetLevels(t.Context(), &pb.BudgetLevelsRequest{
		Bays:   []*pb.LevelBay{bay},
		Events: []*pb.LevelEvent{{Event: &pb.LevelEvent_HoseOff{HoseOff: &pb.HoseOffEvent{Bay: 1, FlowLPerH: 8500}}}},
	})
	require.NoError(t, err)
	assert.InDelta(t, 4500, off.GetHoseOff().GetLostL(), 1e-6)
	assert.InDelta(t, 4.5/8.5, off.GetHoseOff().GetTimeH(), 1e-9)
	assert.InDelta(t, 9*1.2*1000-4500, off.GetHoseOff().GetLeftL(), 1e-6)
}

// A measured bay knows that a drop takes less the deeper it goes; here the batter makes it so.
func TestLevelsOfAMeasuredBay(t *testing.T) {
	_, conn := start(t)
	bay := &pb.LevelBay{Name: "lower bay", FreeboardM: number(0.05), Water: &pb.LevelBay_Outline{Outline: &pb.Bay{
		Outline: &pb.Bay_Rectangle{Rectangle: &pb.Rectangle{LengthM: 4, WidthM: 3}}, DepthM: 1, Batter: 0.5,
	}}}
	resp, err := pb.NewFallServiceClient(conn).BudgetLevels(t.Context(), &pb.BudgetLevelsRequest{
		Bays:   []*pb.LevelBay{bay},
		Events: []*pb.LevelEvent{{Event: &pb.LevelEvent_FallStarts{FallStarts: &pb.BayVolume{Bay: 1, VolumeL: 1200}}}},
	})
	require.NoError(t, err)
	// (4 − d)(3 − d) integrated over a drop d is 12 d − 3.5 d² + d³/3: the drop that takes 1.2 m³ is found by that sum.
	d := -resp.GetLevels()[0].GetLevelChangeMm() / 1000
	assert.InDelta(t, 1.2, 12*d-3.5*d*d+d*d*d/3, 1e-6)
}

func upright(name string, area, depth float64) *pb.LevelBay {
	return &pb.LevelBay{
		Name: name, FreeboardM: number(0.1),
		Water: &pb.LevelBay_Upright{Upright: &pb.UprightWater{AreaM2: area, DepthM: depth}},
	}
}

// A bay that is not there is refused where it was named.
func TestEventsNameTheirBays(t *testing.T) {
	_, conn := start(t)
	ask := func(events ...*pb.LevelEvent) error {
		upright := func(name string) *pb.LevelBay {
			return &pb.LevelBay{Name: name, Water: &pb.LevelBay_Upright{Upright: &pb.UprightWater{AreaM2: 5, DepthM: 0.5}}, FreeboardM: number(0.06)}
		}
		_, err := pb.NewFallServiceClient(conn).BudgetLevels(t.Context(), &pb.BudgetLevelsRequest{
			Bays: []*pb.LevelBay{upright("upper"), upright("lower")}, Events: events,
		})
		return err
	}
	assert.Equal(t, []string{"events[1].siphon.to", "events[2].leak.bay"}, fields(t, ask(
		&pb.LevelEvent{Event: &pb.LevelEvent_Rain{Rain: &pb.RainEvent{DepthMm: 10}}},
		&pb.LevelEvent{Event: &pb.LevelEvent_Siphon{Siphon: &pb.SiphonEvent{From: 1, To: 3, OutletM: 0.1}}},
		&pb.LevelEvent{Event: &pb.LevelEvent_Leak{Leak: &pb.LeakEvent{Bay: 4, FlowLPerH: 1, TimeH: 1}}},
	)))
	assert.Equal(t, []string{"bays[1].intake_m"}, fields(t, ask(
		&pb.LevelEvent{Event: &pb.LevelEvent_HoseOff{HoseOff: &pb.HoseOffEvent{Bay: 2, FlowLPerH: 100}}},
	)))
}
