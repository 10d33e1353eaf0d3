package gate

import (
	"slices"

	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"
	"google.golang.org/protobuf/types/descriptorpb"

	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/config"
)

// everyone marks what needs no role, and no name either.
const everyone = ""

// rules give the role that each method needs. What is not among them nobody may call.
type rules map[string]string

// open says whether everyone may call a method.
func (r rules) open(method string) bool {
	need, known := r[method]
	return known && need == everyone
}

// newRules reads the API: what has no side effects is a calculation or a look at the catalogues; what has some is about the
// catalogues alone. A probe may ask for health without a name.
func newRules() rules {
	r := rules{
		"/grpc.health.v1.Health/Check": everyone, "/grpc.health.v1.Health/List": everyone, "/grpc.health.v1.Health/Watch": everyone,
		"/grpc.reflection.v1.ServerReflection/ServerReflectionInfo":      config.Operate,
		"/grpc.reflection.v1alpha.ServerReflection/ServerReflectionInfo": config.Operate,
	}
	protoregistry.GlobalFiles.RangeFilesByPackage(pb.File_pondwright_v1_finding_proto.Package(), func(f protoreflect.FileDescriptor) bool {
		for i := range f.Services().Len() {
			s := f.Services().Get(i)
			for j := range s.Methods().Len() {
				m := s.Methods().Get(j)
				if role := roleOf(s, m); role != "" {
					r["/"+string(s.FullName())+"/"+string(m.Name())] = role
				}
			}
		}
		return true
	})
	return r
}

// streams are calculations too. They do not say so themselves, for what they have been sent cannot be sent again for them.
var streams = []protoreflect.FullName{"pondwright.v1.CurveService.CheckCurves"}

func roleOf(s protoreflect.ServiceDescriptor, m protoreflect.MethodDescriptor) string {
	options, _ := m.Options().(*descriptorpb.MethodOptions)
	switch {
	case slices.Contains(streams, m.FullName()):
		return config.Calculate
	case options.GetIdempotencyLevel() == descriptorpb.MethodOptions_NO_SIDE_EFFECTS:
		return config.Calculate
	case s.FullName() == "pondwright.v1.CatalogueService":
		return config.Reload
	default:
		return ""
	}
}
