package field

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/unit"
)

// One lamp on the axis is the chamber of CarefulAverage.
func TestParallelAverageOfOneLampOnTheAxis(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyChamber(t)
		one := Lamps{
			Output: c.Output, Count: 1, ArcLength: c.ArcLength, ChamberLength: c.ChamberLength,
			SleeveRadius: c.SleeveRadius, ChamberRadius: c.ChamberRadius, Absorption: c.Absorption,
		}
		assert.InEpsilon(t, float64(carefulAverage(c)), float64(ParallelAverage.Run(nil, one)), 1e-6)
		assert.InEpsilon(t, float64(c.Volume()), float64(one.Volume()), 1e-12)
	})
}

// A short arc in clear water: just inside the radius from which on the line source is the lesser everywhere, the last step
// of the search for the height where the models cross would lead below mid-arc.
func TestParallelAverageWhereTheModelsCrossInMidArc(t *testing.T) {
	c := Chamber{Output: 1, ArcLength: 0.04625665593155621, ChamberLength: 0.05697518773376942, SleeveRadius: 0.0194244384765625}
	c.ChamberRadius = c.SleeveRadius * 3.7282257080078125
	one := Lamps{
		Output: c.Output, Count: 1, ArcLength: c.ArcLength, ChamberLength: c.ChamberLength, SleeveRadius: c.SleeveRadius,
		ChamberRadius: c.ChamberRadius,
	}
	assert.InEpsilon(t, float64(carefulAverage(c)), float64(parallelAverage(one)), 1e-6)
}

// Two and three lamps: the closed forms of clear water, dimmed along each ray, summed over a grid of points that asks of
// every point whether it lies in the water. A grid of 1/160 of the diameter is good for about 0.3 % at the sleeves.
func TestParallelAverageAgainstAGrid(t *testing.T) {
	for _, count := range []int{2, 3} {
		l := Lamps{
			Output: 30, Count: count, Offset: 0.03, ArcLength: 0.3, ChamberLength: 0.3, SleeveRadius: 0.0125,
			ChamberRadius: 0.06, Absorption: water(0.7),
		}
		require.True(t, l.Fit())
		assert.InEpsilon(t, grid(l), float64(ParallelAverage.Run(nil, l)), 3e-3, "%d lamps", count)
	}
}

func grid(l Lamps) float64 {
	const n, nz = 160, 12
	R, rs, s, L := l.ChamberRadius.Metres(), l.SleeveRadius.Metres(), l.Offset.Metres(), l.ArcLength.Metres()
	sum, points := 0.0, 0
	for i := range n * n {
		x, y := R*((float64(i%n)+0.5)/n*2-1), R*((float64(i/n)+0.5)/n*2-1)
		var r []float64
		for j := range l.Count {
			angle := 2 * math.Pi * float64(j) / float64(l.Count)
			r = append(r, math.Hypot(x-s*math.Cos(angle), y-s*math.Sin(angle)))
		}
		if math.Hypot(x, y) > R || min(r[0], r[len(r)-1], r[1]) < rs {
			continue
		}
		points++
		for k := range nz {
			z := L / 2 * (float64(k) + 0.5) / nz
			for _, r := range r {
				p := Point{
					Output: l.Output / unit.Power(l.Count), ArcLength: l.ArcLength, SleeveRadius: l.SleeveRadius,
					Absorption: l.Absorption, Radius: unit.Metres(r), Height: unit.Metres(z),
				}
				sum += float64(min(radialAt(p), lineSourceAt(p))) / nz
			}
		}
	}
	return sum / float64(points)
}

func TestParallelLampsMakeNoLight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyChamber(t)
		l := Lamps{
			Output: c.Output, Count: rapid.IntRange(1, 6).Draw(t, "n"), ArcLength: c.ArcLength, ChamberLength: c.ChamberLength,
			SleeveRadius: c.SleeveRadius, ChamberRadius: c.ChamberRadius, Absorption: c.Absorption,
			Offset: c.ChamberRadius * unit.Length(rapid.Float64Range(0, 0.95).Draw(t, "s/R")),
		}
		if !l.Fit() {
			assert.NotEmpty(t, ParallelAverage.Outside(l))
			return
		}
		share := absorbedShare(AbsorbedShareInput{
			Absorption: l.Absorption, FluenceRate: ParallelAverage.Run(nil, l), Volume: l.Volume(), Output: l.Output,
		})
		assert.LessOrEqual(t, share.Float(), 1+2e-6)
	})
}
