// Package service answers the RPCs: each reads its request, calls calc, and writes the answer. The request has passed the
// rules of its proto before it comes here.
package service

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"strings"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/calc"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/catalogue"
	"example.com/pondwright/server/internal/intercept"
)

// An Engine is what the services share.
type Engine struct {
	Version string
	Store   *catalogue.Store
	// MayReload refuses callers who may not have the catalogues read again. Nil serves those on the same machine only.
	MayReload func(context.Context) error
}

// Register adds every service to a server and returns their names.
func (e *Engine) Register(s *grpc.Server) []string {
	pb.RegisterVolumeServiceServer(s, volume{engine: e})
	pb.RegisterHydraulicsServiceServer(s, hydraulics{engine: e})
	pb.RegisterCircuitServiceServer(s, circuits{engine: e})
	pb.RegisterFallServiceServer(s, falls{engine: e})
	pb.RegisterFiltrationServiceServer(s, filtration{engine: e})
	pb.RegisterUvServiceServer(s, uvLight{engine: e})
	pb.RegisterSeasonServiceServer(s, seasons{engine: e})
	pb.RegisterKitServiceServer(s, kits{engine: e})
	pb.RegisterCatalogueServiceServer(s, catalogues{engine: e})
	pb.RegisterCurveServiceServer(s, curves{engine: e})
	pb.RegisterJobServiceServer(s, jobs{engine: e})
	return []string{
		pb.VolumeService_ServiceDesc.ServiceName, pb.HydraulicsService_ServiceDesc.ServiceName,
		pb.CircuitService_ServiceDesc.ServiceName, pb.FallService_ServiceDesc.ServiceName,
		pb.FiltrationService_ServiceDesc.ServiceName, pb.UvService_ServiceDesc.ServiceName,
		pb.KitService_ServiceDesc.ServiceName, pb.CatalogueService_ServiceDesc.ServiceName, pb.CurveService_ServiceDesc.ServiceName,
		pb.JobService_ServiceDesc.ServiceName,
		pb.SeasonService_ServiceDesc.ServiceName,
	}
}

// provenance says what an answer rests on. The snapshot is nil for answers that use no catalogue.
func (e *Engine) provenance(req proto.Message, s *catalogue.Snapshot) (*pb.Provenance, error) {
	bytes, err := proto.MarshalOptions{Deterministic: true}.Marshal(req)
	if err != nil {
		return nil, fmt.Errorf("digest request: %w", err)
	}
	sum := sha256.Sum256(bytes)
	p := &pb.Provenance{EngineVersion: e.Version, MethodSet: calc.MethodSet, RequestDigest: hex.EncodeToString(sum[:])}
	if s != nil {
		p.Catalogues = s.Revisions()
	}
	return p, nil
}

// trail is where to record the workings, or nil where nobody asked for them.
func trail(asked bool) *working.Trail {
	if !asked {
		return nil
	}
	return new(working.Trail)
}

// refused turns what calc says is wrong with the input into a status that names each field from the request on. Any other
// error passes.
func refused(err error, under string) error {
	var all input.Errors
	var one input.Error
	switch {
	case errors.As(err, &all):
	case errors.As(err, &one):
		all = input.Errors{one}
	default:
		return err
	}
	violations := make([]*errdetails.BadRequest_FieldViolation, len(all))
	for i, e := range all {
		text := e.Problem
		if e.Change != "" {
			text += "; " + e.Change
		}
		violations[i] = &errdetails.BadRequest_FieldViolation{
			Field: strings.Trim(under+"."+e.Field, "."), Description: text, Reason: "NOT_CALCULABLE",
		}
	}
	return intercept.BadRequest(violations)
}

// gone is the error of a call whose caller has gone or whose time is up, and nil while it goes on.
func gone(ctx context.Context) error { return status.FromContextError(ctx.Err()).Err() }

// stopped is what became of a call that failed: that its caller has gone, where he has.
func stopped(ctx context.Context, err error) error { return cmp.Or(gone(ctx), err) }

// stopper reports whether the caller has gone or its time is up.
func stopper(ctx context.Context) func() bool { return func() bool { return ctx.Err() != nil } }
