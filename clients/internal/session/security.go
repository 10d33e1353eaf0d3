package session

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"os"

	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials"
	"google.golang.org/grpc/credentials/insecure"
)

// Security is how a client makes sure of an engine elsewhere, and says who it is. A client embeds it among its flags; the token
// is in the environment alone, where other users of the machine do not see it.
type Security struct {
	CA          string `name:"engine-ca" env:"PONDWRIGHT_ENGINE_CA" placeholder:"FILE" help:"Take the engine for real if this PEM file of authorities does; the connection is then by TLS. The word system stands for the machine's own."`
	Certificate string `name:"engine-certificate" env:"PONDWRIGHT_ENGINE_CERTIFICATE" placeholder:"FILE" help:"PEM file of the certificate that says who this program is."`
	Key         string `name:"engine-key" env:"PONDWRIGHT_ENGINE_KEY" placeholder:"FILE" help:"PEM file of its private key."`
	Token       string `kong:"-"`
}

// TokenVariable is where the token is looked for in the environment.
const TokenVariable = "PONDWRIGHT_TOKEN"

// FromEnvironment is the security of a client without flags for it.
func FromEnvironment() Security {
	return Security{
		CA: os.Getenv("PONDWRIGHT_ENGINE_CA"), Certificate: os.Getenv("PONDWRIGHT_ENGINE_CERTIFICATE"), Key: os.Getenv("PONDWRIGHT_ENGINE_KEY"),
		Token: os.Getenv(TokenVariable),
	}
}

// options are those of the connection.
func (s Security) options() ([]grpc.DialOption, error) {
	if s.CA == "" && (s.Certificate != "" || s.Key != "") {
		return nil, errors.New("a certificate is for TLS: say by --engine-ca or PONDWRIGHT_ENGINE_CA who vouches for the engine, or system")
	}
	with := insecure.NewCredentials()
	if s.CA != "" {
		c, err := s.tls()
		if err != nil {
			return nil, err
		}
		with = credentials.NewTLS(c)
	}
	made := []grpc.DialOption{grpc.WithTransportCredentials(with)}
	if s.Token != "" {
		made = append(made, grpc.WithPerRPCCredentials(bearer{token: s.Token, inTheClear: s.CA == ""}))
	}
	return made, nil
}

func (s Security) tls() (*tls.Config, error) {
	c := &tls.Config{MinVersion: tls.VersionTLS13}
	if s.CA != "system" {
		text, err := os.ReadFile(s.CA)
		if err != nil {
			return nil, fmt.Errorf("authorities of the engine: %w", err)
		}
		c.RootCAs = x509.NewCertPool()
		if !c.RootCAs.AppendCertsFromPEM(text) {
			return nil, fmt.Errorf("authorities of the engine: no certificate is in %s", s.CA)
		}
	}
	if s.Certificate != "" || s.Key != "" {
		pair, err := tls.LoadX509KeyPair(s.Certificate, s.Key)
		if err != nil {
			return nil, fmt.Errorf("certificate of this program: %w", err)
		}
		c.Certificates = []tls.Certificate{pair}
	}
	return c, nil
}

// bearer sends a token with each call.
type bearer struct {
	token      string
	inTheClear bool
}

// GetRequestMetadata implements credentials.PerRPCCredentials.
func (b bearer) GetRequestMetadata(context.Context, ...string) (map[string]string, error) {
	return map[string]string{"authorization": "Bearer " + b.token}, nil
}

// RequireTransportSecurity implements credentials.PerRPCCredentials.
func (b bearer) RequireTransportSecurity() bool { return !b.inTheClear }
