package engine_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	pb "example.com/pondwright/proto/pondwright/v1"
)

func findings(found []*pb.Finding) []string {
	var list []string
	for _, f := range found {
		list = append(list, f.GetCode())
	}
	return list
}

// explained holds an answer to what all answers promise: each step of the workings can be run again from what the client
// got, to the last bit; each finding says what to change and where it comes from; every number is one; and no field was
// left out.
func explained(t *testing.T, resp interface {
	proto.Message
	GetProvenance() *pb.Provenance
}) {
	t.Helper()
	grounded(t, resp)
	missing, _ := walked(resp.ProtoReflect())
	assert.Empty(t, missing)
}

// grounded holds an answer to the same, but that it may leave out what it has nothing to say of.
func grounded(t *testing.T, resp interface {
	proto.Message
	GetProvenance() *pb.Provenance
}) {
	t.Helper()
	if worked, ok := resp.(interface{ GetWorkings() []*pb.WorkingStep }); ok {
		replaySteps(t, worked.GetWorkings())
	}
	if said, ok := resp.(interface{ GetFindings() []*pb.Finding }); ok {
		for _, f := range said.GetFindings() {
			assert.NotEmpty(t, f.GetSentence(), f.GetCode())
			assert.NotEmpty(t, f.GetChange(), f.GetCode())
			assert.NotEmpty(t, f.GetSource().GetKey(), f.GetCode())
			assert.NotZero(t, f.GetSource().GetStatus(), f.GetCode())
		}
	}
	assert.Len(t, resp.GetProvenance().GetRequestDigest(), 64)
	_, odd := walked(resp.ProtoReflect())
	assert.Empty(t, odd, "neither NaN nor infinite")
}

// walked lists the fields that an answer sets nowhere in all its parts, but for those that belong to another kind of
// equipment or hang on a verdict, and those that hold what is no number.
func walked(m protoreflect.Message) (missing, odd []string) {
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
		"pondwright.v1.Inactivation.at_least":                      true,
		"pondwright.v1.DoseResponse.log10_reduction":               true,
		"pondwright.v1.LampDose.wanted_daily_mj_per_cm2":           true,
		"pondwright.v1.CalculateFieldResponse.lamps_apart":         true,
		"pondwright.v1.FieldPoint.x_mm":                            true, // 0
		"pondwright.v1.SeasonWater.error":                          true, // 0 at best
	}
	seen, set := map[protoreflect.FullName]protoreflect.MessageDescriptor{}, map[protoreflect.FullName]bool{}
	var walk func(protoreflect.Message)
	walk = func(m protoreflect.Message) {
		seen[m.Descriptor().FullName()] = m.Descriptor()
		m.Range(func(f protoreflect.FieldDescriptor, v protoreflect.Value) bool {
			set[f.FullName()] = true
			switch {
			case f.Kind() == protoreflect.DoubleKind && !f.IsList() && (math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0)):
				odd = append(odd, string(f.FullName()))
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
	for _, d := range seen {
		for i := range d.Fields().Len() {
			if f := d.Fields().Get(i); !set[f.FullName()] && !hangsOn[f.FullName()] {
				missing = append(missing, string(f.FullName()))
			}
		}
	}
	return missing, odd
}
