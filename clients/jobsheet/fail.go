package main

import (
	"errors"
	"fmt"
	"strings"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"example.com/pondwright/clients/internal/brief"
	"example.com/pondwright/clients/internal/page"
	"example.com/pondwright/clients/internal/session"
)

// complain prints an error, and lines of advice, without whatever a terminal would obey.
func complain(e env, code int, err error, advice ...string) int {
	for line := range strings.Lines(err.Error() + "\n") {
		if line = strings.TrimSpace(line); line != "" {
			fmt.Fprintln(e.Err, page.Clean(line))
		}
	}
	for _, line := range advice {
		fmt.Fprintln(e.Err, line)
	}
	return code
}

// failed tells what went wrong between here and the engine, and whose turn it is to mend it.
func failed(e env, err error, at *brief.Positions) int {
	if errors.Is(err, session.ErrAddress) {
		return complain(e, exitInput, err)
	}
	st, ok := status.FromError(err)
	switch {
	case !ok:
		return complain(e, exitEngine, err)
	case st.Code() == codes.InvalidArgument:
		if violations := violationsOf(st); len(violations) > 0 {
			return complain(e, exitInput, at.Explain(violations))
		}
		return complain(e, exitInput, fmt.Errorf("the engine cannot answer this brief: %s", st.Message()))
	case st.Code() == codes.DeadlineExceeded:
		return complain(e, exitEngine, fmt.Errorf("the engine took longer than %.0f minutes", patience.Minutes()))
	case st.Code() == codes.Canceled:
		return complain(e, exitEngine, errors.New("stopped"))
	}
	return complain(e, exitEngine, fmt.Errorf("the engine failed (%s): %s", st.Code(), st.Message()))
}

// violationsOf are the fields that the engine refused.
func violationsOf(st *status.Status) []*errdetails.BadRequest_FieldViolation {
	for _, detail := range st.Details() {
		if bad, ok := detail.(*errdetails.BadRequest); ok {
			return bad.GetFieldViolations()
		}
	}
	return nil
}
