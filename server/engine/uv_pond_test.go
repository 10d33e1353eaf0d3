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

// EPA 815-R-06-007, table 1.4 (from memory): 8 steps for 3 targets. OENORM M 5873-1: 40 mJ/cm². Tao et al. 2010: no
// suppression of green cells at 20 to 200.
func TestDoseResponsesOverTheWire(t *testing.T) {
	client := uvClient(t)
	all, err := client.ListDoseResponses(t.Context(), &pb.ListDoseResponsesRequest{})
	require.NoError(t, err)
	explained(t, all)
	assert.Len(t, all.GetDrinkingWater(), 24)
	assert.InDelta(t, 40, all.GetDrinkingWaterMinimumMjPerCm2(), 1e-12)
	byGroup := 0
	for group := range pb.OrganismGroup_name {
		if group == 0 {
			continue
		}
		some, err := client.ListDoseResponses(t.Context(), &pb.ListDoseResponsesRequest{Group: pb.OrganismGroup(group)})
		require.NoError(t, err)
		assert.NotEmpty(t, some.GetResponses(), pb.OrganismGroup(group))
		byGroup += len(some.GetResponses())
	}
	assert.Len(t, all.GetResponses(), byGroup)
	for _, r := range all.GetResponses() {
		assert.NotEmpty(t, r.GetSource().GetCitation(), r.GetKey())
		assert.NotZero(t, r.GetOutcome(), r.GetKey())
	}
	assert.Equal(t, "green-not-suppressed", all.GetResponses()[0].GetKey())
	assert.InDelta(t, 200, all.GetResponses()[0].GetHighMjPerCm2(), 1e-12)
}

func inactivation(organisms ...string) *pb.CalculateInactivationRequest {
	return &pb.CalculateInactivationRequest{
		LampUnit: lampUnit(), Water: uvWater(85), Condition: &pb.LampCondition{UsedLifePercent: proto.Float64(0)}, FlowLPerH: 3000,
		Organisms: organisms, Workings: true,
	}
}

// Sakai et al. 2007, abstract: 600 mJ/cm² took 1.5 powers of ten, so that 400 leave one in ten. The mean dose of one pass
// is the double sum of the careful field times the stay. Tanks by Levenspiel: N log10(1 + ln 10 D/(N D10)).
func TestInactivationOverTheWire(t *testing.T) {
	client := uvClient(t)
	resp, err := client.CalculateInactivation(t.Context(), inactivation("microcystis-slow-kill"))
	require.NoError(t, err)
	const mean = 18.2539016 * 1.208727773
	assert.InEpsilon(t, mean, resp.GetPassMeanMjPerCm2(), 1e-8)
	one := resp.GetOrganisms()[0]
	assert.InEpsilon(t, 400, one.GetD10MjPerCm2(), 1e-12)
	assert.InEpsilon(t, mean/400, one.GetLog10Reduction().GetHigh(), 1e-8)
	assert.InEpsilon(t, 2*math.Log10(1+math.Ln10*mean/800), one.GetLog10Reduction().GetExpected(), 1e-8)
	assert.InEpsilon(t, 100*(1-math.Pow(10, -mean/400)), one.GetTakenPercent().GetHigh(), 1e-8)
	assert.Equal(t, pb.DoseReach_DOSE_REACH_BELOW, one.GetReach())
	assert.NotEmpty(t, one.GetDose().GetReason())
	// 40 CFR 141.720 (from memory): 22 mJ/cm² are worth 4 powers of ten of Giardia, and none of virus.
	assert.InDelta(t, 4, resp.GetDrinkingWater()[1].GetLog10Inactivation(), 1e-12)
	assert.Zero(t, resp.GetDrinkingWater()[2].GetLog10Inactivation())
	explained(t, resp)
	assert.Equal(t, "NO_KILL_IN_ONE_PASS", resp.GetFindings()[1].GetCode())
}

// Every published dose at once: bands are ordered, no more is told than was published, and no green alga is called killed.
func TestInactivationTellsNoMoreThanWasPublished(t *testing.T) {
	client := uvClient(t)
	req := inactivation()
	for _, flow := range []float64{20, 300, 3000, 50000} {
		req.FlowLPerH = flow
		resp, err := client.CalculateInactivation(t.Context(), req)
		require.NoError(t, err)
		require.Len(t, resp.GetOrganisms(), 35)
		for _, o := range resp.GetOrganisms() {
			key := o.GetPublished().GetKey()
			d := o.GetDose()
			assert.LessOrEqual(t, d.GetLowMjPerCm2(), d.GetFastestMjPerCm2(), key)
			assert.Less(t, d.GetFastestMjPerCm2(), d.GetPlugFlowMjPerCm2(), key)
			assert.Equal(t, o.GetPublished().Log10Reduction != nil, o.GetLog10Reduction() != nil, key)
			if o.GetLog10Reduction() == nil {
				continue
			}
			assert.LessOrEqual(t, d.GetLowMjPerCm2(), d.GetTanksMjPerCm2(), key)
			assert.LessOrEqual(t, d.GetTanksMjPerCm2(), d.GetPlugFlowMjPerCm2(), key)
			assert.LessOrEqual(t, d.GetLowMjPerCm2(), min(d.GetUnmixedMjPerCm2(), d.GetUnmixedLaminarMjPerCm2()), key)
			b := o.GetLog10Reduction()
			assert.LessOrEqual(t, b.GetLow(), b.GetExpected(), key)
			assert.LessOrEqual(t, b.GetExpected(), b.GetHigh(), key)
			assert.LessOrEqual(t, b.GetHigh(), o.GetPublished().GetLog10Reduction()*(1+1e-12), key)
			assert.Equal(t, o.GetReach() == pb.DoseReach_DOSE_REACH_ABOVE, o.GetAtLeast(), key)
		}
	}
}

func TestInactivationNamesWhatIsWrong(t *testing.T) {
	req := inactivation("microcystis-slow-kill", "no-such-row", "nor-this")
	client := uvClient(t)
	_, err := client.CalculateInactivation(t.Context(), req)
	assert.Equal(t, []string{"organisms[1]", "organisms[2]"}, fields(t, err))

	req = inactivation()
	req.LampUnit.Output_254NmW, req.LampUnit.ChamberDiameterMm = proto.Float64(40), 26
	_, err = client.CalculateInactivation(t.Context(), req)
	assert.Equal(t, []string{"lamp_unit.chamber_diameter_mm", "lamp_unit.output_254_nm_w"}, fields(t, err))
}

// Eppley 1972 at 20 °C, 2.09327102 a day, of which 0.15 to 0.30 with full sun is assumed; days by the solution of the
// balance; daily dose by the mass balance of a well-mixed pond: dose of a pass times 24 · 3/10 passes.
func TestForecastOverTheWire(t *testing.T) {
	req := &pb.ForecastClearingRequest{
		LampUnit: lampUnit(), Water: uvWater(85), Condition: &pb.LampCondition{UsedLifePercent: proto.Float64(0)},
		FlowLPerH: 3000, PondVolumeL: 10000, Workings: true,
	}
	client := uvClient(t)
	resp, err := client.ForecastClearing(t.Context(), req)
	require.NoError(t, err)
	assert.InEpsilon(t, 7.2*18.2539016*1.208727773, resp.GetByDailyDose().GetDailyMjPerCm2(), 1e-8)
	assert.InEpsilon(t, resp.GetByDailyDose().GetDailyMjPerCm2()/37, resp.GetByDailyDose().GetDailyOverStop(), 1e-12) // Bin Alam 2001
	for i, c := range []*pb.ClearingCase{resp.GetByTurnover().GetHopeful(), resp.GetByTurnover().GetExpected(), resp.GetByTurnover().GetCareful()} {
		assert.InEpsilon(t, []float64{0.20, 0.25, 0.30}[i]*2.09327102, c.GetGrowthPerDay(), 1e-8)
		assert.InEpsilon(t, 7.2*c.GetTakenPerPassPercent()/100, c.GetRemovalPerDay(), 1e-12)
		fall := c.GetRemovalPerDay() + c.GetLossPerDay() - c.GetGrowthPerDay()
		require.Equal(t, fall > 0, c.ClearsInDays != nil)
		if fall > 0 {
			assert.InEpsilon(t, math.Ln10/fall, c.GetClearsInDays(), 1e-9)
			assert.Less(t, c.GetLeastLampW(), 36.0)
		} else {
			assert.Greater(t, c.GetLeastLampW(), 36.0)
		}
	}
	assert.Len(t, resp.GetOutlooks(), 12)
	assert.Subset(t, findings(resp.GetFindings()), []string{
		"NO_KILL_IN_ONE_PASS", "ALGAE_GROWTH_ASSUMED", "LAMP_ONLY_FOR_SUSPENDED_ALGAE", "OXYGEN_AS_ALGAE_DIE", "ASSUMED",
	})
	explained(t, resp)
}

// The least lamp, put back as the lamp, just holds the pond: growth is removal and loss.
func TestTheLeastLampHoldsThePond(t *testing.T) {
	client := uvClient(t)
	unit := lampUnit()
	unit.Output_254NmW = proto.Float64(1)
	unit.ArcLengthMm = 200
	req := &pb.ForecastClearingRequest{LampUnit: unit, Water: uvWater(70), FlowLPerH: 4000, PondVolumeL: 20000}
	resp, err := client.ForecastClearing(t.Context(), req)
	require.NoError(t, err)
	least := resp.GetByTurnover().GetExpected().GetLeastLampW()
	require.Greater(t, least, 36.0)
	unit.Output_254NmW, unit.PowerW = proto.Float64(least/36), least
	resp, err = client.ForecastClearing(t.Context(), req)
	require.NoError(t, err)
	c := resp.GetByTurnover().GetExpected()
	assert.InEpsilon(t, c.GetGrowthPerDay(), c.GetRemovalPerDay()+c.GetLossPerDay(), 1e-9)
}

func TestForecastNamesWaterTooColdForGrowth(t *testing.T) {
	_, err := uvClient(t).ForecastClearing(t.Context(), &pb.ForecastClearingRequest{
		LampUnit: lampUnit(), Water: &pb.Water{TemperatureC: proto.Float64(1)}, FlowLPerH: 3000, PondVolumeL: 10000,
	})
	assert.Equal(t, []string{"water.temperature_c"}, fields(t, err))
}

// By the calendar: 1 April to 31 October are 214 days, 5136 h; 36 W use 184.896 kWh, 55.4688 at 0.30. Of a life of 9000 h
// half is left: 4500 h are 187.5 days from 1 April, 5 October.
func TestSeasonOverTheWire(t *testing.T) {
	client := uvClient(t)
	req := &pb.PlanLampSeasonRequest{
		LampUnit: lampUnit(), FirstDay: "2026-04-01", LastDay: "2026-10-31", EnergyPricePerKwh: proto.Float64(0.30), Workings: true,
		Condition: &pb.LampCondition{UsedLifePercent: proto.Float64(50)},
	}
	resp, err := client.PlanLampSeason(t.Context(), req)
	require.NoError(t, err)
	assert.InDelta(t, 214, resp.GetSeasonDays(), 1e-9)
	assert.InDelta(t, 5136, resp.GetBurningH(), 1e-9)
	assert.InDelta(t, 184.896, resp.GetEnergyKwh(), 1e-9)
	assert.InDelta(t, 55.4688, resp.GetEnergyCost(), 1e-9)
	assert.InDelta(t, 40*5136.0/9000, resp.GetLampCost(), 1e-9)
	assert.InDelta(t, 4500, resp.GetDueInH(), 1e-9)
	assert.Equal(t, "2026-10-05", resp.GetDueDay())
	assert.InDelta(t, 82.5, resp.GetLightLeftStartPercent(), 1e-9)
	assert.InDelta(t, 65, resp.GetLightLeftEndPercent(), 1e-9)
	assert.Contains(t, findings(resp.GetFindings()), "LAMP_DUE_IN_SEASON")
	explained(t, resp)

	// New lamps last 9000/5136 seasons: one, and then 3864 h, 161 days from 1 April 2027.
	req.Condition, req.EnergyPricePerKwh, req.LampUnit.LampPrice = nil, nil, nil
	resp, err = client.PlanLampSeason(t.Context(), req)
	require.NoError(t, err)
	assert.Equal(t, "2027-09-09", resp.GetDueDay())
	assert.Subset(t, findings(resp.GetFindings()), []string{"COST_OF_ENERGY_NOT_KNOWN", "PRICE_OF_LAMP_NOT_KNOWN"})
	assert.Nil(t, resp.EnergyCost)
}

func TestSeasonNamesWhatIsNoDay(t *testing.T) {
	client := uvClient(t)
	ask := func(first, last string) error {
		_, err := client.PlanLampSeason(t.Context(), &pb.PlanLampSeasonRequest{LampUnit: lampUnit(), FirstDay: first, LastDay: last})
		return err
	}
	assert.Equal(t, []string{"first_day", "last_day"}, fields(t, ask("2026-02-30", "2026-13-01")))
	assert.Equal(t, []string{"last_day"}, fields(t, ask("2026-10-31", "2026-04-01")))
	assert.Equal(t, []string{"first_day"}, fields(t, ask("spring", "2026-04-01")))
	assert.NoError(t, ask("2026-10-31", "2026-10-31"))
}

// Bad requests name every field at once, by their path in the request.
func TestUvRequestsNameEveryFieldAtOnce(t *testing.T) {
	client := uvClient(t)
	_, err := client.CalculateDose(t.Context(), &pb.CalculateDoseRequest{
		LampUnit: &eq.LampUnit{}, Water: uvWater(120), FlowLPerH: -1, HoursPerDay: proto.Float64(25),
		Condition: &pb.LampCondition{UsedLifePercent: proto.Float64(101), FilmTransmittancePercent: proto.Float64(0)},
	})
	assert.Subset(t, fields(t, err), []string{
		"lamp_unit.lamp", "lamp_unit.lamp_count", "lamp_unit.power_w", "lamp_unit.loss", "water.uv_transmittance_percent", "flow_l_per_h",
		"pond_volume_l", "hours_per_day", "condition.used_life_percent", "condition.film_transmittance_percent",
	})
}
