package uv_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/uv/field"
)

func twin(t *testing.T) uv.Field {
	t.Helper()
	u := gardenUnit()
	u.Lamps, u.WallPower, u.ChamberDiameter = 2, 60, unit.Millimetres(120)
	f, err := uv.FieldAt(nil, u, uv.Condition{Transmittance: unit.Percent(70)})
	require.NoError(t, err)
	return f
}

// The mean of a picture is the average: the trapezoidal rule over a lengthwise cut whose columns fall on sleeve and wall,
// each place as heavy as its ring round the axis is wide. Steps of a 27th of the gap leave an error of about (1/27)².
func TestPictureComesToTheAverage(t *testing.T) {
	f, err := uv.FieldAt(nil, gardenUnit(), uv.Condition{Transmittance: unit.Percent(85)})
	require.NoError(t, err)
	spots, err := f.Raster(uv.Grid{Plane: uv.Lengthwise, Columns: 85, Rows: 100}, 0)
	require.NoError(t, err)
	require.Len(t, spots, 2*28*100)
	var sum, weight float64
	for _, s := range spots {
		r := math.Abs(s.X.Millimetres())
		w := r * half(r, 12.5) * half(r, 35) * half(math.Abs(s.Z.Millimetres()), 150)
		sum += w * float64(s.Careful)
		weight += w
	}
	assert.InEpsilon(t, float64(f.Careful), sum/weight, 1.5e-3)
}

// half is the share of an edge that counts in the trapezoidal rule.
func half(x, edge float64) float64 {
	if math.Abs(x-edge) < 1e-6 {
		return 0.5
	}
	return 1
}

// The same of a crosswise picture of two lamps, against the average over their chamber: mid-arc is brighter than the mean
// over the length, whose ends are dim.
func TestPictureOfTwoLamps(t *testing.T) {
	f := twin(t)
	apart, err := f.LampsApart(nil, unit.Millimetres(30))
	require.NoError(t, err)
	// The dose goes with the light the water takes up, for a V E is the same in both.
	share := func(E unit.FluenceRate, V unit.Volume) unit.Ratio {
		return field.AbsorbedShare.Run(nil, field.AbsorbedShareInput{Absorption: f.Absorption, FluenceRate: E, Volume: V, Output: f.Output})
	}
	assert.InEpsilon(t, float64(share(apart.Careful, apart.Volume)/share(f.Careful, f.Volume)), apart.OfOnAxis.Float(), 1e-12)
	spots, err := f.Raster(uv.Grid{Plane: uv.Crosswise, Columns: 100, Rows: 100}, unit.Millimetres(30))
	require.NoError(t, err)
	sum := 0.0
	for _, s := range spots {
		sum += float64(s.Careful)
	}
	mean := sum / float64(len(spots))
	assert.Greater(t, mean, float64(apart.Careful))
	assert.InEpsilon(t, float64(apart.Careful), mean, 0.1)
}

func TestPictureRefusesWhatIsNotInTheWater(t *testing.T) {
	f := twin(t)
	err := f.LightAt([]uv.Spot{{X: 0.03}, {X: 0.05}, {Y: 0.07}, {Z: 0.2, X: 0.05}}, unit.Millimetres(30))
	assertFields(t, err, "places[0]", "places[2]", "places[3]")
	_, err = f.Raster(uv.Grid{Columns: 1, Rows: 1000}, 0)
	assertFields(t, err, "plane", "columns", "rows")
	_, err = f.Raster(uv.Grid{Plane: uv.Crosswise, Columns: 9, Rows: 9, Height: 1}, 0)
	assertFields(t, err, "height_mm")
	for _, offset := range []float64{0, -1, 10, 55} {
		_, err = f.LampsApart(nil, unit.Millimetres(offset))
		assertFields(t, err, "lamp_offset_mm")
	}
}

func assertFields(t *testing.T, err error, want ...string) {
	t.Helper()
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	var fields []string
	for _, e := range errs {
		fields = append(fields, e.Field)
	}
	assert.Equal(t, want, fields)
}

// Points a quarter of the sleeve's radius apart come to the line: at half of it the reference sums are 1e-5 out at the
// sleeve, and nearer everywhere else.
func TestPointsComeToTheLineInTheUnit(t *testing.T) {
	f := twin(t)
	for _, c := range f.CheckByPoints(nil) {
		assert.InDelta(t, 0, c.Apart().Float(), 1e-5, "at %g mm", c.Radius.Millimetres())
	}
}
