package main

import (
	"bufio"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"

	"example.com/pondwright/plugins/builtin"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// asServer in the environment makes this test binary the server itself.
const asServer = "PONDWRIGHT_TEST_AS_SERVER"

func TestMain(m *testing.M) {
	if os.Getenv(asServer) != "" || len(os.Args) > 1 && os.Args[1] == builtin.Argument {
		main()
		return
	}
	os.Exit(m.Run())
}

var addressInLog = regexp.MustCompile(`msg=serving address=(\S+)`)

// launch starts the server as a process of its own on a free port.
func launch(t *testing.T, args ...string) (*exec.Cmd, *grpc.ClientConn) {
	t.Helper()
	cmd := exec.Command(os.Args[0], append([]string{"--listen", "127.0.0.1:0"}, args...)...)
	// A folder of the test's own name would be too long for the path of a socket.
	temp, err := os.MkdirTemp("", "pond")
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, os.RemoveAll(temp)) })
	cmd.Env = append(os.Environ(), asServer+"=1", "TMPDIR="+temp)
	log, err := cmd.StderrPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	t.Cleanup(func() { _ = cmd.Process.Kill() })
	address := make(chan string, 1)
	go func() {
		lines := bufio.NewScanner(log)
		for lines.Scan() {
			if found := addressInLog.FindStringSubmatch(lines.Text()); found != nil {
				address <- found[1]
			}
		}
	}()
	select {
	case a := <-address:
		conn, err := grpc.NewClient(a, grpc.WithTransportCredentials(insecure.NewCredentials()))
		require.NoError(t, err)
		t.Cleanup(func() { require.NoError(t, conn.Close()) })
		return cmd, conn
	case <-time.After(20 * time.Second):
		t.Fatal("the server never said that it serves")
		return nil, nil
	}
}

func TestServerStopsCleanlyOnSIGTERM(t *testing.T) {
	cmd, conn := launch(t)
	health, err := healthpb.NewHealthClient(conn).Check(t.Context(), &healthpb.HealthCheckRequest{})
	require.NoError(t, err)
	assert.Equal(t, healthpb.HealthCheckResponse_SERVING, health.GetStatus())

	// Some calls are done and others are under way when the signal comes: those are answered.
	const calls = 6
	answered := make(chan error, calls)
	for range calls {
		go func() {
			_, err := pb.NewKitServiceClient(conn).SuggestKits(context.Background(), &pb.SuggestKitsRequest{Brief: brief()})
			answered <- err
		}()
	}
	require.NoError(t, <-answered)
	require.NoError(t, cmd.Process.Signal(syscall.SIGTERM))
	for range calls - 1 {
		assert.NoError(t, <-answered)
	}
	require.NoError(t, cmd.Wait(), "exit code 0")
	left, err := os.ReadDir(envOf(cmd, "TMPDIR"))
	require.NoError(t, err)
	assert.Empty(t, left, "nothing is left in the folder for temporary files")
}

func TestServerReadsAFolderAndReloadsItOnSIGHUP(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.CopyFS(folder, os.DirFS(filepath.Join("..", "testdata", "catalogues", "demo"))))
	cmd, conn := launch(t, "--catalogue", "shop="+folder)
	client := pb.NewCatalogueServiceClient(conn)
	before, err := client.ListCatalogues(t.Context(), &pb.ListCataloguesRequest{})
	require.NoError(t, err)
	require.Len(t, before.GetCatalogues(), 1)
	assert.Equal(t, "shop", before.GetCatalogues()[0].GetCatalogue())

	require.NoError(t, os.Remove(filepath.Join(folder, "liners.csv")))
	require.NoError(t, cmd.Process.Signal(syscall.SIGHUP))
	assert.Eventually(t, func() bool {
		after, err := client.ListCatalogues(t.Context(), &pb.ListCataloguesRequest{})
		return err == nil && after.GetCatalogues()[0].GetRevision() != before.GetCatalogues()[0].GetRevision() &&
			after.GetCatalogues()[0].GetItemCount() < before.GetCatalogues()[0].GetItemCount()
	}, 10*time.Second, 20*time.Millisecond)
	require.NoError(t, cmd.Process.Signal(syscall.SIGTERM))
	require.NoError(t, cmd.Wait())
}

func envOf(cmd *exec.Cmd, name string) string {
	value := ""
	for _, pair := range cmd.Env {
		if len(pair) > len(name) && pair[:len(name)+1] == name+"=" {
			value = pair[len(name)+1:]
		}
	}
	return value
}

// brief is a small invented pond with goldfish, for which there are many sets to try.
func brief() *pb.Brief {
	height := 0.5
	return &pb.Brief{
		Stock: &pb.Stock{Groups: []*pb.FishGroup{{Species: pb.Species_SPECIES_GOLDFISH, Count: 5, LengthCm: 10}}},
		Pond: &pb.Pond{Bays: []*pb.Bay{{
			Outline: &pb.Bay_Rectangle{Rectangle: &pb.Rectangle{LengthM: 2, WidthM: 1.5}}, DepthM: 0.6,
		}}},
		Fall:     &pb.Fall{HeightM: &height, SillWidthCm: 20, Wanted: &pb.Fall_Sheet{Sheet: pb.Sheet_SHEET_THIN}},
		Delivery: &pb.Delivery{HoseLengthM: 4},
	}
}
