package engine_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

func foam() *eq.Filter {
	return &eq.Filter{
		Body: eq.FilterBody_FILTER_BODY_OPEN, Medium: eq.FilterMedium_FILTER_MEDIUM_FOAM, MediumL: 80, SpecificSurfaceM2PerM3: 400,
		MaxFlowLPerH: 8000, InletAboveOutletM: ptr(0.3), FlushL: ptr(40.0),
	}
}

// By hand, see the same foam in package solids: twenty goldfish of 20 cm leave 9.23 g a day at 21 °C, and 80 L of foam are
// full of that at three times the head after 4.0 days, expected.
func TestPlanCleaning(t *testing.T) {
	resp, err := filtration(t).PlanCleaning(t.Context(), &pb.PlanCleaningRequest{
		Filter: foam(), PondVolumeL: 4000, WaterTemperaturesC: []float64{4, 4, 7, 11, 15, 19, 21, 21, 17, 12, 8, 5}, HeadRatio: ptr(3.0), OpenPercent: ptr(97.0), Workings: true,
		Stock: &pb.Stock{ProteinPercent: ptr(35.0), Groups: []*pb.FishGroup{{Species: pb.Species_SPECIES_GOLDFISH, Count: 20, LengthCm: 12, GrownLengthCm: ptr(20.0)}}},
	})
	require.NoError(t, err)
	require.Len(t, resp.GetMonths(), 12)
	july := resp.GetMonths()[6]
	assert.InDelta(t, 9.23, july.GetSolidsGPerDay(), 0.005)
	assert.InDelta(t, 49.8/(3*0.45*9.23), july.GetIntervalDays().GetExpected(), 0.02)
	assert.Equal(t, 365.0, resp.GetMonths()[0].GetIntervalDays().GetExpected())
	assert.InEpsilon(t, 40*resp.GetFlushesPerYear(), resp.GetWaterLPerYear(), 1e-12)
	assert.InEpsilon(t, resp.GetWaterLPerYear()/40, resp.GetWaterPercentOfPondPerYear(), 1e-12)
	assert.Subset(t, findings(resp.GetFindings()), []string{"CLEANING_TOO_OFTEN", "CLEAN_IN_POND_WATER", "FLUSHES_CHANGE_WATER"})
	explained(t, resp)
}

// EN 25814, as reproduced: 8.26 mg/L at 25 °C. A fall of 0.5 m in clean water at 25 °C makes up 35.7 % of what is missing
// (Water Research Laboratory 1973, from memory).
func TestBalanceOxygen(t *testing.T) {
	req := &pb.BalanceOxygenRequest{
		PondVolumeL: 10_000, SurfaceM2: 10, Stock: koi(), FishAfterYears: ptr(0.0), WaterTemperatureC: ptr(25.0), AltitudeM: ptr(0.0), DuskPercent: ptr(100.0), NightH: ptr(8.5),
		Falls: []*pb.OxygenFall{{DropM: 0.5, FlowLPerH: 8000}}, Air: &pb.OxygenAir{FlowLPerMin: 40, DepthM: 1}, Workings: true,
	}
	client := filtration(t)
	resp, err := client.BalanceOxygen(t.Context(), req)
	require.NoError(t, err)
	assert.InDelta(t, 8.26, resp.GetSaturationMgPerL(), 0.005)
	assert.InDelta(t, 35.7, resp.GetFallsPercent().GetHigh(), 0.05)
	require.Len(t, resp.GetHours(), 10) // dusk, eight whole hours, dawn
	assert.Equal(t, resp.GetDawn().GetLow(), resp.GetHours()[9].GetLowMgPerL())
	assert.Less(t, resp.GetDawnPowerOffMgPerL(), resp.GetDawnPumpOffMgPerL())
	assert.Less(t, resp.GetPowerOffLastsH(), resp.GetPumpOffLastsH())
	assert.Subset(t, findings(resp.GetFindings()), []string{"FALL_AERATION_UNCERTAIN", "FISH_WELFARE"})
	explained(t, resp)

	// Cold fish are not fed, but breathe on.
	req.WaterTemperatureC = ptr(6.0)
	cold, err := client.BalanceOxygen(t.Context(), req)
	require.NoError(t, err)
	assert.Positive(t, cold.GetDemandsGPerDay()[0].GetLow())
	assert.Contains(t, findings(cold.GetFindings()), "RESPIRATION_STRETCHED")
	req.WaterTemperatureC = ptr(25.0)

	// ISO 2533 prints 79,495 Pa at 2,000 m (from memory): less than four fifths of the oxygen. Salt takes 0.6 % a gram.
	req.AltitudeM, req.SaltGPerKg = ptr(2000.0), ptr(3.0)
	high, err := client.BalanceOxygen(t.Context(), req)
	require.NoError(t, err)
	assert.InDelta(t, 0.785*(1-3*0.006), high.GetSaturationMgPerL()/resp.GetSaturationMgPerL(), 0.01)
}

// Stefan's law gives 274 mm of bare ice after 60 °C days (table computed elsewhere); a still pond of 10 m³ and 8 m² stirred
// loses 4 °C in 3.04 days at 80 W/m², its top 0.3 m in 0.73.
func TestPlanWinter(t *testing.T) {
	resp, err := filtration(t).PlanWinter(t.Context(), &pb.PlanWinterRequest{
		PondVolumeL: 10_000, SurfaceM2: 8, DepthM: 1.3, Stock: koi(), FreezingDegreeDays: ptr(60.0), HeatLossWPerM2: ptr(80.0), DeepPump: true,
		FlowLPerH: ptr(8000.0), FallFlowLPerH: ptr(5000.0), WaterTemperaturesC: []float64{3, 3, 6, 10, 15, 18, 20, 20, 16, 12, 8, 5}, Workings: true,
	})
	require.NoError(t, err)
	assert.InDelta(t, 27.4, resp.GetIceMostCm(), 0.05)
	assert.InDelta(t, 3.04, resp.GetAllColdDays(), 0.005)
	assert.InDelta(t, 0.73, resp.GetTopColdDays(), 0.005)
	assert.InDelta(t, 5840, resp.GetFallHeatWPerK(), 1)
	assert.Equal(t, 3.98, resp.GetDeepWaterC())
	require.Len(t, resp.GetMonths(), 12)
	assert.Zero(t, resp.GetMonths()[0].GetFeedGPerDay())
	assert.Subset(t, findings(resp.GetFindings()), []string{"ICE", "REFUGE_SHALLOW", "DEEP_WATER_STIRRED", "FALL_COOLS_POND", "WINTER_FLOW", "FEEDING_STOPS"})
	explained(t, resp)
}
