package testdata_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/testdata"
)

func TestUnpackCatalogueWritesEveryFile(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "demo")
	require.NoError(t, testdata.UnpackCatalogue(dir))

	embedded, err := fs.Glob(testdata.Catalogues, "catalogues/demo/*.csv")
	require.NoError(t, err)
	written, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, written, len(embedded))
	for _, path := range embedded {
		want, err := testdata.Catalogues.ReadFile(path)
		require.NoError(t, err)
		got, err := os.ReadFile(filepath.Join(dir, filepath.Base(path)))
		require.NoError(t, err)
		assert.Equal(t, want, got, path)
	}
}

func TestUnpackCatalogueLeavesOldFilesAlone(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "pumps.csv")
	require.NoError(t, os.WriteFile(path, []byte("mine"), 0o600))

	require.ErrorIs(t, testdata.UnpackCatalogue(dir), fs.ErrExist)
	kept, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "mine", string(kept))
}
