package contract_test

import (
	"strings"
	"testing"

	"buf.build/go/protovalidate"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/reflect/protoreflect"

	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// A number that may be 0 and is sent without presence could not be told from one that was left out.
func TestNothingIsSilentlyZero(t *testing.T) {
	eachMessage((&equipmentv1.Item{}).ProtoReflect().Descriptor(), func(d protoreflect.MessageDescriptor) {
		for i := range d.Fields().Len() {
			f := d.Fields().Get(i)
			rules, err := protovalidate.ResolveFieldRules(f)
			require.NoError(t, err)
			switch number := rules.GetDouble(); {
			case f.HasPresence() || f.IsList():
			case f.Kind() == protoreflect.DoubleKind:
				assert.True(t, number.HasGt() && number.GetGt() >= 0 || number.GetGte() > 0, "%s may be 0 and has no presence", f.FullName())
			case f.Kind() == protoreflect.Int32Kind:
				assert.Positive(t, rules.GetInt32().GetGte(), f.FullName())
			default: // a text that is needed has a least length, and an enum is not 0
				assert.Contains(t, []protoreflect.Kind{protoreflect.StringKind, protoreflect.EnumKind}, f.Kind(), f.FullName())
			}
		}
	})
}

func TestNumberThatMayBeZeroHasToBeSaid(t *testing.T) {
	c := newChecker(t)
	demanded := map[string]bool{}
	for _, item := range good() {
		eachDouble(item.ProtoReflect(), "", func(m protoreflect.Message, f protoreflect.FieldDescriptor, path string) {
			was := m.Get(f)
			m.Clear(f)
			if problems := c.Check(item); f.HasPresence() && len(problems) == 1 && strings.Contains(problems[0].Reason, "required") {
				demanded[problems[0].Field] = true
			}
			m.Set(f, was)
		})
	}
	for _, field := range []string{
		"pump.curve[0].flow_l_per_h", "pump.curve[2].head_m", "filter.clean_loss.head_m", "filter.due_loss.head_m",
		"lamp_unit.loss.head_m", "hose.price_per_m", "liner.price_per_m2", "medium.price_per_l",
	} {
		assert.True(t, demanded[field], "%s may be left out", field)
	}
	assert.False(t, demanded["pump.curve[0].power_w"])
}
