package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The settings that a replica in Kubernetes is given are in order, with the files that are mounted there put somewhere else.
func TestSettingsForKubernetesAreInOrder(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("deploy", "kubernetes", "settings.yaml"))
	require.NoError(t, err)
	var held struct{ Data map[string]string }
	require.NoError(t, yaml.Unmarshal(text, &held))
	settings := held.Data["pondwright.yaml"]
	require.Contains(t, settings, "from: /srv/pondwright/catalogue")

	mounted := t.TempDir()
	at := settingsFile(t, strings.ReplaceAll(settings, "/srv/pondwright/catalogue", mounted))
	code, out, errs := asked(t, "--config", at, "check-config")
	assert.Zero(t, code, errs)
	assert.Equal(t, "the settings are in order\n", out)

	// What strangers could use is refused: the same settings without TLS, and without the word that the operator's port is public.
	for _, without := range []string{"certificate: /etc/pondwright/tls/tls.crt", "public: true"} {
		require.Contains(t, settings, without)
		at := settingsFile(t, strings.ReplaceAll(strings.ReplaceAll(settings, without, ""), "/srv/pondwright/catalogue", mounted))
		code, _, errs := asked(t, "--config", at, "check-config")
		assert.Equal(t, exitAsked, code)
		assert.NotEmpty(t, errs)
	}
}
