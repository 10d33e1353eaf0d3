package builtin_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/builtin"
	csvcatalogue "example.com/pondwright/plugins/csv"
	"example.com/pondwright/plugins/host"
	"example.com/pondwright/plugins/sdk/conformance"
)

// The test binary stands for a program that serves its own catalogue.
func TestMain(m *testing.M) {
	if builtin.RunIfAsked(os.Args) {
		return
	}
	os.Exit(m.Run())
}

func newHost(t *testing.T) *host.Host {
	t.Helper()
	h, err := host.New(host.Config{})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, h.Close()) })
	return h
}

const folder = "../csv/testdata/good"

// One suite, twice: in this process and as a plugin of its own.
func TestCSVFolderConforms(t *testing.T) {
	c, err := csvcatalogue.Open(folder)
	require.NoError(t, err)
	t.Run("in process", func(t *testing.T) { conformance.Catalogue(t, c) })
	t.Run("as a plugin", func(t *testing.T) {
		p, err := builtin.CSVPlugin("folder", folder)
		require.NoError(t, err)
		conformance.Plugin(t, p)
	})
}

func TestWorkbookConforms(t *testing.T) {
	p, err := builtin.CSVPlugin("workbook", "../csv/testdata/openpyxl.xlsx")
	require.NoError(t, err)
	conformance.Plugin(t, p)
}

func TestProgramServesAFolderToItself(t *testing.T) {
	p, err := builtin.CSVPlugin("demo", folder)
	require.NoError(t, err)
	got, err := newHost(t).Read(t.Context(), p)
	require.NoError(t, err)
	direct, err := csvcatalogue.Open(folder)
	require.NoError(t, err)
	want, err := newHost(t).ReadDirect(t.Context(), p, direct)
	require.NoError(t, err)
	assert.Equal(t, "demo", got.Name)
	require.Len(t, got.Items, len(want.Items))
	for i := range want.Items {
		assert.True(t, proto.Equal(want.Items[i], got.Items[i]), "item %q differs", want.Items[i].GetItemNumber())
	}
}

func BenchmarkReadFolderAsAPlugin(b *testing.B) {
	h, err := host.New(host.Config{})
	require.NoError(b, err)
	defer h.Close()
	p, err := builtin.CSVPlugin("demo", folder)
	require.NoError(b, err)
	for b.Loop() {
		_, err := h.Read(b.Context(), p)
		require.NoError(b, err)
	}
}

// A bad row is told with file, row and column, over the wire as in the same process.
func TestBadRowIsQuarantined(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, os.DirFS(folder)))
	bad := "item_number,description,bore_mm,wall,price_per_m\nH-1,hose,wide,smooth,2\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "hoses.csv"), []byte(bad), 0o600))
	p, err := builtin.CSVPlugin("demo", dir)
	require.NoError(t, err)
	direct, err := csvcatalogue.Open(dir)
	require.NoError(t, err)
	for name, read := range map[string]func(*host.Host) (*host.Catalogue, error){
		"in process":  func(h *host.Host) (*host.Catalogue, error) { return h.ReadDirect(t.Context(), p, direct) },
		"as a plugin": func(h *host.Host) (*host.Catalogue, error) { return h.Read(t.Context(), p) },
	} {
		c, err := read(newHost(t))
		require.NoError(t, err)
		require.Len(t, c.Quarantined, 1, name)
		assert.Equal(t, "H-1", c.Quarantined[0].ItemNumber)
		require.Len(t, c.Quarantined[0].Problems, 1, name)
		assert.Equal(t, `hoses.csv row 2, column bore_mm: "wide" is not a number: write the number alone, without unit or currency`,
			c.Quarantined[0].Problems[0].String(), name)
		assert.Len(t, c.Items, 10)
	}
}

func TestUnreadableFolderIsToldWhole(t *testing.T) {
	p, err := builtin.CSVPlugin("empty", t.TempDir())
	require.NoError(t, err)
	_, err = newHost(t).Read(t.Context(), p)
	assert.ErrorIs(t, err, host.ErrContent)
	assert.ErrorContains(t, err, `catalogue plugin "empty" cannot give its catalogue`)
	assert.ErrorContains(t, err, "catalogue.csv: is missing")
}

func TestOtherArgumentsAreNotMeant(t *testing.T) {
	assert.False(t, builtin.RunIfAsked([]string{"program", "brief.yaml"}))
	assert.False(t, builtin.RunIfAsked([]string{"program", builtin.Argument}))
	assert.False(t, builtin.RunIfAsked(nil))
}
