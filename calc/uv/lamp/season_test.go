package lamp_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/lamp"
)

// The habit of the trade, a new lamp every season or at 8000 to 9000 h: a lamp that burns day and night for a year runs
// 8760 h (common practice, no source; the hours of a year are arithmetic).
func TestALampOfAYear(t *testing.T) {
	burnt := lamp.Burning.Run(nil, lamp.SeasonInput{Days: unit.Days(365), HoursPerDay: unit.Hours(24)})
	assert.InDelta(t, 8760, burnt.Hours(), 1e-9)
	assert.InDelta(t, 365, lamp.Due.Run(nil, lamp.DueInput{Life: burnt, HoursPerDay: unit.Hours(24)}).Days(), 1e-9)
	// 55 W for 8760 h are 481.8 kWh: 144.54 at 0.30 each. A lamp of 40 that lasts 8760 h is spent.
	assert.InDelta(t, 144.54, lamp.EnergyCost.Run(nil, lamp.EnergyCostInput{Energy: unit.Watts(55).Over(burnt), Price: 0.30}), 1e-9)
	assert.InDelta(t, 80, lamp.LampCost.Run(nil, lamp.LampCostInput{Count: 2, Price: 40, Burning: burnt, Life: unit.Hours(8760)}), 1e-9)
	assert.InDelta(t, 0.5, lamp.Seasons.Run(nil, lamp.SeasonsInput{Life: unit.Hours(8760), Age: 0.5, Burning: burnt}).Float(), 1e-12)
	assert.InDelta(t, 481.8, lamp.Energy.Run(nil, lamp.EnergyInput{WallPower: 55, Burning: burnt}).KilowattHours(), 1e-9)
}

func TestALampIsDueWhenItsLifeIsUsed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		life := unit.Hours(rapid.Float64Range(100, 50000).Draw(t, "life"))
		x := unit.Ratio(rapid.Float64Range(0, 1).Draw(t, "x"))
		hours := unit.Hours(rapid.Float64Range(0.1, 24).Draw(t, "h"))
		days := lamp.Due.Run(nil, lamp.DueInput{Life: life, Age: x, HoursPerDay: hours})
		burnt := lamp.Burning.Run(nil, lamp.SeasonInput{Days: days, HoursPerDay: hours})
		assert.InDelta(t, 1, lamp.Age.Run(nil, lamp.AgeInput{Age: x, Burning: burnt, Life: life}).Float(), 1e-12)
	})
	assert.NotEmpty(t, lamp.Age.Outside(lamp.AgeInput{Age: 0.9, Burning: 2, Life: 10}))
	assert.Empty(t, lamp.Age.Outside(lamp.AgeInput{Age: 0.5, Burning: 2, Life: 10}))
}
