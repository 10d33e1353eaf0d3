package csvcatalogue

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/contract"
)

// BenchmarkTenThousandPumps reads a folder of 10,000 pumps with ten points each, with every check.
func BenchmarkTenThousandPumps(b *testing.B) {
	var pumps, curves strings.Builder
	pumps.WriteString("item_number,description,price\n")
	curves.WriteString("item_number,flow_l_per_h,head_m,power_w\n")
	for i := range 10_000 {
		fmt.Fprintf(&pumps, "P-%05d,pump,%d.50\n", i, i)
		for j := range 10 {
			fmt.Fprintf(&curves, "P-%05d,%d,%.2f,%d\n", i, 500*j, 5-0.4*float64(j), 80+j)
		}
	}
	files := map[string][]byte{
		"catalogue.csv": []byte("title,currency\nLong,EUR\n"), "pumps.csv": []byte(pumps.String()), "pump_curves.csv": []byte(curves.String()),
	}
	checker, err := contract.NewChecker()
	require.NoError(b, err)
	b.SetBytes(int64(pumps.Len() + curves.Len()))
	b.ReportAllocs()
	for b.Loop() {
		book, problems := folderBook(files)
		require.Empty(b, problems)
		c, problems := build(book, checker)
		require.Empty(b, problems)
		require.Len(b, c.results, 10_000)
	}
}
