package uv

import (
	"math"

	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/field"
	"example.com/pondwright/calc/working"
)

// A PointCheck is the line source at one place beside the sum of point sources, which shares none of its calculus.
type PointCheck struct {
	Radius       unit.Length // beside mid-arc
	Sources      int
	LineSource   unit.FluenceRate
	PointSources unit.FluenceRate
}

// Apart is how far the sum stands from the line.
func (c PointCheck) Apart() unit.Ratio { return unit.Ratio(c.PointSources/c.LineSource - 1) }

// CheckByPoints sums point sources, a quarter of the sleeve's radius apart, at the sleeve, in mid-gap and at the wall.
func (f Field) CheckByPoints(t *working.Trail) []PointCheck {
	c := f.Chamber
	n := int(math.Ceil(float64(4 * c.ArcLength / c.SleeveRadius)))
	checks := make([]PointCheck, 3)
	for i := range checks {
		r := c.SleeveRadius + unit.Length(float64(i)/2)*(c.ChamberRadius-c.SleeveRadius)
		p := field.Point{
			Output: c.Output, ArcLength: c.ArcLength, SleeveRadius: c.SleeveRadius, Absorption: c.Absorption, Radius: r,
		}
		checks[i] = PointCheck{
			Radius: r, Sources: n, LineSource: field.LineSourceAt.Run(t, p),
			PointSources: field.PointSourcesAt.Run(t, field.PointSourcesInput{
				Output: c.Output, ArcLength: c.ArcLength, SleeveRadius: c.SleeveRadius, Absorption: c.Absorption, Radius: r, Count: n,
			}),
		}
	}
	return checks
}
