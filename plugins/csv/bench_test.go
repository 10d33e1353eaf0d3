package csvcatalogue

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"time"

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

// tenThousandPumps are the files of 10,000 pumps with ten points each.
func tenThousandPumps() map[string][]byte {
	var pumps, curves strings.Builder
	pumps.WriteString("item_number,description,price,in_stock\n")
	curves.WriteString("item_number,flow_l_per_h,head_m,power_w\n")
	for i := range 10_000 {
		fmt.Fprintf(&pumps, "P-%05d,pump,%d.50,%d\n", i, i, i%7)
		for j := range 10 {
			fmt.Fprintf(&curves, "P-%05d,%d,%.2f,%d\n", i, 500*j, 5-0.4*float64(j), 80+j)
		}
	}
	return map[string][]byte{
		"catalogue.csv": []byte("title,currency\nLong,EUR\n"), "pumps.csv": []byte(pumps.String()), "pump_curves.csv": []byte(curves.String()),
	}
}

func length(files map[string][]byte) (bytes int64) {
	for _, content := range files {
		bytes += int64(len(content))
	}
	return bytes
}

// parted reads the same bytes into cells, with the standard library and no checks: no reading of CSV files can cost less.
func parted(b *testing.B, files map[string][]byte) {
	cells := 0
	for _, content := range files {
		reader := csv.NewReader(bytes.NewReader(content))
		reader.ReuseRecord = true
		for {
			row, err := reader.Read()
			if errors.Is(err, io.EOF) {
				break
			}
			require.NoError(b, err)
			cells += len(row)
		}
	}
	require.Equal(b, 2*2+10_001*4+100_001*4, cells)
}

// BenchmarkTenThousandPumps reads a folder of 10,000 pumps with ten points each, with every check. Beside it stands how many times
// as long it takes as only parting the same bytes into cells.
func BenchmarkTenThousandPumps(b *testing.B) {
	files := tenThousandPumps()
	checker, err := contract.NewChecker()
	require.NoError(b, err)
	b.SetBytes(length(files))
	b.ReportAllocs()
	var bound time.Duration
	for b.Loop() {
		began := time.Now()
		parted(b, files)
		bound += time.Since(began)

		book, problems := folderBook(files)
		require.Empty(b, problems)
		c, problems := build(book, checker)
		require.Empty(b, problems)
		require.Len(b, c.results, 10_000)
	}
	b.ReportMetric((b.Elapsed()-bound).Seconds()/bound.Seconds(), "x-parting")
	b.ReportMetric(bound.Seconds()*1e3/float64(b.N), "ms-parting/op")
}
