// Package secure keeps certificates that are renewed on disk in force without a restart.
package secure

import (
	"context"
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"log/slog"
	"os"
	"sync"
	"sync/atomic"
	"time"

	"example.com/pondwright/server/internal/config"
)

// mostBytes is far above any chain of certificates or list of authorities.
const mostBytes = 4 << 20

// A Keeper holds the certificates in force. Its methods may be called at the same time.
type Keeper struct {
	files   config.TLS
	log     *slog.Logger
	mu      sync.Mutex // one reading at a time
	read    [sha256.Size]byte
	current atomic.Pointer[tls.Config]
}

// NewKeeper reads the certificates. It fails where they cannot be served with.
func NewKeeper(files config.TLS, log *slog.Logger) (*Keeper, error) {
	k := &Keeper{files: files, log: log}
	return k, k.Refresh()
}

// Refresh reads the files again and puts them in force if what is in them has changed: times of change are too coarse to go
// by. What cannot be read or does not fit together leaves what was in force.
func (k *Keeper) Refresh() error {
	k.mu.Lock()
	defer k.mu.Unlock()
	certificate, err := readAll(k.files.Certificate)
	if err != nil {
		return err
	}
	key, err := readAll(k.files.Key)
	if err != nil {
		return err
	}
	authorities, err := readAll(k.files.ClientCA)
	if err != nil {
		return err
	}
	sum := digest(certificate, key, authorities)
	if sum == k.read {
		return nil
	}
	made, err := build(certificate, key, authorities)
	if err != nil {
		return err
	}
	k.read = sum
	if k.current.Swap(made) != nil {
		k.log.Info("certificate renewed", "expires", made.Certificates[0].Leaf.NotAfter)
	}
	return nil
}

// Follow refreshes every so often until ctx ends, and logs what goes wrong once, until it is another fault.
func (k *Keeper) Follow(ctx context.Context, every time.Duration) {
	tick := time.NewTicker(every)
	defer tick.Stop()
	last := ""
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		said := ""
		if err := k.Refresh(); err != nil {
			said = err.Error()
		}
		if said != "" && said != last {
			k.log.Error("certificate not renewed; the one before stays in force", "error", said)
		}
		last = said
	}
}

// Expires is when the certificate in force ends.
func (k *Keeper) Expires() time.Time { return k.current.Load().Certificates[0].Leaf.NotAfter }

// Config is for listeners: each handshake sees what is in force then.
func (k *Keeper) Config() *tls.Config {
	return &tls.Config{
		MinVersion: tls.VersionTLS13, NextProtos: protocols,
		GetConfigForClient: func(*tls.ClientHelloInfo) (*tls.Config, error) { return k.current.Load(), nil },
	}
}

var protocols = []string{"h2", "http/1.1"}

func build(certificate, key, authorities []byte) (*tls.Config, error) {
	pair, err := tls.X509KeyPair(certificate, key)
	if err != nil {
		return nil, fmt.Errorf("certificate: %w", err)
	}
	c := &tls.Config{MinVersion: tls.VersionTLS13, NextProtos: protocols, Certificates: []tls.Certificate{pair}}
	if len(authorities) > 0 {
		c.ClientAuth, c.ClientCAs = tls.RequireAndVerifyClientCert, x509.NewCertPool()
		// A session taken up again would not be held to the authorities in force.
		c.SessionTicketsDisabled = true
		if !c.ClientCAs.AppendCertsFromPEM(authorities) {
			return nil, errors.New("client authorities: no certificate is in the file")
		}
	}
	return c, nil
}

func readAll(path config.Path) ([]byte, error) {
	if path == "" {
		return nil, nil
	}
	info, err := os.Stat(string(path))
	switch {
	case err != nil:
		return nil, fmt.Errorf("certificate: %w", err)
	case info.Size() > mostBytes:
		return nil, fmt.Errorf("certificate: %q is larger than %d bytes", string(path), mostBytes)
	}
	return os.ReadFile(string(path))
}

func digest(parts ...[]byte) [sha256.Size]byte {
	h := sha256.New()
	for _, p := range parts {
		sum := sha256.Sum256(p)
		h.Write(sum[:])
	}
	return [sha256.Size]byte(h.Sum(nil))
}
