package field

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
)

func pointOf(row reftest.Row, height string) Point {
	return Point{
		Output: unit.Watts(row.Float("P254_W")), ArcLength: unit.Metres(row.Float("arc_length_m")),
		SleeveRadius: unit.Metres(row.Float("sleeve_outer_radius_m")), Absorption: water(row.Float("UVT_10mm_pct") / 100),
		Radius: unit.Metres(row.Float("r_m")), Height: unit.Metres(row.Float(height)),
	}
}

// Points by scipy.integrate.quad, printed to 10 digits.
func TestPointsAgainstScipy(t *testing.T) {
	for _, row := range reftest.Table(t, "uv/point_field.csv") {
		p := pointOf(row, "z_from_mid_arc_m")
		line := LineSourceAt.Run(nil, p).MilliwattsPerSquareCentimetre()
		assert.InEpsilon(t, row.Float("E_lsi_mW_per_cm2"), line, 1e-9)
		radial := RadialAt.Run(nil, p).MilliwattsPerSquareCentimetre()
		assert.InDelta(t, row.Float("E_radial_mW_per_cm2"), radial, row.HalfDigit("E_radial_mW_per_cm2")+1e-12)
	}
}

// Sums worked out apart from this package, printed to 10 digits; their distance from the line is printed to 4.
func TestPointSourcesComeToTheLine(t *testing.T) {
	for _, row := range reftest.Table(t, "uv/mpss_convergence.csv") {
		p := pointOf(row, "z_m")
		sum := PointSourcesAt.Run(nil, PointSourcesInput{
			Output: p.Output, ArcLength: p.ArcLength, SleeveRadius: p.SleeveRadius, Absorption: p.Absorption,
			Radius: p.Radius, Height: p.Height, Count: int(row.Float("n_points")),
		})
		assert.InEpsilon(t, row.Float("E_mpss_mW_per_cm2"), sum.MilliwattsPerSquareCentimetre(), 5e-10)
		apart := float64(sum)/float64(LineSourceAt.Run(nil, p)) - 1
		assert.InDelta(t, row.Float("relative_difference"), apart, 2e-3*abs(row.Float("relative_difference"))+1e-9)
	}
}

// Far beyond the end of an arc in dark water next to no light is left, and what is told is it: never less than nothing, and
// the midpoint rule over the arc, 20000 parts of 15 µm, sees the same.
func TestLineSourceBeyondTheArc(t *testing.T) {
	for _, z := range []float64{0.16, 0.2, 0.4, 1} {
		p := Point{Output: 10, ArcLength: 0.3, SleeveRadius: 0.01, Absorption: 100, Radius: 0.04, Height: unit.Metres(z)}
		fine := PointSourcesInput{
			Output: p.Output, ArcLength: p.ArcLength, SleeveRadius: p.SleeveRadius, Absorption: p.Absorption, Radius: p.Radius,
			Height: p.Height, Count: 20000,
		}
		assert.InEpsilon(t, float64(pointSourcesAt(fine)), float64(lineSourceAt(p)), 1e-6, "z = %g m", z)
		p.Height = -p.Height
		assert.InEpsilon(t, float64(pointSourcesAt(fine)), float64(lineSourceAt(p)), 1e-6, "z = %g m", -z)
	}
}

func TestPointSourcesSayWhenTheyAreTooFew(t *testing.T) {
	in := PointSourcesInput{ArcLength: 0.3, SleeveRadius: 0.0125, Count: 20}
	assert.NotEmpty(t, PointSourcesAt.Outside(in))
	in.Count = 100
	assert.Empty(t, PointSourcesAt.Outside(in))
}

func abs(x float64) float64 { return max(x, -x) }
