package outline

import (
	"math"

	"example.com/pondwright/calc/unit"
)

// curveSides is how many straight sides stand for a curved edge where points are needed.
const curveSides = 240

// curveMiss bounds what those sides take from or add to area and volume, as a share: (2π/n)²/6.
const curveMiss = (2 * math.Pi / curveSides) * (2 * math.Pi / curveSides) / 6

// Edge is the plan as a polygon, in the coordinates in which places in the water are given: those of the polygon itself, of a
// rectangle from one corner with its length along x, of an ellipse from its middle with its length along x. The sides of a
// curved edge are many, and enclose its area.
func Edge(p Plan) Polygon {
	switch p := p.(type) {
	case Polygon:
		return p
	case Rectangle:
		return Polygon{Points: []Point{{}, {X: p.Length}, {X: p.Length, Y: p.Width}, {Y: p.Width}}}
	case Ellipse:
		const turn = 2 * math.Pi / curveSides
		swell := math.Sqrt(turn / math.Sin(turn))
		points := make([]Point, curveSides)
		for i := range points {
			sin, cos := math.Sincos(turn * float64(i))
			points[i] = Point{X: p.Length * unit.Length(swell*cos/2), Y: p.Width * unit.Length(swell*sin/2)}
		}
		return Polygon{Points: points}
	default:
		return Polygon{}
	}
}
