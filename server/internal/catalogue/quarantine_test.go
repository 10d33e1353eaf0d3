package catalogue_test

import (
	"bytes"
	"context"
	"fmt"
	"log/slog"
	"strings"
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

func (n wrong) Read(context.Context, host.Plugin) (*host.Catalogue, error) {
	c := &host.Catalogue{Description: &cataloguev1.DescribeResponse{Title: "Test range (invented)", Revision: "1", Currency: "EUR"}}
	for i := range int(n) {
		c.Quarantined = append(c.Quarantined, host.Quarantined{ItemNumber: fmt.Sprint(i), Position: i, Problems: []contract.Problem{
			{Field: fmt.Sprintf("pumps.csv row %d, column price", i+2), Reason: "is empty"}, {Reason: "no curve"},
		}})
	}
	return c, nil
}

func statusOf(t *testing.T, items int, log *bytes.Buffer) (numbers []string, last []string, size int) {
	t.Helper()
	store := catalogue.NewStore(wrong(items), []catalogue.Source{{Plugin: host.Plugin{Name: "demo"}}}, slog.New(slog.NewTextHandler(log, nil)))
	require.NoError(t, store.Reload(t.Context()))
	require.Len(t, store.Snapshot().Catalogues, 1)
	status := store.Snapshot().Catalogues[0]
	for _, q := range status.GetQuarantined() {
		numbers = append(numbers, q.GetItemNumber())
		last = q.GetReasons()
	}
	return numbers, last, proto.Size(status)
}

func TestReasonsAreListedAsTheyCame(t *testing.T) {
	var log bytes.Buffer
	numbers, reasons, _ := statusOf(t, 3, &log)
	assert.Equal(t, []string{"0", "1", "2"}, numbers)
	assert.Equal(t, []string{"pumps.csv row 4, column price: is empty", "no curve"}, reasons)
	assert.Contains(t, log.String(), "quarantined=3")
}

// gRPC clients take 4 MiB unless told otherwise.
func TestACatalogueThatIsAllWrongCanStillBeListed(t *testing.T) {
	var log bytes.Buffer
	numbers, last, size := statusOf(t, 50_000, &log)
	assert.Less(t, size, 4<<20/10)
	assert.Greater(t, len(numbers), 1000)
	assert.Empty(t, numbers[len(numbers)-1])
	assert.True(t, strings.HasPrefix(last[0], fmt.Sprintf("%d more items", 50_000-len(numbers)+1)), last)
	assert.Contains(t, log.String(), "quarantined=50000")
}
