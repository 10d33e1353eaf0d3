package mixing_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/mixing"
)

// Closed form of Bird, Stewart & Lightfoot (from memory), printed to 10 digits.
func TestPeakVelocityAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "uv/annulus_laminar.csv") {
		k := row.Float("kappa_sleeve_radius_over_chamber_radius")
		u := mixing.PeakVelocity.Run(nil, mixing.AnnulusInput{SleeveRadius: unit.Metres(k), ChamberRadius: 1})
		assert.InDelta(t, row.Float("u_max_over_u_mean"), u.Float(), 1e-9, "k = %g", k)
		least := mixing.FastestDose.Run(nil, mixing.FastestDoseInput{MeanDose: 1, PeakVelocity: u})
		assert.InDelta(t, row.Float("min_residence_over_mean_residence"), least.JoulesPerSquareMetre(), 1e-9)
	}
}

// Shah & London 1978, table of annular ducts (from memory): 1.508 at half the radius. Tube and parallel plates are the
// limits 2 and 1.5.
func TestPeakVelocityLimits(t *testing.T) {
	peak := func(k float64) float64 {
		return mixing.PeakVelocity.Run(nil, mixing.AnnulusInput{SleeveRadius: unit.Metres(k), ChamberRadius: 1}).Float()
	}
	assert.InDelta(t, 1.508, peak(0.5), 0.0005)
	assert.InDelta(t, 1.5, peak(0.999), 1e-6)
	assert.InDelta(t, 2, peak(1e-300), 0.01) // closes in on 2 as slowly as 1/ln k
	assert.NotEmpty(t, mixing.PeakVelocity.Outside(mixing.AnnulusInput{SleeveRadius: 0.9999, ChamberRadius: 1}))
}

// UFGS 11376, note to the designer: 5100 uW/cm² for 7 s.
func TestMeanDoseOfAPublishedBank(t *testing.T) {
	d := mixing.MeanDose.Run(nil, mixing.MeanDoseInput{FluenceRate: 51, Residence: unit.Seconds(7)})
	assert.InDelta(t, 35.7, d.MillijoulesPerSquareCentimetre(), 1e-9)
}

// Zhu et al. 2015, J. Food Agric. Environ. 13(1):43-47, abstract: about 100 uW/cm² for 20 h is 7.2 J/cm².
func TestMeanDoseOfALongExposure(t *testing.T) {
	d := mixing.MeanDose.Run(nil, mixing.MeanDoseInput{FluenceRate: 1, Residence: unit.Hours(20)})
	assert.InDelta(t, 7200, d.MillijoulesPerSquareCentimetre(), 50)
	assert.InDelta(t, 7200, d.MillijoulesPerSquareCentimetre(), 1e-9)
}

// Residence times of the chambers of annulus_average.csv, printed to 10 digits; doses from their averages.
func TestDosesAgainstTable(t *testing.T) {
	type light struct {
		volume unit.Volume
		radial unit.FluenceRate
		line   unit.FluenceRate
	}
	chambers := map[string]light{}
	for _, row := range reftest.Table(t, "uv/annulus_average.csv") {
		chambers[row.Text("case")] = light{
			volume: unit.Litres(row.Float("volume_L")),
			radial: unit.FluenceRate(10 * row.Float("E_radial_avg_mW_per_cm2")),
			line:   unit.FluenceRate(10 * row.Float("E_lsi_avg_mW_per_cm2")),
		}
	}
	checked := 0
	for _, row := range reftest.Table(t, "uv/dose_plug_flow.csv") {
		c, ok := chambers[row.Text("case")]
		if !ok {
			continue // its chamber is not in the other table
		}
		checked++
		stay := mixing.Residence.Run(nil, mixing.ResidenceInput{
			Volume: c.volume, Flow: unit.CubicMetresPerHour(row.Float("flow_m3_per_h")),
		})
		assert.InEpsilon(t, row.Float("residence_time_s"), stay.Seconds(), 1e-9)
		radial := mixing.MeanDose.Run(nil, mixing.MeanDoseInput{FluenceRate: c.radial, Residence: stay})
		assert.InEpsilon(t, row.Float("dose_radial_mJ_per_cm2"), radial.MillijoulesPerSquareCentimetre(), 2e-9)
		line := mixing.MeanDose.Run(nil, mixing.MeanDoseInput{FluenceRate: c.line, Residence: stay})
		assert.InEpsilon(t, row.Float("dose_lsi_mJ_per_cm2"), line.MillijoulesPerSquareCentimetre(), 2e-9)
	}
	require.Greater(t, checked, 60)
}
