package operate_test

import (
	"encoding/json"
	"net"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/server/internal/config"
	"example.com/pondwright/server/internal/operate/rig"
)

func shipped(t *testing.T, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "deploy", "prometheus", name))
	require.NoError(t, err)
	return text
}

// alertExpressions are what the alert rules ask, by the rule.
func alertExpressions(t *testing.T) map[string]string {
	t.Helper()
	var held struct {
		Groups []struct {
			Rules []struct{ Alert, Expr string }
		}
	}
	require.NoError(t, yaml.Unmarshal(shipped(t, "alerts.yaml"), &held))
	asked := map[string]string{}
	for _, g := range held.Groups {
		for _, r := range g.Rules {
			asked[r.Alert] = r.Expr
		}
	}
	require.NotEmpty(t, asked)
	return asked
}

// dashboardExpressions are what the dashboard asks, by panel and query, with its variables filled in for all replicas.
func dashboardExpressions(t *testing.T) map[string]string {
	t.Helper()
	var held struct {
		Panels []struct {
			ID      int
			Title   string
			GridPos struct{ X, Y, W, H int }
			Targets []struct{ RefID, Expr string }
		}
	}
	require.NoError(t, json.Unmarshal(shipped(t, "dashboard.json"), &held))
	asked, ids, taken := map[string]string{}, map[int]bool{}, map[[2]int]string{}
	for _, p := range held.Panels {
		require.NotEmpty(t, p.Targets, p.Title)
		assert.False(t, ids[p.ID], "the number of %q is that of another", p.Title)
		ids[p.ID] = true
		for x := p.GridPos.X; x < p.GridPos.X+p.GridPos.W; x++ {
			for y := p.GridPos.Y; y < p.GridPos.Y+p.GridPos.H; y++ {
				assert.Empty(t, taken[[2]int{x, y}], "%q lies on another", p.Title)
				assert.Less(t, x, 24, "%q is beside the page", p.Title)
				taken[[2]int{x, y}] = p.Title
			}
		}
		for _, q := range p.Targets {
			filled := strings.NewReplacer("$instance", ".*", "$__rate_interval", "1m").Replace(q.Expr)
			require.NotContains(t, filled, "$", p.Title)
			asked[p.Title+" "+q.RefID] = filled
		}
	}
	require.NotEmpty(t, asked)
	return asked
}

var (
	figure   = regexp.MustCompile(`\b(?:pondwright|grpc_server|process|go|promhttp)_[a-z_]+\b`)
	exported = regexp.MustCompile(`(?m)^([a-z_]+)[{ ]`)
)

// A running engine exports every figure that an alert or the dashboard asks for, from its first moment: a name that was changed
// on one side would else be an alert that never fires.
func TestEveryFigureAskedForIsExported(t *testing.T) {
	_, settings := served(t, rig.NewAuthority(t))
	r := rig.Start(t, nil, func(s *config.Settings) {
		settings(s)
		s.Admin.Listen = "127.0.0.1:0"
	})
	operator, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	go func() { _ = r.ServeOperator(operator) }()
	there := map[string]bool{}
	for _, m := range exported.FindAllStringSubmatch(get("http://"+operator.Addr().String()+"/metrics"), -1) {
		there[m[1]] = true
	}
	require.NotEmpty(t, there)
	for _, asked := range []map[string]string{alertExpressions(t), dashboardExpressions(t)} {
		for who, expression := range asked {
			names := figure.FindAllString(expression, -1)
			if len(names) == 0 {
				assert.Contains(t, expression, `up{job="pondwright"`, who) // Prometheus makes that one itself
			}
			for _, name := range names {
				assert.True(t, there[name], "%s asks for %s, which the engine does not export", who, name)
			}
		}
	}
}
