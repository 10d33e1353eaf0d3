package secure

import (
	"net"

	"google.golang.org/grpc/credentials"
	"google.golang.org/grpc/credentials/insecure"
)

// Credentials are those of a gRPC server: TLS for all that comes over a network, and none for what the server's own listener
// for HTTP passes on within the process.
func (k *Keeper) Credentials() credentials.TransportCredentials {
	return mixed{TransportCredentials: credentials.NewTLS(k.Config()), inside: insecure.NewCredentials()}
}

type mixed struct {
	credentials.TransportCredentials
	inside credentials.TransportCredentials
}

// inMemory is the network of google.golang.org/grpc/test/bufconn.
const inMemory = "bufconn"

// ServerHandshake implements credentials.TransportCredentials.
func (m mixed) ServerHandshake(c net.Conn) (net.Conn, credentials.AuthInfo, error) {
	if c.LocalAddr().Network() == inMemory {
		return m.inside.ServerHandshake(c)
	}
	return m.TransportCredentials.ServerHandshake(c)
}

// Clone implements credentials.TransportCredentials.
func (m mixed) Clone() credentials.TransportCredentials {
	return mixed{TransportCredentials: m.TransportCredentials.Clone(), inside: m.inside.Clone()}
}
