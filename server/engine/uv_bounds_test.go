package engine_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// More flow than the unit is made for stops the plan, and no lamp unit is spoken of without the dangers of one.
func TestLampUnitsAreAnsweredWithTheirDangers(t *testing.T) {
	client := uvClient(t)
	dose, err := client.CalculateDose(t.Context(), &pb.CalculateDoseRequest{LampUnit: lampUnit(), FlowLPerH: 8001, PondVolumeL: 10000})
	require.NoError(t, err)
	kill, err := client.CalculateInactivation(t.Context(), &pb.CalculateInactivationRequest{LampUnit: lampUnit(), FlowLPerH: 8001})
	require.NoError(t, err)
	clearing, err := client.ForecastClearing(t.Context(), &pb.ForecastClearingRequest{LampUnit: lampUnit(), FlowLPerH: 8001, PondVolumeL: 10000})
	require.NoError(t, err)
	for _, found := range [][]*pb.Finding{dose.GetFindings(), kill.GetFindings(), clearing.GetFindings()} {
		above := code(found, "FLOW_ABOVE_LAMP_UNIT")
		assert.Equal(t, pb.Severity_SEVERITY_STOP, above.GetSeverity())
		assert.Contains(t, above.GetSentence(), "8,001 L/h")
		assert.Subset(t, findings(found), []string{"UV_C_EYES_AND_SKIN", "MAINS_NEAR_WATER", "MERCURY"})
	}
	assert.NotNil(t, code(kill.GetFindings(), "DRINKING_WATER_TABLE_ONLY_A_CHECK"))
}

// The strongest lamp and the least flow that may be asked of are answered.
func TestForecastOfTheGreatestDose(t *testing.T) {
	unit := lampUnit()
	unit.PowerW, unit.Output_254NmW = 5000, proto.Float64(1000)
	unit.ArcLengthMm, unit.ChamberDiameterMm, unit.ChamberLengthMm = 2000, 1000, 3000
	water := &pb.Water{UvTransmittancePercent: proto.Float64(99.9)}
	resp, err := uvClient(t).ForecastClearing(t.Context(), &pb.ForecastClearingRequest{LampUnit: unit, Water: water, FlowLPerH: 1, PondVolumeL: 1})
	require.NoError(t, err)
	assert.Greater(t, resp.GetByDailyDose().GetDailyMjPerCm2(), 1e6)
	for _, f := range resp.GetFindings() {
		assert.NotRegexp(t, `\de[+-]\d`, f.GetSentence(), f.GetCode())
	}
}

func TestAlgaeOfAGreenPondAreNotCountedTwiceInSilence(t *testing.T) {
	resp, err := uvClient(t).CalculateClarity(t.Context(), &pb.CalculateClarityRequest{
		Stated: &pb.CalculateClarityRequest_WaterKind{WaterKind: "green-pond"}, ChlorophyllUgPerL: proto.Float64(200),
	})
	require.NoError(t, err)
	assert.NotNil(t, code(resp.GetFindings(), "ALGAE_COUNTED_TWICE"))
}
