package operate_test

import (
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/server/internal/config"
	"example.com/pondwright/server/internal/operate/rig"
)

func get(url string) string {
	resp, err := http.Get(url)
	if err != nil {
		return err.Error()
	}
	defer resp.Body.Close()
	text, _ := io.ReadAll(io.LimitReader(resp.Body, 8<<20))
	return string(text)
}

// A real Prometheus, Debian's, scrapes the engine, loads the rules that are shipped and fires the one of a certificate that ends
// soon. Only their waiting is left out, which promtool tests.
func TestPrometheusScrapesTheEngineAndFires(t *testing.T) {
	prometheus, err := exec.LookPath("prometheus")
	if err != nil && os.Getenv("PONDWRIGHT_CROSSCHECK") == "required" {
		require.NoError(t, err)
	} else if err != nil {
		t.Skip("prometheus is not installed")
	}
	ours := rig.NewAuthority(t)
	_, settings := served(t, ours) // good for an hour
	r := rig.Start(t, nil, func(s *config.Settings) {
		settings(s)
		s.Admin.Listen = "127.0.0.1:0"
	})
	operator, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	go func() { _ = r.ServeOperator(operator) }()
	require.NoError(t, ask(t.Context(), r.Dial(t, ours.Trust())))
	assert.Equal(t, "SERVING\n", get("http://"+operator.Addr().String()+"/healthz"))
	assert.Contains(t, get("http://"+operator.Addr().String()+"/debug/pprof/goroutine?debug=1"), "goroutine profile")

	folder := t.TempDir()
	rules, err := os.ReadFile(filepath.Join("..", "..", "deploy", "prometheus", "alerts.yaml"))
	require.NoError(t, err)
	rig.Write(t, folder, "alerts.yaml", regexp.MustCompile(`(?m)^ *for:.*\n`).ReplaceAll(rules, nil))
	at := rig.Write(t, folder, "prometheus.yaml", fmt.Appendf(nil, "global: {scrape_interval: 1s, evaluation_interval: 1s}\nrule_files: [alerts.yaml]\n"+
		"scrape_configs: [{job_name: pondwright, static_configs: [{targets: [%q]}]}]\n", operator.Addr().String()))
	own, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	address := own.Addr().String()
	require.NoError(t, own.Close())
	cmd := exec.Command(prometheus, "--config.file="+at, "--storage.tsdb.path="+filepath.Join(folder, "data"), "--web.listen-address="+address)
	require.NoError(t, cmd.Start())
	t.Cleanup(func() { _ = cmd.Process.Kill(); _ = cmd.Wait() })
	assert.Eventually(t, func() bool {
		alerts := get("http://" + address + "/api/v1/alerts")
		return strings.Contains(alerts, "PondwrightCertificateEnds") && strings.Contains(alerts, `"firing"`)
	}, 60*time.Second, 200*time.Millisecond)
	alerts := get("http://" + address + "/api/v1/alerts")
	for _, quiet := range []string{"PondwrightDown", "PondwrightPanics", "PondwrightCatalogueUnwell", "PondwrightOverloaded"} {
		assert.NotContains(t, alerts, quiet)
	}
	// Every figure that the rules and the dashboard ask for is there.
	for _, name := range []string{
		"pondwright_calls_in_hand", "pondwright_catalogue_items", "grpc_server_handled_total", "pondwright_refused_total",
		"pondwright_panics_total", "pondwright_build_info", "grpc_server_handling_seconds_bucket", "process_resident_memory_bytes",
	} {
		assert.Eventually(t, func() bool {
			return strings.Contains(get("http://"+address+"/api/v1/query?query="+name), `"__name__"`)
		}, 20*time.Second, 200*time.Millisecond, name)
	}
}
