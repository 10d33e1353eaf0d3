package engine_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

var pow = math.Pow

// replaySteps evaluates every step again from the numbers that crossed the wire: the results must be the same to the last
// bit, and each step must say where its formula comes from.
func replaySteps(t *testing.T, steps []*pb.WorkingStep) {
	t.Helper()
	require.NotEmpty(t, steps)
	formulas := map[string]working.Entry{}
	for _, entry := range calc.Formulas() {
		formulas[entry.Describe().ID] = entry
	}
	for _, step := range steps {
		entry := formulas[step.GetFormulaId()]
		require.NotNil(t, entry, "%s is not registered", step.GetFormulaId())
		again, err := entry.ReplayValues(stepValues(step.GetInputs()))
		require.NoError(t, err)
		assert.Equal(t, stepValues(step.GetResults()), again, step.GetFormulaId())
		assert.NotNil(t, step.GetSource(), step.GetFormulaId())
	}
}

func stepValues(wire []*pb.WorkingValue) []working.Value {
	made := make([]working.Value, len(wire))
	for i, v := range wire {
		made[i] = working.Value{Symbol: v.GetSymbol(), Number: v.GetValue(), Unit: v.GetUnit()}
	}
	return made
}
