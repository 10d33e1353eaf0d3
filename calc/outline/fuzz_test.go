package outline_test

import (
	"encoding/binary"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
)

// FuzzMeasure reads outlines from bytes, coarsely, so that sides often touch, run parallel and meet at the same time.
func FuzzMeasure(f *testing.F) {
	f.Add([]byte{0, 0, 200, 0, 200, 100, 0, 100}, 1.0, 0.3, 0.2, 0.1, true)
	f.Add([]byte{0, 0, 20, 0, 20, 7, 30, 7, 30, 0, 50, 0, 50, 20, 30, 20, 30, 13, 20, 13, 20, 20, 0, 20}, 1.0, 0.3, 2.4, 0.1, true)
	f.Add([]byte{0, 0, 10, 0, 10, 0, 0, 10}, math.Inf(1), math.NaN(), -1.0, 1e300, false)
	f.Fuzz(func(t *testing.T, outlined []byte, depth, stepDepth, stepWidth, batter float64, coarse bool) {
		m, err := outline.Measure(nil, outline.Bay{
			Plan: points(outlined, coarse), Depth: unit.Metres(depth), Batter: unit.Ratio(batter),
			Steps: []outline.Step{{Depth: unit.Metres(stepDepth), Width: unit.Metres(stepWidth)}},
		})
		if err != nil {
			return
		}
		for _, v := range []float64{
			m.Area.SquareMetres(), m.Perimeter.Metres(), m.Volume.CubicMetres(), m.MeanDepth.Metres(),
			m.BoxVolume.CubicMetres(), m.VolumeError.Float(),
		} {
			assert.Greater(t, v, 0.0)
			assert.False(t, math.IsInf(v, 0))
		}
		assert.GreaterOrEqual(t, m.FloorArea.SquareMetres(), 0.0)
		assert.LessOrEqual(t, m.FloorArea.SquareMetres(), m.Area.SquareMetres())
		assert.LessOrEqual(t, m.Volume.CubicMetres(), m.Area.SquareMetres()*depth*(1+1e-9))
		assert.Less(t, m.VolumeError.Float(), 1e-4)
	})
}

// points takes two bytes a point, or eight for a point anywhere.
func points(data []byte, coarse bool) outline.Polygon {
	var p outline.Polygon
	for coarse && len(data) >= 2 {
		p.Points = append(p.Points, outline.Point{X: unit.Metres(float64(data[0])), Y: unit.Metres(float64(data[1]))})
		data = data[2:]
	}
	for !coarse && len(data) >= 8 {
		x, y := binary.LittleEndian.Uint32(data), binary.LittleEndian.Uint32(data[4:])
		p.Points = append(p.Points, outline.Point{
			X: unit.Metres(float64(math.Float32frombits(x))), Y: unit.Metres(float64(math.Float32frombits(y))),
		})
		data = data[8:]
	}
	return p
}
