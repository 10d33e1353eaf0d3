package engine_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// Rows of a merchant's file that cannot be used are told by file, row and column to whoever asks the engine, through the plugin's
// own process. The other items are in force.
func TestRowsThatAreWrongAreListedByFileRowAndColumn(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "shop")
	require.NoError(t, os.CopyFS(dir, os.DirFS("../../testdata/catalogues/demo")))
	edit := func(file, old, new string) {
		t.Helper()
		path := filepath.Join(dir, file)
		content, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Contains(t, string(content), old)
		require.NoError(t, os.WriteFile(path, []byte(strings.Replace(string(content), old, new, 1)), 0o600))
	}
	_, before := startWith(t, "../../testdata/catalogues/demo")
	edit("pumps.csv", ",23.50,", ",about 24,")
	edit("pump_curves.csv", "PU-1020,0,", "PU-1020,,")
	edit("hoses.csv", "19,smooth,15.4,1.65", "19,slippery,25.4,")
	_, after := startWith(t, dir)

	whole, err := pb.NewCatalogueServiceClient(before).ListCatalogues(t.Context(), &pb.ListCataloguesRequest{})
	require.NoError(t, err)
	require.Zero(t, whole.GetCatalogues()[0].GetQuarantinedCount())
	resp, err := pb.NewCatalogueServiceClient(after).ListCatalogues(t.Context(), &pb.ListCataloguesRequest{})
	require.NoError(t, err)
	require.Len(t, resp.GetCatalogues(), 1)
	status := resp.GetCatalogues()[0]
	assert.Empty(t, status.GetFault())
	assert.Equal(t, whole.GetCatalogues()[0].GetItemCount()-3, status.GetItemCount())
	assert.EqualValues(t, 3, status.GetQuarantinedCount())
	listed, err := pb.NewCatalogueServiceClient(after).ListQuarantined(t.Context(), &pb.ListQuarantinedRequest{})
	require.NoError(t, err)
	said := map[string][]string{}
	for _, q := range listed.GetItems() {
		said[q.GetItemNumber()] = q.GetReasons()
	}
	assert.Equal(t, map[string][]string{
		"PU-1010": {`pumps.csv row 2, column price: "about 24" is not a number: write the number alone, without unit or currency`},
		"PU-1020": {"pump_curves.csv row 8, column flow_l_per_h: is empty: fill it in"},
		"HO-4010": {
			`hoses.csv row 2, column wall: "slippery" is not one of smooth, corrugated`,
			"hoses.csv row 2, column price_per_m: is empty: fill it in",
		},
	}, said)
}
