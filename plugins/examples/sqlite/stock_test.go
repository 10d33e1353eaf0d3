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

// What is sold is no new revision, and is told at once.
func TestStockIsThatOfTheMoment(t *testing.T) {
	s := stock{newStock(t)}
	before, err := s.Describe(t.Context())
	require.NoError(t, err)
	levels, err := s.Stock(t.Context(), []string{"S-40", "none", "S-90", "S-91"})
	require.NoError(t, err)
	require.Len(t, levels, 3, "an item that is not known is left out")
	assert.EqualValues(t, 6, levels[0].GetOnHand())
	require.NotNil(t, levels[1].OnHand)
	assert.Zero(t, levels[1].GetOnHand())
	assert.Nil(t, levels[2].OnHand, "NULL is not known, and not none")

	db, err := sql.Open("sqlite", s.path)
	require.NoError(t, err)
	_, err = db.Exec(`UPDATE pump SET on_hand = on_hand - 2 WHERE item_number = 'S-40'`)
	require.NoError(t, err)
	require.NoError(t, db.Close())
	levels, err = s.Stock(t.Context(), []string{"S-40"})
	require.NoError(t, err)
	assert.EqualValues(t, 4, levels[0].GetOnHand())
	after, err := s.Describe(t.Context())
	require.NoError(t, err)
	assert.Equal(t, before.GetRevision(), after.GetRevision())
}

func TestDatabaseThatIsNotThere(t *testing.T) {
	s := stock{filepath.Join(t.TempDir(), "none.db")}
	_, err := s.Describe(t.Context())
	assert.Error(t, err)
	for _, err := range s.Items(t.Context()) {
		assert.ErrorContains(t, err, "reading the stock")
	}
	_, err = s.Stock(t.Context(), []string{"S-40"})
	assert.ErrorContains(t, err, "asking the stock for S-40")
}
