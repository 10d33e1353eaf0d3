package field

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
)

func water(transmittance float64) unit.AbsorptionCoefficient {
	return absorption(AbsorptionInput{Transmittance: unit.Ratio(transmittance), Path: unit.Millimetres(10)})
}

func chamberOf(row reftest.Row) Chamber {
	return Chamber{
		Output: unit.Watts(row.Float("P254_W")), Absorption: water(row.Float("UVT_10mm_pct") / 100),
		ArcLength: unit.Metres(row.Float("arc_length_m")), ChamberLength: unit.Metres(row.Float("arc_length_m")),
		SleeveRadius:  unit.Metres(row.Float("sleeve_outer_radius_m")),
		ChamberRadius: unit.Metres(row.Float("chamber_inner_radius_m")),
	}
}

// Closed form, printed to 10 digits.
func TestAbsorption(t *testing.T) {
	for _, row := range reftest.Table(t, "uv/uvt_absorption.csv") {
		T := row.Float("UVT_10mm_pct") / 100
		a := Absorption.Run(nil, AbsorptionInput{Transmittance: unit.Ratio(T), Path: unit.Millimetres(10)})
		assert.InEpsilon(t, row.Float("alpha_e_per_m"), a.PerMetre(), 5e-10)
		// The same water stated over 100 mm, as some national rules do.
		long := Absorption.Run(nil, AbsorptionInput{
			Transmittance: unit.Ratio(row.Float("T_100mm_pct") / 100), Path: unit.Millimetres(100),
		})
		assert.InEpsilon(t, a.PerMetre(), long.PerMetre(), 1e-8) // 10 digits of T, through a logarithm as small as 0.05
	}
}

// Averages by scipy.integrate.quad (estimated error 1e-12), printed to 10 digits.
func TestAveragesAgainstScipy(t *testing.T) {
	for _, row := range reftest.Table(t, "uv/annulus_average.csv") {
		c := chamberOf(row)
		c.ChamberLength = unit.Metres(row.Float("chamber_length_m"))
		const lastBits = 1e-10
		radial := RadialAverage.Run(nil, c).MilliwattsPerSquareCentimetre()
		assert.InDelta(t, row.Float("E_radial_avg_mW_per_cm2"), radial, row.HalfDigit("E_radial_avg_mW_per_cm2")+lastBits, row.Text("case"))
		line := LineSourceAverage.Run(nil, c).MilliwattsPerSquareCentimetre()
		assert.InDelta(t, row.Float("E_lsi_avg_mW_per_cm2"), line, row.HalfDigit("E_lsi_avg_mW_per_cm2")+lastBits, row.Text("case"))
		assert.InDelta(t, row.Float("volume_L"), c.Volume().Litres(), row.HalfDigit("volume_L")+lastBits, row.Text("case"))

		share := AbsorbedShare.Run(nil, AbsorbedShareInput{
			Absorption: c.Absorption, FluenceRate: LineSourceAverage.Run(nil, c), Volume: c.Volume(), Output: c.Output,
		})
		assert.InDelta(t, row.Float("absorbed_fraction_lsi"), share.Float(), 5e-10, row.Text("case"))
	}
}

// Double sums of 24 and of 40 points a side, worked out apart from this package; the table itself states that the two
// differ by up to 6.3e-9.
func TestCarefulAverageAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "uv/annulus_average_radlsi.csv") {
		careful := CarefulAverage.Run(nil, chamberOf(row)).MilliwattsPerSquareCentimetre()
		assert.InEpsilon(t, row.Float("E_radlsi_avg_mW_per_cm2"), careful, 1e-8, row.Text("case"))
	}
}

// Closed form for clear water, arc and chamber of one length, derived by hand from the arc tangents.
func TestLineSourceAverageInClearWater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyChamber(t)
		c.Absorption, c.ChamberLength = 0, c.ArcLength
		P, L, rs, R := c.Output.Watts(), c.ArcLength.Metres(), c.SleeveRadius.Metres(), c.ChamberRadius.Metres()
		g := func(r float64) float64 {
			r2, s2 := r*r, r*r+L*L
			return L*r*math.Atan(L/r) + L*L/2*math.Log(s2) - (s2*math.Log(s2)-r2*math.Log(r2))/4
		}
		want := P * (g(R) - g(rs)) / (math.Pi * L * L * (R*R - rs*rs))
		assert.InEpsilon(t, want, float64(LineSourceAverage.Run(nil, c)), 1e-6)
	})
}

// A line without end: in clear water the line source gives pi/2 of the radial model, and in any water the share absorbed
// is 1 - Ki2(a g). Ki2 by scipy.integrate.quad. Ends still count by about rs/H.
func TestLongLampLimits(t *testing.T) {
	long := Chamber{Output: 10, ArcLength: 2, ChamberLength: 2, SleeveRadius: 0.003, ChamberRadius: 0.004}
	assert.InEpsilon(t, math.Pi/2, float64(lineSourceAverage(long)/radialAverage(long)), 0.01)

	for _, row := range reftest.Table(t, "uv/sievert_integral.csv") {
		b := row.Float("b")
		if b == 0 {
			continue
		}
		// Ten lengths of chamber for one of arc: less than 1e-4 of the light still leaves at the ends.
		c := Chamber{Output: 1, ArcLength: 0.3, ChamberLength: 3, SleeveRadius: 0.0125, ChamberRadius: 0.0135}
		c.Absorption = unit.AbsorptionCoefficient(b / 0.001)
		s := absorbedShare(AbsorbedShareInput{
			Absorption: c.Absorption, FluenceRate: lineSourceAverage(c), Volume: c.Volume(), Output: c.Output,
		})
		assert.InDelta(t, 1-row.Float("Ki2"), s.Float(), 1e-4, "b = %g", b)
	}
}

func TestFieldInvariants(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyChamber(t)
		radial, line, careful := radialAverage(c), lineSourceAverage(c), carefulAverage(c)
		const quadrature = 1 + 2e-6
		assert.LessOrEqual(t, float64(careful), float64(radial)*quadrature, "careful above radial")
		assert.LessOrEqual(t, float64(careful), float64(line)*quadrature, "careful above line source")
		assert.Positive(t, float64(careful))
		for _, E := range []unit.FluenceRate{radial, line, careful} {
			s := absorbedShare(AbsorbedShareInput{Absorption: c.Absorption, FluenceRate: E, Volume: c.Volume(), Output: c.Output})
			assert.LessOrEqual(t, s.Float(), quadrature, "more absorbed than was given")
		}

		darker := c
		darker.Absorption = c.Absorption*1.1 + 0.1
		assert.Less(t, float64(carefulAverage(darker)), float64(careful), "darker water is brighter")
		assert.Less(t, float64(lineSourceAverage(darker)), float64(line), "darker water is brighter")

		twice := c
		twice.Output *= 2
		assert.InEpsilon(t, 2*float64(careful), float64(carefulAverage(twice)), 1e-12, "not linear in the output")
	})
}

// Seen from mid-chamber the ends of these arcs are so far off in the dark water that next to nothing of their light is
// left, and as little of the slope by which the crossing of the models is found.
func TestCarefulAverageOfALongArcInDarkWater(t *testing.T) {
	for _, c := range []Chamber{
		{Output: 35, ArcLength: 1.2177, ChamberLength: 0.7518, SleeveRadius: 0.00319, ChamberRadius: 0.01393, Absorption: water(0.1385)},
		{Output: 1, ArcLength: 2, ChamberLength: 0.02, SleeveRadius: 0.0025, ChamberRadius: 0.025, Absorption: water(0.01)},
	} {
		line, careful := float64(lineSourceAverage(c)), float64(carefulAverage(c))
		assert.Greater(t, careful, 0.8*line)
		assert.LessOrEqual(t, careful, line)

		// One lamp on the axis goes the same way, but asks for the crossing at every radius.
		parallel := ParallelAverage.Run(nil, Lamps{
			Output: c.Output, Count: 1, ArcLength: c.ArcLength, ChamberLength: c.ChamberLength,
			SleeveRadius: c.SleeveRadius, ChamberRadius: c.ChamberRadius, Absorption: c.Absorption,
		})
		assert.InEpsilon(t, careful, float64(parallel), 1e-6)
	}
}

// No light is made: what the water absorbs and what reaches the wall beside the chamber is not more than the lamp gives,
// and in a chamber far longer than the arc it is all of it. The wall is summed here by the midpoint rule.
func TestLightIsKept(t *testing.T) {
	c := Chamber{Output: 1, ArcLength: 0.2, ChamberLength: 0.2, SleeveRadius: 0.0125, ChamberRadius: 0.035, Absorption: water(0.7)}
	balance := func(c Chamber) float64 {
		s := absorbedShare(AbsorbedShareInput{
			Absorption: c.Absorption, FluenceRate: lineSourceAverage(c), Volume: c.Volume(), Output: c.Output,
		})
		return s.Float() + wallShare(c)
	}
	assert.Less(t, balance(c), 0.999, "some light leaves at the ends")
	c.ChamberLength = 2
	assert.InDelta(t, 1, balance(c), 1e-4, "midpoint rule, 1 mm steps against a gap of 22 mm")
}

func wallShare(c Chamber) (sum float64) {
	R, rs, a := c.ChamberRadius.Metres(), c.SleeveRadius.Metres(), c.Absorption.PerMetre()
	const step = 0.001
	for z := -c.ChamberLength.Metres()/2 + step/2; z < c.ChamberLength.Metres()/2; z += step {
		for l := -c.ArcLength.Metres()/2 + step/2; l < c.ArcLength.Metres()/2; l += step {
			rho := math.Hypot(R, z-l)
			sum += math.Exp(-a*rho*(R-rs)/R) / (4 * math.Pi * rho * rho) * R / rho * 2 * math.Pi * R * step * step
		}
	}
	return sum / c.ArcLength.Metres()
}

// Arc and chamber of different lengths, clear water: the lesser of the two closed forms summed point by point by the
// midpoint rule. 450 by 450 points, with a line of cell borders at the end of the arc, leave an error of about (1/450)².
func TestCarefulAverageOfShortAndLongArcs(t *testing.T) {
	for _, H := range []float64{0.15, 0.3, 0.45} {
		c := Chamber{
			Output: 10, ArcLength: 0.3, ChamberLength: unit.Metres(H), SleeveRadius: 0.0125, ChamberRadius: 0.05,
		}
		const n = 450
		L, rs, R := 0.3, 0.0125, 0.05
		sum := 0.0
		for i := range n {
			r := rs + (R-rs)*(float64(i)+0.5)/n
			for j := range n {
				z := H / 2 * (float64(j) + 0.5) / n
				if z > L/2 {
					continue
				}
				line := 10 / (4 * math.Pi * L * r) * (math.Atan((L/2+z)/r) + math.Atan((L/2-z)/r))
				sum += r * min(line, 10/(2*math.Pi*r*L))
			}
		}
		want := sum * (R - rs) / n / n * 2 / (R*R - rs*rs)
		assert.InEpsilon(t, want, float64(CarefulAverage.Run(nil, c)), 2e-5, "H = %g", H)
	}
}

func BenchmarkAverage(b *testing.B) {
	c := Chamber{
		Output: 10, ArcLength: 0.3, ChamberLength: 0.3, SleeveRadius: 0.0125, ChamberRadius: 0.035, Absorption: water(0.7),
	}
	for name, average := range map[string]func(Chamber) unit.FluenceRate{
		"radial": radialAverage, "line source": lineSourceAverage, "careful": carefulAverage,
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				average(c)
			}
		})
	}
}
