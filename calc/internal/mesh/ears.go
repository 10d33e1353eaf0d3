package mesh

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// clipEars cuts a simple outline into triangles. An ear is a corner whose triangle holds no other corner; an
// outline has at least two of them.
func clipEars(at []r2.Vec) []Triangle {
	left := make([]int, len(at))
	for i := range left {
		left[i] = i
	}
	var cut []Triangle
	for len(left) > 3 {
		k := ear(at, left)
		n := len(left)
		cut = append(cut, Triangle{left[(k+n-1)%n], left[k], left[(k+1)%n]})
		left = slices.Delete(left, k, k+1)
	}
	return append(cut, Triangle(left))
}

// ear finds the ear with the most area for its longest side, so that slivers are few to begin with.
func ear(at []r2.Vec, left []int) int {
	best, most := 0, -1.0
	n := len(left)
	for k := range left {
		a, b, c := at[left[(k+n-1)%n]], at[left[k]], at[left[(k+1)%n]]
		fat := Twice(a, b, c) / max(r2.Norm2(r2.Sub(b, a)), r2.Norm2(r2.Sub(c, b)), r2.Norm2(r2.Sub(a, c)))
		if fat > most && fat >= 0 && isEmpty(at, left, k) {
			best, most = k, fat
		}
	}
	return best
}

// isEmpty says whether no other corner lies in the triangle of corner k or on its far side.
func isEmpty(at []r2.Vec, left []int, k int) bool {
	n := len(left)
	before, after := (k+n-1)%n, (k+1)%n
	a, b, c := at[left[before]], at[left[k]], at[left[after]]
	for i, q := range left {
		if i == before || i == k || i == after {
			continue
		}
		if p := at[q]; Twice(a, b, p) >= 0 && Twice(b, c, p) >= 0 && Twice(c, a, p) >= 0 {
			return false
		}
	}
	return true
}
