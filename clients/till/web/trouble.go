package web

import (
	"context"
	"net/http"
	"strings"
	"time"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"example.com/pondwright/clients/till/form"
)

// patience is how long somebody at a counter waits for an answer.
const patience = 20 * time.Second

// A trouble is why there is no answer, and whether asking again may help.
type trouble struct {
	Heading, Sentence string
	Retry             bool
}

// failed puts what went wrong into the page: faults of the input beside their fields, and anything else above them all. What was
// typed stays. It returns the status of the page.
func (t *till) failed(p *page, err error) int {
	st := status.Convert(err)
	switch st.Code() {
	case codes.InvalidArgument:
		var rest []string
		for _, detail := range st.Details() {
			bad, ok := detail.(*errdetails.BadRequest)
			if !ok {
				continue
			}
			for _, v := range bad.GetFieldViolations() {
				if field := form.Named(v.GetField()); field != "" {
					p.Faults = append(p.Faults, form.Fault{Field: field, Message: v.GetDescription()})
				} else {
					rest = append(rest, v.GetDescription())
				}
			}
		}
		if len(p.Faults) == 0 && len(rest) == 0 {
			rest = []string{st.Message()}
		}
		if len(rest) > 0 {
			p.Trouble = &trouble{Heading: "This cannot be calculated", Sentence: strings.Join(rest, ". ") + "."}
		}
		return http.StatusUnprocessableEntity
	case codes.Unavailable:
		t.Engine.ResetConnectBackoff() // or the next try would find the line still closed
		p.Trouble = &trouble{"The engine does not answer", "What you typed is kept. Try again in a moment; if it stays away, the engine has to be started.", true}
	case codes.DeadlineExceeded:
		p.Trouble = &trouble{"The engine took too long", "What you typed is kept. Try again.", true}
	case codes.FailedPrecondition:
		p.Trouble = &trouble{"There is nothing to choose from", st.Message(), true}
	case codes.NotFound:
		p.Trouble = &trouble{Heading: "This is not in the catalogue", Sentence: st.Message()}
		return http.StatusUnprocessableEntity
	case codes.ResourceExhausted:
		p.Trouble = &trouble{"The engine is busy", "What you typed is kept. Try again in a moment.", true}
	case codes.Unimplemented:
		p.Trouble = &trouble{Heading: "This engine cannot do that yet", Sentence: "It is older than this page. The rest works."}
	default:
		t.Logger.Error("engine", "error", err)
		p.Trouble = &trouble{"Something went wrong in the engine", st.Message(), true}
	}
	return http.StatusServiceUnavailable
}

func hurry(r *http.Request) (context.Context, context.CancelFunc) {
	return context.WithTimeout(r.Context(), patience)
}
