package csvcatalogue

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/contract"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

const goodDir = "testdata/good"

// goodFiles are the contents of the good folder, to be spoilt.
func goodFiles(t testing.TB) map[string][]byte {
	t.Helper()
	files, err := readFiles(goodDir)
	require.NoError(t, err)
	return files
}

// edit replaces the first of a text in a file, which must be there.
func edit(t testing.TB, files map[string][]byte, file, old, new string) {
	t.Helper()
	require.Contains(t, string(files[file]), old)
	files[file] = []byte(strings.Replace(string(files[file]), old, new, 1))
}

func openFiles(t testing.TB, files map[string][]byte) (*Catalogue, error) {
	t.Helper()
	dir := t.TempDir()
	for name, content := range files {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), content, 0o600))
	}
	return Open(dir)
}

// read separates what a catalogue yields, by item number.
func read(t testing.TB, c *Catalogue) (map[string]*equipmentv1.Item, map[string]*contract.Rejected) {
	t.Helper()
	items, rejects := make(map[string]*equipmentv1.Item), make(map[string]*contract.Rejected)
	for item, err := range c.Items(context.Background()) {
		var r *contract.Rejected
		if errors.As(err, &r) {
			rejects[r.ItemNumber] = r
			continue
		}
		require.NoError(t, err)
		items[item.GetItemNumber()] = item
	}
	return items, rejects
}

func TestFolderIsRead(t *testing.T) {
	c, err := Open(goodDir)
	require.NoError(t, err)
	d, err := c.Describe(t.Context())
	require.NoError(t, err)
	assert.Equal(t, "Test range (invented)", d.GetTitle())
	assert.Equal(t, "EUR", d.GetCurrency())
	assert.Equal(t, "Invented data for tests", d.GetNotice())
	assert.Len(t, d.GetRevision(), 16)
	assert.Equal(t, []equipmentv1.ItemKind{1, 2, 3, 4, 5, 6, 7, 8}, d.GetKinds())

	items, rejects := read(t, c)
	assert.Empty(t, rejects)
	require.Len(t, items, 11)
	p1, p2 := items["P-1"].GetPump(), items["P-2"].GetPump()
	assert.Equal(t, 89.0, items["P-1"].GetPrice())
	assert.Nil(t, p1.PowerW)
	require.Len(t, p1.GetCurve(), 3)
	require.NotNil(t, p1.GetCurve()[0].FlowLPerH, "a zero in a cell is zero")
	assert.Zero(t, p1.GetCurve()[0].GetFlowLPerH())
	assert.Equal(t, 2.2, p1.GetCurve()[1].GetHeadM())
	assert.Equal(t, 66.0, p1.GetCurve()[2].GetPowerW())
	assert.Equal(t, 95.0, p2.GetPowerW())
	assert.Nil(t, p2.GetCurve()[0].PowerW)
	assert.Nil(t, p2.LabelFlowLPerH, "an empty cell is not zero")
	assert.Equal(t, 1.4, items["F-1"].GetFilter().GetDueLoss().GetHeadM())
	assert.Nil(t, items["F-2"].GetFilter().GetCleanLoss())
	assert.Equal(t, equipmentv1.FilterBody_FILTER_BODY_OPEN, items["F-2"].GetFilter().GetBody())
	assert.EqualValues(t, 1, items["U-1"].GetLampUnit().GetLampCount())
	assert.Equal(t, equipmentv1.HoseWall_HOSE_WALL_SMOOTH, items["H-1"].GetHose().GetWall())
	assert.Equal(t, 8.4, items["L-1"].GetLiner().GetPricePerM2())
	assert.Equal(t, equipmentv1.FittingKind_FITTING_KIND_TEE, items["T-1"].GetFitting().GetKind())
	assert.Equal(t, 1.1, items["T-1"].GetFitting().GetBranchLossCoefficient())
	assert.Nil(t, items["T-2"].GetFitting().LossCoefficient, "an empty cell is not zero")
	assert.Equal(t, 25.0, items["T-2"].GetFitting().GetWideBoreMm())
	assert.Equal(t, 1.6, items["M-1"].GetMedium().GetPricePerL())
	assert.Equal(t, "goldfish", items["G-1"].GetFishSpecies().GetCommonName())
	assert.Equal(t, 28.0, items["G-1"].GetFishSpecies().GetMaxWaterTemperatureC())
	assert.EqualValues(t, 4, items["P-1"].GetInStock())
	require.NotNil(t, items["P-2"].InStock, "none on hand is not the same as not known")
	assert.Zero(t, items["P-2"].GetInStock())
	assert.Nil(t, items["F-2"].InStock)
}

func TestRevisionFollowsTheContents(t *testing.T) {
	files := goodFiles(t)
	before := revision(files)
	assert.Equal(t, before, revision(goodFiles(t)))
	edit(t, files, "pumps.csv", "89.00", "89.01")
	assert.NotEqual(t, before, revision(files))
	moved := goodFiles(t)
	moved["hoses.csv"], moved["liners.csv"] = moved["liners.csv"], moved["hoses.csv"]
	assert.NotEqual(t, before, revision(moved), "the same bytes in other files are another catalogue")
}

// What programs do to a file on saving it makes no difference.
func TestHowAFileIsSavedMakesNoDifference(t *testing.T) {
	want, _ := read(t, must(openFiles(t, goodFiles(t))))
	for name, save := range map[string]func(string) string{
		"byte order mark":    func(s string) string { return "\ufeff" + s },
		"CRLF":               func(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") },
		"no last line end":   func(s string) string { return strings.TrimRight(s, "\n") },
		"empty rows":         func(s string) string { return s + "\n,,,\n\n" },
		"empty last columns": func(s string) string { return strings.ReplaceAll(s, "\n", ",,\n") },
		"capital header": func(s string) string {
			h, rest, _ := strings.Cut(s, "\n")
			return strings.ToUpper(strings.ReplaceAll(h, "_", " ")) + "\n" + rest
		},
		"space round cells": func(s string) string { return strings.ReplaceAll(strings.ReplaceAll(s, ",,", ", ,"), ".2,", ".2 ,") },
		"semicolons":        semicolons,
	} {
		t.Run(name, func(t *testing.T) {
			files := goodFiles(t)
			for file, content := range files {
				files[file] = []byte(save(string(content)))
			}
			c, err := openFiles(t, files)
			require.NoError(t, err)
			got, rejects := read(t, c)
			assert.Empty(t, rejects)
			require.Len(t, got, len(want))
			for number, item := range want {
				assert.EqualExportedValues(t, item, got[number])
			}
		})
	}
}

// semicolons writes a file as a spreadsheet does where the decimal mark is a comma.
func semicolons(s string) string {
	var b strings.Builder
	quoted := false
	for i, r := range s {
		switch {
		case r == '"':
			quoted = !quoted
			b.WriteRune(r)
		case quoted:
			b.WriteRune(r)
		case r == ',':
			b.WriteRune(';')
		case r == '.' && i > 0 && i+1 < len(s) && isDigit(s[i-1]) && isDigit(s[i+1]) && s[i+2:i+3] != " ":
			b.WriteRune(',')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

func isDigit(b byte) bool { return '0' <= b && b <= '9' }

func must(c *Catalogue, err error) *Catalogue {
	if err != nil {
		panic(err)
	}
	return c
}

// Every column of the contract is in the good folder, so that the tests above have been through each.
func TestGoodFolderHasEveryColumn(t *testing.T) {
	files, all := goodFiles(t), newTables()
	for _, table := range append(all.kinds, all.about, all.curves) {
		s, problem := readSheet(table.name, files[csvLabel(table.name)])
		require.Nil(t, problem)
		for _, c := range table.columns {
			assert.Contains(t, s.header, c.name, table.name)
		}
	}
}
