package engine_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// suggest asks for kit.
func suggest(t *testing.T, client pb.KitServiceClient, change func(*pb.Brief)) *pb.SuggestKitsResponse {
	t.Helper()
	b := brief()
	change(b)
	resp, err := client.SuggestKits(t.Context(), &pb.SuggestKitsRequest{Brief: b})
	require.NoError(t, err)
	return resp
}

func finding(found []*pb.Finding, code string) *pb.Finding {
	for _, f := range found {
		if f.GetCode() == code {
			return f
		}
	}
	return nil
}

// A filter that is chosen in spring has to carry the fish in July.
func TestColdWaterDoesNotMakeASmallFilterWork(t *testing.T) {
	_, conn := start(t)
	client := pb.NewKitServiceClient(conn)
	warm := suggest(t, client, func(b *pb.Brief) { b.Water = &pb.Water{TemperatureC: number(20.0)} })
	cold := suggest(t, client, func(b *pb.Brief) { b.Water = &pb.Water{TemperatureC: number(8.0)} })
	require.NotEmpty(t, warm.GetKits())
	require.NotEmpty(t, cold.GetKits())
	assert.InEpsilon(t, warm.GetFishGrown().GetTanGPerDay(), cold.GetFishGrown().GetTanGPerDay(), 1e-12)
	assert.Equal(t, warm.GetKits()[0].GetFilterVerdict().GetWantedTanGPerDay(), cold.GetKits()[0].GetFilterVerdict().GetWantedTanGPerDay())
	assert.Nil(t, finding(warm.GetFindings(), "JUDGED_IN_SUMMER"))
	require.NotNil(t, finding(cold.GetFindings(), "JUDGED_IN_SUMMER"))
	assert.Equal(t, pb.Severity_SEVERITY_CAUTION, finding(cold.GetFindings(), "JUDGED_IN_SUMMER").GetSeverity())
}

// In a third of the day the filter has to take up, and be brought, three times as much an hour.
func TestAPumpThatStopsWithFishIsSaidAndCounted(t *testing.T) {
	_, conn := start(t)
	client := pb.NewKitServiceClient(conn)
	always := suggest(t, client, func(*pb.Brief) {})
	third := suggest(t, client, func(b *pb.Brief) { b.Running.HoursPerDay = number(8.0) })
	assert.NotNil(t, finding(third.GetFindings(), "PUMP_STOPS_WITH_FISH"))
	assert.Nil(t, finding(always.GetFindings(), "PUMP_STOPS_WITH_FISH"))
	least := func(r *pb.SuggestKitsResponse) float64 {
		for _, n := range r.GetWanted().GetNeeds() {
			if n.GetNeed() == "ammonia" {
				return n.GetLeastLPerH()
			}
		}
		return 0
	}
	assert.InEpsilon(t, 3*least(always), least(third), 1e-12)
	for _, k := range third.GetKits() {
		assert.InEpsilon(t, 3*always.GetKits()[0].GetFilterVerdict().GetWantedTanGPerDay(), k.GetFilterVerdict().GetWantedTanGPerDay(), 1e-12)
	}
}

func TestALampIsShownBesideWhatItIsHeldAgainst(t *testing.T) {
	_, conn := start(t)
	resp := suggest(t, pb.NewKitServiceClient(conn), func(*pb.Brief) {})
	for _, k := range resp.GetKits() {
		assert.GreaterOrEqual(t, k.GetLampDose().GetDailyMjPerCm2(), k.GetLampDose().GetWantedDailyMjPerCm2())
		assert.InDelta(t, 37, k.GetLampDose().GetWantedDailyMjPerCm2(), 1e-9)
		power := k.GetLampUnit().GetItem().GetLampUnit().GetPowerW()
		assert.InEpsilon(t, power/resp.GetPond().GetVolumeL()*1000, k.GetLampDose().GetPowerWPerM3(), 1e-9)
		assert.NotNil(t, finding(k.GetFindings(), "NO_KILL_IN_ONE_PASS"))
		assert.NotNil(t, finding(k.GetFindings(), "LAMP_ONLY_FOR_SUSPENDED_ALGAE"))
	}
}

func TestATurnoverIsAskedForWithoutAFilterToo(t *testing.T) {
	_, conn := start(t)
	resp := suggest(t, pb.NewKitServiceClient(conn), func(b *pb.Brief) {
		b.Stock = nil
		b.Wishes = &pb.Wishes{TurnoverPerH: number(0.6)}
	})
	assert.InEpsilon(t, 0.6*resp.GetPond().GetVolumeL(), resp.GetWanted().GetLeastLPerH(), 1e-9)
	for _, k := range resp.GetKits() {
		assert.Len(t, k.GetStates(), 1, "there is no filter to clean")
	}
}

// A budget of a tenth of the least price leaves the cheapest set as the nearest miss, and the budget as what stops it.
func TestNearestMissOfATinyBudget(t *testing.T) {
	_, conn := start(t)
	client := pb.NewKitServiceClient(conn)
	resp := suggest(t, client, func(b *pb.Brief) { b.Wishes = &pb.Wishes{Budget: number(20.0)} })
	assert.Empty(t, resp.GetKits())
	miss := resp.GetNearestMiss()
	require.NotNil(t, miss)
	assert.Equal(t, "budget", miss.GetTightest())
	assert.InEpsilon(t, 100*(1-miss.GetCost().GetPrice()/20), miss.GetHeadroomPercent(), 1e-9)
	assert.NotNil(t, finding(miss.GetFindings(), "OVER_BUDGET"))
}
