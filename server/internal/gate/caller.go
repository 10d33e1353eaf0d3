package gate

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"crypto/x509"
	"encoding/hex"
	"net"
	"net/netip"
	"slices"
	"strings"
	"sync/atomic"
	"time"

	"golang.org/x/time/rate"
	"google.golang.org/grpc/credentials"
	"google.golang.org/grpc/metadata"
	"google.golang.org/grpc/peer"

	"example.com/pondwright/server/internal/config"
)

// A Caller is somebody who calls, by the name that logs and limits know him by.
type Caller struct {
	Name   string
	roles  []string
	pace   *rate.Limiter // nil is without limit
	most   int64
	inHand atomic.Int64
}

func (c *Caller) may(role string) bool { return slices.Contains(c.roles, role) }

// wait is how long the caller has to wait, and 0 where he may go on. Only who may go on uses up of his rate.
func (c *Caller) wait() time.Duration {
	if c.pace == nil {
		return 0
	}
	r := c.pace.Reserve()
	wait := r.Delay()
	if wait > 0 {
		r.Cancel()
	}
	return wait
}

func newCaller(name string, roles []string, c config.Client, l config.Limits) *Caller {
	made := &Caller{Name: name, roles: roles, most: int64(l.CallsPerClient)}
	if c.Calls > 0 {
		made.most = int64(c.Calls)
	}
	pace, burst := l.RatePerClient, l.BurstPerClient
	if c.Rate > 0 {
		pace = c.Rate
	}
	if c.Burst > 0 {
		burst = c.Burst
	}
	if pace > 0 {
		made.pace = rate.NewLimiter(rate.Limit(pace), burst)
	}
	return made
}

// A register is the list of clients in force. It is never written to after it was made.
type register struct{ entries []entry }

type entry struct {
	caller      *Caller
	token       []byte // SHA-256; nil where no token is asked for
	certificate string
	is          config.Client
}

func newRegister(clients []config.Client, l config.Limits, before *register) *register {
	r := &register{}
	for _, c := range clients {
		token, err := hex.DecodeString(string(c.TokenSHA256))
		if err != nil {
			continue // was checked; a client with no way to be known is none
		}
		e := entry{caller: newCaller(c.Name, c.Roles, c, l), token: token, certificate: c.Certificate, is: c}
		if old := before.named(c.Name); old != nil && slices.Equal(old.is.Roles, c.Roles) && old.is.Rate == c.Rate &&
			old.is.Burst == c.Burst && old.is.Calls == c.Calls {
			e.caller = old.caller
		}
		r.entries = append(r.entries, e)
	}
	return r
}

func (r *register) named(name string) *entry {
	if r == nil {
		return nil
	}
	for i := range r.entries {
		if r.entries[i].caller.Name == name {
			return &r.entries[i]
		}
	}
	return nil
}

// find looks through the whole list, in a time that says nothing of what is on it.
func (r *register) find(token, certificate string) *Caller {
	sum := sha256.Sum256([]byte(token))
	var found *Caller
	for _, e := range r.entries {
		tokenFits := len(e.token) == 0 || token != "" && subtle.ConstantTimeCompare(sum[:], e.token) == 1
		nameFits := e.certificate == "" || e.certificate == certificate
		if tokenFits && nameFits && (len(e.token) > 0 || e.certificate != "") && found == nil {
			found = e.caller
		}
	}
	return found
}

// identify says who calls.
func (g *Gate) identify(ctx context.Context, header metadata.MD) (*Caller, refusal) {
	from := g.origin(ctx, header)
	token := bearer(header)
	if g.strict {
		caller := g.known.Load().find(token, from.certificate)
		if caller == nil {
			return nil, stranger(token != "" || from.certificate != "")
		}
		return caller, refusal{}
	}
	if g.certified && from.certificate == "" {
		return nil, stranger(false)
	}
	roles := []string{config.Calculate}
	if from.local {
		roles = []string{config.Calculate, config.Reload, config.Operate}
	}
	name := from.address
	if from.certificate != "" {
		name = from.certificate
	}
	return g.strangers.caller(name, func() *Caller { return newCaller(name, roles, config.Client{}, g.limits) }), refusal{}
}

// bearer is the token of the call; empty where there is none, or more than one.
func bearer(header metadata.MD) string {
	said := header.Get("authorization")
	if len(said) != 1 || len(said[0]) > 4096 {
		return ""
	}
	scheme, token, _ := strings.Cut(said[0], " ")
	if !strings.EqualFold(scheme, "bearer") {
		return ""
	}
	return strings.TrimSpace(token)
}

// origin is where a call comes from.
type origin struct {
	address     string // without the port
	local       bool   // from this machine
	certificate string // common name; empty where no certificate was shown and verified
}

// What the server's own listener for HTTP says of the calls it passes on, with the secret that only it knows.
const (
	headerSecret      = "pondwright-forwarded-secret"
	headerAddress     = "pondwright-forwarded-address"
	headerCertificate = "pondwright-forwarded-certificate-bin"
)

func (g *Gate) origin(ctx context.Context, header metadata.MD) origin {
	if secret := header.Get(headerSecret); len(secret) == 1 && subtle.ConstantTimeCompare([]byte(secret[0]), []byte(g.secret)) == 1 {
		o := at(first(header.Get(headerAddress)))
		o.certificate = first(header.Get(headerCertificate))
		return o
	}
	p, ok := peer.FromContext(ctx)
	if !ok || p.Addr == nil {
		return origin{address: "unknown"}
	}
	o := at(p.Addr.String())
	if info, ok := p.AuthInfo.(credentials.TLSInfo); ok {
		o.certificate = commonName(info.State.VerifiedChains)
	}
	return o
}

func at(address string) origin {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		host = address
	}
	ip, err := netip.ParseAddr(host)
	return origin{address: host, local: err == nil && ip.IsLoopback()}
}

func first(of []string) string {
	if len(of) == 0 {
		return ""
	}
	return of[0]
}

func commonName(chains [][]*x509.Certificate) string {
	if len(chains) == 0 || len(chains[0]) == 0 {
		return ""
	}
	return chains[0][0].Subject.CommonName
}

func newSecret() string { return rand.Text() }

// Forward marks a call that the server passes on for somebody else with where it comes from. Everything the caller has sent
// under the same names is dropped.
func (g *Gate) Forward(ctx context.Context, address string, verified [][]*x509.Certificate) context.Context {
	out, _ := metadata.FromOutgoingContext(ctx)
	out = out.Copy()
	if out == nil {
		out = metadata.MD{}
	}
	out.Set(headerSecret, g.secret)
	out.Set(headerAddress, address)
	out.Set(headerCertificate, commonName(verified))
	return metadata.NewOutgoingContext(ctx, out)
}
