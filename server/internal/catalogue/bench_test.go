package catalogue

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/host"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
)

const benchItems = 10_000

// tenThousand are invented pumps with curves of 12 points, as 10,000 lines of a merchant's list, on the wire.
func tenThousand(b *testing.B) [][]byte {
	b.Helper()
	words := []string{"filter", "fall", "feature", "cage", "thrifty", "submersible", "dry-mounted", "screened"}
	lines := make([][]byte, benchItems)
	for i := range lines {
		item := &eq.Item{
			ItemNumber: fmt.Sprintf("PU-%05d", i), Price: proto.Float64(20 + float64(i%500)),
			Description: fmt.Sprintf("%s pump, %s, %d m cable", words[i%8], words[i/8%8], 5+i%20),
			Kind:        &eq.Item_Pump{Pump: &eq.Pump{}},
		}
		for p := range 12 {
			flow, head := 500*float64(p), 6-0.5*float64(p)
			item.GetPump().Curve = append(item.GetPump().Curve, &eq.CurvePoint{FlowLPerH: &flow, HeadM: &head, PowerW: proto.Float64(120)})
		}
		line, err := proto.Marshal(item)
		require.NoError(b, err)
		lines[i] = line
	}
	return lines
}

// parsed is what comes off the wire, with nothing made of it.
func parsed(b *testing.B, lines [][]byte) []*eq.Item {
	items := make([]*eq.Item, len(lines))
	for i, line := range lines {
		items[i] = &eq.Item{}
		require.NoError(b, proto.Unmarshal(line, items[i]))
	}
	return items
}

func frozen(b *testing.B, lines [][]byte) *Snapshot {
	read := &host.Catalogue{Items: parsed(b, lines), Description: &cataloguev1.DescribeResponse{Revision: "1", Currency: "EUR"}}
	return newSnapshot([]*shelf{newShelf("shop", read, time.Now())}, nil)
}

// BenchmarkSnapshot makes a snapshot of 10,000 items, and says what it takes of memory. The bound is the same bytes taken off the
// wire and kept, with nothing checked or made ready.
func BenchmarkSnapshot(b *testing.B) {
	lines := tenThousand(b)
	b.Run("bound: parsed and kept", func(b *testing.B) {
		measure(b, func() any { return parsed(b, lines) })
	})
	b.Run("parsed and frozen", func(b *testing.B) {
		measure(b, func() any { return frozen(b, lines) })
	})
}

func measure(b *testing.B, make func() any) {
	heap := func() uint64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	before := heap()
	kept := make()
	perItem := float64(heap()-before) / benchItems
	for b.Loop() {
		kept = make()
	}
	runtime.KeepAlive(kept)
	b.ReportMetric(perItem, "B/item")
}

// BenchmarkLookUp finds one item of 10,000. The bound is a look into a map of the same keys.
func BenchmarkLookUp(b *testing.B) {
	s := frozen(b, tenThousand(b))
	numbers := make([]string, benchItems)
	bare := make(map[string]int, benchItems)
	for i, entry := range s.Items {
		numbers[i] = entry.GetItem().GetItemNumber()
		bare[numbers[i]] = i
	}
	found := 0
	b.Run("bound: bare map", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			if bare[numbers[i%benchItems]] >= 0 {
				found++
			}
		}
	})
	b.Run("get", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			if s.Item("shop", numbers[i%benchItems]) != nil {
				found++
			}
		}
	})
	b.Run("next page", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			found += s.After("shop", numbers[i%benchItems])
		}
	})
	require.Positive(b, found)
}

// BenchmarkSearch asks for words among 10,000 items. The bound is to look for the text in every item, with no ranking.
func BenchmarkSearch(b *testing.B) {
	s := frozen(b, tenThousand(b))
	for _, question := range []string{"PU-01234", "thrifty cage", "pump"} {
		hits := len(s.Search(question, ""))
		require.Positive(b, hits)
		b.Run(strings.ReplaceAll(question, " ", "+"), func(b *testing.B) {
			for b.Loop() {
				require.Len(b, s.Search(question, ""), hits)
			}
			b.ReportMetric(float64(hits), "hits")
		})
	}
	b.Run("bound: every item read", func(b *testing.B) {
		for b.Loop() {
			hits := 0
			for _, entry := range s.Items {
				if strings.Contains(entry.GetItem().GetDescription(), "thrifty") {
					hits++
				}
			}
			require.Positive(b, hits)
		}
	})
}
