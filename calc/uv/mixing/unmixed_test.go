package mixing_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/field"
	"example.com/pondwright/calc/uv/mixing"
)

// Values by scipy.integrate.quad, printed to 10 digits.
func TestUnmixedDoseAgainstScipy(t *testing.T) {
	for _, row := range reftest.Table(t, "uv/no_radial_mixing.csv") {
		in := mixing.UnmixedDoseInput{
			MeanDose:     unit.MillijoulesPerSquareCentimetre(row.Float("mean_dose_mJ_per_cm2")),
			D10:          unit.MillijoulesPerSquareCentimetre(row.Float("D10_mJ_per_cm2")),
			SleeveRadius: unit.Metres(row.Float("sleeve_outer_radius_m")), ChamberRadius: unit.Metres(row.Float("chamber_inner_radius_m")),
			Absorption: field.Absorption.Run(nil, field.AbsorptionInput{
				Transmittance: unit.Percent(row.Float("UVT_10mm_pct")), Path: unit.Millimetres(10),
			}),
		}
		flat := mixing.UnmixedDose.Run(nil, in).MillijoulesPerSquareCentimetre()
		assert.InEpsilon(t, row.Float("RED_flat_mJ_per_cm2"), flat, 1e-9, row.Text("case"))
		in.Laminar = true
		laminar := mixing.UnmixedDose.Run(nil, in).MillijoulesPerSquareCentimetre()
		assert.InEpsilon(t, row.Float("RED_laminar_mJ_per_cm2"), laminar, 1e-9, row.Text("case"))
	}
}

// Jensen: uneven light on uneven water never counts for more than its mean, and for all but the mean where the dose is
// small beside D10. No dose is too large to be told.
func TestUnmixedDoseIsBelowTheMean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := mixing.UnmixedDoseInput{
			MeanDose:     unit.Fluence(rapid.Float64Range(1e-3, 1e5).Draw(t, "D")),
			D10:          unit.Fluence(rapid.Float64Range(1, 1e5).Draw(t, "D10")),
			SleeveRadius: unit.Metres(rapid.Float64Range(0.0025, 0.05).Draw(t, "rs")),
			Absorption:   unit.AbsorptionCoefficient(rapid.Float64Range(0, 400).Draw(t, "a")),
			Laminar:      rapid.Bool().Draw(t, "laminar"),
		}
		in.ChamberRadius = in.SleeveRadius * unit.Length(rapid.Float64Range(1.05, 8).Draw(t, "R/rs"))
		red := mixing.UnmixedDose.Run(nil, in)
		assert.LessOrEqual(t, float64(red), float64(in.MeanDose)*(1+1e-9))
		assert.Positive(t, float64(red))
	})
	faint := mixing.UnmixedDoseInput{MeanDose: 1e-6, D10: 1, SleeveRadius: 0.01, ChamberRadius: 0.03, Absorption: 10}
	assert.InEpsilon(t, 1e-6, float64(mixing.UnmixedDose.Run(nil, faint)), 1e-5) // the next term is ln(10) D/D10 = 2.3e-6 of it
}
