package uv_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/uv/kill"
)

func TestSuppressionDoseIsThePublishedOne(t *testing.T) {
	d, s := uv.SuppressionDaily()
	published, ok := kill.Find("microcystis-growth-stop")
	require.True(t, ok)
	assert.Equal(t, published.Low, d)
	assert.Equal(t, published.Source, s)
}

// Common practice, no source: 1 to 2 W for 1000 L with goldfish, 2 to 4 with koi; 4.2 in sun, 5.5 from the strict.
func TestPracticePower(t *testing.T) {
	rule := func(koi, sun bool) [2]unit.PowerPerVolume {
		p := uv.PracticePower(uv.PracticeInput{Koi: koi, FullSun: sun})
		assert.Equal(t, source.Practice, p.Source)
		return [2]unit.PowerPerVolume{p.Low, p.High}
	}
	assert.Equal(t, [2]unit.PowerPerVolume{1, 2}, rule(false, false))
	assert.Equal(t, [2]unit.PowerPerVolume{1, 4.2}, rule(false, true))
	assert.Equal(t, [2]unit.PowerPerVolume{2, 4}, rule(true, false))
	assert.Equal(t, [2]unit.PowerPerVolume{2, 5.5}, rule(true, true))
}

// CIE 187:2010, abstract: 60 J/m² at 254 nm in 8 hours.
func TestCautionsNameTheLimit(t *testing.T) {
	cautions := uv.Cautions()
	require.NotEmpty(t, cautions)
	assert.Equal(t, []string{"UV_C_EYES_AND_SKIN", "MAINS_NEAR_WATER", "MERCURY", "QUARTZ_AND_DRY_RUNNING"}, codes(cautions))
	require.NotNil(t, cautions[0].Limit)
	assert.InDelta(t, 60, cautions[0].Limit.Number, 1e-12)
}

func TestFormulasAreDescribed(t *testing.T) {
	seen := map[string]bool{}
	for _, e := range uv.Formulas() {
		d := e.Describe()
		assert.False(t, seen[d.ID], "%s twice", d.ID)
		seen[d.ID] = true
		assert.NotEmpty(t, d.Name, d.ID)
		assert.NotEmpty(t, d.Equation, d.ID)
		assert.NotZero(t, d.Source, d.ID)
	}
}
