package service

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/netip"
	"slices"
	"strconv"
	"strings"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/metadata"
	"google.golang.org/grpc/peer"
	"google.golang.org/grpc/status"

	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/catalogue"
	"example.com/pondwright/server/internal/intercept"
)

func (s catalogues) ListCatalogues(context.Context, *pb.ListCataloguesRequest) (*pb.ListCataloguesResponse, error) {
	return &pb.ListCataloguesResponse{Catalogues: s.statuses(nil)}, nil
}

// statuses are those of the catalogues named, or of all.
func (s catalogues) statuses(names []string) []*pb.CatalogueStatus {
	var all []*pb.CatalogueStatus
	for _, state := range s.engine.Store.States() {
		if len(names) == 0 || slices.Contains(names, state.Source.Name()) {
			all = append(all, state.Message())
		}
	}
	return all
}

// ListQuarantined pages by catalogue and place.
func (s catalogues) ListQuarantined(_ context.Context, req *pb.ListQuarantinedRequest) (*pb.ListQuarantinedResponse, error) {
	after, err := readToken(req.GetPageToken(), 2)
	if err != nil {
		return nil, err
	}
	from := 0
	if after != nil {
		if from, err = strconv.Atoi(after[1]); err != nil || from < 0 {
			return nil, badToken()
		}
	}
	snapshot, names := s.engine.Store.Snapshot(), s.engine.Store.Names()
	if name := req.GetCatalogue(); name != "" {
		if !slices.Contains(names, name) {
			return nil, badCatalogue("catalogue", names)
		}
		names = []string{name}
	}
	resp, size := &pb.ListQuarantinedResponse{}, pageSize(req.GetPageSize(), defaultPage)
	for _, name := range names {
		listed, count := snapshot.Quarantined(name)
		resp.QuarantinedCount += int32(count)
		if after != nil && name < after[0] {
			continue
		}
		for i, item := range listed {
			switch {
			case after != nil && name == after[0] && i < from:
			case len(resp.Items) < size:
				resp.Items = append(resp.Items, item)
			case resp.NextPageToken == "":
				resp.NextPageToken = token(name, strconv.Itoa(i))
			}
		}
	}
	return resp, nil
}

// ReloadCatalogues reads again for whoever may ask for it.
func (s catalogues) ReloadCatalogues(ctx context.Context, req *pb.ReloadCataloguesRequest) (*pb.ReloadCataloguesResponse, error) {
	if s.engine.MayReload == nil {
		if err := fromThisMachine(ctx); err != nil {
			return nil, err
		}
	} else if err := s.engine.MayReload(ctx); err != nil {
		return nil, err
	}
	known := s.engine.Store.Names()
	var faults []*errdetails.BadRequest_FieldViolation
	for i, name := range req.GetCatalogues() {
		if !slices.Contains(known, name) {
			faults = append(faults, unknown(fmt.Sprintf("catalogues[%d]", i), known))
		}
	}
	if len(faults) > 0 {
		return nil, intercept.BadRequest(faults)
	}
	err := s.engine.Store.Reload(ctx, req.GetCatalogues()...)
	switch {
	case ctx.Err() != nil:
		return nil, gone(ctx)
	case errors.Is(err, catalogue.ErrClosed):
		return nil, status.Error(codes.Unavailable, "the engine is stopping")
	}
	return &pb.ReloadCataloguesResponse{Catalogues: s.statuses(req.GetCatalogues())}, nil
}

func unknown(field string, known []string) *errdetails.BadRequest_FieldViolation {
	return &errdetails.BadRequest_FieldViolation{Field: field, Description: unknownCatalogue(known), Reason: "UNKNOWN_CATALOGUE"}
}

func badCatalogue(field string, known []string) error {
	return intercept.BadRequest([]*errdetails.BadRequest_FieldViolation{unknown(field, known)})
}

// fromThisMachine refuses callers from elsewhere: where nobody says who callers are, a stranger could keep the engine busy
// with reading. Calls in JSON come over HTTP, whose handler is on this machine and says whom it forwards for.
func fromThisMachine(ctx context.Context) error {
	near := false
	if p, ok := peer.FromContext(ctx); ok {
		tcp, isTCP := p.Addr.(*net.TCPAddr)
		near = !isTCP || tcp.IP.IsLoopback() // a pipe and a Unix socket are
	}
	for _, forwarded := range metadata.ValueFromIncomingContext(ctx, "x-forwarded-for") {
		for address := range strings.SplitSeq(forwarded, ",") {
			ip, err := netip.ParseAddr(strings.TrimSpace(address))
			near = near && err == nil && ip.IsLoopback()
		}
	}
	if near {
		return nil
	}
	return status.Error(codes.PermissionDenied, "catalogues are read again only for callers on the engine's own machine, or who are known to it and may")
}
