package main

import (
	"bytes"
	"context"
	"net"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/test/bufconn"
	"google.golang.org/protobuf/encoding/protojson"

	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// An engine that always gives the same answer, and keeps what it was asked.
type fakeEngine struct {
	pondwrightv1.UnimplementedKitServiceServer
	answer *pondwrightv1.SuggestKitsResponse
	err    error
	asked  *pondwrightv1.SuggestKitsRequest
}

func (f *fakeEngine) SuggestKits(_ context.Context, r *pondwrightv1.SuggestKitsRequest) (*pondwrightv1.SuggestKitsResponse, error) {
	f.asked = r
	return f.answer, f.err
}

// embed serves the fake inside the process.
func (f *fakeEngine) embed(context.Context) (*grpc.ClientConn, func() error, error) {
	listener := bufconn.Listen(1 << 20)
	server := grpc.NewServer()
	pondwrightv1.RegisterKitServiceServer(server, f)
	go func() { _ = server.Serve(listener) }()
	conn, err := grpc.NewClient("passthrough:///engine", grpc.WithTransportCredentials(insecure.NewCredentials()),
		grpc.WithContextDialer(func(ctx context.Context, _ string) (net.Conn, error) { return listener.DialContext(ctx) }))
	return conn, func() error { server.Stop(); return conn.Close() }, err
}

// answering is a fake engine with an answer kept in testdata. Its numbers are invented, and belong to no pond.
func answering(t *testing.T, name string) *fakeEngine {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", name))
	require.NoError(t, err)
	answer := &pondwrightv1.SuggestKitsResponse{}
	require.NoError(t, protojson.Unmarshal(text, answer))
	return &fakeEngine{answer: answer}
}

const demoBrief = `title: Two bays and a cascade (invented)
pond:
  bays:
    - rectangle: {length_m: 6, width_m: 3}
      depth_m: 1.2
fall:
  height_m: 1.15
  sill_width_cm: 50
  sheet: full
delivery:
  hose_length_m: 11
`

// An outcome is all that a run leaves behind.
type outcome struct {
	code     int
	out, err string
}

// start runs the program against a fake engine, with the environment changed as given.
func start(t *testing.T, f *fakeEngine, change func(*env), args ...string) outcome {
	t.Helper()
	var out, errs bytes.Buffer
	e := env{
		In: &bytes.Buffer{}, Out: &out, Err: &errs, Width: 80, Embed: f.embed,
		Demo: fstest.MapFS{"briefs/demo.yaml": {Data: []byte(demoBrief)}}, DemoBrief: "briefs/demo.yaml",
	}
	if change != nil {
		change(&e)
	}
	code := run(t.Context(), args, e)
	return outcome{code, out.String(), errs.String()}
}

// briefFile writes a brief to a folder of the test's own, and gives its path.
func briefFile(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "pond.yaml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}
