package engine_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Source: IAPWS-95 and IAPWS R12-08 at 20 °C and one atmosphere, by python3-iapws: 998.207 kg/m³, 1.0016 mPa s, 2 339 Pa.
func TestWaterAtTwentyDegrees(t *testing.T) {
	_, conn := start(t)
	resp, err := pb.NewHydraulicsServiceClient(conn).CalculateWater(t.Context(), &pb.CalculateWaterRequest{TemperatureC: 20, Workings: true})
	require.NoError(t, err)
	assert.InDelta(t, 998.207, resp.GetDensityKgPerM3(), 2e-3)
	assert.InDelta(t, 1.0016e-3, resp.GetDynamicViscosityPaS(), 5e-8)
	assert.InDelta(t, 2.339, resp.GetVapourPressureKpa(), 5e-4)
	assert.InDelta(t, 101.325, resp.GetAirPressureKpa(), 1e-9)
	replaySteps(t, resp.GetWorkings())
}

func TestPipeSizesHaveRealBores(t *testing.T) {
	_, conn := start(t)
	resp, err := pb.NewHydraulicsServiceClient(conn).ListPipeSizes(t.Context(), &pb.ListPipeSizesRequest{})
	require.NoError(t, err)
	seen := map[string]bool{}
	for _, s := range resp.GetSizes() {
		assert.False(t, seen[s.GetPipeSize()], s.GetPipeSize())
		seen[s.GetPipeSize()] = true
		assert.LessOrEqual(t, s.GetBoreLeastMm(), s.GetBoreMm())
		assert.GreaterOrEqual(t, s.GetBoreMostMm(), s.GetBoreMm())
		assert.NotNil(t, s.GetSource())
	}
	assert.Greater(t, len(seen), 30)
}

// duty is an invented pump and circuit: an anchor from common practice says that such a pump gives a little under half of
// its 5 000 L/h at 1.2 m through 8 m of 25 mm hose.
func duty() *pb.SolveDutyRequest {
	return &pb.SolveDutyRequest{
		Pump: &eq.Pump{PowerW: number(75.0), Curve: curve(0, 3, 1000, 2.83, 2000, 2.42, 3000, 1.8, 4000, 0.99, 5000, 0)},
		Run: &pb.HoseRun{
			LengthM: 8, Size: &pb.HoseRun_BoreMm{BoreMm: 25}, FittingsInWords: "3 slow bends, 1 hose tail 20 in 25",
		},
		LiftM: number(1.2), Workings: true,
	}
}

func TestDutyOfAPumpInWords(t *testing.T) {
	_, conn := start(t)
	resp, err := pb.NewHydraulicsServiceClient(conn).SolveDuty(t.Context(), duty())
	require.NoError(t, err)
	require.NotNil(t, resp.GetDuty())
	assert.InDelta(t, 2250, resp.GetDuty().GetFlowLPerH().GetExpected(), 150)
	sum := 0.0
	for _, share := range resp.GetDuty().GetHeadShares() {
		sum += share.GetHeadM()
	}
	assert.InEpsilon(t, resp.GetDuty().GetHeadM().GetExpected(), sum, 1e-12)
	replaySteps(t, resp.GetWorkings())
}

func TestAPumpThatCannotLiftHasNoDuty(t *testing.T) {
	_, conn := start(t)
	req := duty()
	req.LiftM = number(3.5)
	resp, err := pb.NewHydraulicsServiceClient(conn).SolveDuty(t.Context(), req)
	require.NoError(t, err)
	assert.Nil(t, resp.GetDuty(), "no number where there is none")
	assert.Equal(t, "CANNOT_LIFT", resp.GetFindings()[0].GetCode())
	assert.Equal(t, pb.Severity_SEVERITY_STOP, resp.GetFindings()[0].GetSeverity())
}

func TestASizeByItsNameHasItsRealBore(t *testing.T) {
	_, conn := start(t)
	req := duty()
	req.Run.Size = &pb.HoseRun_PipeSize{PipeSize: "hose-25"}
	resp, err := pb.NewHydraulicsServiceClient(conn).SolveDuty(t.Context(), req)
	require.NoError(t, err)
	byBore, err := pb.NewHydraulicsServiceClient(conn).SolveDuty(t.Context(), duty())
	require.NoError(t, err)
	assert.InEpsilon(t, byBore.GetDuty().GetFlowLPerH().GetExpected(), resp.GetDuty().GetFlowLPerH().GetExpected(), 0.02)
	assert.Less(t, resp.GetDuty().GetFlowLPerH().GetLow(), byBore.GetDuty().GetFlowLPerH().GetLow(), "what the standard lets pass widens the band")
	req.Run.Size = &pb.HoseRun_PipeSize{PipeSize: "hose-26"}
	_, err = pb.NewHydraulicsServiceClient(conn).SolveDuty(t.Context(), req)
	assert.Equal(t, []string{"run.pipe_size"}, fields(t, err))
}

func TestFittingsThatNobodyKnowsAreNamed(t *testing.T) {
	_, conn := start(t)
	req := duty()
	req.Run.FittingsInWords = "3 slow bends, 2 marmalades"
	req.Pump.Curve[2].HeadM = req.GetPump().GetCurve()[0].HeadM
	_, err := pb.NewHydraulicsServiceClient(conn).SolveDuty(t.Context(), req)
	named := fields(t, err)
	assert.Contains(t, named, "run.fittings_in_words")
	assert.Contains(t, named, "pump.curve[2].head_m")
}

// curve makes points of pairs of L/h and m.
func curve(pairs ...float64) []*eq.CurvePoint {
	var made []*eq.CurvePoint
	for i := 0; i < len(pairs); i += 2 {
		made = append(made, &eq.CurvePoint{FlowLPerH: &pairs[i], HeadM: &pairs[i+1]})
	}
	return made
}
