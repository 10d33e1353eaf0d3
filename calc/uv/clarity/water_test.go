package clarity_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/clarity"
	"example.com/pondwright/calc/uv/field"
)

// Closed form, printed to 10 digits; definition of SUVA, US EPA method 415.3 (from memory).
func TestFromCarbonAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "uv/uvt_from_doc.csv") {
		T := clarity.FromCarbon.Run(nil, clarity.CarbonInput{
			Carbon: unit.MilligramsPerLitre(row.Float("DOC_mg_per_L")), Specific: row.Float("SUVA_L_per_mg_m"),
		})
		assert.InEpsilon(t, row.Float("UVT_10mm_pct"), T.Percent(), 1e-9)
	}
}

// Closed form, printed to 10 digits; the absorption comes from package field.
func TestTransmittanceAgainstTable(t *testing.T) {
	paths := map[string]float64{"T_20mm_pct": 20, "T_50mm_pct": 50, "T_100mm_pct": 100}
	for _, row := range reftest.Table(t, "uv/uvt_absorption.csv") {
		a := field.Absorption.Run(nil, field.AbsorptionInput{
			Transmittance: unit.Percent(row.Float("UVT_10mm_pct")), Path: unit.Millimetres(10),
		})
		for column, mm := range paths {
			T := clarity.Transmittance.Run(nil, clarity.TransmittanceInput{Absorption: a, Path: unit.Millimetres(mm)})
			assert.InEpsilon(t, row.Float(column), T.Percent(), 1e-9, column)
		}
	}
}

// Closed form, printed to 10 digits: SAK 254 is the coefficient in base 10.
func TestDecadicAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "uv/uvt_absorption.csv") {
		a10 := unit.AbsorptionCoefficient(row.Float("SAK254_per_m_base10"))
		e := clarity.FromDecadic.Run(nil, clarity.DecadicInput{Decadic: a10})
		assert.InEpsilon(t, row.Float("alpha_e_per_m"), e.PerMetre(), 1e-9)
		back := clarity.Decadic.Run(nil, clarity.NaperianInput{Naperian: e})
		assert.InDelta(t, a10.PerMetre(), back.PerMetre(), 1e-12)
	}
}

// EPA 815-R-06-007 (from memory): water of 90 % has an absorbance of 0.046 on 10 mm, base 10.
func TestAbsorbanceOfNinetyPercent(t *testing.T) {
	a := field.Absorption.Run(nil, field.AbsorptionInput{Transmittance: 0.90, Path: unit.Millimetres(10)})
	assert.InDelta(t, 0.046, a.PerMetre()/100/2.302585093, 0.0005)
}

// Ranges as the reference table gives them, from memory.
func TestWatersAgainstTable(t *testing.T) {
	keys := map[string]string{
		"groundwater, tap water": "tap", "filtered surface water for supply": "surface-filtered",
		"recirculating fish farm water": "fish-farm", "clear planted pond, good filter": "clear-pond",
		"tea-coloured pond (leaf humics)": "brown-pond", "green pond (100-300 ug/L chlorophyll)": "green-pond",
	}
	checked := 0
	for _, row := range reftest.Table(t, "uv/uvt_typical.csv") {
		key, ok := keys[row.Text("water")]
		if !ok {
			continue
		}
		checked++
		w, ok := clarity.Find(key)
		require.True(t, ok, key)
		assert.InDelta(t, row.Float("low_pct"), w.Low.Percent(), 1e-9)
		assert.InDelta(t, row.Float("typical_pct"), w.Typical.Percent(), 1e-9)
		assert.InDelta(t, row.Float("high_pct"), w.High.Percent(), 1e-9)
	}
	assert.Len(t, clarity.Waters(), checked)
	_, ok := clarity.Find("rose water")
	assert.False(t, ok)
}

// The assumption by which SpecificAbsorption was set, to the digits it is given with.
func TestGreenWaterOfTheAssumption(t *testing.T) {
	clear := field.Absorption.Run(nil, field.AbsorptionInput{Transmittance: 0.70, Path: unit.Millimetres(10)})
	a := clarity.Green.Run(nil, clarity.GreenInput{
		Clear: clear, Chlorophyll: unit.MilligramsPerLitre(0.2), Specific: clarity.SpecificAbsorption,
	})
	T := clarity.Transmittance.Run(nil, clarity.TransmittanceInput{Absorption: a, Path: unit.Millimetres(10)})
	assert.InDelta(t, 0.50, T.Float(), 0.001)
}
