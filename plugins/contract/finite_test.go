package contract

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"google.golang.org/protobuf/types/known/structpb"
	"google.golang.org/protobuf/types/known/wrapperspb"
)

// Fields that no rule bounds are looked at too. The contract has none today.
func TestNotFiniteNeedsNoRule(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		assert.Len(t, notFinite(wrapperspb.Double(bad).ProtoReflect(), ""), 1)
		assert.Len(t, notFinite(wrapperspb.Float(float32(bad)).ProtoReflect(), ""), 1)
		list := &structpb.ListValue{Values: []*structpb.Value{structpb.NewNumberValue(1), structpb.NewNumberValue(bad)}}
		problems := notFinite(list.ProtoReflect(), "list")
		if assert.Len(t, problems, 1) {
			assert.Equal(t, "list.values[1].number_value", problems[0].Field)
		}
	}
	assert.Empty(t, notFinite(wrapperspb.Double(1).ProtoReflect(), ""))
}
