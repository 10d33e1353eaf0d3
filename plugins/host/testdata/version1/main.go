// A catalogue plugin as it was built for protocol version 1, kept to prove that such a plugin goes on loading. It is frozen:
// it has the handshake and the names of the calls written out, and its answers as the bytes it sent then, so that nothing
// that grows in the contract can reach it. Do not bring it up to date.
package main

import (
	"context"
	_ "embed"

	"github.com/hashicorp/go-plugin"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/types/known/emptypb"
)

var (
	//go:embed describe.binpb
	description []byte
	//go:embed items.binpb
	items []byte
)

func main() {
	plugin.Serve(&plugin.ServeConfig{
		HandshakeConfig: plugin.HandshakeConfig{
			MagicCookieKey:   "PONDWRIGHT_CATALOGUE_PLUGIN",
			MagicCookieValue: "9f0c5b1e-catalogue",
		},
		VersionedPlugins: map[int]plugin.PluginSet{1: {"catalogue": &catalogue{}}},
		GRPCServer:       func(options []grpc.ServerOption) *grpc.Server { return grpc.NewServer(options...) },
	})
}

// catalogue answers with bytes, which protobuf carries as they are in an empty message's unknown fields.
type catalogue struct{ plugin.NetRPCUnsupportedPlugin }

func (*catalogue) GRPCServer(_ *plugin.GRPCBroker, s *grpc.Server) error {
	s.RegisterService(&grpc.ServiceDesc{
		ServiceName: "pondwright.catalogue.v1.MerchantCatalogueService",
		HandlerType: (*any)(nil),
		Methods: []grpc.MethodDesc{{MethodName: "Describe", Handler: func(_ any, _ context.Context, decode func(any) error, _ grpc.UnaryServerInterceptor) (any, error) {
			return message(description), decode(&emptypb.Empty{})
		}}},
		Streams: []grpc.StreamDesc{{StreamName: "StreamItems", ServerStreams: true, Handler: func(_ any, stream grpc.ServerStream) error {
			if err := stream.RecvMsg(&emptypb.Empty{}); err != nil {
				return err
			}
			return stream.SendMsg(message(items))
		}}},
	}, struct{}{})
	return nil
}

func (*catalogue) GRPCClient(context.Context, *plugin.GRPCBroker, *grpc.ClientConn) (any, error) {
	return nil, nil
}

func message(raw []byte) *emptypb.Empty {
	m := &emptypb.Empty{}
	m.ProtoReflect().SetUnknown(raw)
	return m
}
