package outline

import (
	"math"

	"gonum.org/v1/gonum/mathext"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/working"
)

func (e Ellipse) check(errs *input.Errors) {
	checkLength(errs, "ellipse.length_m", "length", e.Length)
	checkLength(errs, "ellipse.width_m", "width", e.Width)
}

func (e Ellipse) surface(t *working.Trail) surface {
	out := EllipseSurface.Run(t, AxesInput(e))
	return surface{
		area: out.Area.SquareMetres(), perimeter: out.Perimeter.Metres(),
		length: max(e.Length, e.Width).Metres(), width: min(e.Length, e.Width).Metres(),
		how: "Ellipse on its two axes",
	}
}

// inset follows the curve parallel to the ellipse. Up to the radius of curvature at the tips, b²/a, its area is
// A - P d + π d² (Steiner). From there the tips of the parallel curve overlap and are cut off where they cross on the long
// axis; that part is followed in small stretches.
func (e Ellipse) inset(s surface, limit float64) (inset, error) {
	a, b := s.length/2, s.width/2
	in := inset{
		stretches: []stretch{{area: s.area, perimeter: s.perimeter, corners: math.Pi, parts: 1}},
		end:       b,
	}
	tip := b * b / a
	if limit <= tip || a == b {
		return in, nil
	}
	lens := parallelEllipse{a: a, b: b}
	in.stretches, in.fit = append(in.stretches, lens.stretches()...), lensFit
	return in, nil
}

// A parallelEllipse is the inner parallel of an ellipse with half axes a > b, beyond the radius of curvature of its tips.
type parallelEllipse struct{ a, b float64 }

// lensStretches is how many stretches follow the lens, and lensFit how far, as a share of the plan, the area between
// their ends is off at most; see TestLensFit.
const (
	lensStretches = 64
	lensFit       = 5e-7
)

// stretches fits a quadratic to area and perimeter at one end and area at the other end of each. The ends are even in the
// eccentric angle of the point that reaches the long axis, in which area is smooth.
func (p parallelEllipse) stretches() []stretch {
	out := make([]stretch, 0, lensStretches)
	from, area, perimeter := p.at(0)
	for i := 1; i <= lensStretches; i++ {
		to, areaNext, perimeterNext := p.at(math.Pi / 2 * float64(i) / lensStretches)
		x := to - from
		out = append(out, stretch{
			from: from, area: area, perimeter: perimeter, parts: 1,
			corners: (areaNext - area + perimeter*x) / (x * x),
		})
		from, area, perimeter = to, areaNext, perimeterNext
	}
	return out
}

// at gives inset, area and perimeter of the lens whose ends are the feet of the normals at eccentric angles t and π - t:
//
//	d = (b/a) √(a² sin² t + b² cos² t),  A = a b Δt - d (2 L - [h']) + d² Δθ,  P = 2 (L - d Δθ)
//
// with L the length of the arc from t to π - t, Δθ the turn along it and [h'] the change of the tangential part of
// the position. It follows from the support function of the ellipse.
func (p parallelEllipse) at(t float64) (d, area, perimeter float64) {
	a, b := p.a, p.b
	sin, cos := math.Sincos(t)
	speed := math.Hypot(a*sin, b*cos)
	d = b / a * speed
	arc := 2 * a * mathext.EllipticE(math.Pi/2-t, 1-b*b/(a*a))
	turn := math.Pi - 2*math.Atan2(a*sin, b*cos)
	tangential := 2 * (a - b) * (a + b) * sin * cos / speed
	area = a*b*(math.Pi-2*t) - d*(2*arc-tangential) + d*d*turn
	return d, max(0, area), max(0, 2*(arc-d*turn))
}
