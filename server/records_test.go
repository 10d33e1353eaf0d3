package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// A server keeps its log over two lives; the log is verified, replayed without a difference, and a change to it or to the
// catalogue is told.
func TestAuditLogIsKeptVerifiedAndReplayed(t *testing.T) {
	folder, catalogue := t.TempDir(), t.TempDir()
	require.NoError(t, os.CopyFS(catalogue, os.DirFS(filepath.Join("..", "testdata", "catalogues", "demo"))))
	for range 2 {
		cmd, conn := launch(t, "--audit-folder", folder, "--catalogue", "shop="+catalogue)
		_, err := pb.NewKitServiceClient(conn).SuggestKits(t.Context(), &pb.SuggestKitsRequest{Brief: brief()})
		require.NoError(t, err)
		_, err = pb.NewHydraulicsServiceClient(conn).ListPipeSizes(t.Context(), &pb.ListPipeSizesRequest{})
		require.NoError(t, err)
		_, err = pb.NewVolumeServiceClient(conn).CalculateVolume(t.Context(), &pb.CalculateVolumeRequest{})
		require.Error(t, err)
		_, err = pb.NewCatalogueServiceClient(conn).ListCatalogues(t.Context(), &pb.ListCataloguesRequest{})
		require.NoError(t, err)
		require.NoError(t, cmd.Process.Signal(syscall.SIGTERM))
		require.NoError(t, cmd.Wait())
	}
	code, out, errs := asked(t, "audit", "verify", folder)
	require.Zero(t, code, errs)
	assert.Contains(t, out, "8 entries in 1 files, from number 1 on")
	code, _, errs = asked(t, "audit", "verify", folder, "--ends=00")
	assert.Equal(t, exitFailed, code)
	assert.Contains(t, errs, "cut off its end")

	file := filepath.Join(folder, "audit-00000000000000000001.jsonl")
	code, out, errs = asked(t, "--log-level=error", "--catalogue", "shop="+catalogue, "replay", file)
	require.Zero(t, code, errs+out)
	assert.Equal(t, "6 questions asked again, 0 with another answer; 2 not asked\n", out)

	prices := filepath.Join(catalogue, "pumps.csv")
	text, err := os.ReadFile(prices)
	require.NoError(t, err)
	rows := strings.Split(string(text), "\n")
	require.NoError(t, os.WriteFile(prices, []byte(strings.Join(append(rows[:1], rows[len(rows)/2:]...), "\n")), 0o600)) // half the pumps are gone
	code, out, _ = asked(t, "--log-level=error", "--catalogue", "shop="+catalogue, "replay", file)
	assert.Equal(t, exitFailed, code)
	assert.Contains(t, out, `catalogue "shop" was `)
	assert.Contains(t, out, "6 questions asked again, 2 with another answer; 2 not asked\n")

	whole, err := os.ReadFile(file)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file, bytes.Replace(whole, []byte(`"code":"OK"`), []byte(`"code":"NO"`), 1), 0o600))
	code, _, errs = asked(t, "audit", "verify", folder)
	assert.Equal(t, exitFailed, code)
	assert.Contains(t, errs, "line 1: does not have the hash it says: it was changed")
}
