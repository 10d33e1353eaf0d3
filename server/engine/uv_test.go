package engine_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"

	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

func uvClient(t *testing.T) pb.UvServiceClient {
	t.Helper()
	_, conn := start(t)
	return pb.NewUvServiceClient(conn)
}

// lampUnit is invented. 10 W of light enter the water from its one new lamp, past a sleeve and a film as assumed.
func lampUnit() *eq.LampUnit {
	return &eq.LampUnit{
		Lamp: eq.LampKind_LAMP_KIND_LOW_PRESSURE, LampCount: 1, PowerW: 36, Output_254NmW: proto.Float64(10 / 0.72),
		ArcLengthMm: 300, SleeveDiameterMm: 25, ChamberDiameterMm: 70, ChamberLengthMm: 300, LifeH: 9000,
		Loss: &eq.LossPoint{FlowLPerH: 5000, HeadM: proto.Float64(0.2)}, MaxFlowLPerH: 8000, LampPrice: proto.Float64(40),
	}
}

func uvWater(percent float64) *pb.Water {
	return &pb.Water{UvTransmittancePercent: &percent, TemperatureC: proto.Float64(20)}
}

// Averages by scipy.integrate.quad, to ten digits; the careful one by double sums good to 6e-9. The dose is the average
// times the stay of 1.007273145 L at 3 m³/h.
func TestDoseOverTheWire(t *testing.T) {
	resp, err := uvClient(t).CalculateDose(t.Context(), &pb.CalculateDoseRequest{
		LampUnit: lampUnit(), Water: uvWater(85), FlowLPerH: 3000, PondVolumeL: 10000, Workings: true,
		Condition: &pb.LampCondition{UsedLifePercent: proto.Float64(50)}, Rules: &pb.LampRuleBasis{Koi: true, Light: pb.PondLight_POND_LIGHT_SHADE},
	})
	require.NoError(t, err)
	assert.InEpsilon(t, 10, resp.GetNewLamp().GetLight().GetIntoWaterW(), 1e-12)
	assert.InEpsilon(t, 18.2539016, resp.GetNewLamp().GetFluenceRateMwPerCm2(), 1e-8)
	assert.InEpsilon(t, 18.2539016*1.208727773, resp.GetNewLamp().GetPassMeanMjPerCm2(), 1e-8)
	assert.InEpsilon(t, 7.2*18.2539016*1.208727773, resp.GetNewLamp().GetDailyMjPerCm2(), 1e-8) // 3 m³/h, 24 h, 10 m³
	// Unified Facilities Guide Specification 11376: 65 % is left at the end of life; half way there, taken straight, 82.5 %.
	assert.InEpsilon(t, 6.5, resp.GetAgedLamp().GetOutput_254NmW(), 1e-12)
	assert.InEpsilon(t, 8.25, resp.GetLampToday().GetOutput_254NmW(), 1e-12)
	// Common practice, no source: koi in shade, 2 to 4 W for 1000 L.
	assert.InEpsilon(t, 3.6, resp.GetRules()[0].GetValue().GetValue(), 1e-12)
	assert.InDelta(t, 2, resp.GetRules()[0].GetLow().GetValue(), 1e-12)
	assert.InDelta(t, 4, resp.GetRules()[0].GetHigh().GetValue(), 1e-12)
	assert.Equal(t, pb.SourceStatus_SOURCE_STATUS_COMMON_PRACTICE, resp.GetRules()[0].GetSource().GetStatus())
	explained(t, resp)
	assert.Subset(t, findings(resp.GetFindings()), []string{
		"ASSUMED", "SLEEVE_ASSUMED", "FOULING_ASSUMED", "AGEING_ASSUMED", "STRAIGHT_RAYS", "UV_C_EYES_AND_SKIN", "MAINS_NEAR_WATER", "MERCURY",
	})
}

// The same chamber as above; the point by scipy.integrate.quad, to ten digits.
func TestFieldOverTheWire(t *testing.T) {
	client := uvClient(t)
	req := &pb.CalculateFieldRequest{
		LampUnit: lampUnit(), Water: uvWater(85), Workings: true,
		Picture: &pb.CalculateFieldRequest_Places{Places: &pb.FieldPlaces{Places: []*pb.FieldPlace{{YMm: -12.5, ZMm: 75}}}},
	}
	resp, err := client.CalculateField(t.Context(), req)
	require.NoError(t, err)
	assert.InEpsilon(t, 18.70890964, resp.GetRadial().GetAverageMwPerCm2(), 1e-9)
	assert.InEpsilon(t, 21.93028834, resp.GetLineSource().GetAverageMwPerCm2(), 1e-9)
	assert.InEpsilon(t, 18.2539016, resp.GetCareful().GetAverageMwPerCm2(), 1e-8)
	assert.InEpsilon(t, 35.90009104, resp.GetLineSource().GetAbsorbedPercent(), 1e-9)
	assert.InEpsilon(t, 1.007273145, resp.GetChamberWaterL(), 1e-9)
	assert.InEpsilon(t, 16.25189295, resp.GetAbsorptionBaseEPerM(), 1e-9)
	assert.InEpsilon(t, 16.25189295/math.Ln10, resp.GetAbsorptionBase_10PerM(), 1e-9)
	require.Len(t, resp.GetPoints(), 1)
	assert.InEpsilon(t, 42.44131816, resp.GetPoints()[0].GetRadialMwPerCm2(), 1e-9)
	assert.InEpsilon(t, 61.98438803, resp.GetPoints()[0].GetLineSourceMwPerCm2(), 1e-9)
	for _, check := range resp.GetPointSourceChecks() {
		assert.InDelta(t, 0, check.GetApartPercent(), 1e-3, "points a quarter of the sleeve's radius apart come to the line")
	}
	// Keitz formula, IOA/IUVA 2007: 10 W over 0.3 m give 99.83149682 µW/cm² at 1 m; here 10/0.72 W in air, and 6 mJ/cm² (CIE 187).
	assert.InEpsilon(t, 0.09983149682/0.72, resp.GetBareLamp().GetIrradianceMwPerCm2(), 1e-9)
	assert.InEpsilon(t, 6/(0.09983149682/0.72), resp.GetBareLamp().GetTimeToLimitS(), 1e-9)
	explained(t, resp)

	req.Picture = &pb.CalculateFieldRequest_Grid{Grid: &pb.FieldGrid{Plane: pb.FieldPlane_FIELD_PLANE_LENGTHWISE, Columns: 41, Rows: 11}}
	resp, err = client.CalculateField(t.Context(), req)
	require.NoError(t, err)
	assert.Len(t, resp.GetPoints(), 11*26) // 41 columns 1.75 mm apart, of which the middle 15 lie in the sleeve
	for _, p := range resp.GetPoints() {
		assert.LessOrEqual(t, p.GetCarefulMwPerCm2(), min(p.GetRadialMwPerCm2(), p.GetLineSourceMwPerCm2()))
	}
}

// Two lamps off the axis share the light of one; between them it is even.
func TestSeveralLampsOverTheWire(t *testing.T) {
	client := uvClient(t)
	unit := lampUnit()
	unit.LampCount, unit.ChamberDiameterMm, unit.PowerW = 2, 120, 60
	req := &pb.CalculateFieldRequest{
		LampUnit: unit, Water: uvWater(70), LampOffsetMm: proto.Float64(30),
		Picture: &pb.CalculateFieldRequest_Grid{Grid: &pb.FieldGrid{Plane: pb.FieldPlane_FIELD_PLANE_CROSSWISE, Columns: 25, Rows: 25}},
	}
	resp, err := client.CalculateField(t.Context(), req)
	require.NoError(t, err)
	assert.Less(t, resp.GetLampsApart().GetOfOnAxisPercent(), 100.0)
	light := map[[2]float64]float64{}
	for _, p := range resp.GetPoints() {
		light[[2]float64{math.Round(p.GetXMm()), math.Round(p.GetYMm())}] = p.GetCarefulMwPerCm2()
	}
	assert.NotContains(t, light, [2]float64{30, 0}, "inside the first sleeve")
	assert.Contains(t, light, [2]float64{0, 0})
	for at, E := range light {
		assert.InEpsilon(t, E, light[[2]float64{-at[0], at[1]}], 1e-9)
	}

	req.LampOffsetMm = proto.Float64(5)
	_, err = client.CalculateField(t.Context(), req)
	assert.Equal(t, []string{"lamp_offset_mm"}, fields(t, err))
	req.LampOffsetMm = nil
	req.Picture = &pb.CalculateFieldRequest_Places{Places: &pb.FieldPlaces{Places: []*pb.FieldPlace{{XMm: 40}, {XMm: 5}, {XMm: 200}}}}
	_, err = client.CalculateField(t.Context(), req)
	assert.Equal(t, []string{"places.places[1]", "places.places[2]"}, fields(t, err))
}

// EPA 815-R-06-007 (from memory): 90 % is an absorbance of 0.046 on 10 mm. Austrian Food Code B1: transmittance over
// 100 mm, of which 59.9 % are 95 % over 10 mm (arithmetic).
func TestClarityOverTheWire(t *testing.T) {
	client := uvClient(t)
	ask := func(req *pb.CalculateClarityRequest) *pb.CalculateClarityResponse {
		req.Workings = true
		resp, err := client.CalculateClarity(t.Context(), req)
		require.NoError(t, err)
		replaySteps(t, resp.GetWorkings())
		return resp
	}
	over := func(percent, mm float64) *pb.CalculateClarityRequest_Transmittance {
		return &pb.CalculateClarityRequest_Transmittance{Transmittance: &pb.PathTransmittance{Percent: percent, PathMm: mm}}
	}
	assert.InDelta(t, 4.6, ask(&pb.CalculateClarityRequest{Stated: over(90, 10)}).GetStated().GetAbsorptionBase_10PerM(), 0.05)
	assert.InDelta(t, 95, ask(&pb.CalculateClarityRequest{Stated: over(59.9, 100)}).GetStated().GetTransmittance_10MmPercent(), 0.05)
	sak := ask(&pb.CalculateClarityRequest{Stated: &pb.CalculateClarityRequest_AbsorptionBase_10PerM{AbsorptionBase_10PerM: 10}})
	assert.InEpsilon(t, 10*math.Ln10, sak.GetStated().GetAbsorptionBaseEPerM(), 1e-12)
	same := ask(&pb.CalculateClarityRequest{Stated: &pb.CalculateClarityRequest_AbsorptionBaseEPerM{AbsorptionBaseEPerM: 10 * math.Ln10}})
	assert.InEpsilon(t, 10, same.GetStated().GetAbsorptionBase_10PerM(), 1e-12)
	carbon := ask(&pb.CalculateClarityRequest{Stated: &pb.CalculateClarityRequest_DissolvedCarbon{
		DissolvedCarbon: &pb.DissolvedCarbon{DocMgPerL: 4, SuvaLPerMgM: 2.5},
	}})
	assert.InEpsilon(t, sak.GetStated().GetTransmittance_10MmPercent(), carbon.GetStated().GetTransmittance_10MmPercent(), 1e-12)

	green := ask(&pb.CalculateClarityRequest{
		Stated: &pb.CalculateClarityRequest_WaterKind{WaterKind: "clear-pond"}, ChlorophyllUgPerL: proto.Float64(200),
	})
	assert.InEpsilon(t, 80, green.GetStated().GetTransmittance_10MmPercent(), 1e-12)
	assert.Less(t, green.GetWithAlgae().GetTransmittance_10MmPercent(), 60.0)
	assert.Equal(t, "clear-pond", green.GetWaterKind().GetKey())
	explained(t, green)

	_, err := client.CalculateClarity(t.Context(), &pb.CalculateClarityRequest{Stated: &pb.CalculateClarityRequest_WaterKind{WaterKind: "rose water"}})
	assert.Equal(t, []string{"water_kind"}, fields(t, err))
	kinds, err := client.ListWaterKinds(t.Context(), &pb.ListWaterKindsRequest{})
	require.NoError(t, err)
	explained(t, kinds)
	for _, kind := range kinds.GetWaterKinds() {
		ask(&pb.CalculateClarityRequest{Stated: &pb.CalculateClarityRequest_WaterKind{WaterKind: kind.GetKey()}})
	}
}
