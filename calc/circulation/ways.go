package circulation

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// ways are the shortest ways in an outline. They bend only at corners that point into the water.
type ways struct {
	outline []r2.Vec // anticlockwise
	corners []r2.Vec // those that point into the water
	between [][]float64
	hair    float64 // within which two places are one
}

func newWays(outline []r2.Vec) ways {
	w := ways{outline: outline}
	for i, p := range outline {
		before, after := outline[(i+len(outline)-1)%len(outline)], outline[(i+1)%len(outline)]
		w.hair = max(w.hair, 1e-9*r2.Norm(r2.Sub(p, outline[0])))
		if r2.Cross(r2.Sub(p, before), r2.Sub(after, p)) < 0 {
			w.corners = append(w.corners, p)
		}
	}
	w.between = w.allPairs()
	return w
}

// allPairs are the shortest ways from corner to corner (Floyd and Warshall).
func (w ways) allPairs() [][]float64 {
	n := len(w.corners)
	d := make([][]float64, n)
	for i := range d {
		d[i] = make([]float64, n)
		for j := range i {
			d[i][j] = w.direct(w.corners[i], w.corners[j])
			d[j][i] = d[i][j]
		}
	}
	for k := range n {
		for i := range n {
			for j := range n {
				d[i][j] = min(d[i][j], d[i][k]+d[k][j])
			}
		}
	}
	return d
}

// direct is the straight distance where it lies in the water, and infinite where it does not.
func (w ways) direct(p, q r2.Vec) float64 {
	if !w.sees(p, q) {
		return math.Inf(1)
	}
	return r2.Norm(r2.Sub(q, p))
}

// sees says whether the line from p to q stays in the water or on the bank. It does not where it crosses a side. Otherwise it is
// cut where it touches the bank, and each piece is in the water if its middle is.
func (w ways) sees(p, q r2.Vec) bool {
	along := r2.Sub(q, p)
	length := r2.Norm(along)
	if length <= w.hair {
		return true
	}
	cuts := []float64{0, 1}
	for i, a := range w.outline {
		side := r2.Sub(w.outline[(i+1)%len(w.outline)], a)
		if share := r2.Dot(r2.Sub(a, p), along) / (length * length); share > 0 && share < 1 {
			if r2.Norm(r2.Sub(r2.Add(p, r2.Scale(share, along)), a)) <= w.hair {
				cuts = append(cuts, share)
			}
		}
		turn := r2.Cross(along, side)
		if turn == 0 {
			continue
		}
		at, on := r2.Cross(r2.Sub(a, p), side)/turn, r2.Cross(r2.Sub(a, p), along)/turn
		const clear = 1e-6 // of the ends: there it crosses the bank, and does not only touch it
		if at > clear && at < 1-clear && on > clear && on < 1-clear {
			return false
		}
		if at > 0 && at < 1 && on >= 0 && on <= 1 {
			cuts = append(cuts, at)
		}
	}
	slices.Sort(cuts)
	for i, from := range cuts[1:] {
		middle := (cuts[i] + from) / 2
		if (from-cuts[i])*length > 2*w.hair && !w.holds(r2.Add(p, r2.Scale(middle, along))) {
			return false
		}
	}
	return true
}

// holds says whether p is in the water or on the bank.
func (w ways) holds(p r2.Vec) bool {
	inside := false
	for i, a := range w.outline {
		b := w.outline[(i+1)%len(w.outline)]
		if r2.Norm(r2.Sub(nearest(p, a, b), p)) <= w.hair {
			return true
		}
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			inside = !inside
		}
	}
	return inside
}

// nearest is the place on the segment ab that is nearest to p.
func nearest(p, a, b r2.Vec) r2.Vec {
	ab := r2.Sub(b, a)
	share := min(1, max(0, r2.Dot(r2.Sub(p, a), ab)/r2.Norm2(ab)))
	return r2.Add(a, r2.Scale(share, ab))
}

// fromCorners are the straight distances of p from the corners.
func (w ways) fromCorners(p r2.Vec) []float64 {
	d := make([]float64, len(w.corners))
	for i, c := range w.corners {
		d[i] = w.direct(p, c)
	}
	return d
}

// shortest is the shortest way from p to q as the places where it bends, both ends with it.
func (w ways) shortest(p, q r2.Vec) []r2.Vec {
	if w.sees(p, q) {
		return []r2.Vec{p, q}
	}
	fromP, fromQ := w.fromCorners(p), w.fromCorners(q)
	first, last, best := -1, -1, math.Inf(1)
	for i := range w.corners {
		for j := range w.corners {
			if d := fromP[i] + w.between[i][j] + fromQ[j]; d < best {
				first, last, best = i, j, d
			}
		}
	}
	if first < 0 {
		return []r2.Vec{p, q}
	}
	way := []r2.Vec{p, w.corners[first]}
	for at := first; at != last; {
		at = w.next(at, last)
		way = append(way, w.corners[at])
	}
	return append(way, q)
}

// next is the corner after one on the way to another.
func (w ways) next(from, to int) int {
	best, least := to, math.Inf(1)
	for k := range w.corners {
		if k == from {
			continue
		}
		if d := w.direct(w.corners[from], w.corners[k]) + w.between[k][to]; d < least {
			best, least = k, d
		}
	}
	return best
}

// longest is the greatest of the shortest ways between two corners of the outline: the pond's length.
func (w ways) longest() float64 {
	var most float64
	reach := make([][]float64, len(w.outline))
	for i, p := range w.outline {
		reach[i] = w.fromCorners(p)
		for j := range i {
			if straight := r2.Norm(r2.Sub(p, w.outline[j])); straight > most && w.sees(p, w.outline[j]) {
				most = straight
			}
		}
	}
	if len(w.corners) == 0 {
		return most
	}
	for i, p := range w.outline {
		onward := w.onward(reach[i])
		for j := range i {
			if w.sees(p, w.outline[j]) {
				continue
			}
			most = max(most, meet(onward, reach[j]))
		}
	}
	return most
}

// onward are the shortest distances to every corner of a place with these straight ones.
func (w ways) onward(straight []float64) []float64 {
	d := make([]float64, len(straight))
	for j := range d {
		d[j] = math.Inf(1)
		for i, first := range straight {
			d[j] = min(d[j], first+w.between[i][j])
		}
	}
	return d
}

func meet(a, b []float64) float64 {
	least := math.Inf(1)
	for i := range a {
		least = min(least, a[i]+b[i])
	}
	return least
}
