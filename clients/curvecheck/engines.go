package main

import (
	"context"
	"fmt"
	"net"

	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/resolver"
	"google.golang.org/grpc/resolver/manual"

	"example.com/pondwright/clients/internal/session"
)

// longestAnswer leaves room for a thousand curves that all have findings, and for the review of a catalogue that an engine holds.
const longestAnswer = 64 << 20

// connect opens the way to the engines: the one inside, one elsewhere, or several among which gRPC's own balancing shares the calls in
// turn, passing over those that cannot be reached.
func connect(ctx context.Context, a arguments, e env) (*grpc.ClientConn, func() error, error) {
	switch len(a.Engine) {
	case 0:
		return session.Open(ctx, "", e.Embed)
	case 1:
		return session.Open(ctx, a.Engine[0], e.Embed)
	}
	var addresses []resolver.Address
	for _, address := range a.Engine {
		if _, _, err := net.SplitHostPort(address); err != nil {
			return nil, nil, fmt.Errorf("%w: not %q", session.ErrAddress, address)
		}
		addresses = append(addresses, resolver.Address{Addr: address})
	}
	listed := manual.NewBuilderWithScheme("listed")
	listed.InitialState(resolver.State{Addresses: addresses})
	conn, err := grpc.NewClient("listed:///engines", grpc.WithResolvers(listed), grpc.WithTransportCredentials(insecure.NewCredentials()),
		grpc.WithDefaultServiceConfig(`{"loadBalancingConfig": [{"round_robin": {}}]}`))
	if err != nil {
		return nil, nil, err
	}
	return conn, conn.Close, nil
}
