package greenwater_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.com/pondwright/calc/greenwater"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/field"
	"example.com/pondwright/calc/uv/mixing"
)

// The closed form of the radial model, printed to 10 digits: daily dose = day · P/V (1 - exp(-a g))/a, whatever the flow.
// The chain goes through field, stay and passes instead, in a chamber of any length.
func TestDailyDoseIsTheClosedFormWhateverTheFlow(t *testing.T) {
	for _, row := range reftest.Table(t, "uv/practice_check.csv") {
		c := field.Chamber{
			Output: unit.Watts(row.Float("P254_delivered_W")), ArcLength: 0.4, ChamberLength: 0.4, SleeveRadius: 0.015,
			ChamberRadius: unit.Metres(0.015 + row.Float("water_gap_m")),
			Absorption: field.Absorption.Run(nil, field.AbsorptionInput{
				Transmittance: unit.Percent(row.Float("UVT_10mm_pct")), Path: unit.Millimetres(10),
			}),
		}
		q := unit.CubicMetresPerHour(row.Float("flow_m3_per_h"))
		pond := unit.CubicMetres(row.Float("pond_volume_m3"))
		stay := mixing.Residence.Run(nil, mixing.ResidenceInput{Volume: c.Volume(), Flow: q})
		pass := mixing.MeanDose.Run(nil, mixing.MeanDoseInput{FluenceRate: field.RadialAverage.Run(nil, c), Residence: stay})
		assert.InEpsilon(t, row.Float("dose_per_pass_mJ_per_cm2"), pass.MillijoulesPerSquareCentimetre(), 1e-9, row.Text("case"))

		n := greenwater.Passes.Run(nil, greenwater.PassesInput{Flow: q, HoursPerDay: unit.Hours(24), Volume: pond})
		assert.InDelta(t, row.Float("passes_per_d"), n.Float(), 1e-12, row.Text("case"))
		day := greenwater.DailyDose.Run(nil, greenwater.DailyDoseInput{MeanDose: pass, Passes: n})
		assert.InEpsilon(t, row.Float("daily_dose_formula_mJ_per_cm2"), day.MillijoulesPerSquareCentimetre(), 1e-9, row.Text("case"))
	}
}

// The US shorthand of the trade, 10 W for 1000 US gallons, is 2.6 W/m³ (common practice, from memory).
func TestPowerPerVolumeOfTheShorthand(t *testing.T) {
	w := greenwater.PowerPerVolume.Run(nil, greenwater.PowerPerVolumeInput{WallPower: 10, Volume: unit.USGallons(1000)})
	assert.InDelta(t, 2.6, w.WattsPerCubicMetre(), 0.05)
	assert.InDelta(t, 3*w.WattsPerCubicMetre(), w.In(unit.CubicMetres(3)).Watts(), 1e-12)
}
