package engine_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	"example.com/pondwright/calc"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

func findings(found []*pb.Finding) []string {
	var list []string
	for _, f := range found {
		list = append(list, f.GetCode())
	}
	return list
}

type answer interface {
	proto.Message
	GetWorkings() []*pb.WorkingStep
	GetFindings() []*pb.Finding
	GetProvenance() *pb.Provenance
}

// explained holds an answer to what all answers promise: each step of the workings can be run again from what the client
// got, to the last bit; each finding says what to change and where it comes from; and no field was left out.
func explained(t *testing.T, resp answer) {
	t.Helper()
	formulas := map[string]working.Entry{}
	for _, f := range calc.Formulas() {
		formulas[f.Describe().ID] = f
	}
	require.NotEmpty(t, resp.GetWorkings())
	for _, step := range resp.GetWorkings() {
		f := formulas[step.GetFormulaId()]
		require.NotNil(t, f, step.GetFormulaId())
		got, err := f.ReplayValues(workingValues(step.GetInputs()))
		require.NoError(t, err)
		assert.Equal(t, workingValues(step.GetResults()), got, step.GetFormulaId())
	}
	for _, f := range resp.GetFindings() {
		assert.NotEmpty(t, f.GetSentence(), f.GetCode())
		assert.NotEmpty(t, f.GetChange(), f.GetCode())
		assert.NotEmpty(t, f.GetSource().GetKey(), f.GetCode())
	}
	assert.Len(t, resp.GetProvenance().GetRequestDigest(), 64)
	assert.Empty(t, unset(resp.ProtoReflect()))
}

func workingValues(vs []*pb.WorkingValue) []working.Value {
	made := make([]working.Value, len(vs))
	for i, v := range vs {
		made[i] = working.Value{Symbol: v.GetSymbol(), Number: v.GetValue(), Unit: v.GetUnit()}
	}
	return made
}

// unset lists the fields that an answer sets nowhere in all its parts, but for those that belong to another kind of filter
// or hang on a verdict.
func unset(m protoreflect.Message) []string {
	hangsOn := map[protoreflect.FullName]bool{
		"pondwright.v1.MediaRate.volumetric_low_g_per_m3_per_day":  true,
		"pondwright.v1.MediaRate.volumetric_high_g_per_m3_per_day": true,
		"pondwright.v1.BalanceOxygenResponse.lasts_h":              true,
		"pondwright.v1.WorkingStep.outside_range":                  true,
		"pondwright.v1.WorkingStep.subject":                        true,
		"pondwright.v1.Provenance.catalogues":                      true,
		"pondwright.v1.RipeningRun.ripe_day":                       true,
		"pondwright.v1.Source.locator":                             true,
		"pondwright.v1.Finding.limit":                              true,
		"pondwright.v1.Finding.value":                              true,
		"pondwright.v1.SettledWater.alkalinity_lasts_days":         true,
	}
	seen, set := map[protoreflect.FullName]protoreflect.MessageDescriptor{}, map[protoreflect.FullName]bool{}
	var walk func(protoreflect.Message)
	walk = func(m protoreflect.Message) {
		seen[m.Descriptor().FullName()] = m.Descriptor()
		m.Range(func(f protoreflect.FieldDescriptor, v protoreflect.Value) bool {
			set[f.FullName()] = true
			switch {
			case f.IsList() && f.Message() != nil:
				for i := range v.List().Len() {
					walk(v.List().Get(i).Message())
				}
			case f.Message() != nil:
				walk(v.Message())
			}
			return true
		})
	}
	walk(m)
	var missing []string
	for _, d := range seen {
		for i := range d.Fields().Len() {
			if f := d.Fields().Get(i); !set[f.FullName()] && !hangsOn[f.FullName()] {
				missing = append(missing, string(f.FullName()))
			}
		}
	}
	return missing
}
