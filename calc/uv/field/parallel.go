package field

import (
	"math"
	"slices"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Lamps are several equal lamps, each in a sleeve of its own, evenly round a circle about the axis of the chamber. A lamp
// bent to a U is two of them with half the light each.
type Lamps struct {
	Output        unit.Power                 `sym:"P"` // at 254 nm, of all of them, what enters the water
	Count         int                        `sym:"n"`
	Offset        unit.Length                `sym:"s"` // of each lamp from the axis of the chamber
	ArcLength     unit.Length                `sym:"L"`
	ChamberLength unit.Length                `sym:"H"`
	SleeveRadius  unit.Length                `sym:"rs"`
	ChamberRadius unit.Length                `sym:"R"`
	Absorption    unit.AbsorptionCoefficient `sym:"a"`
}

// Volume is the water between the sleeves and the wall.
func (l Lamps) Volume() unit.Volume {
	R, rs, H := l.ChamberRadius.Metres(), l.SleeveRadius.Metres(), l.ChamberLength.Metres()
	return unit.CubicMetres(math.Pi * (R*R - float64(l.Count)*rs*rs) * H)
}

// Fit says whether the sleeves stand clear of one another and of the wall.
func (l Lamps) Fit() bool {
	s, rs, R := l.Offset.Metres(), l.SleeveRadius.Metres(), l.ChamberRadius.Metres()
	return s+rs <= R && (l.Count == 1 || s*math.Sin(math.Pi/float64(l.Count)) >= rs)
}

// ParallelAverage gives the fluence rate averaged over the water round several parallel lamps, for each lamp the lesser
// of the radial and the line source model at every point.
//
//	E = n/A int_rs^(R+s) e(r) r theta(r) dr
//
// e(r) is the light of one lamp at distance r, averaged over the length of the chamber; theta the angle, seen from a
// lamp, over which there is water at that distance; A the section of the water. Watts, metres and W/m². What the other
// sleeves shade is not counted, nor that light crosses them without loss. Valid where the sleeves fit. Source: Liu et al.
// 2004 (rule from memory) for e; the sum over lamps is plane geometry.
var ParallelAverage = working.Formula[Lamps, unit.FluenceRate]{
	ID: "field.parallel-average", Name: "average fluence rate, several parallel lamps",
	Equation: "E = n/A · int_rs^(R+s) e(r) r theta(r) dr, e the lesser of radial and line source, theta the angle in water",
	Symbol:   "E", Source: source.RadLSI, Outside: parallelOutside, Eval: parallelAverage,
}

func parallelAverage(l Lamps) unit.FluenceRate {
	one := newAnnulus(Chamber{
		Output: l.Output / unit.Power(l.Count), ArcLength: l.ArcLength, ChamberLength: l.ChamberLength,
		SleeveRadius: l.SleeveRadius, ChamberRadius: l.ChamberRadius + l.Offset, Absorption: l.Absorption,
	})
	sum, edges := 0.0, l.edges(one)
	for i := range len(edges) - 1 {
		sum += one.across(edges[i], edges[i+1], crowdedAtBothEnds, func(r float64) float64 {
			e, _ := one.lesser(r, one.Z)
			return e * l.angleInWater(r)
		})
	}
	n, R, rs := float64(l.Count), l.ChamberRadius.Metres(), l.SleeveRadius.Metres()
	return unit.FluenceRate(n * sum / (math.Pi * (R*R - n*rs*rs)))
}

func parallelOutside(l Lamps) string {
	if !l.Fit() {
		return "the sleeves do not fit in the chamber"
	}
	return ""
}

// edges are the distances from a lamp where the integrand has a kink, from its sleeve to where no light is left.
func (l Lamps) edges(one annulus) []float64 {
	s, R, rs := l.Offset.Metres(), l.ChamberRadius.Metres(), l.SleeveRadius.Metres()
	edges := []float64{rs, one.crossing(one.Z), one.crossing(0), R - s, one.dark}
	for i := 1; i < l.Count; i++ {
		d := l.distance(i)
		edges = append(edges, d-rs, d+rs)
	}
	for i := range edges {
		edges[i] = min(max(edges[i], rs), one.dark)
	}
	slices.Sort(edges)
	return slices.Compact(edges)
}

// distance is how far the i-th other lamp stands from one lamp.
func (l Lamps) distance(i int) float64 {
	return 2 * l.Offset.Metres() * math.Sin(math.Pi*float64(i)/float64(l.Count))
}

// angleInWater is the angle, seen from a lamp, over which there is water at distance r: inside the wall and outside the
// other sleeves.
func (l Lamps) angleInWater(r float64) float64 {
	theta := angleInside(r, l.Offset.Metres(), l.ChamberRadius.Metres())
	for i := 1; i < l.Count; i++ {
		theta -= angleInside(r, l.distance(i), l.SleeveRadius.Metres())
	}
	return theta
}

// angleInside is the angle of a circle of radius r that lies inside a circle of radius R whose centre is d away.
func angleInside(r, d, R float64) float64 {
	switch {
	case r <= R-d:
		return 2 * math.Pi
	case r >= R+d || r <= d-R:
		return 0
	default:
		cos := (r*r + d*d - R*R) / (2 * r * d)
		return 2 * math.Acos(min(max(cos, -1), 1)) // rounding may step over where the circles touch
	}
}
