package engine_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	pb "example.com/pondwright/proto/pondwright/v1"
)

func code(found []*pb.Finding, code string) *pb.Finding {
	for _, f := range found {
		if f.GetCode() == code {
			return f
		}
	}
	return nil
}

// A hundred koi in a bucket of 10 L: whatever is asked, the answer warns of it. Common practice, no source: 3 kg in each
// cubic metre is more than anyone should try.
func TestABucketOfKoiIsWarnedOf(t *testing.T) {
	client := filtration(t)
	crowd := &pb.Stock{ProteinPercent: ptr(35.0), Groups: []*pb.FishGroup{
		{Species: pb.Species_SPECIES_KOI, Count: 100, LengthCm: 20, GrownLengthCm: ptr(70.0)},
	}}
	load, err := client.CalculateFishLoad(t.Context(), &pb.CalculateFishLoadRequest{Stock: crowd, Water: summer(2, 8), VolumeL: ptr(10.0)})
	require.NoError(t, err)
	stocked := code(load.GetFindings(), "STOCKED_BEYOND_PRACTICE")
	require.NotNil(t, stocked)
	assert.InEpsilon(t, 100*load.GetNow().GetMassKg(), stocked.GetValue().GetValue(), 1e-12)
	assert.Contains(t, stocked.GetSentence(), "1,150 kg")
	assert.Nil(t, code(load.GetFindings(), "ASSUMED"), "pH has no part in a load")

	// In the cold they are not fed: the filter is not judged, rather than found large enough.
	cold, err := client.AssessFilter(t.Context(), &pb.AssessFilterRequest{Filter: carriers(), Stock: crowd, Water: summer(2, 8), FlowLPerH: 9000})
	require.NoError(t, err)
	assert.NotNil(t, code(cold.GetFindings(), "FILTER_NOT_JUDGED"))

	warm, err := client.BalanceWater(t.Context(), &pb.BalanceWaterRequest{
		Filter: carriers(), Stock: crowd, Water: summer(24, 6), PondVolumeL: 10, FlowLPerH: 13_000, OxygenMgPerL: ptr(1.0),
	})
	require.NoError(t, err)
	assert.Equal(t, pb.Severity_SEVERITY_STOP, code(warm.GetFindings(), "AMMONIA_SETTLES_HIGH").GetSeverity())
	assert.Contains(t, code(warm.GetFindings(), "AMMONIA_SETTLES_HIGH").GetSentence(), "the filter takes up 56.1 g at most") // 47.4 g · 1.04275⁴
	assert.Equal(t, pb.Severity_SEVERITY_STOP, code(warm.GetFindings(), "OXYGEN_LOW").GetSeverity())
	assert.Subset(t, findings(warm.GetFindings()), []string{"FILTER_WATER_ACID", "FLOW_ABOVE_FILTER", "NITRITE_RISES"})
}

// Between the expected and the low end of the published rates lies a factor: where only the low end fails, it is said.
func TestAFilterThatHangsOnItsRateIsDoubted(t *testing.T) {
	small := carriers()
	small.MediumL = 80
	resp, err := filtration(t).BalanceWater(t.Context(), &pb.BalanceWaterRequest{
		Filter: small, Stock: koi(), FishAfterYears: ptr(0.0), Water: summer(20, 8), PondVolumeL: 30_000, FlowLPerH: 10_000,
	})
	require.NoError(t, err)
	limit := resp.GetHeld()[0].GetLimit().GetValue()
	require.Less(t, resp.GetSettled().GetTanMgPerL(), limit)
	require.Greater(t, resp.GetSettled().GetTanHighMgPerL(), limit)
	doubt := code(resp.GetFindings(), "AMMONIA_MAY_SETTLE_HIGH")
	assert.Equal(t, resp.GetSettled().GetTanHighMgPerL(), doubt.GetValue().GetValue())
	assert.Nil(t, code(resp.GetFindings(), "GROWN_LENGTH_ASSUMED"), "fish as they are do not grow")
}

// Koi in water of 2 °C are not fed: no filter ripens on that, on day 0 or any other.
func TestNothingRipensUnfed(t *testing.T) {
	client := filtration(t)
	req := &pb.RipenFilterRequest{PondVolumeL: 20_000, Water: summer(2, 8), Load: []*pb.LoadStep{{Load: &pb.LoadStep_Stock{Stock: koi()}}}}
	cold, err := client.RipenFilter(t.Context(), req)
	require.NoError(t, err)
	assert.Nil(t, cold.GetExpected().RipeDay)
	assert.NotNil(t, code(cold.GetFindings(), "FILTER_NOT_FED"))

	// Put in by hand, the same ammonia harms no fish; with fish in it stops the plan.
	req.Water, req.OxygenMgPerL = summer(18, 8), ptr(3.0)
	fish, err := client.RipenFilter(t.Context(), req)
	require.NoError(t, err)
	assert.Equal(t, pb.Severity_SEVERITY_STOP, code(fish.GetFindings(), "NITRITE_PEAK_HARMFUL").GetSeverity())
	assert.NotNil(t, code(fish.GetFindings(), "OXYGEN_LOW"))
	req.Load[0].Load = &pb.LoadStep_TanGPerDay{TanGPerDay: 5}
	req.Tap = &pb.TapWater{TanMgPerL: ptr(3.0)}
	byHand, err := client.RipenFilter(t.Context(), req)
	require.NoError(t, err)
	assert.Equal(t, pb.Severity_SEVERITY_NOTE, code(byHand.GetFindings(), "NITRITE_PEAK_HARMFUL").GetSeverity())
	assert.Nil(t, code(byHand.GetFindings(), "OXYGEN_LOW"))
	assert.NotNil(t, code(byHand.GetFindings(), "TAP_BRINGS_AMMONIA"))

	later := koi()
	later.Groups[0].AfterYears = ptr(1.0)
	req.Load[0].Load = &pb.LoadStep_Stock{Stock: later}
	none, err := client.RipenFilter(t.Context(), req)
	require.NoError(t, err)
	assert.NotNil(t, code(none.GetFindings(), "LATER_FISH_NOT_COUNTED"))
}

// Whoever leaves the frost out is told that none was counted; whoever says there is none is not.
func TestAWinterWithoutFrost(t *testing.T) {
	client := filtration(t)
	req := &pb.PlanWinterRequest{PondVolumeL: 10_000, SurfaceM2: 8, DepthM: 1.3, Stock: koi()}
	silent, err := client.PlanWinter(t.Context(), req)
	require.NoError(t, err)
	assert.NotNil(t, code(silent.GetFindings(), "FROST_NOT_GIVEN"))
	req.FreezingDegreeDays = ptr(0.0)
	mild, err := client.PlanWinter(t.Context(), req)
	require.NoError(t, err)
	assert.Nil(t, code(mild.GetFindings(), "FROST_NOT_GIVEN"))

	// Stefan's law gives 1.94 m of bare ice after 3,000 °C days (by hand, 35.39 mm √3000): more than there is water.
	req.FreezingDegreeDays = ptr(3000.0)
	hard, err := client.PlanWinter(t.Context(), req)
	require.NoError(t, err)
	assert.Equal(t, pb.Severity_SEVERITY_STOP, code(hard.GetFindings(), "REFUGE_SHALLOW").GetSeverity())

	req.WaterTemperaturesC = []float64{4, 4}
	_, err = client.PlanWinter(t.Context(), req)
	assert.Equal(t, []string{"water_temperatures_c"}, fields(t, err))
}

// Fish by the million are named as the fish they are, not by a number that no request has.
func TestFishOutOfAllBoundsAreNamed(t *testing.T) {
	client := filtration(t)
	shoal := &pb.Stock{}
	for range 30 {
		shoal.Groups = append(shoal.Groups, &pb.FishGroup{Species: pb.Species_SPECIES_KOI, Count: 100_000, LengthCm: 100})
	}
	_, err := client.AssessFilter(t.Context(), &pb.AssessFilterRequest{Filter: carriers(), Stock: shoal, Water: summer(24, 8), FlowLPerH: 9000})
	assert.Equal(t, []string{"stock"}, fields(t, err))
	_, err = client.BalanceWater(t.Context(), &pb.BalanceWaterRequest{Filter: carriers(), Stock: shoal, Water: summer(24, 8), PondVolumeL: 10, FlowLPerH: 9000})
	assert.Equal(t, []string{"stock"}, fields(t, err))
	_, err = client.BalanceOxygen(t.Context(), &pb.BalanceOxygenRequest{PondVolumeL: 10, SurfaceM2: 1, Stock: shoal})
	assert.Subset(t, []string{"stock"}, fields(t, err))
}
