// Package intercept holds what every call passes on its way in: the request rules of the proto, and a net for panics.
package intercept

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"buf.build/go/protovalidate"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// Domain is that of the ErrorInfo of every error this engine makes.
const Domain = "pondwright"

// Validate holds each unary request to the rules its proto carries, and lists every violation at once as
// google.rpc.BadRequest with field paths. Requests of other packages, such as health checks, pass. A stream holds its messages to
// the rules itself, so that one bad entry is no end to the rest.
func Validate(v protovalidate.Validator) grpc.UnaryServerInterceptor {
	return func(ctx context.Context, req any, _ *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
		if err := hold(v, req); err != nil {
			return nil, err
		}
		return next(ctx, req)
	}
}

func hold(v protovalidate.Validator, req any) error {
	message, ok := req.(proto.Message)
	if !ok || message.ProtoReflect().Descriptor().ParentFile().Package() != pb.File_pondwright_v1_finding_proto.Package() {
		return nil
	}
	err := v.Validate(message)
	var failed *protovalidate.ValidationError
	switch {
	case err == nil:
		return nil
	case errors.As(err, &failed):
		return refuse(failed)
	default:
		return fmt.Errorf("hold request to its rules: %w", err)
	}
}

func refuse(failed *protovalidate.ValidationError) error {
	var violations []*errdetails.BadRequest_FieldViolation
	for _, v := range failed.Violations {
		violations = append(violations, &errdetails.BadRequest_FieldViolation{
			Field: protovalidate.FieldPathString(v.Proto.GetField()), Description: v.Proto.GetMessage(), Reason: reason(v.Proto.GetRuleId()),
		})
	}
	return BadRequest(violations)
}

// BadRequest is the error of a request that has to be changed, with everything that is wrong with it.
func BadRequest(violations []*errdetails.BadRequest_FieldViolation) error {
	s := status.New(codes.InvalidArgument, inOneLine(violations))
	detailed, err := s.WithDetails(
		&errdetails.BadRequest{FieldViolations: violations},
		&errdetails.ErrorInfo{Reason: "INVALID_REQUEST", Domain: Domain},
	)
	if err != nil {
		return s.Err()
	}
	return detailed.Err()
}

// mostTold is how many faults the message of a status tells; its details hold all of them.
const mostTold = 10

func inOneLine(violations []*errdetails.BadRequest_FieldViolation) string {
	var told []string
	for i, v := range violations {
		if i == mostTold {
			told = append(told, fmt.Sprintf("and %d more", len(violations)-i))
			break
		}
		told = append(told, v.GetField()+": "+v.GetDescription())
	}
	return strings.Join(told, " | ")
}

// reason turns the id of a rule into the form that reasons have: "double.gte_lte" is "DOUBLE_GTE_LTE".
func reason(rule string) string {
	out := []byte(rule)
	for i, c := range out {
		switch {
		case c >= 'a' && c <= 'z':
			out[i] = c - 'a' + 'A'
		case c >= 'A' && c <= 'Z', c >= '0' && c <= '9':
		default:
			out[i] = '_'
		}
	}
	return string(out)
}
