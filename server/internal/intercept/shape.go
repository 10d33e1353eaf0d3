package intercept

import (
	"context"
	"fmt"
	"strings"
	"sync"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// Shape refuses requests whose messages lie deeper in one another than depth, and those with a list longer than entries,
// where that is above 0. A request that cannot be too deep, as most cannot, is not walked through for it.
func Shape(depth, entries int) grpc.UnaryServerInterceptor {
	var endless sync.Map // protoreflect.FullName → bool
	return func(ctx context.Context, req any, _ *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
		message, ok := req.(proto.Message)
		if !ok {
			return next(ctx, req)
		}
		m := message.ProtoReflect()
		name := m.Descriptor().FullName()
		known, found := endless.Load(name)
		if !found {
			known = canNest(m.Descriptor())
			endless.Store(name, known)
		}
		if known.(bool) || entries > 0 {
			if v := outOfShape(m, depth, entries); v != nil {
				return nil, BadRequest([]*errdetails.BadRequest_FieldViolation{v})
			}
		}
		return next(ctx, req)
	}
}

// canNest says whether a message can hold itself, or one below it can.
func canNest(d protoreflect.MessageDescriptor) bool {
	const open, done = 1, 2
	state := map[protoreflect.FullName]int{}
	var nests func(protoreflect.MessageDescriptor) bool
	nests = func(d protoreflect.MessageDescriptor) bool {
		if state[d.FullName()] != 0 {
			return state[d.FullName()] == open
		}
		state[d.FullName()] = open
		for i := range d.Fields().Len() {
			if m := d.Fields().Get(i).Message(); m != nil && nests(m) {
				return true
			}
		}
		state[d.FullName()] = done
		return false
	}
	return nests(d)
}

// outOfShape is the first violation found, and nil where there is none.
func outOfShape(m protoreflect.Message, depth, entries int) (found *errdetails.BadRequest_FieldViolation) {
	if depth == 0 {
		return &errdetails.BadRequest_FieldViolation{Description: "lies too deep: describe it with fewer levels", Reason: "TOO_DEEP"}
	}
	m.Range(func(f protoreflect.FieldDescriptor, v protoreflect.Value) bool {
		switch {
		case f.IsMap():
		case f.IsList():
			found = listOutOfShape(f, v.List(), depth, entries)
		case f.Message() != nil:
			found = under(string(f.Name()), outOfShape(v.Message(), depth-1, entries))
		}
		return found == nil
	})
	return found
}

func listOutOfShape(f protoreflect.FieldDescriptor, list protoreflect.List, depth, entries int) *errdetails.BadRequest_FieldViolation {
	if entries > 0 && list.Len() > entries {
		return &errdetails.BadRequest_FieldViolation{
			Field: string(f.Name()), Reason: "LIST_TOO_LONG",
			Description: fmt.Sprintf("has %d entries, and no list may have more than %d here", list.Len(), entries),
		}
	}
	for i := 0; f.Message() != nil && i < list.Len(); i++ {
		if v := outOfShape(list.Get(i).Message(), depth-1, entries); v != nil {
			return under(fmt.Sprintf("%s[%d]", f.Name(), i), v)
		}
	}
	return nil
}

// under puts a field before the path of a violation that was found below it.
func under(field string, v *errdetails.BadRequest_FieldViolation) *errdetails.BadRequest_FieldViolation {
	if v != nil {
		v.Field = strings.TrimSuffix(field+"."+v.Field, ".")
	}
	return v
}
