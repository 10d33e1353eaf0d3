package host_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/host"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// A plugin that was built against protocol version 1 when it was new loads for as long as the version is spoken, with every
// item and the same figures. Its answers are those of the CSV folder in plugins/csv/testdata/good of that day.
func TestPluginOfVersionOneStillLoads(t *testing.T) {
	dir, err := os.MkdirTemp("", "pwv")
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, os.RemoveAll(dir)) })
	binary := filepath.Join(dir, "version1.exe") // a name that any system can start
	out, err := exec.Command("go", "build", "-o", binary, "./testdata/version1").CombinedOutput()
	require.NoError(t, err, string(out))
	h, err := host.New(host.Config{TempDir: dir})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, h.Close()) })

	c, err := h.Read(t.Context(), host.Plugin{Name: "old", Path: binary, StartTimeout: time.Minute})
	require.NoError(t, err)
	assert.Equal(t, "Test range (invented)", c.Description.GetTitle())
	assert.Equal(t, "frozen", c.Description.GetRevision())
	assert.Empty(t, c.Quarantined)
	items := make(map[string]*equipmentv1.Item)
	for _, item := range c.Items {
		items[item.GetItemNumber()] = item
	}
	require.Len(t, items, 7)
	assert.Equal(t, 89.0, items["P-1"].GetPrice())
	first := items["P-1"].GetPump().GetCurve()[0]
	require.NotNil(t, first.FlowLPerH, "a zero that was sent is one")
	assert.Zero(t, first.GetFlowLPerH())
	assert.Equal(t, 2.2, items["P-1"].GetPump().GetCurve()[1].GetHeadM())
	assert.Equal(t, 60.0, items["P-1"].GetPump().GetCurve()[1].GetPowerW())
	assert.Equal(t, equipmentv1.FilterMedium_FILTER_MEDIUM_FOAM, items["F-1"].GetFilter().GetMedium())
	assert.Equal(t, 1.4, items["F-1"].GetFilter().GetDueLoss().GetHeadM())
	assert.Equal(t, 0.35, items["F-2"].GetFilter().GetInletAboveOutletM())
	assert.Equal(t, 5.5, items["U-1"].GetLampUnit().GetOutput_254NmW())
	assert.Equal(t, equipmentv1.HoseWall_HOSE_WALL_SMOOTH, items["H-1"].GetHose().GetWall())
	assert.Equal(t, 8.4, items["L-1"].GetLiner().GetPricePerM2())
}
