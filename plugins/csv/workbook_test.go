package csvcatalogue

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"
)

// The workbooks were written by three libraries of other people (openpyxl 3.0.9, XlsxWriter 3.0.2 with formats and rich text,
// and excelize 2.11.1) from the CSV files of the older folder, and have to read as those do. The folder is as merchants have
// theirs from before there were further kinds and columns, and goes on loading.
func TestWorkbookReadsAsTheFolder(t *testing.T) {
	want, rejects := read(t, must(Open("testdata/older")))
	require.Empty(t, rejects)
	require.Len(t, want, 7)
	for _, name := range []string{"openpyxl", "xlsxwriter", "excelize"} {
		c, err := Open(filepath.Join("testdata", name+".xlsx"))
		require.NoError(t, err, name)
		got, rejects := read(t, c)
		assert.Empty(t, rejects, name)
		require.Len(t, got, len(want), name)
		for number, item := range want {
			assert.True(t, proto.Equal(item, got[number]), "%s: item %s: %v", name, number, got[number])
		}
		assert.Len(t, c.description.GetRevision(), 16)
		assert.Len(t, c.description.GetKinds(), 5)
	}
}

func TestWorkbookFaultsNameSheetRowAndColumn(t *testing.T) {
	_, rejects := read(t, must(Open("testdata/faults.xlsx")))
	for number, says := range map[string]string{
		"H-1": `sheet hoses row 2, column bore_mm: "(a date)" is not a number`,
		"L-1": `sheet liners row 2, column price_per_m2: "(a formula without its result)" is not a number`,
		"P-1": `sheet pumps row 2, column price: "89,00" has a comma`,
		"F-1": `sheet filters row 2, column medium_l: "#N/A" is not a number`,
		"U-1": `sheet lamp_units row 2, column lamp_count: "1.5" is not a whole number`,
	} {
		require.Contains(t, rejects, number)
		assert.Contains(t, rejects[number].Error(), says)
	}
	assert.Len(t, rejects, 5)
}

func TestWhatIsNoWorkbook(t *testing.T) {
	dir := t.TempDir()
	for name, says := range map[string]string{"list.xls": "is neither a folder of CSV files nor an xlsx workbook", "list.xlsx": "is not an xlsx workbook"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte("title,currency"), 0o600))
		_, err := Open(filepath.Join(dir, name))
		assert.ErrorContains(t, err, says)
	}
}

// Whatever the bytes, reading a workbook does not panic.
func FuzzWorkbook(f *testing.F) {
	for _, name := range []string{"openpyxl", "excelize", "faults"} {
		content, err := os.ReadFile(filepath.Join("testdata", name+".xlsx"))
		require.NoError(f, err)
		f.Add(content)
	}
	f.Fuzz(func(t *testing.T, content []byte) { _, _ = workbookBook(content) })
}
