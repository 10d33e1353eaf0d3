package outline_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// star has n points, every other one nearer the middle: every second corner points into the water.
func star(n int) outline.Polygon {
	var p outline.Polygon
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		r := 3 + 0.3*float64(i%2)*math.Sin(float64(i))
		p.Points = append(p.Points, outline.Point{X: unit.Metres(r * cos), Y: unit.Metres(r * sin)})
	}
	return p
}

func BenchmarkMeasure(b *testing.B) {
	shelved := func(p outline.Plan) outline.Bay {
		return outline.Bay{Plan: p, Depth: 1.2, Steps: []outline.Step{step(0.3, 0.3)}, Batter: 0.3}
	}
	for _, bench := range []struct {
		name string
		bay  outline.Bay
	}{
		{"rectangle", shelved(outline.Rectangle{Length: 6, Width: 4})},
		{"ellipse", shelved(outline.Ellipse{Length: 6, Width: 4})},
		{"12 points", shelved(star(12))},
		{"48 points", shelved(star(48))},
		{"300 points", shelved(star(300))},
	} {
		b.Run(bench.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := outline.Measure(nil, bench.bay); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(bench.name+" with workings", func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := outline.Measure(new(working.Trail), bench.bay); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkSoundings is the most that is taken: an outline of 300 points with 300 soundings.
func BenchmarkSoundings(b *testing.B) {
	s := outline.Soundings{}
	for i := range 300 {
		sin, cos := math.Sincos(2.4 * float64(i)) // a spiral, as seeds in a sunflower
		r := 0.5 * math.Sqrt(float64(i)/300)
		s.Taken = append(s.Taken, sounding(r*cos, r*sin, 0.5+r))
	}
	bay := outline.Bay{Plan: star(300), Soundings: &s}
	b.ReportAllocs()
	for b.Loop() {
		_, err := outline.Measure(nil, bay)
		require.NoError(b, err)
	}
}
