package catalogue_test

import (
	"bytes"
	"context"
	"fmt"
	"log/slog"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/host"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	"example.com/pondwright/server/internal/catalogue"
)

// wrong is a reader of a catalogue in which every item is wrong.
type wrong int

func (n wrong) Open(context.Context, host.Plugin) (*host.Catalogue, *host.Live, error) {
	c := &host.Catalogue{Description: &cataloguev1.DescribeResponse{Title: "Test range (invented)", Revision: "1", Currency: "EUR"}}
	for i := range int(n) {
		c.Quarantined = append(c.Quarantined, host.Quarantined{ItemNumber: fmt.Sprint(i), Position: i, Problems: []contract.Problem{
			{Field: fmt.Sprintf("pumps.csv row %d, column price", i+2), Reason: "is empty"}, {Reason: "no curve"},
		}})
	}
	return c, nil, nil
}

// storeOf has read one catalogue of that many items, all of them wrong.
func storeOf(t *testing.T, items int, log *bytes.Buffer) *catalogue.Store {
	t.Helper()
	store := catalogue.NewStore(catalogue.Config{
		Gate: wrong(items), Sources: []catalogue.Source{{Plugin: host.Plugin{Name: "demo"}}}, Logger: slog.New(slog.NewTextHandler(log, nil)),
	})
	t.Cleanup(store.Close)
	require.NoError(t, store.Start(t.Context()))
	return store
}

func TestReasonsAreListedAsTheyCame(t *testing.T) {
	var log bytes.Buffer
	listed, count := storeOf(t, 3, &log).Snapshot().Quarantined("demo")
	require.Len(t, listed, 3)
	for i, q := range listed {
		assert.Equal(t, "demo", q.GetCatalogue())
		assert.Equal(t, fmt.Sprint(i), q.GetItemNumber())
	}
	assert.Equal(t, []string{"pumps.csv row 4, column price: is empty", "no curve"}, listed[2].GetReasons())
	assert.Equal(t, 3, count)
	assert.Contains(t, log.String(), "quarantined=3")
}

// What is kept of a catalogue that is all wrong is bounded, and all of it is counted.
func TestACatalogueThatIsAllWrongIsKeptWithinBounds(t *testing.T) {
	var log bytes.Buffer
	listed, count := storeOf(t, 200_000, &log).Snapshot().Quarantined("demo")
	assert.Equal(t, 200_000, count)
	size := 0
	for _, q := range listed {
		size += proto.Size(q)
	}
	assert.LessOrEqual(t, size, 4<<20)
	assert.Greater(t, len(listed), 10_000)
	assert.Less(t, len(listed), 200_000)
	assert.Contains(t, log.String(), "quarantined=200000")
}
