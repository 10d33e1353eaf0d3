package outline_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

func metres(xy ...float64) outline.Polygon {
	var p outline.Polygon
	for i := 0; i < len(xy); i += 2 {
		p.Points = append(p.Points, outline.Point{X: unit.Metres(xy[i]), Y: unit.Metres(xy[i+1])})
	}
	return p
}

func step(depth, width float64) outline.Step {
	return outline.Step{Depth: unit.Metres(depth), Width: unit.Metres(width)}
}

// By hand: 4 x 3 m down to 0.3 m, then a shelf of 0.25 m leaves 3.5 x 2.5 m for 0.7 m more.
func TestMeasureShelvedRectangle(t *testing.T) {
	m, err := outline.Measure(nil, outline.Bay{
		Plan:  outline.Rectangle{Length: unit.Metres(3), Width: unit.Metres(4)},
		Depth: unit.Metres(1), Steps: []outline.Step{step(0.3, 0.25)},
	})
	require.NoError(t, err)
	assert.InDelta(t, 12*0.3+3.5*2.5*0.7, m.Volume.CubicMetres(), 1e-12)
	assert.InDelta(t, 12, m.Area.SquareMetres(), 1e-12)
	assert.InDelta(t, 8.75, m.FloorArea.SquareMetres(), 1e-12)
	assert.InDelta(t, 14, m.Perimeter.Metres(), 1e-12)
	assert.InDelta(t, m.Volume.CubicMetres()/12, m.MeanDepth.Metres(), 1e-12)
	assert.Equal(t, unit.Metres(4), m.Length())
	assert.Equal(t, unit.Metres(3), m.Width())
	assert.Equal(t, "Length times width, its edge moved inwards parallel to itself, and 2 layers of water by the prismoidal rule.",
		m.Method)
	assert.Less(t, m.VolumeError.Float(), 1e-8)

	require.Len(t, m.Findings, 1)
	over := m.Findings[0]
	assert.Equal(t, "BOX_VOLUME_OVERSTATES", over.Code)
	assert.Equal(t, finding.Note, over.Severity)
	assert.InDelta(t, 100*(12/9.725-1), over.Value.Number, 1e-9)
}

// A hollow cone: V = π r² z / 3, the sides meet just at the floor.
func TestSidesMayMeetAtTheFloor(t *testing.T) {
	m, err := outline.Measure(nil, outline.Bay{
		Plan:  outline.Ellipse{Length: unit.Metres(3), Width: unit.Metres(3)},
		Depth: unit.Metres(0.9), Batter: 1.5 / 0.9,
	})
	require.NoError(t, err)
	assert.InDelta(t, math.Pi*1.5*1.5*0.9/3, m.Volume.CubicMetres(), 1e-9)
	assert.InDelta(t, 0, m.FloorArea.SquareMetres(), 1e-9)
}

func TestABoxThatIsOneNeedsNoFinding(t *testing.T) {
	m, err := outline.Measure(nil, outline.Bay{Plan: outline.Rectangle{Length: 6, Width: 3}, Depth: 1.8})
	require.NoError(t, err)
	assert.Empty(t, m.Findings)
	assert.InDelta(t, 32.4, m.Volume.CubicMetres(), 1e-12)
	assert.Equal(t, "Length times width, times the depth.", m.Method)
}

func TestANeckThatClosesIsSaid(t *testing.T) {
	dumbbell := metres(0, 0, 2, 0, 2, 0.75, 3, 0.75, 3, 0, 5, 0, 5, 2, 3, 2, 3, 1.25, 2, 1.25, 2, 2, 0, 2)
	m, err := outline.Measure(nil, outline.Bay{Plan: dumbbell, Depth: 1, Steps: []outline.Step{step(0.2, 0.3)}})
	require.NoError(t, err)
	assert.InDelta(t, 8.5*0.2+2*1.4*1.4*0.8, m.Volume.CubicMetres(), 1e-9)
	assert.Contains(t, codes(m.Findings), "FLOOR_IN_PARTS")
}

func TestASharpCornerIsSaid(t *testing.T) {
	spit := metres(0, 0, 5, 0, 5, 4, 2.51, 4, 2.5, 2, 2.49, 4, 0, 4)
	m, err := outline.Measure(nil, outline.Bay{Plan: spit, Depth: 1, Batter: 0.2})
	require.NoError(t, err)
	require.Contains(t, codes(m.Findings), "SHARP_CORNER_CUT")
	m, err = outline.Measure(nil, outline.Bay{Plan: spit, Depth: 1})
	require.NoError(t, err)
	assert.NotContains(t, codes(m.Findings), "SHARP_CORNER_CUT", "nothing is inset")
}

func codes(findings []finding.Finding) (codes []string) {
	for _, f := range findings {
		codes = append(codes, f.Code)
	}
	return codes
}

func TestMeasureRefuses(t *testing.T) {
	square := metres(0, 0, 4, 0, 4, 4, 0, 4)
	nan := unit.Metres(math.NaN())
	tests := []struct {
		name          string
		bay           outline.Bay
		field, saying string
	}{
		{"no plan", outline.Bay{Depth: 1}, "", "no outline"},
		{"no depth", outline.Bay{Plan: square}, "depth_m", "cannot be 0 m"},
		{"depth no number", outline.Bay{Plan: square, Depth: nan}, "depth_m", "NaN"},
		{"length", outline.Bay{Plan: outline.Rectangle{Width: 2}, Depth: 1}, "rectangle.length_m", "0 m"},
		{"width", outline.Bay{Plan: outline.Rectangle{Length: 2, Width: -1}, Depth: 1}, "rectangle.width_m", "-1 m"},
		{"axis", outline.Bay{Plan: outline.Ellipse{Length: 1e9, Width: 1}, Depth: 1}, "ellipse.length_m", "1e+09 m"},
		{"two points", outline.Bay{Plan: metres(0, 0, 1, 1), Depth: 1}, "polygon.points", "2 points"},
		{"point no number", outline.Bay{Plan: metres(0, 0, 1, math.Inf(1), 2, 2), Depth: 1}, "polygon.points[1]", "+Inf"},
		{"repeated point", outline.Bay{Plan: metres(0, 0, 1, 0, 1, 0, 0, 1), Depth: 1}, "polygon.points[2]", "repeats point 1"},
		{"closing point", outline.Bay{Plan: metres(0, 0, 1, 0, 0, 1, 0, 0), Depth: 1}, "polygon.points[3]", "closes by itself"},
		{"bowtie", outline.Bay{Plan: metres(0, 0, 4, 3, 4, 0, 0, 3), Depth: 1}, "polygon.points[2]", "side 0-1 meets side 2-3"},
		{"touching", outline.Bay{Plan: metres(0, 0, 4, 0, 4, 4, 2, 0, 0, 4), Depth: 1}, "polygon.points[2]", "side 0-1 meets side 2-3"},
		{"spike", outline.Bay{Plan: metres(0, 0, 4, 0, 2, 0, 2, 2), Depth: 1}, "polygon.points[1]", "side 0-1 meets side 1-2"},
		{"line", outline.Bay{Plan: metres(0, 0, 1, 1, 3, 3), Depth: 1}, "polygon.points", "no area"},
		{"dot", outline.Bay{Plan: metres(0, 0, 1e-9, 0, 0, 1e-9), Depth: 1}, "polygon.points", "across"},
		{"batter", outline.Bay{Plan: square, Depth: 1, Batter: -1}, "batter", "-1"},
		{"step order", outline.Bay{Plan: square, Depth: 1, Steps: []outline.Step{step(0.5, 0.1), step(0.3, 0.1)}}, "steps[1].depth_m", "not below"},
		{"step twice", outline.Bay{Plan: square, Depth: 1, Steps: []outline.Step{step(0.5, 0.1), step(0.5, 0.1)}}, "steps[1].depth_m", "not below"},
		{"step under floor", outline.Bay{Plan: square, Depth: 1, Steps: []outline.Step{step(1, 0.1)}}, "steps[0].depth_m", "not above the floor"},
		{"no shelf", outline.Bay{Plan: square, Depth: 1, Steps: []outline.Step{step(0.5, 0)}}, "steps[0].width_m", "0 m"},
		{"wide shelf", outline.Bay{Plan: square, Depth: 1, Steps: []outline.Step{step(0.2, 0.5), step(0.4, 1.5)}}, "steps[1].width_m", "below 0.4 m"},
		{"flat sides", outline.Bay{Plan: square, Depth: 1, Batter: 4}, "batter", "below 0.5 m"},
		{"flat under shelf", outline.Bay{Plan: square, Depth: 1, Batter: 2, Steps: []outline.Step{step(0.2, 0.6)}}, "batter", "below 0.7 m"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := outline.Measure(nil, test.bay)
			var errs input.Errors
			require.ErrorAs(t, err, &errs)
			require.NotEmpty(t, errs)
			assert.Equal(t, test.field, errs[0].Field)
			assert.Contains(t, errs[0].Error(), test.saying)
		})
	}
}

func TestMeasureTellsEverythingAtOnce(t *testing.T) {
	_, err := outline.Measure(nil, outline.Bay{Plan: outline.Rectangle{}, Batter: -1, Steps: []outline.Step{step(-1, -1)}})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 6)
}

func TestMeasurePlan(t *testing.T) {
	s, err := outline.MeasurePlan(nil, metres(0, 0, 4, 0, 0, 3))
	require.NoError(t, err)
	assert.InDelta(t, 6, s.Area.SquareMetres(), 1e-12)
	assert.InDelta(t, 12, s.Perimeter.Metres(), 1e-12)
	_, err = outline.MeasurePlan(nil, nil)
	require.ErrorContains(t, err, "no outline")
}

// The trail leads to the litres: the last layer sum is the volume, and every step repeats.
func TestTrailLeadsToTheVolume(t *testing.T) {
	trail := new(working.Trail)
	m, err := outline.Measure(trail, outline.Bay{
		Plan: metres(0, 0, 6, 0, 6, 2.5, 3, 2.5, 3, 5, 0, 5), Depth: 1, Batter: 0.2, Steps: []outline.Step{step(0.3, 0.3)},
	})
	require.NoError(t, err)
	var last float64
	for _, s := range trail.Steps() {
		assert.True(t, s.Replay())
		assert.Empty(t, s.Outside())
		if s.Entry.Describe().ID == "outline.layer-sum" {
			_, out := s.Values()
			last = out[0].Number
		}
	}
	assert.InDelta(t, m.Volume.CubicMetres(), last, 0)
	assert.InDelta(t, m.Volume.CubicMetres(), m.Levels().Volume().CubicMetres(), 1e-12*last)
}

func TestFormulasAreNamedAfterThePackage(t *testing.T) {
	seen := make(map[string]bool)
	for _, f := range outline.Formulas() {
		d := f.Describe()
		assert.True(t, strings.HasPrefix(d.ID, "outline."), d.ID)
		assert.False(t, seen[d.ID], d.ID)
		assert.NotEmpty(t, d.Equation)
		assert.NotEmpty(t, d.Source.Key)
		seen[d.ID] = true
	}
}
