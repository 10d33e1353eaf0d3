package uv_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
)

func season() uv.SeasonInput {
	return uv.SeasonInput{Unit: gardenUnit(), Life: unit.Hours(9000), Days: unit.Days(214), HoursPerDay: unit.Hours(24)}
}

// By hand: 214 days of 24 h are 5136 h, and 9000 h are 1 season and 3864 h, which are 161 days.
func TestSeasonByHand(t *testing.T) {
	price, lamp := 0.30, 40.0
	in := season()
	in.EnergyPrice, in.LampPrice = &price, &lamp
	s, err := uv.PlanSeason(nil, in)
	require.NoError(t, err)
	assert.InDelta(t, 5136, s.Burning.Hours(), 1e-9)
	assert.Equal(t, 1, s.WholeSeasons)
	assert.InDelta(t, 161, s.DaysIntoSeason.Days(), 1e-9)
	assert.InDelta(t, 5136.0/9000, s.AgeEnd.Float(), 1e-12)
	assert.InDelta(t, 36*5.136*0.30, *s.EnergyCost, 1e-9)
	assert.InDelta(t, 40*5136.0/9000, *s.LampCost, 1e-9)
	assert.InDelta(t, 1, s.LeftStart.Float(), 1e-12)
	// UFGS 11376: 65 % at the end of life.
	assert.InDelta(t, 1-0.35*5136/9000, s.LeftEnd.Float(), 1e-12)
	assert.NotContains(t, codes(s.Findings), "LAMP_DUE_IN_SEASON")
}

// Season after season, the hours burnt until the lamps are due are those left.
func TestSeasonsAddUpToTheLife(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := season()
		in.Life = unit.Hours(rapid.Float64Range(100, 50000).Draw(t, "life"))
		in.Days = unit.Days(rapid.Float64Range(1, 366).Draw(t, "days"))
		in.HoursPerDay = unit.Hours(rapid.Float64Range(0.1, 24).Draw(t, "h"))
		in.Condition.Age = unit.Ratio(rapid.Float64Range(0, 1).Draw(t, "x"))
		s, err := uv.PlanSeason(nil, in)
		require.NoError(t, err)
		burnt := float64(s.WholeSeasons)*s.Burning.Hours() + s.DaysIntoSeason.Days()*in.HoursPerDay.Hours()
		assert.InDelta(t, s.BurningLeft.Hours(), burnt, 1e-6)
		assert.Less(t, s.DaysIntoSeason.Days(), in.Days.Days()+1e-9)
		assert.LessOrEqual(t, s.LeftEnd.Float(), s.LeftStart.Float())
	})
}

func TestSeasonRefusesNonsenseWhole(t *testing.T) {
	price := math.Inf(1)
	_, err := uv.PlanSeason(nil, uv.SeasonInput{
		Unit: gardenUnit(), Condition: uv.Condition{Age: 1.1, EndOfLife: -1}, HoursPerDay: unit.Hours(25), EnergyPrice: &price,
	})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	var fields []string
	for _, e := range errs {
		fields = append(fields, e.Field)
	}
	assert.Equal(t, []string{
		"lamp_unit.life_h", "days", "hours_per_day", "condition.used_life_percent", "condition.end_of_life_output_percent", "energy_price_per_kwh",
	}, fields)
}
