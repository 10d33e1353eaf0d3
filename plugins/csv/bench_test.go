package csvcatalogue

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"example.com/pondwright/plugins/contract"
)

// BenchmarkTenThousandPumpsInAWorkbook reads the same number of pumps and points from an xlsx workbook, without the checks.
func BenchmarkTenThousandPumpsInAWorkbook(b *testing.B) {
	file := excelize.NewFile()
	write := func(name string, rows int, cells func(i int) []any) {
		_, err := file.NewSheet(name)
		require.NoError(b, err)
		w, err := file.NewStreamWriter(name)
		require.NoError(b, err)
		for i := range rows {
			require.NoError(b, w.SetRow(fmt.Sprintf("A%d", i+1), cells(i)))
		}
		require.NoError(b, w.Flush())
	}
	write("pumps", 10_000, func(i int) []any { return []any{fmt.Sprintf("P-%05d", i), "pump", float64(i) + 0.5} })
	write("pump_curves", 100_000, func(i int) []any {
		return []any{fmt.Sprintf("P-%05d", i/10), 500 * (i % 10), 5 - 0.4*float64(i%10), 80 + i%10}
	})
	content, err := file.WriteToBuffer()
	require.NoError(b, err)
	b.SetBytes(int64(content.Len()))
	b.ReportAllocs()
	for b.Loop() {
		book, err := workbookBook(content.Bytes())
		require.NoError(b, err)
		require.Len(b, book.sheets["pump_curves"].rows, 100_000-1)
	}
}

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
