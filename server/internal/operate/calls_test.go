package operate_test

import (
	"context"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/metadata"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"
	"google.golang.org/protobuf/types/dynamicpb"

	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/config"
	"example.com/pondwright/server/internal/intercept"
	"example.com/pondwright/server/internal/operate/rig"
)

// unary lists every call of the API of one request and one answer.
func unary() []protoreflect.MethodDescriptor {
	var all []protoreflect.MethodDescriptor
	protoregistry.GlobalFiles.RangeFilesByPackage("pondwright.v1", func(f protoreflect.FileDescriptor) bool {
		for i := range f.Services().Len() {
			for j := range f.Services().Get(i).Methods().Len() {
				if m := f.Services().Get(i).Methods().Get(j); !m.IsStreamingClient() && !m.IsStreamingServer() {
					all = append(all, m)
				}
			}
		}
		return true
	})
	return all
}

func path(m protoreflect.MethodDescriptor) string {
	return "/" + string(m.Parent().FullName()) + "/" + string(m.Name())
}

// Every answer and every refusal says what it rests on: the answer by its Provenance, or else the headers.
func TestEveryCallSaysWhatItRestsOn(t *testing.T) {
	conn := rig.Start(t, nil, func(*config.Settings) {}).Dial(t, nil)
	for _, m := range unary() {
		var header metadata.MD
		answer := dynamicpb.NewMessage(m.Output())
		err := conn.Invoke(t.Context(), path(m), dynamicpb.NewMessage(m.Input()), answer, grpc.Header(&header))
		if f := m.Output().Fields().ByName("provenance"); err == nil && f != nil && answer.Has(f) {
			continue
		}
		for _, name := range []string{intercept.HeaderVersion, intercept.HeaderMethodSet, intercept.HeaderCatalogues, intercept.HeaderDigest} {
			assert.Len(t, header.Get(name), 1, "%s of %s", name, m.FullName())
		}
		want, err := intercept.Digest(dynamicpb.NewMessage(m.Input()))
		require.NoError(t, err)
		assert.Equal(t, []string{want}, header.Get(intercept.HeaderDigest), m.FullName())
	}
}

// A caller who has gone, or whose time is up, is noticed by every call.
func TestEveryCallHonoursItsDeadline(t *testing.T) {
	conn := rig.Start(t, nil, func(*config.Settings) {}).Dial(t, nil)
	for _, m := range unary() {
		ctx, cancel := context.WithTimeout(t.Context(), time.Microsecond)
		err := conn.Invoke(ctx, path(m), dynamicpb.NewMessage(m.Input()), dynamicpb.NewMessage(m.Output()))
		cancel()
		assert.Equal(t, codes.DeadlineExceeded, status.Code(err), m.FullName())
	}
}

// FuzzEveryCall sends each call messages made from its descriptor, valid and broken: no panic, nothing that hangs.
func FuzzEveryCall(f *testing.F) {
	conn := rig.Start(f, nil, func(s *config.Settings) { s.Limits.Time = 2 * time.Second }).Dial(f, nil)
	calls := unary()
	for i := range calls {
		f.Add(uint16(i), uint64(1), []byte(nil))
		f.Add(uint16(i), uint64(2), []byte{10, 0})
	}
	f.Fuzz(func(t *testing.T, which uint16, seed uint64, bytes []byte) {
		m := calls[int(which)%len(calls)]
		if m.FullName() == pb.File_pondwright_v1_catalogue_service_proto.Services().Get(0).FullName().Append("ReloadCatalogues") {
			return // starts processes
		}
		question := dynamicpb.NewMessage(m.Input())
		fill(question, rand.New(rand.NewPCG(seed, uint64(which))), 6)
		_ = proto.UnmarshalOptions{Merge: true}.Unmarshal(bytes, question) // what can be read of it
		ctx, cancel := context.WithTimeout(t.Context(), 60*time.Second)
		defer cancel()
		err := conn.Invoke(ctx, path(m), question, dynamicpb.NewMessage(m.Output()), grpc.MaxCallRecvMsgSize(64<<20))
		switch status.Code(err) {
		case codes.Internal, codes.Unknown, codes.Unimplemented, codes.Unavailable:
			t.Errorf("%s: %v\n%v", m.FullName(), err, question)
		}
		if ctx.Err() != nil {
			t.Errorf("%s hangs\n%v", m.FullName(), question)
		}
	})
}

// fill sets fields by chance, with numbers near what such fields hold.
func fill(m protoreflect.Message, by *rand.Rand, depth int) {
	for i := range m.Descriptor().Fields().Len() {
		f := m.Descriptor().Fields().Get(i)
		if depth == 0 || by.IntN(4) == 0 {
			continue
		}
		switch {
		case f.IsMap():
		case f.IsList():
			list := m.Mutable(f).List()
			for range by.IntN(4) {
				list.Append(value(f, list.NewElement, by, depth))
			}
		default:
			m.Set(f, value(f, func() protoreflect.Value { return m.NewField(f) }, by, depth))
		}
	}
}

func value(f protoreflect.FieldDescriptor, made func() protoreflect.Value, by *rand.Rand, depth int) protoreflect.Value {
	switch f.Kind() {
	case protoreflect.MessageKind:
		v := made()
		fill(v.Message(), by, depth-1)
		return v
	case protoreflect.DoubleKind:
		return protoreflect.ValueOfFloat64([]float64{0, 0.1, 0.5, 1, 2, 5, 20, 100, 3000, 1e9, -1}[by.IntN(11)])
	case protoreflect.EnumKind:
		return protoreflect.ValueOfEnum(protoreflect.EnumNumber(by.IntN(f.Enum().Values().Len() + 1)))
	case protoreflect.StringKind:
		return protoreflect.ValueOfString([]string{"", "demo", "a", "GBP", "\x00\n", "2026-06-01"}[by.IntN(6)])
	case protoreflect.BoolKind:
		return protoreflect.ValueOfBool(by.IntN(2) == 1)
	case protoreflect.Int32Kind:
		return protoreflect.ValueOfInt32(int32(by.IntN(40) - 1))
	default:
		return made()
	}
}
