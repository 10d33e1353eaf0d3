//go:build unix

package host_test

import (
	"context"
	"iter"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/host"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// refuser is a catalogue that cannot give most of its items.
type refuser struct{}

func (refuser) Describe(context.Context) (*cataloguev1.DescribeResponse, error) {
	return (&shelf{}).Describe(context.Background())
}

func (refuser) Items(context.Context) iter.Seq2[*equipmentv1.Item, error] {
	return func(yield func(*equipmentv1.Item, error) bool) {
		_ = yield(pump("GOOD"), nil) &&
			yield(nil, &contract.Rejected{ItemNumber: "DEAR", Description: "pump", Problems: []contract.Problem{
				{Field: "pumps.csv row 2, column price", Reason: "is empty: fill it in"}, {Field: "pumps.csv row 2, column power_w", Reason: "is empty: fill it in"},
			}}) &&
			yield(pump("TWICE"), nil) &&
			yield(nil, &contract.Rejected{ItemNumber: "TWICE", Problems: []contract.Problem{{Reason: "no curve"}}}) &&
			yield(nil, &contract.Rejected{}) &&
			yield(nil, &contract.Rejected{ItemNumber: "LONG\n" + strings.Repeat("x", 100), Problems: make([]contract.Problem, 1000)})
	}
}

// What a plugin says of an item it cannot give is what the host has to say of it, bounded whoever wrote the plugin.
func TestItemsThatThePluginRejectsAreQuarantinedWithItsReasons(t *testing.T) {
	b := newBench(t)
	remote, err := b.Read(t.Context(), b.plugin("rejects"))
	require.NoError(t, err)
	direct, err := b.ReadDirect(t.Context(), b.plugin("rejects"), refuser{})
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
	_, err := b.ReadDirect(t.Context(), p, refuser{})
	assert.ErrorContains(t, err, "sends more than 5 items")
	p.MaxItems = 6
	_, err = b.ReadDirect(t.Context(), p, refuser{})
	assert.NoError(t, err)
}
