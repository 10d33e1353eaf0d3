package field

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
)

// Points by scipy.integrate.quad, printed to 10 digits: one lamp on the axis, seen from the other side as well.
func TestLightAtAgainstScipy(t *testing.T) {
	rows := reftest.Table(t, "uv/point_field.csv")
	require.NotEmpty(t, rows)
	for _, row := range rows {
		at := pointOf(row, "z_from_mid_arc_m")
		p := Place{
			Output: at.Output, Count: 1, ArcLength: at.ArcLength, SleeveRadius: at.SleeveRadius, Absorption: at.Absorption,
			Y: -at.Radius, Z: -at.Height,
		}
		light := LightAt.Run(nil, p)
		line, radial := row.Float("E_lsi_mW_per_cm2"), row.Float("E_radial_mW_per_cm2")
		assert.InEpsilon(t, line, light.LineSource.MilliwattsPerSquareCentimetre(), 1e-9)
		assert.InDelta(t, radial, light.Radial.MilliwattsPerSquareCentimetre(), row.HalfDigit("E_radial_mW_per_cm2")+1e-12)
		assert.InEpsilon(t, min(line, radial)+1, light.Careful.MilliwattsPerSquareCentimetre()+1, 1e-9)
		assert.Empty(t, LightAt.Outside(p))
	}
}

// Two lamps light the place midway between them evenly, each as if alone with half the power.
func TestLightAtOfTwoLampsAddsUp(t *testing.T) {
	p := Place{Output: 20, Count: 2, Offset: 0.03, ArcLength: 0.3, SleeveRadius: 0.0125, Absorption: water(0.7), Y: 0.01, Z: 0.02}
	alone := p
	alone.Output, alone.Count, alone.Offset = 10, 1, 0
	alone.X = 0.03
	assert.InEpsilon(t, 2*float64(lightAt(alone).Careful), float64(lightAt(p).Careful), 1e-12)
	three := p
	three.Count = 3
	three.X, three.Y = 0.03, 0
	assert.True(t, three.InSleeve(), "the first of three lamps stands on x")
	three.X = -0.03
	assert.False(t, three.InSleeve(), "and none opposite")
	p.X = unit.Millimetres(-25)
	assert.NotEmpty(t, LightAt.Outside(p), "inside the second sleeve")
}
