package proto_test

import (
	"os"
	"os/exec"
	"testing"

	"buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protodesc"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"
	"google.golang.org/protobuf/types/descriptorpb"

	_ "example.com/pondwright/proto/pondwright/catalogue/v1"
	_ "example.com/pondwright/proto/pondwright/v1"
)

// Whatever a caller or a plugin can send is bounded from both sides, so that no number, text or list comes in that the engine
// was not made for, and no NaN: it is neither above nor below anything.
func TestEverythingThatComesInIsBounded(t *testing.T) {
	seen := map[protoreflect.FullName]bool{}
	var visit func(m protoreflect.MessageDescriptor)
	visit = func(m protoreflect.MessageDescriptor) {
		if seen[m.FullName()] {
			return
		}
		seen[m.FullName()] = true
		for i := range m.Fields().Len() {
			field := m.Fields().Get(i)
			assert.Truef(t, bounded(field), "%s has no limits, or only on one side", field.FullName())
			if field.Message() != nil {
				visit(field.Message())
			}
		}
	}
	for _, incoming := range incomingMessages() {
		visit(incoming)
	}
	assert.Greater(t, len(seen), 30)
}

// incomingMessages are the requests of the API, and what a plugin answers.
func incomingMessages() []protoreflect.MessageDescriptor {
	var found []protoreflect.MessageDescriptor
	protoregistry.GlobalFiles.RangeFiles(func(file protoreflect.FileDescriptor) bool {
		for i := range file.Services().Len() {
			for j := range file.Services().Get(i).Methods().Len() {
				method := file.Services().Get(i).Methods().Get(j)
				switch file.Package() {
				case "pondwright.v1":
					found = append(found, method.Input())
				case "pondwright.catalogue.v1":
					found = append(found, method.Output())
				}
			}
		}
		return true
	})
	return found
}

func bounded(field protoreflect.FieldDescriptor) bool {
	rules, _ := proto.GetExtension(field.Options(), validate.E_Field).(*validate.FieldRules)
	if field.IsList() {
		// A plugin's page is bounded by the size of its message.
		return rules.GetRepeated().HasMaxItems() || field.FullName() == "pondwright.catalogue.v1.StreamItemsResponse.items"
	}
	switch field.Kind() {
	case protoreflect.DoubleKind:
		r := rules.GetDouble()
		return (r.HasGt() || r.HasGte()) && (r.HasLt() || r.HasLte()) || r.HasConst()
	case protoreflect.Int32Kind:
		r := rules.GetInt32()
		return (r.HasGt() || r.HasGte()) && (r.HasLt() || r.HasLte())
	case protoreflect.StringKind:
		r := rules.GetString()
		return r.HasMaxLen() || r.HasPattern()
	case protoreflect.BytesKind:
		return rules.GetBytes().HasMaxLen()
	case protoreflect.EnumKind:
		return rules.GetEnum().GetDefinedOnly()
	default:
		return field.Kind() == protoreflect.BoolKind || field.Kind() == protoreflect.MessageKind
	}
}

// The vendored rules are those that are linked in. Building the vendored file takes the proto tools, so this runs where the
// cross-checks do.
func TestVendoredRulesAreThoseLinkedIn(t *testing.T) {
	if os.Getenv("PONDWRIGHT_CROSSCHECK") != "required" {
		t.Skip("set PONDWRIGHT_CROSSCHECK=required to build the vendored file")
	}
	cmd := exec.Command("go", "tool", "-modfile=.tools/buf.mod", "buf", "build", "proto/third_party", "-o", "-")
	cmd.Dir = ".."
	image, err := cmd.Output()
	require.NoError(t, err)
	var built descriptorpb.FileDescriptorSet
	require.NoError(t, proto.Unmarshal(image, &built))
	for _, file := range built.GetFile() {
		if file.GetName() != "buf/validate/validate.proto" {
			continue
		}
		linked := protodesc.ToFileDescriptorProto(validate.File_buf_validate_validate_proto)
		// The published Go names its package otherwise; what is on the wire is compared.
		linked.Options, file.Options, file.SourceCodeInfo = nil, nil, nil
		file.ProtoReflect().SetUnknown(nil)
		assert.True(t, proto.Equal(linked, file))
		return
	}
	t.Fatal("the vendored file was not built")
}
