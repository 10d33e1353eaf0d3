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

func seasons(t testing.TB) pb.SeasonServiceClient {
	_, conn := start(t)
	return pb.NewSeasonServiceClient(conn)
}

// gardenPond is one of 20 m³ with a fall, a filter, koi, a pump and a lamp.
func gardenPond(climate string) *pb.SimulateYearRequest {
	return &pb.SimulateYearRequest{
		Climate: &pb.SiteClimate{Weather: &pb.SiteClimate_Named{Named: climate}}, Pond: twentyCubic(), Stock: koi(), FishAfterYears: ptr(0.0),
		Filter: &eq.Filter{
			Body: eq.FilterBody_FILTER_BODY_OPEN, Medium: eq.FilterMedium_FILTER_MEDIUM_FOAM, MediumL: 300, SpecificSurfaceM2PerM3: 400,
			MaxFlowLPerH: 12000, InletAboveOutletM: ptr(0.3), FlushL: ptr(60.0),
		},
		Falls: []*pb.OxygenFall{{DropM: 0.5, Steps: ptr(int32(2)), FlowLPerH: 8000}}, WetStoneM2: ptr(2.0), FallsRestInWinter: true,
		Loads: []*pb.ElectricLoad{
			{Name: "pump", PowerW: 150, WarmsPond: true}, {Name: "lamp", PowerW: 36, Season: pb.LoadSeason_LOAD_SEASON_LAMP},
		},
		Tariff: []*pb.TariffBand{{Name: "day", FromH: 7, ToH: 23, PricePerKwh: 0.32}, {Name: "night", FromH: 23, ToH: 7, PricePerKwh: 0.16}},
		Days:   true, Workings: true,
	}
}

func twentyCubic() *pb.SeasonPond {
	return &pb.SeasonPond{Water: &pb.SeasonPond_Measures{Measures: &pb.PondWater{VolumeL: 20_000, SurfaceM2: 20}}}
}

// A year over the wire: its water closes to 1e-9 from the numbers a caller gets, day by day and month by month, a kilowatt-hour is
// what the plate says, and dates lie where such a climate puts them (common practice, no source).
func TestSimulateYear(t *testing.T) {
	client := seasons(t)
	req := gardenPond("continental")
	req.LeakLPerDay, req.CatchmentM2 = ptr(3.0), ptr(20.0)
	resp, err := client.SimulateYear(t.Context(), req)
	require.NoError(t, err)
	explained(t, resp)
	w := resp.GetWater()
	moved := w.GetRainL() + w.GetToppedUpL() + w.GetEvaporationL() + w.GetSplashL() + w.GetLeakL() + w.GetFlushedL() + w.GetOverflowL()
	left := w.GetRainL() + w.GetToppedUpL() - w.GetEvaporationL() - w.GetSplashL() - w.GetLeakL() - w.GetFlushedL() - w.GetOverflowL() - (w.GetEndL() - w.GetStartL())
	assert.Less(t, math.Abs(left)/moved, 1e-9)
	require.Len(t, resp.GetMonths(), 12)
	require.Len(t, resp.GetDays(), 365)
	var months, topped float64
	times := 0
	for _, m := range resp.GetMonths() {
		months += m.GetToppedUpL()
		assert.NotNil(t, m.GetFilterTanGPerDay())
		assert.GreaterOrEqual(t, m.GetWaterC(), m.GetWaterLeastC())
		assert.LessOrEqual(t, m.GetWaterC(), m.GetWaterMostC())
	}
	for _, d := range resp.GetDays() {
		topped += d.GetToppedUpL()
		if d.GetToppedUpL() > 0 {
			times++
		}
	}
	assert.InDelta(t, w.GetToppedUpL(), months, 1e-6)
	assert.InDelta(t, w.GetToppedUpL(), topped, 1e-6)
	assert.Len(t, resp.GetTopUp().GetDays(), times)
	assert.Positive(t, resp.GetTopUp().GetShortestIntervalDays())

	energy := resp.GetEnergy()
	assert.InDelta(t, 150*8.760, energy.GetLoads()[0].GetKwh(), 1e-6)
	assert.InDelta(t, 0.036*24*float64(resp.GetLamp().GetDays()), energy.GetLoads()[1].GetKwh(), 1e-6)
	assert.InDelta(t, energy.GetYearKwh()*(16*0.32+8*0.16)/24, energy.GetYearCost(), 1e-6)

	assert.Contains(t, []string{"2026-03", "2026-04"}, resp.GetLamp().GetFirstDay()[:7])
	assert.Contains(t, []string{"2026-10", "2026-11"}, resp.GetWinterPlace().GetFirstDay()[:7])
	assert.Contains(t, []string{"2026-03", "2026-04"}, resp.GetWinterPlace().GetLastDay()[:7])
	assert.NotEmpty(t, resp.GetCleaningDays())
	require.Len(t, resp.GetFilterStarts(), 2)
	autumn, spring := resp.GetFilterStarts()[0], resp.GetFilterStarts()[1]
	assert.Equal(t, "2026-10-15", autumn.GetBuiltOn())
	assert.Equal(t, "2026-04-15", spring.GetBuiltOn())
	assert.Greater(t, autumn.GetExpected().GetRipeDay(), spring.GetExpected().GetRipeDay())
	assert.Less(t, resp.GetHotSpellNight().GetDawnMgPerL().GetLow(), resp.GetWarmestNight().GetDawnMgPerL().GetLow())
	assert.Subset(t, findings(resp.GetFindings()), []string{
		"NAMED_CLIMATE", "POND_TAKEN_AS_STIRRED", "USUAL_WEATHER", "EVAPORATION_ROADS", "WINTER_PLACE", "LAMP_SEASON", "TOP_UP", "RIPENING_IS_A_SPAN", "FISH_WELFARE",
	})

	// The same question has the same answer.
	again, err := client.SimulateYear(t.Context(), req)
	require.NoError(t, err)
	assert.True(t, proto.Equal(resp, again))

	// From another day on it is the same year, turned: month of the warmest day and evaporation stay.
	req.FirstDay, req.Workings, req.Days = ptr("2027-10-01"), false, false
	turned, err := client.SimulateYear(t.Context(), req)
	require.NoError(t, err)
	assert.Equal(t, resp.GetWarmestDay()[4:7], turned.GetWarmestDay()[4:7]) // which day of July hangs on the top-ups
	assert.Equal(t, "2028", turned.GetWarmestDay()[:4])
	assert.InEpsilon(t, w.GetEvaporationL(), turned.GetWater().GetEvaporationL(), 0.002)
	assert.Equal(t, int32(2027), turned.GetMonths()[0].GetYear())
	assert.Empty(t, turned.GetDays())
}

// A drawn pond whose shelf falls dry gives less to a falling level than one with upright sides, and a pond without fish is not fed.
func TestSimulateYearOfADrawnPond(t *testing.T) {
	client := seasons(t)
	req := gardenPond("warm dry")
	req.Stock, req.Filter, req.Loads, req.Tariff, req.Days = nil, nil, nil, nil, false
	req.Pond = &pb.SeasonPond{Water: &pb.SeasonPond_Pond{Pond: &pb.Pond{Bays: []*pb.Bay{{
		Outline: &pb.Bay_Rectangle{Rectangle: &pb.Rectangle{LengthM: 5, WidthM: 4}}, DepthM: 1.2, Steps: []*pb.Step{{DepthM: 0.03, WidthM: 0.3}},
	}}}}}
	resp, err := client.SimulateYear(t.Context(), req)
	require.NoError(t, err)
	grounded(t, resp)
	// By hand: 30 mm of 20 m² and 20 mm of 4.4 m x 3.4 m below the shelf are 899 L.
	assert.InDelta(t, 899.2, resp.GetTopUp().GetEachL(), 2)
	assert.Nil(t, resp.GetFeeding())
	assert.Nil(t, resp.GetWinterPlace())
	assert.Empty(t, resp.GetFilterStarts())
	assert.Contains(t, findings(resp.GetFindings()), "NO_WINTER_PLACE")
}

// FAO-56, example 18 (as open test suites quote it): Uccle on 6 July, printed to the digits held here.
func TestCalculateEvaporation(t *testing.T) {
	resp, err := seasons(t).CalculateEvaporation(t.Context(), &pb.CalculateEvaporationRequest{
		LatitudeDeg: 50.8, AltitudeM: 100, Day: "2026-07-06", Workings: true,
		Weather: &pb.WeatherDay{
			AirMinC: 12.3, AirMaxC: 21.5, Damp: &pb.WeatherDay_VapourPressureKpa{VapourPressureKpa: 1.409}, WindMPerS: 2.78,
			Sun: &pb.WeatherDay_SunshineH{SunshineH: 9.25},
		},
	})
	require.NoError(t, err)
	explained(t, resp)
	assert.InDelta(t, 41.09, resp.GetExtraterrestrialMjPerM2(), 0.005)
	assert.InDelta(t, 16.1, resp.GetDaylightH(), 0.05)
	assert.InDelta(t, 22.07, resp.GetSunlightMjPerM2(), 0.005)
	assert.InDelta(t, 30.90, resp.GetClearSkyMjPerM2(), 0.005)
	assert.InDelta(t, 3.71, resp.GetNetLongWaveMjPerM2(), 0.005)
	assert.InDelta(t, 2.078, resp.GetWind_2MMPerS(), 0.002)
	assert.InDelta(t, 0.0666, resp.GetPsychrometricKpaPerK(), 0.00005)
	assert.InDelta(t, 0.122, resp.GetSlopeKpaPerK(), 0.0005)
	assert.InDelta(t, 1.997, resp.GetSaturationKpa(), 0.0006)
	assert.InDelta(t, 3.88, resp.GetReferenceMm(), 0.01)
	assert.Greater(t, resp.GetPenmanMm(), resp.GetByReferenceMm())
	_, err = seasons(t).CalculateEvaporation(t.Context(), &pb.CalculateEvaporationRequest{
		Day: "2026-02-30", Weather: &pb.WeatherDay{AirMinC: 5, AirMaxC: 1, Damp: &pb.WeatherDay_HumidityPercent{HumidityPercent: 50}, Sun: &pb.WeatherDay_SunshineH{}},
	})
	assert.ElementsMatch(t, []string{"day", "weather.air_max_c"}, fields(t, err))
}

// A pond that leaks 80 L a day and a stream that loses 60 more are told from the sun, by a bucket and by weather alike; the width
// by weather is the greater.
func TestExplainLevelDrops(t *testing.T) {
	client := seasons(t)
	req := &pb.ExplainLevelDropsRequest{
		Climate: &pb.SiteClimate{Weather: &pb.SiteClimate_Named{Named: "continental"}}, Pond: twentyCubic(), Workings: true,
		Drops: []*pb.LevelDrop{
			{FromDay: "2026-07-03", Hours: 72, DropMm: 15 + 12, BucketDropMm: ptr(15.0), ReadingUncertaintyMm: ptr(0.5)},
			{FromDay: "2026-07-07", Hours: 72, DropMm: 15 + 21, BucketDropMm: ptr(15.0), ReadingUncertaintyMm: ptr(0.5), FallsOn: true},
		},
	}
	resp, err := client.ExplainLevelDrops(t.Context(), req)
	require.NoError(t, err)
	grounded(t, resp)
	assert.InDelta(t, 80, resp.GetLeakLPerDay().GetExpected(), 1e-6)
	assert.InDelta(t, 60, resp.GetStreamLPerDay().GetExpected(), 1e-6)
	assert.Equal(t, pb.LevelVerdict_LEVEL_VERDICT_POND_AND_STREAM_LOSE, resp.GetVerdict())
	assert.NotEmpty(t, resp.GetSummary())
	assert.InDelta(t, 12, resp.GetDrops()[0].GetRestMm().GetExpected(), 1e-9)
	assert.InDelta(t, 5, resp.GetDrops()[0].GetEvaporationMmPerDay(), 1e-9)

	for _, d := range req.GetDrops() {
		d.BucketDropMm = nil
	}
	req.Drops[1].Weather = &pb.WeatherDay{
		AirMinC: 14, AirMaxC: 27, Damp: &pb.WeatherDay_DewPointC{DewPointC: 14}, WindMPerS: 1.8, Sun: &pb.WeatherDay_SunshineH{SunshineH: 10},
	}
	wide, err := client.ExplainLevelDrops(t.Context(), req)
	require.NoError(t, err)
	grounded(t, wide)
	assert.Greater(t, wide.GetSmallestShownLPerDay(), resp.GetSmallestShownLPerDay())
	assert.Equal(t, "by the climate", wide.GetDrops()[0].GetHow())
	assert.Equal(t, "by the weather given", wide.GetDrops()[1].GetHow())
	assert.Contains(t, findings(wide.GetFindings()), "NO_BUCKET")
}

// Every built-in climate can be followed, and says whether it is invented.
func TestListClimates(t *testing.T) {
	client := seasons(t)
	list, err := client.ListClimates(t.Context(), &pb.ListClimatesRequest{})
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(list.GetClimates()), 5)
	for _, c := range list.GetClimates() {
		assert.Len(t, c.GetMonths(), 12)
		resp, err := client.SimulateYear(t.Context(), gardenPond(c.GetName()))
		require.NoError(t, err, c.GetName())
		grounded(t, resp)
		// The same months as a caller's own give the same year.
		own := gardenPond(c.GetName())
		own.Climate = &pb.SiteClimate{
			Weather: &pb.SiteClimate_Monthly{Monthly: &pb.MonthlyWeather{Months: c.GetMonths()}}, LatitudeDeg: &c.LatitudeDeg, AltitudeM: &c.AltitudeM,
			WindHeightM: &c.WindHeightM, WindAtPondPercent: &c.WindAtPondPercent,
		}
		same, err := client.SimulateYear(t.Context(), own)
		require.NoError(t, err)
		assert.True(t, proto.Equal(resp.GetWater(), same.GetWater()), c.GetName())
	}
}

// Daily weather that repeats the days of a named climate gives its year again.
func TestSimulateYearByTheDay(t *testing.T) {
	client := seasons(t)
	req := gardenPond("maritime")
	req.Workings = false
	usual, err := client.SimulateYear(t.Context(), req)
	require.NoError(t, err)
	daily := &pb.DailyWeather{Name: "a year that was"}
	for range 366 {
		daily.Days = append(daily.Days, &pb.WeatherDay{
			AirMinC: 8, AirMaxC: 16, Damp: &pb.WeatherDay_DewPointC{DewPointC: 0}, WindMPerS: 2, Sun: &pb.WeatherDay_RadiationMjPerM2{RadiationMjPerM2: 10}, RainMm: 1.5,
		})
	}
	req.Climate = &pb.SiteClimate{Weather: &pb.SiteClimate_Daily{Daily: daily}, LatitudeDeg: ptr(51.5), AltitudeM: ptr(50.0), WindHeightM: ptr(2.0), WindAtPondPercent: ptr(100.0)}
	resp, err := client.SimulateYear(t.Context(), req)
	require.NoError(t, err)
	require.Len(t, resp.GetDays(), 366)
	assert.NotContains(t, findings(resp.GetFindings()), "USUAL_WEATHER")
	// Days that are all alike have water that is, but for the sky's clear share that goes with the season.
	assert.InDelta(t, resp.GetDays()[100].GetWaterC(), resp.GetDays()[101].GetWaterC(), 0.1)
	assert.Greater(t, usual.GetDays()[200].GetWaterC(), resp.GetDays()[200].GetWaterC())
}

func TestSeasonNamesEveryFault(t *testing.T) {
	client := seasons(t)
	req := gardenPond("nowhere")
	req.FirstDay, req.BuiltOn = ptr("2026-02-30"), []string{"2026-13-01"}
	_, err := client.SimulateYear(t.Context(), req)
	assert.ElementsMatch(t, []string{"climate.named", "first_day", "built_on[0]"}, fields(t, err))

	req = gardenPond("maritime")
	req.Tariff[1].FromH, req.LevelAllowanceMm = 22, ptr(500.0)
	req.Pond.GetMeasures().VolumeL = 4000
	_, err = client.SimulateYear(t.Context(), req)
	assert.Subset(t, fields(t, err), []string{"tariff", "tariff[1]", "level_allowance_mm"})

	_, err = client.ExplainLevelDrops(t.Context(), &pb.ExplainLevelDropsRequest{
		Climate: &pb.SiteClimate{Weather: &pb.SiteClimate_Named{Named: "maritime"}}, Pond: twentyCubic(),
		Drops: []*pb.LevelDrop{{FromDay: "2026-06-31", Hours: 24, DropMm: 5}},
	})
	assert.Equal(t, []string{"drops[0].from_day"}, fields(t, err))
}
