package outline

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/pondwright/calc/input"
)

// resolved is the least distance, as a share of the outline's length, at which two parts of an outline are apart.
const resolved = 1e-7

func (p Polygon) check(errs *input.Errors) {
	if len(p.Points) < 3 || len(p.Points) > mostSides {
		errs.Add("polygon.points", fmt.Sprintf("give 3 to %d points in order round the edge", mostSides),
			"the outline has %d points", len(p.Points))
		return
	}
	before := len(*errs)
	p.checkPoints(errs)
	if len(*errs) > before {
		return
	}
	at := p.corners()
	reach := extent(at)
	if !checkReach(errs, reach) {
		return
	}
	if checkRepeats(errs, at, resolved*reach); len(*errs) > before {
		return
	}
	if onOneLine(at, resolved*reach) {
		errs.Add("polygon.points", "measure points on both banks", "the outline has no area: its points lie on one line")
		return
	}
	checkCrossings(errs, at, resolved*reach)
}

func (p Polygon) checkPoints(errs *input.Errors) {
	for i, q := range p.Points {
		if !(math.Abs(q.X.Metres()) <= farthest && math.Abs(q.Y.Metres()) <= farthest) {
			errs.Add(fmt.Sprintf("polygon.points[%d]", i), "give coordinates within 100,000 km of the origin",
				"point %d cannot be at (%g m, %g m)", i, q.X.Metres(), q.Y.Metres())
		}
	}
}

func checkReach(errs *input.Errors, reach float64) bool {
	if reach >= shortest && reach <= longest {
		return true
	}
	errs.Add("polygon.points", "give an outline between 1 mm and 10 km across", "the outline is %g m across", reach)
	return false
}

// extent is the longer side of the upright rectangle around the points.
func extent(at []r2.Vec) float64 {
	return max(span(at, r2.Vec{X: 1}), span(at, r2.Vec{Y: 1}))
}

func checkRepeats(errs *input.Errors, at []r2.Vec, apart float64) {
	for j := range at {
		for i := range j {
			if r2.Norm(r2.Sub(at[i], at[j])) > apart {
				continue
			}
			change := "give each point once"
			if i == 0 && j == len(at)-1 {
				change = "leave the closing point out: the outline closes by itself"
			}
			errs.Add(fmt.Sprintf("polygon.points[%d]", j), change, "point %d repeats point %d", j, i)
			break
		}
	}
}

func onOneLine(at []r2.Vec, apart float64) bool {
	far := at[0]
	for _, p := range at {
		if r2.Norm(r2.Sub(p, at[0])) > r2.Norm(r2.Sub(far, at[0])) {
			far = p
		}
	}
	along := r2.Unit(r2.Sub(far, at[0]))
	return span(at, r2.Vec{X: -along.Y, Y: along.X}) <= apart
}

// checkCrossings notes each pair of sides that cross, touch or fold back on each other, up to a handful.
func checkCrossings(errs *input.Errors, at []r2.Vec, apart float64) {
	const handful = 5
	found := 0
	for i := range at {
		for j := i + 1; j < len(at) && found < handful; j++ {
			if !sidesMeet(at, i, j, apart) {
				continue
			}
			found++
			errs.Add(fmt.Sprintf("polygon.points[%d]", j), "give the points in order round the edge",
				"the outline crosses or touches itself: side %d-%d meets side %d-%d",
				i, (i+1)%len(at), j, (j+1)%len(at))
		}
	}
}

// sidesMeet says whether sides i < j come nearer than apart, other than at a corner they share.
func sidesMeet(at []r2.Vec, i, j int, apart float64) bool {
	n := len(at)
	a, b, c, d := at[i], at[(i+1)%n], at[j], at[(j+1)%n]
	switch {
	case j == i+1: // b is c: does the far end of one lie on the other?
		return fromSegment(d, a, b) <= apart || fromSegment(a, c, d) <= apart
	case (j+1)%n == i: // d is a
		return fromSegment(c, a, b) <= apart || fromSegment(b, c, d) <= apart
	}
	if cross(a, b, c, d) {
		return true
	}
	return min(fromSegment(a, c, d), fromSegment(b, c, d), fromSegment(c, a, b), fromSegment(d, a, b)) <= apart
}

// cross says whether segments ab and cd cross inside both.
func cross(a, b, c, d r2.Vec) bool {
	side := func(p, q, r r2.Vec) bool { return r2.Cross(r2.Sub(q, p), r2.Sub(r, p)) > 0 }
	return side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b)
}

// fromSegment is the distance of p from the segment ab.
func fromSegment(p, a, b r2.Vec) float64 {
	ab, ap := r2.Sub(b, a), r2.Sub(p, a)
	share := min(1, max(0, r2.Dot(ap, ab)/r2.Norm2(ab)))
	return r2.Norm(r2.Sub(ap, r2.Scale(share, ab)))
}
