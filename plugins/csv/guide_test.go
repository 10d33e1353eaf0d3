package csvcatalogue

import (
	"bytes"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"google.golang.org/protobuf/proto"

	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

func TestEveryColumnHasANoteAndEveryNoteAColumn(t *testing.T) {
	all, used := notes(), make(map[string]bool)
	for _, table := range newTables().all() {
		for _, c := range table.columns {
			n, ok := noteOf(all, table.name, c.name)
			assert.True(t, ok, "%s in %s has no note", c.name, table.name)
			assert.NotEmpty(t, n.what)
			used[c.name], used[table.name+"/"+c.name] = true, true
		}
	}
	for key := range all {
		assert.True(t, used[key], "the note %q is of no column", key)
	}
}

// The examples in the guide are a catalogue that loads, once the pump has a second point on its curve.
func TestExamplesInTheGuideAreACatalogue(t *testing.T) {
	files, err := Templates()
	require.NoError(t, err)
	for _, table := range newTables().all() {
		files[csvLabel(table.name)] = append(files[csvLabel(table.name)], csvBytes(table.example(notes()))...)
	}
	files["pump_curves.csv"] = append(files["pump_curves.csv"], "PU-60,6000,0.2,\n"...)
	c, err := openFiles(t, files)
	require.NoError(t, err)
	items, rejects := read(t, c)
	assert.Empty(t, rejects)
	assert.Len(t, items, 8)
	assert.Equal(t, 4000.0, items["FI-12"].GetFilter().GetDueLoss().GetFlowLPerH())
}

func TestTemplatesAreWrittenAndNothingIsOverwritten(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	require.NoError(t, WriteTemplates(dir))
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, entries, 12)
	assert.ErrorContains(t, WriteTemplates(dir), "is there already")

	require.NoError(t, os.WriteFile(filepath.Join(dir, "catalogue.csv"), []byte("title,currency\nMine,GBP\n"), 0o600))
	c, err := Open(dir)
	require.NoError(t, err, "empty templates are an empty catalogue")
	items, rejects := read(t, c)
	assert.Empty(t, items)
	assert.Empty(t, rejects)
}

// A workbook filled in as the guide's examples say reads as the folder does. It is filled in with excelize, as a person would.
func TestWorkbookTemplateFilledInIsACatalogue(t *testing.T) {
	files, err := Templates()
	require.NoError(t, err)
	book, err := excelize.OpenReader(bytes.NewReader(files[WorkbookFile]))
	require.NoError(t, err)
	for _, table := range newTables().all() {
		csv := csvLabel(table.name)
		fill := [][]string{table.example(notes())}
		if table.name == "pump_curves" {
			fill = append(fill, []string{"PU-60", "6000", "0.2", ""})
		}
		for i, cells := range fill {
			files[csv] = append(files[csv], csvBytes(cells)...)
			for j, cell := range cells {
				at, err := excelize.CoordinatesToCellName(j+1, i+2)
				require.NoError(t, err)
				if number, err := strconv.ParseFloat(cell, 64); err == nil {
					require.NoError(t, book.SetCellValue(table.name, at, number))
				} else {
					require.NoError(t, book.SetCellValue(table.name, at, cell))
				}
			}
		}
	}
	path := filepath.Join(t.TempDir(), WorkbookFile)
	require.NoError(t, book.SaveAs(path))
	got, rejects := read(t, must(Open(path)))
	assert.Empty(t, rejects)
	want, rejects := read(t, must(openFiles(t, files)))
	assert.Empty(t, rejects)
	require.Len(t, got, 8)
	for number, item := range want {
		assert.True(t, proto.Equal(item, got[number]), "%s: %v", number, got[number])
	}
}

func TestWorkbookTemplateOffersTheWordsOfAnEnum(t *testing.T) {
	files, err := Templates()
	require.NoError(t, err)
	book, err := excelize.OpenReader(bytes.NewReader(files[WorkbookFile]))
	require.NoError(t, err)
	offers, err := book.GetDataValidations("hoses")
	require.NoError(t, err)
	require.Len(t, offers, 1)
	assert.Equal(t, `"smooth,corrugated"`, offers[0].Formula1)
	assert.Equal(t, "E2:E20000", offers[0].Sqref)
	rows, err := book.GetRows("_columns")
	require.NoError(t, err)
	columns := 0
	for _, table := range newTables().all() {
		columns += len(table.columns)
	}
	assert.Len(t, rows, 1+columns)

	path := filepath.Join(t.TempDir(), WorkbookFile)
	require.NoError(t, os.WriteFile(path, files[WorkbookFile], 0o600))
	_, err = Open(path)
	assert.ErrorContains(t, err, "sheet catalogue: has 0 rows below its header", "an empty template is not a catalogue yet")
}

func TestGuideSaysWhatTheContractAllows(t *testing.T) {
	guide := Guide()
	words := strings.Join(enumWords(equipmentv1.FilterMedium(0).Descriptor())[1:], ", ")
	for _, row := range []string{
		"| item_number | yes | Your own number, used once in the whole catalogue. | text of up to 64 letters |  |",
		"| price | no | Selling price. An item without one is listed, and never suggested. | number from 0 to 1000000 |  |",
		"| medium | yes | What the bacteria live on. | " + words + " |  |",
		"| lamp_count | yes | How many lamps are in the unit. | whole number from 1 to 20 |  |",
		"| head_m | yes | Head at this flow. It falls from row to row of a pump, but for a small rise near no flow. | number from 0 to 200 | head_ft, head_kpa, head_bar |",
		"| price_per_m | yes | Selling price of a metre. | number from 0 to 10000 | price_per_ft |",
		"| length_mass_coefficient | no | a of W = a L^b, W in g and L in cm. Published for most species; give a and b, or neither. | number from 0.0005 to 0.1 |  |",
		"| kind | yes | What it is called in the trade. | elbow_90, bend_90, elbow_45, bend_45, tee, ball_valve, gate_valve, check_valve, coupling, hose_tail, reducer, tank_connector |  |",
		"| max_water_temperature_c | no | Warmest water it may be kept in all year. | number from 0 to 40 | max_water_temperature_f |",
		"| roll_width_m | yes | Widest sheet without a seam. | number above 0 to 50 | roll_width_mm, roll_width_cm, roll_width_ft, roll_width_in |",
		"| due_loss_head_m | all due_loss cells or none | Head lost at that flow when the filter is due for cleaning. | number from 0 to 50 | due_loss_head_ft, due_loss_head_kpa, due_loss_head_bar |",
	} {
		assert.Contains(t, guide, row)
	}
}
