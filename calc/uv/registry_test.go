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

// Common practice, no source. 36 W on 10 m³ at 5 m³/h: 3.6 W for 1000 L, 2 h a turn, 138.9 L/h for each watt.
func TestRulesStandBesideThePhysics(t *testing.T) {
	rules := uv.Rules(uv.RulesInput{
		WallPower: 36, Flow: unit.CubicMetresPerHour(5), Volume: 10, HoursPerDay: unit.Hours(20), Practice: uv.PracticeInput{Koi: true},
	})
	values := []float64{3.6, 2, 5000.0 / 36, 5000.0 / 36, 20}
	require.Len(t, rules, len(values))
	for i, r := range rules {
		assert.InDelta(t, values[i], r.Value.Number, 1e-9, r.Name)
		assert.Equal(t, source.Practice, r.Source, r.Name)
		assert.True(t, r.Low != nil || r.High != nil, r.Name)
	}
}

// Keitz formula by IOA/IUVA 2007, p. 1396, and CIE 187:2010: a 10 W lamp of 0.3 m reaches the limit a metre off in 60 s,
// to the digits of 6 mJ/cm² over 99.83149682 µW/cm².
func TestCautionsTellTheTimeOfTheUnitsOwnLamps(t *testing.T) {
	u := gardenUnit()
	u.Output254 = 10
	cautions := uv.CautionsFor(nil, u)
	assert.InEpsilon(t, 6000/99.83149682, cautions[0].Value.Number, 1e-9)
	assert.Contains(t, cautions[0].Sentence, "in 60 s")
	u.ArcLength = 1.2
	assert.InDelta(t, 2.4, uv.Bare(nil, u).Distance.Metres(), 1e-12)
}

// A measured loss is taken as measured, and no longer said to be assumed.
func TestMeasuredLossesReplaceTheAssumed(t *testing.T) {
	u := gardenUnit()
	u.Output254, u.BallastLoss = 0, 0.20
	f, err := uv.FieldAt(nil, u, uv.Condition{Transmittance: 0.8, Age: 1, Sleeve: 0.94, Film: 0.6, EndOfLife: 0.8})
	require.NoError(t, err)
	// 36 W a lamp: 0.35 of lamp power is more than small lamps give up to 23.7 W; above, 0.8 of 0.35.
	assert.InEpsilon(t, 36*0.35*0.8*0.8*0.94*0.6, f.Light.IntoWater.Watts(), 1e-12)
	for _, code := range []string{"SLEEVE_ASSUMED", "FOULING_ASSUMED", "AGEING_ASSUMED", "BALLAST_ASSUMED"} {
		assert.NotContains(t, codes(f.Findings), code)
	}
}
