package main

import (
	"database/sql"
	_ "embed"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/host"
	"example.com/pondwright/plugins/sdk/conformance"
)

//go:embed stock.sql
var schema string

func newStock(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "stock.db")
	db, err := sql.Open("sqlite", path)
	require.NoError(t, err)
	_, err = db.Exec(schema)
	require.NoError(t, err)
	require.NoError(t, db.Close())
	return path
}

func TestCatalogue(t *testing.T) { conformance.Catalogue(t, stock{newStock(t)}) }

func TestPlugin(t *testing.T) {
	binary := filepath.Join(t.TempDir(), "sqlite.exe") // a name that any system can start
	out, err := exec.Command("go", "build", "-o", binary, ".").CombinedOutput()
	require.NoError(t, err, string(out))
	conformance.Plugin(t, host.Plugin{Name: "stock", Path: binary, Args: []string{newStock(t)}})
}

func TestChangeIsANewRevision(t *testing.T) {
	s := stock{newStock(t)}
	before, err := s.Describe(t.Context())
	require.NoError(t, err)
	db, err := sql.Open("sqlite", s.path)
	require.NoError(t, err)
	_, err = db.Exec(`UPDATE pump SET price = 75 WHERE item_number = 'S-40'`)
	require.NoError(t, err)
	require.NoError(t, db.Close())
	after, err := s.Describe(t.Context())
	require.NoError(t, err)
	assert.NotEqual(t, before.GetRevision(), after.GetRevision())
	for item, err := range s.Items(t.Context()) {
		require.NoError(t, err)
		assert.Equal(t, "S-40", item.GetItemNumber())
		assert.Equal(t, 75.0, item.GetPrice())
		break
	}
}

func TestDatabaseThatIsNotThere(t *testing.T) {
	s := stock{filepath.Join(t.TempDir(), "none.db")}
	_, err := s.Describe(t.Context())
	assert.Error(t, err)
	for _, err := range s.Items(t.Context()) {
		assert.ErrorContains(t, err, "reading the stock")
	}
}
