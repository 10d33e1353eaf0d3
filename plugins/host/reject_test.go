//go:build unix

package host_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/host"
	"example.com/pondwright/plugins/host/misbehave"
)

// What a plugin says of an item it cannot give is what the host has to say of it, bounded whoever wrote the plugin.
func TestItemsThatThePluginRejectsAreQuarantinedWithItsReasons(t *testing.T) {
	b := newBench(t)
	remote, err := b.Read(t.Context(), b.plugin("rejects"))
	require.NoError(t, err)
	direct, err := b.ReadDirect(t.Context(), b.plugin("rejects"), misbehave.Refuser{})
	require.NoError(t, err)
	for _, c := range []*host.Catalogue{remote, direct} {
		require.Len(t, c.Items, 1)
		assert.Equal(t, "GOOD", c.Items[0].GetItemNumber())
		require.Len(t, c.Quarantined, 5)
		said := make(map[string]string)
		for _, q := range c.Quarantined {
			said[q.ItemNumber] += contract.Join(q.Problems) + "|"
			assert.LessOrEqual(t, len(q.Problems), 40)
		}
		assert.Equal(t, "pumps.csv row 2, column price: is empty: fill it in; pumps.csv row 2, column power_w: is empty: fill it in|", said["DEAR"])
		assert.Equal(t, "item_number: used by 2 items: give each its own number|no curve; item_number: used by 2 items: give each its own number|", said["TWICE"])
		assert.Contains(t, said[""], "gives no reason")
		assert.Contains(t, said["LONG "+strings.Repeat("x", 55)+" ..."], "and 961 more")
	}
	b.leavesNothing(t)
}

func TestRejectedItemsAreCountedToo(t *testing.T) {
	b := newBench(t)
	p := b.plugin("rejects")
	p.MaxItems = 5
	_, err := b.ReadDirect(t.Context(), p, misbehave.Refuser{})
	assert.ErrorContains(t, err, "sends more than 5 items")
	p.MaxItems = 6
	_, err = b.ReadDirect(t.Context(), p, misbehave.Refuser{})
	assert.NoError(t, err)
}
