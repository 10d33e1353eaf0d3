package gate

import (
	"fmt"
	"time"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/protoadapt"
	"google.golang.org/protobuf/types/known/durationpb"

	"example.com/pondwright/server/internal/intercept"
)

// A Reason is why a call was turned away, as ErrorInfo has it.
type Reason string

// Reasons.
const (
	NotKnown   Reason = "NOT_KNOWN"
	NotAllowed Reason = "NOT_ALLOWED"
	TooOften   Reason = "RATE_LIMIT"
	TooMany    Reason = "TOO_MANY_CALLS"
	Overloaded Reason = "OVERLOADED"
)

// Reasons lists them all.
func Reasons() []Reason { return []Reason{NotKnown, NotAllowed, TooOften, TooMany, Overloaded} }

type refusal struct {
	code   codes.Code
	reason Reason
	text   string
	retry  time.Duration
}

func stranger(shown bool) refusal {
	text := "say who you are: send a token as \"authorization: Bearer TOKEN\", or show a certificate"
	if shown {
		text = "nobody is known by this token and certificate"
	}
	return refusal{code: codes.Unauthenticated, reason: NotKnown, text: text}
}

func forbidden(c *Caller, method, need string) refusal {
	text := fmt.Sprintf("%q may not call %q", c.Name, method)
	if need != "" {
		text += fmt.Sprintf(", which needs the role %s", need)
	}
	return refusal{code: codes.PermissionDenied, reason: NotAllowed, text: text}
}

func tooOften(c *Caller, wait time.Duration) refusal {
	return refusal{
		code: codes.ResourceExhausted, reason: TooOften, retry: wait,
		text: fmt.Sprintf("%q calls more often than it may; call again in %v", c.Name, wait.Round(time.Millisecond)),
	}
}

// soon is after how long a call that met too many others may be tried again; the caller adds chance of his own.
const soon = 100 * time.Millisecond

func tooMany(c *Caller) refusal {
	return refusal{
		code: codes.ResourceExhausted, reason: TooMany, retry: soon,
		text: fmt.Sprintf("%q has %d calls in hand, as many as it may; wait for one of them", c.Name, c.most),
	}
}

func overloaded() refusal {
	return refusal{code: codes.ResourceExhausted, reason: Overloaded, retry: soon, text: "the server has as many calls in hand as it takes; call again later"}
}

func (r refusal) status() error {
	s := status.New(r.code, r.text)
	details := []protoadapt.MessageV1{&errdetails.ErrorInfo{Reason: string(r.reason), Domain: intercept.Domain}}
	if r.retry > 0 {
		details = append(details, &errdetails.RetryInfo{RetryDelay: durationpb.New(r.retry)})
	}
	detailed, err := s.WithDetails(details...)
	if err != nil {
		return s.Err()
	}
	return detailed.Err()
}
