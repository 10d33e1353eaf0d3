package clarity_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/clarity"
)

// Closed forms, printed to 10 digits: the same water stated over 10 mm, over 100 mm, in base 10 and in base e.
func TestEveryStatementOfAWaterIsTheSame(t *testing.T) {
	for _, row := range reftest.Table(t, "uv/uvt_absorption.csv") {
		e, ten := unit.AbsorptionCoefficient(row.Float("alpha_e_per_m")), unit.AbsorptionCoefficient(row.Float("SAK254_per_m_base10"))
		for _, s := range []clarity.Statement{
			{Transmittance: unit.Percent(row.Float("UVT_10mm_pct")), Path: unit.Millimetres(10)},
			{Transmittance: unit.Percent(row.Float("T_100mm_pct")), Path: unit.Millimetres(100)},
			{Decadic: &ten}, {Naperian: &e},
		} {
			a, err := clarity.Describe(nil, s)
			require.NoError(t, err)
			assert.InEpsilon(t, row.Float("UVT_10mm_pct"), a.Stated.Over10.Percent(), 1e-8)
			assert.InEpsilon(t, row.Float("SAK254_per_m_base10"), a.Stated.Decadic.PerMetre(), 1e-8)
			assert.InEpsilon(t, row.Float("alpha_e_per_m"), a.Stated.Naperian.PerMetre(), 1e-8)
			assert.Equal(t, a.Stated, a.WithAlgae)
			assert.Empty(t, a.Findings)
		}
	}
}

func TestAlgaeComeOnTop(t *testing.T) {
	algae := unit.MilligramsPerLitre(0.2)
	a, err := clarity.Describe(nil, clarity.Statement{Transmittance: 0.7, Path: 0.01, Algae: &algae})
	require.NoError(t, err)
	assert.InDelta(t, 0.50, a.WithAlgae.Over10.Float(), 0.001, "as the absorption of algae was set")
	require.Len(t, a.Findings, 1)
	assert.Equal(t, "ALGAE_ABSORPTION_ASSUMED", a.Findings[0].Code)

	measured := 1e5
	a, err = clarity.Describe(nil, clarity.Statement{Transmittance: 0.7, Path: 0.01, Algae: &algae, Specific: &measured})
	require.NoError(t, err)
	assert.InDelta(t, 0.7*math.Exp(-1e5*0.2e-3*0.01), a.WithAlgae.Over10.Float(), 1e-12)
	assert.Empty(t, a.Findings)
}

func TestWhatIsAssumedOfWaterIsSaid(t *testing.T) {
	for _, w := range clarity.Waters() {
		a, err := clarity.Describe(nil, clarity.Statement{Kind: w.Key})
		require.NoError(t, err)
		assert.InEpsilon(t, w.Typical.Float(), a.Stated.Over10.Float(), 1e-12)
		assert.Equal(t, w.Source, a.Findings[0].Source)
	}
	a, err := clarity.Describe(nil, clarity.Statement{Carbon: &clarity.CarbonInput{Carbon: unit.MilligramsPerLitre(4), Specific: 2.5}})
	require.NoError(t, err)
	assert.Equal(t, "DISSOLVED_CARBON_ALONE", a.Findings[0].Code)
}

func TestNonsenseAboutWaterIsRefused(t *testing.T) {
	below, nan, much := unit.AbsorptionCoefficient(-1), unit.AbsorptionCoefficient(math.NaN()), unit.KilogramsPerCubicMetre(10)
	for field, s := range map[string]clarity.Statement{
		"transmittance":            {Transmittance: 1.5, Path: 0.01},
		"absorption_base_10_per_m": {Decadic: &below},
		"absorption_base_e_per_m":  {Naperian: &nan},
		"dissolved_carbon":         {Carbon: &clarity.CarbonInput{Carbon: -1, Specific: 1}},
		"water_kind":               {Kind: "rose water"},
		"chlorophyll_ug_per_l":     {Transmittance: 0.7, Path: 0.01, Algae: &much},
	} {
		_, err := clarity.Describe(nil, s)
		var one input.Error
		require.ErrorAs(t, err, &one)
		assert.Equal(t, field, one.Field)
	}
}
