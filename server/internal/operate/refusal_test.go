package operate_test

import (
	"bytes"
	"context"
	"crypto/tls"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/status"

	"example.com/pondwright/plugins/builtin"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/config"
	"example.com/pondwright/server/internal/operate/rig"
)

// The catalogue plugin is this test binary again.
func TestMain(m *testing.M) {
	if builtin.RunIfAsked(os.Args) {
		return
	}
	os.Exit(m.Run())
}

// ask makes a small call.
func ask(ctx context.Context, conn *grpc.ClientConn) error {
	ctx, cancel := context.WithTimeout(ctx, 20*time.Second)
	defer cancel()
	_, err := pb.NewHydraulicsServiceClient(conn).ListPipeSizes(ctx, &pb.ListPipeSizesRequest{})
	return err
}

// reason is that of the ErrorInfo of a status.
func reason(t *testing.T, err error) string {
	t.Helper()
	for _, d := range status.Convert(err).Details() {
		if info, ok := d.(*errdetails.ErrorInfo); ok {
			return info.GetReason()
		}
	}
	return ""
}

func retry(err error) time.Duration {
	for _, d := range status.Convert(err).Details() {
		if info, ok := d.(*errdetails.RetryInfo); ok {
			return info.GetRetryDelay().AsDuration()
		}
	}
	return 0
}

// served is a folder with the server's certificate, and the settings that name it.
func served(t *testing.T, a *rig.Authority) (string, func(*config.Settings)) {
	t.Helper()
	folder := t.TempDir()
	certificate, key := a.Sign("server", time.Now().Add(time.Hour))
	rig.Write(t, folder, "tls.crt", certificate)
	rig.Write(t, folder, "tls.key", key)
	return folder, func(s *config.Settings) {
		s.TLS.Certificate, s.TLS.Key = config.Path(folder+"/tls.crt"), config.Path(folder+"/tls.key")
		s.TLS.Reread = 20 * time.Millisecond
	}
}

func TestCertificatesOfClients(t *testing.T) {
	ours, theirs := rig.NewAuthority(t), rig.NewAuthority(t)
	folder, settings := served(t, ours)
	r := rig.Start(t, nil, func(s *config.Settings) {
		settings(s)
		s.TLS.ClientCA = config.Path(rig.Write(t, folder, "clients.crt", ours.PEM))
	})
	soon, past := time.Now().Add(time.Hour), time.Now().Add(-time.Minute)
	assert.NoError(t, ask(t.Context(), r.Dial(t, ours.Trust(ours.Pair("till", soon)))))
	for name, show := range map[string]*tls.Config{
		"none": ours.Trust(), "of another authority": ours.Trust(theirs.Pair("till", soon)), "expired": ours.Trust(ours.Pair("till", past)),
	} {
		assert.Equal(t, codes.Unavailable, status.Code(ask(t.Context(), r.Dial(t, show))), name)
	}
	assert.Equal(t, codes.Unavailable, status.Code(ask(t.Context(), r.Dial(t, nil))), "in the clear")
	assert.Equal(t, codes.Unavailable, status.Code(ask(t.Context(), r.Dial(t, theirs.Trust()))), "the client trusts another")
	_, err := tls.Dial("tcp", r.Address, &tls.Config{RootCAs: ours.Trust().RootCAs, MaxVersion: tls.VersionTLS12})
	assert.Error(t, err, "TLS 1.2")
}

// Certificates are renewed while the server runs: what is in the files counts, and a broken renewal changes nothing.
func TestCertificatesAreRenewedWithoutARestart(t *testing.T) {
	first, second := rig.NewAuthority(t), rig.NewAuthority(t)
	folder, settings := served(t, first)
	r := rig.Start(t, nil, settings)
	require.NoError(t, ask(t.Context(), r.Dial(t, first.Trust())))

	rig.Write(t, folder, "tls.crt", []byte("broken"))
	assert.Error(t, r.Refresh())
	assert.NoError(t, ask(t.Context(), r.Dial(t, first.Trust())))

	// Whoever comes between the two writes sees a pair that does not fit, and the old one stays in force.
	certificate, key := second.Sign("server", time.Now().Add(time.Hour))
	rig.Write(t, folder, "tls.crt", certificate)
	rig.Write(t, folder, "tls.key", key)
	assert.Eventually(t, func() bool { return ask(t.Context(), r.Dial(t, second.Trust())) == nil }, 20*time.Second, 20*time.Millisecond)
	assert.Error(t, ask(t.Context(), r.Dial(t, first.Trust())))
}

// Tokens and roles, and what everyone may ask.
func TestTokensAndRoles(t *testing.T) {
	r := rig.Start(t, nil, func(s *config.Settings) {
		s.Clients = []config.Client{
			{Name: "till", TokenSHA256: rig.Digest("one"), Roles: []string{config.Calculate}},
			{Name: "back office", TokenSHA256: rig.Digest("two"), Roles: []string{config.Operate}},
		}
	})
	conn := r.Dial(t, nil)
	_, err := healthpb.NewHealthClient(conn).Check(t.Context(), &healthpb.HealthCheckRequest{})
	assert.NoError(t, err, "a probe has no name")
	assert.NoError(t, ask(rig.As(t.Context(), "one"), conn))
	for _, ctx := range []context.Context{
		t.Context(), rig.As(t.Context(), "three"), rig.As(t.Context(), ""), rig.As(rig.As(t.Context(), "one"), "one"),
		rig.As(t.Context(), string(rig.Digest("one"))),
	} {
		err := ask(ctx, conn)
		assert.Equal(t, codes.Unauthenticated, status.Code(err))
		assert.Equal(t, "NOT_KNOWN", reason(t, err))
	}
	err = ask(rig.As(t.Context(), "two"), conn)
	assert.Equal(t, codes.PermissionDenied, status.Code(err))
	assert.Equal(t, "NOT_ALLOWED", reason(t, err))
	assert.Contains(t, err.Error(), `"back office" may not call "/pondwright.v1.HydraulicsService/ListPipeSizes", which needs the role calculate`)
	err = conn.Invoke(rig.As(t.Context(), "one"), "/pondwright.v1.NoService/NoMethod", &pb.ListPipeSizesRequest{}, &pb.ListPipeSizesResponse{})
	assert.Equal(t, codes.PermissionDenied, status.Code(err), "what has no rule nobody may call")
}

// A client needs both where both are asked for, and neither can be said of oneself in a header.
func TestTokenAndCertificateTogether(t *testing.T) {
	ours := rig.NewAuthority(t)
	folder, settings := served(t, ours)
	r := rig.Start(t, nil, func(s *config.Settings) {
		settings(s)
		s.TLS.ClientCA = config.Path(rig.Write(t, folder, "clients.crt", ours.PEM))
		s.Clients = []config.Client{{Name: "till", TokenSHA256: rig.Digest("one"), Certificate: "till-7", Roles: []string{config.Calculate}}}
	})
	soon := time.Now().Add(time.Hour)
	till, other := r.Dial(t, ours.Trust(ours.Pair("till-7", soon))), r.Dial(t, ours.Trust(ours.Pair("till-8", soon)))
	assert.NoError(t, ask(rig.As(t.Context(), "one"), till))
	assert.Equal(t, codes.Unauthenticated, status.Code(ask(t.Context(), till)))
	assert.Equal(t, codes.Unauthenticated, status.Code(ask(rig.As(t.Context(), "one"), other)))
}

func TestClientsFileIsReadAgain(t *testing.T) {
	folder := t.TempDir()
	list := func(token string) []byte {
		return []byte("clients: [{name: till, token_sha256: " + tokenDigest(token) + ", roles: [calculate]}]")
	}
	r := rig.Start(t, nil, func(s *config.Settings) {
		s.ClientsFile = config.Path(rig.Write(t, folder, "clients.yaml", list("one")))
		s.TLS.Reread = 20 * time.Millisecond
	})
	conn := r.Dial(t, nil)
	require.NoError(t, ask(rig.As(t.Context(), "one"), conn))
	rig.Write(t, folder, "clients.yaml", []byte("clients: [{name: till}]"))
	assert.Error(t, r.Refresh())
	require.NoError(t, ask(rig.As(t.Context(), "one"), conn), "a list with a fault changes nothing")
	rig.Write(t, folder, "clients.yaml", list("two"))
	assert.Eventually(t, func() bool { return ask(rig.As(t.Context(), "two"), conn) == nil }, 20*time.Second, 20*time.Millisecond)
	assert.Equal(t, codes.Unauthenticated, status.Code(ask(rig.As(t.Context(), "one"), conn)))
}

func tokenDigest(token string) string { return string(rig.Digest(token)) }

func TestTooLargeTooDeepTooLong(t *testing.T) {
	r := rig.Start(t, nil, func(s *config.Settings) {
		s.Limits.RequestBytes, s.Limits.Depth, s.Limits.ListLength = 64<<10, 16, 50
	})
	conn := r.Dial(t, nil)
	client := pb.NewCircuitServiceClient(conn)

	_, err := pb.NewCatalogueServiceClient(conn).ListItems(t.Context(), &pb.ListItemsRequest{PageToken: strings.Repeat("x", 70<<10)})
	assert.Equal(t, codes.ResourceExhausted, status.Code(err))
	assert.Contains(t, err.Error(), "larger than max")

	deep := &pb.CircuitBranch{Name: "end"}
	for range 20 {
		deep = &pb.CircuitBranch{Name: "b", End: &pb.CircuitBranch_Fork{Fork: &pb.BranchFork{Branches: []*pb.CircuitBranch{deep}}}}
	}
	_, err = client.SolveCircuit(t.Context(), &pb.SolveCircuitRequest{Circuit: &pb.Circuit{Delivery: deep}})
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
	assert.Contains(t, err.Error(), "circuit.delivery.fork.branches[0].fork.branches[0]")
	assert.Contains(t, err.Error(), "lies too deep")

	parts := make([]*pb.CircuitPart, 51)
	for i := range parts {
		parts[i] = &pb.CircuitPart{Name: "p"}
	}
	_, err = client.SolveCircuit(t.Context(), &pb.SolveCircuitRequest{Circuit: &pb.Circuit{Pump: parts}})
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
	assert.Contains(t, err.Error(), "circuit.pump: has 51 entries, and no list may have more than 50 here")
}

func TestTooOften(t *testing.T) {
	r := rig.Start(t, nil, func(s *config.Settings) {
		s.Limits.RatePerClient, s.Limits.BurstPerClient = 0.01, 3
		s.Clients = []config.Client{
			{Name: "a", TokenSHA256: rig.Digest("a"), Roles: []string{config.Calculate}},
			{Name: "b", TokenSHA256: rig.Digest("b"), Roles: []string{config.Calculate}, Burst: 1},
		}
	})
	conn := r.Dial(t, nil)
	for range 3 {
		require.NoError(t, ask(rig.As(t.Context(), "a"), conn))
	}
	err := ask(rig.As(t.Context(), "a"), conn)
	assert.Equal(t, codes.ResourceExhausted, status.Code(err))
	assert.Equal(t, "RATE_LIMIT", reason(t, err))
	assert.InDelta(t, 100, retry(err).Seconds(), 20, "one call in 100 s")
	assert.NoError(t, ask(rig.As(t.Context(), "b"), conn), "what one has used up is nobody else's")
	assert.Error(t, ask(rig.As(t.Context(), "b"), conn), "with a burst of its own")
}

func TestTooSlow(t *testing.T) {
	r := rig.Start(t, nil, func(s *config.Settings) { s.Limits.Time = time.Millisecond })
	_, err := pb.NewKitServiceClient(r.Dial(t, nil)).SuggestKits(t.Context(), &pb.SuggestKitsRequest{Brief: brief()})
	assert.Equal(t, codes.DeadlineExceeded, status.Code(err))
	assert.Equal(t, "TIME_LIMIT", reason(t, err))
	assert.Contains(t, err.Error(), "longer than the 1ms")
}

// JSON over HTTP passes the same: what a caller says of itself in headers is not believed.
func TestJSONIsHeldToTheSameRules(t *testing.T) {
	r := rig.Start(t, nil, func(s *config.Settings) {
		s.Limits.RatePerClient, s.Limits.BurstPerClient = 0.01, 1
		s.Clients = []config.Client{{Name: "a", TokenSHA256: rig.Digest("a"), Roles: []string{config.Calculate}}}
	})
	server, closing, err := r.JSON(t.Context())
	require.NoError(t, err)
	outside := httptest.NewServer(server.Handler)
	t.Cleanup(func() { outside.Close(); require.NoError(t, closing()) })
	post := func(headers ...string) int {
		req, err := http.NewRequestWithContext(t.Context(), http.MethodPost, outside.URL+"/pondwright.v1.HydraulicsService/ListPipeSizes", strings.NewReader("{}"))
		require.NoError(t, err)
		req.Header.Set("Content-Type", "application/json")
		for i := 0; i < len(headers); i += 2 {
			req.Header.Set(headers[i], headers[i+1])
		}
		resp, err := http.DefaultClient.Do(req)
		require.NoError(t, err)
		require.NoError(t, resp.Body.Close())
		return resp.StatusCode
	}
	assert.Equal(t, http.StatusUnauthorized, post())
	assert.Equal(t, http.StatusUnauthorized, post("Grpc-Metadata-Pondwright-Forwarded-Certificate-Bin", "YQ=="))
	assert.Equal(t, http.StatusOK, post("Authorization", "Bearer a"))
	assert.Equal(t, http.StatusTooManyRequests, post("Authorization", "Bearer a"))
}

// Nothing that a caller writes begins a line of the log, or reaches the terminal of who reads it.
func TestWhatCallersWriteIsEscapedInTheLog(t *testing.T) {
	var log bytes.Buffer
	r := rig.Start(t, slog.New(slog.NewTextHandler(&lines{to: &log}, nil)), func(s *config.Settings) { s.Log.Calls = "all" })
	nasty := "x\n level=ERROR msg=forged \x1b[31m\u202e"
	conn := r.Dial(t, nil)
	_, err := pb.NewCatalogueServiceClient(conn).ListItems(t.Context(), &pb.ListItemsRequest{Catalogue: nasty, PageToken: nasty})
	require.Error(t, err)
	err = conn.Invoke(t.Context(), "/pondwright.v1.No/\x1b[31m", &pb.ListPipeSizesRequest{}, &pb.ListPipeSizesResponse{})
	require.Error(t, err)
	_, err = pb.NewVolumeServiceClient(conn).CalculateVolume(t.Context(), &pb.CalculateVolumeRequest{Pond: &pb.Pond{Bays: []*pb.Bay{{Name: nasty}}}})
	require.Error(t, err)
	require.NoError(t, ask(t.Context(), conn))
	for line := range strings.SplitSeq(strings.TrimSuffix(log.String(), "\n"), "\n") {
		assert.True(t, strings.HasPrefix(line, "time="), line)
	}
	assert.NotContains(t, log.String(), "\x1b")
	assert.NotContains(t, log.String(), "\u202e")
	assert.Contains(t, log.String(), "request_digest=")
}
