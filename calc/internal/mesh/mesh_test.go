package mesh_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/internal/mesh"
)

func area(m *mesh.Mesh) (sum, least float64) {
	least = math.Inf(1)
	for _, t := range m.Triangles {
		twice := mesh.Twice(m.Points[t[0]], m.Points[t[1]], m.Points[t[2]])
		sum, least = sum+twice/2, min(least, twice/2)
	}
	return sum, least
}

// A square with its middle: four triangles, whichever diagonal the ears left.
func TestSquareWithItsMiddle(t *testing.T) {
	m := mesh.New([]r2.Vec{{}, {X: 2}, {X: 2, Y: 2}, {Y: 2}}, []r2.Vec{{X: 1, Y: 1}})
	require.Len(t, m.Triangles, 4)
	for _, triangle := range m.Triangles {
		assert.Contains(t, triangle, 4, "each has the middle for a corner")
	}
}

// Two squares joined by a narrow neck: the point in one must not reach into the other across the bank.
func TestNoSideCrossesTheOutline(t *testing.T) {
	outline := []r2.Vec{
		{}, {X: 2}, {X: 2, Y: 1.9}, {X: 2.2, Y: 1.9}, {X: 2.2}, {X: 4}, {X: 4, Y: 2}, {Y: 2},
	}
	m := mesh.New(outline, []r2.Vec{{X: 1.8, Y: 0.4}, {X: 2.4, Y: 0.4}})
	sum, least := area(m)
	assert.InDelta(t, 8-0.2*1.9, sum, 1e-12)
	assert.Greater(t, least, 0.0)
	for _, triangle := range m.Triangles {
		assert.NotSubset(t, triangle, []int{8, 9}, "the two points see each other only through the bank")
	}
}

// Points on sides that are there already, and corners in line, leave no triangle without area.
func TestPointsOnSides(t *testing.T) {
	outline := []r2.Vec{{}, {X: 1}, {X: 2}, {X: 3}, {X: 3, Y: 3}, {X: 2, Y: 3}, {X: 1, Y: 3}, {Y: 3}}
	var inside []r2.Vec
	for x := range 2 {
		for y := range 2 {
			inside = append(inside, r2.Vec{X: float64(x + 1), Y: float64(y + 1)})
		}
	}
	m := mesh.New(outline, append(inside, r2.Vec{X: 1.5, Y: 1.5}, r2.Vec{X: 1.5, Y: 1}))
	sum, least := area(m)
	assert.InDelta(t, 9, sum, 1e-12)
	assert.Greater(t, least, 0.0)
	assert.Len(t, m.Triangles, len(outline)-2+2*6, "by Euler's formula")
}

// In a star-shaped outline the triangles cover it once.
func TestTrianglesCoverTheOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(4, 30).Draw(t, "corners")
		var outline, inside []r2.Vec
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.6).Draw(t, "turn")) / float64(n))
			outline = append(outline, r2.Scale(rapid.Float64Range(1, 4).Draw(t, "reach"), r2.Vec{X: cos, Y: sin}))
		}
		for range rapid.IntRange(0, 20).Draw(t, "points") {
			p := r2.Vec{X: rapid.Float64Range(-1, 1).Draw(t, "x"), Y: rapid.Float64Range(-1, 1).Draw(t, "y")}
			near := func(q r2.Vec) bool { return r2.Norm(r2.Sub(p, q)) < 1e-6 }
			if r2.Norm(p) < inner(outline) && !slices.ContainsFunc(inside, near) {
				inside = append(inside, p)
			}
		}
		whole := 0.0
		for i, p := range outline {
			whole += r2.Cross(p, outline[(i+1)%n]) / 2
		}
		m := mesh.New(outline, inside)
		sum, least := area(m)
		assert.InEpsilon(t, whole, sum, 1e-9)
		assert.GreaterOrEqual(t, least, -1e-12)
		assert.Len(t, m.Triangles, n-2+2*len(inside), "by Euler's formula")
	})
}

// inner is less than the distance of the outline from the origin.
func inner(outline []r2.Vec) float64 {
	least := math.Inf(1)
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		along := r2.Sub(b, a)
		share := min(1, max(0, -r2.Dot(a, along)/r2.Norm2(along)))
		least = min(least, r2.Norm(r2.Add(a, r2.Scale(share, along))))
	}
	return 0.99 * least
}
