package wire

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"google.golang.org/protobuf/reflect/protoreflect"

	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Every name of an enum that a request may carry has its counterpart in calc: one that was forgotten would be read as
// nothing.
func TestNoNameOfAnEnumIsForgotten(t *testing.T) {
	for enum, known := range map[protoreflect.EnumDescriptor]func(protoreflect.EnumNumber) bool{
		pb.Species(0).Descriptor():      func(n protoreflect.EnumNumber) bool { _, ok := species[pb.Species(n)]; return ok },
		pb.FittingKind(0).Descriptor():  func(n protoreflect.EnumNumber) bool { _, ok := fittingKinds[pb.FittingKind(n)]; return ok },
		pb.Sheet(0).Descriptor():        func(n protoreflect.EnumNumber) bool { _, ok := sheets[pb.Sheet(n)]; return ok },
		pb.SillEdge(0).Descriptor():     func(n protoreflect.EnumNumber) bool { _, ok := sillEdges[pb.SillEdge(n)]; return ok },
		pb.Measured(0).Descriptor():     func(n protoreflect.EnumNumber) bool { _, ok := hows[pb.Measured(n)]; return ok },
		eq.HoseWall(0).Descriptor():     func(n protoreflect.EnumNumber) bool { _, ok := walls[eq.HoseWall(n)]; return ok },
		eq.FilterMedium(0).Descriptor(): func(n protoreflect.EnumNumber) bool { _, ok := media[eq.FilterMedium(n)]; return ok },
		eq.LampKind(0).Descriptor():     func(n protoreflect.EnumNumber) bool { _, ok := lampKinds[eq.LampKind(n)]; return ok },
	} {
		for i := range enum.Values().Len() {
			if value := enum.Values().Get(i); value.Number() != 0 {
				assert.True(t, known(value.Number()), "%s", value.FullName())
			}
		}
	}
}
