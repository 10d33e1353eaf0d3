package operate_test

import (
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
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
	conn := r.Dial(t, ours.Trust())
	require.NoError(t, ask(t.Context(), conn))
	assert.Equal(t, "SERVING\n", get("http://"+operator.Addr().String()+"/healthz"))
	assert.Contains(t, get("http://"+operator.Addr().String()+"/debug/pprof/goroutine?debug=1"), "goroutine profile")

	folder := t.TempDir()
	rig.Write(t, folder, "alerts.yaml", regexp.MustCompile(`(?m)^ *for:.*\n`).ReplaceAll(shipped(t, "alerts.yaml"), nil))
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
	// Prometheus understands every question of the dashboard and has an answer to it.
	for who, expression := range dashboardExpressions(t) {
		said := ""
		assert.Eventually(t, func() bool {
			_ = ask(t.Context(), conn) // some questions are about calls of the last minute
			said = get("http://" + address + "/api/v1/query?query=" + url.QueryEscape(expression))
			return strings.Contains(said, `"status":"success"`) && strings.Contains(said, `"metric"`)
		}, 20*time.Second, 200*time.Millisecond, "%s: %s", who, expression)
		assert.NotContains(t, said, `"status":"error"`, who)
	}
}
