package main

import (
	"encoding/json"
	"net"
	"net/http"
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"google.golang.org/protobuf/encoding/protojson"

	pb "example.com/pondwright/proto/pondwright/v1"

	"example.com/pondwright/clients/internal/headless"
)

// servesJSON starts an engine that answers JSON over HTTP as well, and returns where.
func servesJSON(t *testing.T) string {
	t.Helper()
	free, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	address := free.Addr().String()
	require.NoError(t, free.Close())
	startEngine(t, "--http-listen", address)
	require.Eventually(t, func() bool {
		resp, err := http.Get("http://" + address + "/openapi.json")
		return err == nil && resp.Body.Close() == nil && resp.StatusCode == http.StatusOK
	}, 30*time.Second, 50*time.Millisecond, "no JSON is served")
	return "http://" + address
}

// The worked examples that the README shows run as they stand.
func TestTheExampleInCurl(t *testing.T) {
	if _, err := exec.LookPath("curl"); err != nil {
		headless.Missing(t, "curl is not installed: apt-get install curl")
	}
	out, err := exec.Command("examples/suggest.sh", servesJSON(t)).Output()
	require.NoError(t, err, "%s", out)
	var answer pb.SuggestKitsResponse
	require.NoError(t, protojson.Unmarshal(out, &answer))
	require.Len(t, answer.GetKits(), 1)
	assert.True(t, answer.GetKits()[0].GetWorks())
	var plain map[string]any
	require.NoError(t, json.Unmarshal(out, &plain))
	assert.Contains(t, plain, "kits", "fields keep the names of the proto")
}

func TestTheExampleInPython(t *testing.T) {
	const python = "/usr/bin/python3"
	if _, err := exec.LookPath(python); err != nil {
		headless.Missing(t, python+" is not installed: apt-get install python3")
	}
	out, err := exec.Command(python, "examples/suggest.py", servesJSON(t)).CombinedOutput()
	require.NoError(t, err, "%s", out)
	for _, says := range []string{"GBP ", " to buy", "PU-", "L/h  RUNNING_STATE_CLEAN", `refused: `, "hose_lenght_m", "quick_brief.hose_length_m: "} {
		assert.Contains(t, string(out), says)
	}
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	assert.Contains(t, string(readme), string(out), "the README shows what the example prints: put this there")
}
