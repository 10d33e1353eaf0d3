package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func asked(t *testing.T, args ...string) (code int, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	code = command(args, &o, &e)
	return code, o.String(), e.String()
}

func settingsFile(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "pondwright.yaml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

// A flag goes before the environment, the environment before the file, the file before what holds where nothing is said.
func TestPrecedenceOfSettings(t *testing.T) {
	at := settingsFile(t, "listen: 127.0.0.1:3\ndrain: 3s\nlimits: {calls: 3, request_bytes: 3KiB}\ntls: {certificate: cert.pem}\n")
	t.Setenv("PONDWRIGHT_DRAIN", "2s")
	t.Setenv("PONDWRIGHT_LIMITS_CALLS", "2")
	code, out, errs := asked(t, "--config", at, "--print-config", "--limits-calls=1")
	require.Zero(t, code, errs)
	for _, line := range []string{
		"listen: 127.0.0.1:3\n", "drain: 2s\n", "  calls: 1\n", "  request_bytes: 3KiB\n", "  calls_per_client: 64\n",
		"  certificate: " + filepath.Join(filepath.Dir(at), "cert.pem") + "\n",
	} {
		assert.Contains(t, out, line)
	}

	t.Setenv("PONDWRIGHT_CONFIG", at)
	_, out, _ = asked(t, "--print-config")
	assert.Contains(t, out, "listen: 127.0.0.1:3\n", "the environment can name the file too")
}

// What is printed can be read again and says the same, but for secrets, which are not in it.
func TestPrintedSettingsAreAFileAgain(t *testing.T) {
	digest := "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad" // FIPS 180-4, the digest of "abc"
	at := settingsFile(t, "clients: [{name: till, token_sha256: "+digest+", roles: [calculate]}]\n"+
		"catalogues: [{name: shop, from: ., env: [KEY=hush], memory: 64MiB, refresh: 1h}]\n")
	code, out, errs := asked(t, "--config", at, "--print-config")
	require.Zero(t, code, errs)
	assert.NotContains(t, out, digest)
	assert.NotContains(t, out, "hush")
	assert.Contains(t, out, "KEY=(not shown)")

	again := settingsFile(t, out)
	code, twice, errs := asked(t, "--config", again, "--print-config")
	require.Zero(t, code, errs)
	assert.Equal(t, out, twice)
}

func TestCheckConfigTellsEveryFaultWithItsPlace(t *testing.T) {
	at := settingsFile(t, "listen: 127.0.0.1:1\nlisten: 127.0.0.1:2\nlimits:\n  cals: 3\ntsl: {key: x}\ncatalogues: {name: shop}\nlog: loud\n")
	code, _, errs := asked(t, "--config", at, "check-config")
	assert.Equal(t, exitAsked, code)
	for _, fault := range []string{
		`:2:1: "listen" is set a second time`, `:4:3: "cals" is not a setting here; there are request_bytes, `,
		`:5:1: "tsl" is not a setting here`, `:6:`, "a list belongs here", `:7:6: settings belong here: format, `,
	} {
		assert.Contains(t, errs, fault)
	}

	code, _, errs = asked(t, "--config", settingsFile(t, "catalogues: [{name: shop, from: nowhere}, {name: shop}]\nclients: [{name: a, roles: [boss]}]\n"),
		"check-config", "--listen=:4860", "--tls-key=k", "--limits-depth=1", "--telemetry-sample=NaN")
	assert.Equal(t, exitAsked, code)
	for _, fault := range []string{
		"nowhere: no such file", `catalogue "shop" is configured twice`, "needs either from", "needs token_sha256", `no role "boss"`,
		"listen: :4860 can be reached from other machines", "certificate and key go together", "limits.depth", "telemetry.sample",
	} {
		assert.Contains(t, errs, fault)
	}

	code, out, errs := asked(t, "check-config")
	assert.Zero(t, code, errs)
	assert.Equal(t, "the settings are in order\n", out)
}

func TestWrongValuesAreRefusedBeforeAnythingStarts(t *testing.T) {
	for _, args := range [][]string{
		{"--limits-request-bytes=4MB"}, {"--drain=soon"}, {"--no-such-flag"}, {"no-such-command"}, {"--log-format=xml"},
		{"--config", "no-such-file.yaml"}, {"--config", t.TempDir()}, {"--listen=0.0.0.0:0"},
		{"--config", settingsFile(t, "drain: soon")}, {"--config", settingsFile(t, "a: b: c")}, {"--config", settingsFile(t, "drain: 1s\n---\ndrain: 2s")},
	} {
		code, _, errs := asked(t, args...)
		assert.Equal(t, exitAsked, code, args)
		assert.NotEmpty(t, errs, args)
	}
}

func TestTemplatesAndToken(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "shop")
	code, _, errs := asked(t, "templates", folder)
	require.Zero(t, code, errs)
	assert.FileExists(t, filepath.Join(folder, "pumps.csv"))
	code, _, _ = asked(t, "templates", folder)
	assert.Equal(t, exitFailed, code, "nothing is overwritten")

	_, one, _ := asked(t, "token")
	_, other, _ := asked(t, "token")
	assert.NotEqual(t, one, other)
}
