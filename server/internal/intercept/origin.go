package intercept

import (
	"context"
	"strings"

	"google.golang.org/grpc"
	"google.golang.org/grpc/metadata"
	"google.golang.org/protobuf/proto"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// Headers of the answers, and of the refusals, that do not carry a Provenance of their own.
const (
	HeaderVersion    = "pondwright-engine-version"
	HeaderMethodSet  = "pondwright-method-set"
	HeaderCatalogues = "pondwright-catalogues" // NAME=REVISION, separated by commas
	HeaderDigest     = "pondwright-request-digest"
)

// Origin tells in headers what an answer rests on, where the answer itself does not say so. now gives it but for the digest.
func Origin(now func() *pb.Provenance) grpc.UnaryServerInterceptor {
	return func(ctx context.Context, req any, _ *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
		resp, err := next(ctx, req)
		if said, ok := resp.(interface{ GetProvenance() *pb.Provenance }); ok && err == nil && said.GetProvenance() != nil {
			return resp, nil
		}
		message, ok := req.(proto.Message)
		if !ok {
			return resp, err
		}
		digest, failed := Digest(message)
		if failed != nil {
			return resp, err
		}
		p := now()
		// It fails only where there is no stream to put it on, or the caller has gone.
		_ = grpc.SetHeader(ctx, metadata.Pairs(HeaderVersion, p.GetEngineVersion(), HeaderMethodSet, p.GetMethodSet(),
			HeaderCatalogues, revisions(p), HeaderDigest, digest))
		return resp, err
	}
}

func revisions(p *pb.Provenance) string {
	var all []string
	for _, c := range p.GetCatalogues() {
		all = append(all, c.GetCatalogue()+"="+c.GetRevision())
	}
	return printable(strings.Join(all, ","))
}

// printable keeps what may stand in a header.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r > '~' {
			return '?'
		}
		return r
	}, text)
}
