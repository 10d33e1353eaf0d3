package working_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

type rectangleInput struct {
	Length unit.Length `sym:"a"`
	Width  unit.Length `sym:"b"`
	Count  int         `sym:"n"`
}

var rectangle = working.Formula[rectangleInput, unit.Area]{
	ID: "test.rectangle", Name: "area of rectangles", Equation: "A = n a b", Symbol: "A", Source: source.Definition,
	Outside: func(in rectangleInput) string {
		if in.Count < 1 {
			return "no rectangle at all"
		}
		return ""
	},
	Eval: func(in rectangleInput) unit.Area {
		return unit.SquareMetres(float64(in.Count) * in.Length.Metres() * in.Width.Metres())
	},
}

func TestRunRecordsWhatWasUsed(t *testing.T) {
	trail := new(working.Trail)
	trail.About("patio")
	got := rectangle.Run(trail, rectangleInput{Length: 2, Width: 3, Count: 2})
	assert.Equal(t, unit.SquareMetres(12), got)

	require.Len(t, trail.Steps(), 1)
	step := trail.Steps()[0]
	in, out := step.Values()
	assert.Equal(t, []working.Value{{"a", 2, "m"}, {"b", 3, "m"}, {"n", 2, "1"}}, in)
	assert.Equal(t, []working.Value{{"A", 12, "m²"}}, out)
	assert.Equal(t, "patio", step.Subject())
	assert.Equal(t, "test.rectangle", step.Entry.Describe().ID)
	assert.Empty(t, step.Outside())
	assert.True(t, step.Replay())

	again, err := step.Entry.ReplayValues(in)
	require.NoError(t, err)
	assert.Equal(t, out, again)
}

func TestRunWithoutATrailOnlyCalculates(t *testing.T) {
	var trail *working.Trail
	trail.About("nothing")
	assert.Equal(t, unit.SquareMetres(6), rectangle.Run(trail, rectangleInput{Length: 2, Width: 3, Count: 1}))
	assert.Empty(t, trail.Steps())
}

func TestStepSaysWhatLiesOutsideTheSource(t *testing.T) {
	trail := new(working.Trail)
	rectangle.Run(trail, rectangleInput{Length: 2, Width: 3})
	assert.Equal(t, "no rectangle at all", trail.Steps()[0].Outside())
}

func TestReplayValuesRefusesAnIncompleteRecord(t *testing.T) {
	_, err := rectangle.ReplayValues([]working.Value{{"a", 2, "m"}, {"b", 3, "m"}})
	require.ErrorContains(t, err, "no value for n")
	_, err = rectangle.ReplayValues([]working.Value{{"a", 2, "m"}, {"b", 3, "m"}, {"n", 1, "1"}, {"c", 1, "1"}})
	require.ErrorContains(t, err, "no input c")
}

func BenchmarkRun(b *testing.B) {
	in := rectangleInput{Length: 2, Width: 3, Count: 1}
	b.Run("bare", func(b *testing.B) {
		for b.Loop() {
			rectangle.Eval(in)
		}
	})
	b.Run("no trail", func(b *testing.B) {
		for b.Loop() {
			rectangle.Run(nil, in)
		}
	})
	b.Run("trail", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			rectangle.Run(new(working.Trail), in)
		}
	})
}
