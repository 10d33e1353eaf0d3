package outline

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// convexHull is the outermost points in order, by Andrew's monotone chain.
func convexHull(at []r2.Vec) []r2.Vec {
	sorted := slices.Clone(at)
	slices.SortFunc(sorted, func(p, q r2.Vec) int {
		return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y))
	})
	lower := chain(sorted)
	slices.Reverse(sorted)
	upper := chain(sorted)
	return append(lower[:len(lower)-1], upper[:len(upper)-1]...)
}

// chain keeps the points at which a walk through the sorted points turns left.
func chain(sorted []r2.Vec) []r2.Vec {
	var kept []r2.Vec
	for _, p := range sorted {
		for len(kept) > 1 && turnsRight(kept[len(kept)-2], kept[len(kept)-1], p) {
			kept = kept[:len(kept)-1]
		}
		kept = append(kept, p)
	}
	return kept
}

func turnsRight(a, b, c r2.Vec) bool {
	return r2.Cross(r2.Sub(b, a), r2.Sub(c, b)) <= 0
}
