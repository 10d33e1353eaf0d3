package rig

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"math/big"
	"net"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// An Authority signs certificates for tests.
type Authority struct {
	t    testing.TB
	cert *x509.Certificate
	key  *ecdsa.PrivateKey
	PEM  []byte
}

// NewAuthority makes one that nobody else trusts.
func NewAuthority(t testing.TB) *Authority {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	require.NoError(t, err)
	template := &x509.Certificate{
		SerialNumber: serial(t), Subject: pkix.Name{CommonName: "authority of a test"}, NotBefore: time.Now().Add(-time.Hour),
		NotAfter: time.Now().Add(time.Hour), IsCA: true, BasicConstraintsValid: true, KeyUsage: x509.KeyUsageCertSign,
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, &key.PublicKey, key)
	require.NoError(t, err)
	cert, err := x509.ParseCertificate(der)
	require.NoError(t, err)
	return &Authority{t: t, cert: cert, key: key, PEM: pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der})}
}

func serial(t testing.TB) *big.Int {
	t.Helper()
	n, err := rand.Int(rand.Reader, big.NewInt(1<<62))
	require.NoError(t, err)
	return n
}

// Sign makes a certificate and its key as PEM, good until then.
func (a *Authority) Sign(name string, until time.Time) (certificate, key []byte) {
	a.t.Helper()
	k, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	require.NoError(a.t, err)
	template := &x509.Certificate{
		SerialNumber: serial(a.t), Subject: pkix.Name{CommonName: name}, NotBefore: until.Add(-2 * time.Hour), NotAfter: until,
		DNSNames: []string{"localhost"}, IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)}, KeyUsage: x509.KeyUsageDigitalSignature,
		ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth, x509.ExtKeyUsageClientAuth},
	}
	der, err := x509.CreateCertificate(rand.Reader, template, a.cert, &k.PublicKey, a.key)
	require.NoError(a.t, err)
	bytes, err := x509.MarshalECPrivateKey(k)
	require.NoError(a.t, err)
	return pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der}), pem.EncodeToMemory(&pem.Block{Type: "EC PRIVATE KEY", Bytes: bytes})
}

// Pair is Sign for a client or server of the test itself.
func (a *Authority) Pair(name string, until time.Time) tls.Certificate {
	a.t.Helper()
	pair, err := tls.X509KeyPair(a.Sign(name, until))
	require.NoError(a.t, err)
	return pair
}

// Trust is what a client has who trusts the authority, and shows these certificates.
func (a *Authority) Trust(show ...tls.Certificate) *tls.Config {
	pool := x509.NewCertPool()
	pool.AddCert(a.cert)
	return &tls.Config{RootCAs: pool, Certificates: show, MinVersion: tls.VersionTLS13}
}

// Write puts a file into a folder in one step, as those who renew certificates do, and returns its path.
func Write(t testing.TB, folder, name string, text []byte) string {
	t.Helper()
	path := filepath.Join(folder, name)
	require.NoError(t, os.WriteFile(path+".new", text, 0o600))
	require.NoError(t, os.Rename(path+".new", path))
	return path
}
