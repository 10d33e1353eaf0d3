package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The settings an operator begins with are in order, once the catalogue's folder is there.
func TestSettingsToBeginWithAreInOrder(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("deploy", "pondwright.yaml"))
	require.NoError(t, err)
	require.Contains(t, string(text), "from: /srv/pondwright/catalogue")
	there := strings.ReplaceAll(string(text), "/srv/pondwright/catalogue", t.TempDir())
	code, out, errs := asked(t, "--config", settingsFile(t, there), "check-config")
	assert.Zero(t, code, errs)
	assert.Equal(t, "the settings are in order\n", out)

	misspelt := strings.Replace(there, "drain:", "drian:", 1)
	code, _, errs = asked(t, "--config", settingsFile(t, misspelt), "check-config")
	assert.Equal(t, exitAsked, code)
	assert.Contains(t, errs, "drian")
}
